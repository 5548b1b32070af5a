//! The club's set times as one model: what to expect of each line next time, and whether such words were right before.
//!
//! A set that somebody saw reach its cap lasted at least so long; so did one that ended for kit or because the swimmer
//! was called away. Pain and "chose to stop" are treated the same and counted, because they may be informative. A cap
//! that nobody saw is unknown and left out: taken for a cap that was reached it would make the squad stronger than it is.
//!
//! - [`mod@gather`]: sets from the record. [`model`]: the fit. [`next`]: expectations. [`told`]: the record of past ones.

pub mod gather;
pub mod model;
pub mod next;
pub mod told;

use jiff::civil::Date;
use stats::lack::Lack;
use stats::set_time::calibration::Record;

use crate::desk::Desk;
use gather::{Counts, gather};
use model::Model;
use next::Next;

/// Everything the pages show.
#[derive(Debug, Clone, PartialEq)]
pub struct SetTimes {
    /// What the model rests on.
    pub counts: Counts,
    /// The model, or why there is none.
    pub model: Result<Model, Lack>,
    /// What to expect of each line, by swimmer, exercise and side.
    pub next: Vec<Next>,
    /// How far predictions made in the last weeks were right, or why that cannot be said.
    pub record: Result<Record, Lack>,
}

/// Fits the club's set times up to a day, that day excluded, and looks ahead to it.
pub fn set_times(desk: &Desk, on: Date) -> SetTimes {
    let gathered = gather(desk.protocol(), desk.people(), on);
    let model = model::fit(&gathered.rows);
    let next = model.as_ref().map_or_else(|_| Vec::new(), |model| next::next(desk, on, &gathered, model));
    let record = told::record(&gathered.rows, on);
    SetTimes { counts: gathered.counts, model, next, record }
}
