//! Erasing a person: its own explicit act, recorded, and not to be undone.
//!
//! The act comes first and in the same transaction: only once a subject stands among the erasures do the file's
//! own triggers let its facts become tombstones. Facts that arrive later for an erased subject become tombstones
//! at once, so it does not matter whether the act or the fact comes first.
//!
//! An id that an import derived from a natural key stays in its tombstone: that is what keeps the same file from
//! bringing the person back.

use rusqlite::params;

use crate::append::Gate;
use crate::door::DoorGate;
use crate::error::Error;
use crate::id::SubjectId;
use crate::{Store, open, row};

/// The act of erasing one subject.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Erasure {
    /// Who is erased.
    pub subject: SubjectId,
    /// Who erases. It stays, so it must not be the erased person's name.
    pub author: String,
    /// When, by the caller's clock.
    pub at: String,
    /// On what ground. It stays.
    pub ground: String,
}

/// What an erasure did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ErasureReport {
    /// Facts that became tombstones.
    pub facts: usize,
    /// Refused facts that were dropped.
    pub refused: usize,
    /// Accounts that were bound to this person and nobody else, and were closed.
    pub accounts: usize,
    /// False if the subject had been erased before; the first act stands.
    pub first: bool,
    /// Whether the file was rewritten too, so that not even freed pages hold the erased text. If not (a full
    /// disk, for instance), [`Store::scrub`] tries again.
    pub scrubbed: bool,
}

impl Store {
    /// Erases a subject: payloads, authors, reasons, natural keys and salts go, tombstones stay.
    pub fn erase_subject(&mut self, act: &Erasure) -> Result<ErasureReport, Error> {
        let mut report = self.write(|gate| gate.erase(act))?;
        report.scrubbed = self.scrub().is_ok();
        Ok(report)
    }

    /// Rewrites the file without its freed pages.
    pub fn scrub(&mut self) -> Result<(), Error> {
        self.connection.execute_batch(include_str!("../sql/scrub.sql"))?;
        open::checkpoint(&self.connection)
    }

    /// Every erasure, in order of subject.
    pub fn erasures(&self) -> Result<Vec<Erasure>, Error> {
        row::all(&self.connection, include_str!("../sql/erasures.sql"), [], |row| {
            Ok(Erasure { subject: row.get(0)?, author: row.get(1)?, at: row.get(2)?, ground: row.get(3)? })
        })
    }
}

impl Gate<'_> {
    /// Records the act and turns everything of its subject into tombstones.
    pub(crate) fn erase(&mut self, act: &Erasure) -> Result<ErasureReport, Error> {
        if act.subject == SubjectId::CLUB {
            return Err(Error::ClubNotErasable);
        }
        if self.is_erased(act.subject)? {
            return Ok(ErasureReport { facts: 0, refused: 0, accounts: 0, first: false, scrubbed: false });
        }
        let Erasure { subject, author, at, ground } = act;
        self.transaction
            .execute(include_str!("../sql/insert_erasure.sql"), params![subject, author, at, ground])?;
        let facts = self.transaction.execute(include_str!("../sql/bury_facts.sql"), [subject])?;
        let refused = self.transaction.execute(include_str!("../sql/drop_refused.sql"), [subject])?;
        let instant = include_str!("../sql/door/instant.sql");
        let at: u64 = self.transaction.query_row(instant, [at], |row| row.get(0))?;
        let accounts = DoorGate::within(self.transaction).erase(*subject, at)?;
        self.link_erasure(act)?;
        Ok(ErasureReport { facts, refused, accounts, first: true, scrubbed: false })
    }
}
