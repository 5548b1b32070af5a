//! Quadrature nodes: Gauss-Hermite for a normal weight, Gauss-Legendre for an interval.

use std::sync::OnceLock;

/// Node and weight.
pub(crate) type Node = (f64, f64);

/// Nodes and weights for the integral of `exp(-z²) f(z)`, found by Newton's method on the orthonormal recurrence.
fn hermite_nodes(n: usize) -> Vec<Node> {
    let size = n as f64;
    let mut nodes = vec![(0.0, 0.0); n];
    let mut z = 0.0_f64;
    for i in 0..n.div_ceil(2) {
        // Starting values after Stroud & Secrest, from the outermost inward.
        z = match i {
            0 => (2.0 * size + 1.0).sqrt() - 1.855_75 * (2.0 * size + 1.0).powf(-1.0 / 6.0),
            1 => z - 1.14 * size.powf(0.426) / z,
            2 => 1.86 * z - 0.86 * nodes[0].0,
            3 => 1.91 * z - 0.91 * nodes[1].0,
            _ => 2.0 * z - nodes[i - 2].0,
        };
        let mut slope = 1.0;
        for _ in 0..100 {
            let (mut last, mut before) = (std::f64::consts::PI.powf(-0.25), 0.0);
            for j in 0..n {
                let next = z * (2.0 / (j as f64 + 1.0)).sqrt() * last
                    - (j as f64 / (j as f64 + 1.0)).sqrt() * before;
                before = last;
                last = next;
            }
            slope = (2.0 * size).sqrt() * before;
            let step = last / slope;
            z -= step;
            if step.abs() < 1e-15 * (1.0 + z.abs()) {
                break;
            }
        }
        let weight = 2.0 / (slope * slope);
        nodes[i] = (z, weight);
        nodes[n - 1 - i] = (-z, weight);
    }
    nodes
}

/// Sizes of which nodes are kept.
pub(crate) const HERMITE_SIZES: [usize; 5] = [7, 11, 15, 25, 41];

/// Gauss-Hermite nodes of one of [`HERMITE_SIZES`], by its place.
pub(crate) fn hermite(place: usize) -> &'static [Node] {
    static ALL: OnceLock<Vec<Vec<Node>>> = OnceLock::new();
    &ALL.get_or_init(|| HERMITE_SIZES.iter().map(|&n| hermite_nodes(n)).collect())[place]
}

/// Nodes and weights for an integral from 0 to 1.
pub(crate) fn legendre(n: usize) -> Vec<Node> {
    let size = n as f64;
    (0..n)
        .map(|i| {
            let mut z = (std::f64::consts::PI * (i as f64 + 0.75) / (size + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..100 {
                let (mut last, mut before) = (1.0, 0.0);
                for j in 0..n {
                    let j = j as f64;
                    let next = ((2.0 * j + 1.0) * z * last - j * before) / (j + 1.0);
                    before = last;
                    last = next;
                }
                slope = size * (z * last - before) / (z * z - 1.0);
                let step = last / slope;
                z -= step;
                if step.abs() < 1e-15 {
                    break;
                }
            }
            (0.5 * (1.0 - z), 1.0 / ((1.0 - z * z) * slope * slope))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nodes_integrate_polynomials_exactly() {
        for (place, &n) in HERMITE_SIZES.iter().enumerate() {
            let of = |f: &dyn Fn(f64) -> f64| hermite(place).iter().map(|&(z, w)| w * f(z)).sum::<f64>();
            let root_pi = std::f64::consts::PI.sqrt();
            assert!((of(&|_| 1.0) / root_pi - 1.0).abs() < 1e-13, "{n}");
            assert!((of(&|z| z.powi(4)) / (0.75 * root_pi) - 1.0).abs() < 1e-12, "{n}");
            assert!((of(&|z| z.powi(12)) / (10_395.0 / 64.0 * root_pi) - 1.0).abs() < 1e-11, "{n}");
        }
        let nodes = legendre(40);
        assert!((nodes.iter().map(|&(x, w)| w * x.powi(30)).sum::<f64>() - 1.0 / 31.0).abs() < 1e-15);
    }
}
