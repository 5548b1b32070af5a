//! The log as JSON lines: every fact, tombstone, erasure and document, to be read back in any order.
//!
//! Refused facts are left out: under which of two contents an id is stored depends on which came first, so they
//! are no part of the set.

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use crate::append::{Gate, Receipt};
use crate::erase::Erasure;
use crate::error::Error;
use crate::fact::{Correction, Fact, NewFact, Tombstone};
use crate::payload::Payload;
use crate::{Store, content_hash, document};

/// One line of an export.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Record {
    /// A fact and when it was received.
    Fact(NewFact, String),
    /// What erasure left of one.
    Tombstone(Tombstone),
    /// An act of erasure.
    Erasure(Erasure),
    /// A text kept by its hash.
    Document(String),
}

/// The shapes of the lines. Ids are text, and times are as they were given.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Line {
    Fact {
        id: String,
        kind: String,
        version: u32,
        subject: String,
        payload: Box<RawValue>,
        author: String,
        device: String,
        device_seq: u64,
        device_time: String,
        received: String,
        supersedes: Option<String>,
        reason: Option<String>,
        natural_key: Option<String>,
    },
    Tombstone {
        id: String,
        kind: String,
        version: u32,
        subject: String,
        device_time: String,
        received: String,
        supersedes: Option<String>,
    },
    Erasure {
        subject: String,
        author: String,
        at: String,
        ground: String,
    },
    Document {
        text: String,
    },
}

impl Store {
    /// Everything in the store but refused facts: documents and erasures first, then facts as they arrived.
    pub fn export_facts(&self) -> Result<Vec<Record>, Error> {
        let mut records: Vec<_> = self.documents()?.into_iter().map(Record::Document).collect();
        records.extend(self.erasures()?.into_iter().map(Record::Erasure));
        records.extend(self.tombstones()?.into_iter().map(Record::Tombstone));
        records.extend(self.all_facts()?.into_iter().map(Record::from));
        Ok(records)
    }

    /// Takes records in, in the order given, as one transaction; what is there already stays as it is.
    ///
    /// The receipts are of the facts and tombstones among them.
    pub fn import_facts<'a>(
        &mut self,
        records: impl IntoIterator<Item = &'a Record>,
    ) -> Result<Vec<Receipt>, Error> {
        self.write(|gate| {
            let mut receipts = Vec::new();
            for record in records {
                receipts.extend(gate.take(record)?);
            }
            Ok(receipts)
        })
    }
}

/// Builds a store in memory from records in the order given: any order gives one [`Store::digest_of_state`].
pub fn replay<'a>(records: impl IntoIterator<Item = &'a Record>) -> Result<Store, Error> {
    let mut store = Store::in_memory()?;
    store.import_facts(records)?;
    Ok(store)
}

impl Gate<'_> {
    fn take(&mut self, record: &Record) -> Result<Option<Receipt>, Error> {
        match record {
            Record::Fact(told, received) => self.put(told, received).map(Some),
            Record::Tombstone(stone) => self.put_tombstone(stone).map(Some),
            Record::Erasure(act) => self.erase(act).map(|_| None),
            Record::Document(text) => {
                self.changed |= document::keep(self.transaction, text)?.1;
                Ok(None)
            }
        }
    }
}

impl From<Fact> for Record {
    fn from(fact: Fact) -> Self {
        debug_assert_eq!(content_hash(&fact.told), fact.content, "content is a function of the fact");
        Self::Fact(fact.told, fact.received)
    }
}

impl Record {
    /// One line of JSON, without its line end.
    pub fn to_line(&self) -> String {
        serde_json::to_string(&Line::of(self)).expect("texts and numbers always have a JSON form")
    }

    /// Reads one line; `number`, counted from 1, is for the error.
    pub fn from_line(number: usize, line: &str) -> Result<Self, Error> {
        let bad = |detail: String| Error::BadRecord { line: number, detail };
        let line: Line = serde_json::from_str(line).map_err(|error| bad(error.to_string()))?;
        line.read().map_err(bad)
    }
}

impl Line {
    fn of(record: &Record) -> Self {
        match record {
            Record::Fact(told, received) => Self::Fact {
                id: told.id.to_string(),
                kind: told.kind.clone(),
                version: told.version,
                subject: told.subject.to_string(),
                payload: raw(told.payload.as_ref()),
                author: told.author.clone(),
                device: told.device.clone(),
                device_seq: told.device_seq,
                device_time: told.device_time.clone(),
                received: received.clone(),
                supersedes: told.supersedes().map(|id| id.to_string()),
                reason: told.correction.as_ref().map(|correction| correction.reason.clone()),
                natural_key: told.natural_key.clone(),
            },
            Record::Tombstone(stone) => Self::Tombstone {
                id: stone.id.to_string(),
                kind: stone.kind.clone(),
                version: stone.version,
                subject: stone.subject.to_string(),
                device_time: stone.device_time.clone(),
                received: stone.received.clone(),
                supersedes: stone.replaced.map(|id| id.to_string()),
            },
            Record::Erasure(act) => Self::Erasure {
                subject: act.subject.to_string(),
                author: act.author.clone(),
                at: act.at.clone(),
                ground: act.ground.clone(),
            },
            Record::Document(text) => Self::Document { text: text.clone() },
        }
    }

    fn read(self) -> Result<Record, String> {
        Ok(match self {
            Self::Fact {
                id,
                kind,
                version,
                subject,
                payload,
                author,
                device,
                device_seq,
                device_time,
                received,
                supersedes,
                reason,
                natural_key,
            } => {
                let payload = match payload.get() {
                    "null" => None,
                    text => Some(Payload::from_text(text).map_err(|error| error.to_string())?),
                };
                let correction = match (supersedes, reason) {
                    (Some(of), Some(reason)) => Some(Correction { of: parsed(&of)?, reason }),
                    (None, None) => None,
                    _ => return Err("supersedes and reason go together".to_owned()),
                };
                let (id, subject) = (parsed(&id)?, parsed(&subject)?);
                let told = NewFact {
                    id,
                    kind,
                    version,
                    subject,
                    payload,
                    author,
                    device,
                    device_seq,
                    device_time,
                    correction,
                    natural_key,
                };
                told.check().map_err(|problem| problem.to_string())?;
                Record::Fact(told, received)
            }
            Self::Tombstone { id, kind, version, subject, device_time, received, supersedes } => {
                let replaced = supersedes.as_deref().map(parsed).transpose()?;
                let (id, subject) = (parsed(&id)?, parsed(&subject)?);
                Record::Tombstone(Tombstone { id, kind, version, subject, device_time, received, replaced })
            }
            Self::Erasure { subject, author, at, ground } => {
                Record::Erasure(Erasure { subject: parsed(&subject)?, author, at, ground })
            }
            Self::Document { text } => Record::Document(text),
        })
    }
}

fn raw(payload: Option<&Payload>) -> Box<RawValue> {
    let text = payload.map_or("null", Payload::as_str);
    RawValue::from_string(text.to_owned()).expect("a payload is JSON")
}

fn parsed<T: std::str::FromStr<Err = crate::NotAnId>>(text: &str) -> Result<T, String> {
    text.parse().map_err(|error: crate::NotAnId| error.to_string())
}
