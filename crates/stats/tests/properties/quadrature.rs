//! The integral over a group's own value, held against brute force: a fit on small capped samples and the likelihood by
//! a very fine sum round its end.

use proptest::prelude::*;
use stats::censored::{Family, Known, Row, Sample, fit};
use stats::numeric::normal;

/// Log-likelihood by a sum over 40,000 even steps for each group: slow, and simple enough to be believed.
fn brute(rows: &[Row], b: &[f64], within: f64, between: f64) -> f64 {
    let mut groups: Vec<u32> = rows.iter().map(|row| row.group).collect();
    groups.sort_unstable();
    groups.dedup();
    let mut total = 0.0;
    for group in groups {
        const STEPS: i32 = 20_000;
        let step = 9.0 * between / f64::from(STEPS);
        let mut sum = 0.0;
        for place in -STEPS..=STEPS {
            let u = f64::from(place) * step;
            let mut log = normal::log_density(u / between) - between.ln();
            for row in rows.iter().filter(|row| row.group == group) {
                let mean = b[0] + row.covariates.iter().zip(&b[1..]).map(|(x, b)| x * b).sum::<f64>() + u;
                let w = (row.time.ln() - mean) / within;
                log += match row.known {
                    Known::Exactly => normal::log_density(w) - within.ln() - row.time.ln(),
                    _ => normal::log_above_and_hazard(w).0,
                };
            }
            sum += log.exp() * step;
        }
        total += sum.ln();
    }
    total
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn the_likelihood_is_that_of_brute_force_and_its_end_is_a_top(
        owns in prop::collection::vec(-0.8..0.9_f64, 6..9),
        noise in prop::collection::vec(-1.0..1.0_f64, 36),
        within in 0.03..0.4_f64,
    ) {
        let mut rows = Vec::new();
        for (group, own) in owns.iter().enumerate() {
            for set in 0..4 {
                let x = f64::from(set as u32 % 2);
                let time = (4.2 + own + 0.2 * x + within * noise[(group * 4 + set) % 36]).exp();
                let known = if 90.0 < time { Known::AtLeast } else { Known::Exactly };
                rows.push(Row { time: time.min(90.0), known, covariates: vec![x], group: group as u32 });
            }
        }
        let Ok(fit) = fit(&Sample::new(rows.clone(), Family::LogNormal).expect("numbers"), Family::LogNormal, true) else {
            return Ok(());
        };
        let Some(between) = fit.between.as_ref().filter(|between| !between.on_boundary) else { return Ok(()) };
        let at = |b0: f64, b1: f64, w: f64, v: f64| brute(&rows, &[fit.coefficients[0] + b0, fit.coefficients[1] + b1], fit.scale() * w, between.sd * v);
        let top = at(0.0, 0.0, 1.0, 1.0);
        prop_assert!((top - fit.log_likelihood).abs() < 1e-6, "{top} {}", fit.log_likelihood);
        let h = 0.02;
        for moved in [at(h, 0.0, 1.0, 1.0), at(-h, 0.0, 1.0, 1.0), at(0.0, h, 1.0, 1.0), at(0.0, -h, 1.0, 1.0),
            at(0.0, 0.0, 1.05, 1.0), at(0.0, 0.0, 0.95, 1.0), at(0.0, 0.0, 1.0, 1.05), at(0.0, 0.0, 1.0, 0.95)] {
            prop_assert!(moved < top, "{moved} {top}");
        }
    }
}
