//! A small invented club: one swimmer with a step earned, one with pain today, one without papers.

use app::desk::{Author, Desk, Draft};
use app::facts::Kind;
use app::moment::Moment;
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use store::{Open, Store, SubjectId};
use trade::protocol::read::shipped;

use super::run::{Folder, cuffwright, nothing_starts};

/// The day on which every test asks.
pub(crate) const TODAY: &str = "2026-03-04";

/// A record file with three swimmers.
pub(crate) fn club(folder: &Folder) -> String {
    let store = folder.path("club.cuff");
    made(&store);
    let guard = nothing_starts();
    let mut desk =
        Desk::new(Store::open(&store, Open { create: false }).unwrap(), shipped().clone()).unwrap();
    for facts in [mara(), lindqvist(), jon()] {
        let drafts: Vec<Draft> = facts
            .into_iter()
            .map(|(kind, payload)| Draft { kind, payload: payload.to_string(), corrects: None })
            .collect();
        desk.record(&moment(), &author(), SubjectId::fresh(), &drafts).unwrap();
    }
    drop(desk);
    drop(guard);
    store
}

/// A record file without swimmers.
pub(crate) fn made(store: &str) {
    let arguments = [
        "init",
        "--store",
        store,
        "--club",
        "SC Talbach",
        "--zone",
        "Europe/Vienna",
        "--practitioner",
        "M. Roth",
        "--today",
        TODAY,
    ];
    cuffwright(&arguments).ends_with(0);
}

pub(crate) fn moment() -> Moment {
    Moment::of("2026-03-04T16:00:00Z".parse().unwrap(), &TimeZone::UTC)
}

pub(crate) fn author() -> Author {
    Author { name: "M. Roth".to_owned(), device: "desk".to_owned() }
}

/// Grown up, everything in order, and three seen sets to the cap on both arms on Monday.
fn mara() -> Vec<(Kind, Value)> {
    let mut facts = in_order("Mara Lind", "A", "2004-05-01");
    for side in ["left", "right"] {
        // Not the first step of this line, so that the next may be accepted with others.
        for (date, rung, because) in [("2026-02-09", "b13", "start"), ("2026-02-23", "b16", "up")] {
            facts.push((
                Kind::Decision,
                json!({
                    "date": date, "exercise": "RC-1", "side": side, "proposed": "up", "codes": ["P5"],
                    "verdict": "confirmed", "rung": rung, "because": because, "by": "M. Roth",
                    "protocol": "", "engine": "", "inputs": "",
                }),
            ));
        }
        for number in 1..=3 {
            facts.push((
                Kind::Set,
                json!({
                    "date": "2026-03-02", "exercise": "RC-1", "side": side, "planned": "b16", "used": "b16",
                    "prescribed_sets": 3, "number": number, "seconds": 120.0, "end": "cap", "seen": true,
                }),
            ));
        }
    }
    facts.push((Kind::Session, json!({ "date": "2026-03-02", "context": "rested" })));
    for (date, when) in [("2026-03-02", "before"), ("2026-03-02", "after"), (TODAY, "before")] {
        facts.push((Kind::Pain, json!({ "date": date, "when": when, "left": 0, "right": 0 })));
    }
    facts
}

/// On the roster, and nothing else.
fn lindqvist() -> Vec<(Kind, Value)> {
    vec![(Kind::Swimmer, json!({ "name": "Mara Lindqvist", "born": "2010-01-09", "squad": "B" }))]
}

/// In order, but with one-sided pain before today's session.
fn jon() -> Vec<(Kind, Value)> {
    let mut facts = in_order("Jon Ask", "A", "2005-11-30");
    facts.push((
        Kind::Pain,
        json!({ "date": TODAY, "when": "before", "left": 2, "right": 0, "kind": "joint" }),
    ));
    facts
}

fn in_order(name: &str, squad: &str, born: &str) -> Vec<(Kind, Value)> {
    let granted = ["screening", "exercise", "health-record"];
    vec![
        (
            Kind::Swimmer,
            json!({
                "name": name, "born": born, "squad": squad, "sex": "female", "experience": "trained",
                "programme_started": "2025-09-01",
            }),
        ),
        (
            Kind::Consent,
            json!({ "signed": "2026-01-12", "granted": granted, "signer": name, "relation": "self" }),
        ),
        (
            Kind::Intake,
            json!({
                "date": "2026-01-12", "shoulder_pain_12_months": false, "dislocation_or_slipping": false,
                "operation": false, "signs_asked": true,
            }),
        ),
        (Kind::Screening, json!({ "date": "2026-01-14", "findings": [] })),
        (Kind::SignOff, json!({ "date": "2026-02-02", "exercise": "RC-1", "by": "M. Roth" })),
    ]
}

/// The arguments with the store and the day.
pub(crate) fn asking<'a>(store: &'a str, arguments: &[&'a str]) -> Vec<&'a str> {
    let mut all = arguments.to_vec();
    all.extend(["--store", store, "--today", TODAY]);
    all
}
