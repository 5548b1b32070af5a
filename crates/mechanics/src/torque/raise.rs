//! A straight arm raised against gravity, with or without a weight: scaption, flexion, abduction, prone T and Y.

use quantity::{Angle, AngularAcceleration, Mass, Time, Torque};

use super::tempo;
use crate::GRAVITY;
use crate::body::Arm;
use crate::numeric;
use crate::spread::WithError;

/// The angle is elevation from hanging; the plane of elevation does not matter for the size of the torque.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandRaise {
    /// Whose arm.
    pub arm: Arm,
    /// Held at the third knuckle.
    pub weight: Mass,
}

/// The largest torque during a smooth raise, inertia included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MotionPeak {
    /// The torque.
    pub torque: Torque,
    /// Where it comes.
    pub at: Angle,
    /// Over the static torque at the end of the raise.
    pub over_static: f64,
}

impl HandRaise {
    pub(crate) fn torque_nm(&self, elevation: f64) -> f64 {
        self.with_error(elevation).value.newton_metres()
    }

    /// Static torque with its error.
    pub(crate) fn with_error(&self, elevation: f64) -> WithError<Torque> {
        self.arm.gravity_torque(Angle::from_radians(elevation), self.weight)
    }

    /// Torque that only turning the arm and weight faster takes.
    pub fn inertial(&self, acceleration: AngularAcceleration) -> Torque {
        let inertia = self.arm.inertia(self.weight).kilogram_square_metres();
        Torque::from_newton_metres(inertia * acceleration.radians_per_second_squared())
    }

    /// The peak of gravity and inertia together in a minimum-jerk raise from hanging; nothing for a movement of more
    /// than half a turn, or one that takes less than a twentieth of a second or more than a minute.
    ///
    /// It says whether the static torque may stand for the movement: at 1.5 s for 90 degrees it does exactly, since
    /// the arm speeds up where its lever is short.
    pub fn peak_in_motion(&self, to: Angle, lasting: Time) -> Option<MotionPeak> {
        let (angle, seconds) = (to.radians(), lasting.seconds());
        let plausible = 0.0 < to.degrees() && to.degrees() <= 180.0 && (0.05..=60.0).contains(&seconds);
        if !plausible {
            return None;
        }
        let inertia = self.arm.inertia(self.weight).kilogram_square_metres();
        let torque = |part: f64| {
            let acceleration = angle / (seconds * seconds) * tempo::progress_acceleration(part);
            self.torque_nm(angle * tempo::progress(part)) + inertia * acceleration
        };
        let (part, peak) = numeric::peak(torque, 0.0, 1.0);
        Some(MotionPeak {
            torque: Torque::from_newton_metres(peak),
            at: Angle::from_radians(angle * tempo::progress(part)),
            over_static: peak / self.torque_nm(angle),
        })
    }

    /// Torque that a weight adds for every kilogram at the horizontal.
    pub fn per_kilogram(&self) -> Torque {
        Torque::from_newton_metres(GRAVITY * self.arm.reach().metres())
    }
}
