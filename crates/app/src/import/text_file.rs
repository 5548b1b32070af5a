//! Text with a delimiter: which letters, which delimiter, which lines.

use csv::{ReaderBuilder, StringRecord};

use super::columns;
use super::problem::{FileProblem, Problem, Said};
use super::table::{Cell, MOST_COLUMNS, MOST_ROWS, Row, Source, Table, too_many_columns, too_many_rows};

/// Delimiters that are tried, the commonest first.
const DELIMITERS: [u8; 4] = [b';', b',', b'\t', b'|'];
/// Records that are looked at to tell the delimiter.
const LOOKED_AT: usize = 30;

/// Reads text with a delimiter.
pub(super) fn read(bytes: &[u8], file_name: &str) -> Result<Table, FileProblem> {
    let (text, encoding_note) = decode(bytes, file_name)?;
    let (said_delimiter, body, skipped) = said_delimiter(&text);
    let delimiter = said_delimiter.unwrap_or_else(|| sniff(body));
    let mut notes: Vec<Problem> = encoding_note.into_iter().collect();
    let quotes = body.matches('"').count();
    let mut rows = Vec::new();
    let mut reader = reader(body, delimiter);
    let mut record = StringRecord::new();
    let lines = Lines::of(body);
    let mut last_holds_line_break = false;
    loop {
        match reader.read_record(&mut record) {
            Ok(false) => break,
            Ok(true) => {}
            Err(error) => {
                return Err(FileProblem::new(
                    Said::new("import-file-unreadable").with("file", file_name).with("detail", error),
                ));
            }
        }
        if rows.len() == MOST_ROWS + 1 {
            return Err(too_many_rows(file_name));
        }
        if MOST_COLUMNS < record.len() {
            return Err(too_many_columns(file_name));
        }
        last_holds_line_break = record.iter().any(|field| field.contains('\n'));
        let start = record.position().map_or(0, |place| usize::try_from(place.byte()).unwrap_or(usize::MAX));
        rows.push(Row {
            number: lines.number_at(body, start) + skipped,
            cells: record.iter().map(Cell::text).collect(),
        });
    }
    if last_holds_line_break && !quotes.is_multiple_of(2) {
        let row = rows.last().map_or(0, |row| row.number);
        return Err(FileProblem::new(
            Said::new("import-file-open-quote").with("file", file_name).with("row", row),
        )
        .suggest(Said::new("import-try-closing-quote")));
    }
    notes.push(Problem::note("import-note-delimiter").with("delimiter", delimiter_name(delimiter)));
    Ok(Table { rows, source: Source::Text, notes })
}

fn delimiter_name(delimiter: u8) -> &'static str {
    match delimiter {
        b';' => "semicolon",
        b'\t' => "tab",
        b'|' => "bar",
        _ => "comma",
    }
}

fn reader(body: &str, delimiter: u8) -> csv::Reader<&[u8]> {
    ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(body.as_bytes())
}

/// Where each line begins, so that a record can be given the line number that a person sees.
struct Lines(Vec<usize>);

impl Lines {
    fn of(body: &str) -> Self {
        let after_breaks = body.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        Self(std::iter::once(0).chain(after_breaks).collect())
    }

    /// The line of the first byte of a record. The reader counts blank lines before a record into it.
    fn number_at(&self, body: &str, start: usize) -> u32 {
        let tail = body.as_bytes().get(start..).unwrap_or_default();
        let blanks = tail.iter().take_while(|byte| matches!(byte, b'\n' | b'\r')).count();
        let place = start + blanks;
        u32::try_from(self.0.partition_point(|&begin| begin <= place)).unwrap_or(u32::MAX)
    }
}

/// A first line `sep=;`, as spreadsheets write it, names the delimiter.
fn said_delimiter(text: &str) -> (Option<u8>, &str, u32) {
    let first = text.lines().next().unwrap_or_default();
    let said = first.trim().trim_matches('"').strip_prefix("sep=").map(str::as_bytes);
    match said {
        Some([delimiter]) if DELIMITERS.contains(delimiter) => {
            (Some(*delimiter), after_break(&text[first.len()..]), 1)
        }
        _ => (None, text, 0),
    }
}

/// What follows one line break.
fn after_break(text: &str) -> &str {
    text.strip_prefix("\r\n").or_else(|| text.strip_prefix('\n')).unwrap_or(text)
}

/// The delimiter under which the most headers are known; where none is, the one that cuts most evenly.
fn sniff(body: &str) -> u8 {
    let score = |delimiter: u8| {
        let mut known = 0;
        let mut widths = Vec::new();
        for record in reader(body, delimiter).records().take(LOOKED_AT).flatten() {
            let cells: Vec<&str> = record.iter().collect();
            known = known.max(columns::known_headers(&cells));
            widths.push(record.len());
        }
        widths.sort_unstable();
        let usual = widths.get(widths.len() / 2).copied().unwrap_or(0);
        let even = widths.iter().filter(|&&width| width == usual && 1 < width).count();
        (known, even, usual)
    };
    let mut best = (DELIMITERS[0], (0, 0, 0));
    for delimiter in DELIMITERS {
        let found = score(delimiter);
        if best.1 < found {
            best = (delimiter, found);
        }
    }
    best.0
}

/// Bytes to text: UTF-8, UTF-16, or else Windows-1252 with a note.
fn decode(bytes: &[u8], file_name: &str) -> Result<(String, Option<Problem>), FileProblem> {
    let wide = |body: &[u8], encoding: &'static encoding_rs::Encoding| {
        let (text, broken) = encoding.decode_without_bom_handling(body);
        if broken || !body.len().is_multiple_of(2) {
            Err(not_text(file_name))
        } else {
            Ok((text.into_owned(), Some(Problem::note("import-note-encoding").with("encoding", "UTF-16"))))
        }
    };
    match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => match std::str::from_utf8(rest) {
            Ok(text) if !text.contains('\0') => Ok((text.to_owned(), None)),
            _ => Err(not_text(file_name)),
        },
        [0xFF, 0xFE, rest @ ..] => wide(rest, encoding_rs::UTF_16LE),
        [0xFE, 0xFF, rest @ ..] => wide(rest, encoding_rs::UTF_16BE),
        _ if bytes.contains(&0) => match which_half_is_empty(bytes) {
            Some(encoding) => wide(bytes, encoding),
            None => Err(not_text(file_name)),
        },
        _ => match std::str::from_utf8(bytes) {
            Ok(text) => Ok((text.to_owned(), None)),
            Err(_) => {
                let (text, _) = encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes);
                let note = Problem::note("import-note-encoding-guessed").with("encoding", "Windows-1252");
                Ok((text.into_owned(), Some(note)))
            }
        },
    }
}

/// UTF-16 without a mark: in a Western list nearly every second byte is zero.
fn which_half_is_empty(bytes: &[u8]) -> Option<&'static encoding_rs::Encoding> {
    let zeros = |offset: usize| bytes.iter().skip(offset).step_by(2).filter(|&&byte| byte == 0).count();
    let half = bytes.len() / 2;
    match (zeros(0), zeros(1)) {
        (first, 0) if half * 3 / 4 < first => Some(encoding_rs::UTF_16BE),
        (0, second) if half * 3 / 4 < second => Some(encoding_rs::UTF_16LE),
        _ => None,
    }
}

fn not_text(file_name: &str) -> FileProblem {
    FileProblem::new(Said::new("import-file-not-a-table").with("file", file_name))
        .suggest(Said::new("import-try-save-as-csv"))
}
