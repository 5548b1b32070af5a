//! The model of the club's set times: log-normal, caps censored, a value of each line's own.

use std::collections::BTreeMap;

use stats::censored::fit::GroupValue;
use stats::censored::{Family, Fit, Known, Row, Sample};
use stats::lack::Lack;
use stats::set_time::next::{Own, unknown};

use super::gather::{Explains, Fate, LineKey, SetTime};

/// What may explain a set's time, by the name of its sentence.
pub const COLUMNS: [&str; 5] = [
    "set-times-by-set",
    "set-times-by-rest",
    "set-times-by-level",
    "set-times-by-weeks",
    "set-times-by-rested",
];

/// A fitted model.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// The fit.
    pub fit: Fit,
    /// Places in [`COLUMNS`] of the columns it uses, in order.
    pub columns: Vec<usize>,
    /// Places of columns that these data tell nothing of.
    pub dropped: Vec<usize>,
    /// Each line's own value.
    pub own: BTreeMap<LineKey, GroupValue>,
}

impl Model {
    /// Values of the columns in use.
    pub fn covariates(&self, explains: &Explains) -> Vec<f64> {
        let row = explains.row();
        self.columns.iter().map(|&place| row[place]).collect()
    }

    /// What is known of a line: its own value, or the spread of all where it has none yet.
    pub fn own(&self, line: &LineKey) -> Own {
        self.own.get(line).map_or_else(|| unknown(&self.fit), |value| Own { mean: value.mean, sd: value.sd })
    }
}

/// Fits the model. A column that these data tell nothing of is left out, and named.
pub fn fit(sets: &[SetTime]) -> Result<Model, Lack> {
    let mut numbers: BTreeMap<&LineKey, u32> = BTreeMap::new();
    for set in sets {
        let next = u32::try_from(numbers.len()).unwrap_or(u32::MAX);
        numbers.entry(&set.line).or_insert(next);
    }
    let mut columns: Vec<usize> = (0..COLUMNS.len()).collect();
    let mut dropped = Vec::new();
    loop {
        let rows = sets.iter().map(|set| {
            let values = set.explains.row();
            Row {
                time: set.seconds,
                known: if set.fate == Fate::Lost { Known::Exactly } else { Known::AtLeast },
                covariates: columns.iter().map(|&place| values[place]).collect(),
                group: numbers[&set.line],
            }
        });
        let sample = Sample::new(rows.collect(), Family::LogNormal)?;
        match stats::censored::fit(&sample, Family::LogNormal, true) {
            Ok(fit) => {
                let values = fit.between.as_ref().map_or(&[][..], |between| &between.values);
                let by_number: BTreeMap<u32, GroupValue> =
                    values.iter().map(|value| (value.group, *value)).collect();
                let own = numbers
                    .iter()
                    .filter_map(|(line, number)| by_number.get(number).map(|value| ((*line).clone(), *value)))
                    .collect();
                return Ok(Model { fit, columns, dropped, own });
            }
            Err(Lack::Collinear { column } | Lack::RunsAway { column }) if column < columns.len() => {
                dropped.push(columns.remove(column));
            }
            Err(lack) => return Err(lack),
        }
    }
}
