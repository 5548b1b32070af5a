//! Plots on two axes: as SVG with name, description and classes, as a table, and as text for a terminal.
//!
//! - [`Plot`] is plain data: axes and what stands on them. `ticks` chooses round numbers. `draw` makes the SVG,
//!   [`Twin`] the table, [`mod@text`] the terminal's version. No plot is shown without its twin.

mod draw;
mod text;
mod ticks;
mod twin;

pub use draw::{STYLE, svg};
pub use text::text;
pub use ticks::{Tick, ticks};
pub use twin::Twin;

/// A plot.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot<'a> {
    /// What it is.
    pub name: &'a str,
    /// What it shows, in a sentence: what a person who cannot see it needs to know.
    pub description: &'a str,
    /// Across.
    pub x: Axis<'a>,
    /// Upwards.
    pub y: Axis<'a>,
    /// What stands on it, from back to front.
    pub marks: Vec<Mark<'a>>,
}

/// An axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis<'a> {
    /// Quantity and unit.
    pub label: &'a str,
    /// Smallest value shown; chosen from what stands on the plot when absent.
    pub from: Option<f64>,
    /// Largest value shown.
    pub to: Option<f64>,
    /// Words instead of numbers, at these values.
    pub named: Vec<(f64, &'a str)>,
}

impl<'a> Axis<'a> {
    /// An axis that chooses its own ends.
    pub const fn of(label: &'a str) -> Self {
        Self { label, from: None, to: None, named: Vec::new() }
    }

    /// The same, beginning at nought.
    pub const fn from_nought(label: &'a str) -> Self {
        Self { label, from: Some(0.0), to: None, named: Vec::new() }
    }
}

/// How something is told apart: by dash and shape as well as by colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// What the plot is about: solid, round points.
    First,
    /// What it is compared with: long dashes, square points.
    Second,
    /// A third: short dashes, pointed points.
    Third,
    /// Context: thin and quiet.
    Quiet,
    /// A limit: strong and red.
    Limit,
}

impl Role {
    pub(crate) const fn class(self) -> &'static str {
        match self {
            Role::First => "plot-first",
            Role::Second => "plot-second",
            Role::Third => "plot-third",
            Role::Quiet => "plot-quiet",
            Role::Limit => "plot-limit",
        }
    }
}

/// Something on a plot. `name` stands at it and heads its column in the twin; an empty name shows neither.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark<'a> {
    /// A line through points.
    Line {
        /// What it is.
        name: &'a str,
        /// Which.
        role: Role,
        /// Across and up.
        points: Vec<(f64, f64)>,
    },
    /// A line that keeps its height until the next point: what lasts until it changes.
    Steps {
        /// What it is.
        name: &'a str,
        /// Which.
        role: Role,
        /// Across and up.
        points: Vec<(f64, f64)>,
    },
    /// Everything between two lines: an interval.
    Band {
        /// What it is.
        name: &'a str,
        /// Which.
        role: Role,
        /// Across, low and high.
        points: Vec<(f64, f64, f64)>,
    },
    /// Single readings.
    Points {
        /// What they are.
        name: &'a str,
        /// Which.
        role: Role,
        /// Across and up.
        points: Vec<(f64, f64)>,
    },
    /// Single readings with an interval each.
    Intervals {
        /// What they are.
        name: &'a str,
        /// Which.
        role: Role,
        /// Across, low, value and high.
        points: Vec<(f64, f64, f64, f64)>,
    },
    /// Columns from nought, so wide.
    Bars {
        /// What they are.
        name: &'a str,
        /// Which.
        role: Role,
        /// Width of each, in units of the axis.
        width: f64,
        /// Middle and height.
        bars: Vec<(f64, f64)>,
    },
    /// A level line right across.
    Level {
        /// What it is.
        name: &'a str,
        /// Which.
        role: Role,
        /// Where.
        at: f64,
    },
    /// An upright line.
    Moment {
        /// What it is.
        name: &'a str,
        /// Which.
        role: Role,
        /// Where.
        at: f64,
    },
    /// Words at a place.
    Words {
        /// What it says.
        words: &'a str,
        /// Across and up.
        at: (f64, f64),
    },
}

impl Mark<'_> {
    /// Places that axes must reach: across and up, where the mark has them.
    fn reach(&self) -> (Vec<f64>, Vec<f64>) {
        match self {
            Mark::Line { points, .. } | Mark::Steps { points, .. } | Mark::Points { points, .. } => {
                points.iter().copied().unzip()
            }
            Mark::Band { points, .. } => {
                let across = points.iter().map(|(x, ..)| *x).collect();
                (across, points.iter().flat_map(|(_, low, high)| [*low, *high]).collect())
            }
            Mark::Intervals { points, .. } => {
                let across = points.iter().map(|(x, ..)| *x).collect();
                (across, points.iter().flat_map(|(_, low, value, high)| [*low, *value, *high]).collect())
            }
            Mark::Bars { width, bars, .. } => {
                let across = bars.iter().flat_map(|(x, _)| [x - width / 2.0, x + width / 2.0]).collect();
                (across, bars.iter().map(|(_, y)| *y).chain([0.0]).collect())
            }
            Mark::Level { at, .. } => (Vec::new(), vec![*at]),
            Mark::Moment { at, .. } => (vec![*at], Vec::new()),
            Mark::Words { at, .. } => (vec![at.0], vec![at.1]),
        }
    }
}

impl Plot<'_> {
    /// Ends and ticks of both axes.
    fn scales(&self) -> (Scale, Scale) {
        let (mut across, mut up) = (Vec::new(), Vec::new());
        for mark in &self.marks {
            let (x, y) = mark.reach();
            across.extend(x);
            up.extend(y);
        }
        (Scale::of(&self.x, &across, 7), Scale::of(&self.y, &up, 5))
    }
}

/// An axis with its ends settled.
#[derive(Debug, Clone, PartialEq)]
struct Scale {
    from: f64,
    to: f64,
    ticks: Vec<Tick>,
}

impl Scale {
    fn of(axis: &Axis<'_>, values: &[f64], about: usize) -> Self {
        let finite = || values.iter().copied().filter(|value| value.is_finite());
        let low = axis.from.unwrap_or_else(|| finite().fold(f64::INFINITY, f64::min));
        let high = axis.to.unwrap_or_else(|| finite().fold(f64::NEG_INFINITY, f64::max));
        let (low, high) = if low < high {
            (low, high)
        } else if low.is_finite() && (low == high || axis.from.is_some()) {
            (low, low + 1.0)
        } else {
            (0.0, 1.0)
        };
        if !axis.named.is_empty() {
            let ticks =
                axis.named.iter().map(|(at, words)| Tick { at: *at, words: (*words).to_owned() }).collect();
            return Self { from: low, to: high, ticks };
        }
        let (from, to, ticks) =
            ticks::ends_and_ticks(low, high, about, axis.from.is_some(), axis.to.is_some());
        Self { from, to, ticks }
    }

    /// Part of the way along, 0 to 1 inside.
    fn part(&self, value: f64) -> f64 {
        (value - self.from) / (self.to - self.from)
    }
}
