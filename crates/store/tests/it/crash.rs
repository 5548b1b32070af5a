//! What was acknowledged survives `kill -9`.

use std::io::{BufRead, BufReader, Lines};
use std::process::{Child, ChildStdout, Command, Stdio};

use store::{ChainVerdict, Error, FactId, Store};
use uuid::Uuid;

use crate::build::*;

const PATH: &str = "STORE_IT_CRASH_PATH";
const THIS: &str = "crash::every_acknowledged_fact_survives_a_kill";

/// Runs as its own victim: with the path in the environment it appends until it is killed.
#[test]
fn every_acknowledged_fact_survives_a_kill() {
    if let Ok(path) = std::env::var(PATH) {
        append_for_ever(&path);
    }
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut acknowledged: Vec<FactId> = Vec::new();
    for round in 0..3 {
        let mut child = start(&path);
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let wanted = 1 + usize::from(Uuid::new_v4().as_bytes()[0]) / 3;
        println!("round {round}: killed after {wanted} acknowledgements");
        let seen = read_acknowledged(&mut lines).take(wanted).collect::<Vec<_>>();
        assert_eq!(seen.len(), wanted, "the child ended by itself");
        let in_use = Store::open(&path, EXISTING);
        assert!(matches!(in_use, Err(Error::InUse { pid, .. }) if pid == Some(child.id())), "{in_use:?}");
        child.kill().unwrap();
        child.wait().unwrap();
        acknowledged.extend(seen);
        acknowledged.extend(read_acknowledged(&mut lines));

        let store = Store::open(&path, EXISTING).unwrap();
        for id in &acknowledged {
            assert!(store.fact(*id).unwrap().is_some(), "{id} was acknowledged and is gone");
        }
        let facts = store.counts().unwrap().facts;
        assert_eq!(facts % 3, 0, "half a batch");
        assert!(facts >= acknowledged.len() as u64);
        assert!(matches!(store.verify_chain().unwrap(), ChainVerdict::Whole { .. }));
        store.integrity_check().unwrap();
    }
}

fn start(path: &std::path::Path) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args(["--exact", THIS, "--nocapture"])
        .env(PATH, path)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

fn read_acknowledged(lines: &mut Lines<BufReader<ChildStdout>>) -> impl Iterator<Item = FactId> {
    // A line that the kill cut short is no acknowledgement.
    lines
        .map_while(Result::ok)
        .filter_map(|line| line.strip_prefix("stored ")?.strip_suffix(".")?.parse().ok())
}

#[expect(clippy::print_stdout, reason = "this is how the child answers its parent")]
fn append_for_ever(path: &str) -> ! {
    let mut store = Store::open(path, CREATE).unwrap();
    // The harness has written the beginning of a line.
    println!();
    for number in 0.. {
        let facts: Vec<_> = (0..3)
            .map(|_| store::NewFact { id: FactId::from_uuid(Uuid::new_v4()), ..fact(number) })
            .collect();
        store.append(&batch(facts.clone())).unwrap();
        for told in facts {
            println!("stored {}.", told.id);
        }
    }
    unreachable!("more facts than numbers")
}
