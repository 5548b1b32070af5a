//! Ladders: ascending, every step larger than its error, nothing lost, gaps named.

use mechanics::ladder::{Ladder, LadderRefusal, Rung, StepFit, StepTarget, differ, ladder};
use mechanics::spread::WithError;
use proptest::prelude::*;
use quantity::{Share, Torque};

fn rung(key: usize, load: f64, sd: f64) -> Rung<usize, Torque> {
    let [value, sd] = [load, sd].map(Torque::from_newton_metres);
    Rung { key, load: WithError { value, sd } }
}

fn of(loads: &[f64], part: f64) -> Ladder<usize, Torque> {
    let rungs: Vec<_> = loads.iter().enumerate().map(|(key, load)| rung(key, *load, load * part)).collect();
    ladder(&rungs, &StepTarget::USUAL).expect("plain rungs")
}

fn keys(ladder: &Ladder<usize, Torque>) -> Vec<usize> {
    ladder.rungs.iter().map(|standing| standing.rung.key).collect()
}

proptest! {
    #[test]
    fn a_ladder_keeps_its_promises(rungs in prop::collection::vec((1.0_f64..30.0, 0.0_f64..0.1), 1..14)) {
        let rungs: Vec<_> =
            rungs.into_iter().enumerate().map(|(key, (load, part))| rung(key, load, load * part)).collect();
        let made = ladder(&rungs, &StepTarget::USUAL).expect("plain rungs");
        prop_assert_eq!(made.steps.len() + 1, made.rungs.len());
        for (pair, step) in made.rungs.windows(2).zip(&made.steps) {
            prop_assert!(pair[0].rung.load.value < pair[1].rung.load.value);
            prop_assert!(differ(&pair[0].rung.load, &pair[1].rung.load));
            prop_assert_eq!(step.fit == StepFit::TooLarge, StepTarget::USUAL.high < step.size.value);
        }
        let all = made.rungs.iter().chain(&made.spare).flat_map(|standing| {
            std::iter::once(standing.rung.key).chain(standing.same.iter().map(|rung| rung.key))
        });
        let mut all: Vec<usize> = all.collect();
        all.sort_unstable();
        prop_assert_eq!(all, (0..rungs.len()).collect::<Vec<_>>());
    }

    #[test]
    fn the_order_of_the_kit_does_not_matter(loads in prop::collection::vec(1.0_f64..30.0, 2..10), turn in 0_usize..9) {
        let rungs: Vec<_> = loads.iter().enumerate().map(|(key, load)| rung(key, *load, load * 0.03)).collect();
        let mut turned = rungs.clone();
        turned.rotate_left(turn % rungs.len());
        let made = |rungs: &[Rung<usize, Torque>]| keys(&ladder(rungs, &StepTarget::USUAL).expect("plain rungs"));
        prop_assert_eq!(made(&rungs), made(&turned));
    }
}

#[test]
fn even_steps_are_chosen_from_a_crowded_kit() {
    // Steps of 25 % with strays between; errors are small.
    let ladder = of(&[4.0, 5.0, 5.6, 6.25, 7.0, 7.81], 0.005);
    assert_eq!(keys(&ladder), [0, 1, 3, 5]);
    assert_eq!(ladder.spare.len(), 2);
    assert!(ladder.steps.iter().all(|step| step.fit == StepFit::Within));
}

#[test]
fn rungs_within_their_error_are_one() {
    let ladder = of(&[4.0, 4.1, 5.2], 0.03);
    assert_eq!(keys(&ladder), [0, 2]);
    assert_eq!(ladder.rungs[0].same[0].key, 1);
}

#[test]
fn a_gap_in_the_kit_is_named_with_its_size_and_error() {
    let ladder = of(&[4.0, 5.0, 8.0], 0.03);
    let fits: Vec<StepFit> = ladder.steps.iter().map(|step| step.fit).collect();
    assert_eq!(fits, [StepFit::Within, StepFit::TooLarge]);
    let gap = ladder.steps[1].size;
    assert!((gap.value.fraction() - 0.6).abs() < 1e-12);
    assert!((gap.sd.fraction() - 1.6 * 0.03 * 2_f64.sqrt()).abs() < 1e-12);
}

#[test]
fn what_makes_no_ladder_is_refused() {
    assert_eq!(ladder::<usize, Torque>(&[], &StepTarget::USUAL), Err(vec![LadderRefusal::Empty]));
    let nothing = rung(0, 0.0, 0.1);
    let upside_down = StepTarget { low: Share::from_percent(30.0), high: Share::from_percent(20.0) };
    assert_eq!(ladder(&[nothing], &upside_down).expect_err("unusable").len(), 2);
}
