//! The integral over one group's own value, on nodes laid where that group's integrand is.
//!
//! Two ways, both centred on the group's own mode:
//! - Gauss-Hermite nodes scaled by the curvature there (Laplace's centre and width; Pinheiro & Bates 1995). A handful
//!   is enough where at least one time of the group is known exactly.
//! - An even grid. For a group that was only ever seen to reach its cap the integrand is a step beside a wide bell, and
//!   no small set of Gauss-Hermite nodes meets it: even 151 fixed ones were clearly wrong on capped data. On an even
//!   grid the error falls like exp(-2 pi² / (h² K)), where K is the curvature that the group would have if all its
//!   times were known; with h² K = 0.72 that is 1e-12.
//!
//! Which way and how many nodes is chosen for each group by comparing with the grid, so that the answer is right
//! whatever the data, and the quick way is taken where it is right.

use nalgebra::{DMatrix, DVector};

use super::family::Family;
use super::likelihood::{RowShape, mirror};
use super::scale::Scaled;
use crate::numeric::newton::Shape;
use crate::numeric::normal;
use crate::numeric::quadrature::{HERMITE_SIZES, hermite};

/// Nodes of one group.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// Gauss-Hermite, by place in the list of sizes.
    Hermite(usize),
    /// The even grid.
    Grid,
}

/// Grid step in units of the finest scale that the integrand can have.
const STEP: f64 = 0.85;
/// Fall of the logarithm of the integrand beyond which nothing is added.
const REACH: f64 = 42.0;
/// Most nodes to either side: a spread between groups thousands of times that within them.
const MOST_NODES: usize = 20_000;
/// Largest difference from the grid that the quick way may have, in log-likelihood, for one group.
const CLOSE: f64 = 1e-10;

/// Parameters as the integrand needs them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spread {
    pub(super) family: Family,
    pub(super) log_scale: f64,
    pub(super) scale: f64,
    pub(super) log_between: f64,
    pub(super) between: f64,
}

impl Spread {
    /// From coefficients, logarithm of the spread within, logarithm of the spread between.
    pub(super) fn of(at: &DVector<f64>, family: Family) -> Spread {
        let (log_scale, log_between) = (at[at.len() - 2], at[at.len() - 1]);
        Spread { family, log_scale, scale: log_scale.exp(), log_between, between: log_between.exp() }
    }
}

/// Distances of each row's time from its mean without the group's value.
fn distances(rows: &[Scaled], at: &DVector<f64>) -> Vec<f64> {
    rows.iter().map(|row| row.y - row.x.iter().zip(at.iter()).map(|(x, b)| x * b).sum::<f64>()).collect()
}

/// Logarithm of the integrand with first and second derivative by the group's value.
fn integrand(rows: &[Scaled], off: &[f64], spread: &Spread, u: f64) -> (f64, f64, f64) {
    let t = u / spread.between;
    let precision = 1.0 / (spread.between * spread.between);
    let mut sum = (normal::log_density(t) - spread.log_between, -u * precision, -precision);
    for (row, off) in rows.iter().zip(off) {
        let one = RowShape::with_residual(row.known, spread.family, off - u, spread.scale, spread.log_scale);
        sum.0 += one.value;
        sum.1 += one.by_mean;
        sum.2 += one.by_mean_twice;
    }
    sum
}

/// The mode, with the integrand's logarithm and curvature there. The logarithm is concave, so a bracket and Newton
/// steps inside it cannot miss.
fn mode(rows: &[Scaled], off: &[f64], spread: &Spread, start: f64) -> (f64, f64, f64) {
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut u = start;
    let mut here = integrand(rows, off, spread, u);
    for _ in 0..100 {
        if 0.0 < here.1 {
            low = u
        } else {
            high = u
        }
        let newton = u - here.1 / here.2;
        let inside = low < newton && newton < high;
        let next = if inside { newton } else { 0.5 * (low + high) };
        if !next.is_finite() || (next - u).abs() <= 1e-9 / (-here.2).sqrt() {
            break;
        }
        u = next;
        here = integrand(rows, off, spread, u);
    }
    (u, here.0, -here.2)
}

/// Nodes of one group with the logarithms of weight times integrand.
fn nodes(rows: &[Scaled], off: &[f64], spread: &Spread, way: Way, start: f64) -> (f64, Vec<(f64, f64)>) {
    let (centre, top, curvature) = mode(rows, off, spread, start);
    let found = match way {
        Way::Hermite(place) => {
            let width = std::f64::consts::SQRT_2 / curvature.sqrt();
            hermite(place)
                .iter()
                .map(|&(z, weight)| {
                    let u = centre + width * z;
                    (u, weight.ln() + z * z + width.ln() + integrand(rows, off, spread, u).0)
                })
                .collect()
        }
        Way::Grid => {
            let finest =
                1.0 / (spread.between * spread.between) + rows.len() as f64 / (spread.scale * spread.scale);
            let step = STEP / finest.sqrt();
            let mut found = vec![(centre, step.ln() + top)];
            for side in [-1.0, 1.0] {
                for count in 1..=MOST_NODES {
                    let u = centre + side * count as f64 * step;
                    let value = integrand(rows, off, spread, u).0;
                    found.push((u, step.ln() + value));
                    if value < top - REACH {
                        break;
                    }
                }
            }
            found
        }
    };
    (centre, found)
}

/// Logarithm of a sum of exponentials.
fn log_sum(nodes: &[(f64, f64)]) -> f64 {
    let top = nodes.iter().fold(f64::NEG_INFINITY, |top, node| top.max(node.1));
    top + nodes.iter().map(|node| (node.1 - top).exp()).sum::<f64>().ln()
}

/// The quickest way that agrees with the grid, and by how much it does not.
pub(super) fn choose(rows: &[Scaled], at: &DVector<f64>, family: Family) -> (Way, f64) {
    let (off, spread) = (distances(rows, at), Spread::of(at, family));
    let (centre, grid) = nodes(rows, &off, &spread, Way::Grid, 0.0);
    let right = log_sum(&grid);
    for (place, size) in HERMITE_SIZES.iter().enumerate() {
        if grid.len() <= *size {
            break;
        }
        let (_, quick) = nodes(rows, &off, &spread, Way::Hermite(place), centre);
        let difference = (log_sum(&quick) - right).abs();
        if difference <= CLOSE {
            return (Way::Hermite(place), difference);
        }
    }
    (Way::Grid, 0.0)
}

/// What is known of one group's value after its rows: mean and standard deviation, in the units of the search.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known {
    pub(super) mean: f64,
    pub(super) sd: f64,
}

/// Mean and spread of a group's value given its rows.
pub(super) fn known(rows: &[Scaled], at: &DVector<f64>, family: Family, way: Way) -> Known {
    let (off, spread) = (distances(rows, at), Spread::of(at, family));
    let (_, nodes) = nodes(rows, &off, &spread, way, 0.0);
    let total = log_sum(&nodes);
    let mean: f64 = nodes.iter().map(|(u, log)| u * (log - total).exp()).sum();
    let variance: f64 = nodes.iter().map(|(u, log)| (u - mean).powi(2) * (log - total).exp()).sum();
    Known { mean, sd: variance.sqrt() }
}

/// Adds one group's log-likelihood, slope and information (Louis 1982: mean of the complete information less the
/// variance of the complete slope) to `into`; gives back the mode, as a start for next time.
pub(super) fn add(
    rows: &[Scaled],
    at: &DVector<f64>,
    family: Family,
    way: Way,
    start: f64,
    into: &mut Shape,
) -> f64 {
    let width = rows[0].x.len();
    let size = at.len();
    let (within, between) = (width, width + 1);
    let (off, spread) = (distances(rows, at), Spread::of(at, family));
    let (centre, nodes) = nodes(rows, &off, &spread, way, start);
    let total = log_sum(&nodes);
    into.value += total;

    let mut mean_score = vec![0.0; size];
    let mut squares = vec![0.0; size * size];
    // Mean over the nodes of each row's second derivatives.
    let mut twice = vec![(0.0, 0.0); rows.len()];
    let mut score = vec![0.0; size];
    let (mut scale_twice, mut between_twice) = (0.0, 0.0);
    for &(u, log) in &nodes {
        let weight = (log - total).exp();
        if weight < 1e-18 {
            continue;
        }
        score.fill(0.0);
        for ((row, off), second) in rows.iter().zip(&off).zip(&mut twice) {
            let one = RowShape::with_residual(row.known, family, off - u, spread.scale, spread.log_scale);
            for (sum, x) in score.iter_mut().zip(&row.x) {
                *sum += one.by_mean * x;
            }
            score[within] += one.by_scale;
            second.0 += weight * one.by_mean_twice;
            second.1 += weight * one.by_both;
            scale_twice += weight * one.by_scale_twice;
        }
        let t = (u / spread.between).powi(2);
        score[between] = t - 1.0;
        between_twice -= 2.0 * weight * t;
        for i in 0..size {
            mean_score[i] += weight * score[i];
            for j in 0..=i {
                squares[i * size + j] += weight * score[i] * score[j];
            }
        }
    }
    for i in 0..size {
        into.gradient[i] += mean_score[i];
        for j in 0..=i {
            into.information[(i, j)] -= squares[i * size + j] - mean_score[i] * mean_score[j];
        }
    }
    for (row, (mean_twice, both)) in rows.iter().zip(&twice) {
        for i in 0..width {
            for j in 0..=i {
                into.information[(i, j)] -= mean_twice * row.x[i] * row.x[j];
            }
            into.information[(within, i)] -= both * row.x[i];
        }
    }
    into.information[(within, within)] -= scale_twice;
    into.information[(between, between)] -= between_twice;
    centre
}

/// The whole likelihood, group by group.
pub(super) fn whole(
    groups: &[&[Scaled]],
    at: &DVector<f64>,
    family: Family,
    ways: &[Way],
    starts: &mut [f64],
) -> Option<Shape> {
    let size = at.len();
    // Spreads beyond what any data could mean would only cost time.
    if at[size - 2].abs().max(at[size - 1].abs()) > 30.0 || at.iter().any(|value| !value.is_finite()) {
        return None;
    }
    let (log_scale, log_between) = (at[size - 2], at[size - 1]);
    if 8.0 < log_between - log_scale {
        return None;
    }
    let mut shape =
        Shape { value: 0.0, gradient: DVector::zeros(size), information: DMatrix::zeros(size, size) };
    for ((rows, way), start) in groups.iter().zip(ways).zip(starts.iter_mut()) {
        *start = add(rows, at, family, *way, *start, &mut shape);
    }
    mirror(&mut shape.information);
    Some(shape)
}
