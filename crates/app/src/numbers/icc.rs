//! Reliability of a measurement: people by raters or trials, wide or long.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};
use stats::level::Level;
use stats::reliability::Trial;
use stats::reliability::agreement::Agreement;
use stats::reliability::error::{MeasurementError, detectable_change};
use stats::reliability::icc::{self, Form};

use super::columns::{RATER, SUBJECT, Troubles, VALUE, find, is_counter};
use super::grid::Grid;
use super::{Answer, Block, head, say, shown, shown_level, shown_p, shown_range};
use crate::error::{AppError, ErrorKind};

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// Level of intervals.
    pub level: Level,
    /// The column of those who were rated.
    pub subject: Option<String>,
    /// The column of raters or trials, in a long table.
    pub rater: Option<String>,
    /// The column of values, in a long table.
    pub value: Option<String>,
    /// Columns that are not ratings.
    pub ignore: Vec<String>,
}

/// People by raters, with names, and how many people were left out for a gap.
struct Read {
    rows: Vec<Vec<f64>>,
    raters: Vec<String>,
    left_out: usize,
    layout: &'static str,
}

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    let read = read(grid, options)?;
    let level = options.level;
    let counts = json!({
        "n": read.rows.len(), "k": read.raters.len(), "left_out": read.left_out, "layout": read.layout,
        "raters": read.raters, "level": level.share(),
    });
    let trial = match Trial::new(read.rows.clone()) {
        Ok(trial) => trial,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], counts)),
    };
    let squares = trial.squares();
    let (absolute, typical) = (MeasurementError::absolute(&trial), MeasurementError::typical(&trial));
    let mut fields = super::object(counts);
    fields.insert("mean_squares".into(), json!({
        "between": squares.people, "raters": squares.raters, "residual": squares.residual, "within": squares.within,
    }));
    let found = match icc::all(&trial, level) {
        Ok(found) => found,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], Value::Object(fields))),
    };
    let forms = found.iter().map(|icc| json!({
        "form": icc.form.name(), "other_name": icc.form.other_name(), "estimate": icc.estimate,
        "low": icc.interval.low, "high": icc.interval.high, "f": icc.f, "df1": icc.df1, "df2": icc.df2, "p": icc.p,
    }));
    fields.insert("icc".into(), forms.collect());
    let parts = icc::components(&trial);
    fields.insert(
        "variance".into(),
        json!({"people": parts.people, "raters": parts.raters, "residual": parts.residual}),
    );
    let error = |error: &MeasurementError| {
        let range = error.interval(level);
        json!({"estimate": error.sem, "low": range.low, "high": range.high, "df": error.df})
    };
    fields.insert("sem".into(), json!({"agreement": error(&absolute), "consistency": error(&typical)}));
    let change = |sem: f64| {
        json!({
            "mdc95": detectable_change(sem, Level::USUAL), "mdc90": detectable_change(sem, Level::NINETY),
            "mdc": detectable_change(sem, level),
        })
    };
    fields
        .insert("mdc".into(), json!({"agreement": change(absolute.sem), "consistency": change(typical.sem)}));
    fields.insert("limits_of_agreement".into(), agreements(&read, level));
    fields.insert("converged".into(), Value::Bool(true));

    let two = found.iter().find(|icc| icc.form == Form::Agreement).unwrap_or(&found[0]);
    let mut says = say(
        "numbers-icc-says",
        &[
            ("people", trial.people().to_string()),
            ("trials", trial.trials().to_string()),
            ("icc", shown(two.estimate)),
            ("range", shown_range(two.interval)),
            ("sem", shown(absolute.sem)),
            ("mdc", shown(detectable_change(absolute.sem, Level::USUAL))),
            ("level", shown_level(level)),
        ],
    );
    if trial.people() < 20 {
        says.push(' ');
        says.push_str(&super::word("numbers-icc-small"));
    }
    if 0 < read.left_out {
        says.push(' ');
        says.push_str(&say("numbers-left-out", &[("number", read.left_out.to_string())]));
    }
    let mut table =
        vec![head(&["numbers-head-form", "numbers-head-estimate", "numbers-head-range", "numbers-head-p"])];
    for icc in &found {
        table.push(vec![
            format!("{} = {}", icc.form.name(), icc.form.other_name()),
            shown(icc.estimate),
            shown_range(icc.interval),
            shown_p(icc.p),
        ]);
    }
    Ok(Answer::of(says, Value::Object(fields), vec![Block::Table(table)]))
}

/// Limits of agreement of each pair of raters.
fn agreements(read: &Read, level: Level) -> Value {
    let column = |place: usize| -> Vec<f64> { read.rows.iter().map(|row| row[place]).collect() };
    let mut pairs = Vec::new();
    for first in 0..read.raters.len() {
        for second in first + 1..read.raters.len() {
            if let Ok(found) = Agreement::of(&column(first), &column(second), level.z(), level) {
                pairs.push(json!({
                    "first": read.raters[first], "second": read.raters[second], "n": found.n, "mean": found.mean,
                    "sd": found.sd, "low": found.limits.low, "high": found.limits.high, "se_mean": found.se_mean,
                    "mean_low": found.mean_interval.low, "mean_high": found.mean_interval.high,
                    "se_limit": found.se_limit,
                    "low_low": found.low_interval.low, "low_high": found.low_interval.high,
                    "high_low": found.high_interval.low, "high_high": found.high_interval.high,
                    "correlation_of_size": found.growth,
                }));
            }
        }
    }
    Value::Array(pairs)
}

fn read(grid: &Grid, options: &Options) -> Result<Read, AppError> {
    let subject = find(grid, options.subject.as_deref(), SUBJECT, &[])?;
    let taken: Vec<usize> = subject.into_iter().collect();
    let value = find(grid, options.value.as_deref(), VALUE, &taken)?;
    let taken: Vec<usize> = subject.into_iter().chain(value).collect();
    let rater = find(grid, options.rater.as_deref(), RATER, &taken)?;
    match (subject, rater, value) {
        (Some(subject), Some(rater), Some(value)) => long(grid, subject, rater, value),
        _ if options.rater.is_some() || options.value.is_some() => {
            Err(AppError::new(ErrorKind::Input, "numbers-long-needs").hint("numbers-no-column-hint"))
        }
        _ => wide(grid, subject, options),
    }
}

fn long(grid: &Grid, subject: usize, rater: usize, value: usize) -> Result<Read, AppError> {
    let mut troubles = Troubles::default();
    let (mut people, mut raters): (BTreeMap<String, BTreeMap<String, f64>>, BTreeSet<String>) =
        Default::default();
    for row in 0..grid.rows.len() {
        let name = |column: usize| grid.rows[row][column].trim().to_owned();
        let (who, by) = (name(subject), name(rater));
        if who.is_empty() || by.is_empty() {
            troubles.add(grid, row, if who.is_empty() { subject } else { rater }, "numbers-no-name");
            continue;
        }
        raters.insert(by.clone());
        let ratings = people.entry(who).or_default();
        if let Some(found) = troubles.number(grid, row, value)
            && ratings.insert(by, found).is_some()
        {
            troubles.add(grid, row, rater, "numbers-rated-twice");
        }
    }
    troubles.settle()?;
    let whole = |ratings: &BTreeMap<String, f64>| ratings.len() == raters.len();
    let rows: Vec<Vec<f64>> = people
        .values()
        .filter(|ratings| whole(ratings))
        .map(|ratings| ratings.values().copied().collect())
        .collect();
    let left_out = people.len() - rows.len();
    Ok(Read { rows, raters: raters.into_iter().collect(), left_out, layout: "long" })
}

fn wide(grid: &Grid, subject: Option<usize>, options: &Options) -> Result<Read, AppError> {
    let mut troubles = Troubles::default();
    let ignore =
        options.ignore.iter().map(|name| find(grid, Some(name), &[], &[]).map(|place| place.unwrap_or(0)));
    let ignore = ignore.collect::<Result<Vec<_>, _>>()?;
    // A first column of words is the people's names, whatever it is called.
    let words = |column: usize| {
        !grid.rows.is_empty()
            && grid
                .rows
                .iter()
                .all(|row| matches!(super::cell::read(&row[column]), super::cell::Cell::Text(_)))
    };
    let subject = subject.or((!grid.heads.is_empty() && words(0)).then_some(0));
    let columns: Vec<usize> = (0..grid.heads.len())
        .filter(|column| {
            Some(*column) != subject && !ignore.contains(column) && !is_counter(&grid.heads[*column])
        })
        .collect();
    let mut rows = Vec::new();
    for row in 0..grid.rows.len() {
        let ratings: Vec<Option<f64>> =
            columns.iter().map(|&column| troubles.number(grid, row, column)).collect();
        rows.push(ratings.into_iter().collect::<Option<Vec<f64>>>());
    }
    troubles.settle()?;
    let people = rows.len();
    let rows: Vec<Vec<f64>> = rows.into_iter().flatten().collect();
    let left_out = people - rows.len();
    let raters = columns.iter().map(|&column| grid.heads[column].clone()).collect();
    Ok(Read { rows, raters, left_out, layout: "wide" })
}
