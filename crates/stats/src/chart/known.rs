//! Charts whose level and spread are known beforehand: the tabular cumulative sum and the weighted mean.

use super::{Direction, Sums};
use crate::lack::Lack;

/// A cumulative sum in the units of the readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Tabular {
    /// The sums after each reading.
    pub sums: Vec<Sums>,
    /// The first reading (from one) at which a limit is passed, which way, and the last reading before the change.
    pub first: Option<(usize, Direction, usize)>,
    /// The level since, as the sum tells: target + slack + sum / readings, and the other way round.
    pub new_level: Option<f64>,
}

/// Sums deviations from a target; `slack` and `limit` are in the units of the readings.
pub fn cumulative(values: &[f64], target: f64, slack: f64, limit: f64) -> Result<Tabular, Lack> {
    if values.iter().chain([&target, &slack, &limit]).any(|value| !value.is_finite()) {
        return Err(Lack::NotFinite);
    }
    if slack < 0.0 || limit <= 0.0 {
        return Err(Lack::Setting { name: "k, h" });
    }
    let mut now = Sums::ZERO;
    let (mut sums, mut first, mut new_level) = (Vec::with_capacity(values.len()), None, None);
    for (place, value) in values.iter().enumerate() {
        now = now.add(value - target, slack);
        sums.push(now);
        if let (None, Some((direction, since))) = (first, now.signal(limit)) {
            first = Some((place + 1, direction, place + 1 - since));
            new_level = Some(match direction {
                Direction::Up => target + slack + now.plus / since as f64,
                Direction::Down => target - slack - now.minus / since as f64,
            });
        }
    }
    Ok(Tabular { sums, first, new_level })
}

/// A weighted mean with its limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighted {
    /// The mean after each reading.
    pub means: Vec<f64>,
    /// Lower limit at each reading.
    pub low: Vec<f64>,
    /// Upper limit at each reading.
    pub high: Vec<f64>,
    /// First reading (from one) outside.
    pub first: Option<usize>,
}

/// An exponentially weighted mean with limits that widen as it learns: `weight` of the newest reading (0 to 1),
/// `width` of the limits in standard deviations.
pub fn weighted(values: &[f64], target: f64, sigma: f64, weight: f64, width: f64) -> Result<Weighted, Lack> {
    if values.iter().chain([&target, &sigma, &width]).any(|value| !value.is_finite()) {
        return Err(Lack::NotFinite);
    }
    if !(0.0 < weight && weight <= 1.0) || sigma <= 0.0 || width <= 0.0 {
        return Err(Lack::Setting { name: "weight, sigma, width" });
    }
    let mut mean = target;
    let mut out = Weighted { means: Vec::new(), low: Vec::new(), high: Vec::new(), first: None };
    for (place, value) in values.iter().enumerate() {
        mean = weight * value + (1.0 - weight) * mean;
        let steps = 2.0 * (place as f64 + 1.0);
        let half = width * sigma * (weight / (2.0 - weight) * (1.0 - (1.0 - weight).powf(steps))).sqrt();
        out.means.push(mean);
        out.low.push(target - half);
        out.high.push(target + half);
        if out.first.is_none() && half < (mean - target).abs() {
            out.first = Some(place + 1);
        }
    }
    Ok(out)
}
