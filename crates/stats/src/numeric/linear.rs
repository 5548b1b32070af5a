//! Small dense systems: solving, inverting, and telling when that means nothing.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// The condition number (largest over smallest eigenvalue) beyond which a result is called ill-conditioned.
pub(crate) const ILL_CONDITIONED: f64 = 1e10;

/// Inverse and logarithm of the determinant of a positive definite matrix; nothing where it is not.
pub(crate) fn inverse(matrix: &DMatrix<f64>) -> Option<(DMatrix<f64>, f64)> {
    let factor: Cholesky<f64, Dyn> = Cholesky::new(matrix.clone())?;
    let log_determinant = 2.0 * factor.l().diagonal().iter().map(|d| d.ln()).sum::<f64>();
    let inverse = factor.inverse();
    (inverse.iter().all(|value| value.is_finite()) && log_determinant.is_finite())
        .then_some((inverse, log_determinant))
}

/// Condition number of a symmetric matrix after its rows and columns were scaled to a unit diagonal, so that units do
/// not matter. Infinite where it is not positive definite.
pub(crate) fn condition(matrix: &DMatrix<f64>) -> f64 {
    let scale: Vec<f64> = matrix.diagonal().iter().map(|d| d.abs().sqrt()).collect();
    if scale.iter().any(|&s| s.is_nan() || s <= 0.0) {
        return f64::INFINITY;
    }
    let scaled =
        DMatrix::from_fn(matrix.nrows(), matrix.ncols(), |i, j| matrix[(i, j)] / (scale[i] * scale[j]));
    let eigen = scaled.symmetric_eigenvalues();
    let (low, high) =
        eigen.iter().fold((f64::INFINITY, 0.0_f64), |(low, high), &e| (low.min(e), high.max(e)));
    if low <= 0.0 || low.is_nan() { f64::INFINITY } else { high / low }
}

/// The first column that is a combination of those before it; columns come centred and of unit length.
pub(crate) fn dependent_column(columns: &[DVector<f64>]) -> Option<usize> {
    let mut base: Vec<DVector<f64>> = Vec::new();
    for (place, column) in columns.iter().enumerate() {
        let mut rest = column.clone();
        for _ in 0..2 {
            for direction in &base {
                rest.axpy(-direction.dot(&rest), direction, 1.0);
            }
        }
        let length = rest.norm();
        if length < 1e-8 || length.is_nan() {
            return Some(place);
        }
        base.push(rest / length);
    }
    None
}

/// `transform * covariance * transform'`.
pub(crate) fn sandwich(transform: &DMatrix<f64>, covariance: &DMatrix<f64>) -> DMatrix<f64> {
    transform * covariance * transform.transpose()
}
