//! Rows of a censored sample, checked and put into a fixed order.

use std::cmp::Ordering;

use super::family::Family;
use crate::lack::Lack;

/// What is known of a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Known {
    /// It is the time.
    Exactly,
    /// It is at least that (the set reached its cap, the kit failed).
    AtLeast,
    /// It is at most that.
    AtMost,
}

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The time, above zero unless the family is normal.
    pub time: f64,
    /// What is known of it.
    pub known: Known,
    /// Covariates, as many in every row.
    pub covariates: Vec<f64>,
    /// The group whose value is shared, by any number; equal numbers belong together.
    pub group: u32,
}

/// Rows that can be fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    pub(super) rows: Vec<Row>,
    pub(super) width: usize,
}

impl Sample {
    /// Checks rows and puts them into an order that depends on nothing but their content.
    pub fn new(mut rows: Vec<Row>, family: Family) -> Result<Sample, Lack> {
        let width = rows.first().ok_or(Lack::Empty)?.covariates.len();
        if rows.iter().any(|row| row.covariates.len() != width) {
            return Err(Lack::Ragged);
        }
        if rows
            .iter()
            .any(|row| !row.time.is_finite() || row.covariates.iter().any(|value| !value.is_finite()))
        {
            return Err(Lack::NotFinite);
        }
        if family.is_logarithmic() && rows.iter().any(|row| row.time <= 0.0) {
            return Err(Lack::NotPositive);
        }
        rows.sort_by(|one, other| one.group.cmp(&other.group).then_with(|| by_content(one, other)));
        // Groups stand in the order of their content, so that their numbers do not matter either.
        let mut groups: Vec<&[Row]> = rows.chunk_by(|one, other| one.group == other.group).collect();
        groups.sort_by(|one, other| {
            let decided = one.iter().zip(*other).map(|(a, b)| by_content(a, b)).find(|order| order.is_ne());
            decided.unwrap_or_else(|| one.len().cmp(&other.len()))
        });
        let rows = groups.into_iter().flatten().cloned().collect();
        Ok(Sample { rows, width })
    }

    /// Rows.
    pub fn n(&self) -> usize {
        self.rows.len()
    }

    /// Rows whose time is known exactly.
    pub fn events(&self) -> usize {
        self.rows.iter().filter(|row| row.known == Known::Exactly).count()
    }

    /// Rows of each group.
    pub(super) fn groups(&self) -> impl Iterator<Item = &[Row]> {
        self.rows.chunk_by(|one, other| one.group == other.group)
    }
}

fn by_content(one: &Row, other: &Row) -> Ordering {
    let covariates = || one.covariates.iter().zip(&other.covariates).map(|(a, b)| a.total_cmp(b));
    one.time
        .total_cmp(&other.time)
        .then(one.known.cmp(&other.known))
        .then_with(|| covariates().find(|order| order.is_ne()).unwrap_or(Ordering::Equal))
}
