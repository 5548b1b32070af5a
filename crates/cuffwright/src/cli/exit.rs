//! Exit codes: a closed list, the same for every command.

use std::process::ExitCode;

use app::error::ErrorKind;

/// How a command ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Exit {
    /// It did what was asked.
    Well,
    /// It did, and what it was asked about has problems.
    Problems,
    /// Input or usage cannot be used.
    Input,
    /// What was asked for is not there.
    NotFound,
    /// It contradicts the record, or a rule that nobody may override.
    Refused,
    /// A file or an address could not be used.
    Storage,
    /// A defect of this program.
    Defect,
}

impl Exit {
    /// The number a shell sees.
    pub(crate) const fn code(self) -> u8 {
        match self {
            Exit::Well => 0,
            Exit::Problems => 1,
            Exit::Input => 2,
            Exit::NotFound => 3,
            Exit::Refused => 4,
            Exit::Storage => 5,
            Exit::Defect => 70,
        }
    }

    /// The word in JSON.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Exit::Well => "well",
            Exit::Problems => "problems",
            Exit::Input => "input",
            Exit::NotFound => "not-found",
            Exit::Refused => "refused",
            Exit::Storage => "storage",
            Exit::Defect => "defect",
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        ExitCode::from(exit.code())
    }
}

impl From<ErrorKind> for Exit {
    fn from(kind: ErrorKind) -> Self {
        match kind {
            ErrorKind::Input => Exit::Input,
            ErrorKind::NotFound => Exit::NotFound,
            ErrorKind::Refused => Exit::Refused,
            ErrorKind::Storage => Exit::Storage,
        }
    }
}
