//! Builders and a scratch folder.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use store::{
    Batch, Correction, FactId, NewFact, OnRefusal, Open, Outcome, Payload, Receipt, Store, SubjectId,
};
use uuid::Uuid;

pub(crate) const CREATE: Open = Open { create: true };
pub(crate) const EXISTING: Open = Open { create: false };

/// A folder of its own, removed at the end.
pub(crate) struct Scratch(PathBuf);

impl Scratch {
    pub(crate) fn new() -> Self {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("store-it-{}-{number}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// Name and bytes of every file, the lock aside: what "untouched" means.
    pub(crate) fn contents(&self) -> Vec<(String, Vec<u8>)> {
        let mut files: Vec<_> = fs::read_dir(&self.0)
            .unwrap()
            .map(|entry| entry.unwrap())
            .map(|entry| (entry.file_name().into_string().unwrap(), fs::read(entry.path()).unwrap()))
            .filter(|(name, bytes)| !(name.ends_with(".lock") && bytes.is_empty()))
            .collect();
        files.sort();
        files
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

pub(crate) fn id(number: u64) -> FactId {
    FactId::from_uuid(Uuid::from_u128(u128::from(number) + 1))
}

pub(crate) fn subject(number: u64) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((1 << 100) + u128::from(number)))
}

pub(crate) fn payload(text: &str) -> Payload {
    Payload::from_text(text).unwrap()
}

/// One fact of subject 1; the number makes its id and its value.
pub(crate) fn fact(number: u64) -> NewFact {
    NewFact {
        id: id(number),
        kind: "set".into(),
        version: 1,
        subject: subject(1),
        payload: Some(payload(&format!(r#"{{"seconds":{number}}}"#))),
        author: "supervisor".into(),
        device: "deck".into(),
        device_seq: number,
        device_time: "2026-03-02T17:00:00+01:00".into(),
        correction: None,
        natural_key: None,
    }
}

pub(crate) fn about(told: NewFact, whom: u64) -> NewFact {
    NewFact { subject: subject(whom), ..told }
}

pub(crate) fn correcting(told: NewFact, of: u64) -> NewFact {
    NewFact { correction: Some(Correction { of: id(of), reason: "typing slip".into() }), ..told }
}

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

pub(crate) fn store_of(facts: Vec<NewFact>) -> Store {
    let mut store = Store::in_memory().unwrap();
    store.append(&batch(facts)).unwrap();
    store
}

pub(crate) fn outcomes(receipts: &[Receipt]) -> Vec<Outcome> {
    receipts.iter().map(|receipt| receipt.outcome).collect()
}

/// The values that hold, as text, with a mark on contested ones.
pub(crate) fn holding(store: &Store, whom: u64) -> Vec<String> {
    let mark = |contested| if contested { "?" } else { "" };
    let live = store.live_facts(subject(whom)).unwrap();
    live.iter().map(|live| format!("{}{}", live.payload(), mark(live.contested))).collect()
}

/// The file as another program would open it: only once the store is closed.
pub(crate) fn raw(path: &Path) -> rusqlite::Connection {
    rusqlite::Connection::open(path).unwrap()
}
