//! Force laws of a strand: force against stretch, its slope and the energy stored.

use quantity::{Energy, Force, Length, Stiffness};

use crate::numeric;

/// Length over rest length; 1 is slack.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Stretch(f64);

impl Stretch {
    /// Slack.
    pub const REST: Self = Self(1.0);

    /// The stretch of a length against a rest length; nothing when the rest length is not positive.
    pub fn of(length: Length, rest: Length) -> Option<Self> {
        (0.0 < rest.metres()).then(|| length.metres() / rest.metres()).and_then(Self::from_ratio)
    }

    /// The stretch as a bare ratio; nothing when it is not a number, negative, or beyond any rubber.
    pub fn from_ratio(ratio: f64) -> Option<Self> {
        (0.0..=1e4).contains(&ratio).then_some(Self(ratio))
    }

    /// Length over rest length.
    pub const fn ratio(self) -> f64 {
        self.0
    }

    /// Percent elongation as therapy papers use it: 100 (L - L0) / L0.
    pub fn percent_elongation(self) -> f64 {
        100.0 * (self.0 - 1.0)
    }
}

/// Force of one strand against stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Mooney-Rivlin, uniaxial: F = a (l - l^-2) + b (1 - l^-3), with a = 2 C1 and b = 2 C2 times the rest area.
    ///
    /// Mooney 1940, J Appl Phys 11:582-592; Rivlin 1948. With b = 0 it is neo-Hookean. Good for stretches up to
    /// about 4, beyond which natural rubber stiffens; safe downwards to slack.
    MooneyRivlin {
        /// Weight of the first term.
        a: Force,
        /// Weight of the second term.
        b: Force,
    },
    /// F = f (l - 1): a steel spring, or a band somebody insists is linear.
    Linear {
        /// Force at double length.
        at_double: Force,
    },
}

impl Law {
    /// Force at a stretch; a slack strand pulls with nothing.
    pub fn force(&self, stretch: Stretch) -> Force {
        Force::from_newtons(self.force_n(stretch.0))
    }

    /// Slope of force against length for a strand of this rest length.
    pub fn stiffness(&self, stretch: Stretch, rest: Length) -> Stiffness {
        Stiffness::from_newtons_per_metre(self.slope_n(stretch.0) / rest.metres())
    }

    /// Energy that a strand of this rest length holds: the integral of force over length from slack.
    pub fn energy(&self, stretch: Stretch, rest: Length) -> Energy {
        Energy::from_joules(self.energy_per_metre_j(stretch.0) * rest.metres())
    }

    /// The stretch at which a strand pulls with a force; nothing for a negative force or one beyond eightfold length,
    /// where rubber breaks (de Lima 2019, Braz J Phys Ther 23(1):41-47).
    pub fn stretch_for(&self, force: Force) -> Option<Stretch> {
        let wanted = force.newtons();
        if wanted < 0.0 {
            return None;
        }
        numeric::root(|stretch| self.force_n(stretch) - wanted, 1.0, 8.0).and_then(Stretch::from_ratio)
    }

    pub(crate) fn force_n(&self, l: f64) -> f64 {
        if l <= 1.0 {
            return 0.0;
        }
        match self {
            Self::MooneyRivlin { a, b } => {
                let [first, second] = terms(l);
                a.newtons() * first + b.newtons() * second
            }
            Self::Linear { at_double } => at_double.newtons() * (l - 1.0),
        }
    }

    /// Newtons per unit of stretch.
    pub(crate) fn slope_n(&self, l: f64) -> f64 {
        if l < 1.0 {
            return 0.0;
        }
        match self {
            Self::MooneyRivlin { a, b } => {
                a.newtons() * (1.0 + 2.0 * l.powi(-3)) + 3.0 * b.newtons() * l.powi(-4)
            }
            Self::Linear { at_double } => at_double.newtons(),
        }
    }

    pub(crate) fn energy_per_metre_j(&self, l: f64) -> f64 {
        if l <= 1.0 {
            return 0.0;
        }
        match self {
            Self::MooneyRivlin { a, b } => {
                a.newtons() * (0.5 * l * l + 1.0 / l - 1.5) + b.newtons() * (l + 0.5 / (l * l) - 1.5)
            }
            Self::Linear { at_double } => 0.5 * at_double.newtons() * (l - 1.0).powi(2),
        }
    }
}

/// The two terms that the constants weigh.
pub(crate) fn terms(l: f64) -> [f64; 2] {
    [l - l.powi(-2), 1.0 - l.powi(-3)]
}
