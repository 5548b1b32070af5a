//! A file of an earlier version is brought up to date and keeps everything.

use std::path::Path;

use store::{AuditVerdict, ChainVerdict, Store};

use crate::build::*;

/// A store as the first version wrote it: its script, its facts and its links, taken out of one of today.
fn first_version(path: &Path, today: &Path) {
    let connection = raw(path);
    connection.execute_batch(include_str!("../../migrations/0001_facts.sql")).unwrap();
    connection
        .execute_batch("INSERT INTO migrations VALUES (1, 'facts'); PRAGMA user_version = 1; PRAGMA application_id = 1129662022;")
        .unwrap();
    connection.execute("ATTACH ?1 AS today", [today.to_str().unwrap()]).unwrap();
    connection
        .execute_batch(
            "DELETE FROM main.revision; INSERT INTO main.revision SELECT * FROM today.revision;
             INSERT INTO main.erasures SELECT * FROM today.erasures;
             INSERT INTO main.facts SELECT * FROM today.facts;
             INSERT INTO main.chain SELECT * FROM today.chain;",
        )
        .unwrap();
}

#[test]
fn a_file_of_the_first_version_gets_a_door_and_keeps_its_facts() {
    let scratch = Scratch::new();
    let (old, today) = (scratch.path("old.db"), scratch.path("today.db"));
    let mut store = Store::open(&today, CREATE).unwrap();
    store.append(&batch(vec![fact(1), correcting(fact(2), 1), about(fact(3), 2)])).unwrap();
    let (digest, head, revision) =
        (store.digest_of_state().unwrap(), store.chain_head().unwrap(), store.revision());
    drop(store);
    first_version(&old, &today);

    for _ in 0..2 {
        let store = Store::open(&old, EXISTING).unwrap();
        assert_eq!(store.digest_of_state().unwrap(), digest);
        assert_eq!(store.verify_chain().unwrap(), ChainVerdict::Whole { head, erased: 0 });
        assert_eq!(store.revision(), revision);
        assert_eq!(store.accounts().unwrap(), []);
        assert!(matches!(store.verify_audit().unwrap(), AuditVerdict::Whole { rows: 0, .. }));
        store.integrity_check().unwrap();
    }
    let version: u32 = raw(&old).pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
    let recorded: u32 = raw(&old)
        .query_row("SELECT count(*) FROM migrations WHERE (number, name) = (2, 'door')", [], |row| row.get(0))
        .unwrap();
    assert_eq!((version, recorded), (2, 1));
}
