//! Segment masses, mass centres and radii of gyration: de Leva 1996, J Biomech 29(9):1223-1230, Table 4 (looked up).
//!
//! Transcribed in `references/deleva-1996`. Rows are never mixed with cadaver tables, whose end points differ.

#![expect(clippy::approx_constant, reason = "a printed 0.318 is a radius of gyration, not one over pi")]

use super::{Sex, Source, fractions};

/// Radii of gyration about the mass centre, as fractions of the segment's length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gyration {
    /// About the axis that points forward.
    pub sagittal: f64,
    /// About the axis that points sideways.
    pub transverse: f64,
    /// About the segment's own long axis.
    pub longitudinal: f64,
}

/// One row for one sex.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Values {
    pub(crate) mass: f64,
    pub(crate) centre: f64,
    pub(crate) gyration: Gyration,
}

const fn values(mass: f64, centre: f64, sagittal: f64, transverse: f64, longitudinal: f64) -> Values {
    Values { mass, centre, gyration: Gyration { sagittal, transverse, longitudinal } }
}

/// The rows in use, named by their end points where the table offers more than one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Row {
    /// Vertex to mid-gonion.
    Head,
    /// Mid-shoulder to mid-hip.
    TrunkFromMidShoulder,
    UpperArm,
    Forearm,
    /// Wrist joint to third metacarpal head.
    Hand,
    Thigh,
    Shank,
    Foot,
}

impl Row {
    pub(crate) const fn of(self, sex: Sex) -> Values {
        match (self, sex) {
            (Self::Head, Sex::Female) => values(0.0668, 0.5894, 0.330, 0.359, 0.318),
            (Self::Head, Sex::Male) => values(0.0694, 0.5976, 0.362, 0.376, 0.312),
            (Self::TrunkFromMidShoulder, Sex::Female) => values(0.4257, 0.3782, 0.379, 0.361, 0.182),
            (Self::TrunkFromMidShoulder, Sex::Male) => values(0.4346, 0.4310, 0.384, 0.358, 0.197),
            (Self::UpperArm, Sex::Female) => values(0.0255, 0.5754, 0.278, 0.260, 0.148),
            (Self::UpperArm, Sex::Male) => values(0.0271, 0.5772, 0.285, 0.269, 0.158),
            (Self::Forearm, Sex::Female) => values(0.0138, 0.4559, 0.261, 0.257, 0.094),
            (Self::Forearm, Sex::Male) => values(0.0162, 0.4574, 0.276, 0.265, 0.121),
            (Self::Hand, Sex::Female) => values(0.0056, 0.7474, 0.531, 0.454, 0.335),
            (Self::Hand, Sex::Male) => values(0.0061, 0.7900, 0.628, 0.513, 0.401),
            (Self::Thigh, Sex::Female) => values(0.1478, 0.3612, 0.369, 0.364, 0.162),
            (Self::Thigh, Sex::Male) => values(0.1416, 0.4095, 0.329, 0.329, 0.149),
            (Self::Shank, Sex::Female) => values(0.0481, 0.4352, 0.267, 0.263, 0.092),
            (Self::Shank, Sex::Male) => values(0.0433, 0.4395, 0.251, 0.246, 0.102),
            (Self::Foot, Sex::Female) => values(0.0129, 0.4014, 0.299, 0.279, 0.139),
            (Self::Foot, Sex::Male) => values(0.0137, 0.4415, 0.257, 0.245, 0.124),
        }
    }
}

/// Where estimated arm lengths come from.
///
/// De Leva's mass-centre fractions belong to the joint-to-joint lengths of the same table; Drillis & Contini's arm is
/// about 15 % longer and gives 10-12 % more arm torque, which errs on the careful side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthSet {
    /// Drillis & Contini 1966; the usual choice.
    DrillisContini,
    /// De Leva 1996, joint centres (from memory).
    DeLeva,
}

/// Arm lengths as fractions of stature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ArmFractions {
    pub(crate) upper_arm: f64,
    pub(crate) forearm: f64,
    pub(crate) wrist_to_knuckle: f64,
    pub(crate) source: Source,
}

/// Millimetres over millimetres: the table prints lengths of a mean man of 1741 mm and a mean woman of 1735 mm.
pub(crate) fn arm_lengths(set: LengthSet, sex: Sex) -> ArmFractions {
    let (upper_arm, forearm, wrist_to_knuckle, stature) = match sex {
        Sex::Male => (281.7, 268.9, 86.2, 1741.0),
        Sex::Female => (275.1, 264.3, 78.0, 1735.0),
    };
    let wrist_to_knuckle = wrist_to_knuckle / stature;
    match set {
        LengthSet::DeLeva => ArmFractions {
            upper_arm: upper_arm / stature,
            forearm: forearm / stature,
            wrist_to_knuckle,
            source: Source::DeLeva1996,
        },
        // The older set knows only wrist to fingertip, and the hand's mass centre belongs to the knuckle.
        LengthSet::DrillisContini => ArmFractions {
            upper_arm: fractions::UPPER_ARM,
            forearm: fractions::FOREARM,
            wrist_to_knuckle,
            source: Source::DrillisContini1966,
        },
    }
}
