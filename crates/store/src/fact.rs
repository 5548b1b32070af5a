//! What is stored: facts as they are handed in, facts as they are read back, and what erasure leaves.

use std::fmt;

use crate::id::{Digest, FactId, SubjectId};
use crate::payload::Payload;

/// A fact before it is stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewFact {
    /// Made by the client.
    pub id: FactId,
    /// What sort of fact: lower-case letters, digits, `_`, `.` and `-`. The store gives it no meaning.
    pub kind: String,
    /// Version of the payload's shape.
    pub version: u32,
    /// Whom it is about.
    pub subject: SubjectId,
    /// The content; `None` only in a correction, which is then a retraction.
    pub payload: Option<Payload>,
    /// Who says so.
    pub author: String,
    /// On which device.
    pub device: String,
    /// The device's own running number.
    pub device_seq: u64,
    /// The device's wall time, as it wrote it.
    pub device_time: String,
    /// The one fact it replaces, if it corrects.
    pub correction: Option<Correction>,
    /// For imported rows: what identifies the row in the club's own file.
    pub natural_key: Option<String>,
}

/// Names the one fact that is replaced, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// The fact that no longer holds. It may arrive later than its correction.
    pub of: FactId,
    /// Why, in words; never blank.
    pub reason: String,
}

/// A stored fact, live or replaced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// As it was handed in.
    pub told: NewFact,
    /// When this store received it, by the caller's clock.
    pub received: String,
    /// Hash of kind, version, subject, payload and replaced id; see [`crate::content_hash`].
    pub content: Digest,
}

/// A fact that no other fact replaces, with its value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiveFact {
    /// The fact.
    pub fact: Fact,
    /// True while a person must settle something about it: see [`crate::Conflict`].
    pub contested: bool,
}

impl LiveFact {
    /// The value's canonical JSON.
    pub fn payload(&self) -> &str {
        self.fact.told.payload.as_ref().map_or("null", Payload::as_str)
    }
}

/// What erasure leaves of a fact: that there was one, and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tombstone {
    /// The erased fact's id.
    pub id: FactId,
    /// Its kind.
    pub kind: String,
    /// Version of its payload's shape.
    pub version: u32,
    /// The erased subject.
    pub subject: SubjectId,
    /// The device's wall time.
    pub device_time: String,
    /// When the store received it.
    pub received: String,
    /// The fact it had replaced.
    pub replaced: Option<FactId>,
}

/// Why a fact cannot be stored at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Problem {
    /// The kind is empty, longer than 64 characters or has other characters than allowed.
    Kind {
        /// What stood there.
        kind: String,
    },
    /// No payload, and nothing that it would retract.
    NoPayload,
    /// A correction without a reason.
    NoReason,
    /// A correction of itself.
    CorrectsItself,
    /// No author.
    NoAuthor,
    /// A device number beyond what the file can hold.
    DeviceSeq {
        /// What stood there.
        device_seq: u64,
    },
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Kind { kind } => write!(out, "{kind:?} cannot name a kind of fact"),
            Self::NoPayload => write!(out, "no payload, and it retracts nothing"),
            Self::NoReason => write!(out, "a correction without a reason"),
            Self::CorrectsItself => write!(out, "a correction of itself"),
            Self::NoAuthor => write!(out, "no author"),
            Self::DeviceSeq { device_seq } => write!(out, "device number {device_seq} is too large"),
        }
    }
}

impl NewFact {
    /// Says whether the store would take this fact, so that one bad fact need not fail a whole batch.
    pub fn check(&self) -> Result<(), Problem> {
        let allowed = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || b"_.-".contains(&byte);
        if self.kind.is_empty() || self.kind.len() > 64 || !self.kind.bytes().all(allowed) {
            return Err(Problem::Kind { kind: self.kind.clone() });
        }
        match &self.correction {
            None if self.payload.is_none() => return Err(Problem::NoPayload),
            Some(correction) if correction.reason.trim().is_empty() => return Err(Problem::NoReason),
            Some(correction) if correction.of == self.id => return Err(Problem::CorrectsItself),
            _ => {}
        }
        if self.author.trim().is_empty() {
            return Err(Problem::NoAuthor);
        }
        if i64::try_from(self.device_seq).is_err() {
            return Err(Problem::DeviceSeq { device_seq: self.device_seq });
        }
        Ok(())
    }

    /// The id it replaces.
    pub fn supersedes(&self) -> Option<FactId> {
        self.correction.as_ref().map(|correction| correction.of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::fact;

    #[test]
    fn what_cannot_be_stored_is_named() {
        let check = |change: fn(&mut NewFact)| {
            let mut told = fact(1);
            change(&mut told);
            told.check()
        };
        let replaces = |id, reason: &str| Some(Correction { of: id, reason: reason.to_owned() });
        assert_eq!(check(|_| {}), Ok(()));
        assert!(matches!(check(|told| told.kind = "Set".into()), Err(Problem::Kind { .. })));
        assert!(matches!(check(|told| told.kind.clear()), Err(Problem::Kind { .. })));
        assert_eq!(check(|told| told.payload = None), Err(Problem::NoPayload));
        assert_eq!(check(|told| told.author = " ".into()), Err(Problem::NoAuthor));
        assert!(matches!(check(|told| told.device_seq = u64::MAX), Err(Problem::DeviceSeq { .. })));
        let mut told = fact(1);
        told.correction = replaces(told.id, "typing slip");
        assert_eq!(told.check(), Err(Problem::CorrectsItself));
        told.correction = replaces(fact(2).id, " ");
        assert_eq!(told.check(), Err(Problem::NoReason));
        told.correction = replaces(fact(2).id, "typing slip");
        told.payload = None;
        assert_eq!(told.check(), Ok(()));
    }
}
