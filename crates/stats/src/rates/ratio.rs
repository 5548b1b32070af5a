//! The ratio of two rates, from the distribution of one count given the sum of both.

use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::{beta_quantile, binomial_at_least, log_binomial};
use crate::numeric::root::root;

/// Two counts over two exposures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateRatio {
    /// First rate over second; infinite where the second count is zero, nothing where both are.
    pub ratio: Option<f64>,
    /// Exact conditional limits.
    pub exact: Interval,
    /// Mid-P limits.
    pub mid_p: Interval,
    /// Limits from the logarithm's standard error; nothing with a zero count.
    pub wald: Option<Interval>,
    /// Two-sided p that the rates are equal: the sum of all outcomes at most as likely as the one seen.
    pub p: f64,
}

/// Counts beyond which no squad reaches, and sums over all outcomes would take too long.
const MOST: u64 = 1_000_000;

impl RateRatio {
    /// First over second.
    pub fn new(first: (u64, f64), second: (u64, f64), level: Level) -> Result<RateRatio, Lack> {
        let ((x1, t1), (x0, t0)) = (first, second);
        if !t1.is_finite() || !t0.is_finite() {
            return Err(Lack::NotFinite);
        }
        if t1 <= 0.0 || t0 <= 0.0 {
            return Err(Lack::NoExposure);
        }
        if MOST < x1 || MOST < x0 {
            return Err(Lack::NotACount);
        }
        let n = x1 + x0;
        let times = t0 / t1;
        let odds = |p: f64| if 1.0 <= p { f64::INFINITY } else { p / (1.0 - p) * times };
        let ratio = (0 < n).then(|| if x0 == 0 { f64::INFINITY } else { x1 as f64 / x0 as f64 * times });
        let everything = Interval { low: 0.0, high: f64::INFINITY };
        if n == 0 {
            return Ok(RateRatio { ratio, exact: everything, mid_p: everything, wald: None, p: 1.0 });
        }
        let tail = level.tail();
        let low = if x1 == 0 { 0.0 } else { beta_quantile(x1 as f64, x0 as f64 + 1.0, tail) };
        // The upper end from the other side, so that a share near 1 keeps its digits.
        let high =
            if x0 == 0 { f64::INFINITY } else { 1.0 / (beta_quantile(x0 as f64, x1 as f64 + 1.0, tail)) };
        let exact =
            Interval { low: odds(low), high: if high.is_finite() { (high - 1.0) * times } else { high } };
        let wald = (0 < x1 && 0 < x0).then(|| {
            let half = level.z() * (1.0 / x1 as f64 + 1.0 / x0 as f64).sqrt();
            let log = (x1 as f64 / x0 as f64 * times).ln();
            Interval::around(log, half).map(f64::exp)
        });
        let p = t1 / (t1 + t0);
        Ok(RateRatio { ratio, exact, mid_p: mid_p(x1, n, tail).map(odds), wald, p: two_sided(x1, n, p) })
    }
}

/// Mid-P limits of a share.
fn mid_p(x: u64, n: u64, tail: f64) -> Interval {
    let here = |p: f64| if p <= 0.0 || 1.0 <= p { 0.0 } else { log_binomial(x, n, p).exp() };
    let above = |p: f64| binomial_at_least(x, n, p) - 0.5 * here(p);
    let low = if x == 0 { 0.0 } else { root(|p| above(p) - tail, 0.0, 1.0).unwrap_or(0.0) };
    let high = if x == n { 1.0 } else { root(|p| above(p) - (1.0 - tail), 0.0, 1.0).unwrap_or(1.0) };
    Interval { low, high }
}

/// Sum of the probabilities of all outcomes no likelier than the one seen.
pub(crate) fn two_sided(x: u64, n: u64, p: f64) -> f64 {
    let seen = log_binomial(x, n, p);
    // Outcomes as likely as this one but for rounding count too.
    let bar = seen + 1e-7;
    let sum: f64 = (0..=n).map(|k| log_binomial(k, n, p)).filter(|&log| log <= bar).map(f64::exp).sum();
    sum.min(1.0)
}
