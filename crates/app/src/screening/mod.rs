//! A screening day and what comes of it, in the practitioner's terms.
//!
//! - [`cell`]: what a person types into one box of the grid.
//! - [`row`]: one swimmer at one station, from boxes to facts.
//! - [`save`]: a row into the record: new, unchanged, or a correction that loses nothing.
//! - [`sheet`]: one swimmer's values, what follows from them, and flags with their ground.
//! - [`retest`]: previous and present, with the error used.
//! - [`trial`]: the club's own trial of a test.

pub mod cell;
pub mod retest;
pub mod row;
pub mod save;
pub mod sheet;
pub mod trial;
