//! Self-starting charts: the mean set time of each session, shoulder by shoulder while the rung stays the same, and
//! kilometres a week.

use std::collections::BTreeMap;

use jiff::civil::Date;
use stats::chart::Direction;
use stats::chart::self_start::{Line, Rules, line};
use trade::history::{Context, End, Watched, days_between};
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use super::What;
use crate::desk::Person;

/// What one swimmer's charts say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// What speaks now.
    pub speaking: Vec<What>,
    /// Charts kept.
    pub charts: usize,
    /// Charts that are still learning.
    pub learning: usize,
}

/// A reading with its day.
pub(super) type Reading = (Date, f64);

/// Days after which an open signal is old: it was asked about, or is about another time.
const FRESH_DAYS: i32 = 21;

/// Session means of each line on the rung it is on now. A session with a cap that nobody saw, or a set cut short for
/// another reason, is no reading. Home is another matter.
pub(super) fn readings(person: &Person, on: Date) -> BTreeMap<(ExerciseId, WorkingSide), Vec<Reading>> {
    let mut lines: BTreeMap<(ExerciseId, WorkingSide), (RungId, Vec<Reading>)> = BTreeMap::new();
    for session in person.read.history.sessions.iter().filter(|session| session.date <= on) {
        if session.context == Context::Home || session.excluded.is_some() {
            continue;
        }
        for block in &session.blocks {
            let key = (block.exercise.clone(), block.side);
            let entry = lines.entry(key).or_insert_with(|| (block.used.clone(), Vec::new()));
            if entry.0 != block.used {
                *entry = (block.used.clone(), Vec::new());
            }
            let counts = |set: &trade::history::Set| match set.end {
                End::Form(_) => true,
                End::Cap => set.watched == Watched::Seen,
                End::ChoseToStop | End::Pain | End::Kit | End::Left => false,
            };
            if !block.sets.is_empty() && block.sets.iter().all(counts) {
                let mean = block.total().seconds() / block.sets.len() as f64;
                entry.1.push((session.date, mean));
            }
        }
    }
    lines.into_iter().map(|(key, (_, readings))| (key, readings)).collect()
}

/// One swimmer's charts on a day.
pub fn of(person: &Person, on: Date) -> Found {
    let mut found = Found::default();
    for ((exercise, side), readings) in readings(person, on) {
        if let Some((before, since, from)) = speaks(&readings, on, &[Direction::Down], &mut found) {
            let sessions = readings.len();
            found.speaking.push(What::TimesFell { exercise, side, sessions, before, since, from });
        }
    }
    let weeks: Vec<Reading> = person
        .read
        .history
        .water_weeks
        .iter()
        .filter(|week| week.from <= on)
        .map(|week| (week.from, week.km))
        .collect();
    if !weeks.is_empty()
        && let Some((before, since, from)) = speaks(&weeks, on, &[Direction::Up, Direction::Down], &mut found)
    {
        found.speaking.push(What::WaterMoved { weeks: weeks.len(), before, since, from });
    }
    found
}

/// Level before, level since and the first day of it, where the chart speaks now in one of these directions.
fn speaks(readings: &[Reading], on: Date, ways: &[Direction], found: &mut Found) -> Option<(f64, f64, Date)> {
    let values: Vec<f64> = readings.iter().map(|reading| reading.1).collect();
    let chart: Line = line(&values, Rules::swimmer()).ok()?;
    found.charts += 1;
    found.learning += usize::from(chart.learning);
    let last = readings.last()?;
    let now = chart.points.last()?.signal.filter(|way| ways.contains(way))?;
    if FRESH_DAYS < days_between(last.0, on) {
        return None;
    }
    let first = chart.first.filter(|first| first.direction == now)?;
    Some((first.before, first.level, readings.get(first.since)?.0))
}
