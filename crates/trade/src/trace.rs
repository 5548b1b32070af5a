//! How a verdict explains itself: rule, values, and who may read the line.

use jiff::civil::Date;
use quantity::{Force, HoldTime, Mass, Pain};

use crate::name::{ExerciseId, FaultCode, RungId};
use crate::rule::RuleCode;
use crate::side::{Side, WorkingSide};

/// Who may read a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// Everybody who may see the swimmer at all, the coach included.
    Availability,
    /// Those who run or do the session.
    Dose,
    /// The practitioner, the swimmer and the guardian.
    Health,
}

/// One value inside a reason. The text catalogue turns it into words in the reader's unit and language.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "each variant is named after what it carries")]
pub enum Arg {
    Time(HoldTime),
    Mass(Mass),
    Force(Force),
    Pain(Pain),
    Count(i64),
    /// A share of one, shown as per cent.
    Share(f64),
    /// A bare number with its decimals.
    Number(f64, u8),
    Date(Date),
    Exercise(ExerciseId),
    /// A rung of an exercise.
    Rung(ExerciseId, RungId),
    Fault(FaultCode),
    Shoulder(Side),
    Working(WorkingSide),
    /// A name or note exactly as a person wrote it.
    Verbatim(String),
    /// Another message of the catalogue, for instance a sign by its word.
    Word(String),
}

/// One line of a trace.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Rule that speaks.
    pub rule: RuleCode,
    /// Name of its sentence in the text catalogue.
    pub says: &'static str,
    /// Values in the sentence.
    pub args: Vec<(&'static str, Arg)>,
    /// Who may read it.
    pub class: Class,
}

impl Line {
    /// A line without values.
    pub fn new(rule: RuleCode, says: &'static str, class: Class) -> Self {
        Self { rule, says, args: Vec::new(), class }
    }

    /// Adds a value.
    pub fn with(mut self, name: &'static str, value: Arg) -> Self {
        self.args.push((name, value));
        self
    }
}
