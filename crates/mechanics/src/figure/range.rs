//! Which joint angles a person can reach: limits that catch slips in a pose, not norms of anybody's range.

use quantity::{Angle, Length};

use super::pose::{ArmPose, LegPose, Pose};

/// A joint with one angle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joint {
    /// Plane in which the upper arm is lifted.
    ShoulderPlane,
    /// How far it is lifted.
    ShoulderElevation,
    /// Its turn about its own axis.
    ShoulderRotation,
    /// Bend of the elbow.
    Elbow,
    /// Lift of the thigh.
    HipFlexion,
    /// Thigh outwards.
    HipAbduction,
    /// Bend of the knee.
    Knee,
    /// Foot.
    Ankle,
    /// Trunk on pelvis.
    Trunk,
    /// Head on trunk.
    Neck,
}

/// An angle that no person reaches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OutOfRange {
    /// An angle.
    Angle {
        /// Which joint.
        joint: Joint,
        /// What the pose says.
        angle: Angle,
        /// Smallest and largest possible.
        limits: (Angle, Angle),
    },
    /// A slide of the blade.
    Slide {
        /// What the pose says.
        slide: Length,
        /// Smallest and largest possible.
        limits: (Length, Length),
    },
}

const BLADE: (f64, f64) = (-0.05, 0.08);

impl Joint {
    /// Smallest and largest angle in degrees; engineering limits, wide on purpose.
    const fn limits(self) -> (f64, f64) {
        match self {
            Self::ShoulderPlane => (-90.0, 140.0),
            Self::ShoulderElevation => (0.0, 190.0),
            Self::ShoulderRotation => (-110.0, 130.0),
            Self::Elbow => (-15.0, 160.0),
            Self::HipFlexion => (-40.0, 140.0),
            Self::HipAbduction => (-40.0, 70.0),
            Self::Knee => (-15.0, 160.0),
            Self::Ankle => (-80.0, 40.0),
            Self::Trunk => (-45.0, 110.0),
            Self::Neck => (-80.0, 80.0),
        }
    }
}

/// Everything in a pose that no person reaches; empty for a possible pose.
pub fn outside_range(pose: &Pose) -> Vec<OutOfRange> {
    let mut found = Vec::new();
    let mut angle = |joint: Joint, angle: Angle| {
        let (low, high) = joint.limits();
        if !(low..=high).contains(&angle.degrees()) {
            let limits = (Angle::from_degrees(low), Angle::from_degrees(high));
            found.push(OutOfRange::Angle { joint, angle, limits });
        }
    };
    angle(Joint::Trunk, pose.trunk_flexion);
    angle(Joint::Neck, pose.neck_flexion);
    for ArmPose { plane, elevation, rotation, elbow, .. } in [&pose.left_arm, &pose.right_arm] {
        angle(Joint::ShoulderPlane, *plane);
        angle(Joint::ShoulderElevation, *elevation);
        angle(Joint::ShoulderRotation, *rotation);
        angle(Joint::Elbow, *elbow);
    }
    for LegPose { hip_flexion, hip_abduction, knee, ankle } in [&pose.left_leg, &pose.right_leg] {
        angle(Joint::HipFlexion, *hip_flexion);
        angle(Joint::HipAbduction, *hip_abduction);
        angle(Joint::Knee, *knee);
        angle(Joint::Ankle, *ankle);
    }
    for arm in [&pose.left_arm, &pose.right_arm] {
        if !(BLADE.0..=BLADE.1).contains(&arm.protraction.metres()) {
            let limits = (Length::from_metres(BLADE.0), Length::from_metres(BLADE.1));
            found.push(OutOfRange::Slide { slide: arm.protraction, limits });
        }
    }
    found
}
