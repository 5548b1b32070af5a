//! Body, bands, torque, ladder and fatigue within one session, as pure functions whose answers carry their error.
//!
//! Knows no swimmer, no protocol, no file and no clock: lengths, forces and masses come in, quantities go out.
//! It writes no sentences for people; a refusal is a value with the numbers that led to it.
//!
//! In reading order:
//! - [`spread`]: a value together with its standard deviation.
//! - [`body`]: segment lengths and masses, and how each was obtained.
//! - [`figure`]: joint angles to joint positions; the body in the picture is the body in the sums.
//! - [`elastic`]: from a luggage scale to a force law, pieces cut from a roll, and when to withdraw one.
//! - [`strength`]: what a dynamometer reading says about the muscle, and what may be assumed without one.
//! - [`torque`]: what an exercise asks of the shoulder through its movement.
//! - [`ladder`]: rungs in even steps, none smaller than its error.
//! - [`endurance`] and [`fatigue`]: how long a load may last, and what rest gives back within a session.
//!
//! Nothing here may be used to say anything about recovery over hours, to clear a swimmer or to foresee pain.

pub mod body;
pub mod elastic;
pub mod endurance;
pub mod fatigue;
pub mod figure;
pub mod ladder;
mod numeric;
pub mod spread;
pub mod strength;
pub mod torque;

/// Standard acceleration of free fall, metres per second squared (ISO 80000-3, exact by definition).
pub(crate) const GRAVITY: f64 = 9.806_65;
