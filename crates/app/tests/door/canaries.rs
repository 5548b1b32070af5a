//! A record in which every field that a person can fill carries a mark that can be searched for.

use app::desk::{Desk, Draft};
use app::facts::Kind;
use door::permit::Thing;
use serde_json::{Value, json};
use store::{FactId, SubjectId};

use crate::build::*;

/// A mark, and what seeing it takes. A telephone number belongs to the contacts and to the emergency line alike.
pub(crate) const MARKS: &[(&str, &[Thing])] = &[
    ("CANARY-emergency", &[Thing::Emergency]),
    ("CANARY-contact", &[Thing::Personal, Thing::Emergency]),
    ("CANARY-number", &[Thing::Personal]),
    ("2011-05-01", &[Thing::Personal]),
    ("CANARY-consent", &[Thing::Consent]),
    ("CANARY-screening", &[Thing::Screening]),
    ("171.37", &[Thing::History]),
    ("0.2873", &[Thing::History]),
    ("2026-01-17", &[Thing::History]),
    ("2026-01-03", &[Thing::History]),
    ("CANARY-pain", &[Thing::Pain]),
    ("CANARY-ban", &[Thing::Letters]),
    ("2026-02-02", &[Thing::Letters]),
    ("2026-03-04", &[Thing::Pain]),
    ("CANARY-clearance", &[Thing::Letters]),
    ("CANARY-limit", &[Thing::Letters]),
    ("CANARY-reopening", &[Thing::Health]),
    ("CANARY-told", &[Thing::Health]),
    ("CANARY-talk", &[Thing::Notes]),
    ("CANARY-override", &[Thing::Notes]),
    ("CANARY-reason", &[Thing::Notes]),
    ("CANARY-rung", &[Thing::Card]),
    ("CANARY-water", &[Thing::WaterAdvice]),
    ("CANARY-entry", &[Thing::Notes]),
    ("CANARY-incident", &[Thing::Notes]),
];

fn clinician(mark: &str) -> Value {
    json!({ "name": mark, "licence": mark, "licence_until": "2027-01-31" })
}

/// One fact of every kind about a swimmer, every free field marked.
pub(crate) fn facts() -> Vec<(Kind, Value)> {
    vec![
        (
            Kind::Consent,
            json!({ "signed": "2025-09-01", "granted": ["screening", "exercise", "health-record", "photo"],
            "signer": "CANARY-consent", "relation": "guardian", "text_version": "CANARY-consent" }),
        ),
        (
            Kind::Intake,
            json!({ "date": "2025-09-01", "shoulder_pain_12_months": true,
            "dislocation_or_slipping": false, "operation": false, "signs": ["worry"], "signs_asked": true }),
        ),
        (
            Kind::Screening,
            json!({ "date": "2025-09-02", "tester": "CANARY-screening", "findings": [
            { "key": "er_force", "side": "left", "value": 91.0, "as_entered": "CANARY-screening" },
            { "key": "er_force", "side": "right", "without_value": { "not-tested": "CANARY-screening" } }] }),
        ),
        (
            Kind::Growth,
            json!({ "date": "2025-09-02", "height_cm": 171.37, "sitting_height_cm": 88.0, "mass_kg": 60.0 }),
        ),
        (Kind::ArmLengths, json!({ "date": "2025-09-02", "upper_arm_m": 0.2873, "forearm_m": 0.2471 })),
        (
            Kind::Pain,
            json!({ "date": "2026-03-08", "when": "before", "left": 4, "right": 0, "kind": "joint",
            "signs": ["night-pain"], "sign_side": "left", "asked": "CANARY-pain" }),
        ),
        (
            Kind::Illness,
            json!({ "from": "2026-01-17", "fever": true, "bed_days": 2, "symptom_free_from": "2026-01-20" }),
        ),
        (
            Kind::Absence,
            json!({ "from": "2026-01-03", "to": "2026-01-05", "reason": "injury", "kept_swimming": false }),
        ),
        (Kind::Ban, json!({ "from": "2026-03-01", "until": "2026-03-20", "by": "CANARY-ban" })),
        (Kind::Referral, json!({ "opened": "2026-02-02", "side": "left", "urgency": "within-a-week" })),
        (
            Kind::Clearance,
            json!({ "date": "2025-11-01", "side": "right", "clinician": clinician("CANARY-clearance") }),
        ),
        (
            Kind::Limit,
            json!({ "signed": "2026-03-01", "until": "2026-04-01", "side": "left",
            "clinician": clinician("CANARY-limit"), "locked_tags": ["overhead"], "note": "CANARY-limit" }),
        ),
        (Kind::Reopening, json!({ "date": "2026-02-20", "side": "right", "by": "CANARY-reopening" })),
        (Kind::WaterAdvice, json!({ "date": "2026-03-08", "advice": "CANARY-water", "by": "Olga Owner" })),
        (Kind::GuardianTold, json!({ "date": "2026-03-08", "by": "CANARY-told" })),
        (Kind::Talk, json!({ "date": "2026-03-08", "by": "CANARY-talk", "about": "E3" })),
        (Kind::Taught, json!({ "date": "2025-10-01", "exercise": "RC-1" })),
        (Kind::SignOff, json!({ "date": "2025-10-08", "exercise": "RC-1", "by": "Olga Owner" })),
        (
            Kind::Session,
            json!({ "date": "2026-03-05", "number": 1, "context": "after-practice",
            "before_water_override": "CANARY-override", "last_practice_effort": 7 }),
        ),
        (
            Kind::Set,
            json!({ "date": "2026-03-05", "session": 1, "exercise": "RC-1", "side": "left",
            "planned": "CANARY-rung", "used": "CANARY-rung", "prescribed_sets": 3, "number": 1,
            "seconds": 80.0, "end": "form", "fault": "F06", "clock": "device" }),
        ),
        (
            Kind::Decision,
            json!({ "date": "2026-03-06", "exercise": "RC-1", "side": "left", "proposed": "up",
            "proposed_rung": "CANARY-rung", "codes": ["P4"], "verdict": "overridden", "rung": "CANARY-rung",
            "because": "override", "reason": "CANARY-reason", "by": "Olga Owner",
            "protocol": trade::protocol::read::shipped().hash.to_string(), "engine": "1", "inputs": "x" }),
        ),
        (Kind::WaterWeek, json!({ "from": "2026-02-23", "km": 31.0 })),
        (
            Kind::DeckEntry,
            json!({ "id": "0", "session": "0", "device": "blue phone", "seq": 1, "boot": "0", "t": 1.0,
            "wall": "2026-03-05T18:00:00Z", "k": "incident", "what": "collision", "words": "CANARY-entry" }),
        ),
        (
            Kind::Incident,
            json!({ "date": "2026-03-05", "what": "collision", "words": "CANARY-incident", "by": "Olga Owner" }),
        ),
        (
            Kind::HomeSheet,
            json!({ "sheet": 1, "date": "2026-03-05", "lines": [
            { "exercise": "RC-1", "side": "left", "rung": "CANARY-rung", "cap_s": 60.0 }] }),
        ),
        (
            Kind::WaterSession,
            json!({ "date": "2026-02-24", "metres": 4123.0, "minutes": 90.0, "effort": 6.0 }),
        ),
        (
            Kind::WeeklyCheck,
            json!({ "date": "2026-03-04", "left": { "taking_part": 1, "less_training": 1, "performance": 0,
            "symptoms": 2 }, "right": { "taking_part": 0 }, "from_paper": true }),
        ),
    ]
}

/// Marks the record of a swimmer who is on record already.
pub(crate) fn mark(desk: &mut Desk, subject: SubjectId) -> Vec<FactId> {
    let live = desk.store().live_facts(subject).unwrap();
    let old = live.iter().find(|live| live.fact.told.kind == "swimmer").unwrap();
    let mut swimmer: Value = serde_json::from_str(old.payload()).unwrap();
    swimmer["emergency_note"] = json!("CANARY-emergency");
    swimmer["club_number"] = json!("CANARY-number");
    swimmer["contacts"] =
        json!([{ "name": "CANARY-contact", "relation": "CANARY-contact", "phone": "CANARY-contact" }]);
    let mut drafts = vec![
        Draft { kind: Kind::Swimmer, payload: swimmer.to_string(), corrects: None }
            .correcting(old.fact.told.id, "CANARY-correction"),
    ];
    for (kind, payload) in facts() {
        drafts.push(Draft { kind, payload: payload.to_string(), corrects: None });
    }
    desk.record(&at(0), &author(), subject, &drafts).unwrap()
}

#[test]
fn every_kind_of_fact_about_a_swimmer_is_marked() {
    let marked: Vec<Kind> = facts().iter().map(|(kind, _)| *kind).chain([Kind::Swimmer]).collect();
    // What is seen by whoever sees the calendar or the kit is about the club; a trial of testers names nobody.
    let about_the_club =
        |kind: Kind| matches!(app::roles::seeing(kind), Thing::Calendar | Thing::Kit) || kind == Kind::Trial;
    for kind in Kind::ALL {
        assert!(marked.contains(kind) || about_the_club(*kind), "{kind:?} carries no mark");
    }
}
