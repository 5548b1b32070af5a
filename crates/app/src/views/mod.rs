//! Read-only views of the desk: what a page or a command lists, worked out once and without any markup.
//!
//! - [`board`]: the day: emergencies, what must be closed, how many shoulders may do what.
//! - [`people`]: the swimmers that fit a search, and the weightiest reason of each shoulder.
//! - [`kit`]: when each piece must be looked at.
//! - [`bands`]: what each band was measured to pull, and whether it may stay in use.
//! - [`loads`]: what the club's kit asks of one swimmer, from the scale to the seconds.
//! - [`ground`]: how much of the protocol stands on what.

pub mod bands;
pub mod board;
pub mod ground;
pub mod kit;
pub mod loads;
pub mod people;
