//! What a chart cannot see: answers that are always zero while times fall, and one arm that is left out.
//!
//! Practice of this tool, without a source: settings of the rules stand here with their reasons.

use std::collections::BTreeMap;

use jiff::civil::Date;
use trade::name::ExerciseId;
use trade::side::WorkingSide;

use super::What;
use super::lines::readings;
use crate::desk::Person;

/// Sessions that are compared with as many before them.
const RECENT: usize = 3;
/// Share of the earlier mean below which times count as fallen: a fifth is less than one shoulder's noise from day to
/// day, so all three must lie below as well.
const FALLEN: f64 = 0.8;
/// Zeros in a row that make the silence worth a question.
const ZEROS: usize = 6;
/// Sessions of an exercise looked back on for an arm left out, and how often it takes.
const LOOKED_BACK: usize = 4;
const LEFT_OUT: usize = 3;

/// Patterns of one swimmer on a day.
pub fn of(person: &Person, on: Date) -> Vec<What> {
    let mut found = silence(person, on);
    found.extend(one_arm(person, on));
    found
}

/// Zeros with falling times.
fn silence(person: &Person, on: Date) -> Vec<What> {
    let answers = person.read.history.pains.iter().filter(|report| report.date <= on);
    let zeros =
        answers.rev().take_while(|report| report.worst().is_some_and(|worst| worst.get() == 0)).count();
    if zeros < ZEROS {
        return Vec::new();
    }
    readings(person, on)
        .into_iter()
        .filter_map(|((exercise, side), readings)| {
            let count = readings.len();
            let recent = readings.get(count.checked_sub(RECENT)?..)?;
            let earlier = readings.get(count.checked_sub(2 * RECENT)?..count - RECENT)?;
            let mean =
                |part: &[(Date, f64)]| part.iter().map(|reading| reading.1).sum::<f64>() / part.len() as f64;
            let (before, since) = (mean(earlier), mean(recent));
            let all_below = recent.iter().all(|reading| reading.1 < before);
            (since <= FALLEN * before && all_below).then_some(What::ZerosWithFallingTimes {
                exercise,
                side,
                zeros,
                before,
                since,
            })
        })
        .collect()
}

/// One arm left out, of exercises that were done with both before.
fn one_arm(person: &Person, on: Date) -> Vec<What> {
    let mut days: BTreeMap<&ExerciseId, BTreeMap<Date, (bool, bool)>> = BTreeMap::new();
    for session in person.read.history.sessions.iter().filter(|session| session.date <= on) {
        for block in &session.blocks {
            let day = days.entry(&block.exercise).or_default().entry(session.date).or_default();
            match block.side {
                WorkingSide::Left => day.0 = true,
                WorkingSide::Right => day.1 = true,
                WorkingSide::Both | WorkingSide::Midline => *day = (true, true),
            }
        }
    }
    let mut found = Vec::new();
    for (exercise, days) in days {
        if !days.values().any(|day| *day == (true, true)) {
            continue;
        }
        let last: Vec<(bool, bool)> = days.values().rev().take(LOOKED_BACK).copied().collect();
        for (done, only) in [(WorkingSide::Left, (true, false)), (WorkingSide::Right, (false, true))] {
            let times = last.iter().filter(|day| **day == only).count();
            if LEFT_OUT <= times {
                found.push(What::OneArmLeftOut { exercise: exercise.clone(), done, times });
            }
        }
    }
    found
}
