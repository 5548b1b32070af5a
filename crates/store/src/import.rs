//! What an import should do with one row, given what earlier imports and people have said.

use std::collections::BTreeSet;

use crate::Store;
use crate::content::{deterministic_id, import_id};
use crate::error::Error;
use crate::fact::Fact;
use crate::id::FactId;
use crate::payload::Payload;
use crate::row;

/// What to do with one row of a club's file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ImportStep {
    /// Never seen: a new fact with this id.
    New {
        /// From [`deterministic_id`].
        id: FactId,
    },
    /// Seen, and it says the same: nothing to do.
    Unchanged {
        /// The fact that holds.
        id: FactId,
    },
    /// Seen, and it says something else: a correction with this id of that fact.
    Changed {
        /// From [`import_id`].
        id: FactId,
        /// The fact to replace.
        supersedes: FactId,
        /// True if a person had corrected the row since: the import would overrule that.
        by_hand: bool,
    },
    /// The row is as it was imported, but a person has corrected it since: leave it.
    CorrectedByHand {
        /// The person's correction.
        id: FactId,
    },
    /// A person has retracted the row: leave it.
    Retracted {
        /// The retraction.
        id: FactId,
    },
    /// The row's person has been erased: leave it.
    Erased,
    /// Several facts claim to be the row: a person must settle that first.
    Conflict {
        /// Those facts.
        ids: Vec<FactId>,
    },
}

/// What is known of one natural key.
enum Row {
    Unknown,
    /// The newest imported fact, and what now stands in its place (itself, if nothing replaced it).
    Known {
        imported: Box<Fact>,
        head: Box<Fact>,
    },
    Conflict(Vec<FactId>),
}

impl Store {
    /// What to do with a row that reads as this payload.
    pub fn import_step(&self, kind: &str, natural_key: &str, payload: &Payload) -> Result<ImportStep, Error> {
        let (imported, head) = match self.row_of(kind, natural_key)? {
            Row::Known { imported, head } => (imported, head),
            Row::Conflict(ids) => return Ok(ImportStep::Conflict { ids }),
            Row::Unknown => {
                let id = deterministic_id(kind, natural_key);
                return Ok(if self.is_tombstone(id)? { ImportStep::Erased } else { ImportStep::New { id } });
            }
        };
        let (supersedes, by_hand) = (head.told.id, head.told.id != imported.told.id);
        Ok(match &head.told.payload {
            None => ImportStep::Retracted { id: supersedes },
            Some(holds) if holds == payload => ImportStep::Unchanged { id: supersedes },
            Some(_) if by_hand && imported.told.payload.as_ref() == Some(payload) => {
                ImportStep::CorrectedByHand { id: supersedes }
            }
            Some(_) => {
                let id = import_id(kind, natural_key, supersedes, payload);
                ImportStep::Changed { id, supersedes, by_hand }
            }
        })
    }

    /// The fact that now stands for a natural key, whether an import or a person wrote it last.
    ///
    /// `None` if there is none, if it is retracted, or if several facts claim to be it.
    pub fn latest_by_natural_key(&self, kind: &str, natural_key: &str) -> Result<Option<Fact>, Error> {
        Ok(match self.row_of(kind, natural_key)? {
            Row::Known { head, .. } if head.told.payload.is_some() => Some(*head),
            _ => None,
        })
    }

    fn row_of(&self, kind: &str, natural_key: &str) -> Result<Row, Error> {
        let query = include_str!("../sql/facts_by_natural_key.sql");
        let mut rows = row::all(&self.connection, query, [kind, natural_key], row::fact)?;
        let mut before = BTreeSet::new();
        for fact in &rows {
            self.collect_replaced(fact, &mut before)?;
        }
        rows.retain(|fact| !before.contains(&fact.told.id));
        let imported = match rows.len() {
            0 if before.is_empty() => return Ok(Row::Unknown),
            1 => rows.remove(0),
            _ => return Ok(Row::Conflict(ids_of(&rows, &before))),
        };
        let mut heads = self.heads_of(&imported)?;
        Ok(match heads.len() {
            1 => Row::Known { head: Box::new(heads.remove(0)), imported: Box::new(imported) },
            _ => Row::Conflict(ids_of(&heads, &BTreeSet::new())),
        })
    }

    /// Collects what a fact replaces, directly or through others.
    fn collect_replaced(&self, fact: &Fact, before: &mut BTreeSet<FactId>) -> Result<(), Error> {
        let mut next = fact.told.supersedes();
        while let Some(id) = next.filter(|id| before.insert(*id)) {
            next = self.fact(id)?.and_then(|fact| fact.told.supersedes());
        }
        Ok(())
    }

    /// What stands in a fact's place: the newest corrections, or the fact itself.
    fn heads_of(&self, fact: &Fact) -> Result<Vec<Fact>, Error> {
        let mut seen = BTreeSet::new();
        let mut heads = Vec::new();
        let mut below = vec![fact.clone()];
        while let Some(here) = below.pop() {
            if !seen.insert(here.told.id) {
                continue;
            }
            let query = include_str!("../sql/corrections_of.sql");
            let mut corrections = row::all(&self.connection, query, [here.told.id], row::fact)?;
            corrections.retain(|correction| {
                (correction.told.subject, &correction.told.kind) == (here.told.subject, &here.told.kind)
            });
            if corrections.is_empty() { heads.push(here) } else { below.extend(corrections) }
        }
        Ok(heads)
    }

    fn is_tombstone(&self, id: FactId) -> Result<bool, Error> {
        let query = include_str!("../sql/known_content.sql");
        let found = row::all(&self.connection, query, [id], |row| row.get::<_, Option<Vec<u8>>>(0))?;
        Ok(found == [None])
    }
}

/// The ids of facts, or of the loop that left none.
fn ids_of(facts: &[Fact], looped: &BTreeSet<FactId>) -> Vec<FactId> {
    let mut ids: Vec<_> = facts.iter().map(|fact| fact.told.id).collect();
    if ids.is_empty() {
        ids.extend(looped);
    }
    ids.sort_unstable();
    ids
}
