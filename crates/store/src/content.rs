//! Content hashes, and ids that an import can make again from the same row.

use std::fmt::Write as _;

use uuid::Uuid;

use crate::fact::NewFact;
use crate::id::{Digest, FactId};
use crate::payload::Payload;

/// Namespace of every id this project derives from a name (RFC 9562, version 5).
const NAMESPACE: Uuid = Uuid::from_u128(0x6f5d_2c1b_90e4_4a7d_8f3a_c07f_5a11_0d25);

/// SHA-256 of one canonical JSON object with the keys `kind`, `payload`, `subject`, `supersedes`, `version`.
///
/// Author, device and times stay out: a row imported again on another day by another person is the same row.
pub fn content_hash(fact: &NewFact) -> Digest {
    let payload = fact.payload.as_ref().map_or("null", Payload::as_str);
    // A kind has only letters, digits and a few marks (see `NewFact::check`), so it needs no escapes.
    let mut text =
        format!(r#"{{"kind":"{}","payload":{payload},"subject":"{}","supersedes":"#, fact.kind, fact.subject);
    match fact.supersedes() {
        None => text.push_str("null"),
        Some(id) => write!(text, "\"{id}\"").expect("writing to a string cannot fail"),
    }
    write!(text, r#","version":{}}}"#, fact.version).expect("writing to a string cannot fail");
    Digest::of_text(&text)
}

/// The id of the first fact under a natural key: the same row gives the same id on every machine.
pub fn deterministic_id(kind: &str, natural_key: &str) -> FactId {
    derived_id(&[kind.as_bytes(), natural_key.as_bytes()])
}

/// The id of a changed row: a correction that the same file makes again with the same id.
///
/// The replaced fact is part of it, so a row that goes from A to B, back to A and to B again makes four facts.
pub fn import_id(kind: &str, natural_key: &str, supersedes: FactId, payload: &Payload) -> FactId {
    let replaced = supersedes.uuid();
    derived_id(&[
        kind.as_bytes(),
        natural_key.as_bytes(),
        replaced.as_bytes().as_slice(),
        payload.as_str().as_bytes(),
    ])
}

fn derived_id(fields: &[&[u8]]) -> FactId {
    let fields: Vec<_> = fields.iter().map(|field| Some(*field)).collect();
    FactId::from_uuid(Uuid::new_v5(&NAMESPACE, Digest::of_fields(&fields).bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::fact;

    #[test]
    fn the_hash_is_of_the_documented_text() {
        let mut told = fact(7);
        told.author = "someone else".into();
        told.device_time = "another day".into();
        let text = r#"{"kind":"set","payload":{"n":7},"subject":"club","supersedes":null,"version":1}"#;
        told.subject = crate::SubjectId::CLUB;
        assert_eq!(content_hash(&told), Digest::of_text(text));
    }

    #[test]
    fn import_ids_depend_on_each_part() {
        let first = deterministic_id("roster", "k1");
        assert_eq!(first, deterministic_id("roster", "k1"));
        assert_ne!(first, deterministic_id("roster", "k2"));
        assert_ne!(first, deterministic_id("rosterk", "1"));
        let (a, b) = (Payload::from_text("1").unwrap(), Payload::from_text("2").unwrap());
        let second = import_id("roster", "k1", first, &b);
        let third = import_id("roster", "k1", second, &a);
        let fourth = import_id("roster", "k1", third, &b);
        assert!(second != third && third != fourth && second != fourth && third != first);
    }
}
