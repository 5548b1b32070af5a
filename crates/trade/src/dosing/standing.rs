//! Where one line of sets stands: rung, since when, how many qualifying sessions, and whether a step is earned.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::HoldTime;

use super::judge::{Blank, Judged, Judgement, Shortfall, judge};
use super::season;
use crate::gate::Gate;
use crate::history::{Block, Context, History, Move, Placement, Session, days_between};
use crate::name::{ExerciseId, RungId};
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
    /// Latest day on which this line went up: by a confirmed step or, where no decision is on record, by the rungs
    /// that were prescribed.
    pub rose: Option<Date>,
    /// The latest decision of a person that moved this line.
    pub moved: Option<(Date, Move)>,
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

/// The sets of each line in order of time, found once for all lines.
pub type Lines<'a> = BTreeMap<(&'a ExerciseId, WorkingSide), Vec<(&'a Session, &'a Block)>>;

/// Groups the sets of a record by line, up to and with the day asked about.
pub fn lines_of(history: &History, on: Date) -> Lines<'_> {
    let mut lines = Lines::new();
    for session in history.sessions.iter().filter(|session| session.date <= on) {
        for block in &session.blocks {
            lines.entry((&block.exercise, block.side)).or_default().push((session, block));
        }
    }
    lines
}

/// Days with sets on record, in order.
pub fn loaded_days(history: &History) -> Vec<Date> {
    let mut days: Vec<Date> = history
        .sessions
        .iter()
        .filter(|session| !session.blocks.is_empty())
        .map(|session| session.date)
        .collect();
    days.sort_unstable();
    days.dedup();
    days
}

/// Reads the record of one line up to, and with, the day asked about. Nothing is counted yet.
pub fn standing_of(
    parameters: &Parameters,
    exercise: &Exercise,
    side: WorkingSide,
    history: &History,
    lines: &Lines<'_>,
    on: Date,
) -> Standing {
    let placements: Vec<&Placement> = history
        .placements
        .iter()
        .filter(|place| place.exercise == exercise.id && place.side == side && place.date <= on)
        .collect();
    let blocks = lines.get(&(&exercise.id, side)).map_or(&[][..], Vec::as_slice);
    let all: Vec<Judged> =
        blocks.iter().map(|(session, block)| judge(parameters, exercise, history, session, block)).collect();

    // Without a decision on record the rungs that were prescribed speak, except on days when the calendar asked for a
    // lower one for that session only.
    let prescribed: Vec<&Judged> = all
        .iter()
        .enumerate()
        .filter(|(index, judged)| {
            *index == 0 || !season::lowers_rungs(parameters, &history.calendar, judged.date)
        })
        .map(|(_, judged)| judged)
        .collect();
    let placed = placements.last();
    let rung = placed
        .map(|place| place.rung.clone())
        .or_else(|| prescribed.last().map(|judged| judged.planned.clone()));
    let arrival = arrival_on(&placements, rung.as_ref());
    let sessions: Vec<Judged> = match (&rung, arrival) {
        (Some(_), Some(arrival)) => {
            // A step confirmed after a session of the same day must not claim that session for the new rung.
            let here = |judged: &&Judged| arrival.date <= judged.date && judged.planned == arrival.rung;
            all.iter().filter(here).cloned().collect()
        }
        (Some(rung), None) => {
            let run = prescribed.iter().rev().take_while(|judged| judged.planned == *rung).count();
            prescribed[prescribed.len() - run..].iter().map(|judged| (*judged).clone()).collect()
        }
        (None, _) => Vec::new(),
    };
    let rose = if placements.is_empty() {
        last_rise(exercise, &prescribed)
    } else {
        let steps = placements.iter().filter(|place| matches!(place.because, Move::Up | Move::Switch));
        steps.map(|place| place.date).max()
    };
    Standing {
        arrived_by: arrival.map(|place| place.because),
        arrived: arrival.map(|place| place.date).or_else(|| sessions.first().map(|judged| judged.date)),
        rose,
        moved: placements.last().map(|place| (place.date, place.because)),
        rung,
        timed_ever: all.len(),
        last_session: all.last().map(|judged| judged.date),
        count: 0,
        earned: None,
        lapsed: None,
        sessions,
    }
}

/// The latest day on which a higher rung was prescribed than the session before.
fn last_rise(exercise: &Exercise, prescribed: &[&Judged]) -> Option<Date> {
    let place = |judged: &Judged| exercise.place_of(&judged.planned);
    prescribed.windows(2).rev().find(|pair| place(pair[0]) < place(pair[1])).map(|pair| pair[1].date)
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

/// Days since the loaded day before one day, of the whole swimmer: a gap is not one of a single exercise.
fn gap_before(loaded: &[Date], day: Date) -> i32 {
    let earlier = loaded.partition_point(|other| *other < day);
    earlier.checked_sub(1).map_or(0, |last| days_between(loaded[last], day))
}

/// Counts qualifying sessions towards a step that needs so many of them. `loaded` are the swimmer's days with sets,
/// and `held_on` says whether the rules forbade
/// steps up on a day: a step earned then is held, and a later session that falls short does not take it away.
pub fn count(
    parameters: &Parameters,
    loaded: &[Date],
    gate: &Gate,
    need: u8,
    held_on: impl Fn(Date) -> bool,
    standing: &mut Standing,
) {
    let restart_gap = i32::from(parameters.gap_days[0]);
    let lapse_gap = i32::from(parameters.held_up_gap_days);
    let valid_days = i32::from(parameters.held_up_valid_weeks) * 7;
    let mut context: Option<Context> = None;
    let mut previous: Option<Date> = None;
    let mut counted: Option<Date> = None;
    standing.count = 0;
    standing.earned = None;
    standing.lapsed = None;
    let sessions = std::mem::take(&mut standing.sessions);
    for judged in &sessions {
        let day = judged.date;
        let gap = gap_before(loaded, day);
        if restart_gap < gap {
            standing.count = 0;
        }
        if lapse_gap < gap {
            standing.lapse(Lapse::Gap);
        }
        if pain_between(gate, previous, day) {
            standing.lapse(Lapse::Pain);
        }
        if standing.earned.is_some_and(|earned| valid_days < days_between(earned, day)) {
            standing.lapse(Lapse::Weeks);
        }
        match &judged.judgement {
            // Never two shoulder sessions a day: a second one shows nothing that the first has not.
            Judgement::Qualified if counted == Some(day) => {}
            Judgement::Qualified => {
                if context != Some(judged.context) {
                    standing.count = 0;
                    context = Some(judged.context);
                }
                counted = Some(day);
                standing.count = standing.count.saturating_add(1);
                if need <= standing.count && standing.earned.is_none() {
                    standing.earned = Some(day);
                }
            }
            Judgement::Short(shortfall) => match shortfall {
                Shortfall::PainEnded { .. } | Shortfall::PainSpoken { is_ache: false } => {
                    standing.lapse(Lapse::Pain);
                }
                _ => {
                    standing.count = 0;
                    if standing.earned.is_some_and(|earned| !held_on(earned) && !held_on(day)) {
                        standing.lapse(Lapse::FellShort);
                    }
                }
            },
            Judgement::Neutral(_) => {}
        }
        previous = Some(day);
    }
    standing.sessions = sessions;
    // A session on the day itself means the swimmer is back: no gap is open.
    let trained_today = loaded.binary_search(&gate.on).is_ok();
    let gap = if trained_today { 0 } else { gap_before(loaded, gate.on) };
    if restart_gap < gap {
        standing.count = 0;
    }
    if lapse_gap < gap {
        standing.lapse(Lapse::Gap);
    }
    if pain_between(gate, previous, gate.on) {
        standing.lapse(Lapse::Pain);
    }
    if standing.earned.is_some_and(|day| valid_days < days_between(day, gate.on)) {
        standing.lapse(Lapse::Weeks);
    }
}

/// A pain event after one day and up to another. An event on the session's own day is already in its judgement,
/// but counts here too: a step is never earned past pain.
fn pain_between(gate: &Gate, after: Option<Date>, up_to: Date) -> bool {
    gate.pain_events.iter().any(|event| after.is_some_and(|after| after < event.date) && event.date <= up_to)
}

impl Standing {
    /// Nothing counts any more; an earned step is gone, with the reason kept.
    fn lapse(&mut self, why: Lapse) {
        self.count = 0;
        if let Some(day) = self.earned.take() {
            self.lapsed = Some((day, why));
        }
    }

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

    /// The latest session at this rung.
    pub fn latest(&self) -> Option<&Judged> {
        self.sessions.last()
    }

    /// Nothing but calibration sets since the line began, or began again.
    pub fn is_calibrating(&self) -> bool {
        let began_here = self.arrived_by == Some(Move::Start) || self.timed_ever == self.sessions.len();
        began_here && !self.sessions.is_empty() && self.sessions.iter().all(|judged| judged.is_calibration)
    }

    /// The latest session is one in which a cap went unseen.
    pub fn rests_on_unseen(&self) -> bool {
        matches!(
            self.latest().map(|judged| &judged.judgement),
            Some(Judgement::Neutral(Blank::Unseen { .. }))
        )
    }
}
