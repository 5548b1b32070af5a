//! The audit chain notices what was altered behind the store's back.

use std::path::Path;

use store::{ChainFault, ChainVerdict, Store};

use crate::build::*;

/// Alters a closed store with the triggers out of the way, and says what the chain makes of it.
fn after(statement: &str) -> ChainVerdict {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    store.append(&batch(vec![fact(1), correcting(fact(2), 1), fact(3)])).unwrap();
    drop(store);
    alter(&path, statement);
    Store::open(&path, EXISTING).unwrap().verify_chain().unwrap()
}

fn alter(path: &Path, statement: &str) {
    let connection = raw(path);
    let triggers: Vec<String> = connection
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    assert!(triggers.len() > 5);
    for trigger in triggers {
        connection.execute_batch(&format!("DROP TRIGGER {trigger}")).unwrap();
    }
    connection.pragma_update(None, "foreign_keys", false).unwrap();
    connection.execute_batch(statement).unwrap();
}

#[test]
fn an_altered_store_is_noticed_at_the_place() {
    assert!(matches!(after(""), ChainVerdict::Whole { head, erased: 0 } if head.entries == 3));
    let broken = |entry, fault| ChainVerdict::Broken { entry, fault };
    for (statement, verdict) in [
        ("UPDATE facts SET payload = '{}' WHERE seq = 2", broken(2, ChainFault::Content)),
        ("UPDATE facts SET author = 'nobody' WHERE seq = 1", broken(1, ChainFault::Content)),
        ("UPDATE facts SET reason = 'none' WHERE seq = 2", broken(2, ChainFault::Content)),
        ("UPDATE facts SET received = '' WHERE seq = 3", broken(3, ChainFault::Link)),
        ("UPDATE facts SET kind = 'pain' WHERE seq = 1", broken(1, ChainFault::Link)),
        ("UPDATE chain SET digest = zeroblob(32) WHERE seq = 1", broken(1, ChainFault::Link)),
        ("DELETE FROM chain WHERE seq = 2", broken(2, ChainFault::Link)),
        ("DELETE FROM chain WHERE seq = 3", broken(2, ChainFault::Unchained)),
    ] {
        assert_eq!(after(statement), verdict, "{statement}");
    }
}

#[test]
fn a_deleted_end_shows_against_a_head_kept_outside() {
    let before = store_of(vec![fact(1), fact(2), fact(3)]).chain_head().unwrap();
    let ChainVerdict::Whole { head, .. } =
        after("DELETE FROM chain WHERE seq = 3; DELETE FROM facts WHERE seq = 3")
    else {
        panic!("an end cannot be missed from inside");
    };
    assert_eq!((head.entries, before.entries), (2, 3));
}

#[test]
fn a_fact_that_is_gone_is_damage() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    store.append(&batch(vec![fact(1), fact(2)])).unwrap();
    drop(store);
    alter(&path, "DELETE FROM facts WHERE seq = 1");
    let verdict = Store::open(&path, EXISTING).unwrap().verify_chain().unwrap();
    assert_eq!(verdict, ChainVerdict::Broken { entry: 1, fault: ChainFault::Missing });
}

#[test]
fn equal_payloads_leave_unequal_traces() {
    // The salt sees to it: who knows a payload cannot look for its digest.
    let heads: Vec<_> = (0..2).map(|_| store_of(vec![fact(1)]).chain_head().unwrap().hash).collect();
    assert_ne!(heads[0], heads[1]);
}
