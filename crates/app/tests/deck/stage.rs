//! The demo club with one prepared session, and entries as a device writes them.

use std::sync::OnceLock;

use app::deck::plan::Wish;
use app::demo::{self, DemoClub};
use app::desk::{Author, Desk};
use app::facts::{ContextWord, DeckSessionFact, PatternWord, PlannedExercise};
use serde_json::{Value, json};
use store::{Store, SubjectId};
use trade::protocol::shipped;

pub(crate) const SESSION: &str = "5f0e3c1a9b7d4e2f8a6c0d1b2e3f4a5b";

fn club() -> &'static DemoClub {
    static CLUB: OnceLock<DemoClub> = OnceLock::new();
    CLUB.get_or_init(|| DemoClub::new(demo::SEED, shipped()))
}

pub(crate) fn author() -> Author {
    Author { name: demo::PRACTITIONER.to_owned(), device: "test".to_owned() }
}

fn prepared(mut desk: Desk) -> Desk {
    let exercises = ["RC-1", "RC-3", "SC-1"].map(|exercise| PlannedExercise {
        exercise: exercise.to_owned(),
        cap_s: 120.0,
        sets: 3,
    });
    let wish = Wish {
        context: ContextWord::Rested,
        squads: Vec::new(),
        pattern: PatternWord::Together,
        minutes: 26,
        exercises: exercises.to_vec(),
        before_water_override: None,
    };
    desk.prepare_deck(&demo::morning(), &author(), SESSION, wish).unwrap();
    desk
}

/// Everybody, with the session.
pub(crate) fn whole() -> Desk {
    let mut desk = Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap();
    desk.append(&demo::morning(), club().facts.clone()).unwrap();
    prepared(desk)
}

/// The first `count` swimmers only, without their past: enough for an outbox.
pub(crate) fn few(count: usize) -> (Desk, Vec<SubjectId>) {
    let subjects = club().subjects[..count].to_vec();
    let is_needed = |subject: &SubjectId, kind: &str| {
        *subject == SubjectId::CLUB || (subjects.contains(subject) && kind == "swimmer")
    };
    let facts = club().facts.iter().filter(|fact| is_needed(&fact.subject, &fact.kind)).cloned().collect();
    let mut desk = Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap();
    desk.append(&demo::morning(), facts).unwrap();
    (prepared(desk), subjects)
}

pub(crate) fn session(desk: &Desk) -> DeckSessionFact {
    desk.deck_session(SESSION).unwrap()
}

/// Number-th id of a device.
pub(crate) fn id(device: u8, number: u64) -> String {
    format!("0199c6f0-{device:04x}-7000-8000-{number:012x}")
}

/// One entry; `more` holds what its kind needs.
pub(crate) fn entry(device: u8, seq: u64, k: &str, more: Value) -> String {
    let mut made = json!({
        "id": id(device, seq), "session": SESSION, "device": format!("device-{device}"), "seq": seq, "boot": "b",
        "t": seq as f64 * 10.0, "wall": "2026-11-25T16:00:00Z", "k": k,
    });
    for (name, value) in more.as_object().unwrap() {
        made[name] = value.clone();
    }
    made.to_string()
}

/// A set on the wire.
pub(crate) fn slot(exercise: &str, side: &str, set: u8) -> Value {
    json!({ "exercise": exercise, "side": side, "set": set, "planned": "b16", "used": "b16", "sets": 3, "cap_s": 120.0 })
}

/// Live facts that follow from entries, without their ids: what must be the same whatever happened on the way.
pub(crate) fn outcome(desk: &Desk) -> Vec<String> {
    let mut found = Vec::new();
    for kind in ["set", "session", "pain", "taught", "inspection", "incident"] {
        for live in desk.store().live_facts_of_kind(kind).unwrap() {
            if live.fact.told.natural_key.as_deref().is_some_and(|key| key.starts_with("deck:")) {
                found.push(format!("{kind} {} {}", live.fact.told.subject, live.payload()));
            }
        }
    }
    found.sort();
    found
}

pub(crate) fn send(desk: &mut Desk, entries: &[String]) -> Vec<&'static str> {
    let acks = desk.receive(&demo::morning(), &author(), entries).unwrap();
    acks.into_iter().map(|ack| ack.outcome).collect()
}
