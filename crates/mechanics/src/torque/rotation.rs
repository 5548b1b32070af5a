//! Rotation of the upper arm against a band, elbow bent to a right angle and at the side.
//!
//! The forearm is level, so the axis is upright and the arm's weight has no moment about it. Angle 0 is straight ahead,
//! positive outwards. Torque is positive when the external rotators must work.

use quantity::{Energy, Length};

use super::point::Point;
use crate::elastic::Piece;

/// A band held between both hands (or a loop round them), both arms turning outwards alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoHandRotation {
    /// Between the elbow axes, by tape.
    pub elbow_spacing: Length,
    /// Elbow axis to the middle of the grip.
    pub forearm: Length,
    /// What is stretched.
    pub piece: Piece,
}

/// One arm turning against a band fixed to a point; outwards or inwards depending on where the point is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnchoredRotation {
    /// Elbow axis to the middle of the grip.
    pub forearm: Length,
    /// The anchor seen from the elbow axis: outwards on the working side, forwards, upwards.
    pub anchor: Point,
    /// What is stretched.
    pub piece: Piece,
}

impl TwoHandRotation {
    /// Between the hands, at an angle in radians; hands that cross are apart again.
    pub(crate) fn span_m(&self, phi: f64) -> f64 {
        self.signed_span_m(phi).abs()
    }

    /// Torque of one arm: the pull times its lever about the elbow axis. Crossed hands are pulled the other way.
    pub(crate) fn torque_nm(&self, phi: f64) -> f64 {
        let span = self.signed_span_m(phi);
        span.signum() * self.piece.pull_n(span.abs()) * self.forearm.metres() * phi.cos()
    }

    /// Energy in the band, which both arms share.
    pub fn energy(&self, phi: quantity::Angle) -> Energy {
        self.piece.energy(Length::from_metres(self.span_m(phi.radians())))
    }

    fn signed_span_m(&self, phi: f64) -> f64 {
        self.elbow_spacing.metres() + 2.0 * self.forearm.metres() * phi.sin()
    }
}

impl AnchoredRotation {
    /// Hand to anchor, at an angle in radians.
    pub(crate) fn span_m(&self, phi: f64) -> f64 {
        let (x, y) = self.hand(phi);
        let (ax, ay, az) =
            (self.anchor.outward.metres(), self.anchor.forward.metres(), self.anchor.up.metres());
        ((ax - x).powi(2) + (ay - y).powi(2) + az * az).sqrt()
    }

    /// The pull times the distance of its line from the upright axis: what the muscles must balance.
    pub(crate) fn torque_nm(&self, phi: f64) -> f64 {
        let span = self.span_m(phi);
        if span == 0.0 {
            return 0.0;
        }
        let (x, y) = self.hand(phi);
        let (ax, ay) = (self.anchor.outward.metres(), self.anchor.forward.metres());
        // Unit vector from hand to anchor, crossed with the hand's place: positive when the band pulls inwards.
        let pull = self.piece.pull_n(span) / span;
        pull * (x * (ay - y) - y * (ax - x))
    }

    /// Energy in the band.
    pub fn energy(&self, phi: quantity::Angle) -> Energy {
        self.piece.energy(Length::from_metres(self.span_m(phi.radians())))
    }

    fn hand(&self, phi: f64) -> (f64, f64) {
        (self.forearm.metres() * phi.sin(), self.forearm.metres() * phi.cos())
    }
}
