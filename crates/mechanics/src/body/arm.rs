//! One straight arm about the shoulder: first moment, inertia and what gravity asks of the shoulder.

use quantity::{Angle, Inertia, Length, Mass, Torque};

use super::{Body, Provenance, Segment};
use crate::GRAVITY;
use crate::spread::{WithError, root_sum_square};

/// A straight arm. The elbow is locked; a weight, if any, is held at the third knuckle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arm {
    segments: [Segment; 3],
    body_mass: Mass,
    stature: Length,
}

impl Arm {
    pub(crate) fn of(body: &Body) -> Self {
        Self {
            segments: [body.upper_arm, body.forearm, body.hand],
            body_mass: body.person.mass,
            stature: body.person.stature,
        }
    }

    /// Shoulder joint to third knuckle.
    pub fn reach(&self) -> Length {
        self.segments.iter().map(|segment| segment.length.value.value).sum()
    }

    /// Mass times distance from the shoulder, over body mass times stature: the pure number k for which the arm's
    /// gravity torque at the horizontal is body mass x g x stature x k.
    pub fn first_moment_coefficient(&self) -> f64 {
        self.first_moment_kg_m() / (self.body_mass.kilograms() * self.stature.metres())
    }

    /// Moment of inertia about the shoulder with a weight in the hand, turning about the forward axis.
    pub fn inertia(&self, weight: Mass) -> Inertia {
        let mut proximal = 0.0;
        let mut sum = weight.kilograms() * self.reach().metres().powi(2);
        for segment in &self.segments {
            let (mass, length) = (segment.mass.value.value.kilograms(), segment.length.value.value.metres());
            let own = segment.gyration.sagittal * length;
            let at = proximal + segment.centre.fraction() * length;
            sum += mass * (own * own + at * at);
            proximal += length;
        }
        Inertia::from_kilogram_square_metres(sum)
    }

    /// Torque about the shoulder from the weight of the arm and of what the hand holds.
    ///
    /// The angle is elevation from hanging (90 is horizontal); the plane of elevation does not matter. The error joins
    /// the allowance on segment mass with the error of the lengths; the weight in the hand has only the latter, which
    /// is why loaded raises are better known than unloaded ones.
    pub fn gravity_torque(&self, elevation: Angle, weight: Mass) -> WithError<Torque> {
        let lever = elevation.radians().sin();
        let arm = GRAVITY * self.first_moment_kg_m() * lever;
        let held = GRAVITY * weight.kilograms() * self.reach().metres() * lever;
        let mass_error = self.segments[0].mass.value.relative().unwrap_or(0.0);
        let sd = root_sum_square([arm * mass_error, (arm + held) * self.reach_error()]);
        WithError { value: Torque::from_newton_metres(arm + held), sd: Torque::from_newton_metres(sd) }
    }

    fn first_moment_kg_m(&self) -> f64 {
        let mut proximal = 0.0;
        let mut sum = 0.0;
        for segment in &self.segments {
            let length = segment.length.value.value.metres();
            sum += segment.mass.value.value.kilograms() * (proximal + segment.centre.fraction() * length);
            proximal += length;
        }
        sum
    }

    /// Relative error of the reach: tape errors are independent, table errors all lean the same way.
    fn reach_error(&self) -> f64 {
        let of = |measured: bool| {
            self.segments
                .iter()
                .filter(move |segment| (segment.length.from == Provenance::Measured) == measured)
                .map(|segment| segment.length.value.sd.metres())
        };
        root_sum_square(of(true).chain([of(false).sum()])) / self.reach().metres()
    }
}
