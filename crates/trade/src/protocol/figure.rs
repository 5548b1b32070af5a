//! How an exercise is drawn: joint angles at the start and at the turn, what touches what, and where it is seen from.
//!
//! Plain angles and names. The body that is posed, and the drawing, live in other crates; here is only what a club may
//! edit. Written for a right working arm, the left is its mirror image; and for a swimmer of 1.65 m, with whom every length
//! grows and shrinks.

use quantity::{Angle, Length};

use crate::name::RungId;

/// One drawing of an exercise.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureScript {
    /// Rungs it is for; empty for every rung that has none of its own.
    pub rungs: Vec<RungId>,
    /// Seen from so far round the swimmer, from the front towards the right side.
    pub around: Angle,
    /// Seen from so far above.
    pub above: Angle,
    /// Angles at the start; whatever is not named is as in standing with arms hanging.
    pub start: Vec<JointAngle>,
    /// Angles that are different at the turn.
    pub end: Vec<JointAngle>,
    /// What touches what.
    pub contacts: Vec<FigureContact>,
    /// A wall in front, so far from the pelvis.
    pub wall: Option<Length>,
    /// Height of a bench, box or roll.
    pub bench: Option<Length>,
    /// How far the wall is drawn beyond what touches it.
    pub wall_margin: Length,
    /// Radius of a ball between working hand and wall.
    pub ball: Option<Length>,
    /// Radius of the circle that the working hand is led round, instead of start and end.
    pub circle: Option<Length>,
    /// A hand weight is drawn in each working hand.
    pub weights: bool,
    /// A band and where it runs.
    pub band: Option<BandRun>,
}

/// Which limb an angle belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limb {
    /// The whole body or trunk.
    Body,
    /// Both arms.
    Arms,
    /// The working (drawn: right) arm.
    WorkingArm,
    /// The other arm.
    OtherArm,
    /// Both legs.
    Legs,
    /// The leg of the working side.
    WorkingLeg,
    /// The other leg.
    OtherLeg,
}

/// One joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FigureJoint {
    /// Body forwards: 90 face down, -90 on the back.
    Lean,
    /// Body onto the working side.
    Roll,
    /// Body turned to the left.
    Heading,
    /// Trunk bent forwards on the pelvis.
    Trunk,
    /// Head bent forwards.
    Neck,
    /// Plane in which the upper arm is lifted: 0 sideways, 90 forwards.
    Plane,
    /// How far it is lifted.
    Elevation,
    /// Upper arm turned outwards.
    Rotation,
    /// Bend of the elbow.
    Elbow,
    /// Blade forwards, in centimetres instead of degrees.
    Blade,
    /// Thigh lifted forwards.
    Hip,
    /// Thigh outwards.
    Spread,
    /// Bend of the knee.
    Knee,
    /// Toes drawn up.
    Ankle,
}

/// One angle of a keyframe, in degrees (the blade in centimetres).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointAngle {
    /// Whose.
    pub limb: Limb,
    /// Which.
    pub joint: FigureJoint,
    /// How much.
    pub value: f64,
}

/// Something that touches through the whole movement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FigureContact {
    /// What touches.
    pub part: FigurePart,
    /// Whose.
    pub whose: Whose,
    /// What is touched.
    pub on: Touched,
    /// It may glide along.
    pub slides: bool,
}

/// Which of a pair is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whose {
    /// The working side.
    Working,
    /// The other side.
    Other,
    /// Both; the middle of the body has only this.
    Both,
}

/// A part that can touch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum FigurePart {
    Head,
    Back,
    Pelvis,
    Shoulder,
    Elbow,
    Forearm,
    Hand,
    Hip,
    Knee,
    Heel,
    Foot,
    Toes,
}

/// What is touched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touched {
    /// The floor.
    Floor,
    /// The wall.
    Wall,
    /// The bench, box or roll.
    Bench,
    /// Another part of the same body.
    Part(FigurePart, Whose),
}

/// Where a band runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BandRun {
    /// From hand to hand.
    HandToHand,
    /// From each working hand to a point, seen from the middle between the shoulders at the start; with two working
    /// hands each has its own, mirrored.
    Anchored {
        /// Away from the body on the working side.
        outward: Length,
        /// In front.
        forward: Length,
        /// Above.
        up: Length,
    },
}

impl Limb {
    /// Every limb.
    pub const ALL: [Limb; 7] = [
        Limb::Body,
        Limb::Arms,
        Limb::WorkingArm,
        Limb::OtherArm,
        Limb::Legs,
        Limb::WorkingLeg,
        Limb::OtherLeg,
    ];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            Limb::Body => "body",
            Limb::Arms => "arms",
            Limb::WorkingArm => "working-arm",
            Limb::OtherArm => "other-arm",
            Limb::Legs => "legs",
            Limb::WorkingLeg => "working-leg",
            Limb::OtherLeg => "other-leg",
        }
    }

    /// The joints that it has, in the order they are listed in messages.
    pub const fn joints(self) -> &'static [FigureJoint] {
        use FigureJoint::{
            Ankle, Blade, Elbow, Elevation, Heading, Hip, Knee, Lean, Neck, Plane, Roll, Rotation, Spread,
            Trunk,
        };
        match self {
            Limb::Body => &[Lean, Roll, Heading, Trunk, Neck],
            Limb::Arms | Limb::WorkingArm | Limb::OtherArm => &[Plane, Elevation, Rotation, Elbow, Blade],
            Limb::Legs | Limb::WorkingLeg | Limb::OtherLeg => &[Hip, Spread, Knee, Ankle],
        }
    }
}

impl FigureJoint {
    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            FigureJoint::Lean => "lean",
            FigureJoint::Roll => "roll",
            FigureJoint::Heading => "heading",
            FigureJoint::Trunk => "trunk",
            FigureJoint::Neck => "neck",
            FigureJoint::Plane => "plane",
            FigureJoint::Elevation => "elevation",
            FigureJoint::Rotation => "rotation",
            FigureJoint::Elbow => "elbow",
            FigureJoint::Blade => "blade",
            FigureJoint::Hip => "hip",
            FigureJoint::Spread => "spread",
            FigureJoint::Knee => "knee",
            FigureJoint::Ankle => "ankle",
        }
    }

    /// Smallest and largest value a person reaches: limits against slips of the keyboard, not norms.
    pub const fn limits(self) -> (f64, f64) {
        match self {
            FigureJoint::Lean | FigureJoint::Roll | FigureJoint::Heading => (-180.0, 180.0),
            FigureJoint::Trunk => (-45.0, 110.0),
            FigureJoint::Neck => (-80.0, 80.0),
            FigureJoint::Plane => (-90.0, 140.0),
            FigureJoint::Elevation => (0.0, 190.0),
            FigureJoint::Rotation => (-110.0, 130.0),
            FigureJoint::Elbow | FigureJoint::Knee => (0.0, 160.0),
            FigureJoint::Blade => (-5.0, 8.0),
            FigureJoint::Hip => (-40.0, 140.0),
            FigureJoint::Spread => (-40.0, 70.0),
            FigureJoint::Ankle => (-80.0, 40.0),
        }
    }
}

impl FigurePart {
    /// Every part.
    pub const ALL: [FigurePart; 12] = [
        FigurePart::Head,
        FigurePart::Back,
        FigurePart::Pelvis,
        FigurePart::Shoulder,
        FigurePart::Elbow,
        FigurePart::Forearm,
        FigurePart::Hand,
        FigurePart::Hip,
        FigurePart::Knee,
        FigurePart::Heel,
        FigurePart::Foot,
        FigurePart::Toes,
    ];

    /// The word for one, and the word for both, as protocol files write them.
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            FigurePart::Head => ("head", "head"),
            FigurePart::Back => ("back", "back"),
            FigurePart::Pelvis => ("pelvis", "pelvis"),
            FigurePart::Shoulder => ("shoulder", "shoulders"),
            FigurePart::Elbow => ("elbow", "elbows"),
            FigurePart::Forearm => ("forearm", "forearms"),
            FigurePart::Hand => ("hand", "hands"),
            FigurePart::Hip => ("hip", "hips"),
            FigurePart::Knee => ("knee", "knees"),
            FigurePart::Heel => ("heel", "heels"),
            FigurePart::Foot => ("foot", "feet"),
            FigurePart::Toes => ("toe", "toes"),
        }
    }

    /// Reads a part with its side: `feet`, `working-hand`, `other-elbow`, `head`.
    pub fn read(word: &str) -> Option<(FigurePart, Whose)> {
        let (whose, word) = match (word.strip_prefix("working-"), word.strip_prefix("other-")) {
            (Some(rest), _) => (Whose::Working, rest),
            (_, Some(rest)) => (Whose::Other, rest),
            _ => (Whose::Both, word),
        };
        let named = |part: &&FigurePart| match whose {
            Whose::Both => part.words().1 == word,
            Whose::Working | Whose::Other => part.words().0 == word && part.words().0 != part.words().1,
        };
        FigurePart::ALL.iter().find(named).map(|part| (*part, whose))
    }
}
