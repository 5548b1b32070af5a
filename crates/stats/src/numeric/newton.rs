//! A damped Newton search for a maximum, which says how it ended.

use nalgebra::{Cholesky, DMatrix, DVector};

/// A function at one point: its value, slope, and minus its second derivatives.
#[derive(Debug, Clone)]
pub(crate) struct Shape {
    pub(crate) value: f64,
    pub(crate) gradient: DVector<f64>,
    pub(crate) information: DMatrix<f64>,
}

impl Shape {
    fn is_finite(&self) -> bool {
        self.value.is_finite()
            && self.gradient.iter().all(|value| value.is_finite())
            && self.information.iter().all(|value| value.is_finite())
    }
}

/// Where a search ended.
#[derive(Debug, Clone)]
pub(crate) struct Ended {
    pub(crate) at: DVector<f64>,
    pub(crate) shape: Shape,
    /// Settled: the next step would gain nothing that could be seen.
    pub(crate) converged: bool,
    pub(crate) steps: usize,
}

/// Gain of the next step, in log-likelihood, at which a search has settled.
const SETTLED: f64 = 1e-13;
const MOST_STEPS: usize = 200;

/// Climbs from `start`. `f` may refuse a point by returning nothing; the start must not be refused.
pub(crate) fn maximise(
    start: DVector<f64>,
    mut f: impl FnMut(&DVector<f64>) -> Option<Shape>,
) -> Option<Ended> {
    let mut at = start;
    let mut here = f(&at).filter(Shape::is_finite)?;
    let mut damping = 0.0_f64;
    for steps in 0..MOST_STEPS {
        let (step, gain) = loop {
            let mut damped = here.information.clone();
            for i in 0..damped.nrows() {
                damped[(i, i)] += damping * (1.0 + damped[(i, i)].abs());
            }
            if let Some(factor) = Cholesky::new(damped) {
                let step = factor.solve(&here.gradient);
                let gain = 0.5 * step.dot(&here.gradient);
                break (step, gain);
            }
            damping = if damping == 0.0 { 1e-4 } else { damping * 4.0 };
            if 1e12 < damping || damping.is_nan() {
                return Some(Ended { at, shape: here, converged: false, steps });
            }
        };
        // A step is never longer than what a likelihood can be trusted over.
        let longest = step.amax();
        let step = if 5.0 < longest { step * (5.0 / longest) } else { step };
        let next = &at + &step;
        let found = f(&next).filter(Shape::is_finite);
        match found {
            Some(there) if here.value - 1e-12 * (1.0 + here.value.abs()) <= there.value => {
                let settled = gain < SETTLED * (1.0 + here.value.abs()) && damping == 0.0;
                at = next;
                here = there;
                if settled {
                    return Some(Ended { at, shape: here, converged: true, steps: steps + 1 });
                }
                damping = if damping < 1e-3 { 0.0 } else { damping * 0.2 };
            }
            _ if gain < SETTLED * (1.0 + here.value.abs()) && damping == 0.0 => {
                return Some(Ended { at, shape: here, converged: true, steps: steps + 1 });
            }
            _ => {
                damping = if damping == 0.0 { 1e-2 } else { damping * 5.0 };
                if 1e12 < damping {
                    return Some(Ended { at, shape: here, converged: false, steps });
                }
            }
        }
    }
    Some(Ended { at, shape: here, converged: false, steps: MOST_STEPS })
}
