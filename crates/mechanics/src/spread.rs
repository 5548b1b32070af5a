//! A value together with its standard deviation.
//!
//! Loads and strengths of a person are never known exactly, so no function here gives one without saying how well.

use quantity::{Force, HoldTime, Length, Mass, Share, Torque};

/// Half width of a 95 % interval of the normal distribution, in standard deviations.
pub const NORMAL_95: f64 = 1.959_963_984_540_054;

/// A value and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WithError<Q> {
    /// Best value.
    pub value: Q,
    /// One standard deviation, in the same unit; never negative.
    pub sd: Q,
}

/// A quantity as a bare number in its canonical unit and back; only for sums inside this crate.
pub(crate) trait Si: Copy {
    fn si(self) -> f64;
    fn of(value: f64) -> Self;
}

macro_rules! si {
    ($($quantity:ident: $get:ident, $build:ident;)*) => {
        $(
            impl Si for $quantity {
                fn si(self) -> f64 { self.$get() }
                fn of(value: f64) -> Self { Self::$build(value) }
            }

            impl WithError<$quantity> {
                /// The standard deviation as a part of the value, or nothing when the value is zero.
                pub fn relative(&self) -> Option<f64> {
                    (self.value.si() != 0.0).then(|| self.sd.si() / self.value.si().abs())
                }

                /// Lower and upper end of the interval that holds the true value 95 times in 100, were the error normal.
                pub fn interval_95(&self) -> ($quantity, $quantity) {
                    let half = NORMAL_95 * self.sd.si();
                    ($quantity::of(self.value.si() - half), $quantity::of(self.value.si() + half))
                }
            }
        )*
    };
}

si! {
    Force: newtons, from_newtons;
    HoldTime: seconds, from_seconds;
    Length: metres, from_metres;
    Mass: kilograms, from_kilograms;
    Share: fraction, from_fraction;
    Torque: newton_metres, from_newton_metres;
}

/// A value with an error that is a fixed part of it.
pub(crate) fn with_relative_sd<Q: Si>(value: Q, part: f64) -> WithError<Q> {
    WithError { value, sd: Q::of(value.si().abs() * part) }
}

/// The error of a sum or product of independent parts.
pub(crate) fn root_sum_square(parts: impl IntoIterator<Item = f64>) -> f64 {
    parts.into_iter().map(|part| part * part).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_interval_is_symmetric_and_as_wide_as_its_error() {
        let known = WithError { value: Force::from_newtons(40.0), sd: Force::from_newtons(2.0) };
        let (low, high) = known.interval_95();
        assert!((low.newtons() - 36.080_072).abs() < 1e-6 && (high.newtons() - 43.919_928).abs() < 1e-6);
        assert_eq!(known.relative(), Some(0.05));
    }

    #[test]
    fn nothing_has_no_relative_error() {
        let nothing = WithError { value: Torque::ZERO, sd: Torque::from_newton_metres(1.0) };
        assert_eq!(nothing.relative(), None);
    }
}
