//! Importing the same rows again.

use store::{Correction, Erasure, ImportStep, NewFact, Payload, Store};

use crate::build::*;

const KEY: &str = "roster|17";

/// Imports one row as an importer would, and says what it did.
fn import(store: &mut Store, text: &str) -> ImportStep {
    let read = payload(text);
    let step = store.import_step("set", KEY, &read).unwrap();
    let told = |id, correction| NewFact {
        id,
        payload: Some(Payload::clone(&read)),
        correction,
        natural_key: Some(KEY.into()),
        ..fact(0)
    };
    let facts = match &step {
        ImportStep::New { id } => vec![told(*id, None)],
        ImportStep::Changed { id, supersedes, .. } => {
            vec![told(*id, Some(Correction { of: *supersedes, reason: "changed in the file".into() }))]
        }
        _ => Vec::new(),
    };
    store.append(&batch(facts)).unwrap();
    step
}

fn latest(store: &Store) -> Option<String> {
    store.latest_by_natural_key("set", KEY).unwrap().map(|fact| fact.told.payload.unwrap().to_string())
}

#[test]
fn a_row_is_new_once_and_then_unchanged_or_a_correction() {
    let mut store = Store::in_memory().unwrap();
    let ImportStep::New { id: first } = import(&mut store, "1") else { panic!() };
    assert_eq!(import(&mut store, "1.0"), ImportStep::Unchanged { id: first });
    let mut latest_id = first;
    for text in ["2", "1", "2"] {
        let step = import(&mut store, text);
        let ImportStep::Changed { id, supersedes, by_hand: false } = step else { panic!("{step:?}") };
        assert_eq!(supersedes, latest_id);
        assert_eq!(import(&mut store, text), ImportStep::Unchanged { id });
        assert_eq!(latest(&store).as_deref(), Some(text));
        latest_id = id;
    }
    assert_eq!(holding(&store, 1), ["2"]);
    assert_eq!(store.counts().unwrap().facts, 4);
    assert_eq!(
        store.import_step("set", "roster|18", &payload("1")).unwrap(),
        ImportStep::New { id: store::deterministic_id("set", "roster|18") }
    );
}

#[test]
fn the_same_file_does_not_overrule_a_person() {
    let mut store = Store::in_memory().unwrap();
    let ImportStep::New { id: first } = import(&mut store, "1") else { panic!() };
    let by_hand = Correction { of: first, reason: "read wrongly".into() };
    store.append(&batch(vec![NewFact { correction: Some(by_hand), ..fact(7) }])).unwrap();
    assert_eq!(import(&mut store, "1"), ImportStep::CorrectedByHand { id: id(7) });
    let hers = r#"{"seconds":7}"#;
    assert_eq!(latest(&store).as_deref(), Some(hers));
    assert_eq!(import(&mut store, hers), ImportStep::Unchanged { id: id(7) });
    assert!(matches!(import(&mut store, "3"), ImportStep::Changed { by_hand: true, supersedes, .. }
        if supersedes == id(7)));
    assert_eq!(holding(&store, 1), ["3"]);
}

#[test]
fn the_same_file_does_not_bring_back_what_was_retracted_or_erased() {
    let mut store = Store::in_memory().unwrap();
    let ImportStep::New { id: first } = import(&mut store, "1") else { panic!() };
    let gone = Correction { of: first, reason: "not ours".into() };
    store.append(&batch(vec![NewFact { correction: Some(gone), payload: None, ..fact(7) }])).unwrap();
    assert_eq!(import(&mut store, "1"), ImportStep::Retracted { id: id(7) });
    assert_eq!(latest(&store), None);

    let act = Erasure {
        subject: subject(1),
        author: "administrator".into(),
        at: "2026-06-01".into(),
        ground: "asked".into(),
    };
    store.erase_subject(&act).unwrap();
    assert_eq!(import(&mut store, "1"), ImportStep::Erased);
}

#[test]
fn rows_that_contradict_each_other_wait_for_a_person() {
    let mut store = Store::in_memory().unwrap();
    let ImportStep::New { id: first } = import(&mut store, "1") else { panic!() };
    let corrected = |number| {
        let correction = Some(Correction { of: first, reason: "read wrongly".into() });
        NewFact { correction, ..fact(number) }
    };
    store.append(&batch(vec![corrected(7), corrected(8)])).unwrap();
    assert_eq!(import(&mut store, "1"), ImportStep::Conflict { ids: vec![id(7), id(8)] });
    assert_eq!(latest(&store), None);
}
