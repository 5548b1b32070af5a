//! One exercise as plain data, and the report that is made of it.

use quantity::{Angle, Force, Length, Mass, Torque};

use super::circles::BallCircles;
use super::curve::{Curve, follow};
use super::error::{InputErrors, TorqueError, at_peak};
use super::push_up::{HandLoad, PushUp, PushUpRefusal};
use super::raise::HandRaise;
use super::rotation::{AnchoredRotation, TwoHandRotation};
use super::row::Row;
use super::tempo::Tempo;
use crate::elastic::{Piece, Stretch};
use crate::spread::{WithError, root_sum_square};

/// The geometry and kit of one exercise for one person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Exercise {
    /// Both arms turn outwards against a band between the hands.
    TwoHandRotation(TwoHandRotation),
    /// One arm turns against an anchored band; in or out by where the anchor is.
    AnchoredRotation(AnchoredRotation),
    /// Band row.
    Row(Row),
    /// Straight arm raised, with or without a weight.
    HandRaise(HandRaise),
    /// Ball circles on a wall.
    BallCircles(BallCircles),
    /// Push-up in any variant.
    PushUp(PushUp),
}

/// An exercise with its movement: what a file describes and what a report is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// Geometry and kit.
    pub exercise: Exercise,
    /// Where the movement starts, in the angle of the exercise.
    pub from: Angle,
    /// Where it ends.
    pub to: Angle,
    /// How fast.
    pub tempo: Tempo,
}

/// What an exercise asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A torque through the movement.
    Torque(TorqueReport),
    /// A share of body weight at the hands.
    HandLoad(HandLoad),
}

/// A torque curve with the error of its peak.
#[derive(Debug, Clone, PartialEq)]
pub struct TorqueReport {
    /// The curve.
    pub curve: Curve,
    /// Error of the peak, kit and body apart.
    pub error: TorqueError,
    /// Smallest and largest stretch of the band in the movement, when there is a band.
    pub stretch: Option<(Stretch, Stretch)>,
}

/// Why an exercise makes no sense. Every variant carries what was entered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ExerciseRefusal {
    /// A length that must be positive and shorter than ten metres.
    Length {
        /// Which.
        what: &'static str,
        /// What was entered.
        length: Length,
    },
    /// An anchor further away than ten metres.
    Anchor(Length),
    /// An angle outside half a turn either way, or a rise beyond upright.
    Angle {
        /// Which.
        what: &'static str,
        /// What was entered.
        angle: Angle,
    },
    /// A movement that ends where it starts.
    NoMovement(Angle),
    /// A weight below nothing or above thirty kilograms.
    Weight(Mass),
    /// A press below nothing or above a kilonewton.
    Press(Force),
    /// A push-up that makes no sense.
    PushUp(PushUpRefusal),
    /// Errors of the inputs that are negative, or larger than the inputs can be.
    Errors(InputErrors),
}

/// A band at one moment of a movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BandAt {
    /// Between its ends.
    pub span: Length,
    /// Its stretch.
    pub stretch: Stretch,
    /// Force of one strand.
    pub strand_force: Force,
    /// Pull on each end: of one strand, or of the two of a loop.
    pub pull: Force,
}

impl TorqueReport {
    /// The peak with its whole error.
    pub fn peak(&self) -> WithError<Torque> {
        let value = self.curve.peak.torque;
        let parts = [self.error.kit, self.error.body].map(Torque::newton_metres);
        WithError { value, sd: Torque::from_newton_metres(root_sum_square(parts)) }
    }
}

impl Movement {
    /// Works the exercise out, or says everything that is wrong with its description.
    pub fn report(&self, errors: &InputErrors) -> Result<Outcome, Vec<ExerciseRefusal>> {
        let mut refusals = self.refusals();
        if !errors.are_plausible() {
            refusals.push(ExerciseRefusal::Errors(*errors));
        }
        if !refusals.is_empty() {
            return Err(refusals);
        }
        if let Exercise::PushUp(push_up) = self.exercise {
            return push_up
                .load()
                .map(Outcome::HandLoad)
                .map_err(|refusal| vec![ExerciseRefusal::PushUp(refusal)]);
        }
        let curve = follow(|phi| self.exercise.torque_nm(phi), self.from, self.to, &self.tempo);
        let error = at_peak(&self.exercise, curve.peak.angle, errors);
        Ok(Outcome::Torque(TorqueReport { curve, error, stretch: self.stretches() }))
    }

    /// Torque at one angle; for a push-up there is none.
    pub fn torque_at(&self, angle: Angle) -> Result<Option<Torque>, Vec<ExerciseRefusal>> {
        let refusals = self.refusals();
        if !refusals.is_empty() {
            return Err(refusals);
        }
        let is_torque = !matches!(self.exercise, Exercise::PushUp(_));
        Ok(is_torque.then(|| Torque::from_newton_metres(self.exercise.torque_nm(angle.radians()))))
    }

    fn stretches(&self) -> Option<(Stretch, Stretch)> {
        const STEPS: u32 = 180;
        let piece = self.exercise.piece()?;
        let (from, to) = (self.from.radians(), self.to.radians());
        let at = |index: u32| from + (to - from) * f64::from(index) / f64::from(STEPS);
        let stretch = |index: u32| {
            let span = self.exercise.span_m(at(index)).unwrap_or(0.0).max(0.0);
            piece.stretch(Length::from_metres(span)).ratio()
        };
        let low = (0..=STEPS).map(stretch).fold(f64::INFINITY, f64::min);
        let high = (0..=STEPS).map(stretch).fold(0.0, f64::max);
        Some((Stretch::from_ratio(low)?, Stretch::from_ratio(high)?))
    }

    fn refusals(&self) -> Vec<ExerciseRefusal> {
        let mut found = self.exercise.refusals();
        // Circles go round and round; everything else ends within half a turn.
        let most = if matches!(self.exercise, Exercise::BallCircles(_)) { 3600.0 } else { 180.0 };
        for (what, angle) in [("from", self.from), ("to", self.to)] {
            if most < angle.degrees().abs() {
                found.push(ExerciseRefusal::Angle { what, angle });
            }
        }
        if self.from == self.to && !matches!(self.exercise, Exercise::PushUp(_)) {
            found.push(ExerciseRefusal::NoMovement(self.from));
        }
        found
    }
}

impl Exercise {
    /// The band in it, if there is one.
    pub fn piece(&self) -> Option<&Piece> {
        match self {
            Self::TwoHandRotation(it) => Some(&it.piece),
            Self::AnchoredRotation(it) => Some(&it.piece),
            Self::Row(it) => Some(&it.piece),
            Self::HandRaise(_) | Self::BallCircles(_) | Self::PushUp(_) => None,
        }
    }

    /// The band at an angle, if there is one; a span that makes no sense is taken as none at all.
    pub fn band_at(&self, angle: Angle) -> Option<BandAt> {
        let piece = self.piece()?;
        let span = Length::try_from_metres(self.span_m(angle.radians())?.max(0.0)).ok()?;
        Some(BandAt {
            span,
            stretch: piece.stretch(span),
            strand_force: piece.strand_force(span),
            pull: piece.pull(span),
        })
    }

    /// Between the ends of the band at an angle, if there is one; checked descriptions only.
    pub(crate) fn span_m(&self, phi: f64) -> Option<f64> {
        match self {
            Self::TwoHandRotation(it) => Some(it.span_m(phi)),
            Self::AnchoredRotation(it) => Some(it.span_m(phi)),
            Self::Row(it) => Some(it.span_m(phi)),
            Self::HandRaise(_) | Self::BallCircles(_) | Self::PushUp(_) => None,
        }
    }

    /// Torque in newton metres at an angle in radians; nothing for a push-up.
    pub(crate) fn torque_nm(&self, phi: f64) -> f64 {
        match self {
            Self::TwoHandRotation(it) => it.torque_nm(phi),
            Self::AnchoredRotation(it) => it.torque_nm(phi),
            Self::Row(it) => it.torque_nm(phi),
            Self::HandRaise(it) => it.torque_nm(phi),
            Self::BallCircles(it) => it.torque_nm(phi),
            Self::PushUp(_) => 0.0,
        }
    }

    fn refusals(&self) -> Vec<ExerciseRefusal> {
        let length = |what, length: Length| {
            (!(0.0 < length.metres() && length.metres() < 10.0))
                .then_some(ExerciseRefusal::Length { what, length })
        };
        let angle = |what, angle: Angle, limit: f64| {
            (limit < angle.degrees().abs()).then_some(ExerciseRefusal::Angle { what, angle })
        };
        let weight =
            |mass: Mass| (!(0.0..=30.0).contains(&mass.kilograms())).then_some(ExerciseRefusal::Weight(mass));
        match self {
            Self::TwoHandRotation(it) => {
                [length("elbow_spacing", it.elbow_spacing), length("forearm", it.forearm)]
                    .into_iter()
                    .flatten()
                    .collect()
            }
            Self::AnchoredRotation(it) => {
                let parts = [it.anchor.outward, it.anchor.forward, it.anchor.up];
                let too_far =
                    parts.into_iter().find(|part| 10.0 < part.metres().abs()).map(ExerciseRefusal::Anchor);
                [length("forearm", it.forearm), too_far].into_iter().flatten().collect()
            }
            Self::Row(it) => [
                length("start_distance", it.start_distance),
                length("pull", it.pull),
                length("upper_arm", it.upper_arm),
                length("forearm", it.forearm),
                angle("rise", it.rise, 90.0),
                angle("start_flexion", it.start_flexion, 180.0),
                (it.start_flexion.degrees() <= 0.0)
                    .then_some(ExerciseRefusal::Angle { what: "start_flexion", angle: it.start_flexion }),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::HandRaise(it) => weight(it.weight).into_iter().collect(),
            Self::BallCircles(it) => [
                weight(it.ball),
                length("radius", it.radius),
                angle("elevation", it.elevation, 180.0),
                (!(0.0..=1000.0).contains(&it.press.newtons())).then_some(ExerciseRefusal::Press(it.press)),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::PushUp(_) => Vec::new(),
        }
    }
}
