//! Backups.

use std::fs;

use store::{Error, Store};

use crate::build::*;

#[test]
fn a_backup_of_an_open_store_is_a_store() {
    let scratch = Scratch::new();
    let mut store = Store::open(scratch.path("club.db"), CREATE).unwrap();
    store.append(&batch((0..2000).map(fact).collect())).unwrap();
    let copy = scratch.path("copy.db");
    store.backup_to(&copy).unwrap();
    let names: Vec<_> = scratch.contents().into_iter().map(|(name, _)| name).collect();
    assert!(!names.iter().any(|name| name.starts_with("copy.db") && name != "copy.db"), "{names:?}");
    // What comes after the backup is not in it.
    let digest = store.digest_of_state().unwrap();
    store.append(&batch(vec![fact(5000)])).unwrap();

    let restored = Store::open(&copy, EXISTING).unwrap();
    restored.integrity_check().unwrap();
    assert_eq!(restored.digest_of_state().unwrap(), digest);
    assert_eq!(restored.counts().unwrap().facts, 2000);
    drop(restored);
    let before = fs::read(&copy).unwrap();
    assert!(matches!(store.backup_to(&copy), Err(Error::AlreadyThere { .. })));
    assert_eq!(fs::read(&copy).unwrap(), before);
    let nowhere = scratch.path("no-such-folder").join("copy.db");
    assert!(store.backup_to(&nowhere).is_err());
}
