//! Least squares with coefficients that may not be negative, for one or two columns.

use nalgebra::{DMatrix, DVector};

/// The solution, and which columns took part in it.
pub(crate) struct Solution {
    pub(crate) coefficients: Vec<f64>,
    /// Indices of the columns whose coefficient is free; the others are held at zero.
    pub(crate) active: Vec<usize>,
    pub(crate) squares: f64,
    /// Inverse of the normal matrix over the active columns, row by row; times the residual variance it is the covariance.
    pub(crate) inverse: DMatrix<f64>,
}

/// Solves min |A x - y| with x >= 0 by trying every set of free columns; exact, and for two columns there are four.
///
/// Gives the same as Lawson & Hanson 1974. Nothing when no set of columns can be solved at all.
pub(crate) fn non_negative(columns: &[Vec<f64>], y: &[f64]) -> Option<Solution> {
    let sets: Vec<Vec<usize>> = (0..1_u32 << columns.len())
        .map(|mask| (0..columns.len()).filter(|c| mask & (1 << c) != 0).collect())
        .collect();
    sets.into_iter()
        .filter_map(|active| solve(columns, y, active))
        .filter(|solution| solution.coefficients.iter().all(|c| 0.0 <= *c))
        .reduce(|best, other| if other.squares < best.squares { other } else { best })
}

fn solve(columns: &[Vec<f64>], y: &[f64], active: Vec<usize>) -> Option<Solution> {
    let target = DVector::from_column_slice(y);
    let mut coefficients = vec![0.0; columns.len()];
    if active.is_empty() {
        return Some(Solution {
            coefficients,
            active,
            squares: target.norm_squared(),
            inverse: DMatrix::zeros(0, 0),
        });
    }
    let matrix = DMatrix::from_fn(y.len(), active.len(), |row, column| columns[active[column]][row]);
    let qr = matrix.clone().qr();
    let solved = qr.r().solve_upper_triangular(&(qr.q().transpose() * &target))?;
    let inverse_r = qr.r().try_inverse()?;
    let squares = (target - matrix * &solved).norm_squared();
    for (column, value) in active.iter().zip(solved.iter()) {
        coefficients[*column] = *value;
    }
    let inverse = &inverse_r * inverse_r.transpose();
    (squares.is_finite() && inverse.iter().all(|entry| entry.is_finite())).then_some(Solution {
        coefficients,
        active,
        squares,
        inverse,
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        // Karush-Kuhn-Tucker: at the least square, no free column has a slope and no held one would help.
        #[test]
        fn no_other_choice_of_coefficients_is_better(
            rows in prop::collection::vec((0.1_f64..5.0, 0.1_f64..5.0, -10.0_f64..10.0), 4..12)
        ) {
            let columns = vec![rows.iter().map(|r| r.0).collect(), rows.iter().map(|r| r.1).collect::<Vec<_>>()];
            let y: Vec<f64> = rows.iter().map(|r| r.2).collect();
            let Some(solution) = non_negative(&columns, &y) else { return Ok(()) };
            for (index, column) in columns.iter().enumerate() {
                let residual = |row: usize| {
                    y[row] - columns.iter().zip(&solution.coefficients).map(|(c, k)| c[row] * k).sum::<f64>()
                };
                let slope: f64 = (0..y.len()).map(|row| column[row] * residual(row)).sum();
                let size: f64 = column.iter().map(|v| v * v).sum::<f64>().sqrt() * 100.0;
                prop_assert!(0.0 <= solution.coefficients[index]);
                if solution.coefficients[index] == 0.0 {
                    prop_assert!(slope <= 1e-8 * size);
                } else {
                    prop_assert!(slope.abs() <= 1e-8 * size);
                }
            }
        }
    }
}
