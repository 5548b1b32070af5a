//! The next session of one swimmer, exercise and side.

use crate::censored::{Family, Fit};
use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::normal;

/// What is known of a swimmer's own value beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Own {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
}

/// One set to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Coming {
    /// Its covariates, as in the fit.
    pub covariates: Vec<f64>,
    /// Its cap, in seconds.
    pub cap: f64,
}

/// What to expect of one set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expected {
    /// As likely longer as shorter, in seconds, cap or no cap.
    pub median: f64,
    /// Where it will lie.
    pub interval: Interval,
    /// Chance to reach the cap.
    pub chance: f64,
}

/// What to expect of a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// Set by set.
    pub sets: Vec<Expected>,
    /// Chance that every set reaches its cap. Sets of one swimmer go together, so this is more than the product.
    pub chance_all: f64,
}

/// Standard deviations beyond which a doubt is not followed.
const REACH: f64 = 8.5;
/// Most nodes to either side.
const MOST_NODES: i32 = 2000;

/// A swimmer of whom the model knows nothing yet: the squad's spread.
pub fn unknown(fit: &Fit) -> Own {
    Own { mean: 0.0, sd: fit.between.as_ref().map_or(0.0, |between| between.sd) }
}

/// What a fitted log-normal model expects. The swimmer's own value, and the uncertainty of the coefficients, are
/// carried along.
pub fn session(fit: &Fit, own: Own, sets: &[Coming], level: Level) -> Result<Session, Lack> {
    if fit.family != Family::LogNormal {
        return Err(Lack::Setting { name: "family" });
    }
    if sets.is_empty() {
        return Err(Lack::Empty);
    }
    let fits = |set: &Coming| set.covariates.len() + 1 == fit.coefficients.len();
    if !sets.iter().all(fits) {
        return Err(Lack::Ragged);
    }
    if sets
        .iter()
        .any(|set| set.cap.is_nan() || set.cap <= 0.0 || set.covariates.iter().any(|x| !x.is_finite()))
    {
        return Err(Lack::NotFinite);
    }
    let scale = fit.scale();
    let middles: Vec<f64> = sets.iter().map(|set| fit.mean(&set.covariates) + own.mean).collect();
    let doubts: Vec<f64> =
        sets.iter().map(|set| own.sd.powi(2) + coefficient_variance(fit, &set.covariates)).collect();
    let expected = sets
        .iter()
        .zip(&middles)
        .zip(&doubts)
        .map(|((set, middle), doubt)| {
            let spread = (scale * scale + doubt).sqrt();
            Expected {
                median: middle.exp(),
                interval: Interval::around(*middle, level.z() * spread).map(f64::exp),
                chance: normal::above((set.cap.ln() - middle) / spread),
            }
        })
        .collect();
    // What is not known of the swimmer moves every set of the session the same way.
    let all = |z: f64| -> f64 {
        let one = |((set, middle), doubt): ((&Coming, &f64), &f64)| {
            normal::above((set.cap.ln() - middle - z * doubt.sqrt()) / scale)
        };
        sets.iter().zip(&middles).zip(&doubts).map(one).product()
    };
    // An even grid, fine enough for the steepest step that a doubt much wider than the scale makes of the product.
    let widest = doubts.iter().fold(0.0_f64, |widest, doubt| widest.max(doubt.sqrt()));
    let step = 0.5 * (scale / widest).min(1.0);
    let count = ((REACH / step).ceil() as i32).clamp(17, MOST_NODES);
    let step = REACH / f64::from(count);
    let at = |place: i32| f64::from(place) * step;
    let sum = (-count..=count).map(|place| normal::density(at(place)) * all(at(place))).sum::<f64>();
    let chance_all = (step * sum).clamp(0.0, 1.0);
    Ok(Session { sets: expected, chance_all })
}

/// Variance that the coefficients' own uncertainty gives the mean of a row.
fn coefficient_variance(fit: &Fit, covariates: &[f64]) -> f64 {
    let x = |place: usize| if place == 0 { 1.0 } else { covariates[place - 1] };
    let mut sum = 0.0;
    for i in 0..fit.coefficients.len() {
        for j in 0..fit.coefficients.len() {
            sum += x(i) * fit.covariance[(i, j)] * x(j);
        }
    }
    if sum.is_finite() { sum.max(0.0) } else { 0.0 }
}
