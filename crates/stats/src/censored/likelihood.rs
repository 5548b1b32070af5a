//! The likelihood without a spread between groups, with its slope and curvature.

use nalgebra::{DMatrix, DVector};

use super::family::Family;
use super::sample::Known;
use super::scale::Scaled;
use crate::numeric::newton::Shape;

/// Log-likelihood, slope and information at coefficients followed by the logarithm of the scale, where it is free.
pub(super) fn plain(rows: &[Scaled], family: Family, at: &DVector<f64>) -> Option<Shape> {
    let width = rows[0].x.len();
    let log_scale = if family.has_scale() { at[width] } else { 0.0 };
    let scale = log_scale.exp();
    let size = at.len();
    let (mut value, mut gradient, mut information) = (0.0, DVector::zeros(size), DMatrix::zeros(size, size));
    for row in rows {
        let one = RowShape::at(row, family, at.as_slice(), scale, log_scale);
        value += one.value;
        for i in 0..width {
            gradient[i] += one.by_mean * row.x[i];
            for j in 0..=i {
                information[(i, j)] -= one.by_mean_twice * row.x[i] * row.x[j];
            }
        }
        if family.has_scale() {
            gradient[width] += one.by_scale;
            information[(width, width)] -= one.by_scale_twice;
            for j in 0..width {
                information[(width, j)] -= one.by_both * row.x[j];
            }
        }
    }
    mirror(&mut information);
    Some(Shape { value, gradient, information })
}

/// Fills the upper half from the lower.
pub(super) fn mirror(matrix: &mut DMatrix<f64>) {
    for i in 0..matrix.nrows() {
        for j in 0..i {
            matrix[(j, i)] = matrix[(i, j)];
        }
    }
}

/// One row's log-likelihood with derivatives by its mean and by the logarithm of the scale.
pub(super) struct RowShape {
    pub(super) value: f64,
    pub(super) by_mean: f64,
    pub(super) by_scale: f64,
    pub(super) by_mean_twice: f64,
    pub(super) by_both: f64,
    pub(super) by_scale_twice: f64,
}

impl RowShape {
    fn at(row: &Scaled, family: Family, at: &[f64], scale: f64, log_scale: f64) -> RowShape {
        let mean: f64 = row.x.iter().zip(at).map(|(x, b)| x * b).sum();
        Self::with_residual(row.known, family, row.y - mean, scale, log_scale)
    }

    /// The same for a given distance from the mean.
    pub(super) fn with_residual(
        known: Known,
        family: Family,
        off: f64,
        scale: f64,
        log_scale: f64,
    ) -> RowShape {
        let w = off / scale;
        let bend = family.bend(known, w);
        let exact = f64::from(u8::from(known == Known::Exactly));
        RowShape {
            value: bend.value - exact * log_scale,
            by_mean: -bend.slope / scale,
            by_scale: -bend.slope * w - exact,
            by_mean_twice: bend.curve / (scale * scale),
            by_both: (bend.slope + bend.curve * w) / scale,
            by_scale_twice: bend.slope * w + bend.curve * w * w,
        }
    }
}

/// Each row's slope, for robust standard errors.
pub(super) fn scores(rows: &[Scaled], family: Family, at: &DVector<f64>) -> Vec<DVector<f64>> {
    let width = rows[0].x.len();
    let log_scale = if family.has_scale() { at[width] } else { 0.0 };
    rows.iter()
        .map(|row| {
            let one = RowShape::at(row, family, at.as_slice(), log_scale.exp(), log_scale);
            let mut score = DVector::zeros(at.len());
            for (place, x) in row.x.iter().enumerate() {
                score[place] = one.by_mean * x;
            }
            if family.has_scale() {
                score[width] = one.by_scale;
            }
            score
        })
        .collect()
}
