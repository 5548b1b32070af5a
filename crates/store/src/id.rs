//! Ids and digests: each its own type, so that a fact's id is never taken for a swimmer's.

use std::fmt;
use std::str::FromStr;

use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ToSql, ToSqlOutput, ValueRef};
use sha2::{Digest as _, Sha256};
use uuid::{NoContext, Timestamp, Uuid};

/// Text that is not an id or a digest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotAnId {
    /// What stood there.
    pub text: String,
}

impl fmt::Display for NotAnId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:?} is not an id", self.text)
    }
}

impl std::error::Error for NotAnId {}

/// Names one fact for ever. Made by the client, so that a fact sent twice is stored once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FactId(Uuid);

/// Names the person a fact is about, by a random id that says nothing of the person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SubjectId(Uuid);

impl FactId {
    /// Takes any UUID, whatever its version.
    pub const fn from_uuid(id: Uuid) -> Self {
        Self(id)
    }

    /// A new UUIDv7. For the edge only: it draws random bits, and the time is the caller's.
    pub fn fresh(unix_millis: u64) -> Self {
        let nanos = u32::try_from(unix_millis % 1000).expect("a remainder below 1000") * 1_000_000;
        Self(Uuid::new_v7(Timestamp::from_unix(NoContext, unix_millis / 1000, nanos)))
    }

    /// The UUID itself.
    pub const fn uuid(self) -> Uuid {
        self.0
    }

    pub(crate) fn raw(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

impl SubjectId {
    /// The subject of facts about the club as a whole: kit, calendar, protocol. It can never be erased.
    pub const CLUB: Self = Self(Uuid::nil());

    /// Takes any UUID; the nil UUID is the club.
    pub const fn from_uuid(id: Uuid) -> Self {
        Self(id)
    }

    /// A new random id. For the edge only.
    pub fn fresh() -> Self {
        Self(Uuid::new_v4())
    }

    /// The UUID itself.
    pub const fn uuid(self) -> Uuid {
        self.0
    }

    pub(crate) fn raw(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

impl fmt::Display for FactId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(out)
    }
}

impl fmt::Display for SubjectId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if *self == Self::CLUB { out.pad("club") } else { self.0.fmt(out) }
    }
}

impl FromStr for FactId {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        Uuid::parse_str(text).map(Self).map_err(|_| NotAnId { text: text.to_owned() })
    }
}

impl FromStr for SubjectId {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        if text == "club" {
            return Ok(Self::CLUB);
        }
        Uuid::parse_str(text).map(Self).map_err(|_| NotAnId { text: text.to_owned() })
    }
}

/// A SHA-256.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    pub(crate) const ZERO: Self = Self([0; 32]);

    /// The digest of a text's bytes.
    pub fn of_text(text: &str) -> Self {
        Self::of_bytes(text.as_bytes())
    }

    pub(crate) fn of_bytes(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// Hashes several fields so that no two different lists of fields read as the same bytes.
    pub(crate) fn of_fields(fields: &[Option<&[u8]>]) -> Self {
        let mut hash = Sha256::new();
        for field in fields {
            match field {
                None => hash.update([0]),
                Some(bytes) => {
                    hash.update([1]);
                    hash.update((bytes.len() as u64).to_be_bytes());
                    hash.update(bytes);
                }
            }
        }
        Self(hash.finalize().into())
    }

    pub(crate) fn bytes(&self) -> &[u8] {
        &self.0
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(out, "{byte:02x}"))
    }
}

impl FromStr for Digest {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        let wrong = || NotAnId { text: text.to_owned() };
        if text.len() != 64 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err(wrong());
        }
        let mut bytes = [0; 32];
        for (index, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&text[2 * index..2 * index + 2], 16).map_err(|_| wrong())?;
        }
        Ok(Self(bytes))
    }
}

macro_rules! stored_as_blob {
    ($($kind:ty, $length:literal, $to:expr, $from:expr;)*) => {$(
        impl ToSql for $kind {
            fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
                let bytes: &[u8] = $to(self);
                Ok(ToSqlOutput::Borrowed(ValueRef::Blob(bytes)))
            }
        }

        impl FromSql for $kind {
            fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
                let bytes = value.as_blob()?;
                <[u8; $length]>::try_from(bytes).map($from).map_err(|_| FromSqlError::InvalidBlobSize {
                    expected_size: $length,
                    blob_size: bytes.len(),
                })
            }
        }
    )*};
}

stored_as_blob! {
    FactId, 16, FactId::raw, |bytes| FactId(Uuid::from_bytes(bytes));
    SubjectId, 16, SubjectId::raw, |bytes| SubjectId(Uuid::from_bytes(bytes));
    Digest, 32, Digest::bytes, Digest;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_and_digests_survive_their_text() {
        let fact = FactId::fresh(1_800_000_000_123);
        assert_eq!(fact.to_string().parse(), Ok(fact));
        assert_eq!(fact.uuid().get_version_num(), 7);
        let person = SubjectId::fresh();
        assert_eq!(person.to_string().parse(), Ok(person));
        assert_eq!("club".parse(), Ok(SubjectId::CLUB));
        let digest = Digest::of_text("a");
        assert_eq!(digest.to_string().parse(), Ok(digest));
        assert!("club".parse::<FactId>().is_err());
        assert!("é".repeat(32).parse::<Digest>().is_err());
    }

    /// FIPS 180-2, appendix B.1: the one-block message "abc".
    #[test]
    fn the_digest_is_sha_256() {
        let expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of_text("abc").to_string(), expected);
    }

    #[test]
    fn fields_do_not_run_into_each_other() {
        let joined = Digest::of_fields(&[Some(b"ab"), Some(b"c")]);
        assert_ne!(joined, Digest::of_fields(&[Some(b"a"), Some(b"bc")]));
        assert_ne!(Digest::of_fields(&[None]), Digest::of_fields(&[Some(b"")]));
    }
}
