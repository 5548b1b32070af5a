//! What a scale and a tape say: a band's calibration, and the lengths of a swimmer's arm.

use jiff::civil::Date;
use mechanics::elastic::Fit;
use quantity::Length;
use serde::{Deserialize, Serialize};

use super::Problem;
use crate::load::band;

/// A calibration of one piece of band, as read off scale and tape.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalibrationFact {
    /// Day.
    pub date: Date,
    /// Mark of the piece.
    pub mark: String,
    /// Rest length between the marks of the piece that was measured, metres.
    pub rest_m: f64,
    /// What was read, going up.
    pub readings: Vec<ReadingFact>,
    /// Who measured.
    pub by: String,
    /// The readings as a person wrote them, with their units.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_entered: Option<String>,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReadingFact {
    /// Length between the marks, metres.
    pub length_m: f64,
    /// Force on the scale, newtons.
    pub force_n: f64,
}

/// Lengths of a swimmer's arm by tape; what is absent was not measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArmLengthsFact {
    /// Day.
    pub date: Date,
    /// Acromion to elbow crease, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub upper_arm_m: Option<f64>,
    /// Elbow to wrist, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub forearm_m: Option<f64>,
    /// Wrist to third knuckle, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wrist_to_knuckle_m: Option<f64>,
    /// Elbow to elbow, arms at the sides, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub elbow_spacing_m: Option<f64>,
}

impl CalibrationFact {
    /// The force law of one strand, or every reason why there is none.
    pub fn fit(&self) -> Result<Fit, Vec<Problem>> {
        let rest = Length::try_from_metres(self.rest_m)
            .map_err(|_| vec![Problem::at("rest_m", "load-no-number").with("cell", "")])?;
        let readings: Vec<(f64, f64)> =
            self.readings.iter().map(|reading| (reading.length_m, reading.force_n)).collect();
        band::fit_of(rest, &readings)
    }
}

/// An arm's parts lie between these, metres: whatever lies outside is another unit, or a slip.
const ARM_PART: (f64, f64) = (0.03, 0.60);

impl ArmLengthsFact {
    /// Every length that is none.
    pub fn check(&self) -> Result<(), Vec<Problem>> {
        let parts = [
            ("upper_arm_m", self.upper_arm_m),
            ("forearm_m", self.forearm_m),
            ("wrist_to_knuckle_m", self.wrist_to_knuckle_m),
            ("elbow_spacing_m", self.elbow_spacing_m),
        ];
        let mut problems: Vec<Problem> = parts
            .iter()
            .filter_map(|(path, value)| value.map(|value| (*path, value)))
            .filter(|(_, value)| !(ARM_PART.0..=ARM_PART.1).contains(value))
            .map(|(path, value)| Problem::at(path, "fact-arm-length").with("value", format!("{value}")))
            .collect();
        if parts.iter().all(|(_, value)| value.is_none()) {
            problems.push(Problem::at("", "fact-arm-none"));
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
