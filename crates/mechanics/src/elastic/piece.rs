//! A piece cut from a roll: rest length, strands, and the pull between two ends.

use quantity::{Energy, Force, Length, Share};

use super::fit::{Fit, Reach};
use super::law::{Law, Stretch};

/// How a piece runs between its two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strands {
    /// One strand between two grips.
    Single,
    /// A closed loop round two round things (hands, or a hand and an anchor): two strands pull side by side.
    Loop {
        /// Diameter of what the loop runs round at each end.
        around: Length,
    },
}

/// A piece of a calibrated roll.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    law: Law,
    rest: Length,
    strands: Strands,
}

/// Why a piece makes no sense.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PieceRefusal {
    /// Rest length below two centimetres or above ten metres.
    Rest(Length),
    /// The loop cannot go round something this thick.
    Around(Length),
    /// A force law that pulls backwards, or harder than ten kilonewtons.
    Law(Law),
}

/// Why a piece may not be offered at a span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NotUsable {
    /// The end of the movement lies above the calibrated range by so much stretch.
    PastCalibration(Share),
    /// The end of the movement lies above the stretch that pieces are used to.
    PastLimit {
        /// What the span means.
        stretch: Stretch,
        /// The limit.
        limit: Stretch,
    },
    /// The span leaves the piece slack.
    Slack(Stretch),
}

/// Keeps every force finite whatever span is asked for.
const LONGEST_SPAN_M: f64 = 100.0;

/// Elongation of 200 %, the common-practice ceiling of use.
pub const STRETCH_LIMIT: Share = Share::from_fraction(2.0);

impl Piece {
    /// A piece of a roll: for a loop, the rest length is the whole way round.
    pub fn new(law: Law, rest: Length, strands: Strands) -> Result<Self, PieceRefusal> {
        if !(0.02..=10.0).contains(&rest.metres()) {
            return Err(PieceRefusal::Rest(rest));
        }
        if let Strands::Loop { around } = strands
            && !(0.0 <= around.metres() && around.metres() * std::f64::consts::PI < 10.0)
        {
            return Err(PieceRefusal::Around(around));
        }
        let sound = |force: Force| 0.0 <= force.newtons() && force.newtons() <= 1e4;
        let law_is_sound = match law {
            Law::MooneyRivlin { a, b } => sound(a) && sound(b),
            Law::Linear { at_double } => sound(at_double),
        };
        if law_is_sound { Ok(Self { law, rest, strands }) } else { Err(PieceRefusal::Law(law)) }
    }

    /// The law of one strand.
    pub fn law(&self) -> Law {
        self.law
    }

    /// Rest length; for a loop the whole way round.
    pub fn rest(&self) -> Length {
        self.rest
    }

    /// How it runs.
    pub fn strands(&self) -> Strands {
        self.strands
    }

    /// The same piece with another law or length, as error propagation needs it.
    pub(crate) fn scaled(&self, force: f64, rest_m: f64) -> Self {
        let law = match self.law {
            Law::MooneyRivlin { a, b } => Law::MooneyRivlin {
                a: Force::from_newtons(a.newtons() * force),
                b: Force::from_newtons(b.newtons() * force),
            },
            Law::Linear { at_double } => {
                Law::Linear { at_double: Force::from_newtons(at_double.newtons() * force) }
            }
        };
        Self { law, rest: Length::from_metres(self.rest.metres() + rest_m), strands: self.strands }
    }

    /// Stretch when the ends are this far apart. A span is at most a hundred metres, the length of no band.
    pub fn stretch(&self, span: Length) -> Stretch {
        let longest = Stretch::of(Length::from_metres(LONGEST_SPAN_M), self.rest);
        Stretch::from_ratio(self.stretch_at(span.metres())).or(longest).unwrap_or(Stretch::REST)
    }

    /// Force of one strand at a span.
    pub fn strand_force(&self, span: Length) -> Force {
        Force::from_newtons(self.law.force_n(self.stretch_at(span.metres())))
    }

    /// Pull on each end at a span: of one strand, or of the two of a loop.
    pub fn pull(&self, span: Length) -> Force {
        Force::from_newtons(self.pull_n(span.metres()))
    }

    /// Energy held at a span.
    pub fn energy(&self, span: Length) -> Energy {
        Energy::from_joules(self.law.energy_per_metre_j(self.stretch_at(span.metres())) * self.rest.metres())
    }

    /// Whether the piece may be offered for a movement that ends at this span.
    ///
    /// Never above the calibrated range, never above 200 % elongation, and not slack at the end.
    pub fn usable(&self, end: Length, calibration: &Fit) -> Result<(), Vec<NotUsable>> {
        let stretch = self.stretch(end);
        let limit = Stretch::from_ratio(1.0 + STRETCH_LIMIT.fraction()).unwrap_or(Stretch::REST);
        let mut reasons = Vec::new();
        if stretch <= Stretch::REST {
            reasons.push(NotUsable::Slack(stretch));
        }
        if let Reach::Above(by) = calibration.reach(stretch) {
            reasons.push(NotUsable::PastCalibration(by));
        }
        if limit < stretch {
            reasons.push(NotUsable::PastLimit { stretch, limit });
        }
        if reasons.is_empty() { Ok(()) } else { Err(reasons) }
    }

    pub(crate) fn pull_n(&self, span_m: f64) -> f64 {
        let strands = match self.strands {
            Strands::Single => 1.0,
            Strands::Loop { .. } => 2.0,
        };
        strands * self.law.force_n(self.stretch_at(span_m))
    }

    fn stretch_at(&self, span_m: f64) -> f64 {
        let span_m = span_m.clamp(0.0, LONGEST_SPAN_M);
        let path = match self.strands {
            Strands::Single => span_m,
            Strands::Loop { around } => 2.0 * span_m + std::f64::consts::PI * around.metres(),
        };
        path / self.rest.metres()
    }
}
