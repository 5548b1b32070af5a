//! Units and bounded numbers. Depends on nothing; knows no swimmer.
//!
//! - [`physical`]: mass, force, length, angle, torque, time held and their like, each a type with one canonical unit.
//! - [`score`]: the two spoken 0-10 numbers of the trade, pain and effort.
//! - [`range`]: one table of what a measured value may be, which feeds validation, form hints and error text.
//! - [`unit`] and [`reading`]: a number as a person typed it, with its unit.
//!

pub mod physical;
pub mod range;
pub mod reading;
pub mod score;
pub mod unit;

pub use physical::{
    Angle, AngularAcceleration, AngularImpulse, Energy, Force, HoldTime, Inertia, Length, Mass, Share,
    SpecificTorque, Stiffness, Temperature, Time, Torque,
};
pub use range::{Judgement, Range};
pub use score::{Effort, Pain};
