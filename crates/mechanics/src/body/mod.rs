//! Segment lengths and masses of one person, each with how it was obtained.
//!
//! Valid for healthy adults of ordinary build. The tables rest on about a hundred young men and fifteen young women;
//! for anybody under 18 every estimate is flagged as adult-derived, and nothing better was found for girls at all.

mod arm;
mod child;
mod fractions;
mod measured;
mod tables;

pub use arm::Arm;
pub use child::boy_head_share;
pub use measured::{Known, Provenance, Source, Tape};
pub use tables::{Gyration, LengthSet};

use quantity::{Length, Mass, Share};

use crate::spread::{WithError, root_sum_square};
use tables::Row;

/// Which of the two published tables applies to the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sex {
    /// The table for women.
    Female,
    /// The table for men.
    Male,
}

/// Age in whole years on the day asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Years(pub u8);

impl Years {
    /// Adult tables are applied without a flag from this age on.
    pub const ADULT: Self = Self(18);

    /// Whether estimates from adult tables must be flagged.
    pub fn is_minor(self) -> bool {
        self < Self::ADULT
    }
}

/// What the club knows of a person's body without a tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Person {
    /// Which table applies.
    pub sex: Sex,
    /// Age on the day asked about.
    pub age: Years,
    /// Body mass.
    pub mass: Mass,
    /// Standing height.
    pub stature: Length,
}

/// One segment, from its proximal joint to its distal end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Mass.
    pub mass: Known<Mass>,
    /// Length between the end points that the mass-centre share belongs to.
    pub length: Known<Length>,
    /// Where the mass centre lies, as a share of the length from the proximal end.
    pub centre: Share,
    /// Radii of gyration about the mass centre, as shares of the length.
    pub gyration: Gyration,
}

/// A whole body: what every moment arm and every drawing is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Whose body it is.
    pub person: Person,
    /// Shoulder joint to elbow joint.
    pub upper_arm: Segment,
    /// Elbow joint to wrist joint.
    pub forearm: Segment,
    /// Wrist joint to third knuckle, which is also where a weight or a grip is held.
    pub hand: Segment,
    /// Hip joint to knee joint.
    pub thigh: Segment,
    /// Knee joint to ankle joint.
    pub shank: Segment,
    /// Heel to toe.
    pub foot: Segment,
    /// Middle of the shoulders to middle of the hips.
    pub trunk: Segment,
    /// Between the two acromia.
    pub shoulder_breadth: Known<Length>,
    /// Between the two elbows at the sides, the base of every two-hand band geometry.
    pub elbow_spacing: Known<Length>,
    /// Ankle joint above the sole.
    pub ankle_height: Known<Length>,
}

/// Why no body could be made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BodyRefusal {
    /// Body mass is not positive, or beyond any person's.
    Mass(Mass),
    /// Stature is not positive, or beyond any person's.
    Stature(Length),
    /// A tape length is not positive, or longer than the person.
    Tape {
        /// What was measured.
        what: &'static str,
        /// What was entered.
        length: Length,
    },
}

impl Body {
    /// Estimates a body from a person's height, mass and sex; every measured length replaces its estimate.
    ///
    /// Masses, mass centres and radii: de Leva 1996, Table 4. Lengths: the chosen [`LengthSet`].
    /// Error: masses ±15 % under 16 and ±10 % from 16 on, estimated lengths 3 % for the person and 6 % for the
    /// convention (the two sets differ by 10-12 % in arm torque), tape lengths ±1 cm. The first two are allowances of
    /// this project, not published intervals.
    pub fn estimate(person: Person, set: LengthSet, tape: &Tape) -> Result<Self, Vec<BodyRefusal>> {
        let refusals = refusals(&person, tape);
        if !refusals.is_empty() {
            return Err(refusals);
        }
        let minor = person.age.is_minor();
        let arm = tables::arm_lengths(set, person.sex);
        let length = |measured: Option<Length>, fraction: f64, source| {
            measured::length(measured, person.stature, fraction, source, minor)
        };
        let segment = |row: Row, length: Known<Length>| {
            let of = row.of(person.sex);
            Segment {
                mass: measured::mass(person.mass, of.mass, minor, child::mass_allowance(person.age)),
                length,
                centre: Share::from_fraction(of.centre),
                gyration: of.gyration,
            }
        };
        let drillis = Source::DrillisContini1966;
        let breadth = measured::breadth(tape.shoulder_breadth, person.stature, minor);
        Ok(Self {
            person,
            upper_arm: segment(Row::UpperArm, length(tape.upper_arm, arm.upper_arm, arm.source)),
            forearm: segment(Row::Forearm, length(tape.forearm, arm.forearm, arm.source)),
            hand: segment(Row::Hand, length(tape.wrist_to_knuckle, arm.wrist_to_knuckle, Source::DeLeva1996)),
            thigh: segment(Row::Thigh, length(tape.thigh, fractions::THIGH, drillis)),
            shank: segment(Row::Shank, length(tape.shank, fractions::SHANK, drillis)),
            foot: segment(Row::Foot, length(None, fractions::FOOT, drillis)),
            trunk: segment(
                Row::TrunkFromMidShoulder,
                length(tape.trunk, fractions::HIP_TO_SHOULDER, drillis),
            ),
            shoulder_breadth: breadth,
            elbow_spacing: tape.elbow_spacing.map_or(breadth, measured::taped),
            ankle_height: length(None, fractions::ANKLE_HEIGHT, drillis),
        })
    }

    /// One straight arm with its masses and levers.
    pub fn arm(&self) -> Arm {
        Arm::of(self)
    }

    /// Elbow axis to the middle of the grip: the lever of every rotation exercise.
    pub fn elbow_to_grip(&self) -> WithError<Length> {
        let (forearm, hand) = (self.forearm.length.value, self.hand.length.value);
        WithError {
            value: forearm.value + hand.value,
            sd: Length::from_metres(root_sum_square([forearm.sd.metres(), hand.sd.metres()])),
        }
    }
}

/// Share of body mass in a whole arm (upper arm, forearm and hand), de Leva 1996.
pub fn arm_mass_share(sex: Sex) -> Share {
    let rows = [Row::UpperArm, Row::Forearm, Row::Hand];
    Share::from_fraction(rows.iter().map(|row| row.of(sex).mass).sum())
}

/// Sum of all mass shares of the table, each limb counted twice; published rounding leaves it within 0.0002 of one.
pub fn whole_body_share(sex: Sex) -> Share {
    let twice = [Row::UpperArm, Row::Forearm, Row::Hand, Row::Thigh, Row::Shank, Row::Foot];
    let once = [Row::Head, Row::TrunkFromMidShoulder];
    let sum = |rows: &[Row]| rows.iter().map(|row| row.of(sex).mass).sum::<f64>();
    Share::from_fraction(2.0 * sum(&twice) + sum(&once))
}

/// Lengths from stature alone by Drillis & Contini: shoulder breadth, upper arm, forearm, wrist to fingertip.
///
/// The numbers are sure, how well they fit one person is not; measure where it matters.
pub fn drillis_contini_lengths(stature: Length) -> [Length; 4] {
    [fractions::BIACROMIAL, fractions::UPPER_ARM, fractions::FOREARM, fractions::HAND_TO_FINGERTIP]
        .map(|fraction| Length::from_metres(stature.metres() * fraction))
}

fn refusals(person: &Person, tape: &Tape) -> Vec<BodyRefusal> {
    let mut refusals = Vec::new();
    if !(0.0 < person.mass.kilograms() && person.mass.kilograms() <= 300.0) {
        refusals.push(BodyRefusal::Mass(person.mass));
    }
    if !(0.0 < person.stature.metres() && person.stature.metres() <= 3.0) {
        refusals.push(BodyRefusal::Stature(person.stature));
    }
    for (what, length) in tape.named() {
        if let Some(length) = length
            && !(0.0 < length.metres() && length < person.stature.min(Length::from_metres(3.0)))
        {
            refusals.push(BodyRefusal::Tape { what, length });
        }
    }
    refusals
}

/// Mass shares and mass centres that the push-up model needs, for one sex.
pub(crate) struct WholeBody {
    pub(crate) head: f64,
    pub(crate) trunk: (f64, f64),
    pub(crate) arm: f64,
    pub(crate) thigh: (f64, f64),
    pub(crate) shank: (f64, f64),
    pub(crate) foot: f64,
}

pub(crate) fn mass_shares(sex: Sex) -> WholeBody {
    let pair = |row: Row| (row.of(sex).mass, row.of(sex).centre);
    WholeBody {
        head: Row::Head.of(sex).mass,
        trunk: pair(Row::TrunkFromMidShoulder),
        arm: arm_mass_share(sex).fraction(),
        thigh: pair(Row::Thigh),
        shank: pair(Row::Shank),
        foot: Row::Foot.of(sex).mass,
    }
}
