//! What the functions promise, held against seeded draws: false alarms, detection, coverage, and the bias of taking
//! what nobody saw for something that was seen.
//!
//! Short runs belong to every check; `CUFFWRIGHT_LONG=1` (set by `./check --long`) makes them twenty times as long, and
//! the tolerance, which is four standard errors of a share, as much narrower.

use stats::censored::{Family, Known, Row, Sample, fit};
use stats::chart::run_length;
use stats::chart::self_start::{Rules, line};
use stats::level::Level;
use stats::reliability::Trial;
use stats::reliability::change::{Change, Origin, Verdict};
use stats::reliability::icc::{self, Form};
use stats::set_time::calibration::{Told, record};
use stats::set_time::next::{Coming, Own, session};
use stats::set_time::watch::Running;
use stats::survival::{Curve, Limits, Timed};

use crate::references::wanted;

/// Draws that are the same on every machine: a linear congruence, its upper bits, and Box & Muller.
struct Draws(u64);

impl Draws {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let mixed = (self.0 ^ (self.0 >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        ((mixed >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * self.uniform().ln()).sqrt() * (std::f64::consts::TAU * self.uniform()).cos()
    }

    fn normals(&mut self, count: usize) -> Vec<f64> {
        (0..count).map(|_| self.normal()).collect()
    }
}

fn runs(short: usize) -> usize {
    if std::env::var_os("CUFFWRIGHT_LONG").is_some() { short * 20 } else { short }
}

/// Four standard errors of a simulated share, and what the reference itself may be off.
fn allowed(share: f64, runs: usize, reference: f64) -> f64 {
    4.0 * (share * (1.0 - share) / runs as f64).sqrt() + reference
}

#[track_caller]
fn near(what: &str, simulated: f64, promised: f64, runs: usize, reference: f64) {
    let allowed = allowed(promised, runs, reference);
    assert!(
        (simulated - promised).abs() <= allowed,
        "{what}: {simulated}, promised {promised} within {allowed}"
    );
}

fn share(runs: usize, mut comes: impl FnMut() -> bool) -> f64 {
    (0..runs).filter(|_| comes()).count() as f64 / runs as f64
}

/// Whether the chart speaks after reading `from`.
fn speaks_after(values: &[f64], from: usize) -> bool {
    let chart = line(values, Rules::plain(0.5, 5.0)).expect("numbers");
    chart.points.iter().any(|point| from < point.n && point.signal.is_some())
}

#[test]
fn the_promised_false_alarm_rate_is_kept() {
    let runs = runs(4000);
    let mut draws = Draws(52);
    let known = wanted("chart.baseline.sim.known")[0];
    let computed = run_length::false_alarm_chance(0.5, 5.0, 52).expect("a chart");
    assert!((computed - known).abs() < 0.003, "{computed} beside {known}");
    let simulated = share(runs, || speaks_after(&draws.normals(54), 2));
    near("a self-starting chart over 52 readings", simulated, computed, runs, 0.002);
    // After some quiet readings the sums no longer start from zero, so alarms come a little sooner.
    let after = wanted("chart.baseline.sim.self_starting_after_burn");
    for (burn, promised) in [5, 10, 20].into_iter().zip(after) {
        let simulated = share(runs, || speaks_after(&draws.normals(burn + 52), burn));
        near(&format!("after {burn}"), simulated, promised, runs, 0.006);
    }
}

// The rules for a swimmer's line cut single readings and wait for eight: that can only make them quieter.
#[test]
fn a_swimmers_line_speaks_no_oftener_than_said() {
    let runs = runs(4000);
    let mut draws = Draws(370);
    let rules = Rules::swimmer();
    let promised = run_length::false_alarm_chance(rules.k, rules.h, 38).expect("a chart");
    let simulated = share(runs, || line(&draws.normals(40), rules).expect("numbers").first.is_some());
    assert!(simulated <= promised + allowed(promised, runs, 0.002), "{simulated} beside {promised}");
}

#[test]
fn a_plugged_in_baseline_breaks_its_promise() {
    let runs = runs(3000);
    let mut draws = Draws(1987);
    let all = wanted("chart.baseline.sim.mean_sd_baseline");
    for (count, promised) in [5, 8, 10, 15, 20, 30, 50].into_iter().zip(all) {
        let simulated = share(runs, || {
            let first = stats::chart::baseline::of(&draws.normals(count)).expect("numbers");
            let rest = draws.normals(52);
            let chart = stats::chart::known::cumulative(&rest, first.mean, 0.5 * first.sd, 5.0 * first.sd);
            chart.expect("numbers").first.is_some()
        });
        near(&format!("a baseline of {count}"), simulated, promised, runs, 0.006);
    }
}

#[test]
fn a_shift_is_seen_as_often_as_said() {
    let runs = runs(3000);
    let mut draws = Draws(8);
    let mut all = wanted("chart.detect.sim.self_starting").into_iter();
    for shift in [1.0, 1.5, 2.0] {
        for before in [5, 10, 20] {
            let promised = all.next().expect("nine cases");
            let mut quiet = 0;
            let simulated = share(runs, || {
                let mut values = draws.normals(before + 8);
                values[before..].iter_mut().for_each(|value| *value += shift);
                quiet += 1;
                speaks_after(&values, before)
            });
            assert_eq!(quiet, runs);
            near(&format!("a shift of {shift} after {before}"), simulated, promised, runs, 0.01);
        }
    }
}

#[test]
fn nobody_who_stayed_the_same_is_called_changed_oftener_than_one_in_twenty() {
    let runs = runs(20_000);
    let mut draws = Draws(5);
    let called = share(runs, || {
        let (before, after) = (50.0 + 3.0 * draws.normal(), 50.0 + 3.0 * draws.normal());
        let change = Change::between(before, after, 3.0, Origin::OwnTrial, Level::USUAL).expect("numbers");
        change.verdict != Verdict::CannotTell
    });
    near("called changed", called, 0.05, runs, 0.0);
}

#[test]
fn intervals_of_reliability_hold_the_truth() {
    let runs = runs(1000);
    let mut draws = Draws(1979);
    // People spread by 2, raters by 0.5, the rest by 1: consistency 0.8, agreement 4 / 5.25.
    let (mut consistent, mut agreeing) = (0, 0);
    for _ in 0..runs {
        let raters: Vec<f64> = (0..4).map(|_| 0.5 * draws.normal()).collect();
        let rows = (0..20)
            .map(|_| {
                let own = 2.0 * draws.normal();
                raters.iter().map(|shift| own + shift + draws.normal()).collect()
            })
            .collect();
        let all = icc::all(&Trial::new(rows).expect("a table"), Level::USUAL).expect("it spreads");
        let of = |form| all.iter().find(|icc| icc.form == form).expect("all six").interval;
        consistent += usize::from(of(Form::Consistency).holds(0.8));
        agreeing += usize::from(of(Form::Agreement).holds(4.0 / 5.25));
    }
    near("consistency", consistent as f64 / runs as f64, 0.95, runs, 0.0);
    // Satterthwaite's degrees of freedom are an approximation.
    near("agreement", agreeing as f64 / runs as f64, 0.95, runs, 0.02);
}

#[test]
fn limits_of_a_curve_hold_the_truth() {
    let runs = runs(3000);
    let mut draws = Draws(1958);
    let held = share(runs, || {
        let times: Vec<Timed> = (0..30)
            .map(|_| (4.2 + 0.4 * draws.normal()).exp())
            .map(|time| Timed { time: time.min(90.0), event: time < 90.0 })
            .collect();
        let curve = Curve::of(&times, Limits::LogLog, Level::USUAL).expect("times");
        // Half are beyond exp(4.2) = 66.7 s.
        let step = curve.steps.iter().take_while(|step| step.time <= 4.2_f64.exp()).last();
        step.and_then(|step| step.interval).is_some_and(|interval| interval.holds(0.5))
    });
    near("limits of the curve", held, 0.95, runs, 0.015);
}

/// A squad's sets: 24 swimmers, six sets each, cap 90 s, of which a share is watched.
fn squad(draws: &mut Draws, watched: f64, mut keep: impl FnMut(f64, bool) -> Option<(f64, Known)>) -> Sample {
    let mut rows = Vec::new();
    for swimmer in 0..24 {
        let own = 0.4 * draws.normal();
        for set in 0..6 {
            let set = f64::from(set % 3);
            let time = (4.4 + own - 0.1 * set + 0.3 * draws.normal()).exp();
            let seen = draws.uniform() < watched;
            if let Some((time, known)) = keep(time, seen) {
                rows.push(Row { time, known, covariates: vec![set], group: swimmer });
            }
        }
    }
    Sample::new(rows, Family::LogNormal).expect("numbers")
}

fn as_seen(time: f64) -> (f64, Known) {
    if 90.0 <= time { (90.0, Known::AtLeast) } else { (time, Known::Exactly) }
}

#[test]
fn intervals_of_capped_models_hold_the_truth() {
    let runs = runs(120);
    let mut draws = Draws(90);
    let (mut slope, mut within) = (0, 0);
    for _ in 0..runs {
        let sample = squad(&mut draws, 1.0, |time, _| Some(as_seen(time)));
        let fit = fit(&sample, Family::LogNormal, true).expect("a likeliest model");
        slope += usize::from((fit.coefficients[1] + 0.1).abs() <= Level::USUAL.z() * fit.se(1));
        let se = fit.log_scale_se().expect("a scale");
        within += usize::from((fit.log_scale - 0.3_f64.ln()).abs() <= Level::USUAL.z() * se);
    }
    near("slope by set", slope as f64 / runs as f64, 0.95, runs, 0.01);
    near("spread within", within as f64 / runs as f64, 0.95, runs, 0.02);
}

// The chance that is said of the next sets, with all that is not known carried along, comes true as often as said; and
// so does the chance of form loss within ten seconds, given what was held.
#[test]
fn what_is_said_of_the_next_sets_comes_true_as_often_as_said() {
    let runs = runs(40);
    let mut draws = Draws(70);
    let (mut told, mut watched) = (Vec::new(), Vec::new());
    for _ in 0..runs {
        // The squad's past, and for each swimmer the session that comes, from the same values of their own.
        let (mut rows, mut owns) = (Vec::new(), Vec::new());
        for swimmer in 0..24 {
            let own = 0.4 * draws.normal();
            owns.push(own);
            for set in 0..6 {
                let set = f64::from(set % 3);
                let (time, known) = as_seen((4.4 + own - 0.1 * set + 0.3 * draws.normal()).exp());
                rows.push(Row { time, known, covariates: vec![set], group: swimmer });
            }
        }
        let sample = Sample::new(rows, Family::LogNormal).expect("numbers");
        let fit = fit(&sample, Family::LogNormal, true).expect("a likeliest model");
        let values = &fit.between.as_ref().expect("a spread").values;
        for value in values {
            let own = Own { mean: value.mean, sd: value.sd };
            let coming: Vec<Coming> =
                (0..3).map(|set| Coming { covariates: vec![f64::from(set)], cap: 90.0 }).collect();
            let said = session(&fit, own, &coming, Level::USUAL).expect("numbers");
            let truth = owns[value.group as usize];
            let times: Vec<f64> =
                (0..3).map(|set| (4.4 + truth - 0.1 * f64::from(set) + 0.3 * draws.normal()).exp()).collect();
            told.push(Told { chance: said.chance_all, came: times.iter().all(|time| 90.0 <= *time) });
            let held = 40.0;
            if held < times[0] {
                let running =
                    Running { middle: fit.mean(&[0.0]) + own.mean, doubt: own.sd, scale: fit.scale(), held };
                let chance = running.loss_within(10.0).expect("numbers");
                watched.push(Told { chance, came: times[0] < held + 10.0 });
            }
        }
    }
    for (what, told) in [("all sets", told), ("ten seconds", watched)] {
        let record = record(&told, 10, Level::USUAL).expect("predictions");
        // Swimmers of one squad share its coefficients, so predictions go together a little.
        near(what, record.came, record.said, told.len() / 2, 0.01);
        assert!(record.brier < record.brier_of_mean, "{what}: {record:?}");
        for class in record.classes.iter().filter(|class| 50 <= class.came.n) {
            let allowed = allowed(class.said, class.came.n as usize, 0.03);
            assert!((class.came.share - class.said).abs() <= allowed, "{what}: {class:?}");
        }
    }
}

// Where nobody looked, a set that ran to the cap is written down as "cap, unseen", whatever the swimmer did. Left
// unknown, it does no harm. Taken for a cap that was reached, it makes the squad stronger than it is.
#[test]
fn taking_unseen_caps_for_caps_makes_the_squad_too_strong() {
    let runs = runs(60);
    let mut draws = Draws(2026);
    let (mut unknown, mut taken) = (0.0, 0.0);
    let mut errors = 0.0;
    for _ in 0..runs {
        let seed = draws.uniform().to_bits();
        let middle = |keep: &dyn Fn(f64, bool) -> Option<(f64, Known)>| {
            let sample = squad(&mut Draws(seed), 0.6, keep);
            let fit = fit(&sample, Family::LogNormal, true).expect("a likeliest model");
            (fit.coefficients[0] - 4.4, fit.se(0))
        };
        let (off, se) = middle(&|time, seen| seen.then(|| as_seen(time)));
        unknown += off / runs as f64;
        errors += se / runs as f64;
        let (off, _) = middle(&|time, seen| Some(if seen { as_seen(time) } else { (90.0, Known::AtLeast) }));
        taken += off / runs as f64;
    }
    let error = errors / (runs as f64).sqrt();
    assert!(unknown.abs() < 4.0 * error + 0.01, "left unknown: off by {unknown}, error {error}");
    // A median of 81 s would be told as over 100 s.
    assert!(0.2 < taken, "taken for caps: off by {taken}");
}
