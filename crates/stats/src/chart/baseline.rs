//! Level and spread of a first stretch of readings. Fewer than twenty make a poor baseline for a chart: see
//! [`super::self_start`].

use crate::lack::Lack;
use crate::numeric::{deviation, mean};

/// Three ways of saying where a line lies and how it scatters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Baseline {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Mean distance of neighbours.
    pub moving_range: f64,
    /// Spread from that: over 1.128.
    pub sigma_moving_range: f64,
    /// Median.
    pub median: f64,
    /// Median distance from the median.
    pub mad: f64,
    /// Spread from that: times 1.4826.
    pub sigma_mad: f64,
    /// Correlation of neighbours. Above 0.2 a chart speaks too often for nothing.
    pub neighbour_correlation: Option<f64>,
}

/// Expected distance of two neighbours, in standard deviations, as tables print it (d2 for two).
const D2: f64 = 1.128;

/// A baseline of at least two readings in their order in time.
pub fn of(values: &[f64]) -> Result<Baseline, Lack> {
    if values.iter().any(|value| !value.is_finite()) {
        return Err(Lack::NotFinite);
    }
    if values.len() < 2 {
        return Err(Lack::TooFew { of: "readings", found: values.len(), needed: 2 });
    }
    let ranges: Vec<f64> = values.windows(2).map(|pair| (pair[1] - pair[0]).abs()).collect();
    let median = median(values);
    let off: Vec<f64> = values.iter().map(|value| (value - median).abs()).collect();
    let mad = self::median(&off);
    let last = values.len() - 1;
    Ok(Baseline {
        mean: mean(values),
        sd: deviation(values),
        moving_range: mean(&ranges),
        sigma_moving_range: mean(&ranges) / D2,
        median,
        mad,
        sigma_mad: mad * 1.4826,
        neighbour_correlation: (3 <= values.len())
            .then(|| crate::reliability::agreement::correlation(&values[..last], &values[1..]))
            .flatten(),
    })
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    if sorted.len() % 2 == 1 { sorted[middle] } else { 0.5 * (sorted[middle - 1] + sorted[middle]) }
}
