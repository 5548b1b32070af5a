//! Taking middle and unit out of every column before the search, and putting them back afterwards, so that neither the
//! unit of a column nor its zero can matter.

use nalgebra::{DMatrix, DVector};

use super::family::Family;
use super::sample::{Known, Row, Sample};
use crate::lack::Lack;
use crate::numeric::linear::dependent_column;
use crate::numeric::{deviation, mean, squares_about_mean};

/// One row as the search sees it.
#[derive(Debug, Clone)]
pub(super) struct Scaled {
    pub(super) y: f64,
    pub(super) known: Known,
    /// One, then the covariates.
    pub(super) x: Vec<f64>,
}

/// How to come back.
#[derive(Debug, Clone)]
pub(super) struct Scaling {
    pub(super) y_middle: f64,
    pub(super) y_unit: f64,
    middles: Vec<f64>,
    units: Vec<f64>,
}

impl Scaling {
    /// Finds middles and units; names a column that says nothing of its own.
    pub(super) fn of(sample: &Sample, family: Family) -> Result<Scaling, Lack> {
        let column =
            |place: usize| -> Vec<f64> { sample.rows.iter().map(|row| row.covariates[place]).collect() };
        let (mut middles, mut units, mut columns) = (Vec::new(), Vec::new(), Vec::new());
        for place in 0..sample.width {
            let values = column(place);
            let middle = mean(&values);
            let length = squares_about_mean(&values).sqrt();
            let size = values.iter().fold(0.0_f64, |size, value| size.max(value.abs()));
            if length <= 1e-10 * size * (values.len() as f64).sqrt() || length == 0.0 {
                return Err(Lack::Collinear { column: place });
            }
            columns.push(DVector::from_iterator(values.len(), values.iter().map(|v| (v - middle) / length)));
            middles.push(middle);
            units.push(length / (values.len() as f64).sqrt());
        }
        if let Some(column) = dependent_column(&columns) {
            return Err(Lack::Collinear { column });
        }
        let ys: Vec<f64> = sample.rows.iter().map(|row| outcome(row, family)).collect();
        let spread = deviation(&ys);
        let y_unit = if family.is_logarithmic() || spread == 0.0 { 1.0 } else { spread };
        Ok(Scaling { y_middle: mean(&ys), y_unit, middles, units })
    }

    pub(super) fn rows(&self, sample: &Sample, family: Family) -> Vec<Scaled> {
        let scaled = |row: &Row| {
            let covariates = row.covariates.iter().zip(&self.middles).zip(&self.units);
            Scaled {
                y: (outcome(row, family) - self.y_middle) / self.y_unit,
                known: row.known,
                x: std::iter::once(1.0).chain(covariates.map(|((value, m), u)| (value - m) / u)).collect(),
            }
        };
        sample.rows.iter().map(scaled).collect()
    }

    /// Coefficients in the units of the columns.
    pub(super) fn coefficients(&self, scaled: &[f64]) -> Vec<f64> {
        let mut back = vec![scaled[0] * self.y_unit + self.y_middle];
        for (place, value) in scaled[1..].iter().enumerate() {
            let slope = value * self.y_unit / self.units[place];
            back.push(slope);
            back[0] -= slope * self.middles[place];
        }
        back
    }

    /// The linear part of the way back, for coefficients followed by `others` untouched parameters.
    pub(super) fn transform(&self, others: usize) -> DMatrix<f64> {
        let width = self.units.len() + 1;
        let mut transform = DMatrix::identity(width + others, width + others);
        transform[(0, 0)] = self.y_unit;
        for (place, unit) in self.units.iter().enumerate() {
            transform[(place + 1, place + 1)] = self.y_unit / unit;
            transform[(0, place + 1)] = -self.y_unit * self.middles[place] / unit;
        }
        transform
    }
}

pub(super) fn outcome(row: &Row, family: Family) -> f64 {
    if family.is_logarithmic() { row.time.ln() } else { row.time }
}
