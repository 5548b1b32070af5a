//! Round things and the skin stretched over them.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use super::camera::{Camera, METRE, Vector};
use crate::number::short;

/// A ball of flesh: where, and how thick in metres.
pub(super) type Ball = (Vector, f64);

/// The outline of a skin over balls, as points of a closed path; always as many points, so that it can move.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Outline(pub(super) Vec<(f64, f64)>);

/// Points of an outline that is drawn once, and of one that moves.
pub(super) const FINE: u32 = 40;
pub(super) const COARSE: u32 = 18;

impl Outline {
    /// The convex skin: in every direction the furthest point of any ball.
    pub(super) fn over(balls: &[Ball], camera: &Camera, points: u32) -> Self {
        let circles: Vec<(f64, f64, f64)> = balls
            .iter()
            .map(|(at, thick)| {
                let (x, y) = camera.page(*at);
                (x, y, thick * METRE)
            })
            .collect();
        let furthest = |index: u32| {
            let (sin, cos) = (f64::from(index) * TAU / f64::from(points)).sin_cos();
            circles
                .iter()
                .map(|(x, y, r)| (x * cos + y * sin + r, (x + r * cos, y + r * sin)))
                .max_by(|one, other| one.0.total_cmp(&other.0))
                .map_or((0.0, 0.0), |(_, point)| point)
        };
        Self((0..points).map(furthest).collect())
    }

    /// A plain polygon.
    pub(super) fn corners(corners: &[Vector], camera: &Camera) -> Self {
        Self(corners.iter().map(|corner| camera.page(*corner)).collect())
    }

    /// As the `d` of a closed path.
    pub(super) fn closed(&self, by: (f64, f64)) -> String {
        self.open(by) + "Z"
    }

    /// As the `d` of a line.
    pub(super) fn open(&self, by: (f64, f64)) -> String {
        let mut path = String::with_capacity(self.0.len() * 10);
        for (index, (x, y)) in self.0.iter().enumerate() {
            let letter = if index == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{letter}{} {}", short(x + by.0), short(y + by.1));
        }
        path
    }
}
