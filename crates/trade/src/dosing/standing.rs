//! Where one line of sets stands: rung, since when, how many qualifying sessions, and whether a step is earned.

use jiff::civil::Date;
use quantity::HoldTime;

use super::judge::{Blank, Judged, Judgement, Shortfall, judge};
use crate::gate::Gate;
use crate::history::{Context, History, Move, Placement, days_between};
use crate::name::RungId;
use crate::protocol::{Exercise, Parameters};
use crate::side::WorkingSide;

/// One line of sets: an exercise on one side, as far as it has come.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Rung now; none before the first timed set or placement.
    pub rung: Option<RungId>,
    /// Why the swimmer came to this rung, where a person's decision says so.
    pub arrived_by: Option<Move>,
    /// First day on this rung.
    pub arrived: Option<Date>,
    /// A step up was confirmed on this line before.
    pub has_stepped: bool,
    /// Sessions at this rung, oldest first.
    pub sessions: Vec<Judged>,
    /// Timed sessions of this line ever, at any rung.
    pub timed_ever: usize,
    /// Latest session of this line at any rung.
    pub last_session: Option<Date>,
    /// Qualifying sessions that count now.
    pub count: u8,
    /// The step was earned on this day and has not lapsed.
    pub earned: Option<Date>,
    /// A step had been earned on this day and has lapsed since.
    pub lapsed: Option<(Date, Lapse)>,
}

/// Why an earned step no longer holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lapse {
    /// Too long ago.
    Weeks,
    /// A long absence since.
    Gap,
    /// A pain event since.
    Pain,
    /// A later full session fell short.
    FellShort,
}

/// Walks through the record of one line up to, and without, the day asked about.
pub fn standing_of(
    parameters: &Parameters,
    exercise: &Exercise,
    side: WorkingSide,
    history: &History,
    gate: &Gate,
    need: u8,
) -> Standing {
    let on = gate.on;
    let placements: Vec<_> = history
        .placements
        .iter()
        .filter(|place| place.exercise == exercise.id && place.side == side && place.date <= on)
        .collect();
    let all: Vec<Judged> = history
        .sessions
        .iter()
        .filter(|session| session.date <= on)
        .flat_map(|session| session.blocks.iter().map(move |block| (session, block)))
        .filter(|(_, block)| block.exercise == exercise.id && block.side == side)
        .map(|(session, block)| judge(parameters, exercise, history, session, block))
        .collect();

    let placed = placements.last();
    let rung =
        placed.map(|place| place.rung.clone()).or_else(|| all.last().map(|judged| judged.planned.clone()));
    let arrival = arrival_on(&placements, rung.as_ref());
    let sessions: Vec<Judged> = match (&rung, arrival) {
        (Some(_), Some(arrival)) => {
            // A step confirmed after a session of the same day must not claim that session for the new rung.
            let here = |judged: &&Judged| arrival.date <= judged.date && judged.planned == arrival.rung;
            all.iter().filter(here).cloned().collect()
        }
        (Some(rung), None) => {
            let run = all.iter().rev().take_while(|judged| judged.planned == *rung).count();
            all[all.len() - run..].to_vec()
        }
        (None, _) => Vec::new(),
    };
    let mut standing = Standing {
        arrived_by: arrival.map(|place| place.because),
        arrived: arrival.map(|place| place.date).or_else(|| sessions.first().map(|judged| judged.date)),
        has_stepped: placements.iter().any(|place| place.because == Move::Up),
        rung,
        timed_ever: all.len(),
        last_session: all.last().map(|judged| judged.date),
        count: 0,
        earned: None,
        lapsed: None,
        sessions,
    };
    count_towards_a_step(parameters, history, gate, need, &mut standing);
    standing
}

/// Where the stay on a rung began. Several decisions may confirm one rung: the first of the last unbroken run of
/// them counts, unless a switch within it changed the variant, which starts the stay afresh.
fn arrival_on<'a>(placements: &[&'a Placement], rung: Option<&RungId>) -> Option<&'a Placement> {
    let mut arrival = None;
    for place in placements.iter().rev().take_while(|place| Some(&place.rung) == rung) {
        arrival = Some(*place);
        if place.because == Move::Switch {
            break;
        }
    }
    arrival
}

/// Days of loaded work of the whole swimmer: a gap is a gap of the swimmer, not of one exercise.
fn gap_before(history: &History, day: Date) -> i32 {
    history
        .sessions
        .iter()
        .rfind(|session| session.date < day && !session.blocks.is_empty())
        .map_or(0, |session| days_between(session.date, day))
}

fn count_towards_a_step(
    parameters: &Parameters,
    history: &History,
    gate: &Gate,
    need: u8,
    standing: &mut Standing,
) {
    let restart_gap = i32::from(parameters.gap_days[0]);
    let lapse_gap = i32::from(parameters.held_up_gap_days);
    let mut context: Option<Context> = None;
    let mut previous: Option<Date> = None;
    let lapse = |standing: &mut Standing, why: Lapse| {
        if let Some(day) = standing.earned.take() {
            standing.lapsed = Some((day, why));
        }
    };
    for judged in standing.sessions.clone() {
        let gap = gap_before(history, judged.date);
        if restart_gap < gap {
            standing.count = 0;
        }
        if lapse_gap < gap {
            lapse(standing, Lapse::Gap);
        }
        if pain_between(gate, previous, judged.date) {
            standing.count = 0;
            lapse(standing, Lapse::Pain);
        }
        match &judged.judgement {
            Judgement::Qualified => {
                if context != Some(judged.context) {
                    standing.count = 0;
                    context = Some(judged.context);
                }
                standing.count = standing.count.saturating_add(1);
                if need <= standing.count && standing.earned.is_none() {
                    standing.earned = Some(judged.date);
                }
            }
            Judgement::Short(shortfall) => {
                standing.count = 0;
                let by_pain = matches!(shortfall, Shortfall::PainEnded { .. } | Shortfall::PainSpoken { .. });
                lapse(standing, if by_pain { Lapse::Pain } else { Lapse::FellShort });
            }
            Judgement::Neutral(_) => {}
        }
        previous = Some(judged.date);
    }
    // A session on the day itself means the swimmer is back: no gap is open.
    let trained_today =
        history.sessions.iter().any(|session| session.date == gate.on && !session.blocks.is_empty());
    let gap = if trained_today { 0 } else { gap_before(history, gate.on) };
    if restart_gap < gap {
        standing.count = 0;
    }
    if lapse_gap < gap {
        lapse(standing, Lapse::Gap);
    }
    if pain_between(gate, previous, gate.on) {
        standing.count = 0;
        lapse(standing, Lapse::Pain);
    }
    let valid_days = i32::from(parameters.held_up_valid_weeks) * 7;
    if standing.earned.is_some_and(|day| valid_days < days_between(day, gate.on)) {
        lapse(standing, Lapse::Weeks);
    }
}

/// A pain event after one day and up to another. An event on the session's own day is already in its judgement,
/// but counts here too: a step is never earned past pain.
fn pain_between(gate: &Gate, after: Option<Date>, up_to: Date) -> bool {
    gate.pain_events.iter().any(|event| after.is_some_and(|after| after < event.date) && event.date <= up_to)
}

impl Standing {
    /// Totals that may be compared with the latest one: same rung, same context, full cap, complete.
    pub fn comparable_totals(&self) -> Vec<(Date, HoldTime)> {
        let Some(latest) = self.sessions.iter().rev().find(|judged| judged.comparable_total.is_some()) else {
            return Vec::new();
        };
        self.sessions
            .iter()
            .filter(|judged| judged.context == latest.context)
            .filter_map(|judged| judged.comparable_total.map(|total| (judged.date, total)))
            .collect()
    }

    /// The latest session that says anything at all.
    pub fn latest(&self) -> Option<&Judged> {
        self.sessions.last()
    }

    /// Only calibration sets stand on record at this rung.
    pub fn is_calibrating(&self) -> bool {
        self.timed_ever == self.sessions.len()
            && !self.sessions.is_empty()
            && self.sessions.iter().all(|judged| judged.is_calibration)
    }

    /// The latest session is one in which a cap went unseen.
    pub fn rests_on_unseen(&self) -> bool {
        matches!(
            self.latest().map(|judged| &judged.judgement),
            Some(Judgement::Neutral(Blank::Unseen { .. }))
        )
    }
}
