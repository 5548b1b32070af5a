//! What a re-test says: up, down, or cannot tell.

use super::error::{Origin, smallest_change};

/// The three words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Word {
    /// Larger than before, beyond error.
    Up,
    /// Smaller than before, beyond error.
    Down,
    /// Within error, or the error is not known.
    CannotTell,
}

impl Word {
    /// The word used in files and in the catalogue.
    pub const fn word(self) -> &'static str {
        match self {
            Word::Up => "up",
            Word::Down => "down",
            Word::CannotTell => "cannot-tell",
        }
    }
}

/// A change and its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// Present less previous.
    pub difference: f64,
    /// Lower end of its 95 % interval; none where no error is known.
    pub low: Option<f64>,
    /// Upper end.
    pub high: Option<f64>,
    /// Smallest change beyond error.
    pub smallest: Option<f64>,
    /// What can be said.
    pub word: Word,
}

/// Compares two tests. A change counts from the smallest change on, inclusive.
pub fn change(before: f64, after: f64, error: Option<&Origin>) -> Change {
    let difference = after - before;
    let smallest = error
        .map(|origin| smallest_change(origin.sem((before + after) / 2.0)))
        .filter(|smallest| smallest.is_finite() && 0.0 < *smallest);
    let word = match smallest {
        Some(smallest) if smallest <= difference => Word::Up,
        Some(smallest) if difference <= -smallest => Word::Down,
        _ => Word::CannotTell,
    };
    Change {
        difference,
        low: smallest.map(|smallest| difference - smallest),
        high: smallest.map(|smallest| difference + smallest),
        smallest,
        word,
    }
}
