//! How long a club's set times take to fit. Run by hand: `cargo bench -p stats`.
//!
//! The aims: 20,000 set times of 300 swimmers in under 2 s on one core; 60 swimmers on deck answered in under 1 ms.

use divan::{Bencher, black_box};
use stats::censored::{Family, Known, Row, Sample, fit};
use stats::set_time::watch::Running;

fn main() {
    divan::main();
}

/// A made-up club: every swimmer with two exercises and two sides, every fourth line far above the cap.
fn club() -> Sample {
    let mut state = 7_u64;
    let mut uniform = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    };
    let mut normal = move || (-2.0 * uniform().ln()).sqrt() * (std::f64::consts::TAU * uniform()).cos();
    let mut rows = Vec::new();
    for line in 0..1200_u32 {
        let own = 0.45 * normal() + if line % 4 == 0 { 0.9 } else { 0.0 };
        let count = if line % 3 == 0 { 18 } else { 16 };
        for row in 0..count {
            let (set, load, rest) = (f64::from(row % 3), 0.25 + 0.1 * normal(), 30.0 + 10.0 * normal());
            let log = 4.6 + own - 0.12 * set - 0.8 * (load - 0.25) + 0.004 * (rest - 30.0) + 0.3 * normal();
            let (time, known) =
                if 120.0 < log.exp() { (120.0, Known::AtLeast) } else { (log.exp(), Known::Exactly) };
            rows.push(Row { time, known, covariates: vec![set, load, rest], group: line });
        }
    }
    rows.truncate(20_000);
    Sample::new(rows, Family::LogNormal).expect("the rows are numbers")
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn twenty_thousand_set_times(bencher: Bencher) {
    let sample = club();
    bencher.bench_local(|| fit(black_box(&sample), Family::LogNormal, true).expect("the club can be fitted"));
}

#[divan::bench]
fn sixty_swimmers_on_deck(bencher: Bencher) {
    let deck: Vec<Running> = (0..60)
        .map(|place| Running {
            middle: 4.2 + 0.02 * f64::from(place),
            doubt: 0.2,
            scale: 0.3,
            held: f64::from(place),
        })
        .collect();
    bencher.bench_local(|| {
        black_box(&deck).iter().map(|swimmer| swimmer.loss_within(10.0).expect("numbers")).sum::<f64>()
    });
}
