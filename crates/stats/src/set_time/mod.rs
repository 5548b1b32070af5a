//! What fitted set times say of the next session, of the set that runs, and how far such words were right before.
//!
//! - [`next`]: expectation for a swimmer's next sets, and the chance that all of them reach their caps.
//! - [`watch`]: the chance of form loss within the next seconds, for the eyes on deck.
//! - [`calibration`]: whether predictions of 70 % came true in 70 of 100.
//!
//! None of it says anything about injury: it is about holding form in a set.

pub mod calibration;
pub mod next;
pub mod watch;
