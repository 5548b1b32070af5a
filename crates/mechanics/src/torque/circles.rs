//! Ball circles on a wall: arm held out forwards, a ball pressed to the wall and led round in small circles.

use quantity::{Angle, Force, Length, Mass};

use crate::GRAVITY;
use crate::body::Arm;

/// The angle is where on the circle the hand is: 0 at the top, 90 outermost.
///
/// The wall pushes straight back through the hand; friction is left out and the hand carries the ball's whole weight,
/// so this is the upper end of what the shoulder meets. No published load was found: implemented, unvalidated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallCircles {
    /// Whose arm.
    pub arm: Arm,
    /// The ball.
    pub ball: Mass,
    /// How hard it is pressed to the wall.
    pub press: Force,
    /// Radius of the circle.
    pub radius: Length,
    /// Height of the circle's middle, as elevation of the arm from hanging; 90 is shoulder height.
    pub elevation: Angle,
}

impl BallCircles {
    /// Size of the torque at the shoulder, from arm, ball and press together.
    pub(crate) fn torque_nm(&self, clock: f64) -> f64 {
        let reach = self.arm.reach().metres();
        let (sin, cos) = self.elevation.radians().sin_cos();
        let (sideways, upwards) =
            (self.radius.metres() * clock.sin(), self.radius.metres() * clock.cos() - reach * cos);
        // Gravity turns the arm down about the sideways axis with the horizontal reach as its lever.
        let held = GRAVITY * self.ball.kilograms() * reach * sin;
        let arm = self.arm.gravity_torque(self.elevation, Mass::from_kilograms(0.0)).value.newton_metres();
        // The wall pushes the hand back: above the shoulder that lifts the arm, beside it that turns it outwards.
        let press = self.press.newtons();
        let lifting = arm + held - press * upwards;
        let turning = press * sideways;
        lifting.hypot(turning)
    }
}
