//! The search for the likeliest model, and an account of how it ended.

use nalgebra::{DMatrix, DVector, SymmetricEigen};

use super::family::Family;
use super::integral::{Way, choose, known, whole};
use super::likelihood::plain;
use super::robust;
use super::sample::{Known, Sample};
use super::scale::{Scaled, Scaling};
use crate::lack::Lack;
use crate::numeric::linear::{ILL_CONDITIONED, condition, inverse, sandwich};
use crate::numeric::newton::{Ended, maximise};
use crate::numeric::{deviation, sum};

/// How the search ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// A further step would gain nothing that could be seen.
    pub converged: bool,
    /// Steps taken.
    pub steps: usize,
    /// Largest slope left, with every column at unit spread.
    pub slope: f64,
    /// Condition number of the information with its diagonal at one; above 1e10 standard errors mean little.
    pub condition: f64,
    /// Bound of the error that the integrals over the groups leave in the log-likelihood.
    pub integral_error: f64,
    /// Groups whose integral needed an even grid.
    pub grid_groups: usize,
}

impl Settled {
    /// Whether standard errors rest on a nearly singular information.
    pub fn is_ill_conditioned(&self) -> bool {
        ILL_CONDITIONED < self.condition || self.condition.is_nan()
    }
}

/// The spread between groups.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupSpread {
    /// Standard deviation between groups, on the scale of the model (logarithm of the time).
    pub sd: f64,
    /// Standard error of its logarithm; nothing on the boundary.
    pub log_sd_se: Option<f64>,
    /// The likeliest spread is zero: the data show no difference between groups.
    pub on_boundary: bool,
    /// What is known of each group's own value.
    pub values: Vec<GroupValue>,
}

/// One group's own value: its distance from the common mean, given its rows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupValue {
    /// The group's number in the sample.
    pub group: u32,
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Rows it rests on.
    pub rows: usize,
    /// Of these, how many times are known exactly.
    pub events: usize,
}

/// A fitted model.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The form of the error.
    pub family: Family,
    /// Rows.
    pub n: usize,
    /// Rows with an exactly known time.
    pub events: usize,
    /// Groups with a shared value, if asked for.
    pub groups: usize,
    /// Intercept, then one coefficient for each covariate.
    pub coefficients: Vec<f64>,
    /// Logarithm of the spread within (the scale).
    pub log_scale: f64,
    /// Spread between groups, if it was asked for and can be told.
    pub between: Option<GroupSpread>,
    /// Covariance of coefficients, logarithm of the scale (unless fixed), logarithm of the spread between (unless there
    /// is none or it lies on the boundary), in that order.
    pub covariance: DMatrix<f64>,
    /// Covariance that takes the rows of a group together whatever binds them, for the model without a spread between.
    pub robust: Option<DMatrix<f64>>,
    /// Log-likelihood, with the factor 1/time of logarithmic families.
    pub log_likelihood: f64,
    /// How the search ended.
    pub settled: Settled,
    /// What could not be told although the fit stands.
    pub lacks: Vec<Lack>,
}

impl Fit {
    /// Standard error of a coefficient.
    pub fn se(&self, place: usize) -> f64 {
        self.covariance[(place, place)].max(0.0).sqrt()
    }

    /// Standard error of the logarithm of the scale; nothing where it is fixed.
    pub fn log_scale_se(&self) -> Option<f64> {
        let place = self.coefficients.len();
        self.family.has_scale().then(|| self.covariance[(place, place)].max(0.0).sqrt())
    }

    /// The scale: spread within a group on the scale of the model.
    pub fn scale(&self) -> f64 {
        self.log_scale.exp()
    }

    /// The mean on the scale of the model for a row of covariates, without a group's own value.
    pub fn mean(&self, covariates: &[f64]) -> f64 {
        self.coefficients[0] + self.coefficients[1..].iter().zip(covariates).map(|(b, x)| b * x).sum::<f64>()
    }

    /// The time below which a share `p` of such rows lie, with its standard error by the delta method.
    pub fn quantile(&self, covariates: &[f64], p: f64) -> (f64, f64) {
        let w = self.family.quantile(p);
        let at = self.mean(covariates) + self.scale() * w;
        let mut slope = DVector::zeros(self.covariance.nrows());
        slope[0] = 1.0;
        for (place, x) in covariates.iter().enumerate() {
            slope[place + 1] = *x;
        }
        if self.family.has_scale() {
            slope[self.coefficients.len()] = self.scale() * w;
        }
        let se = slope.dot(&(&self.covariance * &slope)).max(0.0).sqrt();
        if self.family.is_logarithmic() { (at.exp(), at.exp() * se) } else { (at, se) }
    }
}

/// Eigenvalue of the information, as a share of what each exact time tells, below which a direction is not told by the
/// data at all: only by rows that the model already places far beyond their limit.
const UNTOLD: f64 = 1e-6;
/// Logarithm of the spread within, relative to that of the times, below which the model meets every time exactly.
const EXACT: f64 = -12.0;

/// Fits the model, with one shared value for each group if asked.
///
/// Refuses with the reason where no likeliest model exists: nobody lost form, no spread, columns that say the same, an
/// estimate that runs away.
pub fn fit(sample: &Sample, family: Family, with_groups: bool) -> Result<Fit, Lack> {
    if with_groups && !family.may_have_groups() {
        return Err(Lack::Setting { name: "family" });
    }
    if sample.events() == 0 {
        return Err(Lack::AllCensored);
    }
    let scaling = Scaling::of(sample, family)?;
    let rows = scaling.rows(sample, family);
    let ys: Vec<f64> = rows.iter().map(|row| row.y).collect();
    let spread = deviation(&ys);
    if spread <= 1e-12 * scaling.y_middle.abs().max(1e-300) {
        return Err(if rows.len() < 2 {
            Lack::TooFew { of: "rows", found: rows.len(), needed: 2 }
        } else {
            Lack::NoSpread
        });
    }
    let ended = without_groups(&rows, family, spread)?;
    let mut lacks = Vec::new();
    let counts: Vec<usize> = sample.groups().map(<[_]>::len).collect();
    if with_groups {
        if counts.len() < 2 {
            lacks.push(Lack::TooFew { of: "groups", found: counts.len(), needed: 2 });
        } else if counts.iter().all(|&count| count == 1) {
            lacks.push(Lack::NotSeparable);
        } else {
            return with_spread(sample, family, &scaling, &rows, &ended, spread);
        }
    }
    Ok(finish(sample, family, &scaling, &rows, ended, lacks))
}

/// Times on the model's scale cost a constant: the factor 1/time, or the unit.
fn jacobian(sample: &Sample, family: Family, scaling: &Scaling) -> f64 {
    let exact = || sample.rows.iter().filter(|row| row.known == Known::Exactly);
    if family.is_logarithmic() {
        -sum(exact().map(|row| row.time.ln()))
    } else {
        -(exact().count() as f64) * scaling.y_unit.ln()
    }
}

fn finish(
    sample: &Sample,
    family: Family,
    scaling: &Scaling,
    rows: &[Scaled],
    ended: Ended,
    lacks: Vec<Lack>,
) -> Fit {
    let width = sample.width + 1;
    let transform = scaling.transform(ended.at.len() - width);
    let inverse = inverse(&ended.shape.information).map(|(inverse, _)| inverse);
    let size = ended.at.len();
    let bread = inverse.unwrap_or_else(|| DMatrix::from_element(size, size, f64::INFINITY));
    let counts: Vec<usize> = sample.groups().map(<[_]>::len).collect();
    let robust = (1 < counts.len() && counts.len() < sample.n())
        .then(|| sandwich(&transform, &robust::covariance(rows, family, &ended.at, &counts, &bread)));
    Fit {
        family,
        n: sample.n(),
        events: sample.events(),
        groups: counts.len(),
        coefficients: scaling.coefficients(&ended.at.as_slice()[..width]),
        log_scale: if family.has_scale() { ended.at[width] + scaling.y_unit.ln() } else { 0.0 },
        between: None,
        covariance: sandwich(&transform, &bread),
        robust,
        log_likelihood: ended.shape.value + jacobian(sample, family, scaling),
        settled: Settled {
            converged: ended.converged,
            steps: ended.steps,
            slope: ended.shape.gradient.amax(),
            condition: condition(&ended.shape.information),
            integral_error: 0.0,
            grid_groups: 0,
        },
        lacks,
    }
}

fn without_groups(rows: &[Scaled], family: Family, spread: f64) -> Result<Ended, Lack> {
    let width = rows[0].x.len();
    let mut start = least_squares(rows);
    if family.has_scale() {
        let off = rows.iter().map(|row| row.y - row.x.iter().zip(&start).map(|(x, b)| x * b).sum::<f64>());
        let within = (sum(off.map(|d| d * d)) / rows.len() as f64).sqrt();
        start.push(within.max(0.05 * spread).ln());
    }
    let floor = spread.ln() + EXACT - 4.0;
    let ended = maximise(DVector::from_vec(start), |at| {
        (!family.has_scale() || floor < at[width]).then(|| plain(rows, family, at)).flatten()
    })
    .ok_or(Lack::NotConverged)?;
    if family.has_scale() && ended.at[width] < spread.ln() + EXACT {
        return Err(Lack::PerfectFit);
    }
    told(rows, &ended, width)?;
    if ended.converged { Ok(ended) } else { Err(Lack::NotConverged) }
}

/// Refuses where some direction is not told by the data, and names the column that has most part in it.
fn told(rows: &[Scaled], ended: &Ended, width: usize) -> Result<(), Lack> {
    let exact = rows.iter().filter(|row| row.known == Known::Exactly).count() as f64;
    let scale = if width < ended.at.len() { ended.at[width].exp() } else { 1.0 };
    let block = ended.shape.information.view((0, 0), (width, width)).into_owned();
    let eigen = SymmetricEigen::new(block * (scale * scale / exact));
    let (place, least) = eigen.eigenvalues.argmin();
    if UNTOLD <= least {
        return Ok(());
    }
    let direction = eigen.eigenvectors.column(place);
    let column = (1..width).max_by(|&a, &b| direction[a].abs().total_cmp(&direction[b].abs()));
    Err(column.map_or(Lack::NotConverged, |column| Lack::RunsAway { column: column - 1 }))
}

/// Coefficients that take every time as exact: a start.
fn least_squares(rows: &[Scaled]) -> Vec<f64> {
    let width = rows[0].x.len();
    let (mut square, mut side) = (DMatrix::zeros(width, width), DVector::zeros(width));
    for row in rows {
        for i in 0..width {
            side[i] += row.x[i] * row.y;
            for j in 0..width {
                square[(i, j)] += row.x[i] * row.x[j];
            }
        }
    }
    square.cholesky().map_or_else(|| vec![0.0; width], |factor| factor.solve(&side).as_slice().to_vec())
}

fn with_spread(
    sample: &Sample,
    family: Family,
    scaling: &Scaling,
    rows: &[Scaled],
    base: &Ended,
    spread: f64,
) -> Result<Fit, Lack> {
    let width = sample.width + 1;
    let mut groups: Vec<&[Scaled]> = Vec::new();
    let mut rest = rows;
    for group in sample.groups() {
        let (here, after) = rest.split_at(group.len());
        groups.push(here);
        rest = after;
    }
    let found = search(&groups, family, width, base, spread);
    let plain_fit = finish(sample, family, scaling, rows, base.clone(), Vec::new());
    let (ended, ways, integral_error) = match found {
        // A spread that gains nothing over none is none.
        Some((ended, ways, error)) if base.shape.value + 1e-7 < ended.shape.value => (ended, ways, error),
        Some(_) | None if !overdispersed(&groups, family, base) => return Ok(on_boundary(sample, plain_fit)),
        Some((ended, ways, error)) => (ended, ways, error),
        None => return Err(Lack::NotConverged),
    };
    let within = ended.at[width];
    if within < spread.ln() + EXACT || (!ended.converged && ended.at[width + 1] - within > 7.0) {
        return Err(Lack::NotSeparable);
    }
    told(rows, &ended, width)?;
    if !ended.converged {
        return Err(Lack::NotConverged);
    }
    let information = &ended.shape.information;
    let unit = scaling.y_unit;
    let values = groups
        .iter()
        .zip(sample.groups())
        .zip(&ways)
        .map(|((rows, group), way)| {
            let value = known(rows, &ended.at, family, *way);
            GroupValue {
                group: group[0].group,
                mean: value.mean * unit,
                sd: value.sd * unit,
                rows: group.len(),
                events: group.iter().filter(|row| row.known == Known::Exactly).count(),
            }
        })
        .collect();
    let Some((bread, _)) = inverse(information) else { return Err(Lack::NotSeparable) };
    let settled = Settled {
        converged: ended.converged,
        steps: ended.steps,
        slope: ended.shape.gradient.amax(),
        condition: condition(information),
        integral_error,
        grid_groups: ways.iter().filter(|way| **way == Way::Grid).count(),
    };
    Ok(Fit {
        coefficients: scaling.coefficients(&ended.at.as_slice()[..width]),
        log_scale: within + unit.ln(),
        between: Some(GroupSpread {
            sd: ended.at[width + 1].exp() * unit,
            log_sd_se: Some(bread[(width + 1, width + 1)].max(0.0).sqrt()),
            on_boundary: false,
            values,
        }),
        covariance: sandwich(&scaling.transform(2), &bread),
        log_likelihood: ended.shape.value + jacobian(sample, family, scaling),
        settled,
        ..plain_fit
    })
}

/// The model without a spread, said to be the likeliest.
fn on_boundary(sample: &Sample, fit: Fit) -> Fit {
    let values = sample
        .groups()
        .map(|group| GroupValue {
            group: group[0].group,
            mean: 0.0,
            sd: 0.0,
            rows: group.len(),
            events: group.iter().filter(|row| row.known == Known::Exactly).count(),
        })
        .collect();
    let between = GroupSpread { sd: 0.0, log_sd_se: None, on_boundary: true, values };
    Fit { between: Some(between), ..fit }
}

/// Whether the likelihood rises when a spread between groups opens from zero: half the sum over groups of squared
/// slope plus curvature by the group's value (the score test of no spread).
fn overdispersed(groups: &[&[Scaled]], family: Family, base: &Ended) -> bool {
    let width = groups[0][0].x.len();
    let (log_scale, mut rise) = (base.at[width], 0.0);
    for rows in groups {
        let (mut slope, mut curve) = (0.0, 0.0);
        for row in *rows {
            let off = row.y - row.x.iter().zip(base.at.iter()).map(|(x, b)| x * b).sum::<f64>();
            let one = super::likelihood::RowShape::with_residual(
                row.known,
                family,
                off,
                log_scale.exp(),
                log_scale,
            );
            slope += one.by_mean;
            curve += one.by_mean_twice;
        }
        rise += slope * slope + curve;
    }
    0.0 < rise
}

/// Searches with nodes that are chosen anew until they are right where the search ends.
fn search(
    groups: &[&[Scaled]],
    family: Family,
    width: usize,
    base: &Ended,
    spread: f64,
) -> Option<(Ended, Vec<Way>, f64)> {
    let total = base.at[width].exp();
    let within = pooled_within(groups, base).unwrap_or(0.7 * total).clamp(0.05 * total, 0.9 * total);
    let between = (total * total - within * within).max(0.05 * total * total).sqrt();
    let mut at = DVector::from_iterator(
        width + 2,
        base.at.iter().take(width).copied().chain([within.ln(), between.ln()]),
    );
    let mut starts = vec![0.0; groups.len()];
    let mut steps = 0;
    let mut ways: Vec<Way> = groups.iter().map(|rows| choose(rows, &at, family).0).collect();
    for _ in 0..8 {
        let floor = spread.ln() + EXACT - 2.0;
        let ended = maximise(at.clone(), |at| {
            (floor < at[width] && floor < at[width + 1])
                .then(|| whole(groups, at, family, &ways, &mut starts))
                .flatten()
        })?;
        steps += ended.steps;
        at = ended.at.clone();
        let mut error = 0.0;
        let mut changed = false;
        for (way, rows) in ways.iter_mut().zip(groups) {
            let (right, difference) = choose(rows, &at, family);
            error += difference;
            // A finer way is taken over; a coarser one would only make the search go to and fro.
            let finer = match (*way, right) {
                (Way::Hermite(old), Way::Hermite(new)) => old < new,
                (Way::Hermite(_), Way::Grid) => true,
                (Way::Grid, _) => false,
            };
            if finer {
                *way = right;
                changed = true;
            }
        }
        if !changed {
            return Some((Ended { steps, ..ended }, ways, error));
        }
    }
    None
}

/// Spread of exact times about their group's own mean.
fn pooled_within(groups: &[&[Scaled]], base: &Ended) -> Option<f64> {
    let (mut squares, mut df) = (0.0, 0.0);
    for rows in groups {
        let off: Vec<f64> = rows
            .iter()
            .filter(|row| row.known == Known::Exactly)
            .map(|row| row.y - row.x.iter().zip(base.at.iter()).map(|(x, b)| x * b).sum::<f64>())
            .collect();
        if 2 <= off.len() {
            squares += crate::numeric::squares_about_mean(&off);
            df += off.len() as f64 - 1.0;
        }
    }
    (0.0 < df && 0.0 < squares).then(|| (squares / df).sqrt())
}
