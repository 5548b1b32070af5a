//! Strength assumed for an adult whom nobody tested.

use quantity::{Mass, SpecificTorque, Torque};

use super::{Obtained, Strength};
use crate::body::Years;
use crate::spread::with_relative_sd;

/// Which way the upper arm is turned about its own axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rotation {
    /// Outwards.
    External,
    /// Inwards.
    Internal,
}

/// Why no strength is assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PriorRefusal {
    /// For a minor none ever is; the starting table alone applies.
    Minor(Years),
    /// Body mass is not positive, or beyond any person's.
    Mass(Mass),
}

/// Spread between people as a part of the mean.
const SPREAD: f64 = 0.25;

impl Rotation {
    /// Mean torque per body mass, inferred from ten young swimmers in Yoma 2021 (IJSPT 16(6):1470-1484, Table 1): the
    /// middle of the means that the printed errors leave possible. It agrees with adult tables.
    pub const fn mean(self) -> SpecificTorque {
        match self {
            Self::External => SpecificTorque::from_newton_metres_per_kilogram(0.37),
            Self::Internal => SpecificTorque::from_newton_metres_per_kilogram(0.41),
        }
    }
}

/// Rotation strength assumed for an adult until a test replaces it; spread 25 %.
pub fn prior(rotation: Rotation, mass: Mass, age: Years) -> Result<Strength, PriorRefusal> {
    if age.is_minor() {
        return Err(PriorRefusal::Minor(age));
    }
    if !(0.0 < mass.kilograms() && mass.kilograms() <= 300.0) {
        return Err(PriorRefusal::Mass(mass));
    }
    let torque = rotation.mean().newton_metres_per_kilogram() * mass.kilograms();
    Ok(Strength {
        torque: with_relative_sd(Torque::from_newton_metres(torque), SPREAD),
        from: Obtained::Estimated,
    })
}
