//! The building blocks of the pages. Each takes plain values and gives markup; none of them decides anything.
//!
//! - [`shoulder`]: availability by shape and word, the two shoulders of one swimmer on one line.
//! - [`why`]: reasons behind a verdict, and how strong their ground is.
//! - [`count`]: how far towards a step.
//! - [`proposal`]: what is proposed for one exercise and side.
//! - [`drawn`]: an exercise drawn, a plot with its table.
//! - [`due`]: what must be closed, by when and by whom.
//! - [`form`]: fields, choices, the decision form, search.
//! - [`table`]: tables with caption and scope, pages of a list.
//! - [`notice`]: outcomes, problems with hints, nothing to show.

pub mod ask;
pub mod count;
pub mod drawn;
pub mod due;
pub mod form;
pub mod notice;
pub mod proposal;
pub mod shoulder;
pub mod table;
pub mod why;
