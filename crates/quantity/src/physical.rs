//! Physical quantities: a private number, constructors and getters named by unit.
//!
//! Only arithmetic that means something exists. None of these types can hold a value that is not finite.

use std::cmp::Ordering;
use std::fmt;

/// A number that was not finite where a quantity was wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotFinite;

impl fmt::Display for NotFinite {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("not a finite number")
    }
}

impl std::error::Error for NotFinite {}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident: $canonical:ident, $try_canonical:ident, [$($unit:ident = $factor:expr, $get:ident);* $(;)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name(f64);

        impl $name {
            /// Builds the quantity from its canonical unit.
            ///
            /// # Panics
            /// If the number is not finite; for numbers that come from outside use the fallible constructor.
            pub const fn $canonical(value: f64) -> Self {
                assert!(value.is_finite(), "a quantity must be finite");
                Self(value)
            }

            /// Builds the quantity from its canonical unit, refusing infinities and not-a-number.
            pub const fn $try_canonical(value: f64) -> Result<Self, NotFinite> {
                if value.is_finite() { Ok(Self(value)) } else { Err(NotFinite) }
            }

            $(
                /// The value in this unit.
                pub fn $get(self) -> f64 { self.0 / $factor }

                /// Builds the quantity from this unit.
                ///
                /// # Panics
                /// If the number is not finite.
                pub fn $unit(value: f64) -> Self { Self::$canonical(value * $factor) }
            )*

            /// How this quantity orders beside another; total, since neither can be not-a-number.
            pub fn total_cmp(&self, other: &Self) -> Ordering { self.0.total_cmp(&other.0) }

            /// The smaller of the two.
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }

            /// The larger of the two.
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }

            /// The dimensionless ratio of two like quantities, or nothing when the divisor is zero.
            pub fn ratio_to(self, other: Self) -> Option<f64> {
                (other.0 != 0.0).then(|| self.0 / other.0)
            }
        }

        impl PartialOrd for $name {
            fn partial_cmp(&self, other: &Self) -> Option<Ordering> { Some(self.total_cmp(other)) }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self { Self(self.0 + other.0) }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self { Self(self.0 - other.0) }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self { values.fold(Self(0.0), |a, b| a + b) }
        }
    };
}

quantity! {
    /// A mass; canonical unit kilogram.
    Mass: from_kilograms, try_from_kilograms, [
        from_kg = 1.0, kilograms;
        from_pounds = 0.453_592_37, pounds;
    ]
}

quantity! {
    /// A force; canonical unit newton. 1 lbf = 4.448 221 615 260 5 N, 1 kgf = 9.806 65 N (both exact by definition).
    Force: from_newtons, try_from_newtons, [
        from_n = 1.0, newtons;
        from_pounds_force = 4.448_221_615_260_5, pounds_force;
        from_kilograms_force = 9.806_65, kilograms_force;
    ]
}

quantity! {
    /// A length; canonical unit metre. 1 in = 0.0254 m (exact by definition).
    Length: from_metres, try_from_metres, [
        from_centimetres = 0.01, centimetres;
        from_inches = 0.0254, inches;
    ]
}

quantity! {
    /// A plane angle; canonical unit degree, because goniometers, protocols and people all speak in degrees.
    Angle: from_degrees, try_from_degrees, [
        from_radians = 180.0 / std::f64::consts::PI, radians;
    ]
}

quantity! {
    /// How long a set was held with good form; canonical unit second.
    HoldTime: from_seconds, try_from_seconds, [
        from_minutes = 60.0, minutes;
    ]
}

quantity! {
    /// A torque about a joint; canonical unit newton metre. 1 lbf ft = 1.355 817 948 331 400 4 N m (exact by definition).
    Torque: from_newton_metres, try_from_newton_metres, [
        from_pound_force_feet = 1.355_817_948_331_400_4, pound_force_feet;
    ]
}

quantity! {
    /// An energy, such as a stretched band holds; canonical unit joule.
    Energy: from_joules, try_from_joules, []
}

quantity! {
    /// How steeply force grows with length; canonical unit newton per metre.
    Stiffness: from_newtons_per_metre, try_from_newtons_per_metre, [
        from_newtons_per_centimetre = 100.0, newtons_per_centimetre;
    ]
}

quantity! {
    /// Torque held over time, the work a joint is asked for in one repetition; canonical unit newton metre second.
    AngularImpulse: from_newton_metre_seconds, try_from_newton_metre_seconds, []
}

quantity! {
    /// Resistance of a limb to being turned faster; canonical unit kilogram square metre.
    Inertia: from_kilogram_square_metres, try_from_kilogram_square_metres, []
}

quantity! {
    /// How fast a turning speed changes; canonical unit radian per second squared.
    AngularAcceleration: from_radians_per_second_squared, try_from_radians_per_second_squared, []
}

quantity! {
    /// Torque per body mass, as strength is published; canonical unit newton metre per kilogram.
    SpecificTorque: from_newton_metres_per_kilogram, try_from_newton_metres_per_kilogram, []
}

quantity! {
    /// A part of a whole, such as a share of strength or of body weight; canonical unit fraction (1 is all of it).
    Share: from_fraction, try_from_fraction, [
        from_percent = 0.01, percent;
    ]
}

quantity! {
    /// A span of time in a plan or a model; canonical unit second. A time that was *held* is a [`HoldTime`].
    Time: from_seconds, try_from_seconds, [
        from_minutes = 60.0, minutes;
    ]
}

quantity! {
    /// A temperature; canonical unit kelvin.
    Temperature: from_kelvin, try_from_kelvin, []
}

impl Mass {
    /// The mass in its canonical unit.
    pub const fn in_kilograms(self) -> f64 {
        self.0
    }
}

impl Force {
    /// The force in its canonical unit.
    pub const fn in_newtons(self) -> f64 {
        self.0
    }
}

impl Length {
    /// The length in its canonical unit.
    pub const fn metres(self) -> f64 {
        self.0
    }
}

impl Angle {
    /// The angle in its canonical unit.
    pub const fn degrees(self) -> f64 {
        self.0
    }
}

impl HoldTime {
    /// No time at all.
    pub const ZERO: Self = Self(0.0);

    /// The time in its canonical unit.
    pub const fn seconds(self) -> f64 {
        self.0
    }
}

impl Torque {
    /// No torque at all.
    pub const ZERO: Self = Self(0.0);

    /// The torque in its canonical unit.
    pub const fn newton_metres(self) -> f64 {
        self.0
    }
}

impl Energy {
    /// The energy in its canonical unit.
    pub const fn joules(self) -> f64 {
        self.0
    }
}

impl Stiffness {
    /// The stiffness in its canonical unit.
    pub const fn newtons_per_metre(self) -> f64 {
        self.0
    }
}

impl AngularImpulse {
    /// The angular impulse in its canonical unit.
    pub const fn newton_metre_seconds(self) -> f64 {
        self.0
    }
}

impl Inertia {
    /// The moment of inertia in its canonical unit.
    pub const fn kilogram_square_metres(self) -> f64 {
        self.0
    }
}

impl AngularAcceleration {
    /// The angular acceleration in its canonical unit.
    pub const fn radians_per_second_squared(self) -> f64 {
        self.0
    }
}

impl SpecificTorque {
    /// The torque per body mass in its canonical unit.
    pub const fn newton_metres_per_kilogram(self) -> f64 {
        self.0
    }
}

impl Share {
    /// The whole.
    pub const WHOLE: Self = Self(1.0);
    /// Nothing of it.
    pub const NONE: Self = Self(0.0);

    /// The share in its canonical unit.
    pub const fn fraction(self) -> f64 {
        self.0
    }
}

impl Time {
    /// No time at all.
    pub const ZERO: Self = Self(0.0);

    /// The span in its canonical unit.
    pub const fn seconds(self) -> f64 {
        self.0
    }
}

impl Temperature {
    /// Where the Celsius scale has its zero (exact by definition).
    const CELSIUS_ZERO: f64 = 273.15;

    /// The temperature in its canonical unit.
    pub const fn kelvin(self) -> f64 {
        self.0
    }

    /// The temperature in degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0 - Self::CELSIUS_ZERO
    }

    /// Builds the temperature from degrees Celsius, refusing infinities and not-a-number.
    pub const fn try_from_celsius(value: f64) -> Result<Self, NotFinite> {
        Self::try_from_kelvin(value + Self::CELSIUS_ZERO)
    }
}

/// A force at a distance from an axis turns about it.
impl std::ops::Mul<Length> for Force {
    type Output = Torque;
    fn mul(self, lever: Length) -> Torque {
        Torque(self.0 * lever.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: the international yard and pound agreement (1959) and ISO 80000-4; exact by definition.
    #[test]
    fn defined_factors_are_exact() {
        assert_eq!(Mass::from_pounds(5.0).kilograms(), 5.0 * 0.453_592_37);
        assert_eq!(Force::from_kilograms_force(1.0).newtons(), 9.806_65);
        assert_eq!(Length::from_inches(1.0).centimetres(), 2.54);
        assert!((Force::from_pounds_force(1.0).newtons() - 4.448_221_615_260_5).abs() < 1e-15);
        assert_eq!(Temperature::try_from_celsius(20.0).map(Temperature::kelvin), Ok(293.15));
    }

    // Source: a pound-force at one foot, both exact by definition.
    #[test]
    fn a_force_at_a_lever_is_a_torque() {
        let turned = Force::from_pounds_force(1.0) * Length::from_inches(12.0);
        assert!((turned.pound_force_feet() - 1.0).abs() < 1e-15);
    }

    #[test]
    fn what_is_not_finite_is_refused() {
        assert_eq!(HoldTime::try_from_seconds(f64::NAN), Err(NotFinite));
        assert_eq!(Mass::try_from_kilograms(f64::INFINITY), Err(NotFinite));
        assert_eq!(HoldTime::from_seconds(3.0).ratio_to(HoldTime::ZERO), None);
    }

    proptest::proptest! {
        #[test]
        fn a_change_of_unit_and_back_changes_nothing(value in -1e6_f64..1e6) {
            let there_and_back = Mass::from_pounds(Mass::from_kg(value).pounds()).kilograms();
            proptest::prop_assert!((there_and_back - value).abs() <= 1e-9 * value.abs().max(1.0));
        }
    }
}
