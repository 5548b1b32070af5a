//! A point beside the working arm.

use quantity::Length;

/// A point, measured from an origin that its user names: outwards from the body on the working side, forwards, upwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Away from the body on the side meant.
    pub outward: Length,
    /// In front.
    pub forward: Length,
    /// Above.
    pub up: Length,
}

impl Point {
    /// The origin.
    pub const ORIGIN: Self = Self::at(0.0, 0.0, 0.0);

    /// A point by its coordinates in metres: outwards, forwards, upwards.
    pub const fn at(outward: f64, forward: f64, up: f64) -> Self {
        Self {
            outward: Length::from_metres(outward),
            forward: Length::from_metres(forward),
            up: Length::from_metres(up),
        }
    }

    /// How far another point is away.
    pub fn distance(&self, other: &Self) -> Length {
        let parts = [other.outward - self.outward, other.forward - self.forward, other.up - self.up];
        Length::from_metres(crate::spread::root_sum_square(parts.map(Length::metres)))
    }
}
