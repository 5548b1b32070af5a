//! A club's own files: roster, screening values, kit and past set times, from CSV or XLSX.
//!
//! Pure: bytes and what is on record go in, a [`Preview`] comes out that names every problem of every row and every
//! fact that would be written. Nothing is guessed: a number, a date or a person that could be read two ways is a
//! problem with a suggestion. Importing is all or nothing and belongs to the caller, who writes
//! [`Preview::facts`] only when [`Preview::is_ready`].
//!
//! In reading order: [`table`] (a file as cells), [`columns`] (headers), [`mod@detect`], [`dates`], [`people`], then one

pub mod columns;
pub mod dates;
pub mod detect;
pub mod people;
pub mod plan;
pub mod problem;
pub mod table;

mod body;
mod cells;
mod choices;
mod gather;
mod grid;
mod key;
mod kit;
mod pain_cell;
mod roster;
mod rungs;
mod screening;
mod set_cell;
mod set_end;
mod sets;
mod sheet;
mod softer;
mod text_file;
mod words;

pub use dates::DateOrder;
pub use detect::detect;
pub(crate) use key::subject_id;
pub use key::{HandWritten, natural_key};
pub use people::{Exercises, Existing, Known, KnownSwimmer, OnRecord};
pub use plan::{Change, Counts, Outcome, PlannedFact, Preview, RowReport, Subject, preview};
pub use problem::{FileProblem, Problem, Said, Weight};
pub use table::{Cell, Row, Table, read_table};
pub use words::name_key;

use jiff::civil::Date;
use uuid::Uuid;

use crate::facts::{ContextWord, Units};

/// What a file is a list of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Swimmers.
    Roster,
    /// Screening values.
    Screening,
    /// Pieces of kit.
    Kit,
    /// Past set times.
    Sets,
}

impl Kind {
    /// Every kind.
    pub const ALL: &'static [Kind] = &[Kind::Roster, Kind::Screening, Kind::Kit, Kind::Sets];

    /// The word on the command line and in forms.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Roster => "roster",
            Kind::Screening => "screening",
            Kind::Kit => "kit",
            Kind::Sets => "sets",
        }
    }

    /// Reads the word on the command line and in forms.
    pub fn from_word(word: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.word() == word)
    }
}

/// What a person decided about this import.
#[derive(Debug, Clone)]
pub struct Options {
    /// Today, in the club's zone.
    pub today: Date,
    /// The store's own random number, from which the ids of new swimmers follow. Random, so that nobody can tell a
    /// swimmer's id from a name and a birth date.
    pub namespace: Uuid,
    /// Units of columns that name none.
    pub units: Units,
    /// Order of day and month, where the file does not settle it.
    pub dates: Option<DateOrder>,
    /// Context of past sessions, where the file does not say.
    pub context: Option<ContextWord>,
    /// Unusual values are meant.
    pub accept_unusual: bool,
}

impl Options {
    /// Nothing decided yet: metric, and every doubt is asked about.
    pub fn new(today: Date, namespace: Uuid) -> Self {
        Self { today, namespace, units: Units::Metric, dates: None, context: None, accept_unusual: false }
    }
}

/// From bytes to a preview. Without a kind the file's headers decide.
pub fn read(
    bytes: &[u8],
    file_name: &str,
    kind: Option<Kind>,
    known: &Known<'_>,
    options: &Options,
) -> Result<Preview, FileProblem> {
    let table = read_table(bytes, file_name)?;
    let kind = match kind {
        Some(kind) => kind,
        None => detect(&table)?,
    };
    preview(&table, kind, known, options)
}
