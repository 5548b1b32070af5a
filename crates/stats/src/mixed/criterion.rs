//! The profiled criterion: everything but the relative covariance is solved for in closed form, from cross products
//! that are formed once.

use nalgebra::{DMatrix, DVector};

use super::fit::Method;

/// Cross products of one group: its random columns with everything.
#[derive(Debug, Clone)]
pub(super) struct Products {
    pub(super) zz: DMatrix<f64>,
    pub(super) zx: DMatrix<f64>,
    pub(super) zy: DVector<f64>,
}

/// Cross products of a sample.
#[derive(Debug, Clone)]
pub(super) struct Crossed {
    pub(super) groups: Vec<Products>,
    pub(super) xx: DMatrix<f64>,
    pub(super) xy: DVector<f64>,
    pub(super) yy: f64,
    pub(super) n: usize,
    /// Sum of logarithms of the units that were taken out of the covariates.
    pub(super) log_units: f64,
}

/// Everything at one relative covariance.
#[derive(Debug, Clone)]
pub(super) struct Profile {
    /// Minus twice the (restricted) log-likelihood.
    pub(super) criterion: f64,
    pub(super) coefficients: DVector<f64>,
    pub(super) inverse: DMatrix<f64>,
    pub(super) residual: f64,
}

/// The lower triangular factor from its entries, column by column.
pub(super) fn factor(theta: &[f64]) -> DMatrix<f64> {
    match theta {
        [a] => DMatrix::from_element(1, 1, *a),
        [a, b, c] => DMatrix::from_row_slice(2, 2, &[*a, 0.0, *b, *c]),
        _ => DMatrix::zeros(0, 0),
    }
}

impl Crossed {
    /// Solves for everything else at a relative covariance; nothing where that is singular beyond rescue.
    pub(super) fn profile(&self, theta: &[f64], method: Method) -> Option<Profile> {
        let lambda = factor(theta);
        let size = lambda.nrows();
        let (mut a, mut b, mut rest, mut log_det) = (self.xx.clone(), self.xy.clone(), self.yy, 0.0);
        for group in &self.groups {
            let inner = DMatrix::identity(size, size) + lambda.transpose() * &group.zz * &lambda;
            let cholesky = inner.cholesky()?;
            log_det += 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
            let zx = lambda.transpose() * &group.zx;
            let zy = lambda.transpose() * &group.zy;
            let solved = cholesky.solve(&zy);
            a -= zx.transpose() * cholesky.solve(&zx);
            b -= zx.transpose() * &solved;
            rest -= zy.dot(&solved);
        }
        let cholesky = a.cholesky()?;
        let coefficients = cholesky.solve(&b);
        let squares = rest - b.dot(&coefficients);
        let width = b.len();
        let df = match method {
            Method::MaximumLikelihood => self.n,
            Method::Restricted => self.n - width,
        } as f64;
        let residual = squares / df;
        if residual.is_nan() || residual <= 0.0 {
            return None;
        }
        let mut criterion = log_det + df * (1.0 + (2.0 * std::f64::consts::PI * residual).ln());
        if method == Method::Restricted {
            let log_a = 2.0 * cholesky.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
            criterion += log_a + 2.0 * self.log_units;
        }
        criterion.is_finite().then(|| Profile {
            criterion,
            coefficients,
            inverse: cholesky.inverse(),
            residual,
        })
    }
}
