//! The body over its joints: thicknesses are shares of stature, for drawing only.

use mechanics::figure::{Figure, Limbs, Part};

use super::camera::{Camera, Vector, add, between, cross, dot, less, unit, vector};
use super::shape::Ball;

/// A group of skins that is drawn as one, with how near the eye it is.
pub(super) struct Group {
    pub(super) class: &'static str,
    pub(super) skins: Vec<(&'static str, Vec<Ball>)>,
    pub(super) near: f64,
    /// Drawn with a rim of ground, so that it stands off from what is behind it.
    pub(super) rimmed: bool,
}

/// Everything of the body, in a fixed order: the same in every frame.
pub(super) fn groups(figure: &Figure, stature: f64, working: &[Part], camera: &Camera) -> Vec<Group> {
    let frame = Frame::of(figure);
    let near =
        |places: &[Vector]| places.iter().map(|place| camera.near(*place)).sum::<f64>() / places.len() as f64;
    let v = vector;
    let arm = |limbs: &Limbs, hand: Part| Group {
        class: if working.contains(&hand) { "figure-working" } else { "figure-limb" },
        skins: arm(limbs, stature),
        near: near(&[v(&limbs.elbow), v(&limbs.wrist), v(&limbs.hand)]),
        rimmed: true,
    };
    let leg = |limbs: &Limbs| Group {
        class: "figure-limb",
        skins: leg(limbs, &frame, stature),
        near: near(&[v(&limbs.hip), v(&limbs.knee), v(&limbs.ankle)]),
        rimmed: true,
    };
    let trunk = between(frame.neck, frame.pelvis, 0.5);
    vec![
        Group {
            class: "figure-trunk",
            skins: trunk_skins(figure, &frame, stature),
            near: near(&[trunk]),
            rimmed: true,
        },
        Group {
            class: "figure-head",
            skins: head(&frame, stature),
            near: near(&[v(&figure.head())]),
            rimmed: true,
        },
        leg(&figure.left),
        leg(&figure.right),
        arm(&figure.left, Part::LeftHand),
        arm(&figure.right, Part::RightHand),
    ]
}

/// Directions of trunk and head.
struct Frame {
    neck: Vector,
    pelvis: Vector,
    crown: Vector,
    right: Vector,
    up: Vector,
    forward: Vector,
    head_up: Vector,
    head_forward: Vector,
}

impl Frame {
    fn of(figure: &Figure) -> Self {
        let (neck, pelvis, crown) = (vector(&figure.neck), vector(&figure.pelvis), vector(&figure.crown));
        let right = unit(less(vector(&figure.right.hip), vector(&figure.left.hip)), [1.0, 0.0, 0.0]);
        let up = unit(less(neck, pelvis), [0.0, 0.0, 1.0]);
        let head_up = unit(less(crown, neck), up);
        let forward = cross(up, right);
        let head_forward = cross(head_up, right);
        Self { neck, pelvis, crown, right, up, forward, head_up, head_forward }
    }

    /// A point of the trunk: from pelvis to neck, to the right and forwards, the last two in metres.
    fn at(&self, along: f64, right: f64, forward: f64) -> Vector {
        add(add(between(self.pelvis, self.neck, along), self.right, right), self.forward, forward)
    }
}

fn arm(limbs: &Limbs, h: f64) -> Vec<(&'static str, Vec<Ball>)> {
    let [shoulder, elbow, wrist, hand] =
        [&limbs.shoulder, &limbs.elbow, &limbs.wrist, &limbs.hand].map(vector);
    let finger = add(hand, unit(less(hand, wrist), [0.0, 0.0, -1.0]), 0.012 * h);
    vec![
        ("", vec![(shoulder, 0.0335 * h), (between(shoulder, elbow, 0.45), 0.027 * h), (elbow, 0.0215 * h)]),
        ("", vec![(elbow, 0.0215 * h), (between(elbow, wrist, 0.28), 0.0235 * h), (wrist, 0.0145 * h)]),
        ("", vec![(wrist, 0.0145 * h), (hand, 0.0195 * h), (finger, 0.0165 * h)]),
    ]
}

fn leg(limbs: &Limbs, frame: &Frame, h: f64) -> Vec<(&'static str, Vec<Ball>)> {
    let [hip, knee, ankle, toes] = [&limbs.hip, &limbs.knee, &limbs.ankle, &limbs.toes].map(vector);
    let calf = add(between(knee, ankle, 0.3), less(ankle, knee), 0.0);
    let (sole, along) = sole(knee, ankle, toes, frame.right);
    let heel = add(add(ankle, sole, 0.018 * h), along, -0.022 * h);
    let ball = add(toes, sole, -0.013 * h);
    let tip = add(ball, along, 0.042 * h);
    vec![
        ("", vec![(hip, 0.05 * h), (between(hip, knee, 0.35), 0.0455 * h), (knee, 0.031 * h)]),
        ("", vec![(knee, 0.031 * h), (calf, 0.0335 * h), (ankle, 0.02 * h)]),
        ("", vec![(ankle, 0.021 * h), (heel, 0.019 * h), (ball, 0.013 * h), (tip, 0.0095 * h)]),
    ]
}

/// Directions of a foot: through the sole, and from heel to toe.
///
/// Joints give only ankle and ball; the foot lies in the plane of the shank, the ball a known angle below the ankle.
fn sole(knee: Vector, ankle: Vector, toes: Vector, right: Vector) -> (Vector, Vector) {
    // Ankle height over ball's distance: 0.039 against 0.6 of 0.152 of stature.
    let below = (0.039_f64 / (0.6 * 0.152)).atan();
    let ray = unit(less(toes, ankle), [0.0, 1.0, 0.0]);
    let shank = unit(less(ankle, knee), [0.0, 0.0, -1.0]);
    let axis = unit(cross(shank, ray), right);
    // Turning the ray back about the axis gives the line of the sole; a right angle on from it points through the sole.
    let turned = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        let side = cross(axis, ray);
        let along = dot(axis, ray) * (1.0 - cos);
        add(add(add([0.0; 3], ray, cos), side, sin), axis, along)
    };
    (turned(below - std::f64::consts::FRAC_PI_2), turned(below))
}

fn trunk_skins(figure: &Figure, frame: &Frame, h: f64) -> Vec<(&'static str, Vec<Ball>)> {
    let [left, right] = [&figure.left.shoulder, &figure.right.shoulder].map(vector);
    let (hip_l, hip_r) = (vector(&figure.left.hip), vector(&figure.right.hip));
    let ribs = [-1.0, 1.0].map(|side| frame.at(0.66, side * 0.052 * h, 0.006 * h));
    let waist = [-1.0, 1.0].map(|side| frame.at(0.3, side * 0.038 * h, 0.0));
    let top = add(frame.neck, frame.up, 0.012 * h);
    let inner = |shoulder: Vector| between(shoulder, frame.neck, 0.12);
    let neck = between(frame.neck, frame.crown, 0.3);
    vec![
        (
            "",
            vec![
                (frame.neck, 0.034 * h),
                (neck, 0.026 * h),
                (between(frame.neck, frame.crown, 0.5), 0.026 * h),
            ],
        ),
        (
            "",
            vec![
                (inner(left), 0.031 * h),
                (inner(right), 0.031 * h),
                (top, 0.03 * h),
                (ribs[0], 0.057 * h),
                (ribs[1], 0.057 * h),
            ],
        ),
        ("", vec![(ribs[0], 0.057 * h), (ribs[1], 0.057 * h), (waist[0], 0.047 * h), (waist[1], 0.047 * h)]),
        (
            "figure-suit",
            vec![(waist[0], 0.047 * h), (waist[1], 0.047 * h), (hip_l, 0.051 * h), (hip_r, 0.051 * h)],
        ),
    ]
}

fn head(frame: &Frame, h: f64) -> Vec<(&'static str, Vec<Ball>)> {
    let skull = between(frame.neck, frame.crown, 0.68);
    let seen =
        |up: f64, forward: f64| add(add(skull, frame.head_up, up * h), frame.head_forward, forward * h);
    vec![
        ("", vec![(skull, 0.05 * h), (seen(-0.036, 0.018), 0.029 * h), (seen(-0.012, 0.032), 0.025 * h)]),
        (
            "figure-cap",
            vec![
                (seen(0.013, -0.006), 0.047 * h),
                (seen(0.006, -0.02), 0.04 * h),
                (seen(0.022, 0.014), 0.036 * h),
            ],
        ),
    ]
}
