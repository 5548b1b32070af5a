//! How far a measurement can be trusted, and whether one person changed beyond its error.
//!
//! - [`Trial`]: people by raters (or by repeated trials), every cell filled.
//! - [`icc`]: all six intraclass correlations. They answer different questions from the same table and may lie far
//!   apart, so none is ever given without its form.
//! - [`error`]: standard error of measurement, smallest detectable change.
//! - [`agreement`]: limits of agreement of two methods or two days; [`kappa`]: agreement of ratings.
//! - [`change`]: up, down, or cannot tell.

pub mod agreement;
pub mod change;
pub mod error;
pub mod icc;
pub mod kappa;

use crate::lack::Lack;
use crate::numeric::{mean, sum};

/// A complete table: one row a person (or shoulder), one column a rater or trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    rows: Vec<Vec<f64>>,
    columns: usize,
}

impl Trial {
    /// A table of at least two people and two raters. Rows are put into a fixed order, so that theirs cannot matter.
    pub fn new(mut rows: Vec<Vec<f64>>) -> Result<Trial, Lack> {
        let columns = rows.first().ok_or(Lack::Empty)?.len();
        if rows.iter().any(|row| row.len() != columns) {
            return Err(Lack::Ragged);
        }
        if rows.iter().flatten().any(|value| !value.is_finite()) {
            return Err(Lack::NotFinite);
        }
        if rows.len() < 2 {
            return Err(Lack::TooFew { of: "people", found: rows.len(), needed: 2 });
        }
        if columns < 2 {
            return Err(Lack::TooFew { of: "trials", found: columns, needed: 2 });
        }
        rows.sort_by(|one, other| {
            one.iter()
                .zip(other)
                .map(|(a, b)| a.total_cmp(b))
                .find(|o| o.is_ne())
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        Ok(Trial { rows, columns })
    }

    /// People.
    pub fn people(&self) -> usize {
        self.rows.len()
    }

    /// Raters or trials.
    pub fn trials(&self) -> usize {
        self.columns
    }

    /// One rater's values, person by person.
    pub fn column(&self, place: usize) -> Vec<f64> {
        self.rows.iter().map(|row| row[place]).collect()
    }

    /// Sums of squares and mean squares.
    pub fn squares(&self) -> MeanSquares {
        let (n, k) = (self.people() as f64, self.trials() as f64);
        // Taking the middle out first keeps the digits of values that are large beside their spread.
        let all: Vec<f64> = self.rows.iter().flatten().copied().collect();
        let middle = mean(&all);
        let rows: Vec<f64> = self.rows.iter().map(|row| mean(row) - middle).collect();
        let columns: Vec<f64> = (0..self.columns).map(|place| mean(&self.column(place)) - middle).collect();
        let between = k * sum(rows.iter().map(|r| r * r));
        let raters = n * sum(columns.iter().map(|c| c * c));
        let residual = sum(self.rows.iter().zip(&rows).flat_map(|(row, r)| {
            row.iter().zip(&columns).map(move |(value, c)| (value - middle - r - c).powi(2))
        }));
        let within = raters + residual;
        MeanSquares {
            people: between / (n - 1.0),
            raters: raters / (k - 1.0),
            residual: residual / ((n - 1.0) * (k - 1.0)),
            within: within / (n * (k - 1.0)),
            total_squares: between + within,
        }
    }
}

/// The mean squares of a table (Shrout & Fleiss 1979: BMS, JMS, EMS, WMS), in squared units of the values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanSquares {
    /// Between people, n - 1 degrees of freedom.
    pub people: f64,
    /// Between raters, k - 1.
    pub raters: f64,
    /// What neither explains, (n - 1)(k - 1).
    pub residual: f64,
    /// Within people, raters' shifts included, n (k - 1).
    pub within: f64,
    /// Sum of squares of everything.
    pub total_squares: f64,
}
