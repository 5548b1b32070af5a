//! Fits and laws: exact data gives exact constants, order and units do not matter, bad data is refused with numbers.

use mechanics::elastic::{
    Law, NotUsable, Piece, Reach, Reading, Refusal, ScaleError, Strands, Stretch, fit, fit_one_term,
};
use proptest::prelude::*;
use quantity::{Force, Length};

const SCALE: ScaleError = ScaleError::LUGGAGE_SCALE;

fn metres(value: f64) -> Length {
    Length::from_metres(value)
}

fn newtons(value: f64) -> Force {
    Force::from_newtons(value)
}

fn rubber(a: f64, b: f64) -> Law {
    Law::MooneyRivlin { a: newtons(a), b: newtons(b) }
}

fn stretch(ratio: f64) -> Stretch {
    Stretch::from_ratio(ratio).expect("a plain ratio")
}

/// Readings from a law, off by so much in turn.
fn readings(law: Law, rest: f64, off: &[f64]) -> Vec<Reading> {
    off.iter()
        .enumerate()
        .map(|(index, off)| {
            let ratio = 1.2 + 0.25 * index as f64;
            Reading {
                length: metres(rest * ratio),
                force: newtons(law.force(stretch(ratio)).newtons() + off),
            }
        })
        .collect()
}

proptest! {
    #[test]
    fn exact_data_gives_exact_constants(a in 1.0_f64..60.0, b in 0.0_f64..40.0, rest in 0.1_f64..2.0) {
        let fitted = fit(metres(rest), &readings(rubber(a, b), rest, &[0.0; 7]), &SCALE).expect("clean data");
        let [got_a, got_b] = fitted.constants().map(|constant| constant.value.newtons());
        prop_assert!((got_a - a).abs() < 1e-9 * 60.0 && (got_b - b).abs() < 1e-9 * 60.0);
        prop_assert!(fitted.residual_sd().newtons() < 1e-9);
    }

    #[test]
    fn order_and_units_do_not_matter(
        a in 5.0_f64..40.0, b in 1.0_f64..20.0, off in prop::collection::vec(-0.4_f64..0.4, 6), turn in 0_usize..6
    ) {
        let plain = readings(rubber(a, b), 0.4, &off);
        let mut turned = plain.clone();
        turned.rotate_left(turn);
        let imperial: Vec<Reading> = plain
            .iter()
            .map(|reading| Reading {
                length: Length::from_inches(reading.length.inches()),
                force: Force::from_pounds_force(reading.force.pounds_force()),
            })
            .collect();
        let constants = |readings: &[Reading]| {
            fit(metres(0.4), readings, &SCALE).expect("good data").constants().map(|constant| constant.value.newtons())
        };
        let first = constants(&plain);
        for other in [constants(&turned), constants(&imperial)] {
            prop_assert!((first[0] - other[0]).abs() < 1e-8 && (first[1] - other[1]).abs() < 1e-8);
        }
    }

    #[test]
    fn constants_are_never_negative_and_two_never_fit_worse_than_one(
        a in 5.0_f64..40.0, b in -8.0_f64..20.0, off in prop::collection::vec(-1.0_f64..1.0, 6)
    ) {
        let rest = 0.4;
        let data: Vec<Reading> = readings(rubber(a, 0.0), rest, &off)
            .into_iter()
            .map(|reading| {
                let l = reading.length.metres() / rest;
                Reading { force: newtons(reading.force.newtons() + b * (1.0 - l.powi(-3))), ..reading }
            })
            .collect();
        let (Ok(two), Ok(one)) = (fit(metres(rest), &data, &SCALE), fit_one_term(metres(rest), &data, &SCALE)) else {
            return Ok(());
        };
        let [a_two, b_two] = two.constants();
        prop_assert!(0.0 <= a_two.value.newtons() && 0.0 <= b_two.value.newtons());
        prop_assert!(two.residual_root_mean_square().newtons() <= one.residual_root_mean_square().newtons() + 1e-12);
        if two.held_at_zero() == [false, true] {
            prop_assert!((a_two.value.newtons() - one.constants()[0].value.newtons()).abs() < 1e-9);
        }
    }

    #[test]
    fn any_readings_are_fitted_or_refused(
        rest in -1.0_f64..2.0, data in prop::collection::vec((-1.0_f64..12.0, -50.0_f64..500.0), 0..10)
    ) {
        let data: Vec<Reading> =
            data.into_iter().map(|(l, f)| Reading { length: metres(l), force: newtons(f) }).collect();
        match fit(metres(rest), &data, &SCALE) {
            Ok(fit) => {
                let [a, b] = fit.constants();
                prop_assert!(0.0 <= a.value.newtons() && 0.0 <= b.value.newtons());
                let at = fit.predict(stretch(2.0));
                prop_assert!(at.curve.sd <= at.new_reading_sd && at.new_reading_95.0 <= at.new_reading_95.1);
            }
            Err(refusals) => prop_assert!(!refusals.is_empty()),
        }
    }

    #[test]
    fn force_depends_on_percent_elongation_only(a in 1.0_f64..60.0, b in 0.0_f64..40.0, l in 1.0_f64..3.0, scale in 0.2_f64..4.0) {
        let piece = |rest: f64| Piece::new(rubber(a, b), metres(rest), Strands::Single).expect("a plain piece");
        let (short, long) = (piece(0.3).pull(metres(0.3 * l)), piece(0.3 * scale).pull(metres(0.3 * scale * l)));
        prop_assert!((short.newtons() - long.newtons()).abs() <= 1e-9 * (1.0 + short.newtons()));
    }

    #[test]
    fn laws_start_at_nothing_with_three_times_the_modulus(a in 0.0_f64..60.0, b in 0.0_f64..40.0) {
        let law = rubber(a, b);
        prop_assert_eq!(law.force(Stretch::REST).newtons(), 0.0);
        prop_assert_eq!(law.force(stretch(0.7)).newtons(), 0.0);
        // a = 2 C1 and b = 2 C2, so 6 (C1 + C2) is 3 (a + b).
        let slope = law.stiffness(Stretch::REST, metres(1.0)).newtons_per_metre();
        prop_assert!((slope - 3.0 * (a + b)).abs() < 1e-9);
        let eps = 1e-7;
        let by_difference = law.force(stretch(1.0 + eps)).newtons() / eps;
        prop_assert!((by_difference - slope).abs() <= 1e-5 * (1.0 + slope));
    }

    #[test]
    fn slope_is_the_derivative_of_force_and_force_of_energy(a in 1.0_f64..60.0, b in 0.0_f64..40.0, l in 1.01_f64..6.0) {
        let (law, rest, h) = (rubber(a, b), metres(0.5), 1e-5);
        let force = |l: f64| law.force(stretch(l)).newtons();
        let energy = |l: f64| law.energy(stretch(l), rest).joules();
        let slope = (force(l + h) - force(l - h)) / (2.0 * h * 0.5);
        prop_assert!((slope - law.stiffness(stretch(l), rest).newtons_per_metre()).abs() < 1e-4 * (1.0 + slope));
        let pull = (energy(l + h) - energy(l - h)) / (2.0 * h * 0.5);
        prop_assert!((pull - force(l)).abs() < 1e-4 * (1.0 + pull));
        let back = law.stretch_for(newtons(force(l))).expect("within reach").ratio();
        prop_assert!((back - l).abs() < 1e-9);
    }
}

#[test]
fn unusable_readings_are_refused_with_their_numbers() {
    let rest = metres(0.5);
    let good = readings(rubber(18.0, 9.0), 0.5, &[0.0; 6]);
    let with = |index: usize, length: f64, force: f64| {
        let mut readings = good.clone();
        readings[index] = Reading { length: metres(length), force: newtons(force) };
        fit(rest, &readings, &SCALE).expect_err("unusable")
    };
    assert_eq!(with(1, 0.725, -3.0), [Refusal::NegativeForce { reading: 1, force: newtons(-3.0) }]);
    assert_eq!(with(5, 1.225, 2e4), [Refusal::TooStrong { reading: 5, force: newtons(2e4) }]);
    assert_eq!(with(0, 0.5, 1.0), [Refusal::AtOrBelowRest { reading: 0, length: metres(0.5), rest }]);
    assert_eq!(with(0, 0.4, 1.0), [Refusal::AtOrBelowRest { reading: 0, length: metres(0.4), rest }]);
    assert!(fit(metres(1e-300), &good, &SCALE).is_err());
    assert!(matches!(with(0, 60.0, 13.0)[..], [Refusal::BeyondBreaking { reading: 0, .. }]));
    assert!(matches!(with(3, 0.975, 20.0)[..], [Refusal::FallsWithLength { shorter: 2, longer: 3, .. }]));
    assert_eq!(fit(rest, &good[..3], &SCALE), Err(vec![Refusal::TooFew { have: 3, need: 4 }]));
    assert_eq!(fit(rest, &[], &SCALE), Err(vec![Refusal::TooFew { have: 0, need: 4 }]));
    assert_eq!(fit(metres(0.0), &good, &SCALE), Err(vec![Refusal::RestLength(metres(0.0))]));
    assert_eq!(Reading::try_new(4, f64::NAN, 3.0), Err(Refusal::NotFinite { reading: 4 }));
    assert_eq!(Reading::try_new(4, 0.7, f64::INFINITY), Err(Refusal::NotFinite { reading: 4 }));
    let same = vec![good[2]; 5];
    assert!(
        matches!(fit(rest, &same, &SCALE), Err(refusals) if matches!(refusals[..], [Refusal::TooNarrow { .. }]))
    );
    let nothing: Vec<Reading> =
        good.iter().map(|reading| Reading { force: newtons(0.0), ..*reading }).collect();
    assert_eq!(fit(rest, &nothing, &SCALE), Err(vec![Refusal::NoPull { readings: 6 }]));
    // Two things wrong at once are both named.
    let both = [Reading { length: metres(0.3), force: newtons(-1.0) }];
    assert_eq!(fit(rest, &both, &SCALE).expect_err("unusable").len(), 3);
}

#[test]
fn a_fall_within_the_scales_error_is_noise() {
    let rest = metres(0.5);
    let mut readings = readings(rubber(18.0, 9.0), 0.5, &[0.0; 6]);
    readings[5].force = newtons(readings[4].force.newtons() - 0.5);
    assert!(fit(rest, &readings, &SCALE).is_ok());
}

#[test]
fn leaving_the_readings_is_reported_by_how_much() {
    let fit = fit(metres(0.5), &readings(rubber(18.0, 9.0), 0.5, &[0.0; 6]), &SCALE).expect("clean data");
    let by = |ratio: f64| match fit.predict(stretch(ratio)).reach {
        Reach::Within => 0.0,
        Reach::Below(by) => -by.fraction(),
        Reach::Above(by) => by.fraction(),
    };
    assert_eq!(by(1.5), 0.0);
    assert!((by(1.1) + 0.1).abs() < 1e-9 && (by(2.75) - 0.3).abs() < 1e-9);
}

#[test]
fn a_piece_is_offered_only_inside_its_calibration_and_limit() {
    let law = rubber(18.0, 9.0);
    let calibration = fit(metres(0.5), &readings(law, 0.5, &[0.0; 6]), &SCALE).expect("clean data");
    let piece = Piece::new(law, metres(0.5), Strands::Single).expect("a plain piece");
    assert_eq!(piece.usable(metres(1.0), &calibration), Ok(()));
    assert!(matches!(piece.usable(metres(0.4), &calibration).expect_err("slack")[..], [NotUsable::Slack(_)]));
    let far = piece.usable(metres(1.7), &calibration).expect_err("too far");
    assert!(matches!(far[..], [NotUsable::PastCalibration(_), NotUsable::PastLimit { .. }]), "{far:?}");
    assert!(Piece::new(law, metres(0.0), Strands::Single).is_err());
    assert!(Piece::new(rubber(-1.0, 0.0), metres(0.5), Strands::Single).is_err());
}
