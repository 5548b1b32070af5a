//! Drafts of all rows brought together, completed from the record and compared with it.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::people::{Existing, Known, OnRecord};
use super::plan::{Change, PlannedFact, Subject};
use super::problem::{Problem, Said};
use super::screening;
use super::softer::takes_a_warning_back;
use crate::facts;

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

/// Drafts of all rows, one a natural key.
#[derive(Default)]
pub(super) struct Gathered {
    drafts: BTreeMap<String, (Draft, Vec<u32>)>,
    contradicted: BTreeSet<String>,
}

impl Gathered {
    /// Takes a draft in. Two rows may say the same, or parts that complete each other; they may not contradict.
    pub(super) fn add(&mut self, draft: Draft, row: u32, problems: &mut Vec<Problem>) {
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
    pub(super) fn agree_on_prescribed_sets(&mut self) {
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
    pub(super) fn settle(self, known: &Known<'_>, problems: &mut Vec<Problem>) -> Vec<PlannedFact> {
        let mut facts = Vec::new();
        for (natural_key, (draft, rows)) in self.drafts {
            if self.contradicted.contains(&natural_key) {
                continue;
            }
            let row = rows.first().copied();
            let existing = match (known.on_record)(draft.kind, &natural_key) {
                OnRecord::Nothing => None,
                OnRecord::Live(existing) => Some(existing),
                OnRecord::LeftAlone => {
                    let note = Problem::note("import-note-left-alone").with("kind", draft.kind.word());
                    problems.push(Problem { row, ..note });
                    continue;
                }
                OnRecord::Contested => {
                    let problem = Problem::new("import-contested").with("kind", draft.kind.word());
                    problems.push(Problem { row, ..problem });
                    continue;
                }
            };
            let before = existing.as_ref().map(|existing| &existing.payload);
            let payload = match completed(draft.kind, before, draft.payload.clone()) {
                Ok(payload) => payload,
                Err(detail) => {
                    let problem = Problem::new("import-not-accepted").with("detail", detail);
                    problems.push(Problem { row, ..problem });
                    continue;
                }
            };
            let says_nothing_new = |existing: &Existing| {
                existing.imported.as_ref().is_some_and(|imported| {
                    completed(draft.kind, Some(imported), draft.payload.clone())
                        .is_ok_and(|again| same(&again, imported))
                })
            };
            let (payload, change) = match existing {
                None => (payload, Change::Added),
                Some(existing) if same(&existing.payload, &payload) => {
                    (payload, Change::Unchanged(existing.fact))
                }
                Some(existing) if says_nothing_new(&existing) => {
                    let note = Problem::note("import-note-corrected-by-hand").with("kind", draft.kind.word());
                    problems.push(Problem { row, ..note });
                    (existing.payload, Change::Unchanged(existing.fact))
                }
                Some(existing) => {
                    if takes_a_warning_back(draft.kind, &existing.payload, &payload) {
                        let problem = Problem::ask("import-takes-warning-back")
                            .with("kind", draft.kind.word())
                            .suggest(Said::new("import-try-accept-unusual"));
                        problems.push(Problem { row, ..problem });
                    }
                    (payload, Change::Corrects { fact: existing.fact, before: existing.payload })
                }
            };
            let mut rows = rows;
            rows.sort_unstable();
            rows.dedup();
            facts.push(PlannedFact {
                natural_key,
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
fn completed(kind: facts::Kind, before: Option<&Value>, draft: Value) -> Result<Value, String> {
    use facts::Kind as K;
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
