//! The write gate: receipts, all or nothing, and a file that lets nobody else write.

use store::{Error, OnRefusal, Outcome, Store, content_hash};

use crate::build::*;

#[test]
fn a_fact_sent_twice_is_stored_once() {
    let mut store = Store::in_memory().unwrap();
    let sent = batch(vec![fact(1), fact(2)]);
    assert_eq!(outcomes(&store.append(&sent).unwrap()), [Outcome::Added, Outcome::Added]);
    let revision = store.revision();
    assert_eq!(outcomes(&store.append(&sent).unwrap()), [Outcome::AlreadyThere, Outcome::AlreadyThere]);
    assert_eq!(store.revision(), revision, "nothing changed");
    assert_eq!(store.counts().unwrap().facts, 2);
    let stored = store.fact(id(1)).unwrap().unwrap();
    assert_eq!((stored.told, stored.received.as_str()), (fact(1), "2026-03-02T16:00:01Z"));
}

#[test]
fn other_content_under_a_taken_id_is_kept_for_a_person() {
    let mut store = store_of(vec![fact(1)]);
    let mut other = fact(1);
    other.payload = Some(payload(r#"{"seconds":99}"#));
    let refused = Outcome::Refused { stored: content_hash(&fact(1)), offered: content_hash(&other) };
    for _ in 0..2 {
        let receipts = store.append(&batch(vec![other.clone(), fact(2)])).unwrap();
        assert_eq!(receipts[0].outcome, refused);
    }
    assert_eq!(holding(&store, 1), [r#"{"seconds":1}"#, r#"{"seconds":2}"#]);
    let waiting = store.open_refusals().unwrap();
    assert_eq!(waiting.len(), 1);
    assert_eq!(waiting[0].offered.told, other);

    let closing = store::Closing {
        number: waiting[0].number,
        author: "clinician".into(),
        at: "2026-03-03T08:00:00Z".into(),
        reason: "the tablet was set back".into(),
    };
    store.close_refusal(&closing).unwrap();
    assert_eq!(store.open_refusals().unwrap(), []);
    assert!(matches!(store.close_refusal(&closing), Err(Error::NoSuchRefusal { .. })));
}

#[test]
fn an_import_with_one_refusal_stores_nothing() {
    let mut store = store_of(vec![fact(1)]);
    let before = (store.revision(), store.counts().unwrap(), store.chain_head().unwrap());
    let mut other = fact(1);
    other.version = 2;
    let mut import = batch(vec![fact(2), other]);
    import.documents.push("a protocol".into());
    import.on_refusal = OnRefusal::RollBack;
    let Err(Error::RolledBack { receipts }) = store.append(&import) else { panic!("it was stored") };
    assert!(matches!(outcomes(&receipts)[..], [Outcome::Added, Outcome::Refused { .. }]));
    assert_eq!((store.revision(), store.counts().unwrap(), store.chain_head().unwrap()), before);
}

#[test]
fn a_fact_that_cannot_be_stored_takes_its_batch_with_it() {
    let mut store = Store::in_memory().unwrap();
    let mut bad = fact(2);
    bad.payload = None;
    let answer = store.append(&batch(vec![fact(1), bad]));
    assert!(matches!(answer, Err(Error::Invalid { id: which, .. }) if which == id(2)), "{answer:?}");
    assert_eq!(store.counts().unwrap().facts, 0);
}

#[test]
fn a_rehearsal_changes_nothing() {
    let mut store = store_of(vec![fact(1)]);
    let before = (store.revision(), store.counts().unwrap());
    let receipts = store.rehearse(&batch(vec![fact(1), fact(2)])).unwrap();
    assert_eq!(outcomes(&receipts), [Outcome::AlreadyThere, Outcome::Added]);
    assert_eq!((store.revision(), store.counts().unwrap()), before);
}

#[test]
fn facts_documents_and_revision_last() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    let mut sent = batch(vec![fact(1)]);
    sent.documents.push("a protocol".into());
    store.append(&sent).unwrap();
    let (revision, digest) = (store.revision(), store.digest_of_state().unwrap());
    drop(store);
    let store = Store::open(&path, EXISTING).unwrap();
    assert_eq!((store.revision(), store.digest_of_state().unwrap()), (revision, digest));
    assert_eq!(store.document(store::Digest::of_text("a protocol")).unwrap().unwrap(), "a protocol");
    assert_eq!(store.fact(id(1)).unwrap().unwrap().told, fact(1));
}

#[test]
fn the_file_itself_refuses_to_change_what_is_stored() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    store.append(&batch(vec![fact(1), fact(2)])).unwrap();
    store.keep_document("a protocol").unwrap();
    let mut other = fact(1);
    other.version = 2;
    store.append(&batch(vec![other])).unwrap();
    drop(store);
    let connection = raw(&path);
    let tombstone = "erased = 1, payload = NULL, content = NULL, salt = NULL, author = NULL, device = NULL,
        device_seq = NULL, reason = NULL, natural_key = NULL";
    for statement in [
        "UPDATE facts SET payload = '{}'",
        "UPDATE facts SET received = ''",
        &format!("UPDATE facts SET {tombstone}"),
        "DELETE FROM facts",
        "INSERT OR REPLACE INTO facts SELECT * FROM facts WHERE seq = 1",
        "INSERT OR REPLACE INTO facts SELECT 9, id, kind, version, subject, device_time, received, supersedes,
            erased, '{}', content, salt, author, device, device_seq, reason, natural_key FROM facts LIMIT 1",
        "UPDATE chain SET previous = hash",
        "DELETE FROM chain",
        "UPDATE documents SET text = ''",
        "DELETE FROM documents",
        "DELETE FROM refused",
        "UPDATE refused SET payload = '{}'",
    ] {
        let answer = connection.execute(statement, []);
        let said = answer.expect_err(statement).to_string();
        assert!(["never", "only", "kept"].iter().any(|word| said.contains(word)), "{statement}: {said}");
    }
}
