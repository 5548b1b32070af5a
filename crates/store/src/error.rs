//! What can go wrong with the store, in values; the wording for people is the edge's.

use std::fmt;
use std::io;
use std::path::PathBuf;

use crate::append::Receipt;
use crate::fact::Problem;
use crate::id::FactId;

/// Why the store could not do what was asked. Nothing is half done when one of these comes back.
#[derive(Debug)]
#[non_exhaustive]
pub enum Error {
    /// There is no such file, and it was not to be created.
    Missing {
        /// Where.
        path: PathBuf,
    },
    /// The file is empty or is no SQLite database.
    NotADatabase {
        /// Which file.
        path: PathBuf,
    },
    /// A SQLite database that another program made.
    OtherProgram {
        /// Which file.
        path: PathBuf,
        /// The mark it carries instead of ours.
        application_id: u32,
    },
    /// Made by a newer version of this program.
    NewerSchema {
        /// Which file.
        path: PathBuf,
        /// Its schema.
        found: u32,
        /// The newest schema this program knows.
        known: u32,
    },
    /// The database is damaged.
    Corrupt {
        /// What the check found.
        detail: String,
    },
    /// Another process has the file open.
    InUse {
        /// Which file.
        path: PathBuf,
        /// The other process, if it left its number.
        pid: Option<u32>,
    },
    /// A file that must not exist yet is already there.
    AlreadyThere {
        /// Which file.
        path: PathBuf,
    },
    /// The operating system refused.
    Io {
        /// Which file.
        path: PathBuf,
        /// What it said.
        source: io::Error,
    },
    /// The disk, or the space allotted on it, is full.
    Full,
    /// The file or its directory cannot be written.
    ReadOnly,
    /// A fact that cannot be stored; the whole batch was rolled back.
    Invalid {
        /// Which fact.
        id: FactId,
        /// What is wrong with it.
        problem: Problem,
    },
    /// A batch that asked for all or nothing had a refusal, and was rolled back.
    RolledBack {
        /// What would have become of each fact.
        receipts: Vec<Receipt>,
    },
    /// The club itself cannot be erased.
    ClubNotErasable,
    /// No refusal has this number, or it is closed already.
    NoSuchRefusal {
        /// The number.
        number: i64,
    },
    /// A line of an export that cannot be read.
    BadRecord {
        /// Counted from 1.
        line: usize,
        /// What is wrong with it.
        detail: String,
    },
    /// The database engine failed in another way.
    Engine {
        /// What it said.
        source: rusqlite::Error,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { path } => write!(out, "no file {}", path.display()),
            Self::NotADatabase { path } => write!(out, "{} is not a database", path.display()),
            Self::OtherProgram { path, application_id } => {
                write!(out, "{} belongs to another program (mark {application_id:#010x})", path.display())
            }
            Self::NewerSchema { path, found, known } => {
                write!(out, "{} has schema {found}, newer than the known {known}", path.display())
            }
            Self::Corrupt { detail } => write!(out, "damaged database: {detail}"),
            Self::InUse { path, pid: Some(pid) } => {
                write!(out, "{} is in use by process {pid}", path.display())
            }
            Self::InUse { path, pid: None } => write!(out, "{} is in use", path.display()),
            Self::AlreadyThere { path } => write!(out, "{} is already there", path.display()),
            Self::Io { path, source } => write!(out, "{}: {source}", path.display()),
            Self::Full => write!(out, "disk full"),
            Self::ReadOnly => write!(out, "the file cannot be written"),
            Self::Invalid { id, problem } => write!(out, "fact {id}: {problem}"),
            Self::RolledBack { .. } => write!(out, "a fact was refused, nothing was stored"),
            Self::ClubNotErasable => write!(out, "the club cannot be erased"),
            Self::NoSuchRefusal { number } => write!(out, "no open refusal {number}"),
            Self::BadRecord { line, detail } => write!(out, "line {line}: {detail}"),
            Self::Engine { source } => write!(out, "database engine: {source}"),
        }
    }
}

impl std::error::Error for Error {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Io { source, .. } => Some(source),
            Self::Engine { source } => Some(source),
            _ => None,
        }
    }
}

impl From<rusqlite::Error> for Error {
    fn from(source: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode::{DatabaseCorrupt, DiskFull, NotADatabase, ReadOnly};
        match &source {
            rusqlite::Error::SqliteFailure(failure, _) => match failure.code {
                DiskFull => Self::Full,
                ReadOnly => Self::ReadOnly,
                DatabaseCorrupt | NotADatabase => Self::Corrupt { detail: source.to_string() },
                _ => Self::Engine { source },
            },
            // A stored row whose column has the wrong type or length was not written by this crate.
            rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::IntegralValueOutOfRange(..) => Self::Corrupt { detail: source.to_string() },
            _ => Self::Engine { source },
        }
    }
}
