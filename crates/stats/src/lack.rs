//! Why data carry no answer: a closed list, so that whoever asked can be told in words.

use std::fmt;

/// A reason why there is no answer, or only part of one.
#[derive(Debug, Clone, PartialEq)]
pub enum Lack {
    /// There is nothing in the table.
    Empty,
    /// Fewer rows, people or readings than the question needs.
    TooFew {
        /// What there is too little of: `rows`, `people`, `trials`, `groups`, `readings`.
        of: &'static str,
        /// How many there are.
        found: usize,
        /// How many it takes.
        needed: usize,
    },
    /// A value is infinite or not a number.
    NotFinite,
    /// A time that is zero or negative, where a logarithm is taken.
    NotPositive,
    /// Nobody lost form: every time is only known to be longer.
    AllCensored,
    /// All values are the same, so nothing spreads.
    NoSpread,
    /// The model meets every value exactly: no spread is left to judge by.
    PerfectFit,
    /// A column is the same everywhere, or a combination of other columns.
    Collinear {
        /// The column's place among the covariates.
        column: usize,
    },
    /// An estimate runs away: the data can always be met better by a larger number.
    RunsAway {
        /// The column's place among the covariates.
        column: usize,
    },
    /// The spread within people cannot be told from the spread between them.
    NotSeparable,
    /// The search did not settle.
    NotConverged,
    /// Rows do not fit each other: other lengths, an unknown row or a repeated cell.
    Ragged,
    /// A count that is negative or no whole number, or more events than people.
    NotACount,
    /// Nothing was exposed.
    NoExposure,
    /// A setting outside its range.
    Setting {
        /// Which.
        name: &'static str,
    },
}

impl Lack {
    /// The word that stands for the reason in files.
    pub fn word(&self) -> &'static str {
        match self {
            Lack::Empty => "empty",
            Lack::TooFew { .. } => "too-few",
            Lack::NotFinite => "not-finite",
            Lack::NotPositive => "not-positive",
            Lack::AllCensored => "all-censored",
            Lack::NoSpread => "no-spread",
            Lack::PerfectFit => "perfect-fit",
            Lack::Collinear { .. } => "collinear",
            Lack::RunsAway { .. } => "runs-away",
            Lack::NotSeparable => "not-separable",
            Lack::NotConverged => "not-converged",
            Lack::Ragged => "ragged",
            Lack::NotACount => "not-a-count",
            Lack::NoExposure => "no-exposure",
            Lack::Setting { .. } => "setting",
        }
    }
}

impl fmt::Display for Lack {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Lack::TooFew { of, found, needed } => write!(out, "too few {of}: {found} of {needed}"),
            Lack::Collinear { column } => write!(out, "collinear: column {column}"),
            Lack::RunsAway { column } => write!(out, "runs away: column {column}"),
            Lack::Setting { name } => write!(out, "setting out of range: {name}"),
            other => out.write_str(other.word()),
        }
    }
}

impl std::error::Error for Lack {}
