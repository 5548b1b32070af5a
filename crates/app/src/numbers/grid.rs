//! A file as heads and rows of text.

use csv::ReaderBuilder;

use crate::error::{AppError, ErrorKind};
use crate::import;

/// A table as it stands in the file.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Heads as written.
    pub heads: Vec<String>,
    /// Rows of cells, as many in each as there are heads.
    pub rows: Vec<Vec<String>>,
    /// The line of each row in the file.
    pub lines: Vec<usize>,
}

/// Most rows that are read.
pub const MOST_ROWS: usize = 200_000;
/// Most columns.
const MOST_COLUMNS: usize = 256;

/// A head in its simplest form: small letters and digits with single underscores between.
pub fn normal_form(text: &str) -> String {
    let mut form = String::new();
    for letter in text.trim().chars() {
        if letter.is_alphanumeric() || matches!(letter, '#' | '%') {
            form.extend(letter.to_lowercase());
        } else if !form.is_empty() && !form.ends_with('_') {
            form.push('_');
        }
    }
    form.trim_end_matches('_').to_owned()
}

impl Grid {
    /// Reads a file: text with comma, semicolon, tab or bar, or a workbook. Lines that begin with `#` are notes.
    pub fn read(bytes: &[u8], file: &str) -> Result<Grid, AppError> {
        let lines =
            if bytes.starts_with(b"PK\x03\x04") { workbook(bytes, file)? } else { text(bytes, file)? };
        let mut lines = lines.into_iter().filter(|(_, cells)| cells.iter().any(|cell| !cell.is_empty()));
        let Some((first_line, first)) = lines.next() else {
            return Err(AppError::new(ErrorKind::Input, "numbers-file-empty")
                .with("file", file)
                .hint("numbers-file-empty-hint"));
        };
        if MOST_COLUMNS < first.len() {
            return Err(AppError::new(ErrorKind::Input, "numbers-too-wide")
                .with("file", file)
                .hint("numbers-file-empty-hint"));
        }
        let mut grid = Grid { heads: Vec::new(), rows: Vec::new(), lines: Vec::new() };
        let all_numbers =
            first.iter().all(|cell| matches!(super::cell::read(cell), super::cell::Cell::Number(_)));
        if all_numbers {
            // A table without heads: its columns are counted.
            grid.heads = (1..=first.len()).map(|place| place.to_string()).collect();
            grid.rows.push(first);
            grid.lines.push(first_line);
        } else {
            grid.heads = first;
        }
        while grid.heads.last().is_some_and(String::is_empty) {
            grid.heads.pop();
        }
        let width = grid.heads.len();
        for (line, mut cells) in lines {
            if grid.rows.len() == MOST_ROWS {
                return Err(AppError::new(ErrorKind::Input, "numbers-too-long")
                    .with("file", file)
                    .with("most", MOST_ROWS)
                    .hint("numbers-file-empty-hint"));
            }
            if cells.iter().skip(width).any(|cell| !cell.is_empty()) {
                return Err(AppError::new(ErrorKind::Input, "numbers-ragged")
                    .with("file", file)
                    .with("line", line)
                    .with("found", cells.len())
                    .with("heads", width)
                    .hint("numbers-ragged-hint"));
            }
            cells.resize(width, String::new());
            grid.rows.push(cells);
            grid.lines.push(line);
        }
        let mut forms: Vec<String> = grid.heads.iter().map(|head| normal_form(head)).collect();
        forms.sort();
        if let Some(twice) = forms.windows(2).find(|pair| pair[0] == pair[1]) {
            return Err(AppError::new(ErrorKind::Input, "numbers-head-twice")
                .with("file", file)
                .with("column", &twice[0])
                .hint("numbers-head-twice-hint"));
        }
        Ok(grid)
    }
}

type Lines = Vec<(usize, Vec<String>)>;

fn workbook(bytes: &[u8], file: &str) -> Result<Lines, AppError> {
    let table = import::read_table(bytes, file).map_err(|_| {
        AppError::new(ErrorKind::Input, "numbers-not-a-table")
            .with("file", file)
            .hint("numbers-not-a-table-hint")
    })?;
    Ok(table
        .rows
        .iter()
        .map(|row| (row.number as usize, row.cells.iter().map(import::Cell::shown).collect()))
        .collect())
}

fn text(bytes: &[u8], file: &str) -> Result<Lines, AppError> {
    let not_text = || {
        AppError::new(ErrorKind::Input, "numbers-not-a-table")
            .with("file", file)
            .hint("numbers-not-a-table-hint")
    };
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let (decoded, _, broken) = if std::str::from_utf8(bytes).is_ok() {
        encoding_rs::UTF_8.decode(bytes)
    } else {
        encoding_rs::WINDOWS_1252.decode(bytes)
    };
    if broken || decoded.contains('\0') {
        return Err(not_text());
    }
    let delimiter = delimiter_of(&decoded);
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .delimiter(delimiter)
        .from_reader(decoded.as_bytes());
    let mut lines = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|_| not_text())?;
        let line = record.position().map_or(0, |place| usize::try_from(place.line()).unwrap_or(usize::MAX));
        lines.push((line, record.iter().map(|cell| cell.trim().to_owned()).collect()));
    }
    Ok(lines)
}

/// The delimiter of the heads: a tab, bar or semicolon wherever there is one, since heads and decimal numbers may hold
/// commas; otherwise a comma. Heads without any delimiter belong to a single column, whose commas are decimal.
fn delimiter_of(text: &str) -> u8 {
    let heads = text
        .lines()
        .map(str::trim)
        .find(|line| !line.is_empty() && !line.starts_with('#'))
        .unwrap_or_default();
    for delimiter in ['\t', ';', '|', ','] {
        if heads.contains(delimiter) {
            return delimiter as u8;
        }
    }
    b';'
}
