//! Kaplan-Meier curves and the log-rank comparison: Freireich 1963, Gehan 1965.

use stats::level::{Interval, Level};
use stats::survival::{Curve, Limits, Timed, log_rank};

use crate::references::{check, check_optional, number, table};

pub(crate) fn arm(name: &str) -> Vec<Timed> {
    table("freireich-1963", "remission.csv")
        .iter()
        .filter(|row| row["arm"] == name)
        .map(|row| Timed { time: number(row, "weeks"), event: number(row, "event") == 1.0 })
        .collect()
}

fn of(curve: &Curve, f: impl Fn(&stats::survival::Step) -> f64) -> Vec<f64> {
    curve.steps.iter().map(f).collect()
}

fn limits(limits: Limits) -> Vec<f64> {
    let curve = Curve::of(&arm("6-MP"), limits, Level::USUAL).expect("times");
    let ends = |interval: Interval| [interval.low, interval.high];
    curve.steps.iter().flat_map(|step| ends(step.interval.expect("the curve stays above 0"))).collect()
}

#[test]
fn the_treated_arm() {
    let curve = Curve::of(&arm("6-MP"), Limits::Log, Level::USUAL).expect("times");
    check("km.6mp.time", &of(&curve, |step| step.time));
    check("km.6mp.n_risk", &of(&curve, |step| step.at_risk as f64));
    check("km.6mp.d", &of(&curve, |step| step.events as f64));
    check("km.6mp.s", &of(&curve, |step| step.share));
    check("km.6mp.se_greenwood", &of(&curve, |step| step.se));
    check("km.6mp.ci_plain", &limits(Limits::Plain));
    check("km.6mp.ci_log", &limits(Limits::Log));
    check("km.6mp.ci_loglog", &limits(Limits::LogLog));
    check_optional("km.6mp.median", &[curve.median()]);
    let (low, high) = curve.median_interval();
    check_optional("km.6mp.median_ci_log", &[low, high]);
    let (mean, se) = curve.mean_until(35.0).expect("35 weeks were seen");
    check("km.6mp.rmst_35", &[mean]);
    check("km.6mp.rmst_35_se", &[se]);
}

#[test]
fn the_untreated_arm() {
    let curve = Curve::of(&arm("control"), Limits::Log, Level::USUAL).expect("times");
    check("km.control.time", &of(&curve, |step| step.time));
    check("km.control.n_risk", &of(&curve, |step| step.at_risk as f64));
    check("km.control.d", &of(&curve, |step| step.events as f64));
    check("km.control.s", &of(&curve, |step| step.share));
    check_optional("km.control.median", &[curve.median()]);
    let (low, high) = curve.median_interval();
    check_optional("km.control.median_ci_log", &[low, high]);
    check("km.control.mean", &[curve.mean_until(23.0).expect("all ended by then").0]);
}

#[test]
fn both_arms_compared() {
    let found = log_rank(&[arm("6-MP"), arm("control")]).expect("two arms");
    check("logrank.gehan.obs", &found.observed);
    check("logrank.gehan.exp", &found.expected);
    check("logrank.gehan.chi2", &[found.chi_square]);
    check("logrank.gehan.p", &[found.p]);
}
