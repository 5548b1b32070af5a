//! Whom to ask: charts, zeros with falling times, one arm left out, kilometres.

use app::signals::load::{Change, load};
use app::signals::{What, signals, words};

use super::build::{Squad, TODAY, swimmer};

/// Steady sessions, then weaker ones: so many of each, two days apart, the last one two days ago.
fn fading(steady: usize, weak: usize, weak_seconds: f64) -> Squad {
    let mut squad = Squad::swimmers(1);
    let all = steady + weak;
    for session in 0..all {
        let wobble = [0.0, 4.0, -3.0, 2.0, -4.0, 1.0][session % 6];
        let seconds = if session < steady { 80.0 } else { weak_seconds } + wobble;
        squad.session(
            1,
            2 * i32::try_from(all - session).unwrap(),
            "left",
            &[(seconds, "form"), (seconds - 10.0, "form")],
        );
    }
    squad
}

fn fell(what: &What) -> bool {
    matches!(what, What::TimesFell { .. })
}

#[test]
fn times_that_fall_speak_and_steady_ones_do_not() {
    let found = signals(&fading(20, 5, 55.0).desk(), TODAY);
    let signal = found.signals.iter().find(|signal| fell(&signal.what)).unwrap();
    assert_eq!(signal.subject, swimmer(1));
    let What::TimesFell { before, since, .. } = &signal.what else { unreachable!() };
    assert!(70.0 < *before && *since < 60.0, "{:?}", signal.what);
    assert!(words::sentence(&signal.what).contains("Ask how the shoulder is"));
    assert!(signals(&fading(25, 0, 80.0).desk(), TODAY).signals.is_empty());
    // Too few sessions say nothing, however low the last ones are.
    let few = signals(&fading(4, 3, 40.0).desk(), TODAY);
    assert!(!few.signals.iter().any(|signal| fell(&signal.what)));
    assert_eq!(few.learning, 1);
}

#[test]
fn the_number_of_false_alarms_is_said_for_the_whole_squad() {
    let mut squad = Squad::swimmers(3);
    for number in 1..=3 {
        for session in 0..12 {
            squad.session(number, 30 - 2 * session, "left", &[(70.0 + f64::from(session % 4), "form")]);
        }
    }
    let found = signals(&squad.desk(), TODAY);
    let alarms = found.by_chance.unwrap();
    assert_eq!(alarms.series, 3);
    assert!((300.0..450.0).contains(&alarms.run_length));
    assert!(words::by_chance(&found).unwrap().starts_with("3 charts are kept."));
}

#[test]
fn zeros_with_falling_times_are_asked_about_again() {
    let fall = |pain: i64| {
        let mut squad = fading(3, 3, 50.0);
        for days in [12, 10, 8, 6, 4, 2] {
            squad.pain(1, days, if days == 4 { pain } else { 0 });
        }
        signals(&squad.desk(), TODAY)
            .signals
            .iter()
            .any(|one| matches!(one.what, What::ZerosWithFallingTimes { .. }))
    };
    assert!(fall(0));
    assert!(!fall(2), "who says that it hurts is not silent");
}

#[test]
fn an_arm_that_is_left_out_is_asked_about() {
    let mut squad = Squad::swimmers(1);
    for (days, sides) in
        [(20, &["left", "right"][..]), (12, &["left"]), (9, &["left"]), (6, &["left"]), (3, &["left"])]
    {
        for side in sides {
            squad.session(1, days, side, &[(60.0, "form")]);
        }
    }
    let found = signals(&squad.desk(), TODAY);
    assert!(
        found.signals.iter().any(|one| matches!(one.what, What::OneArmLeftOut { times: 4, .. })),
        "{found:?}"
    );
}

#[test]
fn kilometres_are_compared_only_where_that_means_something() {
    let change = |weeks: &[(i32, f64)]| {
        let mut squad = Squad::swimmers(1);
        for (ago, km) in weeks {
            squad.water(1, *ago, *km);
        }
        load(&squad.desk(), TODAY)[0].change
    };
    assert_eq!(change(&[(2, 20.0), (1, 30.0)]), Change::More(50.0));
    assert_eq!(change(&[(2, 30.0), (1, 15.0)]), Change::Less(50.0));
    assert_eq!(change(&[(2, 30.0), (1, 31.0)]), Change::Alike);
    assert_eq!(
        change(&[(1, 31.0)]),
        Change::NotRecorded,
        "a week without a number is not a week without water"
    );
    let after_illness = [(8, 40.0), (7, 40.0), (6, 40.0), (5, 40.0), (4, 2.0), (3, 2.0), (2, 4.0), (1, 30.0)];
    assert_eq!(change(&after_illness), Change::NotCompared);
}
