//! Charts: Montgomery's example, Hawkins' self-starting sums, and run lengths after Lucas & Crosier and Lucas & Saccucci.

use stats::chart::Sums;
use stats::chart::baseline;
use stats::chart::known::{cumulative, weighted};
use stats::chart::run_length;
use stats::chart::self_start::{Rules, line};

use crate::references::{check, number, table};

const SHIFTS: [f64; 10] = [0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0];

fn readings() -> Vec<f64> {
    table("montgomery-cusum", "readings.csv").iter().map(|row| number(row, "value")).collect()
}

#[test]
fn thirty_readings_with_known_parameters() {
    let chart = cumulative(&readings(), 10.0, 0.5, 5.0).expect("numbers");
    let of = |f: fn(&Sums) -> f64| -> Vec<f64> { chart.sums.iter().map(f).collect() };
    check("cusum.montgomery.cplus", &of(|sums| sums.plus));
    check("cusum.montgomery.nplus", &of(|sums| sums.n_plus as f64));
    check("cusum.montgomery.cminus", &of(|sums| sums.minus));
    check("cusum.montgomery.nminus", &of(|sums| sums.n_minus as f64));
    let (at, _, since) = chart.first.expect("it speaks");
    check("cusum.montgomery.first_signal", &[at as f64]);
    check("cusum.montgomery.last_zero_period", &[since as f64]);
    check("cusum.montgomery.new_mean_estimate", &[chart.new_level.expect("it speaks")]);
}

#[test]
fn thirty_readings_as_a_weighted_mean() {
    let chart = weighted(&readings(), 10.0, 1.0, 0.1, 2.7).expect("numbers");
    check("ewma.montgomery.z", &chart.means);
    check("ewma.montgomery.lcl", &chart.low);
    check("ewma.montgomery.ucl", &chart.high);
    check("ewma.montgomery.first_signal", &[chart.first.expect("it speaks") as f64]);
    let many = weighted(&[10.0; 400], 10.0, 1.0, 0.1, 2.7).expect("numbers");
    assert!((many.low[399] - 9.3806).abs() < 1e-4);
    check("ewma.montgomery.steady_limits", &[many.low[399], many.high[399]]);
}

#[test]
fn thirty_readings_without_knowing_anything() {
    let chart = line(&readings(), Rules::plain(0.5, 5.0)).expect("numbers");
    let from_third = || chart.points.iter().skip(2);
    check("cusum.selfstart.t", &from_third().map(|point| point.t.expect("they spread")).collect::<Vec<_>>());
    check("cusum.selfstart.u", &from_third().map(|point| point.u.expect("they spread")).collect::<Vec<_>>());
    check("cusum.selfstart.cplus", &from_third().map(|point| point.sums.plus).collect::<Vec<_>>());
    check("cusum.selfstart.cminus", &from_third().map(|point| point.sums.minus).collect::<Vec<_>>());
    assert_eq!(chart.first, None, "the shift leaks into the running mean while history is short");
}

#[test]
fn baselines_of_the_first_twenty() {
    let found = baseline::of(&readings()[..20]).expect("twenty readings");
    check("robust.baseline.mean", &[found.mean]);
    check("robust.baseline.sd", &[found.sd]);
    check("robust.baseline.mr_bar", &[found.moving_range]);
    check("robust.baseline.sigma_mr", &[found.sigma_moving_range]);
    check("robust.baseline.median", &[found.median]);
    check("robust.baseline.mad", &[found.mad]);
    check("robust.baseline.sigma_mad", &[found.sigma_mad]);
}

#[test]
fn run_lengths_of_cumulative_sums() {
    let two_sided = |h: f64, start: f64| {
        SHIFTS.map(|shift| run_length::two_sided(0.5, h, shift, start).expect("a chart"))
    };
    check("cusum.arl.table.h4", &two_sided(4.0, 0.0));
    check("cusum.arl.table.h5", &two_sided(5.0, 0.0));
    check("cusum.arl.table.published_h4", &two_sided(4.0, 0.0));
    check("cusum.arl.table.published_h5", &two_sided(5.0, 0.0));
    check("cusum.arl.fir.h4_published", &two_sided(4.0, 2.0));
    check("cusum.arl.fir.h5", &two_sided(5.0, 2.5));
    let one = [
        (0.5, 3.0, 0.0),
        (0.5, 3.0, 1.5),
        (0.5, 3.0, -0.5),
        (0.5, 3.0, 0.5),
        (0.0, 10.0, 0.25),
        (0.25, 8.0, 2.5),
    ]
    .map(|(k, h, shift)| run_length::one_sided(k, h, shift, 0.0).expect("a chart"));
    check("cusum.arl.one.arl", &one);
    check("cusum.arl.one.published", &one);
    let limits =
        [50.0, 100.0, 200.0, 370.4, 500.0].map(|length| run_length::limit_for(0.5, length).expect("a limit"));
    check("cusum.h.for.arl0", &limits);
}

#[test]
fn run_lengths_of_weighted_means_and_single_readings() {
    for (id, weight, width) in [
        ("ewma.arl.table.0.4", 0.4, 3.054),
        ("ewma.arl.table.0.25", 0.25, 2.998),
        ("ewma.arl.table.0.2", 0.2, 2.962),
        ("ewma.arl.table.0.1", 0.1, 2.814),
        ("ewma.arl.table.0.05", 0.05, 2.615),
    ] {
        check(id, &SHIFTS.map(|shift| run_length::weighted(weight, width, shift).expect("a chart")));
    }
    let shifts = [0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0];
    let of = |weight, width| shifts.map(|shift| run_length::weighted(weight, width, shift).expect("a chart"));
    check("ewma.arl.ls.lam05_l3071", &of(0.5, 3.071));
    check("ewma.arl.ls.lam003_l2437", &of(0.03, 2.437));
    let mut widths = Vec::new();
    for length in [100.0, 200.0, 370.4, 500.0] {
        for weight in [0.05, 0.1, 0.2, 0.3, 0.4] {
            widths.push(run_length::width_for(weight, length).expect("a width"));
        }
    }
    check("ewma.l.for.arl0.l", &widths);
    check("shewhart.arl.arl", &[0.0, 0.5, 1.0, 2.0, 3.0].map(|shift| run_length::single(3.0, shift)));
}
