//! What a person may ask of their own data: that a consent ends, that they get everything, that it is erased; and for
//! how long a club keeps what nobody asks about.
//!
//! - [`consent`]: withdrawal, which acts the same day.
//! - [`archive`]: one person's whole record, to read and to keep.
//! - [`erase`]: erasing one person, as an act of its own.
//! - [`retention`]: whom to erase or to ask about; a proposal, never an act.

pub mod archive;
pub mod consent;
pub mod erase;
mod page;
pub mod retention;

pub use archive::Archive;
pub use erase::{Erased, Ground};
pub use retention::{Overdue, Retention};
