//! Times that are partly only known to be longer, explained by covariates and by a spread between people.
//!
//! The model: `y = x'b + u + s w`, where `y` is the logarithm of the time (the time itself for [`Family::Normal`]),
//! `w` has a known form, `u` is one normal value for each group (a swimmer, exercise and side) and a row is known
//! exactly or only on one side. The group's value is integrated out of the likelihood, group by group, on nodes laid
//! where that group's integrand is; fixed nodes are wrong on capped data.
//!
//! - [`sample`]: what goes in. [`family`]: the forms. [`mod@fit`]: the search and what comes out.
//!
//! Beside it stand standard errors that take the rows of a group together without modelling why.

pub mod family;
pub mod fit;
mod integral;
mod likelihood;
mod robust;
pub mod sample;
mod scale;

pub use family::Family;
pub use fit::{Fit, GroupSpread, Settled, fit};
pub use sample::{Known, Row, Sample};
