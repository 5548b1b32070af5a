//! Joint angles of a whole body.

use quantity::{Angle, Length};

use super::joints::Place;

/// Where the pelvis is and how it is turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Middle between the hip joints.
    pub pelvis: Place,
    /// Turn about the upright axis, positive to the left.
    pub heading: Angle,
    /// Lean forwards: 0 upright, 90 face down, -90 on the back.
    pub lean: Angle,
    /// Roll onto the right side: 90 lies on it.
    pub roll: Angle,
}

/// One arm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmPose {
    /// Plane in which the upper arm is lifted: 0 sideways, 30 the plane of scaption, 90 straight forwards.
    pub plane: Angle,
    /// How far it is lifted: 0 hanging, 90 level.
    pub elevation: Angle,
    /// Turn about its own axis, positive outwards (external rotation).
    pub rotation: Angle,
    /// Bend of the elbow: 0 straight.
    pub elbow: Angle,
    /// How far the blade slides the shoulder joint forwards: the "plus" of a push-up.
    pub protraction: Length,
}

/// One leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegPose {
    /// Thigh lifted forwards.
    pub hip_flexion: Angle,
    /// Thigh moved outwards.
    pub hip_abduction: Angle,
    /// Bend of the knee: 0 straight.
    pub knee: Angle,
    /// Toes drawn up from a right angle; negative points them.
    pub ankle: Angle,
}

/// A whole pose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pose {
    /// Pelvis.
    pub root: Root,
    /// Trunk bent forwards on the pelvis.
    pub trunk_flexion: Angle,
    /// Head bent forwards on the trunk.
    pub neck_flexion: Angle,
    /// Left arm.
    pub left_arm: ArmPose,
    /// Right arm.
    pub right_arm: ArmPose,
    /// Left leg.
    pub left_leg: LegPose,
    /// Right leg.
    pub right_leg: LegPose,
}

const ZERO: Angle = Angle::from_degrees(0.0);

impl ArmPose {
    /// Hanging at the side.
    pub const HANGING: Self = Self {
        plane: ZERO,
        elevation: ZERO,
        rotation: ZERO,
        elbow: ZERO,
        protraction: Length::from_metres(0.0),
    };
}

impl LegPose {
    /// Straight down.
    pub const STRAIGHT: Self = Self { hip_flexion: ZERO, hip_abduction: ZERO, knee: ZERO, ankle: ZERO };
}

impl Pose {
    /// Standing, arms hanging, the pelvis at the origin.
    pub const STANDING: Self = Self {
        root: Root { pelvis: Place::ORIGIN, heading: ZERO, lean: ZERO, roll: ZERO },
        trunk_flexion: ZERO,
        neck_flexion: ZERO,
        left_arm: ArmPose::HANGING,
        right_arm: ArmPose::HANGING,
        left_leg: LegPose::STRAIGHT,
        right_leg: LegPose::STRAIGHT,
    };

    /// The same pose seen in a mirror: left and right change places.
    pub fn mirrored(&self) -> Self {
        let negative = |angle: Angle| ZERO - angle;
        let pelvis = Place { right: Length::from_metres(0.0) - self.root.pelvis.right, ..self.root.pelvis };
        Self {
            root: Root {
                pelvis,
                heading: negative(self.root.heading),
                roll: negative(self.root.roll),
                ..self.root
            },
            left_arm: self.right_arm,
            right_arm: self.left_arm,
            left_leg: self.right_leg,
            right_leg: self.left_leg,
            ..*self
        }
    }

    /// The pose a part of the way to another, every angle in proportion.
    pub fn towards(&self, other: &Self, part: f64) -> Self {
        let part = if part.is_finite() { part.clamp(0.0, 1.0) } else { 0.0 };
        let angle = |from: Angle, to: Angle| {
            Angle::from_degrees(from.degrees() + (to.degrees() - from.degrees()) * part)
        };
        let length = |from: Length, to: Length| {
            Length::from_metres(from.metres() + (to.metres() - from.metres()) * part)
        };
        let arm = |from: &ArmPose, to: &ArmPose| ArmPose {
            plane: angle(from.plane, to.plane),
            elevation: angle(from.elevation, to.elevation),
            rotation: angle(from.rotation, to.rotation),
            elbow: angle(from.elbow, to.elbow),
            protraction: length(from.protraction, to.protraction),
        };
        let leg = |from: &LegPose, to: &LegPose| LegPose {
            hip_flexion: angle(from.hip_flexion, to.hip_flexion),
            hip_abduction: angle(from.hip_abduction, to.hip_abduction),
            knee: angle(from.knee, to.knee),
            ankle: angle(from.ankle, to.ankle),
        };
        let (from, to) = (&self.root, &other.root);
        Self {
            root: Root {
                pelvis: Place {
                    right: length(from.pelvis.right, to.pelvis.right),
                    forward: length(from.pelvis.forward, to.pelvis.forward),
                    up: length(from.pelvis.up, to.pelvis.up),
                },
                heading: angle(from.heading, to.heading),
                lean: angle(from.lean, to.lean),
                roll: angle(from.roll, to.roll),
            },
            trunk_flexion: angle(self.trunk_flexion, other.trunk_flexion),
            neck_flexion: angle(self.neck_flexion, other.neck_flexion),
            left_arm: arm(&self.left_arm, &other.left_arm),
            right_arm: arm(&self.right_arm, &other.right_arm),
            left_leg: leg(&self.left_leg, &other.left_leg),
            right_leg: leg(&self.right_leg, &other.right_leg),
        }
    }
}
