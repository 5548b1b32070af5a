//! A week written down as TOML, read into a [`Week`], or every problem of the file with its line and a hint.
//!
//! Keys are taken in the spellings people use; what cannot be understood is never guessed. `docs/week.md` describes
//! the file. In reading order: [`problem`], `table`, `when`, then `parts`, `entries` and
//! `around` of the file.

mod around;
mod entries;
mod parts;
pub mod problem;
mod table;
mod when;

use jiff::civil::Date;
use toml::de::DeTable;

use crate::week::Week;
use crate::week::request::Request;
use problem::Report;

pub use problem::Problem;
pub use when::{clock, date, weekdays};

/// A week as described.
#[derive(Debug, Clone)]
pub struct Described {
    /// The week, with its candidates.
    pub week: Week,
    /// Wishes to be answered.
    pub requests: Vec<Request>,
    /// What was done beyond what stands there.
    pub notes: Vec<Note>,
}

/// Something a reader must know about how the file was taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Note {
    /// A practice falls out because its pool is closed.
    PracticeCancelled {
        /// The practice.
        practice: String,
        /// The closed place.
        place: String,
        /// Its day.
        day: Date,
    },
    /// No deck hours were described, so any hour from 06:00 to 22:00 counts.
    NoWindows,
    /// No supervisors were described, so supervision was not part of the question.
    NoSupervisors,
}

/// Reads a described week.
pub fn read(text: &str) -> Result<Described, Vec<Problem>> {
    let mut report = Report::new(text);
    let (root, errors) = DeTable::parse_recoverable(text);
    for error in errors {
        report.add(&problem::SYNTAX, error.span().unwrap_or(0..0), [error.message().to_owned()]);
    }
    // Beside a syntax error much else only seems wrong.
    if !report.is_empty() {
        return Err(report.into_problems());
    }
    let described = parts::walk(root.get_ref(), &mut report);
    match described {
        Some(described) if report.is_empty() => Ok(described),
        _ => Err(report.into_problems()),
    }
}
