//! Counts over exposure, shares of people, and what one squad cannot show.
//!
//! - [`count`]: limits of a count, exact, mid-P and approximate; a rate per 1000 hours or kilometres.
//! - [`ratio`]: two rates against each other, by the conditional distribution.
//! - [`share`]: prevalence and other proportions.
//! - [`power`]: how seldom a season could show a change, for the honest sentence beside every ratio.
//!
//! All of it takes problems as independent. Several of one swimmer are not: then limits are too narrow.

pub mod count;
pub mod power;
pub mod ratio;
pub mod share;
