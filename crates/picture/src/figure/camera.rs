//! From the room to the page: parallel rays, so that equal lengths stay comparable.

use mechanics::figure::{Place, Scene};

/// A place or direction in metres: right, forward, up.
pub(super) type Vector = [f64; 3];

pub(super) fn vector(place: &Place) -> Vector {
    [place.right.metres(), place.forward.metres(), place.up.metres()]
}

pub(super) fn add(a: Vector, b: Vector, times: f64) -> Vector {
    [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times]
}

pub(super) fn less(a: Vector, b: Vector) -> Vector {
    add(a, b, -1.0)
}

pub(super) fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// Length one; the fallback where there is no direction.
pub(super) fn unit(a: Vector, fallback: Vector) -> Vector {
    let length = dot(a, a).sqrt();
    if length < 1e-9 { fallback } else { a.map(|part| part / length) }
}

pub(super) fn between(a: Vector, b: Vector, part: f64) -> Vector {
    add(a, less(b, a), part)
}

/// Where the eye is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Camera {
    across: Vector,
    upwards: Vector,
    towards: Vector,
}

/// Units of the page for a metre.
pub(super) const METRE: f64 = 150.0;

impl Camera {
    pub(super) fn of(scene: &Scene) -> Self {
        let (sin, cos) = scene.around.radians().sin_cos();
        let (rise, level) = scene.above.radians().sin_cos();
        Self {
            across: [-cos, sin, 0.0],
            upwards: [-sin * rise, -cos * rise, level],
            towards: [sin * level, cos * level, rise],
        }
    }

    /// Right and down on the page.
    pub(super) fn page(&self, at: Vector) -> (f64, f64) {
        (METRE * dot(at, self.across), -METRE * dot(at, self.upwards))
    }

    /// How near the eye it is, metres.
    pub(super) fn near(&self, at: Vector) -> f64 {
        dot(at, self.towards)
    }
}
