//! The two numbers a swimmer speaks: pain and effort, both 0-10.

use std::fmt;

/// A spoken number outside 0-10.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OutsideScale(pub i64);

impl fmt::Display for OutsideScale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is outside 0 to 10", self.0)
    }
}

impl std::error::Error for OutsideScale {}

macro_rules! spoken_score {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(u8);

        impl $name {
            /// The bottom of the scale.
            pub const NONE: Self = Self(0);

            /// Accepts a whole number from 0 to 10.
            pub const fn new(value: i64) -> Result<Self, OutsideScale> {
                if 0 <= value && value <= 10 { Ok(Self(value as u8)) } else { Err(OutsideScale(value)) }
            }

            /// The number spoken.
            pub const fn get(self) -> u8 { self.0 }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { self.0.fmt(f) }
        }
    };
}

spoken_score! {
    /// Pain on the 0-10 numeric scale. There is no "not asked" in here: an answer that is missing is never a zero.
    Pain
}

spoken_score! {
    /// Effort of a practice or session on the 0-10 scale.
    Effort
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_ends_at_ten() {
        assert_eq!(Pain::new(10).map(Pain::get), Ok(10));
        assert_eq!(Pain::new(11), Err(OutsideScale(11)));
        assert_eq!(Effort::new(-1), Err(OutsideScale(-1)));
    }
}
