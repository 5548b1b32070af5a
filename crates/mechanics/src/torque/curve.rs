//! Torque against angle, and what a repetition adds up to.

use quantity::{Angle, AngularImpulse, Energy, Torque};

use super::tempo::{Tempo, progress};
use crate::numeric;

/// One point of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurvePoint {
    /// Where.
    pub angle: Angle,
    /// How much.
    pub torque: Torque,
}

/// Torque through a movement.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Evenly spaced in angle, start and end included.
    pub points: Vec<CurvePoint>,
    /// Largest size of torque and where it comes; the torque keeps its sign.
    pub peak: CurvePoint,
    /// Mean over the arc.
    pub mean: Torque,
    /// Integral over the arc: the work of one arm from start to end.
    pub work: Energy,
    /// Torque over the time of one repetition, out, held and back.
    pub impulse: AngularImpulse,
}

/// Points a curve is drawn with.
const POINTS: u32 = 61;

/// Follows a torque given in newton metres against radians.
pub(crate) fn follow(torque: impl Fn(f64) -> f64, from: Angle, to: Angle, tempo: &Tempo) -> Curve {
    let (start, end) = (from.radians(), to.radians());
    let place = |part: f64| start + (end - start) * part;
    let point = |phi: f64| CurvePoint {
        angle: Angle::from_radians(phi),
        torque: Torque::from_newton_metres(torque(phi)),
    };
    let points = (0..POINTS).map(|index| point(place(f64::from(index) / f64::from(POINTS - 1)))).collect();
    let (peak, _) = numeric::peak(|part| torque(place(part)).abs(), 0.0, 1.0);
    let work = numeric::integral(&torque, start, end);
    let mean = numeric::integral(|part| torque(place(part)), 0.0, 1.0);
    // Out and back are the same smooth movement run either way, so they share one integral over its time.
    let moving = numeric::integral(|part| torque(place(progress(part))), 0.0, 1.0);
    let impulse = moving * (tempo.out.seconds() + tempo.back.seconds()) + torque(end) * tempo.hold.seconds();
    Curve {
        points,
        peak: point(place(peak)),
        mean: Torque::from_newton_metres(mean),
        work: Energy::from_joules(work),
        impulse: AngularImpulse::from_newton_metre_seconds(impulse),
    }
}
