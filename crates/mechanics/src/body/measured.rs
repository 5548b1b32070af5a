//! How each number about a body was obtained, and how well it is known.

use quantity::{Length, Mass};

use super::fractions;
use crate::spread::{Si, WithError, root_sum_square, with_relative_sd};

/// Where a number about a body comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Provenance {
    /// Measured on this person.
    Measured,
    /// Taken from a table.
    Estimated {
        /// Which table.
        source: Source,
        /// Whether a table of adults was applied to somebody under 18.
        adult_derived: bool,
    },
}

/// The tables in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// De Leva 1996, J Biomech 29(9):1223-1230, Table 4.
    DeLeva1996,
    /// Drillis & Contini 1966, New York University TR 1166-03.
    DrillisContini1966,
}

/// A value, its error and its origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known<Q> {
    /// The value with its error.
    pub value: WithError<Q>,
    /// How it was obtained.
    pub from: Provenance,
}

/// Lengths taken with a tape; whatever is absent was not measured and is estimated.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tape {
    /// Acromion to elbow crease line.
    pub upper_arm: Option<Length>,
    /// Elbow to wrist.
    pub forearm: Option<Length>,
    /// Wrist to third knuckle.
    pub wrist_to_knuckle: Option<Length>,
    /// Hip to knee.
    pub thigh: Option<Length>,
    /// Knee to ankle.
    pub shank: Option<Length>,
    /// Hip to shoulder.
    pub trunk: Option<Length>,
    /// Acromion to acromion.
    pub shoulder_breadth: Option<Length>,
    /// Elbow to elbow, arms at the sides as in the exercise.
    pub elbow_spacing: Option<Length>,
}

impl Tape {
    pub(crate) fn named(&self) -> [(&'static str, Option<Length>); 8] {
        [
            ("upper_arm", self.upper_arm),
            ("forearm", self.forearm),
            ("wrist_to_knuckle", self.wrist_to_knuckle),
            ("thigh", self.thigh),
            ("shank", self.shank),
            ("trunk", self.trunk),
            ("shoulder_breadth", self.shoulder_breadth),
            ("elbow_spacing", self.elbow_spacing),
        ]
    }
}

/// Error of a tape between bony points, metres: about a centimetre.
const TAPE_SD: f64 = 0.01;
/// Scatter of one person's length about a fraction of stature.
const PERSON_LENGTH_SD: f64 = 0.03;
/// Size of the disagreement between conventions of where a segment ends.
const CONVENTION_SD: f64 = 0.06;
/// Shoulder breadth by fraction is worse: published fractions run from 0.20 to 0.259.
const BREADTH_SD: f64 = 0.12;

pub(crate) fn taped(length: Length) -> Known<Length> {
    Known { value: WithError { value: length, sd: Length::from_metres(TAPE_SD) }, from: Provenance::Measured }
}

pub(crate) fn length(
    measured: Option<Length>,
    stature: Length,
    fraction: f64,
    source: Source,
    adult_derived: bool,
) -> Known<Length> {
    measured.map_or_else(
        || Known {
            value: with_relative_sd(
                Length::of(stature.metres() * fraction),
                root_sum_square([PERSON_LENGTH_SD, CONVENTION_SD]),
            ),
            from: Provenance::Estimated { source, adult_derived },
        },
        taped,
    )
}

pub(crate) fn breadth(measured: Option<Length>, stature: Length, adult_derived: bool) -> Known<Length> {
    measured.map_or_else(
        || Known {
            value: with_relative_sd(Length::of(stature.metres() * fractions::BIACROMIAL), BREADTH_SD),
            from: Provenance::Estimated { source: Source::DrillisContini1966, adult_derived },
        },
        taped,
    )
}

pub(crate) fn mass(body: Mass, fraction: f64, adult_derived: bool, allowance: f64) -> Known<Mass> {
    Known {
        value: with_relative_sd(Mass::of(body.kilograms() * fraction), allowance),
        from: Provenance::Estimated { source: Source::DeLeva1996, adult_derived },
    }
}
