//! Past predictions against what came: for each fortnight of the last twelve weeks the model is fitted to what was
//! known before it, and says of every set the chance to reach its cap.
//!
//! Nothing of the fortnight itself is in the fit, so that the record is as honest as if the predictions had been
//! written down. A set of a line without any earlier set is not judged, nor one that ended for pain, by choice, kit or
//! a call, nor a cap that nobody saw.

use jiff::ToSpan;
use jiff::civil::Date;
use stats::lack::Lack;
use stats::level::Level;
use stats::set_time::calibration::{Record, Told, record as record_of};
use stats::set_time::next::{Coming, session};

use super::gather::{Fate, SetTime};
use super::model::fit;

/// Fortnights that are looked back on.
const FORTNIGHTS: i32 = 6;
/// Classes of chances.
const CLASSES: usize = 5;
/// Form losses before a fit is asked to foresee anything.
const LEAST_LOSSES: usize = 10;

/// The record of predictions up to a day.
pub fn record(sets: &[SetTime], on: Date) -> Result<Record, Lack> {
    let mut told = Vec::new();
    for back in (1..=FORTNIGHTS).rev() {
        let from = on.saturating_sub((14 * back).days());
        let to = from.saturating_add(14.days());
        let before: Vec<SetTime> = sets.iter().filter(|set| set.date < from).cloned().collect();
        if before.iter().filter(|set| set.fate == Fate::Lost).count() < LEAST_LOSSES {
            continue;
        }
        let Ok(model) = fit(&before) else { continue };
        for set in sets.iter().filter(|set| from <= set.date && set.date < to) {
            let came = match set.fate {
                Fate::Reached => true,
                Fate::Lost => false,
                Fate::Longer => continue,
            };
            if !model.own.contains_key(&set.line) {
                continue;
            }
            let coming = Coming { covariates: model.covariates(&set.explains), cap: set.cap };
            if let Ok(session) = session(&model.fit, model.own(&set.line), &[coming], Level::USUAL) {
                told.push(Told { chance: session.sets[0].chance, came });
            }
        }
    }
    if told.is_empty() {
        return Err(Lack::TooFew { of: "readings", found: 0, needed: 1 });
    }
    record_of(&told, CLASSES, Level::USUAL)
}
