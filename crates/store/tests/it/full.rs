//! A disk that fills up: an error, and nothing half-written.

use std::process::{Command, Stdio};

use store::{ChainVerdict, Store};

use crate::build::*;

const PATH: &str = "STORE_IT_FULL_PATH";
const THIS: &str = "full::a_write_that_finds_no_room_leaves_nothing_behind";

/// Runs itself under a limit on the size of files, which a write meets as it meets a full disk.
#[test]
fn a_write_that_finds_no_room_leaves_nothing_behind() {
    if let Ok(path) = std::env::var(PATH) {
        return append_until_full(&path);
    }
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    // The signal is ignored so that the write fails instead; 2000 blocks are about 1 MB.
    let script = "trap '' XFSZ; ulimit -f 2000; exec \"$0\" --exact \"$1\" --nocapture";
    let output = Command::new("sh")
        .args(["-c", script])
        .arg(std::env::current_exe().unwrap())
        .arg(THIS)
        .env(PATH, &path)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    let stored: u64 = said.lines().find_map(|line| line.strip_prefix("stored ")).unwrap().parse().unwrap();

    let store = Store::open(&path, EXISTING).unwrap();
    assert_eq!(store.counts().unwrap().facts, stored);
    assert!(matches!(store.verify_chain().unwrap(), ChainVerdict::Whole { .. }));
    store.integrity_check().unwrap();
}

#[expect(clippy::print_stdout, reason = "this is how the child answers its parent")]
fn append_until_full(path: &str) {
    let mut store = Store::open(path, CREATE).unwrap();
    let mut stored = 0;
    loop {
        let numbers = stored..stored + 50;
        if store.append(&batch(numbers.map(fact).collect())).is_err() {
            break;
        }
        stored += 50;
        assert!(stored < 100_000, "the limit was never met");
    }
    // The failed batch left nothing, and what was stored can still be read.
    assert_eq!(store.counts().unwrap().facts, stored);
    println!("\nstored {stored}");
}
