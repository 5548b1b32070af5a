//! Where the header row is, and what the file is a list of.

use super::columns::{Col, Heading, of, read_heading};
use super::problem::{FileProblem, Said};
use super::table::{Cell, Table};
use super::words::nearest;
use super::{Kind, columns};

/// Rows from the top among which the headers must be; title rows may stand above them.
const LOOKED_AT: usize = 30;

/// The header row as one kind of file would read it.
pub(super) struct Headers {
    /// Place of the header row in the table.
    pub(super) row: usize,
    /// Known columns with their place and header text.
    pub(super) found: Vec<(usize, String, Heading)>,
    /// Headers that no column answers to.
    pub(super) unknown: Vec<String>,
}

/// Finds the row that has the most known headers.
pub(super) fn headers(table: &Table, kind: Kind) -> Option<Headers> {
    let read = |row: usize| {
        let mut found = Vec::new();
        let mut unknown = Vec::new();
        for (place, cell) in table.rows[row].cells.iter().enumerate() {
            let Cell::Text(text) = cell else { continue };
            match read_heading(text, kind) {
                Some(heading) => found.push((place, text.clone(), heading)),
                None => unknown.push(text.clone()),
            }
        }
        Headers { row, found, unknown }
    };
    let rows = table.rows.len().min(LOOKED_AT);
    let mut best: Option<Headers> = None;
    for headers in (0..rows).map(read).filter(|headers| !headers.found.is_empty()) {
        if best.as_ref().is_none_or(|best| best.found.len() < headers.found.len()) {
            best = Some(headers);
        }
    }
    best
}

/// What a kind of file cannot do without, as far as the headers lack it; by the documents' names.
pub(super) fn missing(kind: Kind, headers: &Headers) -> Vec<&'static str> {
    let has = |col: Col| headers.found.iter().any(|(_, _, heading)| heading.spec.col == col);
    let mut missing = Vec::new();
    let mut need = |there: bool, name: &'static str| {
        if !there {
            missing.push(name);
        }
    };
    let named = has(Col::Name) || (has(Col::FirstName) && has(Col::LastName));
    match kind {
        Kind::Roster => {
            need(named, "name");
            need(has(Col::Born), "birth date");
        }
        Kind::Screening => {
            need(named || has(Col::ClubNumber), "name or club number");
            need(has(Col::Date), "date");
            let measured =
                headers.found.iter().any(|(_, _, heading)| matches!(heading.spec.col, Col::Finding(_)));
            need(measured || has(Col::Hollow), "a measured value");
        }
        Kind::Kit => {
            need(has(Col::Mark), "mark");
            need(has(Col::KitKind), "kind");
        }
        Kind::Sets => {
            need(named || has(Col::ClubNumber), "name or club number");
            need(has(Col::Date), "date");
            need(has(Col::Exercise), "exercise");
            need(has(Col::SetTime), "set");
        }
    }
    missing
}

/// What the file is a list of, from its headers; where that does not settle it, what would.
pub fn detect(table: &Table) -> Result<Kind, FileProblem> {
    let read: Vec<(Kind, Headers)> =
        Kind::ALL.iter().filter_map(|&kind| headers(table, kind).map(|found| (kind, found))).collect();
    let mut fitting: Vec<(usize, Kind)> = read
        .iter()
        .filter(|(kind, headers)| missing(*kind, headers).is_empty())
        .map(|(kind, headers)| (headers.found.len(), *kind))
        .collect();
    fitting.sort_by_key(|&(count, kind)| (std::cmp::Reverse(count), kind));
    match fitting.as_slice() {
        [(_, kind)] => Ok(*kind),
        [(first, kind), (second, _), ..] if second < first => Ok(*kind),
        [_, _, ..] => {
            let kinds: Vec<&str> = fitting.iter().map(|(_, kind)| kind.word()).collect();
            Err(FileProblem::new(Said::new("import-kind-unclear").with("kinds", kinds.join(", ")))
                .suggest(Said::new("import-try-kind")))
        }
        [] => Err(none_fits(table, &read)),
    }
}

/// The refusal when no kind fits: the nearest kind, what it lacks, and headers that may have been meant.
fn none_fits(table: &Table, read: &[(Kind, Headers)]) -> FileProblem {
    let mut problem = FileProblem::new(Said::new("import-kind-unknown"));
    let nearest_kind = read.iter().max_by_key(|(kind, headers)| {
        (headers.found.len(), std::cmp::Reverse(missing(*kind, headers).len()), std::cmp::Reverse(*kind))
    });
    match nearest_kind {
        Some((kind, headers)) => {
            problem = problem.suggest(lacking(*kind, headers));
            for said in headers.unknown.iter().filter_map(|header| meant(*kind, header)) {
                problem = problem.suggest(said);
            }
        }
        None => {
            let first = table.rows.first().map_or(0, |row| row.number);
            problem = problem.suggest(Said::new("import-try-header-row").with("row", first));
        }
    }
    problem.suggest(Said::new("import-try-kind"))
}

/// What a kind lacks.
pub(super) fn lacking(kind: Kind, headers: &Headers) -> Said {
    Said::new("import-try-adding-columns")
        .with("kind", kind.word())
        .with("columns", missing(kind, headers).join(", "))
        .with("row", headers.row + 1)
}

/// A known header that an unknown one resembles.
pub(super) fn meant(kind: Kind, header: &str) -> Option<Said> {
    let labels = of(kind)
        .iter()
        .flat_map(|spec: &columns::Spec| std::iter::once(spec.label).chain(spec.aliases.iter().copied()));
    let found = nearest(header, labels);
    let first = found.first()?;
    Some(Said::new("import-try-header").with("header", header).with("meant", first))
}
