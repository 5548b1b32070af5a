//! A re-test beside the test before it, measure by measure.

use jiff::civil::Date;
use trade::screening::change::{Change, change};
use trade::screening::day::{Day, days};
use trade::screening::error::Origin;
use trade::screening::measure::{MEASURES, Measure};
use trade::side::Side;

use super::trial;
use crate::desk::{Desk, Person};

/// One test.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Day.
    pub date: Date,
    /// Value in the unit of its range.
    pub value: f64,
    /// Who tested.
    pub tester: String,
}

/// One measure on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Measure.
    pub measure: &'static Measure,
    /// Shoulder.
    pub side: Option<Side>,
    /// The test before.
    pub before: Reading,
    /// The present one.
    pub now: Reading,
    /// What can be said.
    pub change: Change,
    /// The error used; none where nobody knows one.
    pub error: Option<Origin>,
}

impl Row {
    /// Another person tested: the error between two testers is larger than the one printed for one.
    pub fn other_tester(&self) -> bool {
        self.before.tester.trim() != self.now.tester.trim()
    }
}

/// Every measure that was taken at least twice, in the order of the day.
pub fn retest(desk: &Desk, person: &Person, on: Date) -> Vec<Row> {
    let days = days(&person.read.history, on);
    let mut rows = Vec::new();
    for measure in MEASURES.iter().filter(|measure| is_compared(measure)) {
        let own = trial::newest(desk, measure.key, on);
        let error = Origin::best(measure.key, own);
        let sides = if measure.sided { Side::BOTH.map(Some).to_vec() } else { vec![None] };
        for side in sides {
            let taken: Vec<Reading> =
                days.iter().rev().filter_map(|day| reading(day, measure.key, side)).take(2).collect();
            let [now, before] = taken.as_slice() else { continue };
            rows.push(Row {
                measure,
                side,
                change: change(before.value, now.value, error.as_ref()),
                before: before.clone(),
                now: now.clone(),
                error: error.clone(),
            });
        }
    }
    rows
}

/// Body sizes have their own page, and a laxity score is a description that is not expected to change.
fn is_compared(measure: &Measure) -> bool {
    !measure.is_body_size && !measure.station.is_licensed()
}

fn reading(day: &Day<'_>, key: &str, side: Option<Side>) -> Option<Reading> {
    let value = day.measured(key, side)?;
    let tester = day.entry(key, side).map_or("", |entry| entry.tester).to_owned();
    Some(Reading { date: day.date, value, tester })
}
