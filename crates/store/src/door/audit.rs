//! Who saw and changed what: rows of ids and words that only grow, each hashed together with all before it.

use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::read::{bytes, id_if_any};
use crate::error::Error;
use crate::id::{Digest, SubjectId};
use crate::{Store, row};

/// By what somebody came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Via {
    /// An account.
    Account(Uuid),
    /// A paired device.
    Device(Uuid),
    /// The laptop's own command line.
    Laptop,
    /// Nobody who is known: a refused try.
    Nobody,
}

impl Via {
    const fn word(self) -> &'static str {
        match self {
            Via::Account(_) => "account",
            Via::Device(_) => "device",
            Via::Laptop => "laptop",
            Via::Nobody => "nobody",
        }
    }

    /// The id in it.
    pub const fn id(self) -> Option<Uuid> {
        match self {
            Via::Account(id) | Via::Device(id) => Some(id),
            Via::Laptop | Via::Nobody => None,
        }
    }

    fn read(word: &str, id: Option<Uuid>) -> Via {
        match (word, id) {
            ("account", Some(id)) => Via::Account(id),
            ("device", Some(id)) => Via::Device(id),
            ("laptop", _) => Via::Laptop,
            // The table's own check allows no other word.
            _ => Via::Nobody,
        }
    }
}

/// What is to be written down. Words only: no name, no text that a person wrote.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewAudit {
    /// When, in milliseconds since the epoch.
    pub at: u64,
    /// By what.
    pub via: Via,
    /// As what.
    pub role: Option<String>,
    /// What was done.
    pub act: String,
    /// With what kind of thing.
    pub thing: Option<String>,
    /// About whom.
    pub subject: Option<SubjectId>,
    /// About everybody: a list.
    pub everybody: bool,
    /// The fact, account or device that was changed.
    pub item: Option<Uuid>,
}

/// A row as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AuditRow {
    /// Place in the audit.
    pub seq: u64,
    /// What was written down.
    pub entry: NewAudit,
}

/// Whether the audit is whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AuditVerdict {
    /// Every row follows from the one before.
    Whole {
        /// Rows.
        rows: u64,
        /// Hash of the newest, to be kept outside the file.
        head: Digest,
    },
    /// It does not hold from here on.
    Broken {
        /// The first bad row.
        seq: u64,
    },
}

fn head(connection: &Connection) -> Result<(u64, Digest), Error> {
    let mut query = connection.prepare_cached(include_str!("../../sql/door/audit_head.sql"))?;
    let newest = query.query_row([], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
    Ok(newest.unwrap_or((0, Digest::ZERO)))
}

pub(super) fn append(connection: &Connection, entry: &NewAudit) -> Result<(), Error> {
    let (last, previous) = head(connection)?;
    let seq = last + 1;
    let hash = hash_of(previous, seq, entry);
    connection.prepare_cached(include_str!("../../sql/door/insert_audit.sql"))?.execute(params![
        seq,
        entry.at,
        entry.via.word(),
        entry.via.id().map(Uuid::into_bytes),
        entry.role,
        entry.act,
        entry.thing,
        entry.subject,
        entry.everybody,
        entry.item.map(Uuid::into_bytes),
        previous,
        hash,
    ])?;
    Ok(())
}

fn hash_of(previous: Digest, seq: u64, entry: &NewAudit) -> Digest {
    Digest::of_fields(&[
        Some(previous.bytes()),
        Some(&seq.to_be_bytes()),
        Some(&entry.at.to_be_bytes()),
        Some(entry.via.word().as_bytes()),
        entry.via.id().as_ref().map(|id| id.as_bytes().as_slice()),
        entry.role.as_ref().map(String::as_bytes),
        Some(entry.act.as_bytes()),
        entry.thing.as_ref().map(String::as_bytes),
        entry.subject.as_ref().map(SubjectId::raw),
        Some(&[u8::from(entry.everybody)]),
        entry.item.as_ref().map(|id| id.as_bytes().as_slice()),
    ])
}

fn entry(row: &Row<'_>) -> rusqlite::Result<AuditRow> {
    let via: String = row.get(2)?;
    Ok(AuditRow {
        seq: row.get(0)?,
        entry: NewAudit {
            at: row.get(1)?,
            via: Via::read(&via, id_if_any(row, 3)?),
            role: row.get(4)?,
            act: row.get(5)?,
            thing: row.get(6)?,
            subject: row.get(7)?,
            everybody: row.get(8)?,
            item: id_if_any(row, 9)?,
        },
    })
}

impl Store {
    /// Rows before a place, newest first; `None` begins at the end.
    pub fn audit_page(&self, before: Option<u64>, most: u32) -> Result<Vec<AuditRow>, Error> {
        let query = include_str!("../../sql/door/audit_before.sql");
        row::all(&self.connection, query, params![place(before), most], entry)
    }

    /// Rows about one swimmer, those about everybody among them, newest first.
    pub fn audit_of_subject(
        &self,
        subject: SubjectId,
        before: Option<u64>,
        most: u32,
    ) -> Result<Vec<AuditRow>, Error> {
        let query = include_str!("../../sql/door/audit_of_subject.sql");
        row::all(&self.connection, query, params![subject, place(before), most], entry)
    }

    /// What one account or device did, newest first.
    pub fn audit_of_who(&self, who: Uuid, before: Option<u64>, most: u32) -> Result<Vec<AuditRow>, Error> {
        let query = include_str!("../../sql/door/audit_of_who.sql");
        row::all(&self.connection, query, params![who.as_bytes(), place(before), most], entry)
    }

    /// When somebody last did the same with the same.
    pub fn last_alike(&self, like: &NewAudit) -> Result<Option<u64>, Error> {
        let Some(who) = like.via.id() else { return Ok(None) };
        let mut query = self.connection.prepare_cached(include_str!("../../sql/door/last_look.sql"))?;
        Ok(query.query_row(
            params![who.as_bytes(), like.act, like.thing, like.subject, like.everybody],
            |row| row.get(0),
        )?)
    }

    /// Recomputes the audit's chain.
    pub fn verify_audit(&self) -> Result<AuditVerdict, Error> {
        let mut head = (0_u64, Digest::ZERO);
        let mut statement = self.connection.prepare_cached(include_str!("../../sql/door/audit_all.sql"))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let read = entry(row)?;
            let (previous, hash): ([u8; 32], Digest) = (bytes(row, 10)?, row.get(11)?);
            let seq = head.0 + 1;
            if read.seq != seq || previous != head.1.bytes() || hash != hash_of(head.1, seq, &read.entry) {
                return Ok(AuditVerdict::Broken { seq });
            }
            head = (seq, hash);
        }
        Ok(AuditVerdict::Whole { rows: head.0, head: head.1 })
    }
}

/// Beyond every row, where no place is given: the largest number the file can hold.
fn place(before: Option<u64>) -> u64 {
    before.unwrap_or(i64::MAX.unsigned_abs())
}
