//! A workbook: the first visible sheet with something on it, cell by cell.
//!
//! A workbook is a compressed archive, so a small file may unfold into a huge one. Every part is unfolded once
//! against a limit before the reader sees it, and cells are taken one at a time, so a lone cell in the last corner
//! of a sheet costs nothing.

use std::io::{Cursor, Read};
use std::panic::{AssertUnwindSafe, catch_unwind};

use calamine::{DataRef, Reader, SheetVisible, Xlsx};
use jiff::civil::Date;

use super::problem::{FileProblem, Problem, Said};
use super::table::{Cell, MOST_COLUMNS, MOST_ROWS, Row, Source, Table, too_many_columns, too_many_rows};

/// Most bytes that all parts of a workbook may unfold to.
const MOST_UNFOLDED: u64 = 128 * 1024 * 1024;
/// Most parts a workbook may have.
const MOST_PARTS: usize = 2_000;

/// Reads a workbook.
pub(super) fn read(bytes: &[u8], file_name: &str) -> Result<Table, FileProblem> {
    // A damaged workbook must end in a refusal whatever the parsing libraries make of it.
    catch_unwind(AssertUnwindSafe(|| {
        check_size(bytes, file_name, MOST_UNFOLDED)?;
        cells(bytes, file_name)
    }))
    .unwrap_or_else(|_| Err(unreadable(file_name, "damaged")))
}

fn unreadable(file_name: &str, detail: impl ToString) -> FileProblem {
    FileProblem::new(Said::new("import-file-bad-workbook").with("file", file_name).with("detail", detail))
        .suggest(Said::new("import-try-save-as-xlsx"))
}

/// Unfolds every part into nothing and counts, because the sizes that an archive states about itself may be untrue.
fn check_size(bytes: &[u8], file_name: &str, most: u64) -> Result<(), FileProblem> {
    let mut archive =
        zip::ZipArchive::new(Cursor::new(bytes)).map_err(|error| unreadable(file_name, error))?;
    let too_large = || {
        FileProblem::new(
            Said::new("import-file-unfolds").with("file", file_name).with("limit", most / 1024 / 1024),
        )
    };
    if MOST_PARTS < archive.len() {
        return Err(too_large());
    }
    let mut left = most;
    for index in 0..archive.len() {
        let part = archive.by_index(index).map_err(|error| unreadable(file_name, error))?;
        let unfolded = std::io::copy(&mut part.take(left + 1), &mut std::io::sink())
            .map_err(|error| unreadable(file_name, error))?;
        left = left.checked_sub(unfolded).ok_or_else(too_large)?;
    }
    Ok(())
}

fn cells(bytes: &[u8], file_name: &str) -> Result<Table, FileProblem> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| unreadable(file_name, error))?;
    let visible: Vec<String> = book
        .sheets_metadata()
        .iter()
        .filter(|sheet| sheet.visible == SheetVisible::Visible)
        .map(|sheet| sheet.name.clone())
        .collect();
    let mut found: Option<Vec<Row>> = None;
    let mut notes = Vec::new();
    for name in visible {
        let rows = rows_of(&mut book, &name, file_name);
        match (&found, rows) {
            (None, Ok(rows)) if !rows.is_empty() => {
                notes.push(Problem::note("import-note-sheet").with("sheet", &name));
                found = Some(rows);
            }
            (None, Err(problem)) => return Err(problem),
            (Some(_), Ok(rows)) if !rows.is_empty() => {
                notes.push(Problem::note("import-note-sheet-not-read").with("sheet", &name));
            }
            (Some(_), Err(_)) => {
                notes.push(Problem::note("import-note-sheet-not-read").with("sheet", &name));
            }
            (_, Ok(_)) => {}
        }
    }
    Ok(Table { rows: found.unwrap_or_default(), source: Source::Workbook, notes })
}

fn rows_of(book: &mut Xlsx<Cursor<&[u8]>>, sheet: &str, file_name: &str) -> Result<Vec<Row>, FileProblem> {
    let mut reader = book.worksheet_cells_reader(sheet).map_err(|error| unreadable(file_name, error))?;
    let mut rows: Vec<Row> = Vec::new();
    while let Some(cell) = reader.next_cell().map_err(|error| unreadable(file_name, error))? {
        let value = cell_of(cell.get_value());
        if value.is_blank() {
            continue;
        }
        let (row, column) = cell.get_position();
        let number = row.saturating_add(1);
        let column = usize::try_from(column).unwrap_or(usize::MAX);
        if MOST_COLUMNS <= column {
            return Err(too_many_columns(file_name));
        }
        if rows.last().is_none_or(|last| last.number != number) {
            if MOST_ROWS < rows.len() {
                return Err(too_many_rows(file_name));
            }
            rows.push(Row { number, cells: Vec::new() });
        }
        let cells = &mut rows.last_mut().expect("a row was just made sure of").cells;
        if cells.len() <= column {
            cells.resize(column + 1, Cell::Blank);
        }
        cells[column] = value;
    }
    Ok(rows)
}

fn cell_of(value: &DataRef<'_>) -> Cell {
    match value {
        DataRef::Empty => Cell::Blank,
        DataRef::Int(value) => Cell::Number(*value as f64),
        DataRef::Float(value) if value.is_finite() => Cell::Number(*value),
        DataRef::Float(_) => Cell::Broken("not a number".to_owned()),
        DataRef::String(text) => Cell::text(text),
        DataRef::SharedString(text) => Cell::text(text),
        DataRef::Bool(truth) => Cell::Truth(*truth),
        DataRef::DateTime(moment) => {
            let days = moment.as_f64();
            if moment.is_duration() || (0.0..1.0).contains(&days) {
                return Cell::Duration(days * 86_400.0);
            }
            let (year, month, day, ..) = moment.to_ymd_hms_milli();
            day_of(year, month, day).unwrap_or_else(|| Cell::Broken(format!("{days}")))
        }
        DataRef::DateTimeIso(text) => {
            let day = text.split(['T', ' ']).next().unwrap_or_default();
            day.parse::<Date>().map_or_else(|_| Cell::text(text), Cell::Day)
        }
        DataRef::DurationIso(text) => Cell::text(text),
        DataRef::Error(error) => Cell::Broken(error.to_string()),
    }
}

fn day_of(year: u16, month: u8, day: u8) -> Option<Cell> {
    let year = i16::try_from(year).ok()?;
    let (month, day) = (i8::try_from(month).ok()?, i8::try_from(day).ok()?);
    Date::new(year, month, day).ok().map(Cell::Day)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write as _;

    #[test]
    fn a_workbook_that_unfolds_beyond_the_limit_is_refused_unread() {
        let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
        let deflated =
            zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Deflated);
        for part in ["xl/sharedStrings.xml", "xl/workbook.xml"] {
            archive.start_file(part, deflated).unwrap();
            archive.write_all(&vec![0_u8; 600 * 1024]).unwrap();
        }
        let bytes = archive.finish().unwrap().into_inner();
        assert!(bytes.len() < 10 * 1024);
        assert_eq!(check_size(&bytes, "list", 2 * 1024 * 1024), Ok(()));
        assert_eq!(check_size(&bytes, "list", 1024 * 1024).unwrap_err().says.id, "import-file-unfolds");
    }
}
