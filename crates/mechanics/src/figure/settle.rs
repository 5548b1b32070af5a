//! Moves a pose as little as its contacts need: damped least squares over the joint angles.

use nalgebra::{DMatrix, DVector};
use quantity::{Angle, Length};

use super::joints::{Figure, Place};
use super::part::Part;
use super::pose::{ArmPose, LegPose, Pose, Root};
use crate::body::Body;

/// Where a part has to be, in metres: right, forward, up.
pub(super) enum Wish {
    /// At one level of one axis.
    Level(usize, f64),
    /// At one place.
    At([f64; 3]),
    /// So far from another part.
    Beside(Part, f64),
}

/// A part and its wish.
pub(super) struct Demand {
    pub(super) part: Part,
    pub(super) wish: Wish,
}

impl Demand {
    /// How far the part is from its wish, along each axis that counts, in metres.
    pub(super) fn off(&self, figure: &Figure) -> Vec<f64> {
        let at = numbers(&self.part.of(figure));
        match &self.wish {
            Wish::Level(axis, level) => vec![at[*axis] - level],
            Wish::At(place) => at.iter().zip(place).map(|(at, wish)| at - wish).collect(),
            Wish::Beside(other, away) => {
                let other = numbers(&other.of(figure));
                let apart = at.iter().zip(&other).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt();
                vec![apart - away]
            }
        }
    }
}

fn numbers(place: &Place) -> [f64; 3] {
    [place.right.metres(), place.forward.metres(), place.up.metres()]
}

/// Numbers of a pose that may move, in degrees and metres.
const N: usize = 24;
/// How freely each may move: pelvis, lean, roll, trunk, then both arms and both legs.
const FREE: [f64; N] = [
    0.3, 0.3, 0.3, 10.0, 8.0, 2.0, 15.0, 15.0, 15.0, 20.0, 0.02, 15.0, 15.0, 15.0, 20.0, 0.02, 15.0, 8.0,
    15.0, 20.0, 15.0, 8.0, 15.0, 20.0,
];
/// Elbows and knees, which a drawing never bends past straight.
const HINGES: [usize; 4] = [9, 14, 18, 22];
/// Weight of the contacts: a millimetre off weighs as much as a joint moved by all it is free to.
const NEAR: f64 = 1e-3;
/// Stiffness that holds a hinge against any pull of the contacts.
const HELD: f64 = 1e12;
/// Contacts are made when they are this near, metres.
const EXACT: f64 = 2e-5;
/// A step this small, as a part of what each number is free to move, changes nothing that can be seen.
const SETTLED: f64 = 3e-3;
/// Numbers of the pelvis come first.
const PELVIS: usize = 3;
const ROUNDS: usize = 10;
/// Rounds in which only the contacts pull.
const LAST_ROUNDS: usize = 6;

/// A pose moved by as much as its wish has moved: where to begin looking for the next frame.
pub(super) fn nudged(pose_before: &Pose, wished_before: &Pose, wish: &Pose) -> Pose {
    let moved = vector(wish) - vector(wished_before);
    let mut now = vector(pose_before);
    for index in PELVIS..N {
        now[index] += moved[index];
    }
    pose(&now, wish)
}

/// The pose nearest to a wish that meets every demand, or as nearly as the body can; looking begins at a guess.
pub(super) fn settle(body: &Body, guess: &Pose, wish: &Pose, demands: &[Demand]) -> Pose {
    if demands.is_empty() {
        return *wish;
    }
    let wished = vector(wish);
    let held = held_by(demands);
    let mut now = vector(guess);
    for index in (0..N).filter(|index| !held[*index]) {
        now[index] = wished[index];
    }
    let mut only_contacts = false;
    for round in 0..ROUNDS + LAST_ROUNDS {
        only_contacts |= ROUNDS <= round;
        let off = residuals(body, &now, wish, demands);
        if only_contacts && off.amax() < EXACT {
            break;
        }
        let slopes = jacobian(body, &now, wish, demands, &off, &held);
        let Some(step) = step(&slopes, &off, &now, &wished, only_contacts) else { break };
        now += &step;
        for hinge in HINGES {
            now[hinge] = now[hinge].max(0.0);
        }
        let longest = step.iter().zip(FREE).map(|(step, free)| (step / free).abs()).fold(0.0, f64::max);
        if longest < SETTLED {
            if only_contacts {
                break;
            }
            only_contacts = true;
        }
    }
    pose(&now, wish)
}

/// Which numbers of a pose can move a demanded part at all.
fn held_by(demands: &[Demand]) -> [bool; N] {
    let mut held = [false; N];
    let mut hold = |part: Part| match part {
        Part::LeftElbow | Part::LeftWrist | Part::LeftHand => held[6..11].fill(true),
        Part::RightElbow | Part::RightWrist | Part::RightHand => held[11..16].fill(true),
        Part::LeftKnee | Part::LeftAnkle | Part::LeftToes => held[16..20].fill(true),
        Part::RightKnee | Part::RightAnkle | Part::RightToes => held[20..24].fill(true),
        Part::LeftShoulder => held[10] = true,
        Part::RightShoulder => held[15] = true,
        Part::Head | Part::Back | Part::Pelvis | Part::LeftHip | Part::RightHip => {}
    };
    for demand in demands {
        hold(demand.part);
        if let Wish::Beside(other, _) = demand.wish {
            hold(other);
        }
    }
    held[..6].fill(true);
    held
}

/// Solves (J'J / near^2 + D) step = -J' off / near^2 - D (now - wished), with D the stiffness of every angle.
fn step(
    slopes: &DMatrix<f64>,
    off: &DVector<f64>,
    now: &DVector<f64>,
    wished: &DVector<f64>,
    only_contacts: bool,
) -> Option<DVector<f64>> {
    let weight = 1.0 / (NEAR * NEAR);
    let mut left = slopes.transpose() * slopes * weight;
    let mut right = slopes.transpose() * off * -weight;
    for index in 0..N {
        let stiffness = 1.0 / (FREE[index] * FREE[index]);
        left[(index, index)] += stiffness;
        if !only_contacts {
            right[index] -= stiffness * (now[index] - wished[index]);
        }
    }
    // A hinge that is straight and would bend the wrong way is held there, so that other joints do its part.
    let mut step = left.clone().cholesky()?.solve(&right);
    let held: Vec<usize> =
        HINGES.into_iter().filter(|hinge| now[*hinge] <= 0.0 && step[*hinge] < 0.0).collect();
    if !held.is_empty() {
        for hinge in held {
            left[(hinge, hinge)] += HELD;
        }
        step = left.cholesky()?.solve(&right);
    }
    // A long step leaves the region where the slopes mean anything.
    let longest = step.iter().zip(FREE).map(|(step, free)| (step / free).abs()).fold(0.0, f64::max);
    let most = 2.5;
    Some(if most < longest { step * (most / longest) } else { step })
}

fn residuals(body: &Body, now: &DVector<f64>, like: &Pose, demands: &[Demand]) -> DVector<f64> {
    let figure = Figure::of(body, &pose(now, like));
    DVector::from_vec(demands.iter().flat_map(|demand| demand.off(&figure)).collect())
}

fn jacobian(
    body: &Body,
    now: &DVector<f64>,
    like: &Pose,
    demands: &[Demand],
    off: &DVector<f64>,
    held: &[bool; N],
) -> DMatrix<f64> {
    let mut slopes = DMatrix::zeros(off.len(), N);
    for index in (0..N).filter(|index| held[*index]) {
        let nudge = 1e-5 * FREE[index];
        let mut moved = now.clone();
        moved[index] += nudge;
        let change = (residuals(body, &moved, like, demands) - off) / nudge;
        slopes.set_column(index, &change);
    }
    slopes
}

fn vector(pose: &Pose) -> DVector<f64> {
    let root = &pose.root;
    let arm = |arm: &ArmPose| {
        [
            arm.plane.degrees(),
            arm.elevation.degrees(),
            arm.rotation.degrees(),
            arm.elbow.degrees(),
            arm.protraction.metres(),
        ]
    };
    let leg = |leg: &LegPose| {
        [leg.hip_flexion.degrees(), leg.hip_abduction.degrees(), leg.knee.degrees(), leg.ankle.degrees()]
    };
    let mut all = numbers(&root.pelvis).to_vec();
    all.extend([root.lean.degrees(), root.roll.degrees(), pose.trunk_flexion.degrees()]);
    all.extend(arm(&pose.left_arm));
    all.extend(arm(&pose.right_arm));
    all.extend(leg(&pose.left_leg));
    all.extend(leg(&pose.right_leg));
    DVector::from_vec(all)
}

fn pose(all: &DVector<f64>, like: &Pose) -> Pose {
    let degrees = |index: usize| Angle::from_degrees(all[index]);
    let metres = |index: usize| Length::from_metres(all[index]);
    let arm = |at: usize| ArmPose {
        plane: degrees(at),
        elevation: degrees(at + 1),
        rotation: degrees(at + 2),
        elbow: degrees(at + 3),
        protraction: metres(at + 4),
    };
    let leg = |at: usize| LegPose {
        hip_flexion: degrees(at),
        hip_abduction: degrees(at + 1),
        knee: degrees(at + 2),
        ankle: degrees(at + 3),
    };
    Pose {
        root: Root {
            pelvis: Place { right: metres(0), forward: metres(1), up: metres(2) },
            heading: like.root.heading,
            lean: degrees(3),
            roll: degrees(4),
        },
        trunk_flexion: degrees(5),
        neck_flexion: like.neck_flexion,
        left_arm: arm(6),
        right_arm: arm(11),
        left_leg: leg(16),
        right_leg: leg(20),
    }
}
