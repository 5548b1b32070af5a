//! The normal distribution, with tails that keep their digits: a swimmer far below the cap is a number, not a zero.

use libm::erfc;

const LN_ROOT_TWO_PI: f64 = 0.918_938_533_204_672_8;

/// Density of the standard normal.
pub fn density(x: f64) -> f64 {
    log_density(x).exp()
}

/// Natural logarithm of the density.
pub fn log_density(x: f64) -> f64 {
    -0.5 * x * x - LN_ROOT_TWO_PI
}

/// Probability of a value below `x`.
pub fn below(x: f64) -> f64 {
    0.5 * erfc(-x * std::f64::consts::FRAC_1_SQRT_2)
}

/// Probability of a value above `x`.
pub fn above(x: f64) -> f64 {
    below(-x)
}

/// Logarithm of the probability above `x` and the hazard there (density over that probability); exact far out on
/// either side.
pub fn log_above_and_hazard(x: f64) -> (f64, f64) {
    if x < -8.5 {
        let tail = above(-x);
        return (-tail, density(x));
    }
    if x < 5.0 {
        let above = above(x);
        return (if x < 0.0 { (-below(x)).ln_1p() } else { above.ln() }, density(x) / above);
    }
    // Laplace's continued fraction for the ratio of tail to density, from the back.
    let mut fraction = 0.0;
    for step in (1..=60).rev() {
        fraction = f64::from(step) / (x + fraction);
    }
    let hazard = x + fraction;
    (log_density(x) - hazard.ln(), hazard)
}

/// The value below which a share `p` lies; infinite at 0 and 1. Keeps its digits for shares near 0; for shares near 1
/// ask for the mirror image.
pub fn quantile(p: f64) -> f64 {
    if p.is_nan() || p <= 0.0 {
        return f64::NEG_INFINITY;
    }
    if 1.0 <= p {
        return f64::INFINITY;
    }
    if p == 0.5 {
        return 0.0;
    }
    if 0.5 < p {
        return -quantile(1.0 - p);
    }
    // A rough start, then Halley steps on the logarithm of the tail, which is nearly a parabola.
    let root = (-2.0 * p.ln()).sqrt();
    let mut x = -(root - (2.307_53 + 0.270_61 * root) / (1.0 + root * (0.992_29 + 0.044_81 * root)));
    for _ in 0..6 {
        let (log_tail, hazard) = log_above_and_hazard(-x);
        let off = log_tail - p.ln();
        // d/dx of the log tail is the hazard h; its derivative is -h (h + x).
        let step = off / hazard;
        let x_new = x - step / (1.0 + 0.5 * step * (hazard + x)).max(0.5);
        if (x_new - x).abs() <= 1e-16 * x.abs() {
            return x_new;
        }
        x = x_new;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    // Values of the tail at 5, 10 and 30 to sixteen digits: Abramowitz & Stegun, table 26.2, and its asymptotic series.
    #[test]
    fn tails_keep_their_digits() {
        for (x, log) in
            [(1.0, -1.841_021_645_009_264), (5.0, -15.064_998_393_988_726), (10.0, -53.231_285_150_512_47)]
        {
            let (computed, _) = log_above_and_hazard(x);
            assert!((computed - log).abs() < 1e-10 * log.abs(), "{x}: {computed}");
        }
        let (below, above) = (log_above_and_hazard(4.999_999), log_above_and_hazard(5.000_001));
        assert!((below.0 - above.0).abs() < 2e-5 && (below.1 - above.1).abs() < 1e-5);
        assert!(log_above_and_hazard(40.0).0.is_finite() && log_above_and_hazard(-40.0).0 <= 0.0);
        assert!((quantile(0.025) + 1.959_963_984_540_054).abs() < 1e-15 * 4.0, "{}", quantile(0.025));
        assert!((quantile(0.75) - 0.674_489_750_196_081_7).abs() < 1e-15 * 4.0, "{}", quantile(0.75));
    }

    #[test]
    fn quantiles_undo_tails() {
        for exponent in [-300, -100, -30, -10, -6, -3, -1] {
            let p = 10_f64.powi(exponent);
            let (log, _) = log_above_and_hazard(-quantile(p));
            assert!((log - p.ln()).abs() < 1e-12 * p.ln().abs(), "{p}: {log}");
        }
        assert_eq!(quantile(0.5), 0.0);
    }
}
