//! Strength tests over a season: a line through everybody's tests, each shoulder with a value of its own.

use std::collections::BTreeSet;

use stats::level::{Interval, Level};
use stats::mixed::{Measured, Method, MixedFit, MixedSample, fit};
use trade::history::{Outcome, days_between};
use trade::side::Side;

use super::{Figure, Stretch};
use crate::desk::Desk;

/// What is tested.
pub const MEASURES: [&str; 2] = ["er_force", "ir_force"];

/// One measure over a season.
#[derive(Debug, Clone, PartialEq)]
pub struct Strength {
    /// Key of the measure.
    pub key: &'static str,
    /// What the tests show.
    pub found: Figure<Change>,
}

/// How a measure moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Tests.
    pub tests: usize,
    /// Swimmers.
    pub people: usize,
    /// Shoulders.
    pub shoulders: usize,
    /// The squad's value at the start of the season, in the unit of the measure.
    pub at_start: f64,
    /// Change in thirty days.
    pub a_month: f64,
    /// Its range.
    pub range: Interval,
    /// Whether the fit can be relied on.
    pub sound: bool,
}

/// The tests of a season, measure by measure.
pub fn strength(desk: &Desk, stretch: Stretch) -> Vec<Strength> {
    MEASURES
        .iter()
        .map(|key| {
            let (mut rows, mut people, mut shoulders) = (Vec::new(), BTreeSet::new(), 0);
            for person in desk.people() {
                for side in Side::BOTH {
                    let tests: Vec<(f64, f64)> = person
                        .read
                        .history
                        .screenings
                        .iter()
                        .filter(|screening| stretch.holds(screening.date))
                        .flat_map(|screening| {
                            let month = f64::from(days_between(stretch.from, screening.date)) / 30.0;
                            screening.findings.iter().filter_map(move |finding| match finding.outcome {
                                Outcome::Measured(value)
                                    if finding.key == *key && finding.side == Some(side) =>
                                {
                                    Some((month, value))
                                }
                                _ => None,
                            })
                        })
                        .collect();
                    if !tests.is_empty() {
                        people.insert(person.subject);
                        shoulders += 1;
                    }
                    rows.extend(tests.into_iter().map(|(month, value)| Measured {
                        value,
                        covariates: vec![month],
                        group: shoulders,
                    }));
                }
            }
            let tests = rows.len();
            let found = MixedSample::new(rows).and_then(|sample| fit(&sample, None, Method::Restricted));
            let found = found.map(|fit| change(&fit, tests, people.len(), shoulders as usize));
            Strength { key, found: Figure::of(people.len(), found) }
        })
        .collect()
}

fn change(fit: &MixedFit, tests: usize, people: usize, shoulders: usize) -> Change {
    // Two shoulders of one swimmer go together, so degrees of freedom are counted by swimmer.
    let df = people.saturating_sub(1).max(1) as f64;
    let half = Level::USUAL.t(df) * fit.se(1);
    Change {
        tests,
        people,
        shoulders,
        at_start: fit.coefficients[0],
        a_month: fit.coefficients[1],
        range: Interval::around(fit.coefficients[1], half),
        sound: fit.converged && !fit.is_ill_conditioned(),
    }
}
