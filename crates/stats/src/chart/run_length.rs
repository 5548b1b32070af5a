//! How long a chart stays quiet by itself: average run lengths by Nystroem's method on Gauss-Legendre nodes, and the
//! chance of an alarm within a number of readings by stepping the same kernel forward.

use nalgebra::{DMatrix, DVector};

use crate::lack::Lack;
use crate::numeric::normal;
use crate::numeric::quadrature::{Node, legendre};
use crate::numeric::root::root;

const NODES: usize = 60;

fn scaled_nodes(to: f64) -> Vec<Node> {
    legendre(NODES).into_iter().map(|(x, w)| (x * to, w * to)).collect()
}

fn check(k: f64, h: f64, shift: f64) -> Result<(), Lack> {
    let fine = 0.0 <= k && 0.0 < h && h < 50.0 && k < 50.0 && shift.is_finite();
    if fine { Ok(()) } else { Err(Lack::Setting { name: "k, h" }) }
}

/// One side of a cumulative sum: average readings to an alarm when the mean has moved by `shift` standard deviations
/// towards it, from a sum that stands at `start`.
pub fn one_sided(k: f64, h: f64, shift: f64, start: f64) -> Result<f64, Lack> {
    check(k, h, shift)?;
    let nodes = scaled_nodes(h);
    // Unknowns: the run length from zero, then from every node.
    let from = |place: usize| if place == 0 { 0.0 } else { nodes[place - 1].0 };
    let to = |z: f64, place: usize| {
        if place == 0 {
            normal::below(k - z - shift)
        } else {
            let (x, weight) = nodes[place - 1];
            weight * normal::density(x + k - z - shift)
        }
    };
    let size = NODES + 1;
    let system = DMatrix::from_fn(size, size, |i, j| f64::from(u8::from(i == j)) - to(from(i), j));
    let lengths = system.lu().solve(&DVector::from_element(size, 1.0)).ok_or(Lack::NotConverged)?;
    Ok(1.0 + (0..size).map(|place| to(start, place) * lengths[place]).sum::<f64>())
}

/// Both sides together, each from a sum that stands at `start` (zero, or a head start of half the limit). After Lucas &
/// Crosier 1982 (Technometrics 24:199).
pub fn two_sided(k: f64, h: f64, shift: f64, start: f64) -> Result<f64, Lack> {
    let (up, down) = (one_sided(k, h, shift, 0.0)?, one_sided(k, h, -shift, 0.0)?);
    if start == 0.0 {
        return Ok(up * down / (up + down));
    }
    let (up_head, down_head) = (one_sided(k, h, shift, start)?, one_sided(k, h, -shift, start)?);
    // Written so that a side that practically never speaks drops out.
    Ok((up_head * down + up * down_head - up * down) / (up + down))
}

/// The limit at which a two-sided sum with slack `k` gives a false alarm every `length` readings on average.
pub fn limit_for(k: f64, length: f64) -> Result<f64, Lack> {
    if !(2.0..=1e6).contains(&length) || !(0.0..3.0).contains(&k) {
        return Err(Lack::Setting { name: "run length" });
    }
    let off = |h: f64| two_sided(k, h, 0.0, 0.0).map_or(f64::NAN, |found| found.ln() - length.ln());
    let mut high = 1.0;
    while off(high) < 0.0 && high < 40.0 {
        high *= 1.5;
    }
    root(off, 0.01, high).ok_or(Lack::NotConverged)
}

/// Chance that a two-sided sum speaks at least once within so many readings although nothing changed. The two sides
/// hardly ever speak both, so they are taken as independent; a seeded simulation agrees within its error.
pub fn false_alarm_chance(k: f64, h: f64, readings: usize) -> Result<f64, Lack> {
    check(k, h, 0.0)?;
    let nodes = scaled_nodes(h);
    let size = NODES + 1;
    let from = |place: usize| if place == 0 { 0.0 } else { nodes[place - 1].0 };
    let kernel = DMatrix::from_fn(size, size, |i, j| {
        if j == 0 {
            normal::below(k - from(i))
        } else {
            nodes[j - 1].1 * normal::density(nodes[j - 1].0 + k - from(i))
        }
    });
    let mut quiet = DVector::from_element(size, 1.0);
    for _ in 0..readings {
        quiet = &kernel * quiet;
    }
    Ok((1.0 - quiet[0] * quiet[0]).clamp(0.0, 1.0))
}

/// A weighted mean with constant limits: average readings to a signal when the mean has moved by `shift`.
pub fn weighted(weight: f64, width: f64, shift: f64) -> Result<f64, Lack> {
    if !(0.0 < weight && weight <= 1.0 && 0.0 < width && width < 20.0 && shift.is_finite()) {
        return Err(Lack::Setting { name: "weight, width" });
    }
    let limit = width * (weight / (2.0 - weight)).sqrt();
    // A small weight has a narrow kernel, and needs nodes to match.
    let count = ((6.0 * limit / weight).ceil() as usize).clamp(80, 300);
    let nodes: Vec<Node> =
        legendre(count).into_iter().map(|(x, w)| (limit * (2.0 * x - 1.0), 2.0 * limit * w)).collect();
    let to = |z: f64, (x, w): Node| w / weight * normal::density((x - (1.0 - weight) * z) / weight - shift);
    let system =
        DMatrix::from_fn(count, count, |i, j| f64::from(u8::from(i == j)) - to(nodes[i].0, nodes[j]));
    let lengths = system.lu().solve(&DVector::from_element(count, 1.0)).ok_or(Lack::NotConverged)?;
    Ok(1.0 + nodes.iter().enumerate().map(|(place, node)| to(0.0, *node) * lengths[place]).sum::<f64>())
}

/// The width of a weighted mean's limits for a false signal every `length` readings on average.
pub fn width_for(weight: f64, length: f64) -> Result<f64, Lack> {
    if !(2.0..=1e6).contains(&length) {
        return Err(Lack::Setting { name: "run length" });
    }
    let off = |width: f64| weighted(weight, width, 0.0).map_or(f64::NAN, |found| found.ln() - length.ln());
    root(off, 0.1, 6.0).ok_or(Lack::NotConverged)
}

/// Single readings against limits at `width` standard deviations: average readings to a signal.
pub fn single(width: f64, shift: f64) -> f64 {
    1.0 / (normal::above(width - shift) + normal::below(-width - shift))
}
