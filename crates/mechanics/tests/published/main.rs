//! What is computed, against published data and independently worked values in `references/`.
//!
//! Each check is looked up by its id; its values, tolerance and source stand in the folder of its source. A last test
//! fails when a value in `references/` is compared by nothing.

mod references;

mod bands;
mod body;
mod endurance;
mod fatigue;
mod geometry;
mod push_up;
mod statics;
