//! Limits of agreement between two methods or two days (Bland & Altman 1986, Lancet i:307).

use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::t_upper;
use crate::numeric::{deviation, mean, sum};

/// How two sets of readings of the same people differ, in the unit of the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// Pairs.
    pub n: usize,
    /// Mean of first minus second.
    pub mean: f64,
    /// Standard deviation of the differences.
    pub sd: f64,
    /// Standard deviations from the mean to a limit: 1.96, or the 2 of the first paper.
    pub width: f64,
    /// Where 95 % of differences lie.
    pub limits: Interval,
    /// Standard error of the mean.
    pub se_mean: f64,
    /// Standard error of either limit, root(3 s² / n).
    pub se_limit: f64,
    /// Range of the mean.
    pub mean_interval: Interval,
    /// Range of the lower limit.
    pub low_interval: Interval,
    /// Range of the upper limit.
    pub high_interval: Interval,
    /// Correlation of size of difference with size of reading. Far from zero: the spread grows with the reading, and
    /// logarithms or percentages serve better.
    pub growth: Option<f64>,
}

impl Agreement {
    /// Limits of `first - second`, pair by pair, `width` standard deviations from the mean.
    pub fn of(first: &[f64], second: &[f64], width: f64, level: Level) -> Result<Agreement, Lack> {
        if first.len() != second.len() {
            return Err(Lack::Ragged);
        }
        if first.is_empty() {
            return Err(Lack::Empty);
        }
        if first.iter().chain(second).any(|value| !value.is_finite()) {
            return Err(Lack::NotFinite);
        }
        if first.len() < 3 {
            return Err(Lack::TooFew { of: "people", found: first.len(), needed: 3 });
        }
        let mut pairs: Vec<(f64, f64)> = first.iter().copied().zip(second.iter().copied()).collect();
        pairs.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
        let differences: Vec<f64> = pairs.iter().map(|(a, b)| a - b).collect();
        let n = differences.len() as f64;
        let (mean_difference, sd) = (mean(&differences), deviation(&differences));
        let (se_mean, se_limit) = (sd / n.sqrt(), (3.0 * sd * sd / n).sqrt());
        let t = t_upper(n - 1.0, level.tail());
        let limits = Interval::around(mean_difference, width * sd);
        let sizes: Vec<f64> = differences.iter().map(|d| (d - mean_difference).abs()).collect();
        let middles: Vec<f64> = pairs.iter().map(|(a, b)| 0.5 * (a + b)).collect();
        Ok(Agreement {
            n: differences.len(),
            mean: mean_difference,
            sd,
            width,
            limits,
            se_mean,
            se_limit,
            mean_interval: Interval::around(mean_difference, t * se_mean),
            low_interval: Interval::around(limits.low, t * se_limit),
            high_interval: Interval::around(limits.high, t * se_limit),
            growth: correlation(&middles, &sizes),
        })
    }
}

/// Twice the root mean square of the differences: what two readings of one person stay within in 95 % of cases.
pub fn repeatability(first: &[f64], second: &[f64]) -> Option<f64> {
    let squares = sum(first.iter().zip(second).map(|(a, b)| (a - b).powi(2)));
    (!first.is_empty() && first.len() == second.len()).then(|| 2.0 * (squares / first.len() as f64).sqrt())
}

/// Pearson's correlation; nothing where one side does not vary.
pub(crate) fn correlation(xs: &[f64], ys: &[f64]) -> Option<f64> {
    let (x_mean, y_mean) = (mean(xs), mean(ys));
    let both = sum(xs.iter().zip(ys).map(|(x, y)| (x - x_mean) * (y - y_mean)));
    let size =
        (sum(xs.iter().map(|x| (x - x_mean).powi(2))) * sum(ys.iter().map(|y| (y - y_mean).powi(2)))).sqrt();
    (0.0 < size).then(|| (both / size).clamp(-1.0, 1.0))
}
