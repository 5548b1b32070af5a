//! Small questions answered by trying every choice, beside the answer of the search.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop where it stands")]

use cutting::{Candidate, Need, Proof, Question, Refusal, cut};
use proptest::prelude::*;

/// Best weight and, for that weight, fewest loops, over all choices that are allowed.
fn best_of_all(question: &Question) -> (u64, usize) {
    let n = question.candidates.len();
    (0..1_u32 << n)
        .map(|mask| (0..n).filter(|at| mask & (1 << at) != 0).collect::<Vec<_>>())
        .filter(|chosen| question.allows(chosen))
        .map(|chosen| {
            let met = |need: &&Need| need.met_by.iter().any(|at| chosen.contains(at));
            let weight = question.needs.iter().filter(met).map(|need| u64::from(need.weight)).sum::<u64>();
            (weight, std::cmp::Reverse(chosen.len()))
        })
        .max()
        .map(|(weight, loops)| (weight, loops.0))
        .unwrap()
}

fn questions() -> impl Strategy<Value = Question> {
    (1_usize..11, 1_usize..4).prop_flat_map(|(n, rolls)| {
        let candidates = prop::collection::vec((0..rolls).prop_map(|roll| Candidate { roll }), n);
        let need = (prop::collection::btree_set(0..n, 0..=n.min(4)), 1_u32..4)
            .prop_map(|(met_by, weight)| Need { met_by: met_by.into_iter().collect(), weight });
        let needs = prop::collection::vec(need, 0..14);
        (candidates, needs, prop::option::of(1_usize..4), prop::option::of(1_usize..6)).prop_map(
            |(candidates, needs, most_per_roll, most_in_all)| Question {
                candidates,
                needs,
                most_per_roll,
                most_in_all,
            },
        )
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]
    #[test]
    fn the_search_finds_what_trying_everything_finds(question in questions()) {
        let found = cut(&question, 20.0).unwrap();
        prop_assert!(question.allows(&found.chosen));
        prop_assert_eq!(found.proof, Proof::Proven);
        prop_assert_eq!((found.met_weight, found.chosen.len()), best_of_all(&question));
        prop_assert_eq!(found.most_possible, found.met_weight);
    }

    #[test]
    fn another_need_never_makes_less_be_met(question in questions(), extra in prop::collection::vec(0_usize..11, 1..4)) {
        let before = cut(&question, 20.0).unwrap();
        let mut more = question.clone();
        let met_by: Vec<usize> = extra.into_iter().filter(|at| *at < question.candidates.len()).collect();
        more.needs.push(Need { met_by, weight: 1 });
        prop_assert!(before.met_weight <= cut(&more, 20.0).unwrap().met_weight);
    }
}

#[test]
fn out_of_time_the_gap_is_shown_and_the_choice_still_stands() {
    // Many overlapping needs and hardly any time.
    let n = 60;
    let candidates = (0..n).map(|at| Candidate { roll: at % 6 }).collect();
    let needs = (0..400)
        .map(|need| Need {
            met_by: (0..5).map(|k| (need * 7 + k * k * 11 + need / 9) % n).collect(),
            weight: 1,
        })
        .collect();
    let question = Question { candidates, needs, most_per_roll: Some(2), most_in_all: None };
    let found = cut(&question, 0.05).unwrap();
    assert!(question.allows(&found.chosen) && 0 < found.met_weight);
    match found.proof {
        Proof::Proven => assert_eq!(found.most_possible, found.met_weight),
        Proof::Gap(gap) => assert!(gap.is_finite() && 0.0 <= gap && found.met_weight <= found.most_possible),
    }
}

#[test]
fn a_need_that_names_nothing_is_refused() {
    let question = Question {
        candidates: vec![Candidate { roll: 0 }],
        needs: vec![Need { met_by: vec![3], weight: 1 }],
        most_per_roll: None,
        most_in_all: None,
    };
    assert_eq!(cut(&question, 1.0), Err(Refusal::NoSuchCandidate { need: 0, candidate: 3 }));
    let empty =
        Question { candidates: Vec::new(), needs: Vec::new(), most_per_roll: None, most_in_all: None };
    assert!(cut(&empty, 1.0).unwrap().chosen.is_empty());
}
