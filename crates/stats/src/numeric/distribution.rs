//! Tails and quantiles of the distributions that intervals are made of. Quantiles are roots of the tails, because the
//! library's own inverses lose their digits far out.

use statrs::function::beta::beta_reg;
use statrs::function::gamma::{gamma_lr, gamma_ur};

use super::root::{root, root_from_zero};

/// Regularised incomplete beta function; 0 and 1 at and beyond the ends.
pub(crate) fn beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 {
        0.0
    } else if 1.0 <= x {
        1.0
    } else {
        beta_reg(a, b, x)
    }
}

/// The value below which a share `p` of a beta distribution lies.
pub(crate) fn beta_quantile(a: f64, b: f64, p: f64) -> f64 {
    root(|x| beta(a, b, x) - p, 0.0, 1.0).unwrap_or(f64::NAN)
}

/// The value below which a share `p` of an F distribution lies.
pub(crate) fn f_quantile(first: f64, second: f64, p: f64) -> f64 {
    // Whichever end is nearer to zero keeps more digits.
    let x = beta_quantile(0.5 * first, 0.5 * second, p);
    if x < 0.5 {
        return second * x / (first * (1.0 - x));
    }
    let rest = beta_quantile(0.5 * second, 0.5 * first, 1.0 - p);
    second * (1.0 - rest) / (first * rest)
}

/// Probability of an F value above `f`.
pub(crate) fn f_above(first: f64, second: f64, f: f64) -> f64 {
    if f <= 0.0 { 1.0 } else { beta(0.5 * second, 0.5 * first, second / (second + first * f)) }
}

/// Probability of a t value further out than `t` on its own side: at most one half.
pub(crate) fn t_tail(df: f64, t: f64) -> f64 {
    0.5 * beta(0.5 * df, 0.5, df / (df + t * t))
}

/// The value that a share `tail` of a t distribution exceeds.
pub(crate) fn t_upper(df: f64, tail: f64) -> f64 {
    let x = beta_quantile(0.5 * df, 0.5, 2.0 * tail);
    (df * (1.0 - x) / x).sqrt()
}

/// The value below which a share `p` of a chi-square distribution lies.
pub(crate) fn chi_square_quantile(df: f64, p: f64) -> f64 {
    let below = |x: f64| if x <= 0.0 { -p } else { gamma_lr(0.5 * df, 0.5 * x) - p };
    root_from_zero(below, df).unwrap_or(f64::NAN)
}

/// Probability of a chi-square value above `x`.
pub(crate) fn chi_square_above(df: f64, x: f64) -> f64 {
    if x <= 0.0 { 1.0 } else { gamma_ur(0.5 * df, 0.5 * x) }
}

/// Probability of `count` or more where `mean` are expected.
pub(crate) fn poisson_at_least(count: u64, mean: f64) -> f64 {
    if count == 0 {
        1.0
    } else if mean <= 0.0 {
        0.0
    } else {
        gamma_lr(count as f64, mean)
    }
}

/// Probability of at most `count` where `mean` are expected.
pub(crate) fn poisson_at_most(count: u64, mean: f64) -> f64 {
    if mean <= 0.0 { 1.0 } else { gamma_ur(count as f64 + 1.0, mean) }
}

/// Logarithm of the probability of exactly `count` where `mean` are expected.
pub(crate) fn log_poisson(count: u64, mean: f64) -> f64 {
    if mean <= 0.0 {
        return if count == 0 { 0.0 } else { f64::NEG_INFINITY };
    }
    count as f64 * mean.ln() - mean - statrs::function::gamma::ln_gamma(count as f64 + 1.0)
}

/// Logarithm of the probability of `k` of `n` at a share `p`, which lies strictly between 0 and 1.
pub(crate) fn log_binomial(k: u64, n: u64, p: f64) -> f64 {
    let gamma = |count: u64| statrs::function::gamma::ln_gamma(count as f64 + 1.0);
    gamma(n) - gamma(k) - gamma(n - k) + k as f64 * p.ln() + (n - k) as f64 * (-p).ln_1p()
}

/// Probability of at least `k` of `n` at a share `p`.
pub(crate) fn binomial_at_least(k: u64, n: u64, p: f64) -> f64 {
    if k == 0 { 1.0 } else { beta(k as f64, (n - k) as f64 + 1.0, p) }
}
