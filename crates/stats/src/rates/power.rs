//! What one squad cannot show: the chance that two seasons would tell a real change of a rate from none.

use crate::level::Level;
use crate::numeric::distribution::log_poisson;

use super::ratio::two_sided;

/// Expected events beyond which the exact sum is left for the normal one.
const MANY: f64 = 150.0;

/// Chance that the exact two-sided test finds two seasons of equal exposure different, where `before` and `after` are
/// the events to be expected in each. Between 0 and 1; not finite or negative expectations count as nothing to find.
pub fn power(before: f64, after: f64, level: Level) -> f64 {
    if !(before.is_finite() && after.is_finite() && 0.0 <= before && 0.0 <= after) {
        return 0.0;
    }
    let alpha = 1.0 - level.share();
    if MANY < before.max(after) {
        let shift = (after.sqrt() - before.sqrt()).abs() * std::f64::consts::SQRT_2;
        return crate::numeric::normal::above(level.z() - shift);
    }
    let reach = |mean: f64| {
        let spread = 6.0 * mean.sqrt() + 8.0;
        ((mean - spread).max(0.0) as u64, (mean + spread) as u64)
    };
    let ((low0, high0), (low1, high1)) = (reach(before), reach(after));
    let mut found = 0.0;
    for x0 in low0..=high0 {
        for x1 in low1..=high1 {
            if 0 < x0 + x1 && two_sided(x1, x0 + x1, 0.5) <= alpha {
                found += (log_poisson(x0, before) + log_poisson(x1, after)).exp();
            }
        }
    }
    found.clamp(0.0, 1.0)
}

/// The smallest reduction, as a share of the earlier rate in whole percent, that two seasons of equal exposure would
/// show with the wanted chance (0.8 is usual); nothing where even no event at all would not show.
pub fn smallest_reduction_shown(before: f64, chance: f64, level: Level) -> Option<f64> {
    let shows = |percent: u32| chance <= power(before, before * (1.0 - f64::from(percent) / 100.0), level);
    if !shows(100) {
        return None;
    }
    // Power rises with the reduction but for small steps of the exact test, so the search is by halving.
    let (mut not, mut does) = (0_u32, 100_u32);
    while 1 < does - not {
        let middle = (not + does) / 2;
        if shows(middle) { does = middle } else { not = middle }
    }
    Some(f64::from(does) / 100.0)
}
