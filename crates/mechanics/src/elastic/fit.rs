//! A force law fitted to a club's own readings, with everything needed to say how good it is.

use quantity::{Force, Length, Share};
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::calibration::{Reading, Refusal, ScaleError, refusals};
use super::law::{Law, Stretch, terms};
use super::least_squares::{self, Solution};
use crate::spread::{WithError, root_sum_square};

/// A fitted strand.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    a: f64,
    b: f64,
    /// Covariance of a and b in square newtons; a constant held at zero has none.
    covariance: [[f64; 2]; 2],
    held_at_zero: [bool; 2],
    residual_sd: f64,
    residual_mean_square: f64,
    freedom: usize,
    residuals: Vec<Force>,
    lowest: Stretch,
    highest: Stretch,
    rest: Length,
}

/// Where a stretch lies against the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// Between the smallest and the largest reading.
    Within,
    /// Below the smallest reading; safe for this law, by so much stretch.
    Below(Share),
    /// Above the largest reading, where rubber stiffens and the law does not know it; by so much stretch.
    Above(Share),
}

/// What the law says at one stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// Force of one strand, with the error of the fitted curve.
    pub curve: WithError<Force>,
    /// Standard deviation of one new reading about the curve.
    pub new_reading_sd: Force,
    /// Interval that holds a new reading 95 times in 100 (Student's t).
    pub new_reading_95: (Force, Force),
    /// Whether the stretch was among the readings.
    pub reach: Reach,
}

/// Part of the force that scale, creep and hysteresis leave uncertain; an allowance.
const SCALE_AND_CREEP: f64 = 0.03;

/// Fits Mooney-Rivlin constants to readings on a piece of known rest length, neither constant below zero.
///
/// F = a (l - l^-2) + b (1 - l^-3), least squares in force; covariance s^2 (A'A)^-1 over the constants that are free,
/// s^2 the residual sum of squares over readings less free constants. Refuses with every reason at once.
/// The two constants are nearly collinear (correlation about -0.98): never quote them without the covariance, always
/// predict through [`Fit::predict`].
pub fn fit(rest: Length, readings: &[Reading], scale: &ScaleError) -> Result<Fit, Vec<Refusal>> {
    fit_columns(rest, readings, scale, 2)
}

/// The same with the first constant alone (neo-Hookean), to show what the second one buys.
pub fn fit_one_term(rest: Length, readings: &[Reading], scale: &ScaleError) -> Result<Fit, Vec<Refusal>> {
    fit_columns(rest, readings, scale, 1)
}

fn fit_columns(
    rest: Length,
    readings: &[Reading],
    scale: &ScaleError,
    n_columns: usize,
) -> Result<Fit, Vec<Refusal>> {
    let refusals = refusals(rest, readings, scale);
    if !refusals.is_empty() {
        return Err(refusals);
    }
    let stretches: Vec<f64> =
        readings.iter().map(|reading| reading.length.metres() / rest.metres()).collect();
    let columns: Vec<Vec<f64>> =
        (0..n_columns).map(|column| stretches.iter().map(|l| terms(*l)[column]).collect()).collect();
    let forces: Vec<f64> = readings.iter().map(|reading| reading.force.newtons()).collect();
    let ends = (
        Stretch::from_ratio(stretches.iter().copied().fold(f64::INFINITY, f64::min)),
        Stretch::from_ratio(stretches.iter().copied().fold(0.0, f64::max)),
    );
    let (Some(lowest), Some(highest)) = ends else { return Err(vec![Refusal::RestLength(rest)]) };
    let solution = least_squares::non_negative(&columns, &forces)
        .ok_or_else(|| vec![Refusal::TooNarrow { lowest, highest }])?;
    if solution.active.is_empty() {
        return Err(vec![Refusal::NoPull { readings: readings.len() }]);
    }
    Ok(assemble(&solution, &stretches, &forces, (lowest, highest), rest))
}

fn assemble(
    solution: &Solution,
    stretches: &[f64],
    forces: &[f64],
    (lowest, highest): (Stretch, Stretch),
    rest: Length,
) -> Fit {
    let freedom = forces.len() - solution.active.len();
    let variance = solution.squares / freedom as f64;
    let mut covariance = [[0.0; 2]; 2];
    for (row, i) in solution.active.iter().enumerate() {
        for (column, j) in solution.active.iter().enumerate() {
            covariance[*i][*j] = variance * solution.inverse[(row, column)];
        }
    }
    let a = solution.coefficients[0];
    let b = solution.coefficients.get(1).copied().unwrap_or(0.0);
    let residuals = stretches
        .iter()
        .zip(forces)
        .map(|(l, force)| Force::from_newtons(force - a * terms(*l)[0] - b * terms(*l)[1]))
        .collect();
    Fit {
        a,
        b,
        covariance,
        held_at_zero: [0, 1].map(|column| !solution.active.contains(&column)),
        residual_sd: variance.sqrt(),
        residual_mean_square: solution.squares / forces.len() as f64,
        freedom,
        residuals,
        lowest,
        highest,
        rest,
    }
}

impl Fit {
    /// The force law of one strand.
    pub fn law(&self) -> Law {
        Law::MooneyRivlin { a: Force::from_newtons(self.a), b: Force::from_newtons(self.b) }
    }

    /// The two constants, each with its standard error; of no use without [`Fit::correlation`].
    pub fn constants(&self) -> [WithError<Force>; 2] {
        [(self.a, 0), (self.b, 1)].map(|(value, index)| WithError {
            value: Force::from_newtons(value),
            sd: Force::from_newtons(self.covariance[index][index].sqrt()),
        })
    }

    /// Correlation of the two constants, or nothing when one of them was held at zero.
    pub fn correlation(&self) -> Option<f64> {
        let [[aa, ab], [_, bb]] = self.covariance;
        (0.0 < aa && 0.0 < bb).then(|| ab / (aa * bb).sqrt())
    }

    /// Whether each constant was held at zero because a free fit would have made it negative.
    pub fn held_at_zero(&self) -> [bool; 2] {
        self.held_at_zero
    }

    /// Standard deviation of the readings about the curve.
    pub fn residual_sd(&self) -> Force {
        Force::from_newtons(self.residual_sd)
    }

    /// Root mean square of the residuals, which makes no allowance for the constants fitted.
    pub fn residual_root_mean_square(&self) -> Force {
        Force::from_newtons(self.residual_mean_square.sqrt())
    }

    /// Reading minus curve, in the order of the readings.
    pub fn residuals(&self) -> &[Force] {
        &self.residuals
    }

    /// Smallest and largest stretch read.
    pub fn range(&self) -> (Stretch, Stretch) {
        (self.lowest, self.highest)
    }

    /// Rest length of the piece that was measured.
    pub fn rest(&self) -> Length {
        self.rest
    }

    /// Readings less free constants.
    pub fn degrees_of_freedom(&self) -> usize {
        self.freedom
    }

    /// Force of one strand at a stretch, with intervals, and by how much the stretch leaves the readings.
    pub fn predict(&self, stretch: Stretch) -> Prediction {
        let l = stretch.ratio().max(1.0);
        let force = self.law().force(stretch).newtons();
        let [first, second] = terms(l);
        let [[aa, ab], [_, bb]] = self.covariance;
        let curve_sd =
            (first * first * aa + 2.0 * first * second * ab + second * second * bb).max(0.0).sqrt();
        let new_sd = root_sum_square([curve_sd, self.residual_sd]);
        let half = new_sd * self.student_95();
        Prediction {
            curve: WithError { value: Force::from_newtons(force), sd: Force::from_newtons(curve_sd) },
            new_reading_sd: Force::from_newtons(new_sd),
            new_reading_95: (Force::from_newtons(force - half), Force::from_newtons(force + half)),
            reach: self.reach(stretch),
        }
    }

    /// Whether a stretch lies among the readings, and if not, by how much it leaves them.
    pub fn reach(&self, stretch: Stretch) -> Reach {
        // A centimetre more than the last reading because of rounding is not an extrapolation worth a word.
        let slack = 1e-9;
        if stretch.ratio() < self.lowest.ratio() - slack {
            Reach::Below(Share::from_fraction(self.lowest.ratio() - stretch.ratio()))
        } else if self.highest.ratio() + slack < stretch.ratio() {
            Reach::Above(Share::from_fraction(stretch.ratio() - self.highest.ratio()))
        } else {
            Reach::Within
        }
    }

    /// Force at a stretch with everything that makes it uncertain in use: the curve and a new reading, the length the
    /// hand really has, and scale, creep and hysteresis as a part of the force.
    pub fn in_use(&self, stretch: Stretch, rest: Length, length_sd: Length, part: Share) -> WithError<Force> {
        let prediction = self.predict(stretch);
        let force = prediction.curve.value;
        let slope = self.law().stiffness(stretch, rest).newtons_per_metre();
        let sd = root_sum_square([
            prediction.new_reading_sd.newtons(),
            slope * length_sd.metres(),
            part.fraction() * force.newtons(),
        ]);
        WithError { value: force, sd: Force::from_newtons(sd) }
    }

    /// Everything uncertain about the band's force in use except its length, as a part of the force: the error of a
    /// new reading, and 3 % for scale, creep and hysteresis. Nothing where the band pulls with nothing.
    pub fn band_error(&self, stretch: Stretch) -> Option<Share> {
        let prediction = self.predict(stretch);
        let reading = prediction.new_reading_sd.ratio_to(prediction.curve.value)?;
        Some(Share::from_fraction(root_sum_square([reading, SCALE_AND_CREEP])))
    }

    fn student_95(&self) -> f64 {
        StudentsT::new(0.0, 1.0, self.freedom as f64).map_or(f64::MAX.sqrt(), |t| t.inverse_cdf(0.975))
    }
}
