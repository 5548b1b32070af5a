//! A session on deck: what a device is given, what it sends back, and what that amounts to.
//!
//! A device works without a network. It gets a [`bag`] (its fields in [`shape`]), and sends [`entry`] after entry from its outbox; each is
//! stored as it came. [`fold`] reads the entries of a session as a set, so that loss, doubles and order cannot matter,
//! and [`settle`] turns what they amount to into the same facts that a session written down by hand makes.
//!
//! - [`budget`]: does a plan fit the minutes there are, and what else would.
//! - [`prior`]: how long a set may last, for whom to look at next.
//! - [`plan`]: preparing a session; the place of it.
//! - [`home`]: a page for one swimmer that needs no server, and the code that comes back.
//! - [`track`]: the tones of a whole session as sound.

pub mod bag;
pub mod budget;
pub mod entry;
pub mod fold;
pub mod home;
pub mod plan;
pub mod prior;
pub mod settle;
pub mod shape;
pub mod track;

/// Kind of device entries in the store.
pub const ENTRY: &str = "deck-entry";
