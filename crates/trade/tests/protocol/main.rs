//! The protocol file and its reader.

mod catalogue;
mod fixed_limits;
mod never_panics;
mod problems;
mod shipped;
