//! Standard errors that take the rows of a group together: slopes are summed by group before they are squared
//! (Huber's sandwich, as R survival gives for `cluster`).

use nalgebra::{DMatrix, DVector};

use super::family::Family;
use super::likelihood::scores;
use super::scale::Scaled;

/// `bread * sum of squared group slopes * bread`, on the scale of the search; `counts` are rows a group, in order.
pub(super) fn covariance(
    rows: &[Scaled],
    family: Family,
    at: &DVector<f64>,
    counts: &[usize],
    bread: &DMatrix<f64>,
) -> DMatrix<f64> {
    let scores = scores(rows, family, at);
    let mut meat = DMatrix::zeros(at.len(), at.len());
    let mut place = 0;
    for count in counts {
        let mut slope = DVector::zeros(at.len());
        for score in &scores[place..place + count] {
            slope += score;
        }
        meat += &slope * slope.transpose();
        place += count;
    }
    bread * meat * bread
}
