//! How long reading takes in a club of 300 swimmers after five seasons (300,000 facts).
//!
//! Run by hand: `cargo bench -p store`. The aim: one subject of 2,000 facts well under 5 ms.

use std::sync::OnceLock;
use std::sync::{Mutex, MutexGuard};

use divan::Bencher;
use store::{Batch, Correction, FactId, NewFact, OnRefusal, Open, Payload, Store, SubjectId};
use uuid::Uuid;

const SUBJECTS: u128 = 300;
/// The first subject has 2,000 facts, the others share the rest.
const FIRST: u128 = 2_000;
const FACTS: u128 = 300_000;

fn main() {
    divan::main();
    std::fs::remove_dir_all(folder()).expect("the folder was made by this benchmark");
}

fn folder() -> std::path::PathBuf {
    std::env::temp_dir().join(format!("store-bench-{}", std::process::id()))
}

fn subject(number: u128) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((1 << 100) + number))
}

fn fact(number: u128) -> NewFact {
    // Scattered, as random ids are.
    let id =
        |number: u128| FactId::from_uuid(Uuid::from_u128(number.wrapping_mul(0x9E37_79B9_7F4A_7C15_F39C)));
    let whom = if number < FIRST { 0 } else { 1 + number % (SUBJECTS - 1) };
    // One fact in fifty corrects an earlier one of the same subject.
    let corrects = number % 50 == 7 && number >= 2 * SUBJECTS;
    let correction =
        corrects.then(|| Correction { of: id(number - (SUBJECTS - 1)), reason: "typing slip".into() });
    let payload = format!(
        r#"{{"exercise":"band_external_rotation","side":"left","set":{},"planned":"b2-1.10","actual":"b2-1.10",
        "rest_s":45,"cap_s":120,"seconds":{},"end":"form","fault":"F3","seen":true,"clock":"device"}}"#,
        number % 3 + 1,
        30 + number % 90
    );
    NewFact {
        id: id(number),
        kind: "set".into(),
        version: 1,
        subject: subject(whom),
        payload: Some(Payload::from_text(&payload).expect("it is JSON")),
        author: "supervisor".into(),
        device: "deck-tablet".into(),
        device_seq: u64::try_from(number).expect("a small number"),
        device_time: "2026-03-02T17:00:00.000+01:00".into(),
        correction,
        natural_key: None,
    }
}

fn batch(numbers: std::ops::Range<u128>) -> Batch {
    Batch {
        received: "2026-03-02T16:00:01.000Z".into(),
        facts: numbers.map(fact).collect(),
        documents: Vec::new(),
        on_refusal: OnRefusal::Keep,
    }
}

fn path() -> std::path::PathBuf {
    folder().join("club.db")
}

fn club() -> MutexGuard<'static, Option<Store>> {
    static CLUB: OnceLock<Mutex<Option<Store>>> = OnceLock::new();
    let club = CLUB.get_or_init(|| {
        std::fs::create_dir_all(folder()).expect("the temporary folder can be written");
        let mut store = Store::open(path(), Open { create: true }).expect("a new store");
        for start in (0..FACTS).step_by(10_000) {
            store.append(&batch(start..start + 10_000)).expect("new facts");
        }
        Mutex::new(Some(store))
    });
    club.lock().expect("no other benchmark failed")
}

#[divan::bench(sample_count = 100)]
fn live_facts_of_one_subject(bencher: Bencher<'_, '_>) {
    let club = club();
    let store = club.as_ref().expect("open");
    bencher.bench_local(|| store.live_facts(subject(0)).expect("it can be read").len());
}

#[divan::bench(sample_count = 3)]
fn all_live_facts(bencher: Bencher<'_, '_>) {
    let club = club();
    let store = club.as_ref().expect("open");
    bencher.bench_local(|| store.all_live_facts().expect("it can be read").len());
}

#[divan::bench(sample_count = 3)]
fn digest_of_state(bencher: Bencher<'_, '_>) {
    let club = club();
    let store = club.as_ref().expect("open");
    bencher.bench_local(|| store.digest_of_state().expect("it can be read"));
}

#[divan::bench(sample_count = 3)]
fn verify_chain(bencher: Bencher<'_, '_>) {
    let club = club();
    let store = club.as_ref().expect("open");
    bencher.bench_local(|| store.verify_chain().expect("it can be read"));
}

#[divan::bench(sample_count = 3)]
fn closing_and_opening(bencher: Bencher<'_, '_>) {
    let mut club = club();
    bencher.bench_local(|| {
        drop(club.take());
        *club = Some(Store::open(path(), Open { create: false }).expect("a whole store"));
    });
}

#[divan::bench(sample_count = 50)]
fn one_fact_acknowledged(bencher: Bencher<'_, '_>) {
    let mut club = club();
    let store = club.as_mut().expect("open");
    let mut next = FACTS;
    bencher.bench_local(|| {
        next += 1;
        // Divan may call more than once a sample; every call stores a fact of its own.
        store.append(&batch(next..next + 1)).expect("a new fact")
    });
}
