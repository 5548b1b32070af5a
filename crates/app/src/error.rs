//! What can go wrong in an operation, sorted into a closed list of kinds, each with hints.

use std::fmt;

use crate::facts::Problem;

/// What kind of trouble it is; the edge turns it into a status or an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorKind {
    /// What was handed in cannot be used.
    Input,
    /// What was asked for is not there.
    NotFound,
    /// It contradicts what is on record, or a rule that nobody may override.
    Refused,
    /// The file could not be read or written.
    Storage,
}

/// An operation that did not happen. Nothing was half-written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AppError {
    /// What kind of trouble it is.
    pub kind: ErrorKind,
    /// Sentence of the text catalogue.
    pub says: &'static str,
    /// Values in it.
    pub args: Vec<(&'static str, String)>,
    /// Hint of the text catalogue.
    pub hint: Option<&'static str>,
    /// Every single problem, where there are several.
    pub problems: Vec<Problem>,
}

impl AppError {
    /// An error of one kind.
    pub fn new(kind: ErrorKind, says: &'static str) -> Self {
        Self { kind, says, args: Vec::new(), hint: None, problems: Vec::new() }
    }

    /// Adds a value to the sentence.
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.args.push((name, value.to_string()));
        self
    }

    /// Adds a hint.
    pub fn hint(mut self, hint: &'static str) -> Self {
        self.hint = Some(hint);
        self
    }

    /// An error that lists problems of a payload or file.
    pub fn problems(problems: Vec<Problem>) -> Self {
        Self { problems, ..Self::new(ErrorKind::Input, "error-problems") }
    }
}

impl fmt::Display for AppError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&crate::text::Texts::english().say(self.says, &self.args))
    }
}

impl std::error::Error for AppError {}

impl From<store::Error> for AppError {
    fn from(error: store::Error) -> Self {
        AppError::new(ErrorKind::Storage, "error-storage").with("detail", error).hint("error-storage-hint")
    }
}
