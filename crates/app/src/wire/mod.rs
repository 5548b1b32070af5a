//! Documented, versioned JSON shapes that other programs may rely on.
//!
//! - [`propose`]: one swimmer's history in.
//! - [`answer`]: availability, due list and proposals out.

pub mod answer;
pub mod propose;
