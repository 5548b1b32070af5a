//! What a squad's numbers can carry: measurement error, censored set times, rates, season models and charts, each
//! answer with its interval and, where there is none, with the name of the reason.
//!
//! Knows no swimmer, no protocol, no file and no clock: plain numbers come in, plain numbers go out, so that every
//! function can be checked against a paper by somebody who never saw the trade. It writes no sentences for people.
//!
//! In reading order:
//! - [`level`], [`lack`]: how sure an interval is, and why there may be no answer.
//! - [`reliability`]: how far a measurement can be trusted, and whether one person changed beyond its error.
//! - [`rates`]: counts over exposure, shares, and what one squad cannot show.
//! - [`survival`]: times of which some are only known to be longer.
//! - [`censored`]: the same with covariates and a spread between people; [`set_time`]: what it says of the next set.
//! - [`mixed`]: repeated measurements of many people.
//! - [`chart`]: one person's own line, and how often it speaks for nothing.
//!
//! Two rules hold everywhere. The order of rows and the unit of a column never change an answer. Data that cannot
//! carry an answer give a [`lack::Lack`], never a panic and never a number that is not one.
//!
//! Nothing here foresees an injury, and nothing may be used as if it did.

pub mod censored;
pub mod chart;
pub mod lack;
pub mod level;
pub mod mixed;
pub mod numeric;
pub mod rates;
pub mod reliability;
pub mod set_time;
pub mod survival;
