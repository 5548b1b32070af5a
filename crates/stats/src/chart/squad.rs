//! False alarms of all charts of a squad together: what a page of signals must say of itself.

use super::run_length::{false_alarm_chance, two_sided};
use crate::lack::Lack;

/// How often a squad's charts speak although nothing changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FalseAlarms {
    /// Charts.
    pub series: usize,
    /// Readings on each in the season.
    pub readings: usize,
    /// Average readings from one false alarm to the next on one chart.
    pub run_length: f64,
    /// Chance that one chart speaks at least once in the season.
    pub chance_each: f64,
    /// Charts to be expected to speak at least once.
    pub expected: f64,
    /// Chance that at least one does, charts taken as independent.
    pub chance_any: f64,
    /// False alarms per round of readings, in the long run.
    pub per_round: f64,
}

impl FalseAlarms {
    /// For charts that start themselves: the first two readings of each cannot speak.
    pub fn of(series: usize, readings: usize, k: f64, h: f64) -> Result<FalseAlarms, Lack> {
        let run_length = two_sided(k, h, 0.0, 0.0)?;
        let chance_each = false_alarm_chance(k, h, readings.saturating_sub(2))?;
        let count = series as f64;
        Ok(FalseAlarms {
            series,
            readings,
            run_length,
            chance_each,
            expected: count * chance_each,
            chance_any: -(count * (-chance_each).ln_1p()).exp_m1(),
            per_round: count / run_length,
        })
    }
}
