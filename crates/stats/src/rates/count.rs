//! Limits of a Poisson count (Garwood 1936, Biometrika 28:437), and of a rate.

use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::{log_poisson, poisson_at_least, poisson_at_most};
use crate::numeric::root::{root, root_from_zero};

/// Exact limits of the mean behind a count: each tail holds at most half of what is left. Zero events: lower end 0.
pub fn exact(events: u64, level: Level) -> Interval {
    tails(events, level, poisson_at_least, poisson_at_most)
}

/// Mid-P limits: half of the probability of the count itself is left out. Shorter, and no longer certain to hold.
pub fn mid_p(events: u64, level: Level) -> Interval {
    let half = |count: u64, mean: f64| 0.5 * log_poisson(count, mean).exp();
    tails(
        events,
        level,
        |count, mean| poisson_at_least(count, mean) - half(count, mean),
        |count, mean| poisson_at_most(count, mean) - half(count, mean),
    )
}

fn tails(
    events: u64,
    level: Level,
    at_least: impl Fn(u64, f64) -> f64,
    at_most: impl Fn(u64, f64) -> f64,
) -> Interval {
    let tail = level.tail();
    let guess = events as f64 + 1.0;
    let low = if events == 0 {
        0.0
    } else {
        root(|mean| at_least(events, mean) - tail, 0.0, guess + 10.0).unwrap_or(0.0)
    };
    let high = root_from_zero(|mean| tail - at_most(events, mean), guess).unwrap_or(f64::INFINITY);
    Interval { low, high }
}

/// Byar's approximation (Breslow & Day 1987), good from five events on.
pub fn byar(events: u64, level: Level) -> Interval {
    let (x, z) = (events as f64, level.z());
    let one = |x: f64, sign: f64| x * (1.0 - 1.0 / (9.0 * x) + sign * z / (3.0 * x.sqrt())).powi(3);
    Interval { low: if events == 0 { 0.0 } else { one(x, -1.0) }, high: one(x + 1.0, 1.0) }
}

/// Events over exposure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// Events.
    pub events: u64,
    /// Exposure: hours, kilometres, sessions.
    pub exposure: f64,
    /// Per how much exposure the rate is given, for instance 1000.
    pub per: f64,
    /// Events per so much exposure.
    pub rate: f64,
    /// Its exact range.
    pub interval: Interval,
}

impl Rate {
    /// A rate with exact limits. Refuses exposure that is not positive.
    pub fn new(events: u64, exposure: f64, per: f64, level: Level) -> Result<Rate, Lack> {
        if !exposure.is_finite() || !per.is_finite() {
            return Err(Lack::NotFinite);
        }
        if exposure <= 0.0 {
            return Err(Lack::NoExposure);
        }
        if per <= 0.0 {
            return Err(Lack::Setting { name: "per" });
        }
        let scale = per / exposure;
        let interval = exact(events, level).map(|count| count * scale);
        Ok(Rate { events, exposure, per, rate: events as f64 * scale, interval })
    }
}

/// Days lost per so much exposure: incidence times mean days (consensus on sports injury recording, 2020).
pub fn burden(days: &[f64], exposure: f64, per: f64) -> Result<f64, Lack> {
    if days.iter().any(|day| !day.is_finite() || *day < 0.0) {
        return Err(Lack::NotACount);
    }
    if exposure.is_nan() || exposure <= 0.0 {
        return Err(Lack::NoExposure);
    }
    Ok(crate::numeric::sum(days.iter().copied()) / exposure * per)
}
