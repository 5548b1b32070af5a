//! Limits of a proportion: Wilson's score limits, with and without correction, and the exact ones
//! (Newcombe 1998, Stat Med 17:857).

use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::beta_quantile;

/// Some of many.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// How many.
    pub k: u64,
    /// Of how many.
    pub n: u64,
    /// The share.
    pub share: f64,
    /// Wilson's limits: what to show.
    pub wilson: Interval,
    /// The same with a correction for whole numbers.
    pub corrected: Interval,
    /// Clopper-Pearson.
    pub exact: Interval,
}

impl Share {
    /// `k` of `n`.
    pub fn new(k: u64, n: u64, level: Level) -> Result<Share, Lack> {
        if n == 0 {
            return Err(Lack::Empty);
        }
        if n < k {
            return Err(Lack::NotACount);
        }
        let (kf, nf, z) = (k as f64, n as f64, level.z());
        let p = kf / nf;
        let q = 1.0 - p;
        let middle = (p + z * z / (2.0 * nf)) / (1.0 + z * z / nf);
        let half = z / (1.0 + z * z / nf) * (p * q / nf + z * z / (4.0 * nf * nf)).sqrt();
        let wilson = Interval {
            low: if k == 0 { 0.0 } else { middle - half },
            high: if k == n { 1.0 } else { middle + half },
        };
        // The signs follow Newcombe's formulas 4: the lower end has -2 - 1/n and nq + 1, the upper +2 - 1/n and nq - 1.
        let low_root = (z * z - 2.0 - 1.0 / nf + 4.0 * p * (nf * q + 1.0)).max(0.0).sqrt();
        let high_root = (z * z + 2.0 - 1.0 / nf + 4.0 * p * (nf * q - 1.0)).max(0.0).sqrt();
        let below = 2.0 * (nf + z * z);
        let corrected = Interval {
            low: if k == 0 { 0.0 } else { ((2.0 * kf + z * z - 1.0 - z * low_root) / below).max(0.0) },
            high: if k == n { 1.0 } else { ((2.0 * kf + z * z + 1.0 + z * high_root) / below).min(1.0) },
        };
        let tail = level.tail();
        let exact = Interval {
            low: if k == 0 { 0.0 } else { beta_quantile(kf, nf - kf + 1.0, tail) },
            high: if k == n { 1.0 } else { beta_quantile(kf + 1.0, nf - kf, 1.0 - tail) },
        };
        Ok(Share { k, n, share: p, wilson, corrected, exact })
    }
}
