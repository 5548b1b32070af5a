//! The season: what is shown, and what is hidden because too few stand behind it.

use app::year::{Figure, Stretch, year};
use jiff::ToSpan;

use super::build::{Squad, TODAY};

fn season() -> Stretch {
    Stretch { from: TODAY.checked_sub(120.days()).unwrap(), to: TODAY }
}

/// A squad in which everybody came to most sessions, and one had a sore shoulder.
fn squad(count: u128) -> Squad {
    let mut squad = Squad::swimmers(count);
    for number in 1..=count {
        for session in 0..10 {
            // The second swimmer missed every third.
            if number == 2 && session % 3 == 2 {
                continue;
            }
            squad.session(number, 60 - 5 * session, "left", &[(70.0, "form"), (60.0, "form")]);
            squad.pain(number, 60 - 5 * session, if number == 1 && session == 4 { 5 } else { 0 });
        }
        squad.water(number, 3, 25.0);
        squad.water(number, 2, 25.0);
    }
    squad
}

#[test]
fn figures_of_six_are_shown_with_their_ranges() {
    let found = year(&squad(6).desk(), season());
    let adherence = found.adherence.shown().unwrap();
    assert_eq!((adherence.k, adherence.n), (57, 60));
    assert_eq!((found.now.problems, found.now.people_with), (1, 1));
    let rate = found.per_km.shown().unwrap();
    assert!((rate.exposure - 300.0).abs() < 1e-9 && (rate.rate - 1000.0 / 300.0).abs() < 1e-9);
    assert!(rate.interval.low < 0.1 && 18.0 < rate.interval.high, "one problem tells little: {rate:?}");
    assert!(found.sore.iter().any(|(_, share)| share.shown().is_some_and(|share| share.k == 1)));
    assert_eq!(found.shows_from, None, "one problem a season cannot show any reduction");
    assert!(matches!(found.ratio, Figure::Lacks(_)), "there is no season before");
}

#[test]
fn figures_of_four_are_hidden() {
    let found = year(&squad(4).desk(), season());
    assert_eq!(found.adherence, Figure::Hidden);
    assert_eq!(found.per_km, Figure::Hidden);
    assert_eq!(found.per_session, Figure::Hidden);
    assert_eq!(found.rungs, Figure::Hidden);
    assert!(!found.sore.is_empty() && found.sore.iter().all(|(_, share)| *share == Figure::Hidden));
    assert!(found.strength.iter().all(|strength| strength.found == Figure::Hidden));
}

#[test]
fn a_pain_that_goes_on_is_one_problem_and_a_new_one_another() {
    let problems = |days: &[i32]| {
        let mut squad = Squad::swimmers(1);
        for ago in days {
            squad.pain(1, *ago, 4);
        }
        year(&squad.desk(), season()).now.problems
    };
    assert_eq!(problems(&[30, 25, 20, 12]), 1);
    assert_eq!(problems(&[60, 40]), 2);
    // What began before the season is not counted in it.
    assert_eq!(problems(&[125, 115]), 0);
}

#[test]
fn steps_gained_follow_the_rungs_done() {
    let found = year(&squad(6).desk(), season());
    let rungs = found.rungs.shown().unwrap();
    assert_eq!((rungs.lines, rungs.higher.k, rungs.lower, rungs.median), (6, 0, 0, 0));
}
