//! What an outbox amounts to: a function of the set of entries, and of nothing else.

use app::deck::fold::UNNAMED_FAULT;
use app::demo;
use proptest::prelude::*;
use serde_json::{Value, json};
use store::Conflict;

use super::stage::{entry, few, id, outcome, send, slot};

fn payloads(desk: &app::desk::Desk, kind: &str) -> Vec<Value> {
    outcome(desk)
        .iter()
        .filter(|line| line.starts_with(&format!("{kind} ")))
        .map(|line| serde_json::from_str(&line[line.find('{').unwrap()..]).unwrap())
        .collect()
}

#[test]
fn a_form_loss_a_seen_cap_an_unseen_cap_and_a_cap_that_nobody_could_see() {
    let (mut desk, who) = few(4);
    let mut entries = vec![entry(1, 1, "go", json!({ "phase": 0 }))];
    let run = id(1, 1);
    let touch = |seq, k: &str, place: usize, more: Value| {
        let mut all =
            json!({ "who": who[place].to_string(), "run": run, "phase": 0, "slot": slot("SC-1", "both", 1) });
        for (name, value) in more.as_object().unwrap() {
            all[name] = value.clone();
        }
        entry(1, seq, k, all)
    };
    entries.push(touch(2, "end", 0, json!({ "ms": 64_240, "reason": "form" })));
    entries.push(touch(3, "held", 1, json!({ "ms": 95_000 })));
    entries.push(touch(4, "held", 2, json!({ "ms": 60_000 })));
    for (seq, place, awake) in [(5, 1, true), (6, 2, true), (7, 3, false)] {
        entries.push(touch(seq, "cap", place, json!({ "ms": 120_000, "awake": awake })));
    }
    assert!(send(&mut desk, &entries).iter().all(|word| *word == "added"));
    let sets = payloads(&desk, "set");
    assert_eq!(sets.len(), 3, "what was not observed is not written down: {sets:?}");
    let form = sets.iter().find(|set| set["end"] == "form").unwrap();
    assert_eq!((form["seconds"].as_f64(), form["fault"].as_str()), (Some(64.2), Some(UNNAMED_FAULT)));
    let mut seen: Vec<_> =
        sets.iter().filter(|set| set["end"] == "cap").map(|set| set["seen"].as_bool()).collect();
    seen.sort();
    assert_eq!(seen, [Some(false), Some(true)], "a look at 60 s proves nothing about the end");
    assert_eq!(payloads(&desk, "session").len(), 4, "everybody took part");

    entries.clear();
    entries.push(touch(8, "note", 0, json!({ "fault": "F06" })));
    send(&mut desk, &entries);
    assert!(payloads(&desk, "set").iter().any(|set| set["fault"] == "F06"));
    send(&mut desk, &[entry(1, 9, "undo", json!({ "of": run }))]);
    assert_eq!(payloads(&desk, "set").len(), 0, "a false start leaves no set behind");
    assert!(desk.store().waiting_corrections().is_ok());
}

#[test]
fn the_same_entry_twice_is_known_and_other_content_is_refused_and_kept() {
    let (mut desk, who) = few(1);
    let answer = |left: u8| {
        entry(
            1,
            1,
            "answers",
            json!({ "who": who[0].to_string(), "left": left, "right": 0, "how": "self", "fresh": false }),
        )
    };
    assert_eq!(send(&mut desk, &[answer(0)]), ["added"]);
    assert_eq!(send(&mut desk, &[answer(0)]), ["already"]);
    assert_eq!(send(&mut desk, &[answer(4)]), ["refused"]);
    assert_eq!(desk.store().open_refusals().unwrap().len(), 1);
    assert_eq!(payloads(&desk, "pain").len(), 1);
    assert_eq!(payloads(&desk, "pain")[0]["asked"], "self");
}

#[test]
fn what_cannot_be_is_named_and_the_rest_goes_in() {
    let (mut desk, who) = few(1);
    let who = who[0].to_string();
    let stranger = "00000000-0000-4000-8000-000000000000";
    let entries = [
        entry(1, 1, "dance", json!({})),
        entry(1, 2, "attend", json!({ "who": who })),
        entry(1, 3, "answers", json!({ "who": who, "left": 11, "right": 0, "how": "self" })),
        entry(1, 4, "attend", json!({ "who": stranger, "present": true })),
        entry(1, 5, "attend", json!({ "who": who, "present": true, "session": "elsewhere" })),
        entry(1, 6, "attend", json!({ "who": who, "present": true })),
        "{".to_owned(),
    ];
    let acks = desk.receive(&demo::morning(), &super::stage::author(), &entries).unwrap();
    let words: Vec<_> = acks.iter().map(|ack| ack.outcome).collect();
    assert_eq!(words, ["invalid", "invalid", "invalid", "invalid", "invalid", "added", "invalid"]);
    assert!(
        acks.iter()
            .filter(|ack| ack.outcome == "invalid")
            .all(|ack| !ack.says.is_empty() && !ack.says.starts_with('['))
    );
}

#[test]
fn two_devices_that_saw_the_same_set_are_both_kept_until_a_person_chooses() {
    let (mut desk, who) = few(1);
    let end = |device: u8, ms: u32, reason: &str| {
        [
            entry(device, 1, "go", json!({ "phase": 0 })),
            entry(
                device,
                2,
                "end",
                json!({ "who": who[0].to_string(), "run": id(device, 1), "ms": ms, "reason": reason, "slot": slot("SC-1", "both", 1) }),
            ),
        ]
    };
    send(&mut desk, &end(1, 90_000, "form"));
    assert!(desk.store().conflicts().unwrap().is_empty());
    send(&mut desk, &end(2, 80_000, "chose-to-stop"));
    let conflicts = desk.store().conflicts().unwrap();
    let [Conflict::Fork { heads, .. }] = conflicts.as_slice() else { panic!("{conflicts:?}") };
    assert_eq!(heads.len(), 2);
    assert_eq!(payloads(&desk, "set").len(), 2);
    desk.deck_take_back(&demo::morning(), &super::stage::author(), who[0], heads[0], "chosen").unwrap();
    assert!(desk.store().conflicts().unwrap().is_empty());
    // What a person chose is not undone by the next entry.
    send(&mut desk, &[entry(1, 3, "attend", json!({ "who": who[0].to_string(), "present": true }))]);
    assert_eq!(payloads(&desk, "set").len(), 1);
}

#[test]
fn a_correction_by_hand_outlives_later_touches() {
    let (mut desk, who) = few(1);
    let subject = who[0];
    send(
        &mut desk,
        &[
            entry(1, 1, "go", json!({ "phase": 0 })),
            entry(
                1,
                2,
                "end",
                json!({ "who": subject.to_string(), "run": id(1, 1), "ms": 50_000, "reason": "form", "slot": slot("SC-1", "both", 1) }),
            ),
        ],
    );
    let live = desk.store().live_facts_of_kind("set").unwrap();
    let mut payload: Value = serde_json::from_str(live[0].payload()).unwrap();
    payload["seconds"] = json!(55.0);
    let draft = app::desk::Draft {
        kind: app::facts::Kind::Set,
        payload: payload.to_string(),
        corrects: Some((live[0].fact.told.id, "film".into())),
    };
    desk.record(&demo::morning(), &super::stage::author(), subject, &[draft]).unwrap();
    send(
        &mut desk,
        &[entry(
            1,
            3,
            "note",
            json!({ "who": subject.to_string(), "fault": "F03", "slot": slot("SC-1", "both", 1) }),
        )],
    );
    let live = desk.store().live_facts_of_kind("set").unwrap();
    assert_eq!(live.len(), 1);
    assert!(live[0].payload().contains("\"seconds\":55"), "{}", live[0].payload());
}

#[test]
fn an_incident_takes_kit_out_of_use_and_stands_apart_from_anybodys_record() {
    let (mut desk, _) = few(1);
    send(
        &mut desk,
        &[entry(
            1,
            1,
            "incident",
            json!({ "what": "band", "words": "snapped at the loop", "mark": "B-16", "by": "Mira" }),
        )],
    );
    assert_eq!(payloads(&desk, "incident")[0]["kit"], "B-16");
    assert_eq!(payloads(&desk, "inspection")[0]["sound"], false);
    assert!(
        outcome(&desk)
            .iter()
            .all(|line| line.contains(" club ") || line.contains(&store::SubjectId::CLUB.to_string()))
    );
}

/// A touch that a device may make, small enough to meet others.
fn touches() -> impl Strategy<Value = Vec<(u8, u8, u8, u8, u32)>> {
    // device, kind, swimmer, set, milliseconds
    prop::collection::vec((1..=2_u8, 0..7_u8, 0..3_u8, 1..=2_u8, 0..120_000_u32), 1..25)
}

fn told(touches: &[(u8, u8, u8, u8, u32)], who: &[store::SubjectId]) -> Vec<String> {
    let mut entries =
        vec![entry(1, 1, "go", json!({ "phase": 0 })), entry(2, 1, "go", json!({ "phase": 0 }))];
    for (place, (device, kind, swimmer, set, ms)) in touches.iter().enumerate() {
        let seq = place as u64 + 2;
        let who = who[usize::from(*swimmer)].to_string();
        let run = id(*device, 1);
        let slot = slot("SC-1", "both", *set);
        entries.push(match kind {
            0 => entry(
                *device,
                seq,
                "end",
                json!({ "who": who, "run": run, "ms": ms, "slot": slot, "reason": "form" }),
            ),
            1 => entry(
                *device,
                seq,
                "cap",
                json!({ "who": who, "run": run, "ms": 120_000, "slot": slot, "awake": ms % 2 == 0 }),
            ),
            2 => entry(*device, seq, "held", json!({ "who": who, "run": run, "ms": ms, "slot": slot })),
            3 => entry(*device, seq, "note", json!({ "who": who, "slot": slot, "fault": "F03" })),
            4 => entry(*device, seq, "undo", json!({ "of": id(*device, u64::from(ms % 26)) })),
            5 => entry(
                *device,
                seq,
                "pain",
                json!({ "who": who, "when": "during", "left": ms % 5, "exercise": "SC-1" }),
            ),
            _ => entry(
                *device,
                seq,
                "answers",
                json!({ "who": who, "left": 0, "right": ms % 3, "how": "spoken", "effort": ms % 11 }),
            ),
        });
    }
    entries
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if std::env::var_os("CUFFWRIGHT_LONG").is_some() { 400 } else { 24 }))]

    /// Entries that are lost and sent again, doubled, reordered and cut into batches anywhere come to the same facts.
    #[test]
    fn any_drop_double_or_reorder_gives_the_same_facts(touches in touches(), seed in any::<u64>()) {
        let (mut straight, who) = few(3);
        let entries = told(&touches, &who);
        send(&mut straight, &entries);

        let (mut crooked, _) = few(3);
        let mut state = seed | 1;
        let mut draw = |below: usize| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state % below.max(1) as u64) as usize
        };
        let mut bag: Vec<String> = entries.iter().chain(entries.iter().filter(|_| draw(3) == 0)).cloned().collect();
        for place in (1..bag.len()).rev() {
            bag.swap(place, draw(place + 1));
        }
        while !bag.is_empty() {
            let count = (1 + draw(6)).min(bag.len());
            let batch: Vec<String> = bag.drain(..count).collect();
            send(&mut crooked, &batch);
        }
        prop_assert_eq!(outcome(&straight), outcome(&crooked));
        straight.settle_all(&demo::morning()).unwrap();
        prop_assert_eq!(outcome(&straight), outcome(&crooked), "settling again changes nothing");
    }
}
