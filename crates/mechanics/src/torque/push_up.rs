//! Push-ups: the share of body weight that the hands carry, by variant.
//!
//! A straight rigid body turning about the toes (or knees), its segments from the tables and the arms lumped at the
//! shoulder. It ranks variants; it is not a torque at the shoulder. Quick repetitions are far above the static loads
//! here (men 0.98 against 0.75 in Mier 2014): keep the tempo slow. The straight body fails for knees at the top, where
//! people bend at the hip, so knees go by a published ratio.

use quantity::{Angle, Force, Length, Mass, Share};

use crate::GRAVITY;
use crate::body::{Sex, mass_shares};
use crate::spread::WithError;

/// What the body turns about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pivot {
    /// The toes.
    Toes,
    /// The knees.
    Knees,
}

/// Levers along the body, as shares of stature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levers {
    weight: Share,
    shoulder: Share,
}

/// Where the hands and feet are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// Hands on a wall; the angle is of the body line against the floor, 90 is upright.
    Wall(Angle),
    /// Hands this much higher than the feet; 0 on the floor, negative with the feet raised.
    Height(Length),
    /// On the floor, from the knees.
    Knees,
}

/// A push-up of a person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushUp {
    /// Which table applies.
    pub sex: Sex,
    /// Body mass.
    pub mass: Mass,
    /// Standing height.
    pub stature: Length,
    /// The variant.
    pub support: Support,
}

/// How well founded a load is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Foundation {
    /// Between the heights that were measured (Ebben 2011), or a published ratio.
    Published,
    /// Beyond any data; an upper estimate, since all floor pressure is taken to be at the toes.
    Extrapolated,
}

/// What the hands carry, half way through the movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandLoad {
    /// Force of both hands at right angles to the body, over body weight: the same meaning on floor, box and wall, so
    /// variants are ranked by it. The error is between people.
    pub pressed: WithError<Share>,
    /// What a scale under the hands would read, over body weight; nothing for a wall.
    pub on_a_scale: Option<Share>,
    /// The first, for one hand, in newtons.
    pub each_hand: WithError<Force>,
    /// How well founded it is.
    pub foundation: Foundation,
}

/// Why a push-up makes no sense.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PushUpRefusal {
    /// Body mass not positive, or beyond any person's.
    Mass(Mass),
    /// Stature not positive, or beyond any person's.
    Stature(Length),
    /// Against a wall the body stands between 45 and 90 degrees.
    Wall(Angle),
    /// Hands and feet more than a metre apart in height, or feet so high that the body tips over the hands.
    Height(Length),
}

/// Loads on the floor at the top and the bottom of the movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FromFloor {
    /// Body against the floor at the top.
    pub angle_up: Angle,
    /// The same at the bottom.
    pub angle_down: Angle,
    /// Share of body weight at the top.
    pub up: Share,
    /// The same at the bottom.
    pub down: Share,
}

/// From the knees over from the toes: 0.77 to 0.82 in four published groups (Suprak 2011, Mier 2014, Ebben 2011).
pub const KNEES_OVER_FLOOR: Share = Share::from_fraction(0.79);

/// Arm length half way through the movement, as a share of stature: the one number fitted to Ebben's five heights.
pub const ARM_HALF_WAY: Share = Share::from_fraction(0.3193);

/// Between people: Mier 2014 prints standard deviations of 0.031 to 0.045.
const BETWEEN_PEOPLE: f64 = 0.035;
/// On a wall nobody has measured; an allowance.
const ON_A_WALL: f64 = 0.06;
/// Box heights that were measured, metres either way.
const MEASURED_HEIGHT: f64 = 0.61;

/// Joint distances along the body over stature: Drillis & Contini 1966; toe to ankle 0.10 and shoulder to head centre
/// 0.10 are plain assumptions of the model.
const TOE_TO_ANKLE: f64 = 0.10;
const ANKLE_TO_KNEE: f64 = 0.246;
const KNEE_TO_HIP: f64 = 0.245;
const HIP_TO_SHOULDER: f64 = 0.288;
const SHOULDER_TO_HEAD: f64 = 0.10;

/// Levers of body weight and shoulder about a pivot.
pub fn levers(sex: Sex, pivot: Pivot) -> Levers {
    let segments = mass_shares(sex);
    let (knee, hip) = match pivot {
        Pivot::Toes => (TOE_TO_ANKLE + ANKLE_TO_KNEE, TOE_TO_ANKLE + ANKLE_TO_KNEE + KNEE_TO_HIP),
        Pivot::Knees => (0.0, KNEE_TO_HIP),
    };
    let shoulder = hip + HIP_TO_SHOULDER;
    let above_knee = 2.0 * segments.thigh.0 * (hip - KNEE_TO_HIP * segments.thigh.1)
        + segments.trunk.0 * (shoulder - HIP_TO_SHOULDER * segments.trunk.1)
        + 2.0 * segments.arm * shoulder
        + segments.head * (shoulder + SHOULDER_TO_HEAD);
    let below_knee = match pivot {
        Pivot::Toes => {
            2.0 * segments.shank.0 * (knee - ANKLE_TO_KNEE * segments.shank.1)
                + 2.0 * segments.foot * TOE_TO_ANKLE / 2.0
        }
        Pivot::Knees => 0.0,
    };
    Levers { weight: Share::from_fraction(above_knee + below_knee), shoulder: Share::from_fraction(shoulder) }
}

impl Levers {
    /// Pivot to the line of body weight; segments below the pivot add nothing.
    pub fn weight(&self) -> Share {
        self.weight
    }

    /// Pivot to shoulder.
    pub fn shoulder(&self) -> Share {
        self.shoulder
    }

    /// Share of body weight at the hands of a level body: one lever over the other.
    pub fn ratio(&self) -> Share {
        Share::from_fraction(self.weight.fraction() / self.shoulder.fraction())
    }
}

/// On the floor with upright hand force, hands under the shoulders at the bottom: lengths as shares of stature.
///
/// Nothing when the arm or height does not fit the body.
pub fn floor_model(levers: &Levers, arm: Share, shoulder_height_down: Share) -> Option<FromFloor> {
    let angle = |height: Share| {
        let angle = (height.fraction() / levers.shoulder.fraction()).asin();
        Angle::try_from_degrees(angle.to_degrees()).ok()
    };
    let (up, down) = (angle(arm)?, angle(shoulder_height_down)?);
    let r = levers.ratio().fraction();
    let cos = |angle: Angle| angle.radians().cos();
    Some(FromFloor {
        angle_up: up,
        angle_down: down,
        up: Share::from_fraction(r * cos(up) / cos(down)),
        down: Share::from_fraction(r),
    })
}

/// Body against the floor half way through, with the hands higher than the feet by a height over stature; nothing when
/// the hands would be out of reach.
pub fn body_angle(shoulder_lever: Share, arm: Share, height_over_stature: Share) -> Option<Angle> {
    let (s, arm) = (shoulder_lever.fraction(), arm.fraction());
    let radians = (arm / s).atan() + (height_over_stature.fraction() / s.hypot(arm)).asin();
    Angle::try_from_degrees(radians.to_degrees()).ok()
}

/// Upright part of the hand force over body weight when the hands push at right angles to the body: r cos^2.
pub fn incline_share(level: Share, body: Angle) -> Share {
    Share::from_fraction(level.fraction() * body.radians().cos().powi(2))
}

/// On a wall: force at right angles to the body over body weight, r cos; and, were the wall force level, r / tan.
pub fn wall_share(level: Share, body: Angle) -> (Share, Share) {
    let angle = body.radians();
    let tangent = angle.tan().max(f64::MIN_POSITIVE);
    (
        Share::from_fraction(level.fraction() * angle.cos()),
        Share::from_fraction((level.fraction() / tangent).min(f64::MAX)),
    )
}

impl PushUp {
    /// What the hands carry half way through a slow repetition.
    pub fn load(&self) -> Result<HandLoad, PushUpRefusal> {
        self.check()?;
        let levers = levers(self.sex, Pivot::Toes);
        let level = levers.ratio();
        let at_height = |height: f64| {
            let over_stature = Share::from_fraction(height / self.stature.metres());
            body_angle(levers.shoulder, ARM_HALF_WAY, over_stature)
        };
        let tips = |height: &Length| PushUpRefusal::Height(*height);
        match self.support {
            Support::Wall(angle) => {
                let (pressed, _) = wall_share(level, angle);
                Ok(self.hand_load(pressed.fraction(), None, ON_A_WALL, Foundation::Extrapolated))
            }
            Support::Height(height) => {
                let angle = at_height(height.metres()).ok_or_else(|| tips(&height))?;
                if angle.degrees() < -5.0 {
                    return Err(tips(&height));
                }
                // Past level the model would call the load lighter again, which nobody measured: it stays as if level.
                let angle = angle.max(Angle::from_degrees(0.0));
                let foundation = if height.metres().abs() <= MEASURED_HEIGHT {
                    Foundation::Published
                } else {
                    Foundation::Extrapolated
                };
                let pressed = level.fraction() * angle.radians().cos();
                let scale = incline_share(level, angle);
                Ok(self.hand_load(pressed, Some(scale), BETWEEN_PEOPLE, foundation))
            }
            Support::Knees => {
                let floor = Self { support: Support::Height(Length::from_metres(0.0)), ..*self }.load()?;
                let knees = KNEES_OVER_FLOOR.fraction();
                let scale = floor.on_a_scale.map(|share| Share::from_fraction(share.fraction() * knees));
                let pressed = floor.pressed.value.fraction() * knees;
                Ok(self.hand_load(pressed, scale, BETWEEN_PEOPLE, Foundation::Published))
            }
        }
    }

    fn hand_load(&self, pressed: f64, scale: Option<Share>, sd: f64, foundation: Foundation) -> HandLoad {
        let half_weight = self.mass.kilograms() * GRAVITY / 2.0;
        HandLoad {
            pressed: WithError { value: Share::from_fraction(pressed), sd: Share::from_fraction(sd) },
            on_a_scale: scale,
            each_hand: WithError {
                value: Force::from_newtons(pressed * half_weight),
                sd: Force::from_newtons(sd * half_weight),
            },
            foundation,
        }
    }

    fn check(&self) -> Result<(), PushUpRefusal> {
        if !(0.0 < self.mass.kilograms() && self.mass.kilograms() <= 300.0) {
            return Err(PushUpRefusal::Mass(self.mass));
        }
        if !(0.5..=3.0).contains(&self.stature.metres()) {
            return Err(PushUpRefusal::Stature(self.stature));
        }
        match self.support {
            Support::Wall(angle) if !(45.0..=90.0).contains(&angle.degrees()) => {
                Err(PushUpRefusal::Wall(angle))
            }
            Support::Height(height) if 1.0 < height.metres().abs() => Err(PushUpRefusal::Height(height)),
            _ => Ok(()),
        }
    }
}
