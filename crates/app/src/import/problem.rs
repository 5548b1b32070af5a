//! What is wrong, where, and what would mend it.
//!
//! Words live in the text catalogue; here stand the message names and their values.

use std::fmt;

/// A message of the text catalogue with its values.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Said {
    /// Name of the message.
    pub id: &'static str,
    /// Values in the message.
    pub args: Vec<(&'static str, String)>,
}

impl Said {
    /// A message without values.
    pub fn new(id: &'static str) -> Self {
        Self { id, args: Vec::new() }
    }

    /// Adds a value.
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.args.push((name, value.to_string()));
        self
    }
}

/// How much a problem weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Nothing may be imported while it stands.
    Blocks,
    /// Unusual: a person must say that it is meant.
    Ask,
    /// Worth knowing; nothing is held up.
    Note,
}

/// One problem of one cell, one row, one column or the file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Row as the spreadsheet counts it, from one; none for a problem of a column or of the file.
    pub row: Option<u32>,
    /// Header of the column as the file writes it.
    pub column: Option<String>,
    /// What stands in the cell.
    pub value: Option<String>,
    /// How much it weighs.
    pub weight: Weight,
    /// What is wrong, as a message of the text catalogue.
    pub says: &'static str,
    /// Values in the message.
    pub args: Vec<(&'static str, String)>,
    /// What would mend it.
    pub suggestion: Option<Box<Said>>,
}

impl Problem {
    /// A problem that blocks, so far without a place.
    pub fn new(says: &'static str) -> Self {
        Self {
            row: None,
            column: None,
            value: None,
            weight: Weight::Blocks,
            says,
            args: Vec::new(),
            suggestion: None,
        }
    }

    /// Something worth knowing.
    pub fn note(says: &'static str) -> Self {
        Self { weight: Weight::Note, ..Self::new(says) }
    }

    /// Something a person must confirm.
    pub fn ask(says: &'static str) -> Self {
        Self { weight: Weight::Ask, ..Self::new(says) }
    }

    /// Adds a value to the message.
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.args.push((name, value.to_string()));
        self
    }

    /// Says which row.
    pub fn on_row(mut self, row: u32) -> Self {
        self.row = Some(row);
        self
    }

    /// Says which column.
    pub fn in_column(mut self, header: &str) -> Self {
        self.column = Some(header.to_owned());
        self
    }

    /// Says what stands there.
    pub fn showing(mut self, value: impl ToString) -> Self {
        self.value = Some(value.to_string());
        self
    }

    /// Says what would mend it.
    pub fn suggest(mut self, said: Said) -> Self {
        self.suggestion = Some(Box::new(said));
        self
    }
}

/// Why a file cannot be taken for a table at all, or not for the kind wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileProblem {
    /// What is wrong.
    pub says: Said,
    /// What would mend it, most helpful first.
    pub suggestions: Vec<Said>,
}

impl FileProblem {
    /// A problem with the file.
    pub fn new(says: Said) -> Self {
        Self { says, suggestions: Vec::new() }
    }

    /// Adds what would mend it.
    pub fn suggest(mut self, said: Said) -> Self {
        self.suggestions.push(said);
        self
    }
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.says.id)
    }
}

impl std::error::Error for FileProblem {}
