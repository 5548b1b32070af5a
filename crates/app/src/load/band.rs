//! From readings of a luggage scale to a force law with its errors.

use mechanics::elastic::{Fit, Reach, Reading, ScaleError, Stretch, fit, fit_one_term};
use quantity::reading::{self, DecimalMark, Dimension, Unit};
use quantity::{Length, Share};
use serde::Serialize;

use super::columns::{self, Kind, Wanted};
use super::refusals;
use crate::facts::Problem;

/// Name and version of the answer.
pub const SHAPE: &str = "cuffwright.band-fit/1";

const COLUMNS: &[Wanted] = &[
    Wanted {
        key: "length_m",
        words: &["length", "lengths", "len", "stretched", "distance", "span", "l"],
        kind: Kind::Of(Dimension::Length),
        bare: None,
    },
    Wanted {
        key: "force_n",
        words: &["force", "forces", "pull", "tension", "load", "reading", "scale", "weight", "f"],
        kind: Kind::Of(Dimension::Force),
        bare: None,
    },
];

/// How a fit is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Rest length of the piece between its marks.
    pub rest: Length,
    /// The first constant alone.
    pub one_term: bool,
    /// Stretches to predict at; evenly through the readings when empty.
    pub at: Vec<f64>,
    /// Error of a tape in use.
    pub length_sd: Length,
    /// Scale, creep and hysteresis as a part of the force.
    pub part: Share,
}

impl Asked {
    /// The usual question: both constants, a centimetre of tape, 3 % of scale and creep.
    pub fn of(rest: Length) -> Self {
        Self {
            rest,
            one_term: false,
            at: Vec::new(),
            length_sd: Length::from_metres(0.01),
            part: Share::from_fraction(0.03),
        }
    }
}

/// A fitted band, with where each reading stands in its file.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// The law.
    pub fit: Fit,
    /// What was read, with the line of each.
    pub readings: Vec<(u64, Reading)>,
}

/// Reads a length as people write it: bare metres, or with a unit.
pub fn length(text: &str) -> Result<Length, Problem> {
    let plain = text.trim().parse::<f64>().ok().filter(|value| value.is_finite()).map(Length::from_metres);
    let with_unit = || {
        reading::quantity(text, Dimension::Length, Some(Unit::Metre), Some(DecimalMark::Point))
            .ok()
            .and_then(|read| Length::try_from_metres(read.value).ok())
    };
    plain.or_else(with_unit).ok_or_else(|| Problem::at("", "load-no-length").with("text", text.to_owned()))
}

/// Reads and fits. Every problem of the file is listed.
pub fn read(text: &str, asked: &Asked) -> Result<Fitted, Vec<Problem>> {
    let rows = columns::read(text, COLUMNS, &[0, 1])?;
    let mut readings = Vec::new();
    let mut problems = Vec::new();
    for (index, row) in rows.iter().enumerate() {
        let [Some(length), Some(force)] = [row.values[0], row.values[1]] else { continue };
        match Reading::try_new(index, length, force) {
            Ok(reading) => readings.push((row.line, reading)),
            Err(refusal) => problems.push(refusals::calibration(&refusal, &lines(&rows))),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let bare: Vec<Reading> = readings.iter().map(|(_, reading)| *reading).collect();
    let law = if asked.one_term { fit_one_term } else { fit };
    match law(asked.rest, &bare, &ScaleError::LUGGAGE_SCALE) {
        Ok(fit) => Ok(Fitted { fit, readings }),
        Err(refused) => {
            let lines = lines(&rows);
            Err(refused.iter().map(|refusal| refusals::calibration(refusal, &lines)).collect())
        }
    }
}

/// Fits both constants to bare readings: lengths in metres, forces in newtons.
pub fn fit_of(rest: Length, readings: &[(f64, f64)]) -> Result<Fit, Vec<Problem>> {
    let lines: Vec<u64> = Vec::new();
    let read: Result<Vec<Reading>, _> = readings
        .iter()
        .enumerate()
        .map(|(index, (length, force))| Reading::try_new(index, *length, *force))
        .collect();
    let read = read.map_err(|refusal| vec![refusals::calibration(&refusal, &lines)])?;
    fit(rest, &read, &ScaleError::LUGGAGE_SCALE)
        .map_err(|refused| refused.iter().map(|refusal| refusals::calibration(refusal, &lines)).collect())
}

/// Reads a table of readings and nothing more: lengths in metres, forces in newtons.
pub fn readings(text: &str) -> Result<Vec<(f64, f64)>, Vec<Problem>> {
    let rows = columns::read(text, COLUMNS, &[0, 1])?;
    Ok(rows.iter().filter_map(|row| Some((row.values[0]?, row.values[1]?))).collect())
}

fn lines(rows: &[columns::Row]) -> Vec<u64> {
    rows.iter().map(|row| row.line).collect()
}

/// The answer in JSON.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// Name and version.
    pub shape: &'static str,
    /// The law in words.
    pub law: &'static str,
    /// The law as a formula.
    pub formula: &'static str,
    /// Rest length, metres.
    pub rest_m: f64,
    /// How many readings.
    pub n_readings: usize,
    /// The constants, newtons of one strand.
    pub constants: Constants,
    /// Their standard errors; of no use without the covariance.
    pub standard_errors: Constants,
    /// Covariance of a and b, square newtons; a constant held at zero has none.
    pub covariance_n2: [[f64; 2]; 2],
    /// Correlation of a and b; absent when one was held at zero.
    pub correlation: Option<f64>,
    /// Which constants a free fit would have made negative.
    pub held_at_zero: Held,
    /// Spread of readings about the curve, newtons.
    pub residual_sd_n: f64,
    /// Root mean square of the residuals, newtons.
    pub root_mean_square_n: f64,
    /// Readings less free constants.
    pub degrees_of_freedom: usize,
    /// What was measured; nothing above it is promised.
    pub range: Range,
    /// Every reading.
    pub readings: Vec<OneReading>,
    /// Reading minus curve, newtons, in the order of the file.
    pub residuals_n: Vec<f64>,
    /// Force at double length, newtons: how a club may call the piece.
    pub force_at_double_n: Predicted,
    /// Predictions through the range, or where asked.
    pub predictions: Vec<Predicted>,
}

/// Two constants.
#[derive(Debug, Serialize)]
pub struct Constants {
    /// Of the first term, newtons.
    pub a_n: f64,
    /// Of the second term, newtons.
    pub b_n: f64,
}

/// Which constants stand at zero.
#[derive(Debug, Serialize)]
pub struct Held {
    /// The first.
    pub a: bool,
    /// The second.
    pub b: bool,
}

/// Smallest and largest of what was measured.
#[derive(Debug, Serialize)]
pub struct Range {
    /// Length, metres.
    pub length_m: [f64; 2],
    /// Length over rest length.
    pub stretch: [f64; 2],
    /// Percent elongation.
    pub elongation_pct: [f64; 2],
}

/// One reading beside the curve.
#[derive(Debug, Serialize)]
pub struct OneReading {
    /// Line of the file.
    pub line: u64,
    /// Length, metres.
    pub length_m: f64,
    /// Length over rest length.
    pub stretch: f64,
    /// What the scale said, newtons.
    pub force_n: f64,
    /// What the curve says, newtons.
    pub fitted_n: f64,
    /// The difference, newtons.
    pub residual_n: f64,
}

/// What the law says at one stretch.
#[derive(Debug, Serialize)]
pub struct Predicted {
    /// Length over rest length.
    pub stretch: f64,
    /// Percent elongation.
    pub elongation_pct: f64,
    /// Length of the measured piece, metres.
    pub length_m: f64,
    /// Force of one strand, newtons.
    pub force_n: f64,
    /// Standard deviation of the curve, newtons.
    pub curve_sd_n: f64,
    /// Standard deviation of one new reading, newtons.
    pub new_reading_sd_n: f64,
    /// Holds a new reading 95 times in 100 (Student's t), newtons.
    pub interval_95_n: [f64; 2],
    /// With the tape and with scale, creep and hysteresis: what a hand meets, newtons.
    pub in_use_sd_n: f64,
    /// `within`, `below` or `above` what was measured.
    pub reach: &'static str,
    /// How far outside, as stretch; nought within.
    pub outside_by: f64,
}

impl Fitted {
    /// The answer.
    pub fn answer(&self, asked: &Asked) -> Answer {
        let fit = &self.fit;
        let [a, b] = fit.constants();
        let (low, high) = fit.range();
        let rest = fit.rest().metres();
        let cross = fit.correlation().unwrap_or(0.0) * a.sd.newtons() * b.sd.newtons();
        let [a_held, b_held] = fit.held_at_zero();
        let stretches: Vec<f64> = if asked.at.is_empty() {
            (0..=8).map(|part| low.ratio() + (high.ratio() - low.ratio()) * f64::from(part) / 8.0).collect()
        } else {
            asked.at.clone()
        };
        let predicted = |ratio: f64| Stretch::from_ratio(ratio).map(|stretch| self.predicted(stretch, asked));
        let double = Stretch::from_ratio(2.0).unwrap_or(Stretch::REST);
        Answer {
            shape: SHAPE,
            law: if asked.one_term { "neo-hookean" } else { "mooney-rivlin" },
            formula: "F = a (l - l^-2) + b (1 - l^-3), newtons of one strand, l = length / rest length, a and b not below zero",
            rest_m: rest,
            n_readings: self.readings.len(),
            constants: Constants { a_n: a.value.newtons(), b_n: b.value.newtons() },
            standard_errors: Constants { a_n: a.sd.newtons(), b_n: b.sd.newtons() },
            covariance_n2: [[a.sd.newtons().powi(2), cross], [cross, b.sd.newtons().powi(2)]],
            correlation: fit.correlation(),
            held_at_zero: Held { a: a_held, b: b_held },
            residual_sd_n: fit.residual_sd().newtons(),
            root_mean_square_n: fit.residual_root_mean_square().newtons(),
            degrees_of_freedom: fit.degrees_of_freedom(),
            range: Range {
                length_m: [low.ratio() * rest, high.ratio() * rest],
                stretch: [low.ratio(), high.ratio()],
                elongation_pct: [low.percent_elongation(), high.percent_elongation()],
            },
            readings: self
                .readings
                .iter()
                .zip(fit.residuals())
                .map(|((line, reading), residual)| OneReading {
                    line: *line,
                    length_m: reading.length.metres(),
                    stretch: reading.length.metres() / rest,
                    force_n: reading.force.newtons(),
                    fitted_n: reading.force.newtons() - residual.newtons(),
                    residual_n: residual.newtons(),
                })
                .collect(),
            residuals_n: fit.residuals().iter().map(|residual| residual.newtons()).collect(),
            force_at_double_n: self.predicted(double, asked),
            predictions: stretches.into_iter().filter_map(predicted).collect(),
        }
    }

    fn predicted(&self, stretch: Stretch, asked: &Asked) -> Predicted {
        let said = self.fit.predict(stretch);
        let in_use = self.fit.in_use(stretch, self.fit.rest(), asked.length_sd, asked.part);
        let (reach, outside_by) = match said.reach {
            Reach::Within => ("within", 0.0),
            Reach::Below(by) => ("below", by.fraction()),
            Reach::Above(by) => ("above", by.fraction()),
        };
        Predicted {
            stretch: stretch.ratio(),
            elongation_pct: stretch.percent_elongation(),
            length_m: stretch.ratio() * self.fit.rest().metres(),
            force_n: said.curve.value.newtons(),
            curve_sd_n: said.curve.sd.newtons(),
            new_reading_sd_n: said.new_reading_sd.newtons(),
            interval_95_n: [said.new_reading_95.0.newtons(), said.new_reading_95.1.newtons()],
            in_use_sd_n: in_use.sd.newtons(),
            reach,
            outside_by,
        }
    }
}
