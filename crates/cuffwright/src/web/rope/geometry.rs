//! Where the parts of a rope stand, in the drawing's own units.

use quantity::HoldTime;

/// Seconds that one float stands for.
pub(super) const FLOAT_SECONDS: f64 = 10.0;
/// From one float to the next.
const PITCH: f64 = 16.0;
/// Longest cap that is drawn, the longest set the record takes; a longer one would only be a slip of the pen.
const LONGEST: f64 = 600.0;
/// Width of a float; the rest of the pitch is bare cable.
const WIDTH: f64 = 12.0;
/// Cable before the first float.
const LEAD: f64 = 4.0;
/// Room behind the last float for the wall.
const TAIL: f64 = 12.0;
/// Height of the drawing.
pub(super) const HEIGHT: f64 = 38.0;
/// Height at which the cable runs.
pub(super) const CABLE: f64 = 26.0;
/// Height of a float.
pub(super) const TALL: f64 = 20.0;
/// Height at which the end mark stands.
pub(super) const MARK: f64 = 7.5;

/// Which way a rope runs. A left shoulder runs leftward, so that both shoulders spread from the middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heading {
    /// From left to right.
    Rightward,
    /// From right to left.
    Leftward,
}

impl Heading {
    pub(super) const fn word(self) -> &'static str {
        match self {
            Heading::Rightward => "rightward",
            Heading::Leftward => "leftward",
        }
    }
}

/// One float.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Float {
    /// Left edge.
    pub x: f64,
    /// Width; less than a full float only where the cap ends inside it.
    pub width: f64,
    /// Left edge of the filled part.
    pub filled_x: f64,
    /// Width of the filled part; nothing when the set did not get there.
    pub filled: f64,
}

/// A rope in numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Geometry {
    /// Which way it runs.
    pub heading: Heading,
    /// Width of the drawing.
    pub width: f64,
    /// One a started 10 s of cap, in the order in which time passes.
    pub floats: Vec<Float>,
    /// Where the time held stands.
    pub held_at: f64,
    /// Where the wall stands: the end of the cap.
    pub wall_at: f64,
    /// Where the cable begins.
    pub cable_from: f64,
}

impl Geometry {
    /// Lays out a set. `scale` is the longest cap on the page; a cap beyond it stretches the drawing, never the
    /// floats. A time beyond the cap is drawn as the cap: the words still say what was recorded.
    pub fn of(held: HoldTime, cap: HoldTime, scale: HoldTime, heading: Heading) -> Self {
        let cap = cap.seconds().clamp(0.0, LONGEST);
        let held = held.seconds().clamp(0.0, cap);
        let width = LEAD + full_floats(scale.seconds().clamp(cap, LONGEST)) * PITCH + TAIL;
        let count = full_floats(cap) as usize;
        let ahead = Self {
            heading: Heading::Rightward,
            width,
            floats: Vec::new(),
            held_at: along(held),
            wall_at: along(cap) + 3.0,
            cable_from: 0.0,
        };
        let floats = (0..count).map(|index| float(index as f64 * FLOAT_SECONDS, held, cap)).collect();
        let rightward = Self { floats, ..ahead };
        match heading {
            Heading::Rightward => rightward,
            Heading::Leftward => rightward.mirrored(),
        }
    }

    fn mirrored(self) -> Self {
        let width = self.width;
        let turned = |float: Float| Float {
            x: width - float.x - float.width,
            filled_x: width - float.filled_x - float.filled,
            ..float
        };
        Self {
            heading: Heading::Leftward,
            floats: self.floats.into_iter().map(turned).collect(),
            held_at: width - self.held_at,
            wall_at: width - self.wall_at,
            cable_from: width - self.cable_from,
            width,
        }
    }
}

/// Floats for a stretch of time; a started float counts.
fn full_floats(seconds: f64) -> f64 {
    (seconds / FLOAT_SECONDS - 1e-9).ceil().max(0.0)
}

/// Where a moment stands on a rope that runs rightward: time passes only along floats, so that 10 s is exactly
/// one filled float, and the bare cable between two floats takes no time.
fn along(seconds: f64) -> f64 {
    let whole = (seconds / FLOAT_SECONDS + 1e-9).floor();
    let within = (seconds - whole * FLOAT_SECONDS).max(0.0) / FLOAT_SECONDS * WIDTH;
    // At a whole number of floats the moment stands on the far edge of the last one, not before the next.
    if within <= 1e-6 && whole > 0.0 {
        LEAD + (whole - 1.0) * PITCH + WIDTH
    } else {
        LEAD + whole * PITCH + within
    }
}

fn float(begins: f64, held: f64, cap: f64) -> Float {
    let share = |until: f64| ((until - begins) / FLOAT_SECONDS).clamp(0.0, 1.0);
    let x = LEAD + begins / FLOAT_SECONDS * PITCH;
    Float { x, width: share(cap) * WIDTH, filled_x: x, filled: share(held) * WIDTH }
}
