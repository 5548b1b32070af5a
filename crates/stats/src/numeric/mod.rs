//! Numerical tools: tails that do not cancel, roots, quadrature nodes, a damped Newton search. All deterministic.

pub(crate) mod distribution;
pub(crate) mod linear;
pub(crate) mod newton;
pub mod normal;
pub(crate) mod quadrature;
pub(crate) mod root;

/// A sum whose rounding does not grow with its length (Neumaier's compensation).
pub(crate) fn sum(values: impl IntoIterator<Item = f64>) -> f64 {
    let (mut total, mut lost) = (0.0_f64, 0.0_f64);
    for value in values {
        let next = total + value;
        lost += if total.abs() < value.abs() { (value - next) + total } else { (total - next) + value };
        total = next;
    }
    total + lost
}

/// The arithmetic mean. `values` is not empty.
pub(crate) fn mean(values: &[f64]) -> f64 {
    sum(values.iter().copied()) / values.len() as f64
}

/// Sum of squared distances from the mean.
pub(crate) fn squares_about_mean(values: &[f64]) -> f64 {
    let mean = mean(values);
    sum(values.iter().map(|value| (value - mean).powi(2)))
}

/// The sample standard deviation; zero for a single value.
pub(crate) fn deviation(values: &[f64]) -> f64 {
    if values.len() < 2 { 0.0 } else { (squares_about_mean(values) / (values.len() - 1) as f64).sqrt() }
}
