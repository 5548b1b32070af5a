//! The few numerical tools that geometry needs: a bracketed root, a peak, an integral. All deterministic.

/// Root of a function that changes sign between two points: false position (Illinois variant) with a halving every
/// third step. Nothing when the ends have the same sign.
pub(crate) fn root(f: impl Fn(f64) -> f64, from: f64, to: f64) -> Option<f64> {
    let (mut a, mut b) = (from, to);
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return Some(a);
    }
    if fb == 0.0 {
        return Some(b);
    }
    if 0.0 < fa * fb || (fa * fb).is_nan() {
        return None;
    }
    for step in 0..200 {
        let width = (b - a).abs();
        if width <= 4.0 * f64::EPSILON * (a.abs() + b.abs()) {
            break;
        }
        // Every third step halves the bracket, so that the secant can never stall.
        let x = if step % 3 == 2 { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let x = if (a < x && x < b) || (b < x && x < a) { x } else { 0.5 * (a + b) };
        let fx = f(x);
        if fx == 0.0 {
            return Some(x);
        }
        if fx * fb < 0.0 {
            (a, fa) = (b, fb);
        } else {
            fa *= 0.5;
        }
        (b, fb) = (x, fx);
    }
    Some(b)
}

/// Where a function is largest between two points: the best of many samples, then a golden section round it.
pub(crate) fn peak(f: impl Fn(f64) -> f64, from: f64, to: f64) -> (f64, f64) {
    const SAMPLES: u32 = 360;
    let at = |index: u32| from + (to - from) * f64::from(index) / f64::from(SAMPLES);
    let (mut best, mut best_value) = (0, f(from));
    for index in 1..=SAMPLES {
        let value = f(at(index));
        if best_value < value {
            (best, best_value) = (index, value);
        }
    }
    let (mut low, mut high) = (at(best.saturating_sub(1)), at((best + 1).min(SAMPLES)));
    let golden = (5_f64.sqrt() - 1.0) / 2.0;
    for _ in 0..80 {
        let (left, right) = (high - golden * (high - low), low + golden * (high - low));
        if f(left) < f(right) { low = left } else { high = right }
    }
    let middle = 0.5 * (low + high);
    // An end of the range can be the true peak; a golden section only ever comes close to it.
    [(middle, f(middle)), (at(best), best_value)]
        .into_iter()
        .reduce(|one, other| if one.1 < other.1 { other } else { one })
        .unwrap_or((from, best_value))
}

/// Integral by composite five-point Gauss-Legendre; exact for smooth functions to rounding.
pub(crate) fn integral(f: impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    const PANELS: u32 = 256;
    const NODES: [(f64, f64); 5] = [
        (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
        (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
        (0.0, 0.568_888_888_888_888_9),
        (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
        (0.906_179_845_938_664, 0.236_926_885_056_189_1),
    ];
    let half = (to - from) / f64::from(PANELS) / 2.0;
    let mut sum = 0.0;
    for panel in 0..PANELS {
        let middle = from + half * (2.0 * f64::from(panel) + 1.0);
        for (node, weight) in NODES {
            sum += weight * f(middle + half * node);
        }
    }
    sum * half
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_known_functions_are_found() {
        assert!((root(|x| x * x - 2.0, 0.0, 2.0).expect("the sign changes") - 2_f64.sqrt()).abs() < 1e-14);
        assert!(
            (root(|x| x.exp() - 10.0, -5.0, 50.0).expect("the sign changes") - 10_f64.ln()).abs() < 1e-13
        );
        assert_eq!(root(|x| x * x + 1.0, -1.0, 1.0), None);
    }

    #[test]
    fn peaks_inside_and_at_the_ends_are_found() {
        let (at, value) = peak(f64::sin, 0.0, 3.0);
        assert!((at - std::f64::consts::FRAC_PI_2).abs() < 1e-7 && (value - 1.0).abs() < 1e-14);
        assert_eq!(peak(|x| x, 0.0, 2.0).0, 2.0);
        assert_eq!(peak(|x| -x, 0.0, 2.0).0, 0.0);
    }

    #[test]
    fn integrals_of_known_functions_agree() {
        assert!((integral(f64::sin, 0.0, std::f64::consts::PI) - 2.0).abs() < 1e-14);
        assert!((integral(|x| x.powi(9), 0.0, 1.0) - 0.1).abs() < 1e-15);
    }
}
