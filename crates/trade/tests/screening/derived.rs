//! Derived values against worked figures; each names the check it comes from.

use quantity::{Force, Length, Mass};
use trade::history::*;
use trade::rule::{gate_rules, screening_rules as codes};
use trade::screening::day::day;
use trade::screening::derived::{
    Derived, Gap, Value, arc, deficit, derived, ratio, share_of_body_weight, symmetry_noise, torque,
};
use trade::trace::Arg;

use crate::build::*;

fn close(got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{got} is not {wanted}");
}

// Source: rom.trom.1 and rom.trom.2, definitions as in Wilk 2011 (Am J Sports Med 39:329) and Burkhart 2003.
#[test]
fn arcs_and_deficits() {
    let (dominant, other) = (arc(103.0, 48.0), arc(98.0, 61.0));
    assert_eq!((dominant, other), (151.0, 159.0));
    assert_eq!(deficit(48.0, 61.0), 13.0, "internal rotation, positive is a loss");
    assert_eq!(deficit(103.0, 98.0), -5.0, "external rotation is a gain");
    assert_eq!(deficit(dominant, other), 8.0);
    close(ratio(13.0, other).unwrap(), 0.081_761_01, 1e-8);
    assert_eq!(deficit(arc(95.0, 40.0), arc(95.0, 60.0)), 20.0);
}

// Source: hhd.convert (unit definitions) and hhd.ratio (mclaine2018 as quoted in a summary).
#[test]
fn strength_conversions_and_the_way_round_of_a_ratio() {
    close(torque(112.0, 0.24), 26.88, 1e-9);
    close(ratio(26.88, 61.0).unwrap(), 0.440_656, 5e-7);
    close(ratio(112.0, 61.0).unwrap(), 1.836_066, 5e-7);
    close(share_of_body_weight(112.0, 61.0).unwrap() * 100.0, 18.722_658, 5e-7);
    close(Force::from_kilograms_force(11.4).in_newtons(), 111.795_81, 5e-6);
    close(Force::from_pounds_force(25.0).in_newtons(), 111.205_54, 5e-6);
    close(1.0 / 1.09, 0.917_431, 5e-7);
    close(ratio(1.0, 1.15).unwrap(), 0.869_565, 5e-7);
    assert_eq!((ratio(1.0, 0.0), share_of_body_weight(1.0, 0.0)), (None, None));
}

// Source: hhd.lsi.noise (derivation, log-normal errors).
#[test]
fn one_symmetry_index_is_mostly_noise() {
    for (cv, wanted) in [(0.05, 14.855_414), (0.07, 21.384_072), (0.1, 31.849_58)] {
        close(symmetry_noise(cv) * 100.0, wanted, 1e-4);
    }
}

/// A girl of sixteen, measured on one day, with height and mass.
fn measured(values: &[(&str, f64, f64)], whole: &[(&str, f64)]) -> History {
    let mut history = fit(16, Sex::Female);
    let mut screening = screening(ago(10), values);
    for (key, value) in whole {
        screening.findings.push(Finding {
            key: (*key).to_owned(),
            side: None,
            outcome: Outcome::Measured(*value),
        });
    }
    history.screenings = vec![screening];
    history.growth = vec![GrowthMeasure {
        date: ago(20),
        height: Length::from_metres(1.7),
        sitting: None,
        mass: Some(Mass::from_kilograms(61.0)),
    }];
    history.in_order()
}

fn known(history: &History) -> Vec<Value> {
    all(history)
        .into_iter()
        .filter_map(|derived| if let Derived::Known(value) = derived { Some(value) } else { None })
        .collect()
}

fn gaps(history: &History) -> Vec<Gap> {
    all(history)
        .into_iter()
        .filter_map(|derived| if let Derived::Missing(gap) = derived { Some(gap) } else { None })
        .collect()
}

fn all(history: &History) -> Vec<Derived> {
    derived(&protocol(), history, &day(history, ago(10)))
}

fn one<'a>(values: &'a [Value], name: &str, side: Option<trade::side::Side>) -> &'a Value {
    values.iter().find(|value| value.name == name && value.side == side).unwrap()
}

#[test]
fn sides_are_kept_apart_and_every_value_has_a_rule_that_explains_itself() {
    let history = measured(
        &[
            ("shoulder_er_rom", 98.0, 103.0),
            ("shoulder_ir_rom", 61.0, 48.0),
            ("er_force", 112.0, 90.0),
            ("ir_force", 140.0, 150.0),
            ("pec_minor_length", 15.3, 15.3),
            ("posterior_endurance_time", 41.0, 52.0),
        ],
        &[("lever_arm", 0.24), ("stability_touches", 25.0)],
    );
    let values = known(&history);
    assert_eq!(one(&values, "derived-arc", Some(LEFT)).value, 159.0);
    assert_eq!(one(&values, "derived-arc", Some(RIGHT)).value, 151.0);
    let arc = one(&values, "derived-arc-difference", Some(RIGHT));
    assert_eq!(arc.value, 8.0);
    assert!(arc.beside.iter().any(|line| line.says == "beside-arc-throwers"), "more than 5");
    close(one(&values, "derived-er-torque", Some(LEFT)).value, 26.88, 1e-9);
    close(one(&values, "derived-er-weight", Some(LEFT)).value, 18.722_658, 5e-7);
    close(one(&values, "derived-ratio", Some(LEFT)).value, 0.8, 1e-12);
    close(one(&values, "derived-ratio", Some(RIGHT)).value, 0.6, 1e-12);
    let flags = |side| {
        let value = one(&values, "derived-ratio", Some(side));
        value.beside.iter().any(|line| line.rule == gate_rules::C4)
    };
    assert_eq!((flags(LEFT), flags(RIGHT)), (false, true), "0.75 lies between");
    close(one(&values, "derived-pectoral", Some(LEFT)).value, 9.0, 1e-9);
    // Source: ckcuest.scores, 25 touches at 1.70 m.
    close(one(&values, "derived-touches", None).value, 14.705_882, 5e-7);
    let hold = one(&values, "derived-endurance-time-difference", Some(LEFT));
    assert_eq!(hold.beside[0].says, "beside-within-error", "11 s lie within 20");
    for value in &values {
        assert!(trade::rule::catalogue::rule_of(value.rule).is_some(), "{}", value.name);
        for line in std::iter::once(&value.line).chain(&value.beside) {
            assert!(trade::rule::catalogue::rule_of(line.rule).is_some(), "{}", line.says);
        }
        assert!(value.value.is_finite());
    }
}

// Source: rom.trom.2: the 20-degree rule of throwers is "at least", the 5-degree rule "more than".
#[test]
fn thresholds_of_throwers_stand_beside_and_only_from_their_limit_on() {
    for (left, right, beside) in [(60.0, 40.0, true), (60.0, 41.0, false)] {
        let history = measured(&[("shoulder_er_rom", 95.0, 95.0), ("shoulder_ir_rom", left, right)], &[]);
        let values = known(&history);
        let value = one(&values, "derived-ir-difference", Some(RIGHT));
        assert_eq!(value.beside.iter().any(|line| line.rule == codes::V2), beside, "{left} {right}");
        assert_eq!(value.rule, codes::V2);
    }
    let history = measured(&[("shoulder_er_rom", 95.0, 90.0), ("shoulder_ir_rom", 60.0, 60.0)], &[]);
    let values = known(&history);
    assert!(one(&values, "derived-arc-difference", Some(RIGHT)).beside.is_empty(), "5 exactly says nothing");
}

#[test]
fn what_is_missing_is_named_and_what_nobody_set_out_to_measure_is_no_gap() {
    let mut history = measured(&[("er_force", 112.0, 90.0)], &[]);
    history.screenings[0].findings[1].outcome = Outcome::NotDonePain;
    history.growth.clear();
    let gaps = gaps(&history);
    let of = |name: &str, side| gaps.iter().find(|gap| gap.name == name && gap.side == side);
    assert_eq!(of("derived-ratio", Some(LEFT)).unwrap().missing, [("ir_force", Some(LEFT))]);
    assert_eq!(of("derived-er-weight", Some(LEFT)).unwrap().missing, [("body_mass", None)]);
    assert_eq!(of("derived-er-symmetry", None).unwrap().missing, [("er_force", Some(RIGHT))]);
    assert!(of("derived-arc", Some(LEFT)).is_none(), "no range was measured at all");
    assert!(known(&history).iter().all(|value| value.side != Some(RIGHT)), "pain is no value");
}

#[test]
fn an_old_mass_does_not_describe_the_body() {
    let mut history = measured(&[("er_force", 112.0, 90.0)], &[]);
    history.growth[0].date = ago(101);
    assert!(known(&history).iter().all(|value| value.name != "derived-er-weight"));
    history.growth[0].date = ago(100);
    assert!(known(&history).iter().any(|value| value.name == "derived-er-weight"));
}

proptest::proptest! {
    /// A mirrored swimmer has mirrored values.
    #[test]
    fn left_and_right_mirror(
        forces in proptest::array::uniform4(25.0_f64..300.0), ranges in proptest::array::uniform4(20.0_f64..130.0),
    ) {
        let of = |mirror: bool| {
            let pair = |one: f64, other: f64| if mirror { (other, one) } else { (one, other) };
            let row = |key, (left, right): (f64, f64)| (key, left, right);
            let values = [
                row("er_force", pair(forces[0], forces[1])),
                row("ir_force", pair(forces[2], forces[3])),
                row("shoulder_er_rom", pair(ranges[0], ranges[1])),
                row("shoulder_ir_rom", pair(ranges[2], ranges[3])),
            ];
            known(&measured(&values, &[]))
        };
        let (plain, mirrored) = (of(false), of(true));
        proptest::prop_assert_eq!(plain.len(), mirrored.len());
        for value in &plain {
            let side = value.side.map(trade::side::Side::other);
            let twin = mirrored.iter().find(|twin| twin.name == value.name && twin.side == side);
            let twin = twin.ok_or_else(|| proptest::test_runner::TestCaseError::fail(value.name))?;
            proptest::prop_assert!((twin.value - value.value).abs() < 1e-9);
        }
    }
}

#[test]
fn errors_are_named_with_their_people() {
    let history = measured(&[("shoulder_er_rom", 98.0, 103.0)], &[]);
    let values = known(&history);
    let value = one(&values, "derived-er-difference", Some(LEFT));
    let people = value.beside[0].args.iter().find(|(name, _)| *name == "people").unwrap();
    assert_eq!(people.1, Arg::Word("people-swimmers-club".to_owned()));
}
