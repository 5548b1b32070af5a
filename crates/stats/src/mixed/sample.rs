//! Rows of a mixed sample, checked and put into a fixed order.

use std::cmp::Ordering;

use crate::lack::Lack;

/// One measurement.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The value.
    pub value: f64,
    /// Covariates, as many in every row.
    pub covariates: Vec<f64>,
    /// Whose it is; equal numbers belong together.
    pub group: u32,
}

/// Rows that can be fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct MixedSample {
    pub(super) rows: Vec<Measured>,
    pub(super) width: usize,
}

impl MixedSample {
    /// Checks rows and puts them into an order that depends on nothing but their content.
    pub fn new(mut rows: Vec<Measured>) -> Result<MixedSample, Lack> {
        let width = rows.first().ok_or(Lack::Empty)?.covariates.len();
        if rows.iter().any(|row| row.covariates.len() != width) {
            return Err(Lack::Ragged);
        }
        if rows.iter().any(|row| !row.value.is_finite() || row.covariates.iter().any(|x| !x.is_finite())) {
            return Err(Lack::NotFinite);
        }
        rows.sort_by(|one, other| one.group.cmp(&other.group).then_with(|| by_content(one, other)));
        let mut groups: Vec<&[Measured]> = rows.chunk_by(|one, other| one.group == other.group).collect();
        groups.sort_by(|one, other| {
            let decided = one.iter().zip(*other).map(|(a, b)| by_content(a, b)).find(|order| order.is_ne());
            decided.unwrap_or_else(|| one.len().cmp(&other.len()))
        });
        let rows = groups.into_iter().flatten().cloned().collect();
        Ok(MixedSample { rows, width })
    }

    /// Rows.
    pub fn n(&self) -> usize {
        self.rows.len()
    }

    /// Rows of each group.
    pub(super) fn groups(&self) -> impl Iterator<Item = &[Measured]> {
        self.rows.chunk_by(|one, other| one.group == other.group)
    }
}

fn by_content(one: &Measured, other: &Measured) -> Ordering {
    let covariates = || one.covariates.iter().zip(&other.covariates).map(|(a, b)| a.total_cmp(b));
    covariates()
        .find(|order| order.is_ne())
        .unwrap_or(Ordering::Equal)
        .then(one.value.total_cmp(&other.value))
}
