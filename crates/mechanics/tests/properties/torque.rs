//! Virtual work for any geometry, slack and dead points, more load never less torque, and no panic on nonsense.

use mechanics::elastic::{Law, Piece, Strands};
use mechanics::torque::{
    AnchoredRotation, BallCircles, Curve, Exercise, HandLoad, HandRaise, InputErrors, Movement, Outcome,
    Point, PushUp, Row, Support, Tempo, TempoRefusal, TwoHandRotation,
};
use proptest::prelude::*;
use quantity::{Angle, Force, Length, Mass, Time, Torque};

use crate::figure::body;

fn metres(value: f64) -> Length {
    Length::from_metres(value)
}

fn degrees(value: f64) -> Angle {
    Angle::from_degrees(value)
}

fn tempo(out: f64, hold: f64, back: f64) -> Tempo {
    let [out, hold, back] = [out, hold, back].map(Time::from_seconds);
    Tempo::new(out, hold, back).expect("a plain tempo")
}

fn movement(exercise: Exercise, from: f64, to: f64) -> Movement {
    Movement { exercise, from: degrees(from), to: degrees(to), tempo: tempo(1.0, 0.0, 1.0) }
}

fn curve(exercise: Exercise, from: f64, to: f64) -> Curve {
    match movement(exercise, from, to).report(&InputErrors::CALIBRATED).expect("a plain exercise") {
        Outcome::Torque(report) => report.curve,
        Outcome::HandLoad(load) => panic!("a torque was expected, not {load:?}"),
    }
}

fn at(exercise: Exercise, angle: f64) -> f64 {
    let torque = movement(exercise, -90.0, 90.0).torque_at(degrees(angle)).expect("a plain exercise");
    torque.expect("a torque").newton_metres()
}

prop_compose! {
    fn any_piece()(a in 1.0_f64..60.0, b in 0.0_f64..30.0, rest in 0.2_f64..1.5, looped in any::<bool>()) -> Piece {
        let law = Law::MooneyRivlin { a: Force::from_newtons(a), b: Force::from_newtons(b) };
        let strands = if looped { Strands::Loop { around: metres(0.08) } } else { Strands::Single };
        Piece::new(law, metres(rest), strands).expect("a plain piece")
    }
}

prop_compose! {
    fn two_hands()(spacing in 0.2_f64..0.6, forearm in 0.2_f64..0.4, piece in any_piece()) -> TwoHandRotation {
        TwoHandRotation { elbow_spacing: metres(spacing), forearm: metres(forearm), piece }
    }
}

prop_compose! {
    fn anchored()(
        x in -2.0_f64..2.0, y in -1.0_f64..1.0, z in -1.0_f64..1.0, forearm in 0.2_f64..0.4, piece in any_piece()
    ) -> AnchoredRotation {
        AnchoredRotation { forearm: metres(forearm), anchor: Point::at(x, y, z), piece }
    }
}

/// Where a band goes slack its torque has a kink, which costs the integral a few digits.
fn close(work: f64, gained: f64) -> bool {
    (work - gained).abs() <= 1e-5 * (1.0 + gained.abs())
}

proptest! {
    #[test]
    fn two_arms_do_the_work_that_the_band_stores(it in two_hands(), from in -30.0_f64..20.0, arc in 10.0_f64..60.0) {
        // Where hands cross inside a loop the torque jumps, and an integral over the jump loses its digits.
        prop_assume!(0.0 < it.elbow_spacing.metres() + 2.0 * it.forearm.metres() * from.to_radians().sin());
        let to = from + arc;
        let work = 2.0 * curve(Exercise::TwoHandRotation(it), from, to).work.joules();
        prop_assert!(close(work, it.energy(degrees(to)).joules() - it.energy(degrees(from)).joules()));
    }

    #[test]
    fn one_arm_does_the_work_that_the_band_stores(it in anchored(), from in -60.0_f64..20.0, arc in 10.0_f64..90.0) {
        let to = from + arc;
        let work = curve(Exercise::AnchoredRotation(it), from, to).work.joules();
        prop_assert!(close(work, it.energy(degrees(to)).joules() - it.energy(degrees(from)).joules()));
    }

    #[test]
    fn a_band_through_the_axis_or_slack_turns_nothing(it in anchored()) {
        let through = it.anchor.outward.metres().atan2(it.anchor.forward.metres()).to_degrees();
        let exercise = Exercise::AnchoredRotation(it);
        prop_assert!(at(exercise, through).abs() <= 1e-9 * (1.0 + at(exercise, through + 90.0).abs()) + 1e-9);
        let slack = AnchoredRotation {
            piece: Piece::new(it.piece.law(), metres(9.0), Strands::Single).expect("a long piece"), ..it
        };
        prop_assert_eq!(at(Exercise::AnchoredRotation(slack), 30.0), 0.0);
    }

    #[test]
    fn left_and_right_are_mirror_images(it in anchored(), phi in -80.0_f64..80.0) {
        let anchor = Point { outward: metres(0.0) - it.anchor.outward, ..it.anchor };
        let mirrored = AnchoredRotation { anchor, ..it };
        let (one, other) = (at(Exercise::AnchoredRotation(it), phi), at(Exercise::AnchoredRotation(mirrored), -phi));
        prop_assert!((one + other).abs() <= 1e-9 * (1.0 + one.abs()));
    }

    #[test]
    fn a_stronger_band_never_turns_less(it in two_hands(), more in 1.0_f64..3.0, phi in 0.0_f64..85.0) {
        let Law::MooneyRivlin { a, b } = it.piece.law() else { return Ok(()) };
        let law = Law::MooneyRivlin {
            a: Force::from_newtons(a.newtons() * more), b: Force::from_newtons(b.newtons() * more)
        };
        let piece = Piece::new(law, it.piece.rest(), it.piece.strands()).expect("a plain piece");
        let stronger = TwoHandRotation { piece, ..it };
        prop_assert!(at(Exercise::TwoHandRotation(it), phi) <= at(Exercise::TwoHandRotation(stronger), phi) + 1e-12);
    }

    #[test]
    fn a_raise_goes_with_the_sine_and_evenly_with_the_weight(lift in 1.0_f64..179.0, weight in 0.0_f64..5.0) {
        let raise = |weight: f64| HandRaise { arm: body().arm(), weight: Mass::from_kilograms(weight) };
        let torque = |weight: f64, lift: f64| at(Exercise::HandRaise(raise(weight)), lift);
        let (empty, loaded) = (torque(0.0, 90.0), torque(weight, 90.0));
        prop_assert!((torque(weight, lift) - loaded * lift.to_radians().sin()).abs() < 1e-9);
        prop_assert!((loaded - empty - weight * raise(0.0).per_kilogram().newton_metres()).abs() < 1e-9);
    }

    #[test]
    fn mean_and_impulse_are_what_the_curve_says(
        it in two_hands(), out in 0.5_f64..4.0, hold in 0.0_f64..3.0, back in 0.5_f64..4.0
    ) {
        let plan = Movement { tempo: tempo(out, hold, back), ..movement(Exercise::TwoHandRotation(it), 0.0, 60.0) };
        let Outcome::Torque(report) = plan.report(&InputErrors::CALIBRATED).expect("plain") else { return Ok(()) };
        let curve = report.curve;
        let arc = 60.0_f64.to_radians();
        prop_assert!((curve.work.joules() - curve.mean.newton_metres() * arc).abs() < 1e-6 * (1.0 + curve.work.joules()));
        let peak = curve.peak.torque.newton_metres();
        let impulse = curve.impulse.newton_metre_seconds();
        prop_assert!(curve.points.iter().all(|point| point.torque.newton_metres() <= peak + 1e-9));
        prop_assert!(0.0 <= impulse && impulse <= peak * (out + hold + back) + 1e-9);
    }

    #[test]
    fn higher_hands_carry_less(low in -0.55_f64..0.9, more in 0.01_f64..0.1, stature in 1.3_f64..2.0) {
        let load = |height: f64| PushUp {
            sex: mechanics::body::Sex::Female,
            mass: Mass::from_kilograms(50.0),
            stature: metres(stature),
            support: Support::Height(metres(height)),
        }.load();
        if let (Ok(low_load), Ok(high)) = (load(low), load(low + more)) {
            let scale = |load: &HandLoad| load.on_a_scale.expect("a floor");
            prop_assert!(scale(&high) <= scale(&low_load) && high.pressed.value <= low_load.pressed.value);
            // From the floor upwards nobody is level or past it, so there it is strictly less.
            prop_assert!(low < 0.0 || high.pressed.value < low_load.pressed.value);
        }
    }

    #[test]
    fn without_press_a_circle_only_holds_the_arm_up(ball in 0.0_f64..2.0, clock in 0.0_f64..360.0, radius in 0.05_f64..0.2) {
        let arm = body().arm();
        let circles = |press: f64| BallCircles {
            arm,
            ball: Mass::from_kilograms(ball),
            press: Force::from_newtons(press),
            radius: metres(radius),
            elevation: degrees(90.0),
        };
        let held = arm.gravity_torque(degrees(90.0), Mass::from_kilograms(ball)).value.newton_metres();
        prop_assert!((at(Exercise::BallCircles(circles(0.0)), clock) - held).abs() < 1e-9);
        // At the bottom of the circle the wall pushes the arm down by press times radius; at the top it helps.
        let (bottom, top) = (at(Exercise::BallCircles(circles(10.0)), 180.0), at(Exercise::BallCircles(circles(10.0)), 0.0));
        prop_assert!((bottom - held - 10.0 * radius).abs() < 1e-9 && (held - top - 10.0 * radius).abs() < 1e-9);
    }

    #[test]
    fn nonsense_is_refused_and_never_panics(
        numbers in prop::array::uniform8(prop_oneof![-1e3_f64..1e3, Just(0.0), Just(1e300), Just(f64::MAX), Just(f64::MIN), Just(1e-300)]),
        piece in any_piece(), which in 0_u8..5
    ) {
        let [n0, n1, n2, n3, n4, n5, n6, n7] = numbers;
        let exercise = match which {
            0 => Exercise::TwoHandRotation(TwoHandRotation { elbow_spacing: metres(n0), forearm: metres(n1), piece }),
            1 => Exercise::AnchoredRotation(AnchoredRotation {
                forearm: metres(n0), anchor: Point::at(n1, n2, n3), piece
            }),
            2 => Exercise::Row(Row {
                start_distance: metres(n0), pull: metres(n1), upper_arm: metres(n2), forearm: metres(n3),
                rise: degrees(n4), start_flexion: degrees(n5), piece,
            }),
            3 => Exercise::HandRaise(HandRaise { arm: body().arm(), weight: Mass::from_kilograms(n0) }),
            _ => Exercise::BallCircles(BallCircles {
                arm: body().arm(), ball: Mass::from_kilograms(n0), press: Force::from_newtons(n1),
                radius: metres(n2), elevation: degrees(n3),
            }),
        };
        let plan = Movement { exercise, from: degrees(n6), to: degrees(n7), tempo: tempo(1.0, 0.0, 1.0) };
        if let Err(refusals) = plan.report(&InputErrors::CALIBRATED) {
            prop_assert!(!refusals.is_empty());
        }
    }
}

#[test]
fn a_tempo_below_nothing_is_refused() {
    let negative = Time::from_seconds(-1.0);
    assert_eq!(Tempo::new(Time::ZERO, negative, Time::ZERO), Err(TempoRefusal(negative)));
}

#[test]
fn a_row_grows_harder_to_its_end() {
    let law = Law::MooneyRivlin { a: Force::from_newtons(30.0), b: Force::from_newtons(15.0) };
    let row = Row {
        start_distance: metres(0.85),
        pull: metres(0.45),
        upper_arm: metres(0.307),
        forearm: metres(0.3),
        rise: degrees(0.0),
        start_flexion: degrees(80.0),
        piece: Piece::new(law, metres(0.8), Strands::Single).expect("a plain piece"),
    };
    let curve = curve(Exercise::Row(row), 80.0, 0.0);
    assert_eq!(curve.peak.angle, degrees(0.0));
    assert!(Torque::ZERO < curve.mean && curve.mean < curve.peak.torque);
}
