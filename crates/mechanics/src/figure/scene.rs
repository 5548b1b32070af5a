//! What is seen beside a posed body, and from where: surfaces, ball, weights, bands.

use quantity::{Angle, Length, Time};

use super::joints::Place;
use super::part::Part;

/// What is seen beside the body, and from where.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Seen from so far round, from the front towards the right side.
    pub around: Angle,
    /// Seen from so far above.
    pub above: Angle,
    /// Parts that rest on the floor.
    pub on_floor: Vec<Part>,
    /// A wall in front of where the pelvis begins, and what rests on it.
    pub wall: Option<Plane>,
    /// How far the wall is drawn beyond what touches it.
    pub wall_margin: Length,
    /// Top of a bench, box or roll, and what rests on it.
    pub bench: Option<Plane>,
    /// Radius of a ball between a hand and the wall, and which hand.
    pub ball: Option<(Part, Length)>,
    /// Hands that hold a weight.
    pub weights: Vec<Part>,
    /// Bands, each from a hand to where it ends.
    pub bands: Vec<(Part, BandEnd)>,
    /// Hands of working arms, which are drawn strong.
    pub working: Vec<Part>,
}

/// A flat thing and what rests on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plane {
    /// Distance of a wall, height of a bench.
    pub at: Length,
    /// What rests on it.
    pub touched_by: Vec<Part>,
}

/// Where a band ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BandEnd {
    /// At another hand.
    Hand(Part),
    /// At a point of the room.
    Anchor(Place),
}

/// Beat of a drawn repetition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beat {
    /// From start to turn.
    pub out: Time,
    /// Held there.
    pub hold: Time,
    /// Back again.
    pub back: Time,
}
