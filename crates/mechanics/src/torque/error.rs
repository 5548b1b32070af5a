//! How well a peak torque is known: what the kit adds, and what the body and the holding of it add.
//!
//! The two are kept apart because the second is the same for every rung of one person and cancels in the step from one
//! rung to the next. A calibrated band on a measured person comes to about 8-10 %, an uncalibrated one to 20-30 %.

use quantity::{Angle, Length, Mass, Share, Torque};

use super::exercise::Exercise;
use super::rotation::{AnchoredRotation, TwoHandRotation};
use super::row::Row;
use crate::spread::root_sum_square;

/// One standard deviation of each input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InputErrors {
    /// Force of the band as a part of it: 3-5 % calibrated, 20 % and more not.
    pub band: Share,
    /// Free length of the band where it is gripped.
    pub grip: Length,
    /// Every length on the body and from the anchor.
    pub length: Length,
    /// Every joint angle.
    pub angle: Angle,
    /// A weight in the hand.
    pub weight: Share,
}

impl InputErrors {
    /// A calibrated band on a measured person: 4 %, half a centimetre of grip, a centimetre, five degrees, 1 %.
    pub const CALIBRATED: Self = Self {
        band: Share::from_fraction(0.04),
        grip: Length::from_metres(0.005),
        length: Length::from_metres(0.01),
        angle: Angle::from_degrees(5.0),
        weight: Share::from_fraction(0.01),
    };

    pub(crate) fn are_plausible(&self) -> bool {
        let within = |value: f64, most: f64| (0.0..=most).contains(&value);
        within(self.band.fraction(), 1.0)
            && within(self.weight.fraction(), 1.0)
            && within(self.grip.metres(), 0.01)
            && within(self.length.metres(), 1.0)
            && within(self.angle.degrees(), 90.0)
    }
}

/// Standard deviation of a peak torque, in two independent parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TorqueError {
    /// From band or weight: differs from rung to rung.
    pub kit: Torque,
    /// From body lengths, angles and holding: the same for all rungs of one person.
    pub body: Torque,
}

/// Error at the peak, by moving each input up and down by its own and taking the larger change.
pub(crate) fn at_peak(exercise: &Exercise, peak: Angle, errors: &InputErrors) -> TorqueError {
    let phi = peak.radians();
    let plain = exercise.torque_nm(phi);
    let change = |moved: &dyn Fn(f64) -> f64| {
        [1.0, -1.0].map(|sign| (moved(sign) - plain).abs()).into_iter().fold(0.0, f64::max)
    };
    let angle = change(&|sign| exercise.torque_nm(phi + sign * errors.angle.radians()));
    let kit = kit_changes(exercise, errors).map(|moved| change(&|sign| moved(sign).torque_nm(phi)));
    let lengths = n_lengths(exercise);
    let mut body: Vec<f64> = (0..lengths)
        .map(|index| change(&|sign| longer(exercise, index, sign * errors.length.metres()).torque_nm(phi)))
        .collect();
    body.push(angle);
    if let Exercise::HandRaise(raise) = exercise {
        body.push(raise.with_error(phi).sd.newton_metres());
    }
    if let Exercise::BallCircles(circles) = exercise {
        let arm = circles.arm.gravity_torque(circles.elevation, circles.ball);
        body.push(arm.sd.newton_metres());
    }
    TorqueError {
        kit: Torque::from_newton_metres(root_sum_square(kit)),
        body: Torque::from_newton_metres(root_sum_square(body)),
    }
}

type Moved<'a> = Box<dyn Fn(f64) -> Exercise + 'a>;

/// The exercise with a stronger band or heavier weight, and with a band gripped elsewhere.
fn kit_changes<'a>(exercise: &'a Exercise, errors: &'a InputErrors) -> [Moved<'a>; 2] {
    let stronger = move |sign: f64| match exercise {
        Exercise::HandRaise(it) => {
            let weight = it.weight.kilograms() * (1.0 + sign * errors.weight.fraction());
            let mut it = *it;
            it.weight = Mass::from_kilograms(weight);
            Exercise::HandRaise(it)
        }
        Exercise::BallCircles(it) => {
            let ball = it.ball.kilograms() * (1.0 + sign * errors.weight.fraction());
            let mut it = *it;
            it.ball = Mass::from_kilograms(ball);
            Exercise::BallCircles(it)
        }
        other => with_band(other, 1.0 + sign * errors.band.fraction(), 0.0),
    };
    [Box::new(stronger), Box::new(move |sign| with_band(exercise, 1.0, sign * errors.grip.metres()))]
}

fn with_band(exercise: &Exercise, force: f64, rest_m: f64) -> Exercise {
    match *exercise {
        Exercise::TwoHandRotation(it) => {
            Exercise::TwoHandRotation(TwoHandRotation { piece: it.piece.scaled(force, rest_m), ..it })
        }
        Exercise::AnchoredRotation(it) => {
            Exercise::AnchoredRotation(AnchoredRotation { piece: it.piece.scaled(force, rest_m), ..it })
        }
        Exercise::Row(it) => Exercise::Row(Row { piece: it.piece.scaled(force, rest_m), ..it }),
        other => other,
    }
}

/// Lengths of an exercise that a tape has to give.
fn n_lengths(exercise: &Exercise) -> usize {
    match exercise {
        Exercise::TwoHandRotation(_) | Exercise::AnchoredRotation(_) => 2,
        Exercise::Row(_) => 4,
        Exercise::BallCircles(_) => 1,
        Exercise::HandRaise(_) | Exercise::PushUp(_) => 0,
    }
}

/// The exercise with one of its lengths longer by so many metres.
fn longer(exercise: &Exercise, index: usize, by: f64) -> Exercise {
    let more = |length: Length| Length::from_metres(length.metres() + by);
    match (*exercise, index) {
        (Exercise::TwoHandRotation(it), 0) => {
            Exercise::TwoHandRotation(TwoHandRotation { forearm: more(it.forearm), ..it })
        }
        (Exercise::TwoHandRotation(it), _) => {
            Exercise::TwoHandRotation(TwoHandRotation { elbow_spacing: more(it.elbow_spacing), ..it })
        }
        (Exercise::AnchoredRotation(it), 0) => {
            Exercise::AnchoredRotation(AnchoredRotation { forearm: more(it.forearm), ..it })
        }
        (Exercise::AnchoredRotation(mut it), _) => {
            it.anchor.outward = more(it.anchor.outward);
            Exercise::AnchoredRotation(it)
        }
        (Exercise::Row(it), 0) => Exercise::Row(Row { start_distance: more(it.start_distance), ..it }),
        (Exercise::Row(it), 1) => Exercise::Row(Row { pull: more(it.pull), ..it }),
        (Exercise::Row(it), 2) => Exercise::Row(Row { upper_arm: more(it.upper_arm), ..it }),
        (Exercise::Row(it), _) => Exercise::Row(Row { forearm: more(it.forearm), ..it }),
        (Exercise::BallCircles(mut it), _) => {
            it.radius = more(it.radius);
            Exercise::BallCircles(it)
        }
        (other, _) => other,
    }
}
