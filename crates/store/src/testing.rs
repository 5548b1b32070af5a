//! Builders for this crate's own unit tests.

use uuid::Uuid;

use crate::{Batch, Correction, FactId, NewFact, OnRefusal, Payload, Store, SubjectId};

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

/// The same fact as a correction.
pub(crate) fn correcting(mut told: NewFact, of: u64) -> NewFact {
    told.correction = Some(Correction { of: id(of), reason: "typing slip".into() });
    told
}

/// The same fact as a retraction.
pub(crate) fn retracting(told: NewFact, of: u64) -> NewFact {
    NewFact { payload: None, ..correcting(told, of) }
}

pub(crate) fn batch(facts: Vec<NewFact>) -> Batch {
    Batch {
        received: "2026-03-02T16:00:01Z".into(),
        facts,
        documents: Vec::new(),
        on_refusal: OnRefusal::Keep,
    }
}

/// A store in memory with these facts.
pub(crate) fn store_of(facts: Vec<NewFact>) -> Store {
    let mut store = Store::in_memory().unwrap();
    store.append(&batch(facts)).unwrap();
    store
}
