//! The trade itself, as pure functions: history and protocol in, availability and proposals out.
//!
//! Knows nothing of files, databases, sockets or the clock: the day asked about is always an argument.
//! It writes no sentences for people either, apart from the rule catalogue: a reason is a rule code, a
//! message name and its values, and the text catalogue turns that into words.
//!
//! In reading order:
//! - [`side`] and [`name`]: which shoulder, and the typed names of exercises, rungs and faults.
//! - [`protocol`]: the one versioned file that holds every number, read and refused with all its problems.
//! - [`history`]: what is on record about one swimmer.
//! - [`rule`] and [`trace`]: the rule catalogue, and how a verdict explains itself.
//! - [`gate`]: may this shoulder take part; nobody is cleared here.
//! - [`dosing`]: what the next session should be, and why.
//! - [`due`]: what must be closed by a recorded fact.
//! - [`screening`]: what a screening day measures, what follows from it, what a re-test changed.
//! - [`weekly`], [`load`], [`ask`]: the weekly check, the water, and whom to ask about what.

pub mod ask;
pub mod dosing;
pub mod due;
pub mod gate;
pub mod history;
pub mod load;
pub mod name;
pub mod protocol;
pub mod rule;
pub mod screening;
pub mod side;
pub mod trace;
pub mod weekly;

pub use jiff::civil::Date;
