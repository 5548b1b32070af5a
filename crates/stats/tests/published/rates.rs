//! Counts, ratios and shares: Garwood 1936, Newcombe 1998, and cohorts of swimmers.

use stats::chart::squad::FalseAlarms;
use stats::level::{Interval, Level};
use stats::rates::count::{Rate, burden, byar, exact, mid_p};
use stats::rates::ratio::RateRatio;
use stats::rates::share::Share;

use crate::references::{check, check_optional};

fn sides(intervals: impl Iterator<Item = Interval>) -> (Vec<f64>, Vec<f64>) {
    intervals.map(|interval| (interval.low, interval.high)).unzip()
}

#[test]
fn limits_of_a_count() {
    let counts = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 50, 100];
    let (low, high) = sides(counts.into_iter().map(|count| exact(count, Level::USUAL)));
    check("rate.garwood95.lower", &low);
    check("rate.garwood95.upper", &high);
    let (low, high) = sides([0, 1, 3, 5, 10, 20].into_iter().map(|count| mid_p(count, Level::USUAL)));
    check("rate.midp95.lower", &low);
    check("rate.midp95.upper", &high);
    let (low, high) = sides([1, 5, 10, 30].into_iter().map(|count| byar(count, Level::USUAL)));
    check("rate.byar95.lower", &low);
    check("rate.byar95.upper", &high);
}

#[test]
fn a_cohort_of_college_swimmers() {
    let rate = |exposure| Rate::new(31, exposure, 1000.0, Level::USUAL).expect("an exposure").interval;
    let (exposures, hours) = (rate(31.0 / 5.55 * 1000.0), rate(31.0 / 3.04 * 1000.0));
    check("rate.chase.ci_ae", &[exposures.low, exposures.high]);
    check("rate.chase.ci_h", &[hours.low, hours.high]);
}

#[test]
fn days_lost() {
    let days = [0.0, 3.0, 9.0, 14.0, 2.0, 31.0];
    let rate = Rate::new(6, 4200.0, 1000.0, Level::USUAL).expect("an exposure").rate;
    let burden = burden(&days, 4200.0, 1000.0).expect("days");
    check("ioc.burden.incidence", &[rate]);
    check("ioc.burden.mean_severity", &[burden / rate]);
    check("ioc.burden.burden", &[burden]);
}

fn ratio_of(first: (u64, f64), second: (u64, f64)) -> RateRatio {
    RateRatio::new(first, second, Level::USUAL).expect("exposures")
}

fn ends(interval: Interval) -> [Option<f64>; 2] {
    [Some(interval.low), interval.high.is_finite().then_some(interval.high)]
}

#[test]
fn two_rates_against_each_other() {
    let found = ratio_of((41, 28_010.0), (15, 19_017.0));
    check_optional("ratio.rothman.ratio", &[found.ratio]);
    check_optional("ratio.rothman.exact", &ends(found.exact));
    check_optional("ratio.rothman.midp", &ends(found.mid_p));
    check_optional("ratio.rothman.wald", &ends(found.wald.expect("no zero")));
    check("ratio.rothman.p_two_sided_minlike", &[found.p]);
    let found = ratio_of((12, 1480.0), (5, 1520.0));
    check_optional("ratio.exact.1.ratio", &[found.ratio]);
    check_optional("ratio.exact.1.exact", &ends(found.exact));
    check_optional("ratio.exact.1.midp", &ends(found.mid_p));
    check("ratio.exact.1.p_two_sided_minlike", &[found.p]);
    let found = ratio_of((3, 900.0), (0, 850.0));
    check_optional("ratio.exact.2.ratio", &[found.ratio.filter(|ratio| ratio.is_finite())]);
    check_optional("ratio.exact.2.exact", &ends(found.exact));
    check_optional("ratio.exact.2.midp", &ends(found.mid_p));
    check("ratio.exact.2.p_two_sided_minlike", &[found.p]);
}

#[test]
fn limits_of_a_share() {
    let cases = [(81, 263), (15, 148), (0, 20), (1, 29), (28, 74), (17, 74), (73, 80), (10, 10)];
    let shares = cases.map(|(k, n)| Share::new(k, n, Level::USUAL).expect("people"));
    let all = |of: fn(&Share) -> Interval| -> Vec<f64> {
        shares.iter().map(of).flat_map(|interval| [interval.low, interval.high]).collect()
    };
    check("prop.wilson.wilson", &all(|share| share.wilson));
    check("prop.wilson.wilson_cc", &all(|share| share.corrected));
    check("prop.wilson.clopper_pearson", &all(|share| share.exact));
    let cohorts = [(28, 74), (17, 74), (42, 201), (6, 13), (11, 37)];
    let limits: Vec<f64> = cohorts
        .iter()
        .map(|&(k, n)| Share::new(k, n, Level::USUAL).expect("people").wilson)
        .flat_map(|interval| [interval.low, interval.high])
        .collect();
    check("borderline.screen.wilson.wilson", &limits);
}

// Twenty-five swimmers with four charts each, for limits that give these run lengths.
#[test]
fn alarms_of_a_squad_in_a_week() {
    let per_week = [50.0, 100.0, 200.0, 370.4, 465.44, 1000.0].map(|length| {
        let h = stats::chart::run_length::limit_for(0.5, length).expect("a limit");
        FalseAlarms::of(100, 52, 0.5, h).expect("a chart").per_round
    });
    check("chart.budget.per_week", &per_week);
}
