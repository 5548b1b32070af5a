//! What an import would change: facts added, unchanged or corrected, and every problem of every row.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;
use store::{FactId, SubjectId};

use super::cells::Line;
use super::detect;
use super::gather::Gathered;
use super::grid::Grid;
use super::people::{Known, People};
use super::problem::{FileProblem, Problem, Said, Weight};
use super::table::Table;
use super::{Kind, Options, kit, roster, screening, sets};
use crate::facts;

/// Whom or what a fact is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A swimmer on record.
    Existing(SubjectId),
    /// A swimmer whom this import adds.
    New(SubjectId),
    /// The club.
    Club,
}

impl Subject {
    /// The subject id, for a fact about a swimmer.
    pub fn id(self) -> Option<SubjectId> {
        match self {
            Subject::Existing(id) | Subject::New(id) => Some(id),
            Subject::Club => None,
        }
    }
}

/// What recording a fact would change.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Nothing like it is on record.
    Added,
    /// It is on record as it stands.
    Unchanged(FactId),
    /// Something else is on record.
    Corrects {
        /// Fact that it supersedes.
        fact: FactId,
        /// Payload on record.
        before: Value,
    },
}

/// A fact that would be recorded.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedFact {
    /// Natural key.
    pub natural_key: String,
    /// Whom or what it is about.
    pub subject: Subject,
    /// Kind.
    pub kind: facts::Kind,
    /// Payload to record.
    pub payload: Value,
    /// What that would change.
    pub change: Change,
    /// Rows it comes from.
    pub rows: Vec<u32>,
}

/// What came of one row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Cannot be imported as it stands.
    Blocked,
    /// Corrects something on record.
    Corrects,
    /// Adds something.
    Adds,
    /// Already on record.
    Unchanged,
    /// Says nothing that could be recorded.
    Nothing,
}

/// One row of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowReport {
    /// Row as the spreadsheet counts it.
    pub row: u32,
    /// Whom or what it is about, as written.
    pub about: String,
    /// What came of it.
    pub outcome: Outcome,
}

/// Counts for the last line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Rows under the header.
    pub rows: usize,
    /// Facts that would be added.
    pub added: usize,
    /// Facts already on record.
    pub unchanged: usize,
    /// Facts that would be corrected.
    pub corrected: usize,
    /// Problems that block.
    pub blocking: usize,
    /// Unusual values to confirm.
    pub to_confirm: usize,
    /// Notes.
    pub notes: usize,
}

/// Everything an import would do, before anything is done.
#[derive(Debug, Clone, PartialEq)]
pub struct Preview {
    /// What the file is a list of.
    pub kind: Kind,
    /// Every row.
    pub rows: Vec<RowReport>,
    /// Every problem, of the file first, then by row.
    pub problems: Vec<Problem>,
    /// Facts, by natural key. To be recorded all together, and only when the preview is ready.
    pub facts: Vec<PlannedFact>,
    /// Counts.
    pub counts: Counts,
    accepts_unusual: bool,
}

impl Preview {
    /// Nothing blocks, and what is unusual has been confirmed.
    pub fn is_ready(&self) -> bool {
        self.counts.blocking == 0 && (self.accepts_unusual || self.counts.to_confirm == 0)
    }

    /// Facts that change what is on record.
    pub fn changes(&self) -> impl Iterator<Item = &PlannedFact> {
        self.facts.iter().filter(|fact| !matches!(fact.change, Change::Unchanged(_)))
    }

    /// Swimmers whom this import names, as they would stand on record; lets a second file of the same batch be
    /// previewed before the first is recorded.
    pub fn swimmers(&self) -> Vec<super::KnownSwimmer> {
        self.facts
            .iter()
            .filter(|fact| fact.kind == facts::Kind::Swimmer)
            .filter_map(|fact| {
                let swimmer: facts::SwimmerFact = serde_json::from_value(fact.payload.clone()).ok()?;
                Some(super::KnownSwimmer {
                    subject: fact.subject.id()?,
                    name: swimmer.name,
                    born: swimmer.born,
                    club_number: swimmer.club_number,
                })
            })
            .collect()
    }
}

/// Reads a table as one kind of list.
pub fn preview(
    table: &Table,
    kind: Kind,
    known: &Known<'_>,
    options: &Options,
) -> Result<Preview, FileProblem> {
    let headers = detect::headers(table, kind)
        .ok_or_else(|| FileProblem::new(Said::new("import-no-headers").with("kind", kind.word())))?;
    if !detect::missing(kind, &headers).is_empty() {
        let mut problem = FileProblem::new(Said::new("import-columns-missing").with("kind", kind.word()))
            .suggest(detect::lacking(kind, &headers));
        for said in headers.unknown.iter().filter_map(|header| detect::meant(kind, header)) {
            problem = problem.suggest(said);
        }
        return Err(problem);
    }
    let mut problems = table.notes.clone();
    let grid = Grid::new(table, kind, headers, options, &mut problems);
    let identities = roster::Identities::of(&grid, options);
    let people = People::of(known.swimmers);
    let mut gathered = Gathered::default();
    let mut rows = Vec::new();
    for row in grid.rows {
        let mut line = Line::new(&grid, row, options);
        let given = match kind {
            Kind::Roster => roster::read(&mut line, known, options, &identities),
            Kind::Screening => screening::read(&mut line, &people),
            Kind::Kit => kit::read(&mut line),
            Kind::Sets => sets::read(&mut line, known, &people, options),
        };
        if !line.is_blocked() {
            for draft in given.drafts {
                gathered.add(draft, row.number, &mut line.problems);
            }
        }
        rows.push((row.number, given.about, line.is_blocked()));
        problems.append(&mut line.problems);
    }
    if kind == Kind::Sets && options.context.is_none() && !grid.has(super::columns::Col::Context) {
        problems.push(Problem::new("import-context-missing").suggest(Said::new("import-try-context")));
    }
    if kind == Kind::Sets {
        gathered.agree_on_prescribed_sets();
        if !grid.has(super::columns::Col::PrescribedSets) {
            problems.push(Problem::note("import-note-prescribed").with("sets", known.exercises.sets));
        }
    }
    let facts = gathered.settle(known, &mut problems);
    problems.sort();
    problems.dedup();
    Ok(report(kind, rows, problems, facts, options))
}

fn report(
    kind: Kind,
    rows: Vec<(u32, String, bool)>,
    problems: Vec<Problem>,
    facts: Vec<PlannedFact>,
    options: &Options,
) -> Preview {
    let blocked: BTreeSet<u32> = problems
        .iter()
        .filter(|problem| problem.weight == Weight::Blocks)
        .filter_map(|problem| problem.row)
        .collect();
    let mut outcomes: BTreeMap<u32, Outcome> = BTreeMap::new();
    for fact in &facts {
        let outcome = match fact.change {
            Change::Added => Outcome::Adds,
            Change::Unchanged(_) => Outcome::Unchanged,
            Change::Corrects { .. } => Outcome::Corrects,
        };
        for row in &fact.rows {
            let slot = outcomes.entry(*row).or_insert(outcome);
            *slot = (*slot).min(outcome);
        }
    }
    let count = |weight: Weight| problems.iter().filter(|problem| problem.weight == weight).count();
    let changed = |wanted: fn(&Change) -> bool| facts.iter().filter(|fact| wanted(&fact.change)).count();
    let counts = Counts {
        rows: rows.len(),
        added: changed(|change| matches!(change, Change::Added)),
        unchanged: changed(|change| matches!(change, Change::Unchanged(_))),
        corrected: changed(|change| matches!(change, Change::Corrects { .. })),
        blocking: count(Weight::Blocks),
        to_confirm: count(Weight::Ask),
        notes: count(Weight::Note),
    };
    let rows = rows
        .into_iter()
        .map(|(row, about, is_blocked)| RowReport {
            row,
            about,
            outcome: if is_blocked || blocked.contains(&row) {
                Outcome::Blocked
            } else {
                outcomes.get(&row).copied().unwrap_or(Outcome::Nothing)
            },
        })
        .collect();
    Preview { kind, rows, problems, facts, counts, accepts_unusual: options.accept_unusual }
}
