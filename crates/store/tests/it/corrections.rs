//! Corrections, retractions and what needs a person.

use store::Conflict;

use crate::build::*;

#[test]
fn a_correction_replaces_and_a_retraction_removes() {
    let store = store_of(vec![fact(1), correcting(fact(2), 1), fact(3), retracting(fact(4), 3)]);
    assert_eq!(holding(&store, 1), [r#"{"seconds":2}"#]);
    assert_eq!(store.history(subject(1)).unwrap().len(), 4);
    assert_eq!(store.conflicts().unwrap(), []);
}

#[test]
fn a_correction_may_arrive_before_what_it_corrects() {
    let mut store = store_of(vec![correcting(fact(2), 1)]);
    assert_eq!(store.waiting_corrections().unwrap(), [id(2)]);
    assert_eq!(holding(&store, 1), [r#"{"seconds":2}"#]);
    store.append(&batch(vec![fact(1)])).unwrap();
    assert_eq!(store.waiting_corrections().unwrap(), []);
    assert_eq!(holding(&store, 1), [r#"{"seconds":2}"#]);
}

#[test]
fn two_live_corrections_both_hold_until_a_person_settles_them() {
    let mut store = store_of(vec![fact(1), correcting(fact(2), 1), correcting(fact(3), 1)]);
    assert_eq!(holding(&store, 1), [r#"{"seconds":2}?"#, r#"{"seconds":3}?"#]);
    let fork = Conflict::Fork { subject: subject(1), of: id(1), heads: vec![id(2), id(3)] };
    assert_eq!(store.conflicts_of(subject(1)).unwrap(), [fork]);
    store.append(&batch(vec![retracting(fact(4), 2)])).unwrap();
    assert_eq!(holding(&store, 1), [r#"{"seconds":3}"#]);
    assert_eq!(store.conflicts().unwrap(), []);
}

#[test]
fn nobody_can_correct_away_a_fact_of_somebody_else() {
    let mut other_kind = correcting(fact(3), 1);
    other_kind.kind = "pain".into();
    let store = store_of(vec![fact(1), about(retracting(fact(2), 1), 2), other_kind]);
    assert_eq!(holding(&store, 1), [r#"{"seconds":1}"#, r#"{"seconds":3}?"#]);
    assert_eq!(holding(&store, 2), [] as [&str; 0]);
    let stray = |whom, correction| Conflict::Stray { subject: subject(whom), correction, of: id(1) };
    assert_eq!(store.conflicts().unwrap(), [stray(1, id(3)), stray(2, id(2))]);
}

#[test]
fn one_kind_is_read_across_subjects() {
    let mut pain = fact(3);
    pain.kind = "pain".into();
    let store = store_of(vec![fact(1), about(fact(2), 2), pain, correcting(fact(4), 1)]);
    let sets = store.live_facts_of_kind("set").unwrap();
    assert_eq!(sets.iter().map(|live| live.fact.told.id).collect::<Vec<_>>(), [id(2), id(4)]);
    assert_eq!(store.all_live_facts().unwrap().len(), 3);
    assert_eq!(store.subjects().unwrap(), [subject(1), subject(2)]);
}
