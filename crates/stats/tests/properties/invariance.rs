//! The order of rows and the unit of a column never change what is said.

use proptest::prelude::*;
use stats::censored::{Family, Fit, Known, Row, Sample, fit};
use stats::level::Level;
use stats::mixed::{Measured, Method, MixedFit, MixedSample};
use stats::reliability::Trial;
use stats::reliability::icc;

/// Sets of a made-up squad.
fn rows() -> impl Strategy<Value = Vec<Row>> {
    prop::collection::vec((20.0..160.0_f64, 0.0..5.0_f64, 0_u32..6), 18..40).prop_map(|rows| {
        rows.into_iter()
            .map(|(time, x, group)| {
                let known = if 110.0 < time { Known::AtLeast } else { Known::Exactly };
                Row {
                    time: time.min(110.0) * (1.0 + 0.1 * f64::from(group)),
                    known,
                    covariates: vec![x, (3.0 * x).sin()],
                    group,
                }
            })
            .collect()
    })
}

fn fitted(rows: Vec<Row>, with_groups: bool) -> Option<Fit> {
    fit(&Sample::new(rows, Family::LogNormal).ok()?, Family::LogNormal, with_groups).ok()
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-6 * (1.0 + one.abs().max(other.abs()))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn the_order_of_rows_and_the_names_of_groups_do_not_matter(
        (rows, shuffled) in rows().prop_flat_map(|rows| (Just(rows.clone()), Just(rows).prop_shuffle())),
        with_groups in any::<bool>(),
    ) {
        let renamed = shuffled.into_iter().map(|row| Row { group: 90 - 7 * row.group, ..row }).collect();
        let (one, other) = (fitted(rows, with_groups), fitted(renamed, with_groups));
        prop_assert_eq!(one.is_some(), other.is_some());
        if let (Some(one), Some(other)) = (one, other) {
            // Equal to the last digit, because rows are put into one order first.
            prop_assert_eq!(one.coefficients, other.coefficients);
            prop_assert_eq!(one.log_likelihood.to_bits(), other.log_likelihood.to_bits());
        }
    }

    #[test]
    fn units_of_times_and_covariates_do_not_matter(rows in rows(), times in 0.01..50.0_f64, xs in 0.01..500.0_f64, zero in -50.0..50.0_f64) {
        let scaled = rows
            .iter()
            .map(|row| Row { time: row.time * times, covariates: vec![row.covariates[0] * xs + zero, row.covariates[1]], ..row.clone() })
            .collect();
        if let (Some(one), Some(other)) = (fitted(rows, true), fitted(scaled, true)) {
            prop_assert!(close(one.coefficients[1], other.coefficients[1] * xs), "{one:?} {other:?}");
            prop_assert!(close(one.se(1), other.se(1) * xs));
            prop_assert!(close(one.coefficients[2], other.coefficients[2]));
            prop_assert!(close(one.coefficients[0] + times.ln(), other.coefficients[0] + zero * other.coefficients[1]));
            prop_assert!(close(one.scale(), other.scale()));
            let change = -(one.events as f64) * times.ln();
            prop_assert!(close(one.log_likelihood + change, other.log_likelihood));
        }
    }

    #[test]
    fn a_season_model_follows_its_units(
        values in prop::collection::vec((0.0..9.0_f64, 0.0..4.0_f64, 0_u32..5), 20..40),
        unit in 0.1..20.0_f64,
    ) {
        let of = |unit: f64| -> Option<MixedFit> {
            let rows = values.iter().map(|(value, x, group)| Measured {
                value: unit * (value + f64::from(*group)),
                covariates: vec![*x],
                group: *group,
            });
            stats::mixed::fit(&MixedSample::new(rows.collect()).ok()?, None, Method::MaximumLikelihood).ok()
        };
        if let (Some(one), Some(other)) = (of(1.0), of(unit)) {
            prop_assert!(close(one.coefficients[1] * unit, other.coefficients[1]));
            prop_assert!(close(one.se(0) * unit, other.se(0)));
            prop_assert!((one.residual * unit * unit - other.residual).abs() < 1e-5 * other.residual);
            let change = 2.0 * one.n as f64 * unit.ln();
            prop_assert!(close(one.criterion + change, other.criterion));
        }
    }

    #[test]
    fn reliability_follows_neither_order_nor_unit(
        (rows, shuffled) in prop::collection::vec(prop::collection::vec(0.0..9.0_f64, 3), 4..12)
            .prop_flat_map(|rows| (Just(rows.clone()), Just(rows).prop_shuffle())),
        unit in 0.1..30.0_f64,
    ) {
        let of = |rows: Vec<Vec<f64>>| icc::all(&Trial::new(rows).ok()?, Level::USUAL).ok();
        let scaled = shuffled.iter().map(|row| row.iter().map(|value| unit * value + 4.0).collect()).collect();
        if let (Some(one), Some(other)) = (of(rows), of(scaled)) {
            for (one, other) in one.iter().zip(&other) {
                prop_assert!(close(one.estimate, other.estimate) && close(one.interval.low, other.interval.low));
            }
        }
    }
}
