//! The Kaplan-Meier curve with Greenwood's variance.

use super::{Timed, in_order};
use crate::lack::Lack;
use crate::level::{Interval, Level};

/// How limits are laid round the curve. Log-log limits stay between 0 and 1 and serve small groups best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limits {
    /// Symmetric, cut at 0 and 1.
    Plain,
    /// On the logarithm.
    Log,
    /// On the logarithm of minus the logarithm.
    LogLog,
}

/// One time at which somebody lost form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The time.
    pub time: f64,
    /// How many were still going just before.
    pub at_risk: usize,
    /// How many lost form.
    pub events: usize,
    /// Share still going after it.
    pub share: f64,
    /// Greenwood's standard error.
    pub se: f64,
    /// Limits; nothing where the share is 0.
    pub interval: Option<Interval>,
}

/// A whole curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// People or sets.
    pub n: usize,
    /// How many lost form.
    pub events: usize,
    /// Every time at which somebody did.
    pub steps: Vec<Step>,
    /// The longest time, lost or not.
    pub last: f64,
}

impl Curve {
    /// The curve of some times. Without any event there are no steps: everybody lasted at least as long as seen.
    pub fn of(times: &[Timed], limits: Limits, level: Level) -> Result<Curve, Lack> {
        let sorted = in_order(times)?;
        let n = sorted.len();
        let mut steps = Vec::new();
        let (mut share, mut greenwood, mut place) = (1.0_f64, 0.0_f64, 0);
        while place < n {
            let time = sorted[place].time;
            let here = sorted[place..].iter().take_while(|timed| timed.time == time);
            let (count, events) =
                here.fold((0, 0), |(all, lost), timed| (all + 1, lost + usize::from(timed.event)));
            if 0 < events {
                let at_risk = n - place;
                let (r, d) = (at_risk as f64, events as f64);
                share *= (r - d) / r;
                greenwood += d / (r * (r - d));
                let se = if 0.0 < share { share * greenwood.sqrt() } else { 0.0 };
                let interval = (0.0 < share).then(|| limits_of(share, se, limits, level));
                steps.push(Step { time, at_risk, events, share, se, interval });
            }
            place += count;
        }
        let events = sorted.iter().filter(|timed| timed.event).count();
        Ok(Curve { n, events, steps, last: sorted[n - 1].time })
    }

    /// The median: the time at which the share falls below one half; where it stays at exactly one half for a while,
    /// the middle of that while. Nothing where it never falls so far: the median is longer than was seen.
    pub fn median(&self) -> Option<f64> {
        self.falls_to(0.5, |step| Some(step.share))
    }

    /// Limits of the median: where the limits of the curve cross one half (Brookmeyer & Crowley 1982). An end that the
    /// curve does not set is nothing.
    pub fn median_interval(&self) -> (Option<f64>, Option<f64>) {
        let low = self.falls_to(0.5, |step| Some(step.interval.map_or(0.0, |interval| interval.low)));
        // Where the share is 0 there is no upper limit, and the last one goes on.
        let high = self.falls_to(0.5, |step| step.interval.map(|interval| interval.high));
        (low, high)
    }

    fn falls_to(&self, level: f64, of: impl Fn(&Step) -> Option<f64>) -> Option<f64> {
        let mut at = self.steps.iter().filter_map(|step| of(step).map(|value| (step.time, value)));
        let (time, value) = at.find(|(_, value)| *value < level + 1e-12)?;
        if (value - level).abs() < 1e-12 {
            // Exactly there: the middle between this step and the next one, as R prints it.
            return Some(at.next().map_or(time, |(next, _)| 0.5 * (time + next)));
        }
        Some(time)
    }

    /// Mean time up to a horizon and its standard error. The horizon must not lie beyond the longest time seen.
    pub fn mean_until(&self, horizon: f64) -> Result<(f64, f64), Lack> {
        if !(0.0 < horizon && horizon <= self.last) {
            return Err(Lack::Setting { name: "horizon" });
        }
        let inside: Vec<&Step> = self.steps.iter().filter(|step| step.time < horizon).collect();
        // Area under the curve from each step to the horizon, from the back.
        let (mut area, mut until, mut variance) = (0.0, horizon, 0.0);
        for step in inside.iter().rev() {
            area += step.share * (until - step.time);
            let (r, d) = (step.at_risk as f64, step.events as f64);
            if d < r {
                variance += area * area * d / (r * (r - d));
            }
            until = step.time;
        }
        Ok((area + until, f64::sqrt(variance)))
    }

    /// Share still going at a time.
    pub fn share_at(&self, time: f64) -> f64 {
        self.steps.iter().take_while(|step| step.time <= time).last().map_or(1.0, |step| step.share)
    }
}

fn limits_of(share: f64, se: f64, limits: Limits, level: Level) -> Interval {
    let z = level.z();
    match limits {
        Limits::Plain => Interval { low: (share - z * se).max(0.0), high: (share + z * se).min(1.0) },
        Limits::Log => {
            let factor = (z * se / share).exp();
            Interval { low: share / factor, high: (share * factor).min(1.0) }
        }
        Limits::LogLog => {
            let theta = z * se / (share * share.ln().abs());
            if theta.is_finite() {
                Interval { low: share.powf(theta.exp()), high: share.powf((-theta).exp()) }
            } else {
                Interval { low: share, high: share }
            }
        }
    }
}
