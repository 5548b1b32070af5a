//! The one write gate: a batch is stored whole or not at all, and acknowledged only after commit.

use rusqlite::{OptionalExtension, Transaction, TransactionBehavior, params};

use crate::chain::{self, ChainHead};
use crate::content::content_hash;
use crate::erase::Erasure;
use crate::error::Error;
use crate::fact::{Fact, NewFact, Tombstone};
use crate::id::{Digest, FactId, SubjectId};
use crate::{Store, document, row};

/// Facts that are stored together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    /// When the caller received them, by the caller's clock.
    pub received: String,
    /// In any order; a correction may stand before what it corrects.
    pub facts: Vec<NewFact>,
    /// Texts to be kept by their hash, such as the protocol a decision in this batch was taken by.
    pub documents: Vec<String>,
    /// What a refused fact does to the others.
    pub on_refusal: OnRefusal,
}

/// What a batch does when a fact has a taken id and other content.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OnRefusal {
    /// Keep the refused fact aside for a person and store the others: for what devices send.
    Keep,
    /// Store nothing: for imports.
    RollBack,
}

/// What became of one fact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Receipt {
    /// Which fact.
    pub id: FactId,
    /// What became of it.
    pub outcome: Outcome,
}

/// What became of a fact. After any of these the client may forget it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Stored.
    Added,
    /// Stored before, with the same content.
    AlreadyThere,
    /// The id is taken by other content; this one is kept aside for a person.
    Refused {
        /// Content hash of the fact that has the id.
        stored: Digest,
        /// Content hash of the refused one.
        offered: Digest,
    },
    /// Its subject has been erased; at most a tombstone is kept.
    Erased,
}

impl Store {
    /// Stores a batch. When this returns, the facts are on the disk.
    pub fn append(&mut self, batch: &Batch) -> Result<Vec<Receipt>, Error> {
        self.write(|gate| gate.put_all(batch))
    }

    /// Says what [`Store::append`] would do, and does nothing: for a dry run.
    pub fn rehearse(&mut self, batch: &Batch) -> Result<Vec<Receipt>, Error> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        Gate::enter(&transaction)?.put_all(batch)
    }

    /// Runs one change as one transaction; the revision moves on if anything was changed.
    pub(crate) fn write<T>(
        &mut self,
        change: impl FnOnce(&mut Gate<'_>) -> Result<T, Error>,
    ) -> Result<T, Error> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut gate = Gate::enter(&transaction)?;
        let done = change(&mut gate)?;
        let revision = match gate.changed {
            true => transaction.query_row(include_str!("../sql/bump_revision.sql"), [], |row| row.get(0))?,
            false => self.revision,
        };
        transaction.commit()?;
        self.revision = revision;
        Ok(done)
    }
}

/// One open write: the only place from which facts, tombstones and erasures are written.
pub(crate) struct Gate<'a> {
    pub(crate) transaction: &'a Transaction<'a>,
    head: ChainHead,
    pub(crate) changed: bool,
}

impl<'a> Gate<'a> {
    fn enter(transaction: &'a Transaction<'a>) -> Result<Self, Error> {
        Ok(Self { transaction, head: chain::head(transaction)?, changed: false })
    }

    fn put_all(&mut self, batch: &Batch) -> Result<Vec<Receipt>, Error> {
        for text in &batch.documents {
            self.changed |= document::keep(self.transaction, text)?.1;
        }
        let mut receipts = Vec::with_capacity(batch.facts.len());
        for told in &batch.facts {
            receipts.push(self.put(told, &batch.received)?);
        }
        let refused = receipts.iter().any(|receipt| matches!(receipt.outcome, Outcome::Refused { .. }));
        if refused && batch.on_refusal == OnRefusal::RollBack {
            return Err(Error::RolledBack { receipts });
        }
        Ok(receipts)
    }

    /// Stores one fact, or says why not.
    pub(crate) fn put(&mut self, told: &NewFact, received: &str) -> Result<Receipt, Error> {
        let id = told.id;
        told.check().map_err(|problem| Error::Invalid { id, problem })?;
        let offered = content_hash(told);
        let outcome = match self.known(id)? {
            Known::Tombstone => Outcome::Erased,
            Known::Fact(_) if self.is_erased(told.subject)? => Outcome::Erased,
            Known::Fact(stored) if stored == offered => Outcome::AlreadyThere,
            Known::Fact(stored) => {
                let fact = Fact { told: told.clone(), received: received.to_owned(), content: offered };
                self.changed |= row::insert_refused(self.transaction, &fact)?;
                Outcome::Refused { stored, offered }
            }
            Known::Nothing if self.is_erased(told.subject)? => {
                self.bury(&Tombstone {
                    id,
                    kind: told.kind.clone(),
                    version: told.version,
                    subject: told.subject,
                    device_time: told.device_time.clone(),
                    received: received.to_owned(),
                    replaced: told.supersedes(),
                })?;
                Outcome::Erased
            }
            Known::Nothing => {
                self.add(Fact { told: told.clone(), received: received.to_owned(), content: offered })?;
                Outcome::Added
            }
        };
        Ok(Receipt { id, outcome })
    }

    fn add(&mut self, fact: Fact) -> Result<(), Error> {
        let salt = self.fresh_salt()?;
        row::insert_fact(self.transaction, &fact, &salt)?;
        let digest = chain::personal_digest(&salt, &fact);
        self.link(chain::Entry::Fact { id: fact.told.id, envelope: chain::envelope_of(&fact) }, digest)
    }

    /// Stores a tombstone under an id that is not taken.
    pub(crate) fn bury(&mut self, stone: &Tombstone) -> Result<(), Error> {
        row::insert_tombstone(self.transaction, stone)?;
        // Nothing personal is known of it, so its digest is of random bits: like that of any erased fact.
        let digest = Digest::of_bytes(&self.fresh_salt()?);
        self.link(chain::Entry::Fact { id: stone.id, envelope: chain::envelope_of_tombstone(stone) }, digest)
    }

    /// Takes over a tombstone from an export.
    pub(crate) fn put_tombstone(&mut self, stone: &Tombstone) -> Result<Receipt, Error> {
        if let Known::Nothing = self.known(stone.id)? {
            self.bury(stone)?;
        }
        Ok(Receipt { id: stone.id, outcome: Outcome::Erased })
    }

    /// Records an act of erasure in the chain.
    pub(crate) fn link_erasure(&mut self, act: &Erasure) -> Result<(), Error> {
        self.link(chain::Entry::Erasure { subject: act.subject }, chain::act_digest(act))
    }

    pub(crate) fn is_erased(&self, subject: SubjectId) -> Result<bool, Error> {
        let mut query = self.transaction.prepare_cached(include_str!("../sql/is_erased.sql"))?;
        Ok(query.query_row([subject], |row| row.get(0))?)
    }

    fn known(&self, id: FactId) -> Result<Known, Error> {
        let mut query = self.transaction.prepare_cached(include_str!("../sql/known_content.sql"))?;
        let content: Option<Option<Digest>> = query.query_row([id], |row| row.get(0)).optional()?;
        Ok(match content {
            None => Known::Nothing,
            Some(None) => Known::Tombstone,
            Some(Some(content)) => Known::Fact(content),
        })
    }

    /// Sixteen random bytes. SQLite's generator takes its state from the operating system's.
    fn fresh_salt(&self) -> Result<Vec<u8>, Error> {
        let mut query = self.transaction.prepare_cached(include_str!("../sql/fresh_salt.sql"))?;
        Ok(query.query_row([], |row| row.get(0))?)
    }

    fn link(&mut self, entry: chain::Entry, digest: Digest) -> Result<(), Error> {
        let next = self.head.next(&entry, digest);
        let (fact, erasure) = match entry {
            chain::Entry::Fact { id, .. } => (Some(id), None),
            chain::Entry::Erasure { subject } => (None, Some(subject)),
        };
        self.transaction.prepare_cached(include_str!("../sql/insert_link.sql"))?.execute(params![
            next.entries,
            fact,
            erasure,
            digest,
            self.head.hash,
            next.hash,
        ])?;
        self.head = next;
        self.changed = true;
        Ok(())
    }
}

/// What stands under an id.
enum Known {
    Nothing,
    Tombstone,
    Fact(Digest),
}
