//! Times of which some are only known to be longer: the share still going (Kaplan & Meier 1958), its limits, the
//! median, the mean up to a horizon, and the comparison of groups.
//!
//! The event is loss of form. A set that was seen to reach its cap lasted at least as long: it is censored, and a
//! curve that took it for an event would say the swimmer was weaker than he is.

mod curve;
mod rank;

pub use curve::{Curve, Limits, Step};
pub use rank::{Comparison, log_rank};

use crate::lack::Lack;

/// One time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timed {
    /// How long, in any unit; above zero.
    pub time: f64,
    /// Whether it ended with the event; otherwise it lasted at least so long.
    pub event: bool,
}

/// Times in order, events before censored ones of the same length.
pub(crate) fn in_order(times: &[Timed]) -> Result<Vec<Timed>, Lack> {
    if times.is_empty() {
        return Err(Lack::Empty);
    }
    if times.iter().any(|timed| !timed.time.is_finite()) {
        return Err(Lack::NotFinite);
    }
    if times.iter().any(|timed| timed.time < 0.0) {
        return Err(Lack::NotPositive);
    }
    let mut sorted = times.to_vec();
    sorted.sort_by(|one, other| one.time.total_cmp(&other.time).then(other.event.cmp(&one.event)));
    Ok(sorted)
}
