//! One person's own line over time, and how often a chart speaks for nothing.
//!
//! - [`self_start`]: a cumulative sum that learns the person's level and spread as it goes (Hawkins 1987).
//! - [`known`]: the same, and a weighted mean, where level and spread are known beforehand.
//! - [`run_length`]: how long a chart stays quiet by itself, and the chance of a false alarm in a season.
//! - [`squad`]: the same for all charts of a squad together: the number a reader of signals must know.
//! - [`baseline`]: level and spread of a first stretch, three ways.
//!
//! A signal is a reason to ask, never a verdict, and no chart ever closes or opens a gate.

pub mod baseline;
pub mod known;
pub mod run_length;
pub mod self_start;
pub mod squad;

/// Which way a line moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Upwards.
    Up,
    /// Downwards.
    Down,
}

impl Direction {
    /// The word in files.
    pub fn word(self) -> &'static str {
        match self {
            Direction::Up => "up",
            Direction::Down => "down",
        }
    }
}

/// A pair of one-sided cumulative sums.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sums {
    /// Sum upwards.
    pub plus: f64,
    /// Sum downwards, as a positive number.
    pub minus: f64,
    /// Readings since the upward sum was last zero.
    pub n_plus: usize,
    /// Readings since the downward sum was last zero.
    pub n_minus: usize,
}

impl Sums {
    /// Nothing summed yet.
    pub const ZERO: Sums = Sums { plus: 0.0, minus: 0.0, n_plus: 0, n_minus: 0 };

    /// Adds one deviation, `slack` to be exceeded before anything is summed.
    pub fn add(self, deviation: f64, slack: f64) -> Sums {
        let plus = (self.plus + deviation - slack).max(0.0);
        let minus = (self.minus - deviation - slack).max(0.0);
        Sums {
            plus,
            minus,
            n_plus: if 0.0 < plus { self.n_plus + 1 } else { 0 },
            n_minus: if 0.0 < minus { self.n_minus + 1 } else { 0 },
        }
    }

    /// The direction in which a limit is reached, the larger sum first.
    pub fn signal(self, limit: f64) -> Option<(Direction, usize)> {
        if self.plus.max(self.minus) <= limit {
            None
        } else if self.minus <= self.plus {
            Some((Direction::Up, self.n_plus))
        } else {
            Some((Direction::Down, self.n_minus))
        }
    }
}
