//! A record of predictions against what happened: were the 70 % ones right 70 % of the time?

use crate::lack::Lack;
use crate::level::Level;
use crate::numeric::{normal, sum};
use crate::rates::share::Share;

/// One prediction that was made beforehand, and what came.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// The chance that was said, 0 to 1.
    pub chance: f64,
    /// Whether it came true.
    pub came: bool,
}

/// Predictions of about the same chance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// Lower bound of the chances in it.
    pub from: f64,
    /// Upper bound.
    pub to: f64,
    /// Mean chance that was said.
    pub said: f64,
    /// How often it came, with limits.
    pub came: Share,
    /// Whether the limits hold what was said.
    pub agrees: bool,
}

/// The whole record.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Predictions.
    pub n: usize,
    /// Classes that hold any, from seldom to often.
    pub classes: Vec<Class>,
    /// Mean chance said.
    pub said: f64,
    /// Share that came.
    pub came: f64,
    /// Standard deviations that the number that came lies from what was said; beyond two, predictions were off as a
    /// whole.
    pub off: Option<f64>,
    /// Mean squared distance of chance from outcome: 0 is perfect, 0.25 is a coin.
    pub brier: f64,
    /// The same for somebody who always says the mean.
    pub brier_of_mean: f64,
}

/// Sorts predictions into `classes` of equal width.
pub fn record(told: &[Told], classes: usize, level: Level) -> Result<Record, Lack> {
    if told.is_empty() {
        return Err(Lack::Empty);
    }
    if classes == 0 {
        return Err(Lack::Setting { name: "classes" });
    }
    if told.iter().any(|one| !(0.0..=1.0).contains(&one.chance)) {
        return Err(Lack::Setting { name: "chance" });
    }
    let n = told.len() as f64;
    let width = 1.0 / classes as f64;
    let class_of = |chance: f64| ((chance / width) as usize).min(classes - 1);
    let mut found = Vec::new();
    for place in 0..classes {
        let mut chances: Vec<f64> =
            told.iter().map(|one| one.chance).filter(|&c| class_of(c) == place).collect();
        if chances.is_empty() {
            continue;
        }
        chances.sort_by(f64::total_cmp);
        let came = told.iter().filter(|one| class_of(one.chance) == place && one.came).count();
        let came = Share::new(came as u64, chances.len() as u64, level)?;
        let said = crate::numeric::mean(&chances);
        let agrees = came.wilson.holds(said);
        found.push(Class { from: place as f64 * width, to: (place + 1) as f64 * width, said, came, agrees });
    }
    let mut chances: Vec<f64> = told.iter().map(|one| one.chance).collect();
    chances.sort_by(f64::total_cmp);
    let said = crate::numeric::mean(&chances);
    let count = told.iter().filter(|one| one.came).count() as f64;
    let spread = sum(chances.iter().map(|chance| chance * (1.0 - chance))).sqrt();
    let mut squares: Vec<f64> =
        told.iter().map(|one| (one.chance - f64::from(u8::from(one.came))).powi(2)).collect();
    squares.sort_by(f64::total_cmp);
    let came = count / n;
    Ok(Record {
        n: told.len(),
        classes: found,
        said,
        came,
        off: (0.0 < spread).then(|| (count - said * n) / spread),
        brier: sum(squares) / n,
        brier_of_mean: came * (1.0 - came),
    })
}

impl Record {
    /// Two-sided p that the predictions were right as a whole.
    pub fn p(&self) -> Option<f64> {
        self.off.map(|off| 2.0 * normal::above(off.abs()))
    }
}
