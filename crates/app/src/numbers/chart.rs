//! A line of readings as a cumulative sum that starts itself, or against a known level.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use stats::chart::baseline;
use stats::chart::known::cumulative;
use stats::chart::run_length::limit_for;
use stats::chart::self_start::{Rules, line};
use stats::chart::squad::FalseAlarms;

use super::cell::{self, Cell};
use super::columns::{ORDER, SERIES, Troubles, VALUE, find, need};
use super::grid::Grid;
use super::{Answer, Block, head, say, shown, word};
use crate::error::{AppError, ErrorKind};

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// The column of readings.
    pub value: Option<String>,
    /// The column of series.
    pub series: Option<String>,
    /// The column that puts readings in order.
    pub order: Option<String>,
    /// Slack, in standard deviations.
    pub k: f64,
    /// Limit, in standard deviations; from the run length when left out.
    pub h: Option<f64>,
    /// Average readings to a false alarm, where no limit is given.
    pub run_length: f64,
    /// A known level.
    pub target: Option<f64>,
    /// A known spread.
    pub sigma: Option<f64>,
    /// Largest value that one reading may add.
    pub winsorise: Option<f64>,
    /// Learning stops while a signal is open.
    pub freeze: bool,
    /// Readings before the chart speaks.
    pub learning: usize,
    /// Readings in a season, for the false-alarm rate.
    pub season: usize,
}

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    // The only column there is holds the readings, whatever it is called.
    let value = match (&options.value, grid.heads.len()) {
        (None, 1) => 0,
        (named, _) => need(grid, named.as_deref(), VALUE, &[])?,
    };
    let series = find(grid, options.series.as_deref(), SERIES, &[value])?;
    let mut taken = vec![value];
    taken.extend(series);
    let order = find(grid, options.order.as_deref(), ORDER, &taken)?;
    let lines = lines(grid, value, series, order)?;
    let h = match options.h {
        Some(h) => Ok(h),
        None => limit_for(options.k, options.run_length),
    };
    let counts = json!({
        "series_count": lines.len(), "n": lines.values().map(Vec::len).sum::<usize>(), "k": options.k,
        "order_column": order.map(|column| grid.heads[column].clone()),
    });
    let h = match h {
        Ok(h) => h,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], counts)),
    };
    let mut fields = super::object(counts);
    fields.insert("h".into(), json!(h));
    fields.insert("method".into(), json!(if options.target.is_some() { "known" } else { "self-starting" }));
    let mut list = Vec::new();
    let (mut speaking, mut quiet) = (Vec::new(), 0);
    let mut table = vec![head(&[
        "numbers-head-series",
        "numbers-head-readings",
        "numbers-head-signal",
        "numbers-head-before",
        "numbers-head-since",
    ])];
    for (name, values) in &lines {
        let found = match (options.target, options.sigma) {
            (Some(target), Some(sigma)) => against_known(values, target, sigma, options.k, h),
            (None, None) => starting_itself(values, options, h),
            _ => {
                return Err(AppError::new(ErrorKind::Input, "numbers-target-and-sigma")
                    .hint("numbers-target-and-sigma-hint"));
            }
        };
        let (mut one, row) = match found {
            Ok(found) => found,
            Err(lack) if lines.len() == 1 => return Ok(Answer::lacking(&lack, &[], Value::Object(fields))),
            Err(lack) => (super::object(json!({"reason": lack.word(), "first_signal": null})), None),
        };
        one.insert("series".into(), json!(name));
        one.insert("n".into(), json!(values.len()));
        match row {
            Some((signal, before, since)) => {
                speaking.push(name.clone());
                table.push(vec![name.clone(), values.len().to_string(), signal, before, since]);
            }
            None => {
                quiet += 1;
                let dash = || "-".to_owned();
                table.push(vec![
                    name.clone(),
                    values.len().to_string(),
                    word("numbers-chart-quiet"),
                    dash(),
                    dash(),
                ]);
            }
        }
        list.push(Value::Object(one));
    }
    if lines.is_empty() {
        return Ok(Answer::lacking(&stats::lack::Lack::Empty, &[], Value::Object(fields)));
    }
    fields.insert("series".into(), Value::Array(list));
    let mut says = if speaking.is_empty() {
        say("numbers-chart-none", &[("number", quiet.to_string())])
    } else {
        say("numbers-chart-some", &[("number", speaking.len().to_string()), ("of", lines.len().to_string())])
    };
    match FalseAlarms::of(lines.len(), options.season, options.k, h) {
        Ok(alarms) => {
            fields.insert("false_alarms".into(), json!({
                "series": alarms.series, "readings": alarms.readings, "run_length": alarms.run_length,
                "chance_each": alarms.chance_each, "expected": alarms.expected, "chance_any": alarms.chance_any,
                "per_round": alarms.per_round,
            }));
            says.push(' ');
            says.push_str(&say(
                "numbers-chart-false",
                &[
                    ("series", alarms.series.to_string()),
                    ("readings", alarms.readings.to_string()),
                    ("expected", shown(alarms.expected)),
                    ("percent", shown(100.0 * alarms.chance_any)),
                ],
            ));
        }
        Err(lack) => return Ok(Answer::lacking(&lack, &[], Value::Object(fields))),
    }
    fields.insert("converged".into(), Value::Bool(true));
    Ok(Answer::of(says, Value::Object(fields), vec![Block::Table(table)]))
}

/// Readings of each series in their order; gaps are left out.
fn lines(
    grid: &Grid,
    value: usize,
    series: Option<usize>,
    order: Option<usize>,
) -> Result<BTreeMap<String, Vec<f64>>, AppError> {
    let mut troubles = Troubles::default();
    let mut found: BTreeMap<String, Vec<(Place, f64)>> = BTreeMap::new();
    for (row, cells) in grid.rows.iter().enumerate() {
        let Some(reading) = troubles.number(grid, row, value) else { continue };
        let name = series.map_or_else(String::new, |column| cells[column].trim().to_owned());
        let place = order.map_or(Place::Row(row), |column| match cell::read(&cells[column]) {
            Cell::Number(number) => Place::Number(number),
            _ => Place::Word(cells[column].trim().to_owned()),
        });
        found.entry(name).or_default().push((place, reading));
    }
    troubles.settle()?;
    Ok(found
        .into_iter()
        .map(|(name, mut readings)| {
            readings.sort_by(|one, other| one.0.order(&other.0));
            (name, readings.into_iter().map(|(_, reading)| reading).collect())
        })
        .collect())
}

/// Where a reading stands in its line.
enum Place {
    Row(usize),
    Number(f64),
    Word(String),
}

impl Place {
    fn order(&self, other: &Place) -> std::cmp::Ordering {
        match (self, other) {
            (Place::Number(one), Place::Number(other)) => one.total_cmp(other),
            (Place::Word(one), Place::Word(other)) => one.cmp(other),
            (Place::Row(one), Place::Row(other)) => one.cmp(other),
            (Place::Number(_), _) => std::cmp::Ordering::Less,
            (_, Place::Number(_)) => std::cmp::Ordering::Greater,
            _ => std::cmp::Ordering::Equal,
        }
    }
}

/// What is found on one line: its fields, and what stands in the table where it speaks.
type Found = (serde_json::Map<String, Value>, Option<(String, String, String)>);

fn signal_words(at: usize, direction: stats::chart::Direction, since: usize) -> String {
    let name = match direction {
        stats::chart::Direction::Up => "numbers-chart-up",
        stats::chart::Direction::Down => "numbers-chart-down",
    };
    say(name, &[("at", at.to_string()), ("since", since.to_string())])
}

fn starting_itself(values: &[f64], options: &Options, h: f64) -> Result<Found, stats::lack::Lack> {
    let rules = Rules {
        k: options.k,
        h,
        winsorise: options.winsorise,
        freeze: options.freeze,
        learning: options.learning,
    };
    let found = line(values, rules)?;
    let points = found.points.iter().map(|point| json!({
        "n": point.n, "value": point.value, "mean_before": point.mean_before, "sd_before": point.sd_before,
        "t": point.t, "u": point.u, "c_plus": point.sums.plus, "c_minus": point.sums.minus,
        "n_plus": point.sums.n_plus, "n_minus": point.sums.n_minus,
        "signal": point.signal.map(stats::chart::Direction::word),
    }));
    let first = found.first.map(|signal| json!({
        "at": signal.at, "direction": signal.direction.word(), "change_after": signal.since, "level": signal.level,
        "before": signal.before,
    }));
    let start = baseline::of(values).ok();
    let fields = json!({
        "learning": found.learning, "first_signal": first, "signal_open": found.open,
        "neighbour_correlation": start.and_then(|start| start.neighbour_correlation),
        "points": points.collect::<Value>(),
    });
    let row = found.first.map(|signal| {
        (signal_words(signal.at, signal.direction, signal.since), shown(signal.before), shown(signal.level))
    });
    Ok((super::object(fields), row))
}

fn against_known(
    values: &[f64],
    target: f64,
    sigma: f64,
    k: f64,
    h: f64,
) -> Result<Found, stats::lack::Lack> {
    if sigma.is_nan() || sigma <= 0.0 {
        return Err(stats::lack::Lack::Setting { name: "sigma" });
    }
    let found = cumulative(values, target, k * sigma, h * sigma)?;
    let points = values.iter().zip(&found.sums).enumerate().map(|(place, (value, sums))| {
        json!({
            "n": place + 1, "value": value, "c_plus": sums.plus, "c_minus": sums.minus, "n_plus": sums.n_plus,
            "n_minus": sums.n_minus, "signal": sums.signal(h * sigma).map(|(direction, _)| direction.word()),
        })
    });
    let first = found.first.map(|(at, direction, since)| json!({
        "at": at, "direction": direction.word(), "change_after": since, "level": found.new_level, "before": target,
    }));
    let fields = json!({
        "learning": false, "first_signal": first, "target": target, "sigma": sigma, "points": points.collect::<Value>(),
        "signal_open": found.sums.last().is_some_and(|sums| sums.signal(h * sigma).is_some()),
    });
    let row = found.first.map(|(at, direction, since)| {
        (
            signal_words(at, direction, since),
            shown(target),
            found.new_level.map_or_else(|| "-".to_owned(), shown),
        )
    });
    Ok((super::object(fields), row))
}
