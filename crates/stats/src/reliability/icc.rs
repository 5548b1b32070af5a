//! The six intraclass correlations of Shrout & Fleiss 1979 (Psychol Bull 86:420), with F-based intervals.
//!
//! Names after McGraw & Wong 1996 stand beside them: (2,1) is A,1; (3,1) is C,1. Interval of (2,1) after McGraw & Wong
//! (Satterthwaite degrees of freedom), as R psych and pingouin compute it.

use super::{MeanSquares, Trial};
use crate::lack::Lack;
use crate::level::{Interval, Level};
use crate::numeric::distribution::{f_above, f_quantile};

/// Which question is asked of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Each person was rated by other raters, (1,1).
    OneWay,
    /// The same raters, taken from many: their shifts count as error, (2,1).
    Agreement,
    /// The same raters and no others: their shifts do not count, (3,1).
    Consistency,
    /// (1,k): the mean of k raters.
    OneWayMean,
    /// (2,k).
    AgreementMean,
    /// (3,k).
    ConsistencyMean,
}

impl Form {
    /// All six, single raters first.
    pub const ALL: [Form; 6] = [
        Form::OneWay,
        Form::Agreement,
        Form::Consistency,
        Form::OneWayMean,
        Form::AgreementMean,
        Form::ConsistencyMean,
    ];

    /// The name after Shrout & Fleiss.
    pub fn name(self) -> &'static str {
        match self {
            Form::OneWay => "ICC(1,1)",
            Form::Agreement => "ICC(2,1)",
            Form::Consistency => "ICC(3,1)",
            Form::OneWayMean => "ICC(1,k)",
            Form::AgreementMean => "ICC(2,k)",
            Form::ConsistencyMean => "ICC(3,k)",
        }
    }

    /// The name after McGraw & Wong.
    pub fn other_name(self) -> &'static str {
        match self {
            Form::OneWay => "ICC(1)",
            Form::Agreement => "ICC(A,1)",
            Form::Consistency => "ICC(C,1)",
            Form::OneWayMean => "ICC(k)",
            Form::AgreementMean => "ICC(A,k)",
            Form::ConsistencyMean => "ICC(C,k)",
        }
    }
}

/// One correlation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Icc {
    /// Of which form.
    pub form: Form,
    /// The estimate; may be negative.
    pub estimate: f64,
    /// Its range.
    pub interval: Interval,
    /// F against no differences between people, with its degrees of freedom and p.
    pub f: f64,
    /// Numerator degrees of freedom.
    pub df1: f64,
    /// Denominator degrees of freedom.
    pub df2: f64,
    /// Probability of as large an F without any differences between people.
    pub p: f64,
}

/// All six forms. [`Lack::NoSpread`] where all people are alike and all ratings too, [`Lack::PerfectFit`] where
/// repeated ratings do not differ at all: then every form is 1 and no interval exists.
pub fn all(trial: &Trial, level: Level) -> Result<Vec<Icc>, Lack> {
    let squares = trial.squares();
    let smallest = 1e-20 * largest_square(trial);
    if squares.total_squares <= smallest {
        return Err(Lack::NoSpread);
    }
    if squares.within <= smallest || squares.residual <= smallest {
        return Err(Lack::PerfectFit);
    }
    Ok(Form::ALL.into_iter().map(|form| one(trial, &squares, form, level)).collect())
}

fn largest_square(trial: &Trial) -> f64 {
    trial.rows.iter().flatten().fold(0.0_f64, |largest, value| largest.max(value * value))
}

fn one(trial: &Trial, squares: &MeanSquares, form: Form, level: Level) -> Icc {
    let (n, k) = (trial.people() as f64, trial.trials() as f64);
    let upper = 1.0 - level.tail();
    let MeanSquares { people: r, raters: c, residual: e, within: w, .. } = *squares;
    let (f, df2) = match form {
        Form::OneWay | Form::OneWayMean => (r / w, n * (k - 1.0)),
        _ => (r / e, (n - 1.0) * (k - 1.0)),
    };
    let df1 = n - 1.0;
    let bounds = Interval { low: f / f_quantile(df1, df2, upper), high: f * f_quantile(df2, df1, upper) };
    let single = |f: f64| (f - 1.0) / (f + k - 1.0);
    let of_mean = |f: f64| 1.0 - 1.0 / f;
    let (estimate, interval) = match form {
        Form::OneWay | Form::Consistency => (single(f), bounds.map(single)),
        Form::OneWayMean | Form::ConsistencyMean => (of_mean(f), bounds.map(of_mean)),
        Form::Agreement => ((r - e) / (r + (k - 1.0) * e + k * (c - e) / n), agreement(n, k, squares, level)),
        Form::AgreementMean => (
            (r - e) / (r + (c - e) / n),
            agreement(n, k, squares, level).map(|x| k * x / (1.0 + (k - 1.0) * x)),
        ),
    };
    Icc { form, estimate, interval, f, df1, df2, p: f_above(df1, df2, f) }
}

/// Range of the (2,1) form.
fn agreement(n: f64, k: f64, squares: &MeanSquares, level: Level) -> Interval {
    let MeanSquares { people: r, raters: c, residual: e, .. } = *squares;
    let rho = (r - e) / (r + (k - 1.0) * e + k * (c - e) / n);
    let fj = c / e;
    let part = n * (1.0 + (k - 1.0) * rho) - k * rho;
    let v = (k - 1.0) * (n - 1.0) * (k * rho * fj + part).powi(2)
        / ((n - 1.0) * (k * rho * fj).powi(2) + part.powi(2));
    let upper = 1.0 - level.tail();
    let (f1, f2) = (f_quantile(n - 1.0, v, upper), f_quantile(v, n - 1.0, upper));
    let rest = k * n - k - n;
    Interval {
        low: n * (r - f1 * e) / (f1 * (k * c + rest * e) + n * r),
        high: n * (f2 * r - e) / (k * c + rest * e + n * f2 * r),
    }
}

/// Variances behind a table: of people, of raters, and the rest, in squared units. For a complete table the analysis
/// of variance gives what restricted maximum likelihood gives, as long as no component is negative; a negative one is
/// returned as it comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Components {
    /// Between people.
    pub people: f64,
    /// Between raters.
    pub raters: f64,
    /// The rest.
    pub residual: f64,
}

/// The variances behind a table.
pub fn components(trial: &Trial) -> Components {
    let (n, k) = (trial.people() as f64, trial.trials() as f64);
    let squares = trial.squares();
    Components {
        people: (squares.people - squares.residual) / k,
        raters: (squares.raters - squares.residual) / n,
        residual: squares.residual,
    }
}
