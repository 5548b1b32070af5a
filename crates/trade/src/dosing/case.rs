//! One line of sets with everything a rule may look at.

use super::absence::Return;
use super::bounds::Bounds;
use super::gap::Gap;
use super::own::is_early_growth;
use super::{Action, Count, Dose, Proposal};
use crate::gate::{ActiveLimit, Gate};
use crate::history::History;
use crate::name::RungId;
use crate::protocol::{Counting, Exercise, Loads, Parameters, Protocol, Rung, Tag};
use crate::rule::dose_rules as codes;
use crate::side::{Side, WorkingSide};
use crate::trace::{Arg, Class, Line};

/// One exercise on one side of one swimmer on one day.
#[derive(Clone, Copy)]
pub struct Case<'a> {
    /// Protocol in force.
    pub protocol: &'a Protocol,
    /// Record of the swimmer.
    pub history: &'a History,
    /// What the gate says of the day.
    pub gate: &'a Gate,
    /// What the calendar, an absence and the tracks leave room for.
    pub bounds: &'a Bounds,
    /// The gap that this line has to come back from, with the table's answer.
    pub gap: Option<(Gap, Return)>,
    /// Days of a gap that this line has to come back from and in which the swimmer was injured.
    pub injured_days: Option<i32>,
    /// On the way back after an injury.
    pub on_the_way: bool,
    /// Exercise.
    pub exercise: &'a Exercise,
    /// Side.
    pub side: WorkingSide,
}

impl<'a> Case<'a> {
    /// Master parameters.
    pub fn parameters(&self) -> &'a Parameters {
        &self.protocol.parameters
    }

    /// Every shoulder this line loads, support arms included.
    pub fn shoulders(&self) -> &'static [Side] {
        match (self.exercise.loads, self.side) {
            (Loads::NoShoulder, _) => &[],
            (Loads::WorkingShoulder, WorkingSide::Left) => &[Side::Left],
            (Loads::WorkingShoulder, WorkingSide::Right) => &[Side::Right],
            _ => &Side::BOTH,
        }
    }

    /// Signed limits that concern this line.
    pub fn limits(&self) -> impl Iterator<Item = &'a ActiveLimit> {
        let shoulders = self.shoulders();
        self.gate.limits.iter().filter(move |limit| {
            limit.side.is_none_or(|side| shoulders.contains(&side)) && !shoulders.is_empty()
        })
    }

    /// Qualifying sessions needed: the careful number as soon as one reason asks for it.
    pub fn need(&self, restarted: bool) -> u8 {
        let parameters = self.parameters();
        if restarted || !self.bounds.careful.is_empty() {
            parameters.n_qualify_careful.max(parameters.n_qualify)
        } else {
            parameters.n_qualify
        }
    }

    /// Why a rung may not be given to this swimmer, if it may not.
    pub fn rung_locked(&self, rung: &Rung) -> Option<Line> {
        let age = self.history.swimmer.age_on(self.gate.on);
        if let Some(from_age) = rung.from_age
            && age < i16::from(from_age)
        {
            return Some(
                Line::new(codes::P14, "step-too-young", Class::Dose)
                    .with("rung", self.named(&rung.id))
                    .with("age", Arg::Count(i64::from(from_age))),
            );
        }
        let has = |tag: Tag| rung.tags.contains(&tag) || self.exercise.tags.contains(&tag);
        for limit in self.limits() {
            if let Some(tag) = limit.locked_tags.iter().find(|tag| has(**tag)) {
                return Some(
                    Line::new(codes::B8, "limit-locks-tag", Class::Dose)
                        .with("tag", Arg::Word(format!("tag-{}", tag.word())))
                        .with("until", Arg::Date(limit.until)),
                );
            }
        }
        let above = |top: &Option<RungId>| {
            top.as_ref()
                .and_then(|top| self.exercise.place_of(top))
                .zip(self.exercise.place_of(&rung.id))
                .is_some_and(|(top, place)| top < place)
        };
        if let Some(growth) = &self.gate.tracks.growth {
            let early = is_early_growth(self.parameters(), growth);
            if has(Tag::NinetyNinety) || (early && above(&self.exercise.growth_top)) {
                return Some(growth.line.clone());
            }
        }
        if let Some(line) = &self.gate.tracks.hypermobile
            && (above(&self.exercise.hypermobile.top) || has(Tag::NinetyNinety))
        {
            return Some(line.clone());
        }
        None
    }

    /// A rung as a value in a sentence.
    pub fn named(&self, rung: &RungId) -> Arg {
        Arg::Rung(self.exercise.id.clone(), rung.clone())
    }

    /// The dose on one rung, narrowed by everything that applies.
    pub fn dose(&self, rung: Option<RungId>) -> Dose {
        let parameters = self.parameters();
        let own_tempo = rung.as_ref().and_then(|rung| self.exercise.rung(rung)).and_then(|rung| rung.tempo);
        let track_tempo = self.gate.tracks.hypermobile.as_ref().and(self.exercise.hypermobile.tempo);
        let usual_tempo = track_tempo.unwrap_or(self.exercise.tempo);
        let mut sets = self.bounds.sets.map_or(parameters.sets, |sets| sets.min(parameters.sets));
        let full = self.exercise.cap(parameters);
        let mut cap = self.bounds.cap.map_or(full, |cap| cap.min(full));
        for limit in self.limits() {
            sets = limit.sets.map_or(sets, |limited| limited.min(sets));
            cap = limit.cap.map_or(cap, |limited| limited.min(cap));
        }
        let timed = self.exercise.counting == Counting::Timed;
        Dose { rung, sets, cap, rest: parameters.rest, tempo: own_tempo.unwrap_or(usual_tempo), timed }
    }

    /// The dose of a teaching session.
    pub fn teaching_dose(&self, rung: Option<RungId>) -> Dose {
        let parameters = self.parameters();
        let dose = self.dose(rung);
        Dose {
            sets: dose.sets.min(parameters.teaching_sets),
            cap: dose.cap.min(parameters.teaching_seconds[1]),
            timed: false,
            ..dose
        }
    }

    /// The dose of a calibration set.
    pub fn calibration_dose(&self, rung: Option<RungId>) -> Dose {
        let dose = self.dose(rung);
        Dose { sets: 1, cap: dose.cap.min(self.parameters().calibration_seconds[1]), ..dose }
    }

    /// The rung so many places lower, never below the lowest.
    pub fn lower(&self, rung: &RungId, by: usize) -> RungId {
        let place = self.exercise.place_of(rung).unwrap_or(0).saturating_sub(by);
        self.exercise.ladder.get(place).map_or_else(|| rung.clone(), |lower| lower.id.clone())
    }

    /// The rung that may really be given: so many places lower, or as many as this session asks for if that is more,
    /// and below every rung that is locked.
    pub fn given(&self, rung: &RungId, by: usize) -> Given {
        self.open_at_or_below(&self.lower(rung, by.max(self.bounds.rungs_lower)))
    }

    /// The highest rung at or below this one that is not locked. The lock comes along where it moved anything.
    pub fn open_at_or_below(&self, rung: &RungId) -> Given {
        let place = self.exercise.place_of(rung).unwrap_or(0);
        let mut why = None;
        for candidate in self.exercise.ladder.iter().take(place + 1).rev() {
            match self.rung_locked(candidate) {
                None => return Given::Rung(candidate.id.clone(), why),
                Some(line) => why = why.or(Some(line)),
            }
        }
        let unknown =
            Line::new(codes::D7, "rung-unknown", Class::Dose).with("name", Arg::Verbatim(rung.to_string()));
        Given::Nothing(why.unwrap_or(unknown))
    }

    /// Every rung that might be given is locked: the exercise is left out.
    pub fn all_locked(&self, from: Option<RungId>, locked: Line) -> Proposal {
        self.nothing(Action::LeaveOut, from, vec![locked])
    }

    /// A proposal that gives nothing.
    pub fn nothing(&self, action: Action, from: Option<RungId>, trace: Vec<Line>) -> Proposal {
        self.proposal(action, from, None, Count { have: 0, need: self.need(false) }, trace)
    }

    /// A proposal; what must be confirmed alone comes from the bounds.
    pub fn proposal(
        &self,
        action: Action,
        from: Option<RungId>,
        dose: Option<Dose>,
        count: Count,
        trace: Vec<Line>,
    ) -> Proposal {
        let alone = if dose.is_some() { self.bounds.alone.clone() } else { Vec::new() };
        Proposal {
            exercise: self.exercise.id.clone(),
            side: self.side,
            action,
            from,
            dose,
            count,
            trace,
            alone,
        }
    }
}

/// The rung that may be given.
pub enum Given {
    /// This one, and the lock that pushed it there, if one did.
    Rung(RungId, Option<Line>),
    /// None: the first lock in the way.
    Nothing(Line),
}
