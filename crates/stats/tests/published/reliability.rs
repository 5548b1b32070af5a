//! Measurement error: Shrout & Fleiss 1979, Bland & Altman 1986, Hopkins 2000, and printed smallest detectable changes.

use stats::level::{Interval, Level};
use stats::reliability::agreement::{Agreement, repeatability};
use stats::reliability::change::{Change, Origin, Verdict, response_spread};
use stats::reliability::error::{
    MeasurementError, detectable_change, sem_from_printed_ninety_five, sem_from_reliability, sem_of_mean,
    side_ratio_noise,
};
use stats::reliability::icc::{self, Form};
use stats::reliability::kappa::{Weights, kappa};
use stats::reliability::{Trial, icc::Icc};

use crate::references::{check, number, table};

fn ratings() -> Trial {
    let rows = table("shrout-fleiss-1979", "ratings.csv");
    let judges = ["judge_1", "judge_2", "judge_3", "judge_4"];
    Trial::new(rows.iter().map(|row| judges.map(|judge| number(row, judge)).to_vec()).collect())
        .expect("a whole table")
}

fn meter(columns: [&str; 2]) -> Trial {
    let rows = table("bland-altman-1986", "pefr.csv");
    Trial::new(rows.iter().map(|row| columns.map(|column| number(row, column)).to_vec()).collect())
        .expect("a whole table")
}

fn three(icc: &Icc) -> [f64; 3] {
    [icc.estimate, icc.interval.low, icc.interval.high]
}

#[test]
fn mean_squares_of_six_targets_and_four_judges() {
    let (trial, squares) = (ratings(), ratings().squares());
    let (n, k) = (trial.people() as f64, trial.trials() as f64);
    let (between, raters) = (squares.people * (n - 1.0), squares.raters * (k - 1.0));
    let (residual, within) = (squares.residual * (n - 1.0) * (k - 1.0), squares.within * n * (k - 1.0));
    for (id, value) in [
        ("icc.sf.anova.n", n),
        ("icc.sf.anova.k", k),
        ("icc.sf.anova.sst", squares.total_squares),
        ("icc.sf.anova.ssr", between),
        ("icc.sf.anova.ssc", raters),
        ("icc.sf.anova.sse", residual),
        ("icc.sf.anova.ssw", within),
        ("icc.sf.anova.msr", squares.people),
        ("icc.sf.anova.msc", squares.raters),
        ("icc.sf.anova.mse", squares.residual),
        ("icc.sf.anova.msw", squares.within),
    ] {
        check(id, &[value]);
    }
}

#[test]
fn six_correlations_with_their_limits() {
    let all = icc::all(&ratings(), Level::USUAL).expect("the ratings spread");
    for (id, form) in [
        ("icc.sf.icc(1,1)", Form::OneWay),
        ("icc.sf.icc(1,k)", Form::OneWayMean),
        ("icc.sf.icc(2,1)", Form::Agreement),
        ("icc.sf.icc(2,k)", Form::AgreementMean),
        ("icc.sf.icc(3,1)", Form::Consistency),
        ("icc.sf.icc(3,k)", Form::ConsistencyMean),
    ] {
        check(id, &three(all.iter().find(|icc| icc.form == form).expect("all six are there")));
    }
    let parts = icc::components(&ratings());
    check("icc.sf.varcomp.target", &[parts.people]);
    check("icc.sf.varcomp.rater", &[parts.raters]);
    check("icc.sf.varcomp.residual", &[parts.residual]);
    let agreement = parts.people / (parts.people + parts.raters + parts.residual);
    check("icc.sf.varcomp.icc_a1", &[agreement]);
}

#[test]
fn limits_of_agreement_of_two_meters() {
    let (first, second) = (meter(["wright_1", "mini_1"]).column(0), meter(["wright_1", "mini_1"]).column(1));
    let usual = Agreement::of(&first, &second, Level::USUAL.z(), Level::USUAL).expect("17 pairs");
    let printed = Agreement::of(&first, &second, 2.0, Level::USUAL).expect("17 pairs");
    check("ba.pefr.n", &[usual.n as f64]);
    check("ba.pefr.mean", &[usual.mean]);
    check("ba.pefr.sd", &[usual.sd]);
    check("ba.pefr.lo196", &[usual.mean - 1.96 * usual.sd]);
    check("ba.pefr.hi196", &[usual.mean + 1.96 * usual.sd]);
    assert!((usual.limits.low - (usual.mean - 1.959_964 * usual.sd)).abs() < 1e-4);
    check("ba.pefr.lo2", &[printed.limits.low]);
    check("ba.pefr.hi2", &[printed.limits.high]);
    check("ba.pefr.se_mean", &[usual.se_mean]);
    check("ba.pefr.se_lim", &[usual.se_limit]);
    check("ba.pefr.t", &[(usual.mean_interval.high - usual.mean) / usual.se_mean]);
    let ends = |interval: Interval| [interval.low, interval.high];
    check("ba.pefr.ci_mean", &ends(printed.mean_interval));
    check("ba.pefr.ci_lo2", &ends(printed.low_interval));
    check("ba.pefr.ci_hi2", &ends(printed.high_interval));
}

#[test]
fn repeated_readings_of_each_meter() {
    let trial = meter(["wright_1", "wright_2"]);
    let (first, second) = (trial.column(0), trial.column(1));
    let both = Agreement::of(&first, &second, 2.0, Level::USUAL).expect("17 pairs");
    let (absolute, typical) = (MeasurementError::absolute(&trial), MeasurementError::typical(&trial));
    check("ba.repeat.wright.mean_diff", &[both.mean]);
    check("ba.repeat.wright.sd_diff", &[both.sd]);
    let coefficient = repeatability(&first, &second).expect("17 pairs");
    check("ba.repeat.wright.sd_diff_about_zero", &[coefficient / 2.0]);
    check("ba.repeat.wright.coef_repeatability_2sd0", &[coefficient]);
    check("ba.repeat.wright.within_sd_oneway", &[absolute.sem]);
    check("ba.repeat.wright.typical_error", &[typical.sem]);
    check("ba.repeat.wright.mdc95_oneway", &[detectable_change(absolute.sem, Level::USUAL)]);
    check("ba.repeat.wright.mdc95_typical_error", &[detectable_change(typical.sem, Level::USUAL)]);
    let all = icc::all(&trial, Level::USUAL).expect("they spread");
    for (id, place) in
        [("ba.repeat.wright.icc_1_1", 0), ("ba.repeat.wright.icc_2_1", 1), ("ba.repeat.wright.icc_3_1", 2)]
    {
        check(id, &three(&all[place]));
    }
    let mini = meter(["mini_1", "mini_2"]);
    let coefficient = repeatability(&mini.column(0), &mini.column(1)).expect("17 pairs");
    check("ba.repeat.mini", &[coefficient, MeasurementError::absolute(&mini).sem]);
}

#[test]
fn limits_of_a_typical_error() {
    for (low, high, sem, df) in [
        ("te.ci.16.lower", "te.ci.16.upper", 15.361_214_528, 16.0),
        ("te.ci.9.lower", "te.ci.9.upper", 4.0, 9.0),
        ("te.ci.24.lower", "te.ci.24.upper", 4.0, 24.0),
    ] {
        let interval = MeasurementError { sem, df }.interval(Level::USUAL);
        check(low, &[interval.low]);
        check(high, &[interval.high]);
    }
}

#[test]
fn one_person_against_the_error() {
    let change = Change::between(88.0, 95.0, 3.0, Origin::OwnTrial, Level::USUAL).expect("numbers");
    check("change.individual.change", &[change.change]);
    check("change.individual.se_change", &[change.se]);
    check("change.individual.mdc95", &[change.detectable]);
    check("change.individual.mdc90", &[detectable_change(3.0, Level::NINETY)]);
    check("change.individual.ci95", &[change.interval.low, change.interval.high]);
    check("change.individual.reliable_change_index", &[change.index]);
    check("change.individual.p_true_change_above_mic_flat_prior", &[change.chance_above(5.0)]);
    assert_eq!(change.verdict, Verdict::CannotTell, "above what matters, and still within error");
    let sems = [1, 2, 3].map(|trials| sem_of_mean(3.0, trials));
    check("change.mean_of_k.sem_k", &sems);
    check("change.mean_of_k.mdc95", &sems.map(|sem| detectable_change(sem, Level::USUAL)));
    check("change.sdir.sd_ir", &[response_spread(6.1, 4.0).expect("a spread")]);
    assert_eq!(response_spread(4.0, 6.1), None);
    let sem = sem_from_reliability(9.5, 0.9).expect("a reliability");
    check("sem.from_icc.sem", &[sem]);
    check("sem.from_icc.mdc95", &[detectable_change(sem, Level::USUAL)]);
    check("hhd.lsi.noise.half_width_pct", &[0.05, 0.07, 0.1].map(side_ratio_noise));
}

#[test]
#[expect(clippy::approx_constant, reason = "6.28 is a printed error, not a turn")]
fn printed_smallest_changes_follow_from_printed_errors() {
    for (id, formula, sem, level) in [
        ("mdc.pub.1", "mdc.pub.1.formula", 2.17, Level::USUAL),
        ("mdc.pub.2", "mdc.pub.2.formula", 1.35, Level::USUAL),
        ("mdc.pub.3", "mdc.pub.3.formula", 6.49, Level::USUAL),
        ("mdc.pub.4", "mdc.pub.4.formula", 7.3, Level::NINETY),
        ("mdc.pub.5", "mdc.pub.5.formula", 13.1, Level::NINETY),
        ("mdc.pub.6", "mdc.pub.6.formula", 0.41, Level::USUAL),
        ("mdc.pub.7", "mdc.pub.7.formula", 6.12, Level::USUAL),
        ("mdc.pub.8", "mdc.pub.8.formula", 4.11, Level::USUAL),
        ("mdc.pub.9", "mdc.pub.9.formula", 6.28, Level::USUAL),
        ("mdc.pub.10", "mdc.pub.10.formula", 10.7, Level::USUAL),
        ("mdc.pub.11", "mdc.pub.11.formula", 16.45, Level::USUAL),
        ("mdc.pub.12", "mdc.pub.12.formula", 2.22, Level::USUAL),
        ("mdc.pub.13", "mdc.pub.13.formula", 3.81, Level::USUAL),
    ] {
        let computed = detectable_change(sem, level);
        check(id, &[computed]);
        check(formula, &[computed]);
    }
    let printed = [7.3, 9.4, 6.9];
    let sems = printed.map(sem_from_printed_ninety_five);
    check("mdc.trap.sem95.sem", &sems);
    let changes = sems.map(|sem| detectable_change(sem, Level::USUAL));
    check("mdc.trap.sem95.mdc95", &changes);
    check("mdc.trap.sem95.printed", &changes);
}

#[test]
fn agreement_of_ratings_beyond_chance() {
    let counts = vec![vec![40.0, 6.0, 1.0], vec![5.0, 20.0, 4.0], vec![0.0, 3.0, 11.0]];
    check("kappa.weighted.agreement", &[(40.0 + 20.0 + 11.0) / 90.0]);
    check("kappa.weighted.kappa", &[kappa(&counts, Weights::Plain).expect("a square table")]);
    check("kappa.weighted.linear", &[kappa(&counts, Weights::Linear).expect("a square table")]);
    check("kappa.weighted.quadratic", &[kappa(&counts, Weights::Quadratic).expect("a square table")]);
}
