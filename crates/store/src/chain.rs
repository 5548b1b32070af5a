//! The audit chain: each stored fact and each act of erasure is hashed together with all that came before.
//!
//! A fact enters in two parts. Its *envelope* (id, kind, version, subject, times, replaced id) outlives erasure
//! and is hashed as it is. Everything personal (payload, author, device, reason, natural key) enters as a digest
//! with a salt that stands beside the fact: when both are erased, the digest remains, says nothing, and the chain
//! holds. Whoever keeps a [`ChainHead`] outside the file can tell later whether anything before it was altered.

use rusqlite::{Connection, OptionalExtension, Row};

use crate::erase::Erasure;
use crate::error::Error;
use crate::fact::{Fact, Tombstone};
use crate::id::{Digest, FactId, SubjectId};
use crate::payload::Payload;
use crate::{Store, row};

/// The chain's newest link.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChainHead {
    /// How many links there are.
    pub entries: u64,
    /// Hash of the newest.
    pub hash: Digest,
}

/// Whether the chain holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ChainVerdict {
    /// Every link follows from the one before, and every fact is what its link says.
    Whole {
        /// The newest link.
        head: ChainHead,
        /// Links whose personal part has been erased, and so can no longer be checked.
        erased: u64,
    },
    /// It does not hold.
    Broken {
        /// The first bad link, counted from 1; the number of links if something lies outside the chain.
        entry: u64,
        /// What is wrong.
        fault: ChainFault,
    },
}

/// What is wrong with a chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChainFault {
    /// A link is missing, or does not follow from the one before or from its fact's envelope.
    Link,
    /// The fact or the erasure a link stands for is gone.
    Missing,
    /// The personal part of a fact is not what was stored.
    Content,
    /// There are facts or erasures without a link.
    Unchained,
}

/// What a link stands for.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Entry {
    Fact { id: FactId, envelope: Digest },
    Erasure { subject: SubjectId },
}

impl ChainHead {
    pub(crate) fn next(&self, entry: &Entry, digest: Digest) -> Self {
        let previous = Some(self.hash.bytes());
        let digest = Some(digest.bytes());
        let hash = match entry {
            Entry::Fact { id, envelope } => {
                Digest::of_fields(&[previous, Some(b"fact"), Some(id.raw()), Some(envelope.bytes()), digest])
            }
            Entry::Erasure { subject } => {
                Digest::of_fields(&[previous, Some(b"erasure"), Some(subject.raw()), digest])
            }
        };
        Self { entries: self.entries + 1, hash }
    }
}

pub(crate) fn head(connection: &Connection) -> Result<ChainHead, Error> {
    let mut query = connection.prepare_cached(include_str!("../sql/chain_head.sql"))?;
    let newest = query.query_row([], |row| Ok(ChainHead { entries: row.get(0)?, hash: row.get(1)? }));
    Ok(newest.optional()?.unwrap_or(ChainHead { entries: 0, hash: Digest::ZERO }))
}

pub(crate) fn envelope_of(fact: &Fact) -> Digest {
    let told = &fact.told;
    envelope(&told.kind, told.version, told.subject, &told.device_time, &fact.received, told.supersedes())
}

pub(crate) fn envelope_of_tombstone(stone: &Tombstone) -> Digest {
    envelope(&stone.kind, stone.version, stone.subject, &stone.device_time, &stone.received, stone.replaced)
}

fn envelope(
    kind: &str,
    version: u32,
    subject: SubjectId,
    device_time: &str,
    received: &str,
    supersedes: Option<FactId>,
) -> Digest {
    Digest::of_fields(&[
        Some(kind.as_bytes()),
        Some(&version.to_be_bytes()),
        Some(subject.raw()),
        Some(device_time.as_bytes()),
        Some(received.as_bytes()),
        supersedes.as_ref().map(FactId::raw),
    ])
}

pub(crate) fn personal_digest(salt: &[u8], fact: &Fact) -> Digest {
    let told = &fact.told;
    Digest::of_fields(&[
        Some(salt),
        told.payload.as_ref().map(|payload: &Payload| payload.as_str().as_bytes()),
        Some(fact.content.bytes()),
        Some(told.author.as_bytes()),
        Some(told.device.as_bytes()),
        Some(&told.device_seq.to_be_bytes()),
        told.correction.as_ref().map(|correction| correction.reason.as_bytes()),
        told.natural_key.as_ref().map(String::as_bytes),
    ])
}

pub(crate) fn act_digest(act: &Erasure) -> Digest {
    Digest::of_fields(&[Some(act.author.as_bytes()), Some(act.at.as_bytes()), Some(act.ground.as_bytes())])
}

/// One link as it is stored, and what it should say by what stands in the other tables.
struct StoredLink {
    number: u64,
    digest: Digest,
    previous: Digest,
    hash: Digest,
    entry: Entry,
    /// The digest made anew; `None` where the personal part is erased.
    remade: Option<Digest>,
}

impl Store {
    /// The chain's newest link, to be kept outside the file.
    pub fn chain_head(&self) -> Result<ChainHead, Error> {
        head(&self.connection)
    }

    /// Recomputes the whole chain.
    pub fn verify_chain(&self) -> Result<ChainVerdict, Error> {
        let mut head = ChainHead { entries: 0, hash: Digest::ZERO };
        let mut erased = 0;
        let mut statement = self.connection.prepare_cached(include_str!("../sql/chain.sql"))?;
        let links = statement.query_map([], stored_link)?;
        for link in links {
            let link = link?;
            let broken = |fault| Ok(ChainVerdict::Broken { entry: head.entries + 1, fault });
            let Some(link) = link else { return broken(ChainFault::Missing) };
            let next = head.next(&link.entry, link.digest);
            if (link.number, link.previous, link.hash) != (next.entries, head.hash, next.hash) {
                return broken(ChainFault::Link);
            }
            match link.remade {
                Some(remade) if remade != link.digest => return broken(ChainFault::Content),
                Some(_) => {}
                None => erased += 1,
            }
            head = next;
        }
        let unchained: u64 =
            self.connection.query_row(include_str!("../sql/unchained.sql"), [], |row| row.get(0))?;
        Ok(match unchained {
            0 => ChainVerdict::Whole { head, erased },
            _ => ChainVerdict::Broken { entry: head.entries, fault: ChainFault::Unchained },
        })
    }
}

/// The first fourteen columns are those of a fact, so that facts and tombstones are read as everywhere.
fn stored_link(row: &Row<'_>) -> rusqlite::Result<Option<StoredLink>> {
    // None where the fact is gone; whether it is a tombstone where it is not.
    let erased: Option<bool> = row.get(15)?;
    let (entry, remade) = match (row.get(20)?, erased, row.get(21)?, row.get(22)?) {
        (Some(id), Some(true), ..) => {
            (Entry::Fact { id, envelope: envelope_of_tombstone(&row::tombstone(row)?) }, None)
        }
        (Some(id), Some(false), ..) => {
            let fact = row::fact(row)?;
            let salt: Vec<u8> = row.get(14)?;
            (Entry::Fact { id, envelope: envelope_of(&fact) }, Some(personal_digest(&salt, &fact)))
        }
        (None, _, Some(subject), Some(author)) => {
            let act = Erasure { subject, author, at: row.get(23)?, ground: row.get(24)? };
            (Entry::Erasure { subject }, Some(act_digest(&act)))
        }
        _ => return Ok(None),
    };
    let (number, digest, previous, hash) = (row.get(16)?, row.get(17)?, row.get(18)?, row.get(19)?);
    Ok(Some(StoredLink { number, digest, previous, hash, entry, remade }))
}
