//! From an exercise of the protocol to a movement with its torque: the figure that is drawn gives the moment arms.
//!
//! Angles come from the drawing's keyframes, lengths from the body, the anchor from the drawing; the swimmer stands so
//! that the band is just tight at the start, as the set-up says.

use mechanics::body::Body;
use mechanics::elastic::Piece;
use mechanics::figure::{BandEnd, Frame, Part, Place};
use mechanics::strength::Rotation;
use mechanics::torque::{
    AnchoredRotation, BallCircles, Exercise as Geometry, HandLoad, HandRaise, Movement, Point, PushUp, Row,
    Support, Tempo, TwoHandRotation,
};
use quantity::{Angle, Force, Length, Mass, Time};
use trade::name::RungId;
use trade::protocol::figure::{BandRun, FigureJoint, FigurePart, FigureScript, JointAngle, Limb, Touched};
use trade::protocol::{Arms, Exercise};
use trade::side::Side;

use crate::drawn::{Drawn, drawn};

/// What resists.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kit {
    /// A piece of band.
    Band(Piece),
    /// A weight in each hand; none for bare hands.
    Weight(Mass),
}

/// How hard a ball is pressed to a wall: lightly, for a torque that is mostly the arm's own.
const PRESS: Force = Force::from_newtons(5.0);
/// A band that is just tight is this much longer than slack.
const JUST_TIGHT: f64 = 1.01;

/// The movement of an exercise for a body with a piece of kit; nothing where no torque is reckoned (holds, push-ups,
/// punches along the arm).
pub fn movement(exercise: &Exercise, rung: Option<&RungId>, body: &Body, kit: Kit) -> Option<Movement> {
    let script = exercise.figure(rung)?;
    let drawing = drawn(exercise, script, body, Some(Side::Right));
    let (geometry, from, to) = match kit {
        Kit::Band(piece) => pulled(exercise, script, &drawing, body, piece)?,
        Kit::Weight(mass) => lifted(script, &drawing, body, mass)?,
    };
    let beat = drawing.beat?;
    let tempo =
        Tempo::new(beat.out, beat.hold, if beat.back == Time::ZERO { beat.out } else { beat.back }).ok()?;
    Some(Movement { exercise: geometry, from, to, tempo })
}

/// What the hands carry in a push-up on one rung; nothing for any other exercise.
///
/// Where hands and feet are comes from the drawing: knees on the floor, hands on a bench of its height or on a wall, at
/// which the body stands as drawn half way.
pub fn push_up(exercise: &Exercise, rung: &RungId, body: &Body) -> Option<HandLoad> {
    let script = exercise.figure(Some(rung))?;
    let touches = |part: FigurePart, on: Touched| {
        script.contacts.iter().any(|contact| contact.part == part && contact.on == on)
    };
    if exercise.arms != Arms::Both || script.end.is_empty() {
        return None;
    }
    let support = if touches(FigurePart::Hand, Touched::Wall) {
        let drawing = drawn(exercise, script, body, None);
        let half = drawing.frames(&[0.5]).first()?.pose.root.lean;
        Support::Wall(Angle::from_degrees((90.0 - half.degrees()).clamp(45.0, 90.0)))
    } else if touches(FigurePart::Hand, Touched::Bench) {
        Support::Height(script.bench?)
    } else if touches(FigurePart::Hand, Touched::Floor) && touches(FigurePart::Knee, Touched::Floor) {
        Support::Knees
    } else if touches(FigurePart::Hand, Touched::Floor) && touches(FigurePart::Toes, Touched::Floor) {
        Support::Height(Length::from_metres(0.0))
    } else {
        return None;
    };
    let person = &body.person;
    PushUp { sex: person.sex, mass: person.mass, stature: person.stature, support }.load().ok()
}

/// Which way the upper arm is turned against a band, where that is what the exercise does.
pub fn rotation(exercise: &Exercise) -> Option<Rotation> {
    let script = exercise.figure(None)?;
    script.band?;
    let (from, to) = turned(script)?;
    Some(if from < to { Rotation::External } else { Rotation::Internal })
}

/// Start and end of a turn about the upper arm at the side with the elbow bent.
fn turned(script: &FigureScript) -> Option<(Angle, Angle)> {
    let angle = |angles: &[JointAngle], joint: FigureJoint| {
        angles
            .iter()
            .rev()
            .find(|angle| angle.joint == joint && matches!(angle.limb, Limb::WorkingArm | Limb::Arms))
            .map(|angle| angle.value)
    };
    let elbow = angle(&script.start, FigureJoint::Elbow)?;
    let lifted = angle(&script.start, FigureJoint::Elevation).unwrap_or(0.0);
    let from = angle(&script.start, FigureJoint::Rotation)?;
    let to = angle(&script.end, FigureJoint::Rotation)?;
    let at_the_side = (80.0..=100.0).contains(&elbow) && lifted <= 15.0;
    at_the_side.then(|| (Angle::from_degrees(from), Angle::from_degrees(to)))
}

fn pulled(
    exercise: &Exercise,
    script: &FigureScript,
    drawing: &Drawn,
    body: &Body,
    piece: Piece,
) -> Option<(Geometry, Angle, Angle)> {
    match script.band? {
        BandRun::HandToHand => {
            let (from, to) = turned(script)?;
            let geometry = Geometry::TwoHandRotation(TwoHandRotation {
                elbow_spacing: body.elbow_spacing.value.value,
                forearm: body.elbow_to_grip().value,
                piece,
            });
            Some((geometry, from, to))
        }
        BandRun::Anchored { .. } => match turned(script) {
            Some((from, to)) => Some((anchored(drawing, body, piece, from)?, from, to)),
            None if exercise.arms == Arms::Both => row(drawing, body, piece),
            None => None,
        },
    }
}

/// The anchor of the drawing's direction, as far from the hand as the slack band reaches.
fn anchored(drawing: &Drawn, body: &Body, piece: Piece, from: Angle) -> Option<Geometry> {
    let (hand, end) = drawing.scene.bands.first()?;
    let BandEnd::Anchor(anchor) = end else { return None };
    let start = drawing.frames(&[0.0]).first()?.figure;
    let forearm = body.elbow_to_grip().value;
    let (sin, cos) = from.radians().sin_cos();
    // Seen from the elbow axis: outwards (right is the working side here), forwards, upwards.
    let hand_at = [forearm.metres() * sin, forearm.metres() * cos, 0.0];
    let towards = unit(less(*anchor, hand.of(&start)))?;
    let far = tight(piece);
    // At elbow height: the set-up asks for the anchor there.
    let level = (towards[0].powi(2) + towards[1].powi(2)).sqrt();
    if level < 0.2 {
        return None;
    }
    let anchor = Point::at(hand_at[0] + far * towards[0] / level, hand_at[1] + far * towards[1] / level, 0.0);
    Some(Geometry::AnchoredRotation(AnchoredRotation { forearm, anchor, piece }))
}

/// A row, its pull and rise as drawn.
fn row(drawing: &Drawn, body: &Body, piece: Piece) -> Option<(Geometry, Angle, Angle)> {
    let (hand, end) = drawing.scene.bands.first()?;
    let BandEnd::Anchor(anchor) = end else { return None };
    let frames = drawing.frames(&[0.0, 1.0]);
    let (start, turn) = (frames.first()?, frames.last()?);
    let span = |frame: &Frame| hand.of(&frame.figure).distance(anchor).metres();
    let pull = span(turn) - span(start);
    let elbow_bends = turn.pose.right_arm.elbow.degrees() - start.pose.right_arm.elbow.degrees();
    // A punch or a press moves the hand without the elbow: no torque about the shoulder is reckoned for it.
    if pull < 0.1 || elbow_bends < 45.0 {
        return None;
    }
    let to_anchor = less(*anchor, hand.of(&turn.figure));
    let level = to_anchor[0].hypot(to_anchor[1]);
    let rise = Angle::from_radians(to_anchor[2].atan2(level));
    let start_flexion = start.pose.right_arm.elevation;
    let geometry = Geometry::Row(Row {
        start_distance: Length::from_metres(tight(piece)),
        pull: Length::from_metres(pull),
        upper_arm: body.upper_arm.length.value.value,
        forearm: body.elbow_to_grip().value,
        rise,
        start_flexion,
        piece,
    });
    Some((geometry, start_flexion, Angle::from_degrees(0.0)))
}

fn tight(piece: Piece) -> f64 {
    piece.rest().metres() * JUST_TIGHT
}

fn lifted(
    script: &FigureScript,
    drawing: &Drawn,
    body: &Body,
    mass: Mass,
) -> Option<(Geometry, Angle, Angle)> {
    if let Some(radius) = script.circle {
        let frames = drawing.frames(&[0.0]);
        let elevation = hanging(frames.first()?)?;
        let geometry = Geometry::BallCircles(BallCircles {
            arm: body.arm(),
            ball: mass,
            press: PRESS,
            radius,
            elevation,
        });
        return Some((geometry, Angle::from_degrees(0.0), Angle::from_degrees(360.0)));
    }
    if !script.weights {
        return None;
    }
    let frames = drawing.frames(&[0.0, 1.0]);
    let (from, to) = (hanging(frames.first()?)?, hanging(frames.last()?)?);
    let straight = frames.iter().all(|frame| frame.pose.right_arm.elbow.degrees() < 15.0);
    let geometry = Geometry::HandRaise(HandRaise { arm: body.arm(), weight: mass });
    (straight && from != to).then_some((geometry, from, to))
}

/// Elevation of the straight right arm from hanging, whatever way the body lies.
fn hanging(frame: &Frame) -> Option<Angle> {
    let figure = &frame.figure;
    let along = unit(less(Part::RightHand.of(figure), Part::RightShoulder.of(figure)))?;
    Some(Angle::from_radians((-along[2]).clamp(-1.0, 1.0).acos()))
}

fn less(one: Place, other: Place) -> [f64; 3] {
    [(one.right - other.right).metres(), (one.forward - other.forward).metres(), (one.up - other.up).metres()]
}

fn unit(vector: [f64; 3]) -> Option<[f64; 3]> {
    let long = vector.iter().map(|part| part * part).sum::<f64>().sqrt();
    (1e-9 < long).then(|| vector.map(|part| part / long))
}
