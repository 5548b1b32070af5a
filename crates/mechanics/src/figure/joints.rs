//! Joint positions of a posed body.

use nalgebra::{Rotation3, Vector3};
use quantity::{Angle, Length};

use super::pose::{ArmPose, LegPose, Pose};
use crate::body::Body;

/// A place in the room: right, forward and up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// To the right of the person standing.
    pub right: Length,
    /// In front.
    pub forward: Length,
    /// Above.
    pub up: Length,
}

/// Joints of one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limbs {
    /// Shoulder joint.
    pub shoulder: Place,
    /// Elbow joint.
    pub elbow: Place,
    /// Wrist joint.
    pub wrist: Place,
    /// Third knuckle, the middle of the grip.
    pub hand: Place,
    /// Hip joint.
    pub hip: Place,
    /// Knee joint.
    pub knee: Place,
    /// Ankle joint.
    pub ankle: Place,
    /// Ball of the foot, on the sole.
    pub toes: Place,
}

/// A posed body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Top of the head.
    pub crown: Place,
    /// Between the shoulder joints, without protraction.
    pub neck: Place,
    /// Between the hip joints.
    pub pelvis: Place,
    /// Left side.
    pub left: Limbs,
    /// Right side.
    pub right: Limbs,
}

/// Between the hip joints over stature, and from between the shoulders to the crown: for drawing only, no source.
const HIP_SPACING: f64 = 0.10;
const NECK_AND_HEAD: f64 = 0.18;
/// The ball of the foot lies at this part of the foot's length before the ankle: for drawing only.
const BALL_OF_FOOT: f64 = 0.6;

#[derive(Clone, Copy)]
enum Side {
    Left,
    Right,
}

impl Side {
    fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

impl Place {
    /// The origin.
    pub const ORIGIN: Self = Self {
        right: Length::from_metres(0.0),
        forward: Length::from_metres(0.0),
        up: Length::from_metres(0.0),
    };

    /// How far another place is away.
    pub fn distance(&self, other: &Self) -> Length {
        Length::from_metres((self.vector() - other.vector()).norm())
    }

    /// Moved by as much as another place lies from the origin.
    pub fn moved_by(&self, offset: &Self) -> Self {
        Self {
            right: self.right + offset.right,
            forward: self.forward + offset.forward,
            up: self.up + offset.up,
        }
    }

    fn vector(&self) -> Vector3<f64> {
        Vector3::new(self.right.metres(), self.forward.metres(), self.up.metres())
    }

    fn of(vector: Vector3<f64>) -> Self {
        Self {
            right: Length::from_metres(vector.x),
            forward: Length::from_metres(vector.y),
            up: Length::from_metres(vector.z),
        }
    }
}

/// Turns that every pose is put together from; angles in degrees, right-handed about the named axis.
fn about_right(angle: Angle) -> Rotation3<f64> {
    Rotation3::from_axis_angle(&Vector3::x_axis(), angle.radians())
}

fn about_forward(angle: Angle) -> Rotation3<f64> {
    Rotation3::from_axis_angle(&Vector3::y_axis(), angle.radians())
}

fn about_up(angle: Angle) -> Rotation3<f64> {
    Rotation3::from_axis_angle(&Vector3::z_axis(), angle.radians())
}

fn negative(angle: Angle) -> Angle {
    Angle::from_degrees(0.0) - angle
}

impl Figure {
    /// Poses a body.
    pub fn of(body: &Body, pose: &Pose) -> Self {
        let root = &pose.root;
        // Leaning forwards turns the head towards forward, which is a negative turn about the right axis.
        let pelvis_frame =
            about_up(root.heading) * about_right(negative(root.lean)) * about_forward(root.roll);
        let trunk_frame = pelvis_frame * about_right(negative(pose.trunk_flexion));
        let head_frame = trunk_frame * about_right(negative(pose.neck_flexion));
        let pelvis = root.pelvis.vector();
        let up = |metres: f64| Vector3::new(0.0, 0.0, metres);
        let neck = pelvis + trunk_frame * up(metres(body.trunk.length.value.value));
        let crown = neck + head_frame * up(NECK_AND_HEAD * metres(body.person.stature));
        let side = |side: Side, arm: &ArmPose, leg: &LegPose| {
            let arm = arm_joints(body, side, arm, neck, &trunk_frame);
            let leg = leg_joints(body, side, leg, pelvis, &pelvis_frame);
            Limbs {
                shoulder: Place::of(arm[0]),
                elbow: Place::of(arm[1]),
                wrist: Place::of(arm[2]),
                hand: Place::of(arm[3]),
                hip: Place::of(leg[0]),
                knee: Place::of(leg[1]),
                ankle: Place::of(leg[2]),
                toes: Place::of(leg[3]),
            }
        };
        Self {
            crown: Place::of(crown),
            neck: Place::of(neck),
            pelvis: root.pelvis,
            left: side(Side::Left, &pose.left_arm, &pose.left_leg),
            right: side(Side::Right, &pose.right_arm, &pose.right_leg),
        }
    }

    /// The whole figure moved.
    pub fn moved_by(&self, offset: &Place) -> Self {
        let limbs = |limbs: &Limbs| Limbs {
            shoulder: limbs.shoulder.moved_by(offset),
            elbow: limbs.elbow.moved_by(offset),
            wrist: limbs.wrist.moved_by(offset),
            hand: limbs.hand.moved_by(offset),
            hip: limbs.hip.moved_by(offset),
            knee: limbs.knee.moved_by(offset),
            ankle: limbs.ankle.moved_by(offset),
            toes: limbs.toes.moved_by(offset),
        };
        Self {
            crown: self.crown.moved_by(offset),
            neck: self.neck.moved_by(offset),
            pelvis: self.pelvis.moved_by(offset),
            left: limbs(&self.left),
            right: limbs(&self.right),
        }
    }

    /// The figure moved so that its lowest joint rests on the floor, at height nought.
    pub fn on_the_floor(&self) -> Self {
        let low = |limbs: &Limbs| {
            [
                limbs.shoulder,
                limbs.elbow,
                limbs.wrist,
                limbs.hand,
                limbs.hip,
                limbs.knee,
                limbs.ankle,
                limbs.toes,
            ]
            .iter()
            .map(|place| place.up)
            .fold(self.crown.up, Length::min)
        };
        let lowest = low(&self.left).min(low(&self.right));
        self.moved_by(&Place { up: Length::from_metres(0.0) - lowest, ..Place::ORIGIN })
    }
}

fn metres(length: Length) -> f64 {
    length.metres()
}

/// Shoulder, elbow, wrist and knuckle. Offsets are worked out for a right limb and mirrored for the left.
fn arm_joints(
    body: &Body,
    side: Side,
    pose: &ArmPose,
    neck: Vector3<f64>,
    trunk: &Rotation3<f64>,
) -> [Vector3<f64>; 4] {
    // Outwards is to the right here. Lifting in the plane of abduction is a turn that takes "down" outwards.
    let plane = about_up(pose.plane);
    let lift = plane * about_forward(negative(pose.elevation)) * plane.inverse();
    let upper = lift * about_up(negative(pose.rotation));
    let lower = upper * about_right(pose.elbow);
    let down = |metres: f64| Vector3::new(0.0, 0.0, -metres);
    let half = metres(body.shoulder_breadth.value.value) / 2.0;
    let shoulder = Vector3::new(half, metres(pose.protraction), 0.0);
    let elbow = shoulder + upper * down(metres(body.upper_arm.length.value.value));
    let wrist = elbow + lower * down(metres(body.forearm.length.value.value));
    let knuckle = wrist + lower * down(metres(body.hand.length.value.value));
    [shoulder, elbow, wrist, knuckle].map(|offset| neck + trunk * mirrored(side, offset))
}

/// Hip, knee, ankle and ball of the foot.
fn leg_joints(
    body: &Body,
    side: Side,
    pose: &LegPose,
    pelvis: Vector3<f64>,
    frame: &Rotation3<f64>,
) -> [Vector3<f64>; 4] {
    let thigh = about_right(pose.hip_flexion) * about_forward(negative(pose.hip_abduction));
    let shank = thigh * about_right(negative(pose.knee));
    let foot = shank * about_right(pose.ankle);
    let down = |metres: f64| Vector3::new(0.0, 0.0, -metres);
    let hip = Vector3::new(HIP_SPACING * metres(body.person.stature) / 2.0, 0.0, 0.0);
    let knee = hip + thigh * down(metres(body.thigh.length.value.value));
    let ankle = knee + shank * down(metres(body.shank.length.value.value));
    let ball = Vector3::new(
        0.0,
        BALL_OF_FOOT * metres(body.foot.length.value.value),
        -metres(body.ankle_height.value.value),
    );
    let toes = ankle + foot * ball;
    [hip, knee, ankle, toes].map(|offset| pelvis + frame * mirrored(side, offset))
}

fn mirrored(side: Side, offset: Vector3<f64>) -> Vector3<f64> {
    Vector3::new(side.sign() * offset.x, offset.y, offset.z)
}

/// Every rigid length of a figure, in a fixed order: what must be the same in every frame of a movement.
pub fn segment_lengths(figure: &Figure) -> Vec<(&'static str, Length)> {
    let mut lengths = vec![
        ("trunk", figure.pelvis.distance(&figure.neck)),
        ("head", figure.neck.distance(&figure.crown)),
        ("hips", figure.left.hip.distance(&figure.right.hip)),
    ];
    for limbs in [&figure.left, &figure.right] {
        lengths.extend([
            ("upper arm", limbs.shoulder.distance(&limbs.elbow)),
            ("forearm", limbs.elbow.distance(&limbs.wrist)),
            ("hand", limbs.wrist.distance(&limbs.hand)),
            ("thigh", limbs.hip.distance(&limbs.knee)),
            ("shank", limbs.knee.distance(&limbs.ankle)),
            ("foot", limbs.ankle.distance(&limbs.toes)),
        ]);
    }
    lengths
}
