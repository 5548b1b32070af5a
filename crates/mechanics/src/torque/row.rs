//! The row: a band from an anchor in front to each hand, drawn until the elbow is beside the ribs.

use quantity::{Angle, Length};

use crate::elastic::Piece;

/// One strand (or loop) a hand.
///
/// The movement is counted by the flexion of the shoulder, from the start angle down to 0, where the upper arm hangs
/// and the elbow is bent to a right angle. Start distance and pull are measured by tape, because the shoulder blade and
/// trunk add to what the elbow gives; between them the pull grows evenly with the angle, and so does the bend of the
/// elbow. Checked at the end of the pull; between start and end it is a plain interpolation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Anchor to hand with long arms.
    pub start_distance: Length,
    /// How far the hand is drawn.
    pub pull: Length,
    /// Shoulder to elbow.
    pub upper_arm: Length,
    /// Elbow to the middle of the grip.
    pub forearm: Length,
    /// How much the band rises from the hand to the anchor.
    pub rise: Angle,
    /// Flexion of the shoulder at the start.
    pub start_flexion: Angle,
    /// What each hand pulls.
    pub piece: Piece,
}

impl Row {
    /// Part of the pull done when the shoulder has come down to this flexion, in radians.
    fn done(&self, flexion: f64) -> f64 {
        1.0 - flexion / self.start_flexion.radians()
    }

    /// Anchor to hand.
    pub(crate) fn span_m(&self, flexion: f64) -> f64 {
        self.start_distance.metres() + self.pull.metres() * self.done(flexion)
    }

    /// Extension torque at the shoulder: the pull times the distance of its line from the shoulder.
    pub(crate) fn torque_nm(&self, flexion: f64) -> f64 {
        let (forward, up) = self.hand(flexion);
        let (sin, cos) = self.rise.radians().sin_cos();
        self.piece.pull_n(self.span_m(flexion)) * (forward * sin - up * cos)
    }

    /// Flexion torque at the elbow, for the same pull.
    pub fn elbow_torque(&self, flexion: Angle) -> quantity::Torque {
        let flexion = flexion.radians();
        let (sin, cos) = self.rise.radians().sin_cos();
        let (forward, up) = self.forearm_reach(flexion);
        let pull = self.piece.pull_n(self.span_m(flexion));
        quantity::Torque::from_newton_metres(pull * (forward * sin - up * cos))
    }

    /// The hand seen from the shoulder: forwards and upwards.
    fn hand(&self, flexion: f64) -> (f64, f64) {
        let (sin, cos) = flexion.sin_cos();
        let (forward, up) = self.forearm_reach(flexion);
        (self.upper_arm.metres() * sin + forward, -self.upper_arm.metres() * cos + up)
    }

    /// The hand seen from the elbow: the forearm stands at shoulder flexion plus elbow bend from hanging.
    fn forearm_reach(&self, flexion: f64) -> (f64, f64) {
        let bend = std::f64::consts::FRAC_PI_2 * self.done(flexion);
        let (sin, cos) = (flexion + bend).sin_cos();
        (self.forearm.metres() * sin, -self.forearm.metres() * cos)
    }
}
