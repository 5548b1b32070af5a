//! The self-starting cumulative sum (Hawkins 1987, The Statistician 36:299; Hawkins & Olwell 1998).
//!
//! Each reading is held against the mean and spread of those before it, and turned into a value that is exactly
//! standard normal and independent of the others as long as nothing changed. So its false alarms are known from the
//! third reading on, which a chart with a plugged-in baseline of few readings cannot say of itself: with ten readings
//! that one gives a false alarm in 44 of 100 seasons instead of 10.

use super::{Direction, Sums};
use crate::lack::Lack;
use crate::numeric::distribution::t_tail;
use crate::numeric::normal;

/// How a chart is kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rules {
    /// Slack, in standard deviations: half of the shift that matters.
    pub k: f64,
    /// Limit of the sums, in standard deviations.
    pub h: f64,
    /// Largest value one reading may add, so that a slip of the pen cannot start a drift; nothing for no limit.
    pub winsorise: Option<f64>,
    /// Whether mean and spread stand still while a signal is open, so that they do not learn the new level.
    pub freeze: bool,
    /// Readings before the chart says anything.
    pub learning: usize,
}

impl Rules {
    /// Hawkins' chart as published: nothing cut, nothing frozen.
    pub fn plain(k: f64, h: f64) -> Rules {
        Rules { k, h, winsorise: None, freeze: false, learning: 2 }
    }

    /// For a swimmer's line (practice of this tool, not published): one false alarm in 370 readings a line, no word
    /// before eight readings, single readings cut at three, learning stopped while a signal is open.
    pub fn swimmer() -> Rules {
        Rules { k: 0.5, h: 4.775, winsorise: Some(3.0), freeze: true, learning: 8 }
    }
}

/// One reading on the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Its number, from one.
    pub n: usize,
    /// The reading.
    pub value: f64,
    /// Mean of those before it.
    pub mean_before: Option<f64>,
    /// Their standard deviation.
    pub sd_before: Option<f64>,
    /// Distance from that mean in those deviations.
    pub t: Option<f64>,
    /// The same as a standard normal value; nothing for the first two readings, and while all have been the same.
    pub u: Option<f64>,
    /// The sums after it.
    pub sums: Sums,
    /// Whether the chart speaks.
    pub signal: Option<Direction>,
}

/// The first time a chart spoke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Signal {
    /// At which reading.
    pub at: usize,
    /// Which way.
    pub direction: Direction,
    /// The last reading before the change, as the sums tell.
    pub since: usize,
    /// Mean of the readings since.
    pub level: f64,
    /// Mean of the readings up to then.
    pub before: f64,
}

/// A whole line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Reading by reading.
    pub points: Vec<Point>,
    /// The first signal.
    pub first: Option<Signal>,
    /// Whether the chart speaks at the last reading.
    pub open: bool,
    /// Whether there are too few readings for it to say anything.
    pub learning: bool,
}

/// Draws the chart of readings in their order in time.
pub fn line(values: &[f64], rules: Rules) -> Result<Line, Lack> {
    if values.is_empty() {
        return Err(Lack::Empty);
    }
    if values.iter().any(|value| !value.is_finite()) {
        return Err(Lack::NotFinite);
    }
    if !(0.0 <= rules.k && 0.0 < rules.h && rules.k.is_finite() && rules.h.is_finite()) {
        return Err(Lack::Setting { name: "k, h" });
    }
    let (mut count, mut mean, mut squares) = (0_usize, 0.0_f64, 0.0_f64);
    let mut sums = Sums::ZERO;
    let (mut points, mut first) = (Vec::with_capacity(values.len()), None);
    let mut open = false;
    for (place, &value) in values.iter().enumerate() {
        let sd = (2 <= count).then(|| (squares / (count as f64 - 1.0)).sqrt());
        // Deviations that are only rounding beside the values are none.
        let sd_used = sd.filter(|sd| 1e-12 * mean.abs() < *sd && 0.0 < *sd);
        let t = sd_used.map(|sd| (value - mean) / sd);
        let u = t.map(|t| {
            let seen = count as f64;
            let scaled = t * (seen / (seen + 1.0)).sqrt();
            let u = normal::quantile(t_tail(seen - 1.0, scaled)).abs().min(40.0);
            if scaled < 0.0 { -u } else { u }
        });
        if let Some(u) = u {
            let most = rules.winsorise.unwrap_or(f64::INFINITY);
            sums = sums.add(u.clamp(-most, most), rules.k);
        }
        let n = place + 1;
        let signal = if rules.learning < n { sums.signal(rules.h) } else { None };
        open = signal.is_some();
        points.push(Point {
            n,
            value,
            mean_before: (0 < count).then_some(mean),
            sd_before: sd,
            t,
            u,
            sums,
            signal: signal.map(|(direction, _)| direction),
        });
        if let (None, Some((direction, since))) = (first, signal) {
            let from = n - since;
            let part =
                |values: &[f64]| if values.is_empty() { f64::NAN } else { crate::numeric::mean(values) };
            first = Some(Signal {
                at: n,
                direction,
                since: from,
                level: part(&values[from..n]),
                before: if from == 0 { mean } else { part(&values[..from]) },
            });
        }
        if !(rules.freeze && open) {
            count += 1;
            let off = value - mean;
            mean += off / count as f64;
            squares += off * (value - mean);
        }
    }
    Ok(Line { points, first, open, learning: values.len() <= rules.learning })
}
