//! Data that carry no answer: each kind has its name, and nothing panics or returns a number that is not one.

use proptest::prelude::*;
use stats::censored::{Family, Known, Row, Sample, fit};
use stats::chart::self_start::{Rules, line};
use stats::lack::Lack;
use stats::level::Level;
use stats::mixed::{Measured, Method, MixedSample};
use stats::rates::count::Rate;
use stats::rates::ratio::RateRatio;
use stats::rates::share::Share;
use stats::reliability::Trial;
use stats::reliability::agreement::Agreement;
use stats::reliability::icc;
use stats::survival::{Curve, Limits, Timed, log_rank};

fn row(time: f64, exactly: bool, covariates: &[f64], group: u32) -> Row {
    let known = if exactly { Known::Exactly } else { Known::AtLeast };
    Row { time, known, covariates: covariates.to_vec(), group }
}

fn lack_of(rows: Vec<Row>, with_groups: bool) -> Lack {
    match Sample::new(rows, Family::LogNormal) {
        Err(lack) => lack,
        Ok(sample) => fit(&sample, Family::LogNormal, with_groups).expect_err("no answer"),
    }
}

#[test]
fn set_times_that_carry_no_answer_say_why() {
    assert_eq!(lack_of(vec![], false), Lack::Empty);
    assert_eq!(lack_of(vec![row(90.0, false, &[], 0); 5], true), Lack::AllCensored);
    assert_eq!(lack_of(vec![row(0.0, true, &[], 0), row(4.0, true, &[], 0)], false), Lack::NotPositive);
    assert_eq!(lack_of(vec![row(f64::NAN, true, &[], 0)], false), Lack::NotFinite);
    assert_eq!(lack_of(vec![row(5.0, true, &[f64::INFINITY], 0)], false), Lack::NotFinite);
    assert_eq!(lack_of(vec![row(50.0, true, &[], 0); 6], false), Lack::NoSpread);
    assert_eq!(lack_of(vec![row(50.0, true, &[], 0)], false).word(), "too-few");
    let straight = [1.0, 2.0, 3.0, 4.0].map(|x: f64| row(x.exp(), true, &[x], 0)).to_vec();
    assert_eq!(lack_of(straight, false), Lack::PerfectFit);
    let same = |x: f64| row(40.0 + x * x, true, &[x, 2.0 * x + 1.0], 0);
    assert_eq!(lack_of([1.0, 2.0, 3.0, 5.0].map(same).to_vec(), false), Lack::Collinear { column: 1 });
    let constant = |x: f64| row(40.0 + x * x, true, &[7.0], 0);
    assert_eq!(lack_of([1.0, 2.0, 3.0, 5.0].map(constant).to_vec(), false), Lack::Collinear { column: 0 });
    // Everybody with a one in the column reached the cap: its coefficient has no largest likely value.
    let mut parted: Vec<Row> = [30.0, 44.0, 51.0, 73.0].map(|t| row(t, true, &[0.0], 0)).to_vec();
    parted.extend(vec![row(90.0, false, &[1.0], 0); 4]);
    assert_eq!(lack_of(parted, false), Lack::RunsAway { column: 0 });
}

#[test]
fn one_loss_of_form_is_enough_where_others_lasted_longer() {
    let sample = Sample::new(
        vec![row(30.0, true, &[], 0), row(90.0, false, &[], 1), row(90.0, false, &[], 2)],
        Family::LogNormal,
    );
    let fit = fit(&sample.expect("numbers"), Family::LogNormal, false).expect("a likeliest model");
    assert!(fit.settled.converged && fit.coefficients[0].is_finite() && fit.se(0).is_finite(), "{fit:?}");
}

#[test]
fn known_times_only_have_the_closed_form() {
    let times = [20.0, 31.0, 47.0, 80.0, 55.0];
    let sample =
        Sample::new(times.map(|time| row(time, true, &[], 0)).to_vec(), Family::LogNormal).expect("numbers");
    let fit = fit(&sample, Family::LogNormal, false).expect("a likeliest model");
    let mean = times.iter().map(|t: &f64| t.ln()).sum::<f64>() / 5.0;
    let spread = (times.iter().map(|t| (t.ln() - mean).powi(2)).sum::<f64>() / 5.0).sqrt();
    assert!((fit.coefficients[0] - mean).abs() < 1e-12 && (fit.scale() - spread).abs() < 1e-12);
    assert!((fit.se(0) - spread / 5.0_f64.sqrt()).abs() < 1e-12);
}

#[test]
fn groups_that_cannot_be_told_apart_are_said_to_be_so() {
    let alone: Vec<Row> = (0..8).map(|g| row(30.0 + f64::from(g * g), true, &[], g)).collect();
    let of = |rows: Vec<Row>| {
        fit(&Sample::new(rows, Family::LogNormal).expect("numbers"), Family::LogNormal, true)
    };
    let fitted = of(alone).expect("the model without groups stands");
    assert_eq!((fitted.between, fitted.lacks), (None, vec![Lack::NotSeparable]));
    let one: Vec<Row> = (0..8).map(|g| row(30.0 + f64::from(g * g), true, &[], 0)).collect();
    let fitted = of(one).expect("the model without groups stands");
    assert_eq!(fitted.lacks, vec![Lack::TooFew { of: "groups", found: 1, needed: 2 }]);
    // Groups more alike than chance would have it: the likeliest spread is none, and that is said.
    let alike: Vec<Row> =
        (0..6).flat_map(|g| [30.0, 50.0, 80.0].map(|time| row(time, true, &[], g))).collect();
    let between = of(alike).expect("a likeliest model").between.expect("asked for");
    assert!(between.on_boundary && between.sd == 0.0 && between.log_sd_se.is_none());
}

#[test]
fn tables_of_ratings_that_carry_no_answer_say_why() {
    let all = |rows: Vec<Vec<f64>>| {
        Trial::new(rows).and_then(|trial| icc::all(&trial, Level::USUAL)).expect_err("no answer")
    };
    assert_eq!(all(vec![]), Lack::Empty);
    assert_eq!(all(vec![vec![1.0, 2.0]]).word(), "too-few");
    assert_eq!(all(vec![vec![1.0], vec![2.0]]).word(), "too-few");
    assert_eq!(all(vec![vec![1.0, 2.0], vec![3.0]]), Lack::Ragged);
    assert_eq!(all(vec![vec![1.0, f64::NAN], vec![3.0, 4.0]]), Lack::NotFinite);
    assert_eq!(all(vec![vec![5.0, 5.0], vec![5.0, 5.0]]), Lack::NoSpread);
    assert_eq!(all(vec![vec![1.0, 1.0], vec![2.0, 2.0], vec![9.0, 9.0]]), Lack::PerfectFit);
    assert!(Agreement::of(&[1.0, 2.0], &[1.0], 1.96, Level::USUAL).is_err());
    assert!(Agreement::of(&[], &[], 1.96, Level::USUAL).is_err());
}

#[test]
fn counts_that_carry_no_answer_say_why() {
    assert_eq!(Rate::new(3, 0.0, 1000.0, Level::USUAL), Err(Lack::NoExposure));
    assert_eq!(Rate::new(3, f64::NAN, 1000.0, Level::USUAL), Err(Lack::NotFinite));
    let none = Rate::new(0, 500.0, 1000.0, Level::USUAL).expect("no event is an answer");
    assert!(none.rate == 0.0 && none.interval.low == 0.0 && 7.0 < none.interval.high);
    assert_eq!(Share::new(5, 3, Level::USUAL), Err(Lack::NotACount));
    assert_eq!(Share::new(0, 0, Level::USUAL), Err(Lack::Empty));
    let both = RateRatio::new((0, 10.0), (0, 10.0), Level::USUAL).expect("nothing is an answer");
    assert!(both.ratio.is_none() && both.exact.low == 0.0 && both.exact.high == f64::INFINITY);
}

#[test]
fn curves_lines_and_seasons_that_carry_no_answer_say_why() {
    assert_eq!(Curve::of(&[], Limits::LogLog, Level::USUAL), Err(Lack::Empty));
    let capped = vec![Timed { time: 90.0, event: false }; 4];
    let curve = Curve::of(&capped, Limits::LogLog, Level::USUAL).expect("at least so long is an answer");
    assert_eq!((curve.median(), curve.steps.len(), curve.mean_until(90.0)), (None, 0, Ok((90.0, 0.0))));
    assert_eq!(log_rank(&[capped.clone(), capped]), Err(Lack::AllCensored));
    assert_eq!(line(&[], Rules::swimmer()), Err(Lack::Empty));
    assert_eq!(line(&[1.0, f64::NAN], Rules::swimmer()), Err(Lack::NotFinite));
    let flat = line(&[0.0; 40], Rules::swimmer()).expect("a flat line is quiet");
    assert!(flat.first.is_none() && flat.points.iter().all(|point| point.u.is_none()));
    let of = |rows: Vec<(f64, u32)>| {
        let rows =
            rows.into_iter().map(|(value, group)| Measured { value, covariates: vec![], group }).collect();
        MixedSample::new(rows).and_then(|sample| stats::mixed::fit(&sample, None, Method::Restricted))
    };
    assert_eq!(of(vec![]).err(), Some(Lack::Empty));
    assert_eq!(of(vec![(1.0, 1), (2.0, 1), (4.0, 1)]).expect_err("one swimmer").word(), "too-few");
    assert_eq!(of(vec![(1.0, 1), (2.0, 2), (4.0, 3)]).err(), Some(Lack::NotSeparable));
    assert_eq!(of(vec![(2.0, 1), (2.0, 1), (2.0, 2), (2.0, 2)]).err(), Some(Lack::NoSpread));
    let none =
        of(vec![(1.0, 1), (5.0, 1), (1.0, 2), (5.0, 2), (1.0, 3), (5.0, 3)]).expect("no spread between");
    assert!(none.singular && none.between[(0, 0)] == 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn any_small_table_gives_finite_numbers_or_a_reason(
        rows in prop::collection::vec((1_u32..200, any::<bool>(), 0_u32..3, 0_u32..4), 0..14),
        with_groups in any::<bool>(),
    ) {
        let rows: Vec<Row> = rows
            .into_iter()
            .map(|(time, exactly, x, group)| row(f64::from(time), exactly, &[f64::from(x)], group))
            .collect();
        if let Ok(sample) = Sample::new(rows, Family::LogNormal)
            && let Ok(fit) = fit(&sample, Family::LogNormal, with_groups)
        {
            prop_assert!(fit.settled.converged);
            prop_assert!(fit.coefficients.iter().all(|b| b.is_finite()), "{fit:?}");
            prop_assert!(fit.log_likelihood.is_finite() && fit.scale() > 0.0, "{fit:?}");
            prop_assert!((0..2).all(|place| fit.se(place).is_finite()), "{fit:?}");
        }
    }
}
