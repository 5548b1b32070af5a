//! Agreement of two ratings beyond chance: Cohen's kappa, plain, linear and quadratic (Cohen 1960, 1968).

use crate::lack::Lack;

/// How much a disagreement by one step, two steps and so on weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weights {
    /// Any disagreement counts the same.
    Plain,
    /// By the number of steps.
    Linear,
    /// By its square.
    Quadratic,
}

/// Kappa of a square table of counts, rows one rating, columns the other. [`Lack::NoSpread`] where all ratings fall
/// into one class, so that chance alone would agree.
pub fn kappa(table: &[Vec<f64>], weights: Weights) -> Result<f64, Lack> {
    let size = table.len();
    if size < 2 || table.iter().any(|row| row.len() != size) {
        return Err(Lack::Ragged);
    }
    if table.iter().flatten().any(|count| !count.is_finite() || *count < 0.0) {
        return Err(Lack::NotACount);
    }
    let total: f64 = table.iter().flatten().sum();
    if total <= 0.0 {
        return Err(Lack::Empty);
    }
    let weight = |i: usize, j: usize| {
        let steps = i.abs_diff(j) as f64;
        match weights {
            Weights::Plain => f64::from(u8::from(i != j)),
            Weights::Linear => steps,
            Weights::Quadratic => steps * steps,
        }
    };
    let rows: Vec<f64> = table.iter().map(|row| row.iter().sum()).collect();
    let columns: Vec<f64> = (0..size).map(|j| table.iter().map(|row| row[j]).sum()).collect();
    let (mut seen, mut by_chance) = (0.0, 0.0);
    for i in 0..size {
        for j in 0..size {
            seen += weight(i, j) * table[i][j];
            by_chance += weight(i, j) * rows[i] * columns[j] / total;
        }
    }
    if by_chance <= 0.0 { Err(Lack::NoSpread) } else { Ok(1.0 - seen / by_chance) }
}
