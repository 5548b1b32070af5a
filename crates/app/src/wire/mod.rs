//! Documented, versioned JSON shapes that other programs may rely on.
//!
//! - [`propose`]: one swimmer's history in.
//! - [`answer`]: availability, due list and proposals out.
//! - [`run`]: both in one call.

pub mod answer;
pub mod propose;
mod reading;
pub mod run;
pub mod shape;
