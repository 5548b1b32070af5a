//! Set times, season and signals from a record: what is left out, what is hidden, what speaks, and that the order of
//! facts does not matter.

#![allow(clippy::unwrap_used, reason = "helpers of tests stop where a test would")]

mod build;
mod set_times;
mod signals;
mod year;
