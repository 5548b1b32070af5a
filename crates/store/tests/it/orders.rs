//! State is a function of the set of facts: order, doubling and batches make no difference.

use proptest::prelude::*;
use store::{Erasure, NewFact, Record, Store, replay};

use crate::build::*;

/// A set of facts of three subjects with corrections, retractions, loops, strays, and targets that never come.
fn any_set() -> impl Strategy<Value = Vec<NewFact>> {
    let one = (0_u64..3, prop::option::weighted(0.6, 0_u64..28), prop::bool::weighted(0.8));
    prop::collection::vec(one, 1..24).prop_map(|facts| {
        (0..)
            .zip(facts)
            .map(|(number, (whom, target, has_value))| {
                let told = about(fact(number), whom);
                match target.filter(|target| *target != number) {
                    Some(target) if has_value => correcting(told, target),
                    Some(target) => retracting(told, target),
                    None => told,
                }
            })
            .collect()
    })
}

fn erasure() -> Record {
    Record::Erasure(Erasure {
        subject: subject(2),
        author: "administrator".into(),
        at: "2026-06-01T10:00:00Z".into(),
        ground: "guardian's request".into(),
    })
}

fn recorded(facts: &[NewFact]) -> Vec<Record> {
    facts.iter().map(|told| Record::Fact(told.clone(), "2026-03-02T16:00:01Z".into())).collect()
}

/// All that can be read and does not speak of arrival.
fn seen(store: &Store) -> impl PartialEq + std::fmt::Debug + use<> {
    let mut tombstones = store.tombstones().unwrap();
    tombstones.sort_by_key(|stone| stone.id);
    (
        store.digest_of_state().unwrap(),
        store.all_live_facts().unwrap(),
        store.conflicts().unwrap(),
        store.waiting_corrections().unwrap(),
        store.counts().unwrap(),
        (tombstones, store.erasures().unwrap()),
    )
}

/// An order with some records doubled, and where to cut it into batches.
fn any_delivery() -> impl Strategy<Value = (Vec<NewFact>, bool, Vec<Record>, usize)> {
    (any_set(), any::<bool>(), any::<prop::sample::Index>(), 1_usize..8).prop_flat_map(
        |(facts, erased, doubled, size)| {
            let mut records = recorded(&facts);
            records.extend(recorded(&facts[doubled.index(facts.len())..]));
            records.extend(erased.then(erasure));
            (Just(facts), Just(erased), Just(records).prop_shuffle(), Just(size))
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_order_doubling_and_batching_gives_one_state((facts, erased, delivered, size) in any_delivery()) {
        let mut plain = store_of(facts);
        if erased {
            plain.import_facts([&erasure()]).unwrap();
        }
        let mut store = Store::in_memory().unwrap();
        for part in delivered.chunks(size) {
            store.import_facts(part).unwrap();
        }
        prop_assert_eq!(seen(&store), seen(&plain));
        let whole = matches!(store.verify_chain().unwrap(), store::ChainVerdict::Whole { .. });
        prop_assert!(whole);
    }

    #[test]
    fn one_subject_reads_alike_alone_and_among_all(facts in any_set()) {
        let store = store_of(facts);
        let mut one_by_one = Vec::new();
        for whom in 0..3 {
            one_by_one.extend(store.live_facts(subject(whom)).unwrap());
        }
        one_by_one.sort_by_key(|live| live.fact.told.id);
        prop_assert_eq!(one_by_one, store.all_live_facts().unwrap());
    }

    #[test]
    fn an_export_read_back_in_any_order_is_the_same_store(
        (facts, erased) in (any_set(), any::<bool>()),
        keys in prop::collection::vec(any::<u64>(), 40),
    ) {
        let mut store = store_of(facts);
        store.keep_document("a protocol").unwrap();
        if erased {
            store.import_facts([&erasure()]).unwrap();
        }
        let mut records: Vec<Record> = (1..)
            .zip(store.export_facts().unwrap())
            .map(|(number, record)| Record::from_line(number, &record.to_line()).unwrap())
            .collect();
        prop_assert_eq!(&records, &store.export_facts().unwrap());
        let mut keys = keys.into_iter();
        records.sort_by_cached_key(|_| keys.next());
        prop_assert_eq!(seen(&replay(&records).unwrap()), seen(&store));
    }
}

#[test]
fn a_line_that_cannot_be_read_is_named() {
    let good = Record::Fact(correcting(fact(2), 1), "2026-03-02".into()).to_line();
    assert!(Record::from_line(1, &good).is_ok());
    for (from, to) in [
        ("\"supersedes\":\"", "\"supersedes\":\"x"),
        ("\"reason\":\"typing slip\"", "\"reason\":null"),
        ("\"version\":1", "\"version\":-1"),
        ("{\"seconds\":2}", "{\"seconds\":2,\"seconds\":3}"),
        ("\"kind\":\"set\"", "\"kind\":\"Set\""),
        ("\"device\":", "\"colour\":\"red\",\"device\":"),
    ] {
        let bad = good.replace(from, to);
        assert_ne!(bad, good);
        let answer = Record::from_line(7, &bad);
        assert!(matches!(answer, Err(store::Error::BadRecord { line: 7, .. })), "{bad}: {answer:?}");
    }
}
