//! Files that are refused, and keep every byte.

use std::fs;
use std::path::Path;

use store::{Error, Store};

use crate::build::*;

/// Makes a file by `spoil`, tries to open it and compares the folder before and after.
#[track_caller]
fn check(spoil: impl FnOnce(&Path), expected: impl Fn(&Error) -> bool) {
    let scratch = Scratch::new();
    let path = scratch.path("club #1?.db");
    spoil(&path);
    let before = scratch.contents();
    for how in [EXISTING, CREATE] {
        let error = Store::open(&path, how).expect_err("it was opened");
        assert!(!error.to_string().is_empty());
        assert_eq!(scratch.contents(), before, "{error}");
        assert!(expected(&error), "{error:?}");
    }
}

fn a_store(path: &Path) {
    let mut store = Store::open(path, CREATE).unwrap();
    store.append(&batch((0..400).map(fact).collect())).unwrap();
    drop(store);
    fs::remove_file(path.with_file_name("club #1?.db.lock")).unwrap();
}

#[test]
fn a_file_that_is_no_database() {
    let expected = |error: &Error| matches!(error, Error::NotADatabase { .. });
    check(|path| fs::write(path, "name;born\n").unwrap(), expected);
    check(|path| fs::write(path, "").unwrap(), expected);
    check(|path| fs::write(path, "SQLite format 3\0").unwrap(), expected);
    check(|path| fs::write(path, [7; 100_000]).unwrap(), expected);
}

#[test]
fn a_database_of_another_program() {
    let with_mark = |mark: i64| {
        move |path: &Path| {
            let connection = raw(path);
            connection.execute_batch("CREATE TABLE songs (title); PRAGMA user_version = 1;").unwrap();
            connection.pragma_update(None, "application_id", mark).unwrap();
        }
    };
    check(with_mark(0), |error| matches!(error, Error::OtherProgram { application_id: 0, .. }));
    check(with_mark(77), |error| matches!(error, Error::OtherProgram { application_id: 77, .. }));
}

#[test]
fn a_newer_schema() {
    let newer = |error: &Error| matches!(error, Error::NewerSchema { found: 99, known: 2, .. });
    check(
        |path| {
            a_store(path);
            raw(path).pragma_update(None, "user_version", 99).unwrap();
        },
        newer,
    );
}

#[test]
fn a_newer_schema_that_stands_only_in_the_log() {
    let newer = |error: &Error| matches!(error, Error::NewerSchema { found: 99, .. });
    check(
        |path| {
            // Copied while open, as a killed process would leave it.
            let elsewhere = Scratch::new();
            let original = elsewhere.path("club #1?.db");
            a_store(&original);
            let connection = raw(&original);
            connection.pragma_update(None, "user_version", 99).unwrap();
            fs::copy(&original, path).unwrap();
            let log = |path: &Path| path.with_file_name("club #1?.db-wal");
            fs::copy(log(&original), log(path)).unwrap();
        },
        newer,
    );
}

#[test]
fn a_damaged_store() {
    let damaged = |error: &Error| matches!(error, Error::Corrupt { .. });
    let spoilt = |spoil: fn(&mut Vec<u8>)| {
        move |path: &Path| {
            a_store(path);
            let mut bytes = fs::read(path).unwrap();
            spoil(&mut bytes);
            fs::write(path, bytes).unwrap();
        }
    };
    check(spoilt(|bytes| bytes.truncate(bytes.len() / 2)), damaged);
    check(spoilt(|bytes| bytes[100..300].fill(0xA5)), damaged);
    check(
        spoilt(|bytes| {
            let middle = bytes.len() / 2;
            bytes[middle..middle + 8192].fill(0);
        }),
        damaged,
    );
    // The schema number is gone.
    check(spoilt(|bytes| bytes[60..64].fill(0)), damaged);
}

#[test]
fn a_missing_file_is_not_made_unasked() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    assert!(matches!(Store::open(&path, EXISTING), Err(Error::Missing { .. })));
    assert_eq!(scratch.contents(), []);
    let nowhere = scratch.path("no-such-folder").join("club.db");
    assert!(matches!(Store::open(&nowhere, CREATE), Err(Error::Io { .. })));
    assert!(matches!(Store::open(scratch.path(""), CREATE), Err(Error::NotADatabase { .. })));
}

/// The kernel's own folder refuses new files even to an administrator, as a read-only disk does.
#[test]
fn a_folder_that_cannot_be_written() {
    let answer = Store::open("/proc/club.db", CREATE);
    assert!(matches!(answer, Err(Error::Io { .. })), "{answer:?}");
}

#[test]
fn what_a_broken_off_creation_left_is_no_hindrance() {
    let scratch = Scratch::new();
    fs::write(scratch.path("club.db.new"), "half a store").unwrap();
    fs::write(scratch.path("club.db.new-journal"), "half a journal").unwrap();
    drop(Store::open(scratch.path("club.db"), CREATE).unwrap());
    let names: Vec<_> = scratch.contents().into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["club.db"]);
}

#[test]
fn a_store_has_one_owner() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let store = Store::open(&path, CREATE).unwrap();
    let this = Some(std::process::id());
    let same_file = scratch.path(".").join("club.db");
    for spelling in [&path, &same_file] {
        let answer = Store::open(spelling, CREATE);
        assert!(matches!(answer, Err(Error::InUse { pid, .. }) if pid == this), "{answer:?}");
    }
    drop(store);
    assert!(Store::open(&path, EXISTING).is_ok());
}
