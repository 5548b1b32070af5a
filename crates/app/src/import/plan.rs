//! What an import would change: facts added, unchanged or corrected, and every problem of every row.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use uuid::Uuid;

use super::cells::Grid;
use super::detect;
use super::key;
use super::people::{Existing, Known};
use super::problem::{FileProblem, Problem, Said, Weight};
use super::softer::takes_a_warning_back;
use super::table::Table;
use super::{Kind, Options, kit, roster, screening, sets};
use crate::facts;

/// Whom or what a fact is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A swimmer on record.
    Existing(Uuid),
    /// A swimmer whom this import adds.
    New(Uuid),
    /// The club.
    Club,
}

impl Subject {
    /// The subject id, for a fact about a swimmer.
    pub fn id(self) -> Option<Uuid> {
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
    Unchanged(Uuid),
    /// Something else is on record.
    Corrects {
        /// Fact that it supersedes.
        fact: Uuid,
        /// Payload on record.
        before: Value,
    },
}

/// A fact that would be recorded.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedFact {
    /// Natural key.
    pub natural_key: String,
    /// Id to record it under; for an unchanged fact the id on record.
    pub id: Uuid,
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

/// A fact as one row gives it. The payload may leave out what the file does not say.
#[derive(Debug, Clone)]
pub(super) struct Draft {
    pub(super) key: String,
    pub(super) subject: Subject,
    pub(super) kind: facts::Kind,
    pub(super) payload: Value,
}

/// What one row gives.
#[derive(Debug, Default)]
pub(super) struct Given {
    pub(super) about: String,
    pub(super) drafts: Vec<Draft>,
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
    let people = roster::Identities::of(&grid, options);
    let mut gathered = Gathered::default();
    let mut rows = Vec::new();
    for row in grid.rows {
        let mut line = grid.line(row, options);
        let given = match kind {
            Kind::Roster => roster::read(&mut line, known, options, &people),
            Kind::Screening => screening::read(&mut line, known),
            Kind::Kit => kit::read(&mut line),
            Kind::Sets => sets::read(&mut line, known, options),
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
    let facts = gathered.settle(known, options, &mut problems);
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

/// Drafts of all rows, one a natural key.
#[derive(Default)]
struct Gathered {
    drafts: BTreeMap<String, (Draft, Vec<u32>)>,
    contradicted: BTreeSet<String>,
}

impl Gathered {
    /// Takes a draft in. Two rows may say the same, or parts that complete each other; they may not contradict.
    fn add(&mut self, draft: Draft, row: u32, problems: &mut Vec<Problem>) {
        let Some((before, rows)) = self.drafts.get_mut(&draft.key) else {
            self.drafts.insert(draft.key.clone(), (draft, vec![row]));
            return;
        };
        let first = rows.first().copied().unwrap_or(row);
        let per_row = matches!(draft.kind, facts::Kind::Session | facts::Kind::Pain);
        match union(&before.payload, &draft.payload) {
            Ok(both) => {
                if !per_row && !rows.contains(&row) {
                    let note = Problem::note("import-note-repeated").on_row(row).with("first", first);
                    if !problems.contains(&note) {
                        problems.push(note);
                    }
                }
                before.payload = both;
                rows.push(row);
            }
            Err(field) => {
                problems.push(
                    Problem::new("import-rows-contradict")
                        .on_row(row)
                        .with("first", first)
                        .with("field", field)
                        .suggest(Said::new("import-try-one-row")),
                );
                self.contradicted.insert(draft.key);
            }
        }
    }

    /// All sets of one block were prescribed together. Where rows differ the larger number holds: more has to be
    /// reached before the block counts.
    fn agree_on_prescribed_sets(&mut self) {
        let block = |key: &str| key.rsplit_once('/').map_or_else(String::new, |(block, _)| block.to_owned());
        let prescribed = |draft: &Draft| draft.payload.get("prescribed_sets").and_then(Value::as_u64);
        let mut most: BTreeMap<String, u64> = BTreeMap::new();
        for (draft, _) in self.drafts.values().filter(|(draft, _)| draft.kind == facts::Kind::Set) {
            let slot = most.entry(block(&draft.key)).or_default();
            *slot = (*slot).max(prescribed(draft).unwrap_or_default());
        }
        for (draft, _) in self.drafts.values_mut().filter(|(draft, _)| draft.kind == facts::Kind::Set) {
            if let (Some(most), Some(fields)) = (most.get(&block(&draft.key)), draft.payload.as_object_mut())
            {
                fields.insert("prescribed_sets".to_owned(), Value::from(*most));
            }
        }
    }

    /// Compares with what is on record.
    fn settle(self, known: &Known<'_>, options: &Options, problems: &mut Vec<Problem>) -> Vec<PlannedFact> {
        let mut facts = Vec::new();
        for (natural_key, (draft, rows)) in self.drafts {
            if self.contradicted.contains(&natural_key) {
                continue;
            }
            let first_id = key::fact_id(options.namespace, &natural_key);
            let existing = (known.existing)(&natural_key, first_id);
            let row = rows.first().copied();
            let payload = match completed(draft.kind, existing.as_ref(), draft.payload) {
                Ok(payload) => payload,
                Err(detail) => {
                    let mut problem = Problem::new("import-not-accepted").with("detail", detail);
                    problem.row = row;
                    problems.push(problem);
                    continue;
                }
            };
            let (id, change) = match existing {
                None => (first_id, Change::Added),
                Some(existing) if same(&existing.payload, &payload) => {
                    (existing.fact, Change::Unchanged(existing.fact))
                }
                Some(existing) => {
                    if takes_a_warning_back(draft.kind, &existing.payload, &payload) {
                        let mut problem = Problem::ask("import-takes-warning-back")
                            .with("kind", draft.kind.word())
                            .suggest(Said::new("import-try-accept-unusual"));
                        problem.row = row;
                        problems.push(problem);
                    }
                    let id = key::correction_id(options.namespace, &natural_key, existing.fact, &payload);
                    (id, Change::Corrects { fact: existing.fact, before: existing.payload })
                }
            };
            let mut rows = rows;
            rows.sort_unstable();
            rows.dedup();
            facts.push(PlannedFact {
                natural_key,
                id,
                subject: draft.subject,
                kind: draft.kind,
                payload,
                change,
                rows,
            });
        }
        facts
    }
}

/// Joins two payloads field by field; the name of the field where they contradict each other, if they do.
fn union(one: &Value, other: &Value) -> Result<Value, String> {
    let (Value::Object(one), Value::Object(other)) = (one, other) else {
        return if same(one, other) { Ok(one.clone()) } else { Err(String::new()) };
    };
    let mut both = one.clone();
    for (name, value) in other {
        match both.get(name) {
            Some(before) if !before.is_null() && !value.is_null() => {
                if !same(before, value) {
                    return Err(name.replace('_', " "));
                }
            }
            _ if value.is_null() && both.contains_key(name) => {}
            _ => {
                both.insert(name.clone(), value.clone());
            }
        }
    }
    Ok(Value::Object(both))
}

/// Two payloads say the same: whole and decimal numbers alike, and absent the same as null.
fn same(one: &Value, other: &Value) -> bool {
    match (one, other) {
        (Value::Number(one), Value::Number(other)) => one.as_f64() == other.as_f64(),
        (Value::Array(one), Value::Array(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(one, other))
        }
        (Value::Object(one), Value::Object(other)) => {
            let at = |object: &serde_json::Map<String, Value>, name: &str| {
                object.get(name).cloned().unwrap_or(Value::Null)
            };
            one.keys().chain(other.keys()).all(|name| same(&at(one, name), &at(other, name)))
        }
        _ => one == other,
    }
}

/// The whole payload: what the file says, and from the record what it leaves open. A blank never erases.
fn completed(kind: facts::Kind, existing: Option<&Existing>, draft: Value) -> Result<Value, String> {
    use facts::Kind as K;
    let before = existing.map(|existing| &existing.payload);
    let draft = match (kind, before) {
        // A set is one observation: it is replaced whole, so that an old fault never stays with a new end.
        (K::Set, _) | (_, None) => draft,
        (K::Screening, Some(before)) => screening::completed(before, draft),
        (_, Some(before)) => over(before, draft),
    };
    match kind {
        K::Swimmer => shaped::<facts::SwimmerFact>(draft),
        K::Consent => shaped::<facts::ConsentFact>(draft),
        K::Intake => shaped::<facts::IntakeFact>(draft),
        K::Screening => shaped::<facts::ScreeningFact>(draft),
        K::Growth => shaped::<facts::GrowthFact>(draft),
        K::Pain => shaped::<facts::PainFact>(draft),
        K::Session => shaped::<facts::SessionFact>(draft),
        K::Set => shaped::<facts::SetFact>(draft),
        K::KitPiece => shaped::<facts::KitPieceFact>(draft),
        other => Err(format!("{} is never imported", other.word())),
    }
}

/// Puts a draft over a payload on record.
fn over(before: &Value, draft: Value) -> Value {
    match (before, draft) {
        (Value::Object(before), Value::Object(draft)) => {
            let mut whole = before.clone();
            whole.extend(draft.into_iter().filter(|(_, value)| !value.is_null()));
            Value::Object(whole)
        }
        (_, draft) => draft,
    }
}

/// The payload as its shape writes it, defaults filled in.
fn shaped<T: Serialize + DeserializeOwned>(draft: Value) -> Result<Value, String> {
    let shape: T = serde_json::from_value(draft).map_err(|error| error.to_string())?;
    serde_json::to_value(shape).map_err(|error| error.to_string())
}
