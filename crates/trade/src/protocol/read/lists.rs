//! Faults and references, and the mark that every number and note carries.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::problem::{DUPLICATE, MISSING_SOURCE, NEEDLESS_SOURCE, Report, UNKNOWN_NAME, nearest};
use super::table::{Table, one_of};
use crate::name::{FaultCode, SourceKey};
use crate::protocol::{Evidence, Fault, Source};

/// Names seen so far in one list, with the line where each stood first.
#[derive(Default)]
pub(super) struct Seen(BTreeMap<String, usize>);

impl Seen {
    /// Takes a name; a second time it is reported at its second place.
    pub(super) fn take(&mut self, kind: &str, name: &str, at: &Range<usize>, report: &mut Report<'_>) {
        // An empty name is a missing one, which has been reported already.
        if name.is_empty() {
            return;
        }
        let (line, _) = report.place(at.start);
        match self.0.get(name) {
            Some(first) => {
                let values = [kind.to_owned(), name.to_owned(), first.to_string()];
                report.add(&DUPLICATE, at.clone(), values);
            }
            None => {
                self.0.insert(name.to_owned(), line);
            }
        }
    }
}

/// Keys of the references, against which marks are checked.
pub(super) struct Known(BTreeSet<String>);

impl Known {
    pub(super) fn new(sources: &[Source]) -> Self {
        Known(sources.iter().map(|source| source.key.as_str().to_owned()).collect())
    }
}

/// Keys of every table that carries a mark.
pub(super) const MARK: &str = "mark";
/// See [`MARK`].
pub(super) const SOURCE: &str = "source";

/// Reads the mark of a table. Only published facts and what was computed from them may name a source: a source
/// beside a mark of practice would claim more ground than there is.
pub(super) fn evidence(table: &Table<'_>, known: &Known, report: &mut Report<'_>) -> Option<Evidence> {
    let mark =
        table.need(MARK, report).and_then(|value| super::table::text(MARK, value, &table.within, report));
    let source = table.optional_text(SOURCE, report);
    if let Some((key, at)) = &source
        && !known.0.contains(key)
    {
        let near = nearest(key, known.0.iter().map(String::as_str));
        report.add(&UNKNOWN_NAME, at.clone(), ["source".to_owned(), key.clone(), near]);
    }
    let (word, at) = mark?;
    let mark = one_of(MARK, &word, at.clone(), &Evidence::MARKS, |mark| mark, report)?;
    let [published, from_memory, core, common, computed] = Evidence::MARKS;
    if mark == published {
        if source.is_none() && table.find(SOURCE).is_none() {
            report.add(&MISSING_SOURCE, at, [table.within.clone()]);
        }
        return source.map(|(key, _)| Evidence::Published(SourceKey::new(&key)));
    }
    if let Some((_, at)) = source
        && mark != computed
    {
        report.add(&NEEDLESS_SOURCE, at, [mark.to_owned(), table.within.clone()]);
    }
    [(from_memory, Evidence::FromMemory), (core, Evidence::CorePractice), (common, Evidence::CommonPractice)]
        .into_iter()
        .find(|(word, _)| *word == mark)
        .map_or(Some(Evidence::Computed), |(_, evidence)| Some(evidence))
}

/// Reads the references.
pub(super) fn sources(root: &Table<'_>, report: &mut Report<'_>) -> Vec<Source> {
    let mut seen = Seen::default();
    let tables = root.tables("source", "key", &["key", "citation", "seen"], report);
    let mut sources = Vec::new();
    for table in &tables {
        let (key, at) = table.id("key", report);
        seen.take("source", &key, &at, report);
        sources.push(Source {
            key: SourceKey::new(&key),
            citation: table.text("citation", report),
            seen: table.text("seen", report),
        });
    }
    sources
}

/// Reads the form faults.
pub(super) fn faults(root: &Table<'_>, report: &mut Report<'_>) -> Vec<Fault> {
    let mut seen = Seen::default();
    let tables = root.tables("fault", "code", &["code", "name", "seen_as", "cue"], report);
    let mut faults = Vec::new();
    for table in &tables {
        let (code, at) = table.id("code", report);
        seen.take("fault", &code, &at, report);
        faults.push(Fault {
            code: FaultCode::new(&code),
            name: table.text("name", report),
            seen_as: table.text("seen_as", report),
            cue: table.text("cue", report),
        });
    }
    faults
}
