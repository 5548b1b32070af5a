//! Builders for this crate's own unit tests.

use uuid::Uuid;

use crate::{FactId, NewFact, Payload, SubjectId};

/// One fact; the number makes its id and its value.
pub(crate) fn fact(number: u64) -> NewFact {
    NewFact {
        id: id(number),
        kind: "set".into(),
        version: 1,
        subject: subject(1),
        payload: Some(Payload::of(&serde_json::json!({ "n": number })).unwrap()),
        author: "supervisor".into(),
        device: "deck".into(),
        device_seq: number,
        device_time: "2026-03-02T17:00:00+01:00".into(),
        correction: None,
        natural_key: None,
    }
}

pub(crate) fn id(number: u64) -> FactId {
    FactId::from_uuid(Uuid::from_u128(u128::from(number) + 1))
}

pub(crate) fn subject(number: u64) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((1 << 100) + u128::from(number)))
}
