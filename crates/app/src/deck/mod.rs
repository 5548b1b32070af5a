//! A session on deck: what a device is given, what it sends back, and what that amounts to.
//!
//! A device works without a network. It gets a [`bag`], and sends [`entry`] after entry from its outbox; each is
//! stored as it came. [`fold`] reads the entries of a session as a set, so that loss, doubles and order cannot matter,
//! and [`settle`] turns what they amount to into the same facts that a session written down by hand makes.
//!
//! - [`budget`]: does a plan fit the minutes there are, and what else would.
//! - [`prior`]: how long a set may last, for whom to look at next.
//! - [`plan`]: preparing a session; the place of it.

pub mod bag;
pub mod budget;
pub mod entry;
pub mod fold;
pub mod plan;
pub mod prior;
pub mod settle;

/// Kind of device entries in the store.
pub const ENTRY: &str = "deck-entry";
