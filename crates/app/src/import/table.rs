//! A file as a table: rows of cells, nothing interpreted yet.

use jiff::civil::Date;

use super::problem::{FileProblem, Problem, Said};
use super::{sheet, text_file};

/// Largest file that is looked at.
pub const MOST_BYTES: usize = 20 * 1024 * 1024;
/// Most rows that are looked at.
pub const MOST_ROWS: usize = 50_000;
/// Most columns that are looked at.
pub const MOST_COLUMNS: usize = 256;
/// Longest text that one cell may hold, in characters.
pub const LONGEST_CELL: usize = 4_000;

/// One cell. What begins with `=`, `+`, `-` or `@` is text like any other: nothing is ever evaluated.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing.
    Blank,
    /// Text, trimmed.
    Text(String),
    /// A number that the spreadsheet holds as one.
    Number(f64),
    /// A day that the spreadsheet holds as one.
    Day(Date),
    /// A length of time, or time of day, that the spreadsheet holds as one; in seconds.
    Duration(f64),
    /// Yes or no as the spreadsheet holds it.
    Truth(bool),
    /// A formula that failed.
    Broken(String),
}

impl Cell {
    /// A text cell, or a blank one.
    pub fn text(raw: &str) -> Cell {
        let trimmed = raw.trim_matches(|c: char| c.is_whitespace() || c == '\u{feff}' || c == '\0');
        if trimmed.is_empty() { Cell::Blank } else { Cell::Text(trimmed.to_owned()) }
    }

    /// Nothing there.
    pub fn is_blank(&self) -> bool {
        *self == Cell::Blank
    }

    /// The cell as a person sees it.
    pub fn shown(&self) -> String {
        match self {
            Cell::Blank => String::new(),
            Cell::Text(text) => text.clone(),
            Cell::Number(value) => value.to_string(),
            Cell::Day(day) => day.to_string(),
            Cell::Duration(seconds) => clock(*seconds),
            Cell::Truth(true) => "yes".to_owned(),
            Cell::Truth(false) => "no".to_owned(),
            Cell::Broken(error) => error.clone(),
        }
    }
}

/// Seconds as a spreadsheet shows a time, `h:mm:ss`.
fn clock(seconds: f64) -> String {
    let whole = seconds.round().max(0.0) as u64;
    format!("{}:{:02}:{:02}", whole / 3600, whole / 60 % 60, whole % 60)
}

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Row as the spreadsheet, or the line as the text file, counts it; from one.
    pub number: u32,
    /// Cells from the first column on.
    pub cells: Vec<Cell>,
}

impl Row {
    /// Nothing in any cell.
    pub fn is_blank(&self) -> bool {
        self.cells.iter().all(Cell::is_blank)
    }
}

/// What kind of file the table came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// Text with a delimiter.
    Text,
    /// A workbook.
    Workbook,
}

/// A table as read, blank rows left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Rows with something in them, in order.
    pub rows: Vec<Row>,
    /// What kind of file it was.
    pub source: Source,
    /// What is worth knowing about how it was read.
    pub notes: Vec<Problem>,
}

/// Reads a CSV or XLSX file; which one is told from the bytes, not from the name.
pub fn read_table(bytes: &[u8], file_name: &str) -> Result<Table, FileProblem> {
    if MOST_BYTES < bytes.len() {
        return Err(FileProblem::new(
            Said::new("import-file-too-large")
                .with("file", file_name)
                .with("limit", MOST_BYTES / 1024 / 1024),
        ));
    }
    let mut table = if bytes.starts_with(b"PK\x03\x04") {
        sheet::read(bytes, file_name)?
    } else if bytes.starts_with(&[0xD0, 0xCF, 0x11, 0xE0]) {
        return Err(FileProblem::new(Said::new("import-file-old-workbook").with("file", file_name))
            .suggest(Said::new("import-try-save-as-xlsx")));
    } else if bytes.starts_with(b"%PDF") {
        return Err(FileProblem::new(Said::new("import-file-pdf").with("file", file_name))
            .suggest(Said::new("import-try-save-as-csv")));
    } else {
        text_file::read(bytes, file_name)?
    };
    table.rows.retain(|row| !row.is_blank());
    if table.rows.is_empty() {
        return Err(FileProblem::new(Said::new("import-file-empty").with("file", file_name)));
    }
    if MOST_ROWS < table.rows.len() {
        return Err(too_many_rows(file_name));
    }
    for row in &mut table.rows {
        for cell in &mut row.cells {
            if let Cell::Text(text) = cell
                && LONGEST_CELL < text.chars().count()
            {
                return Err(FileProblem::new(
                    Said::new("import-file-long-cell")
                        .with("file", file_name)
                        .with("row", row.number)
                        .with("limit", LONGEST_CELL),
                )
                .suggest(Said::new("import-try-closing-quote")));
            }
        }
    }
    Ok(table)
}

/// The refusal for a table that is too long.
pub(super) fn too_many_rows(file_name: &str) -> FileProblem {
    FileProblem::new(Said::new("import-file-too-many-rows").with("file", file_name).with("limit", MOST_ROWS))
        .suggest(Said::new("import-try-splitting"))
}

/// The refusal for a table that is too wide.
pub(super) fn too_many_columns(file_name: &str) -> FileProblem {
    FileProblem::new(
        Said::new("import-file-too-many-columns").with("file", file_name).with("limit", MOST_COLUMNS),
    )
}
