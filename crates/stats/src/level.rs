//! How sure an interval is, and the interval itself.

use crate::lack::Lack;
use crate::numeric::{distribution, normal};

/// Share of samples whose interval holds the true value, strictly between 0.5 and 1. 95 % is [`Level::USUAL`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level(f64);

impl Level {
    /// 95 %.
    pub const USUAL: Level = Level(0.95);
    /// 90 %.
    pub const NINETY: Level = Level(0.90);

    /// A level as a share (0.95). Refuses what is not between 0.5 and 1.
    pub fn new(share: f64) -> Result<Level, Lack> {
        if (0.5..1.0).contains(&share) { Ok(Level(share)) } else { Err(Lack::Setting { name: "level" }) }
    }

    /// The share.
    pub fn share(self) -> f64 {
        self.0
    }

    /// What lies beyond one end.
    pub fn tail(self) -> f64 {
        0.5 * (1.0 - self.0)
    }

    /// Standard deviations of a normal value to either end: 1.96 for 95 %.
    pub fn z(self) -> f64 {
        -normal::quantile(self.tail())
    }

    /// The same where the spread itself was estimated with so many degrees of freedom (at least one).
    pub fn t(self, df: f64) -> f64 {
        distribution::t_upper(df.max(1.0), self.tail())
    }
}

/// A range that holds the true value at a [`Level`]; an end may be infinite where the data set no bound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Interval {
    /// A symmetric range.
    pub fn around(value: f64, half_width: f64) -> Interval {
        Interval { low: value - half_width, high: value + half_width }
    }

    /// Both ends through a rising function.
    pub fn map(self, f: impl Fn(f64) -> f64) -> Interval {
        Interval { low: f(self.low), high: f(self.high) }
    }

    /// Whether a value lies inside.
    pub fn holds(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}
