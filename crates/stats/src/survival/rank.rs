//! The log-rank comparison of groups.

use nalgebra::{DMatrix, DVector};

use super::{Timed, in_order};
use crate::lack::Lack;
use crate::numeric::distribution::chi_square_above;

/// Groups compared over their whole curves.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Events seen in each group.
    pub observed: Vec<f64>,
    /// Events to be expected if all groups were alike.
    pub expected: Vec<f64>,
    /// Chi-square.
    pub chi_square: f64,
    /// Its degrees of freedom, groups less one.
    pub df: usize,
    /// Probability of as large a difference if all groups were alike.
    pub p: f64,
}

/// Compares two or more groups. [`Lack::AllCensored`] where nobody in any group lost form.
pub fn log_rank(groups: &[Vec<Timed>]) -> Result<Comparison, Lack> {
    let size = groups.len();
    if size < 2 {
        return Err(Lack::TooFew { of: "groups", found: size, needed: 2 });
    }
    let mut all: Vec<(Timed, usize)> = Vec::new();
    for (group, times) in groups.iter().enumerate() {
        all.extend(in_order(times)?.into_iter().map(|timed| (timed, group)));
    }
    all.sort_by(|one, other| one.0.time.total_cmp(&other.0.time));
    let mut at_risk: Vec<f64> = groups.iter().map(|times| times.len() as f64).collect();
    let (mut observed, mut expected) = (vec![0.0; size], vec![0.0; size]);
    let mut variance = DMatrix::<f64>::zeros(size, size);
    let mut place = 0;
    while place < all.len() {
        let time = all[place].0.time;
        let end = place + all[place..].iter().take_while(|(timed, _)| timed.time == time).count();
        let here = &all[place..end];
        let (d, n) =
            (here.iter().filter(|(timed, _)| timed.event).count() as f64, at_risk.iter().sum::<f64>());
        if 0.0 < d {
            let tied = if 1.0 < n { d * (n - d) / (n - 1.0) } else { 0.0 };
            for i in 0..size {
                let share = at_risk[i] / n;
                expected[i] += d * share;
                for j in 0..size {
                    variance[(i, j)] += tied * share * (f64::from(u8::from(i == j)) - at_risk[j] / n);
                }
            }
        }
        for (timed, group) in here {
            observed[*group] += f64::from(u8::from(timed.event));
            at_risk[*group] -= 1.0;
        }
        place = end;
    }
    if observed.iter().sum::<f64>() == 0.0 {
        return Err(Lack::AllCensored);
    }
    // One group's difference follows from the others'.
    let off = DVector::from_fn(size - 1, |i, _| observed[i] - expected[i]);
    let part = variance.view((0, 0), (size - 1, size - 1)).into_owned();
    let solved = part.cholesky().ok_or(Lack::NoSpread)?.solve(&off);
    let chi_square = off.dot(&solved);
    let df = size - 1;
    Ok(Comparison { observed, expected, chi_square, df, p: chi_square_above(df as f64, chi_square) })
}
