//! How long a set may last before form goes, as far as the record can say it: only for whom to look at next on deck.
//!
//! A log-normal of the seconds. Common practice, no more: own sets on the same rung where there are two or more, else a
//! wide guess. A set that reached its cap counts as a third longer than the cap, since all that is known is "longer".

use serde::Serialize;
use trade::history::{End, History};
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

/// Middle of the guess for somebody without sets, seconds: the calibration set aims at 45 to 60.
const GUESS_S: f64 = 70.0;
/// Its spread, of the logarithm.
const GUESS_SPREAD: f64 = 0.6;
/// Narrowest spread: a re-test of a timed hold of the shoulder differs by half a minute or more.
const NARROWEST: f64 = 0.3;
/// A cap that was reached says "at least".
const BEYOND_CAP: f64 = 1.33;
/// Newest sets that are used.
const NEWEST: usize = 12;

/// Of the logarithm of seconds to form loss.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Prior {
    /// Mean.
    pub mu: f64,
    /// Standard deviation.
    pub sigma: f64,
}

/// From the record of one line of sets on one rung.
pub fn prior(history: &History, exercise: &ExerciseId, side: WorkingSide, rung: &RungId) -> Prior {
    let logs: Vec<f64> = history
        .sessions
        .iter()
        .flat_map(|session| &session.blocks)
        .filter(|block| block.exercise == *exercise && block.side == side && block.used == *rung)
        .flat_map(|block| &block.sets)
        .filter_map(|set| match set.end {
            End::Form(_) | End::ChoseToStop => Some(set.time.seconds()),
            End::Cap => Some(set.cap.seconds() * BEYOND_CAP),
            End::Pain | End::Kit | End::Left => None,
        })
        .filter(|seconds| 0.0 < *seconds)
        .map(f64::ln)
        .collect();
    let newest = &logs[logs.len().saturating_sub(NEWEST)..];
    if newest.len() < 2 {
        return Prior { mu: GUESS_S.ln(), sigma: GUESS_SPREAD };
    }
    let count = newest.len() as f64;
    let mu = newest.iter().sum::<f64>() / count;
    let spread = (newest.iter().map(|log| (log - mu).powi(2)).sum::<f64>() / (count - 1.0)).sqrt();
    Prior { mu, sigma: spread.max(NARROWEST) }
}
