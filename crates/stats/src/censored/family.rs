//! The forms that a time's spread may have, with their first and second derivatives.

use crate::numeric::normal;

use super::sample::Known;

/// Form of the error.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Logarithm of the time is normal: what set times are fitted with.
    LogNormal,
    /// Logarithm of the time has the smallest-extreme-value form.
    Weibull,
    /// The same with its scale fixed at one.
    Exponential,
    /// Logarithm of the time is logistic.
    LogLogistic,
    /// The time itself is normal (Tobin 1958).
    Normal,
}

/// Value, first and second derivative by the standardised residual.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bend {
    pub(crate) value: f64,
    pub(crate) slope: f64,
    pub(crate) curve: f64,
}

impl Family {
    /// Whether logarithms of times are taken.
    pub fn is_logarithmic(self) -> bool {
        self != Family::Normal
    }

    /// Whether its scale is estimated.
    pub fn has_scale(self) -> bool {
        self != Family::Exponential
    }

    /// Whether a spread between groups can be fitted with it: the integrals are made for the normal form.
    pub fn may_have_groups(self) -> bool {
        matches!(self, Family::LogNormal | Family::Normal)
    }

    /// Log-likelihood of a standardised residual, without the logarithm of the scale.
    pub(crate) fn bend(self, known: Known, w: f64) -> Bend {
        match self {
            Family::LogNormal | Family::Normal => normal(known, w),
            Family::Weibull | Family::Exponential => extreme(known, w),
            Family::LogLogistic => logistic(known, w),
        }
    }

    /// The standardised residual below which a share `p` lies.
    pub fn quantile(self, p: f64) -> f64 {
        match self {
            Family::LogNormal | Family::Normal => normal::quantile(p),
            Family::Weibull | Family::Exponential => (-(-p).ln_1p()).ln(),
            Family::LogLogistic => (p / (1.0 - p)).ln(),
        }
    }
}

fn normal(known: Known, w: f64) -> Bend {
    match known {
        Known::Exactly => Bend { value: normal::log_density(w), slope: -w, curve: -1.0 },
        Known::AtLeast => {
            let (value, hazard) = normal::log_above_and_hazard(w);
            Bend { value, slope: -hazard, curve: -hazard * (hazard - w) }
        }
        Known::AtMost => {
            let (value, hazard) = normal::log_above_and_hazard(-w);
            Bend { value, slope: hazard, curve: -hazard * (hazard + w) }
        }
    }
}

fn extreme(known: Known, w: f64) -> Bend {
    let e = w.exp();
    match known {
        Known::Exactly => Bend { value: w - e, slope: 1.0 - e, curve: -e },
        Known::AtLeast => Bend { value: -e, slope: -e, curve: -e },
        Known::AtMost => {
            // log(1 - exp(-e)), and its derivatives by w.
            let value = if e < 1e-10 { w } else { (-(-e).exp_m1()).ln() };
            let slope = if e < 1e-10 { 1.0 } else { e / e.exp_m1() };
            Bend { value, slope, curve: if e < 1e-10 { -e } else { slope * (1.0 - e - slope) } }
        }
    }
}

fn logistic(known: Known, w: f64) -> Bend {
    // Share above w, and the logarithm of the share above, without overflow on either side.
    let above = 1.0 / (1.0 + w.exp());
    let below = 1.0 / (1.0 + (-w).exp());
    let log_above = if 0.0 < w { -w - (-w).exp().ln_1p() } else { -w.exp().ln_1p() };
    let curve = -above * below;
    match known {
        Known::Exactly => Bend { value: w + 2.0 * log_above, slope: 1.0 - 2.0 * below, curve: 2.0 * curve },
        Known::AtLeast => Bend { value: log_above, slope: -below, curve },
        Known::AtMost => Bend { value: log_above + w, slope: above, curve },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn derivatives_are_those_of_the_values() {
        let h = 1e-5;
        for family in [Family::LogNormal, Family::Weibull, Family::LogLogistic] {
            for known in [Known::Exactly, Known::AtLeast, Known::AtMost] {
                for w in [-4.0, -1.3, -0.2, 0.0, 0.7, 2.9] {
                    let (low, here, high) =
                        (family.bend(known, w - h), family.bend(known, w), family.bend(known, w + h));
                    let slope = (high.value - low.value) / (2.0 * h);
                    let curve = (high.slope - low.slope) / (2.0 * h);
                    let case = format!("{family:?} {known:?} {w}");
                    assert!(
                        (slope - here.slope).abs() < 1e-6 * (1.0 + slope.abs()),
                        "{case}: {slope} {here:?}"
                    );
                    assert!(
                        (curve - here.curve).abs() < 1e-6 * (1.0 + curve.abs()),
                        "{case}: {curve} {here:?}"
                    );
                }
            }
        }
    }
}
