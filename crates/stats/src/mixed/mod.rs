//! Repeated measurements of many people: a linear model with a value, and if wanted a slope, of each group's own.
//!
//! `y = x'b + a_g + c_g z + e`, with (a, c) normal between groups and e normal within. Fitted by maximum likelihood or
//! by its restricted form, as Bates et al. 2015 (J Stat Softw 67:1): coefficients and residual variance are profiled
//! out, and the search runs over the factor of the relative covariance only. Criteria of the restricted form may not be
//! compared between models with other covariates.
//!
//! - [`sample`]: what goes in. [`mod@fit`]: the search and what comes out.

mod criterion;
pub mod fit;
pub mod sample;

pub use fit::{Method, MixedFit, fit};
pub use sample::{Measured, MixedSample};
