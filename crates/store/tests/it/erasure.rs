//! Erasing a person.

use std::fs;

use store::{ChainVerdict, Closing, Erasure, Error, NewFact, Outcome, Store, SubjectId};

use crate::build::*;

fn act(whom: SubjectId) -> Erasure {
    Erasure {
        subject: whom,
        author: "administrator".into(),
        at: "2026-06-01T10:00:00Z".into(),
        ground: "request of the guardian".into(),
    }
}

/// Everything personal that a fact can carry, each with a mark that can be searched for in the file.
fn telling(number: u64) -> NewFact {
    let mut told = correcting(fact(number), 1);
    told.payload = Some(payload(&format!(r#"{{"note":"MARK-payload {}"}}"#, "x".repeat(5000))));
    told.author = "MARK-author".into();
    told.device = "MARK-device".into();
    told.natural_key = Some("MARK-key".into());
    told.correction.as_mut().unwrap().reason = "MARK-reason".into();
    told
}

#[test]
fn erasure_leaves_tombstones_and_a_chain_that_holds() {
    let mut store = store_of(vec![fact(1), telling(2), about(fact(3), 2)]);
    let (facts, revision) = (store.counts().unwrap().facts, store.revision());
    let report = store.erase_subject(&act(subject(1))).unwrap();
    assert_eq!((report.facts, report.first), (2, true));
    assert!(store.revision() > revision);
    assert_eq!(store.counts().unwrap().facts, facts);
    assert_eq!(store.live_facts(subject(1)).unwrap(), []);
    assert_eq!(store.fact(id(2)).unwrap(), None);
    assert_eq!(holding(&store, 2), [r#"{"seconds":3}"#]);
    assert_eq!(store.erasures().unwrap(), [act(subject(1))]);
    let stones = store.tombstones().unwrap();
    assert_eq!(
        stones.iter().map(|stone| (stone.id, stone.replaced)).collect::<Vec<_>>(),
        [(id(1), None), (id(2), Some(id(1)))]
    );
    assert_eq!(stones[0].device_time, fact(1).device_time);
    let verdict = store.verify_chain().unwrap();
    assert!(matches!(verdict, ChainVerdict::Whole { erased: 2, head } if head.entries == 4), "{verdict:?}");
}

#[test]
fn an_erased_person_does_not_come_back() {
    let mut store = store_of(vec![fact(1)]);
    store.erase_subject(&act(subject(1))).unwrap();
    let revision = store.revision();
    // An old outbox, a fact that was still on its way, and the same id under another subject.
    let late = vec![fact(1), fact(2), about(fact(1), 5)];
    let receipts = store.append(&batch(late)).unwrap();
    assert_eq!(outcomes(&receipts), [Outcome::Erased; 3]);
    assert_eq!(store.counts().unwrap().tombstones, 2);
    assert!(store.revision() > revision);
    assert_eq!(store.open_refusals().unwrap(), []);
    assert_eq!(store.subjects().unwrap(), []);
    let again = Erasure { ground: "asked twice".into(), ..act(subject(1)) };
    assert!(!store.erase_subject(&again).unwrap().first);
    assert_eq!(store.erasures().unwrap(), [act(subject(1))]);
    assert!(matches!(store.verify_chain().unwrap(), ChainVerdict::Whole { .. }));
}

#[test]
fn the_club_cannot_be_erased() {
    let mut store = store_of(vec![NewFact { subject: SubjectId::CLUB, ..fact(1) }]);
    assert!(matches!(store.erase_subject(&act(SubjectId::CLUB)), Err(Error::ClubNotErasable)));
    assert_eq!(store.live_facts(SubjectId::CLUB).unwrap().len(), 1);
}

#[test]
fn no_byte_of_the_erased_stays_in_the_files() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    let others = (100..300).map(|number| about(fact(number), 2)).collect();
    store.append(&batch((2..40).map(telling).collect())).unwrap();
    store.append(&batch(others)).unwrap();
    // Refused rows are erased too: one of this person, and one that took an id of this person.
    let mut refused = telling(2);
    refused.version = 2;
    store.append(&batch(vec![refused, about(telling(3), 7)])).unwrap();
    let closing = Closing { number: 1, author: "clinician".into(), at: "now".into(), reason: "seen".into() };
    store.close_refusal(&closing).unwrap();
    let holds_marks =
        || scratch.contents().iter().any(|(_, bytes)| bytes.windows(4).any(|four| four == b"MARK"));
    assert!(holds_marks());

    let report = store.erase_subject(&act(subject(1))).unwrap();
    assert_eq!((report.facts, report.refused, report.scrubbed), (38, 2, true));
    assert!(!holds_marks(), "while open");
    drop(store);
    assert!(!holds_marks(), "after closing");
    assert_eq!(Store::open(&path, EXISTING).unwrap().live_facts(subject(2)).unwrap().len(), 200);
    assert!(fs::metadata(&path).unwrap().len() > 0);
}

#[test]
fn even_after_the_act_the_file_lets_facts_become_nothing_but_tombstones() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    store.append(&batch(vec![fact(1), about(fact(2), 2)])).unwrap();
    store.erase_subject(&act(subject(1))).unwrap();
    drop(store);
    let connection = raw(&path);
    for statement in [
        "UPDATE facts SET erased = 0, payload = '{}'",
        "UPDATE facts SET payload = '{}' WHERE erased = 1",
        "UPDATE facts SET kind = 'pain' WHERE erased = 1",
        "UPDATE facts SET received = '' WHERE erased = 1",
        "DELETE FROM facts WHERE erased = 1",
        "DELETE FROM erasures",
        "UPDATE erasures SET subject = (SELECT subject FROM facts WHERE erased = 0)",
    ] {
        assert!(connection.execute(statement, []).is_err(), "{statement}");
    }
}
