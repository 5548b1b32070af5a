//! Screening and re-test: what is measured at which station, what follows from it, and what changed beyond error.
//!
//! Nothing here predicts an injury and nothing here adds findings up to a score; there is no place to put one. Every
//! value carries its rule and its inputs, and what is missing is named instead of guessed.
//!
//! - [`measure`]: the measures in station order, how often each is tried, who may do it.
//! - [`day`]: one swimmer's findings of one day, from however many stations.
//! - [`derived`]: arcs, ratios, torques and side differences, sides kept apart.
//! - [`fifth`]: the one finding that looks at the squad.
//! - [`error`] and [`change`]: measurement error, and the three words of a re-test.
//! - [`plan`]: how long a screening day takes, and which station holds it up.

pub mod change;
pub mod day;
pub mod derived;
pub mod error;
pub mod fifth;
pub mod measure;
pub mod plan;
