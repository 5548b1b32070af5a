//! Sets from the record, as the model reads them.

use std::collections::BTreeMap;

use jiff::civil::Date;
use store::SubjectId;
use trade::history::{Block, Context, End, Session, Set, Watched, days_between};
use trade::name::{ExerciseId, RungId};
use trade::protocol::Protocol;
use trade::side::WorkingSide;

use crate::desk::Person;

/// One swimmer, exercise and side: what has a value of its own.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct LineKey {
    /// Who.
    pub subject: SubjectId,
    /// Exercise.
    pub exercise: ExerciseId,
    /// Side.
    pub side: WorkingSide,
}

/// What is known of a set's time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// Form was lost at that time.
    Lost,
    /// Seen to reach the cap.
    Reached,
    /// It lasted at least so long, and ended for another reason.
    Longer,
}

/// What explains a set's time besides who held it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Explains {
    /// Sets of this line before it in the session.
    pub sets_before: f64,
    /// Logarithm of the real rest before it over thirty seconds; zero for a first set.
    pub rest: f64,
    /// Place of the rung in its ladder, from zero.
    pub level: f64,
    /// Weeks on that rung, twelve at most.
    pub weeks_on_rung: f64,
    /// One where the session was rested rather than after practice.
    pub rested: f64,
}

impl Explains {
    /// As a row of the model.
    pub fn row(&self) -> [f64; 5] {
        [self.sets_before, self.rest, self.level, self.weeks_on_rung, self.rested]
    }
}

/// One set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetTime {
    /// Whose.
    pub line: LineKey,
    /// Day.
    pub date: Date,
    /// Seconds held.
    pub seconds: f64,
    /// Cap in force, in seconds.
    pub cap: f64,
    /// What is known of the time.
    pub fate: Fate,
    /// What explains it.
    pub explains: Explains,
}

/// What the model rests on, and what it leaves out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Sets in the model.
    pub sets: usize,
    /// Of these, form losses.
    pub lost: usize,
    /// Seen caps.
    pub reached: usize,
    /// Ended for kit, or called away.
    pub other: usize,
    /// Ended for pain: censored, and possibly informative.
    pub pain: usize,
    /// Chose to stop: the same.
    pub chose: usize,
    /// Caps that nobody saw: unknown, left out.
    pub unseen: usize,
    /// Sets at home, or right before the water: not compared.
    pub elsewhere: usize,
    /// Lines with any set.
    pub lines: usize,
    /// Swimmers with any set.
    pub swimmers: usize,
}

/// Sets and counts, and where each line stood last.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gathered {
    /// Sets in the model.
    pub rows: Vec<SetTime>,
    /// What was counted.
    pub counts: Counts,
    /// Rung that each line was last done on, and since when.
    pub rungs: BTreeMap<LineKey, (RungId, Date)>,
}

/// Longest stay on a rung that still explains anything, in weeks.
const MOST_WEEKS: f64 = 12.0;
/// Rest that counts as usual, in seconds; only ratios to it matter.
pub(super) const USUAL_REST: f64 = 30.0;

/// Gathers sets of everybody before a day.
pub fn gather<'a>(protocol: &Protocol, people: impl Iterator<Item = &'a Person>, before: Date) -> Gathered {
    let mut out = Gathered::default();
    for person in people {
        for session in person.read.history.sessions.iter().filter(|session| session.date < before) {
            for block in &session.blocks {
                add(protocol, person.subject, session, block, &mut out);
            }
        }
    }
    let mut lines: Vec<&LineKey> = out.rows.iter().map(|row| &row.line).collect();
    lines.sort();
    lines.dedup();
    out.counts.lines = lines.len();
    let mut swimmers: Vec<SubjectId> = lines.iter().map(|line| line.subject).collect();
    swimmers.dedup();
    out.counts.swimmers = swimmers.len();
    out.counts.sets = out.rows.len();
    out
}

fn add(protocol: &Protocol, subject: SubjectId, session: &Session, block: &Block, out: &mut Gathered) {
    if session.context == Context::Home || session.excluded.is_some() {
        out.counts.elsewhere += block.sets.len();
        return;
    }
    let line = LineKey { subject, exercise: block.exercise.clone(), side: block.side };
    let since = match out.rungs.get(&line) {
        Some((rung, since)) if *rung == block.used => *since,
        _ => session.date,
    };
    out.rungs.insert(line.clone(), (block.used.clone(), since));
    let level = level_of(protocol, &block.exercise, &block.used);
    for set in &block.sets {
        let Some(fate) = fate(set, &mut out.counts) else { continue };
        let seconds = set.time.seconds();
        if seconds.is_nan() || seconds <= 0.0 {
            continue;
        }
        out.rows.push(SetTime {
            line: line.clone(),
            date: session.date,
            seconds,
            cap: set.cap.seconds(),
            fate,
            explains: Explains {
                sets_before: f64::from(set.number.saturating_sub(1)),
                rest: rest_of(set),
                level,
                weeks_on_rung: weeks_since(since, session.date),
                rested: f64::from(u8::from(session.context == Context::Rested)),
            },
        });
    }
}

/// Place of a rung in its ladder; zero where it is in none.
pub(super) fn level_of(protocol: &Protocol, exercise: &ExerciseId, rung: &RungId) -> f64 {
    let place = protocol.exercise(exercise).and_then(|exercise| exercise.place_of(rung));
    place.map_or(0.0, |place| place as f64)
}

pub(super) fn weeks_since(since: Date, on: Date) -> f64 {
    (f64::from(days_between(since, on)) / 7.0).clamp(0.0, MOST_WEEKS)
}

fn rest_of(set: &Set) -> f64 {
    let rest = set.rest_before.map(|rest| rest.seconds()).filter(|rest| 0.0 < *rest);
    match rest {
        Some(rest) if 1 < set.number => (rest / USUAL_REST).ln(),
        _ => 0.0,
    }
}

/// What is known of a set; nothing for a cap that nobody saw.
fn fate(set: &Set, counts: &mut Counts) -> Option<Fate> {
    let (fate, count) = match (&set.end, set.watched) {
        (End::Form(_), _) => (Some(Fate::Lost), &mut counts.lost),
        (End::Cap, Watched::Seen) => (Some(Fate::Reached), &mut counts.reached),
        (End::Cap, Watched::Unseen) => (None, &mut counts.unseen),
        (End::Pain, _) => (Some(Fate::Longer), &mut counts.pain),
        (End::ChoseToStop, _) => (Some(Fate::Longer), &mut counts.chose),
        (End::Kit | End::Left, _) => (Some(Fate::Longer), &mut counts.other),
    };
    *count += 1;
    fate
}
