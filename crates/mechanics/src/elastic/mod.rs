//! Elastic resistance: from a luggage scale and a tape to a force law with its error, and when to withdraw a piece.
//!
//! A band is known by its measured force, never by a grade. Valid for rubber bands and tubing pulled slowly after ten
//! conditioning pulls, at the temperature of the calibration; unloading forces are lower than loading ones.

mod calibration;
mod fit;
mod law;
mod least_squares;
mod piece;
mod warmth;
mod wear;

pub use calibration::{Reading, Refusal, ScaleError};
pub use fit::{Fit, Prediction, Reach, fit, fit_one_term};
pub use law::{Law, Stretch};
pub use piece::{NotUsable, Piece, PieceRefusal, STRETCH_LIMIT, Strands};
pub use warmth::stiffening;
pub use wear::{Drift, Finding, Inspection, Service, Unknown, WearRule, WearVerdict, drift, wear};
