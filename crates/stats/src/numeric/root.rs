//! A bracketed root: false position with a halving every third step, so that it can never stall.

/// Root of a function that changes sign between two points; nothing when the ends have the same sign.
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
    for step in 0..300 {
        if (b - a).abs() <= 2.0 * f64::EPSILON * (a.abs() + b.abs()) {
            break;
        }
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

/// Root of a rising function on the half line from zero: the upper end is doubled until it lies beyond.
pub(crate) fn root_from_zero(f: impl Fn(f64) -> f64, guess: f64) -> Option<f64> {
    let mut high = guess.max(1e-300);
    for _ in 0..2000 {
        if 0.0 <= f(high) {
            return root(f, 0.0, high);
        }
        high *= 2.0;
        if !high.is_finite() {
            return None;
        }
    }
    None
}
