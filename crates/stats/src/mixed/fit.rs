//! The search over the relative covariance, and what comes out of it.

use nalgebra::{DMatrix, DVector};

use super::criterion::{Crossed, Products, Profile, factor};
use super::sample::MixedSample;
use crate::lack::Lack;
use crate::numeric::linear::{ILL_CONDITIONED, condition, dependent_column, sandwich};
use crate::numeric::newton::{Shape, maximise};
use crate::numeric::{deviation, mean, squares_about_mean};

/// By which criterion a model is fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Maximum likelihood: for comparing models with other covariates.
    MaximumLikelihood,
    /// Restricted maximum likelihood: less biased variances.
    Restricted,
}

/// One group's own value and slope, shrunk towards the squad's.
#[derive(Debug, Clone, PartialEq)]
pub struct Mode {
    /// The group's number in the sample.
    pub group: u32,
    /// Distance of its value from the squad's, then of its slope where one was fitted.
    pub modes: Vec<f64>,
    /// Rows it rests on.
    pub rows: usize,
}

/// A fitted model.
#[derive(Debug, Clone, PartialEq)]
pub struct MixedFit {
    /// How it was fitted.
    pub method: Method,
    /// Rows.
    pub n: usize,
    /// Groups.
    pub groups: usize,
    /// Intercept, then one coefficient for each covariate.
    pub coefficients: Vec<f64>,
    /// Their covariance.
    pub covariance: DMatrix<f64>,
    /// Covariance between groups: one by one for a value, two by two for value and slope.
    pub between: DMatrix<f64>,
    /// Variance within.
    pub residual: f64,
    /// Log-likelihood; for the restricted method the restricted one.
    pub log_likelihood: f64,
    /// Minus twice that: deviance, or restricted criterion.
    pub criterion: f64,
    /// Estimated parameters: coefficients, covariance between, variance within.
    pub parameters: usize,
    /// The likeliest covariance between groups is singular: no spread, or value and slope in lockstep.
    pub singular: bool,
    /// Whether the search settled.
    pub converged: bool,
    /// Steps it took.
    pub steps: usize,
    /// Condition number of the coefficients' information with its diagonal at one.
    pub condition: f64,
    /// Each group's own part.
    pub modes: Vec<Mode>,
}

impl MixedFit {
    /// Standard error of a coefficient.
    pub fn se(&self, place: usize) -> f64 {
        self.covariance[(place, place)].max(0.0).sqrt()
    }

    /// Akaike's criterion.
    pub fn aic(&self) -> f64 {
        self.criterion + 2.0 * self.parameters as f64
    }

    /// Whether coefficients rest on a nearly singular system.
    pub fn is_ill_conditioned(&self) -> bool {
        ILL_CONDITIONED < self.condition || self.condition.is_nan()
    }
}

/// Relative spread below which it counts as none.
const NONE: f64 = 1e-4;

/// Fits a value of each group's own, and a slope by one covariate where asked.
///
/// Refuses with the reason: one group, groups of one row only, no spread, more covariates than rows, an exact fit.
pub fn fit(sample: &MixedSample, slope: Option<usize>, method: Method) -> Result<MixedFit, Lack> {
    let width = sample.width + 1;
    let groups = sample.groups().count();
    if slope.is_some_and(|place| sample.width <= place) {
        return Err(Lack::Setting { name: "slope" });
    }
    if groups < 2 {
        return Err(Lack::TooFew { of: "groups", found: groups, needed: 2 });
    }
    if sample.n() <= width + 1 {
        return Err(Lack::TooFew { of: "rows", found: sample.n(), needed: width + 2 });
    }
    let needed = if slope.is_some() { 3 } else { 2 };
    if sample.groups().all(|rows| rows.len() < needed) {
        return Err(Lack::NotSeparable);
    }
    let scaled = Scaled::of(sample, slope)?;
    let Some(ended) = scaled.search(method) else { return Err(Lack::PerfectFit) };
    let (theta, profile, converged, steps) = ended;
    if profile.residual < 1e-20 {
        return Err(Lack::PerfectFit);
    }
    Ok(scaled.finish(sample, method, &theta, profile, converged, steps))
}

/// The sample with middles and units taken out.
struct Scaled {
    crossed: Crossed,
    middles: Vec<f64>,
    units: Vec<f64>,
    y_unit: f64,
    /// Least-squares coefficients, taken out of the values first so that no digits are lost.
    base: DVector<f64>,
    slope_unit: Option<f64>,
}

impl Scaled {
    fn of(sample: &MixedSample, slope: Option<usize>) -> Result<Scaled, Lack> {
        let (mut middles, mut units, mut columns) = (Vec::new(), Vec::new(), Vec::new());
        for place in 0..sample.width {
            let values: Vec<f64> = sample.rows.iter().map(|row| row.covariates[place]).collect();
            let (middle, length) = (mean(&values), squares_about_mean(&values).sqrt());
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
        let values: Vec<f64> = sample.rows.iter().map(|row| row.value).collect();
        let y_unit = deviation(&values);
        let size = values.iter().fold(0.0_f64, |size, value| size.max(value.abs()));
        if y_unit <= 1e-12 * size {
            return Err(Lack::NoSpread);
        }
        let x_of = |covariates: &[f64]| {
            let scaled = covariates.iter().zip(&middles).zip(&units).map(|((value, m), u)| (value - m) / u);
            DVector::from_iterator(sample.width + 1, std::iter::once(1.0).chain(scaled))
        };
        // A slope's own column keeps its zero: the value of each group is its value there.
        let slope_unit = slope.map(|place| {
            let squares = sample.rows.iter().map(|row| row.covariates[place].powi(2));
            (crate::numeric::sum(squares) / sample.n() as f64).sqrt()
        });
        let z_of = |covariates: &[f64]| match (slope, slope_unit) {
            (Some(place), Some(unit)) => DVector::from_vec(vec![1.0, covariates[place] / unit]),
            _ => DVector::from_vec(vec![1.0]),
        };
        let width = sample.width + 1;
        let middle = mean(&values);
        let (mut xx, mut xy) = (DMatrix::zeros(width, width), DVector::zeros(width));
        for row in &sample.rows {
            let x = x_of(&row.covariates);
            xx += &x * x.transpose();
            xy += &x * ((row.value - middle) / y_unit);
        }
        let base = xx.clone().cholesky().ok_or(Lack::Collinear { column: 0 })?.solve(&xy);
        let (mut xy, mut yy, mut products) = (DVector::zeros(width), 0.0, Vec::new());
        for rows in sample.groups() {
            let size = if slope.is_some() { 2 } else { 1 };
            let mut group = Products {
                zz: DMatrix::zeros(size, size),
                zx: DMatrix::zeros(size, width),
                zy: DVector::zeros(size),
            };
            for row in rows {
                let (x, z) = (x_of(&row.covariates), z_of(&row.covariates));
                let y = (row.value - middle) / y_unit - x.dot(&base);
                xy += &x * y;
                yy += y * y;
                group.zz += &z * z.transpose();
                group.zx += &z * x.transpose();
                group.zy += &z * y;
            }
            products.push(group);
        }
        if yy <= 1e-20 * sample.n() as f64 {
            return Err(Lack::PerfectFit);
        }
        let log_units = units.iter().map(|unit| unit.ln()).sum();
        let crossed = Crossed { groups: products, xx, xy, yy, n: sample.n(), log_units };
        let base = {
            let mut base = base;
            base[0] += middle / y_unit;
            base
        };
        Ok(Scaled { crossed, middles, units, y_unit, base, slope_unit })
    }

    /// Searches from equal spreads, and from small ones; the better end counts.
    fn search(&self, method: Method) -> Option<(Vec<f64>, Profile, bool, usize)> {
        let size = if self.slope_unit.is_some() { 3 } else { 1 };
        let mut best: Option<(Vec<f64>, Profile, bool, usize)> = None;
        for start in [1.0, 0.2] {
            let start = if size == 1 { vec![start] } else { vec![start, 0.0, start] };
            let ended = maximise(DVector::from_vec(start), |at| self.shape(at, method));
            let Some(ended) = ended else { continue };
            let mut theta: Vec<f64> = ended.at.iter().copied().collect();
            // The criterion does not see the sign of a column of the factor.
            if theta[0] < 0.0 {
                theta[0] = -theta[0];
                if size == 3 {
                    theta[1] = -theta[1];
                }
            }
            if size == 3 {
                theta[2] = theta[2].abs();
            }
            let steps = ended.steps;
            let Some(profile) = self.crossed.profile(&theta, method) else { continue };
            let better = best.as_ref().is_none_or(|(_, old, ..)| profile.criterion < old.criterion - 1e-9);
            if better {
                best = Some((theta, profile, ended.converged, steps));
            }
        }
        let (theta, profile, converged, steps) = best?;
        // A spread too small to be seen is none.
        let small: Vec<f64> = theta.iter().map(|t| if t.abs() < NONE { 0.0 } else { *t }).collect();
        match self.crossed.profile(&small, method) {
            Some(at_zero) if at_zero.criterion <= profile.criterion + 1e-6 => {
                let settled = converged || small != theta;
                Some((small, at_zero, settled, steps))
            }
            _ => Some((theta, profile, converged, steps)),
        }
    }

    /// Minus half the criterion, with slope and curvature by differences of fourth and second order.
    fn shape(&self, at: &DVector<f64>, method: Method) -> Option<Shape> {
        if 1e4 < at.amax() {
            return None;
        }
        let value = |theta: &DVector<f64>| {
            self.crossed.profile(theta.as_slice(), method).map(|profile| -0.5 * profile.criterion)
        };
        let size = at.len();
        let h: Vec<f64> = at.iter().map(|t| 2e-4 * (0.5 + t.abs())).collect();
        let moved = |moves: &[(usize, f64)]| {
            let mut theta = at.clone();
            for &(place, times) in moves {
                theta[place] += times * h[place];
            }
            value(&theta)
        };
        let here = value(at)?;
        let (mut gradient, mut information) = (DVector::zeros(size), DMatrix::zeros(size, size));
        for i in 0..size {
            let (p1, m1) = (moved(&[(i, 1.0)])?, moved(&[(i, -1.0)])?);
            let (p2, m2) = (moved(&[(i, 2.0)])?, moved(&[(i, -2.0)])?);
            gradient[i] = (8.0 * (p1 - m1) - (p2 - m2)) / (12.0 * h[i]);
            information[(i, i)] = -(16.0 * (p1 + m1) - (p2 + m2) - 30.0 * here) / (12.0 * h[i] * h[i]);
            for j in 0..i {
                let (pp, mm) = (moved(&[(i, 1.0), (j, 1.0)])?, moved(&[(i, -1.0), (j, -1.0)])?);
                let (pm, mp) = (moved(&[(i, 1.0), (j, -1.0)])?, moved(&[(i, -1.0), (j, 1.0)])?);
                let mixed = -(pp + mm - pm - mp) / (4.0 * h[i] * h[j]);
                information[(i, j)] = mixed;
                information[(j, i)] = mixed;
            }
        }
        Some(Shape { value: here, gradient, information })
    }

    fn finish(
        &self,
        sample: &MixedSample,
        method: Method,
        theta: &[f64],
        profile: Profile,
        converged: bool,
        steps: usize,
    ) -> MixedFit {
        let width = sample.width + 1;
        let lambda = factor(theta);
        let residual = profile.residual * self.y_unit * self.y_unit;
        let information =
            profile.inverse.clone().try_inverse().unwrap_or_else(|| DMatrix::zeros(width, width));
        let scaled = &profile.coefficients + &self.base;
        let mut transform = DMatrix::identity(width, width);
        for (place, unit) in self.units.iter().enumerate() {
            transform[(place + 1, place + 1)] = 1.0 / unit;
            transform[(0, place + 1)] = -self.middles[place] / unit;
        }
        let coefficients = (&transform * scaled * self.y_unit).iter().copied().collect();
        let covariance = sandwich(&transform, &(profile.inverse * residual));
        // Back from the slope's unit.
        let back = match self.slope_unit {
            Some(unit) => DMatrix::from_row_slice(2, 2, &[1.0, 0.0, 0.0, 1.0 / unit]),
            None => DMatrix::identity(1, 1),
        };
        let between = sandwich(&back, &(&lambda * lambda.transpose() * residual));
        let modes = sample
            .groups()
            .zip(&self.crossed.groups)
            .map(|(rows, group)| {
                let size = lambda.nrows();
                let inner = DMatrix::identity(size, size) + lambda.transpose() * &group.zz * &lambda;
                let off = lambda.transpose() * (&group.zy - &group.zx * &profile.coefficients);
                let solved = inner.cholesky().map_or_else(|| DVector::zeros(size), |inner| inner.solve(&off));
                let modes = &back * &lambda * solved * self.y_unit;
                Mode { group: rows[0].group, modes: modes.iter().copied().collect(), rows: rows.len() }
            })
            .collect();
        let df = match method {
            Method::MaximumLikelihood => self.crossed.n,
            Method::Restricted => self.crossed.n - width,
        } as f64;
        let criterion = profile.criterion + 2.0 * df * self.y_unit.ln();
        let singular = theta.iter().enumerate().any(|(place, t)| place != 1 && t.abs() < NONE);
        MixedFit {
            method,
            n: sample.n(),
            groups: self.crossed.groups.len(),
            coefficients,
            covariance,
            between,
            residual,
            log_likelihood: -0.5 * criterion,
            criterion,
            parameters: width + theta.len() + 1,
            singular,
            converged,
            steps,
            condition: condition(&information),
            modes,
        }
    }
}
