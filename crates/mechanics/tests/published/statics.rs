//! Straight arm against gravity, share of strength, smooth raises, test noise.
//!
//! Sources: statics with de Leva 1996 and Drillis & Contini 1966; Flash & Hogan 1985 for the minimum-jerk movement;
//! Yoma, Herrington & Mackenzie 2021, IJSPT 16(6):1470-1484, Table 1; Yoma et al. 2021, J Athl Train 56:54-63.

use mechanics::body::{LengthSet, Sex, Years};
use mechanics::spread::WithError;
use mechanics::strength::{
    PriorRefusal, Rotation, Test, exceeds_detectable, implied_mean, prior, trials_to_detect,
};
use mechanics::torque::{HandRaise, peak_acceleration};
use quantity::{Angle, Force, Length, Mass, Share, Time, Torque};

use crate::body::adult;
use crate::references::{check, number, table};

fn raise(sex: Sex, kilograms: f64, stature: f64, weight: f64) -> HandRaise {
    let arm = adult(sex, kilograms, stature, LengthSet::DrillisContini).arm();
    HandRaise { arm, weight: Mass::from_kilograms(weight) }
}

fn torque(raise: &HandRaise, degrees: f64) -> WithError<Torque> {
    raise.arm.gravity_torque(Angle::from_degrees(degrees), raise.weight)
}

#[test]
fn gravity_torque_of_a_raised_arm() {
    for (id, weight, degrees) in [
        ("scaption.F55.1kg.30", 1.0, 30.0),
        ("scaption.F55.1kg.60", 1.0, 60.0),
        ("scaption.F55.1kg.90", 1.0, 90.0),
        ("scaption.F55.0kg.90", 0.0, 90.0),
    ] {
        let at = torque(&raise(Sex::Female, 55.0, 1.65, weight), degrees);
        check(id, &[at.value.newton_metres()]);
    }
    // The same handbook prints the case of a man to four digits.
    let man = torque(&raise(Sex::Male, 70.0, 1.78, 2.0), 90.0).value.newton_metres();
    assert!((man - 24.6442).abs() < 5e-5, "{man}");
}

#[test]
fn the_share_of_strength_counts_the_arm_itself() {
    let empty = torque(&raise(Sex::Female, 55.0, 1.65, 0.0), 90.0);
    let loaded = torque(&raise(Sex::Female, 55.0, 1.65, 1.0), 90.0);
    let test = Test {
        force: Force::from_newtons(60.0),
        lever: Length::from_metres(0.5478),
        limb: empty,
        noise: Share::from_percent(5.0),
    };
    let strength = test.strength().expect("a good test");
    check("scaption.gross_strength.F55", &[strength.torque.value.newton_metres()]);
    let share = strength.share(loaded).expect("some strength");
    check("scaption.share.F55.1kg.90", &[share.value.fraction()]);
    // Relative errors add in quadrature, and the interval stands round the value.
    let relative =
        loaded.relative().expect("some torque").hypot(strength.torque.relative().expect("some strength"));
    assert!((share.relative().expect("some share") - relative).abs() < 1e-12);
    let (low, high) = share.interval_95();
    assert!(low < share.value && share.value < high);
    let nothing = WithError { value: Torque::ZERO, sd: Torque::ZERO };
    let forgotten = Test { limb: nothing, ..test }.strength().expect("a good test");
    check(
        "scaption.share_wrong.F55.1kg.90",
        &[forgotten.share(loaded).expect("some strength").value.fraction()],
    );
}

#[test]
fn a_smooth_raise_peaks_where_the_static_torque_does() {
    let (quarter, time) = (Angle::from_degrees(90.0), Time::from_seconds(1.5));
    let acceleration = peak_acceleration(quarter, time).expect("it takes time");
    check("scaption.minjerk_peak_acc", &[acceleration.radians_per_second_squared()]);
    let raise = raise(Sex::Female, 55.0, 1.65, 1.0);
    check("scaption.inertial_torque.F55.1kg", &[raise.inertial(acceleration).newton_metres()]);
    let peak = raise.peak_in_motion(quarter, time).expect("it moves");
    check("scaption.minjerk_peak_total", &[peak.torque.newton_metres(), peak.at.degrees(), peak.over_static]);
    // A jerk of 0.3 s is another matter: static torque no longer stands for it.
    let jerked = raise.peak_in_motion(quarter, Time::from_seconds(0.3)).expect("it moves");
    assert!(2.0 < jerked.over_static);
}

fn percent(measure: &str, column: &str) -> Share {
    let table = table("yoma-2021", "reliability.csv");
    let row = table.iter().find(|row| row["measure"] == measure).expect("the measure is printed");
    Share::from_percent(number(row, column))
}

/// Detectable change and error as printed, to two digits after the point.
fn implied(measure: &str, detectable: f64, error: f64) -> (f64, f64) {
    let half = 0.005;
    implied_mean(&[
        (detectable, half, percent(measure, "mdc_percent")),
        (error, half, percent(measure, "sem_percent")),
    ])
    .expect("the intervals overlap")
}

#[test]
fn mean_strength_implied_by_printed_errors() {
    let (one, other) = (implied("ER_dom", 0.05, 0.02), implied("ER_nondom", 0.05, 0.02));
    check("norm.ER_swimmer_inferred", &[one.0.max(other.0), one.1.min(other.1)]);
    let (one, other) = (implied("IR_dom", 0.06, 0.02), implied("IR_nondom", 0.04, 0.02));
    check("norm.IR_swimmer_inferred", &[one.0, one.1, other.0, other.1]);
    for (rotation, (low, high)) in
        [(Rotation::External, (0.3358, 0.4074)), (Rotation::Internal, (0.375, 0.4546))]
    {
        let mean = rotation.mean().newton_metres_per_kilogram();
        assert!(low <= mean && mean <= high, "{rotation:?}");
    }
}

#[test]
fn no_strength_is_assumed_for_a_minor() {
    let mass = Mass::from_kilograms(55.0);
    assert_eq!(prior(Rotation::External, mass, Years(17)), Err(PriorRefusal::Minor(Years(17))));
    let adult = prior(Rotation::External, mass, Years(18)).expect("an adult");
    assert!((adult.torque.value.newton_metres() - 20.35).abs() < 1e-12);
    assert_eq!(adult.torque.relative(), Some(0.25));
}

#[test]
fn an_acute_loss_is_smaller_than_one_re_test_can_show() {
    let (loss, detectable) = (Share::from_percent(8.7), percent("ER_dom", "mdc_percent"));
    check("recovery.change_vs_mdc", &[exceeds_detectable(loss, detectable).expect("it can be detected")]);
    check(
        "recovery.averaging_needed",
        &[f64::from(trials_to_detect(loss, detectable).expect("there is a loss"))],
    );
}
