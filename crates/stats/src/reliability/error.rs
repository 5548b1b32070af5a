//! Standard error of measurement (SEM), smallest detectable change (MDC), and how well an error itself is known.

use super::Trial;
use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::chi_square_quantile;

/// A standard error of measurement, in the unit of the measure, with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasurementError {
    /// The error of one reading.
    pub sem: f64,
    /// Degrees of freedom it was estimated with.
    pub df: f64,
}

impl MeasurementError {
    /// Raters' shifts counted as error: root of the mean square within people.
    pub fn absolute(trial: &Trial) -> MeasurementError {
        let (n, k) = (trial.people() as f64, trial.trials() as f64);
        MeasurementError { sem: trial.squares().within.sqrt(), df: n * (k - 1.0) }
    }

    /// Raters' shifts left out, also called the typical error: root of the residual mean square. For two trials it is
    /// the standard deviation of the differences over root two.
    pub fn typical(trial: &Trial) -> MeasurementError {
        let (n, k) = (trial.people() as f64, trial.trials() as f64);
        MeasurementError { sem: trial.squares().residual.sqrt(), df: (n - 1.0) * (k - 1.0) }
    }

    /// Chi-square range of the error (Hopkins 2000, Sports Med 30:1). With ten people a true error of 4 may show as
    /// anything from 2.8 to 7.3.
    pub fn interval(&self, level: Level) -> Interval {
        Interval {
            low: self.sem * (self.df / chi_square_quantile(self.df, 1.0 - level.tail())).sqrt(),
            high: self.sem * (self.df / chi_square_quantile(self.df, level.tail())).sqrt(),
        }
    }
}

/// The smallest change between two readings that error alone reaches only in one case of 1 / (1 - level):
/// z * root two * SEM. 95 % and 90 % differ by a fifth: never leave the level out.
pub fn detectable_change(sem: f64, level: Level) -> f64 {
    level.z() * std::f64::consts::SQRT_2 * sem
}

/// SEM from the spread of a group and a reliability: SD * root(1 - ICC). Refuses a reliability outside 0 to 1.
pub fn sem_from_reliability(deviation: f64, icc: f64) -> Result<f64, Lack> {
    if !(deviation.is_finite() && 0.0 <= deviation) {
        return Err(Lack::NotFinite);
    }
    if (0.0..=1.0).contains(&icc) {
        Ok(deviation * (1.0 - icc).sqrt())
    } else {
        Err(Lack::Setting { name: "icc" })
    }
}

/// SEM of the mean of several trials, right only where their errors are independent.
pub fn sem_of_mean(sem: f64, trials: u32) -> f64 {
    sem / f64::from(trials.max(1)).sqrt()
}

/// What a paper prints as "SEM (95 %)" is 1.96 SEM already; this takes the factor out again.
pub fn sem_from_printed_ninety_five(printed: f64) -> f64 {
    printed / Level::USUAL.z()
}

/// Half the range, in percent, that error alone gives one side-to-side ratio when each side has this coefficient of
/// variation (as a share), on the logarithmic scale. With 7 % a side it is 21 %: a ten-percent rule mostly finds error.
pub fn side_ratio_noise(variation: f64) -> f64 {
    let log_error = (variation * variation).ln_1p().sqrt();
    ((Level::USUAL.z() * std::f64::consts::SQRT_2 * log_error).exp() - 1.0) * 100.0
}
