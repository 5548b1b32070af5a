//! Whether one person changed beyond the error of the measurement: up, down, or cannot tell.
//!
//! After Jacobson & Truax 1991 and de Vet 2006. "Cannot tell" is an answer, and the commonest one.

use super::error::detectable_change;
use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::normal;

/// What can be said of one person's two readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// More, beyond error.
    Up,
    /// Less, beyond error.
    Down,
    /// Within what error alone does.
    CannotTell,
}

impl Verdict {
    /// The word in files.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Up => "up",
            Verdict::Down => "down",
            Verdict::CannotTell => "cannot-tell",
        }
    }
}

/// Where an error of measurement comes from. The club's own trial beats a published one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// The club's own trial.
    OwnTrial,
    /// A published value, of another population.
    Published,
}

/// One person's change, with the error it was held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// After minus before.
    pub change: f64,
    /// Standard error of the change, root two times the SEM.
    pub se: f64,
    /// What error alone reaches at the level asked for.
    pub detectable: f64,
    /// Range of the true change.
    pub interval: Interval,
    /// Change over its standard error (the reliable change index).
    pub index: f64,
    /// Up, down or cannot tell.
    pub verdict: Verdict,
    /// Where the error comes from.
    pub origin: Origin,
}

impl Change {
    /// Holds two readings against the error of one reading. A change that just reaches the detectable one counts.
    pub fn between(before: f64, after: f64, sem: f64, origin: Origin, level: Level) -> Result<Change, Lack> {
        if ![before, after, sem].iter().all(|value| value.is_finite()) {
            return Err(Lack::NotFinite);
        }
        if sem <= 0.0 {
            return Err(Lack::NoSpread);
        }
        let change = after - before;
        let (se, detectable) = (std::f64::consts::SQRT_2 * sem, detectable_change(sem, level));
        let verdict = if change.abs() < detectable {
            Verdict::CannotTell
        } else if 0.0 < change {
            Verdict::Up
        } else {
            Verdict::Down
        };
        let interval = Interval::around(change, detectable);
        Ok(Change { change, se, detectable, interval, index: change / se, verdict, origin })
    }

    /// Probability that the true change is larger than `worth`, taking nothing for granted beforehand.
    pub fn chance_above(&self, worth: f64) -> f64 {
        normal::above((worth - self.change) / self.se)
    }
}

/// Spread of individual responses: root(SD² with the programme - SD² without). Nothing where the group without varies
/// as much: then the data show no differences in response (Atkinson & Batterham 2015, Exp Physiol 100:577).
pub fn response_spread(with_programme: f64, without: f64) -> Option<f64> {
    let squared = with_programme.powi(2) - without.powi(2);
    (0.0 < squared).then(|| squared.sqrt())
}
