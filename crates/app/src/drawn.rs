//! From the protocol's drawings to a movement that a body can be posed in.
//!
//! The protocol is written for a right working arm and a swimmer of 1.65 m; here it becomes this side and this body.

use mechanics::body::{Body, LengthSet, Person, Sex, Tape, Years};
use mechanics::figure::{
    ArmPose, BandEnd, Beat, Contact, Frame, LegPose, Motion, Part, Place, Plane, Pose, Scene, Surface,
    Touches, outside_range,
};
use mechanics::torque::progress;
use quantity::{Angle, Length, Mass, Time};
use trade::protocol::figure::{
    BandRun, FigureContact, FigureJoint, FigurePart, FigureScript, JointAngle, Limb, Touched, Whose,
};
use trade::protocol::{Arms, Exercise, Tempo};
use trade::side::Side;

/// Stature that the protocol's lengths are written for.
const WRITTEN_FOR: Length = Length::from_metres(1.65);

/// Everything a drawing needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Whose body.
    pub body: Body,
    /// The movement, for the side asked for.
    pub motion: Motion,
    /// What is seen beside the body.
    pub scene: Scene,
    /// Beat of a repetition; nothing for a hold.
    pub beat: Option<Beat>,
    /// The side that works; nothing when both or neither do.
    pub side: Option<Side>,
}

/// A body of the stature that the protocol's drawings are written for, where nobody's own is meant.
pub fn somebody() -> Body {
    let person =
        Person { sex: Sex::Female, age: Years(18), mass: Mass::from_kilograms(57.0), stature: WRITTEN_FOR };
    Body::estimate(person, LengthSet::DrillisContini, &Tape::default())
        .expect("mass and stature are written here and plausible")
}

/// The drawing of an exercise for a body; `side` is the working side where one arm works.
pub fn drawn(exercise: &Exercise, script: &FigureScript, body: &Body, side: Option<Side>) -> Drawn {
    let one_arm = exercise.arms == Arms::One;
    let left = one_arm && side == Some(Side::Left);
    let scale = body.person.stature.metres() / WRITTEN_FOR.metres();
    let scaled = |length: Length| Length::from_metres(length.metres() * scale);
    let motion = motion(script, scale);
    let hands = if one_arm { vec![Part::RightHand] } else { vec![Part::RightHand, Part::LeftHand] };
    let mirrored = |part: Part| if left { part.mirrored() } else { part };
    let start = motion.frames(body, &[0.0])[0].figure;
    let bands = match script.band {
        None => Vec::new(),
        Some(BandRun::HandToHand) => vec![(Part::RightHand, BandEnd::Hand(Part::LeftHand))],
        Some(BandRun::Anchored { outward, forward, up }) => hands
            .iter()
            .map(|hand| {
                let way = if mirrored(*hand) == Part::LeftHand { -1.0 } else { 1.0 };
                // Seen from between the shoulders; the shoulders of a mirrored figure lie mirrored too.
                let middle = if left { -start.neck.right.metres() } else { start.neck.right.metres() };
                let at = Place {
                    right: Length::from_metres(middle + way * scaled(outward).metres()),
                    forward: start.neck.forward + scaled(forward),
                    up: start.neck.up + scaled(up),
                };
                (mirrored(*hand), BandEnd::Anchor(at))
            })
            .collect(),
    };
    let works = !matches!(exercise.arms, Arms::Midline);
    let motion = if left { motion.mirrored() } else { motion };
    let touching = |surface: fn(&Surface) -> bool| -> Vec<Part> {
        let touches = |contact: &&Contact| matches!(&contact.touches, Touches::Surface(on) if surface(on));
        motion.contacts.iter().filter(touches).map(|contact| contact.part).collect()
    };
    let plane = |at: Option<Length>, surface: fn(&Surface) -> bool| {
        at.map(|at| Plane { at: scaled(at), touched_by: touching(surface) })
    };
    let scene = Scene {
        around: if left { Angle::from_degrees(0.0) - script.around } else { script.around },
        above: script.above,
        on_floor: touching(|surface| matches!(surface, Surface::Floor)),
        wall: plane(script.wall, |surface| matches!(surface, Surface::Wall(_))),
        wall_margin: scaled(script.wall_margin),
        bench: plane(script.bench, |surface| matches!(surface, Surface::Bench(_))),
        ball: script.ball.map(|radius| (mirrored(Part::RightHand), scaled(radius))),
        weights: if script.weights { hands.iter().copied().map(mirrored).collect() } else { Vec::new() },
        bands,
        working: if works { hands.into_iter().map(mirrored).collect() } else { Vec::new() },
    };
    let seconds = Time::from_seconds;
    let beat = match exercise.tempo {
        Tempo::Beat { out, hold, back } => {
            Some(Beat { out: seconds(out), hold: seconds(hold), back: seconds(back) })
        }
        // One circle a second is common practice.
        Tempo::Circles { .. } => Some(Beat { out: seconds(1.0), hold: Time::ZERO, back: Time::ZERO }),
        Tempo::Hold => None,
    };
    Drawn { body: *body, motion, scene, beat, side: if one_arm { side.or(Some(Side::Right)) } else { None } }
}

impl Drawn {
    /// Frames at parts of the way.
    pub fn frames(&self, parts: &[f64]) -> Vec<Frame> {
        self.motion.frames(&self.body, parts)
    }

    /// Evenly timed frames of the way out, start and turn included: the smooth movement that the torque curve assumes.
    pub fn way_out(&self, n: u32) -> Vec<Frame> {
        let parts: Vec<f64> = (0..n)
            .map(|index| {
                let part = f64::from(index) / f64::from((n - 1).max(1));
                if self.motion.circle.is_some() { part } else { progress(part) }
            })
            .collect();
        self.frames(&parts)
    }

    /// What is wrong with these frames for this body: impossible angles or contacts that miss by more than 5 mm.
    /// A drawing with any is not shown; the exercise then gets its card of words.
    pub fn is_sound(&self, frames: &[Frame]) -> bool {
        let near = Length::from_metres(0.005);
        let sound = |frame: &Frame| {
            outside_range(&frame.pose).is_empty() && self.motion.miss(&self.body, frame) <= near
        };
        frames.iter().all(sound)
    }
}

fn motion(script: &FigureScript, scale: f64) -> Motion {
    let mut start = Pose::STANDING;
    turn(&mut start, &script.start);
    // About where it comes to be, lying or upright; contacts say exactly.
    let lies = [start.root.lean, start.root.roll].iter().any(|angle| 80.0 < angle.degrees().abs());
    start.root.pelvis.up = Length::from_metres(if lies { 0.1 } else { 0.6 } * scale);
    let mut end = start;
    turn(&mut end, &script.end);
    let scaled = |length: Length| Length::from_metres(length.metres() * scale);
    Motion {
        start,
        end,
        contacts: script.contacts.iter().flat_map(|contact| contacts(contact, script, scale)).collect(),
        circle: script.circle.map(scaled),
    }
}

fn turn(pose: &mut Pose, angles: &[JointAngle]) {
    for JointAngle { limb, joint, value } in angles {
        let angle = Angle::from_degrees(*value);
        match limb {
            Limb::Body => match joint {
                FigureJoint::Lean => pose.root.lean = angle,
                FigureJoint::Roll => pose.root.roll = angle,
                FigureJoint::Heading => pose.root.heading = angle,
                FigureJoint::Trunk => pose.trunk_flexion = angle,
                _ => pose.neck_flexion = angle,
            },
            Limb::Arms => {
                arm(&mut pose.left_arm, *joint, *value);
                arm(&mut pose.right_arm, *joint, *value);
            }
            Limb::WorkingArm => arm(&mut pose.right_arm, *joint, *value),
            Limb::OtherArm => arm(&mut pose.left_arm, *joint, *value),
            Limb::Legs => {
                leg(&mut pose.left_leg, *joint, *value);
                leg(&mut pose.right_leg, *joint, *value);
            }
            Limb::WorkingLeg => leg(&mut pose.right_leg, *joint, *value),
            Limb::OtherLeg => leg(&mut pose.left_leg, *joint, *value),
        }
    }
}

fn arm(arm: &mut ArmPose, joint: FigureJoint, value: f64) {
    let angle = Angle::from_degrees(value);
    match joint {
        FigureJoint::Plane => arm.plane = angle,
        FigureJoint::Elevation => arm.elevation = angle,
        FigureJoint::Rotation => arm.rotation = angle,
        FigureJoint::Elbow => arm.elbow = angle,
        _ => arm.protraction = Length::from_centimetres(value),
    }
}

fn leg(leg: &mut LegPose, joint: FigureJoint, value: f64) {
    let angle = Angle::from_degrees(value);
    match joint {
        FigureJoint::Hip => leg.hip_flexion = angle,
        FigureJoint::Spread => leg.hip_abduction = angle,
        FigureJoint::Knee => leg.knee = angle,
        _ => leg.ankle = angle,
    }
}

/// The points that a part touches with: a foot with ball and ankle, a forearm with elbow and wrist.
fn points(part: FigurePart, whose: Whose) -> Vec<Part> {
    let pair: &[Part] = match part {
        FigurePart::Head => return vec![Part::Head],
        FigurePart::Back => return vec![Part::Back],
        FigurePart::Pelvis => return vec![Part::Pelvis],
        FigurePart::Shoulder => &[Part::RightShoulder],
        FigurePart::Elbow => &[Part::RightElbow],
        FigurePart::Forearm => &[Part::RightElbow, Part::RightWrist],
        FigurePart::Hand => &[Part::RightHand],
        FigurePart::Hip => &[Part::RightHip],
        FigurePart::Knee => &[Part::RightKnee],
        FigurePart::Heel => &[Part::RightAnkle],
        FigurePart::Foot => &[Part::RightToes, Part::RightAnkle],
        FigurePart::Toes => &[Part::RightToes],
    };
    let right = pair.iter().copied();
    let left = pair.iter().map(|part| part.mirrored());
    match whose {
        Whose::Working => right.collect(),
        Whose::Other => left.collect(),
        Whose::Both => right.chain(left).collect(),
    }
}

fn contacts(contact: &FigureContact, script: &FigureScript, scale: f64) -> Vec<Contact> {
    let scaled = |length: Length| Length::from_metres(length.metres() * scale);
    let zero = Length::from_metres(0.0);
    let touches = match contact.on {
        Touched::Floor => Touches::Surface(Surface::Floor),
        Touched::Wall => Touches::Surface(Surface::Wall(scaled(script.wall.unwrap_or(zero)))),
        Touched::Bench => Touches::Surface(Surface::Bench(scaled(script.bench.unwrap_or(zero)))),
        Touched::Part(part, whose) => {
            Touches::Part(points(part, whose).first().copied().unwrap_or(Part::Pelvis))
        }
    };
    let ball = match (contact.on, contact.part, script.ball) {
        (Touched::Wall, FigurePart::Hand, Some(radius)) => scaled(radius).metres() * 2.0,
        _ => 0.0,
    };
    points(contact.part, contact.whose)
        .into_iter()
        .map(|part| {
            // An ankle above its own sole stands higher than its flesh is thick.
            let above_sole = match (contact.part, part) {
                (FigurePart::Foot, Part::LeftAnkle | Part::RightAnkle) => ANKLE_OVER_FLESH * scale,
                _ => 0.0,
            };
            Contact { part, touches, gap: Length::from_metres(ball + above_sole), slides: contact.slides }
        })
        .collect()
}

/// Ankle joint above the sole (0.039 of stature, Drillis & Contini) less the flesh round it, at 1.65 m.
const ANKLE_OVER_FLESH: f64 = (0.039 - 0.0215) * 1.65;
