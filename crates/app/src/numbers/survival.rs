//! How long form is held when some sets were only seen to reach their cap.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use stats::level::Level;
use stats::survival::{Curve, Limits, Timed, log_rank};

use super::columns::{ARM, CENSORED, EVENT, SEEN, TIME, Troubles, find, need};
use super::grid::Grid;
use super::{Answer, Block, cell, head, say, shown, shown_level, shown_p, shown_range, word};
use crate::error::AppError;

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// Level of intervals.
    pub level: Level,
    /// The column of times.
    pub time: Option<String>,
    /// The column that says whether the event came.
    pub event: Option<String>,
    /// The column of the arms that are compared.
    pub group: Option<String>,
    /// How limits are laid.
    pub limits: Limits,
    /// Up to which time the mean is taken; the longest time when left out.
    pub until: Option<f64>,
}

/// Times as read from a table, row by row.
pub(super) struct Times {
    pub(super) time_column: usize,
    pub(super) event_column: Option<usize>,
    pub(super) seen_column: Option<usize>,
    /// Time and whether it ended with the event; nothing where a cell is missing.
    pub(super) rows: Vec<Option<(f64, bool)>>,
    /// Rows with a gap.
    pub(super) gaps: usize,
    /// Caps that nobody saw: unknown, and left out.
    pub(super) unseen: usize,
}

/// Reads times and events. `positive` refuses times that are not above zero.
pub(super) fn times(
    grid: &Grid,
    time: Option<&str>,
    event: Option<&str>,
    positive: bool,
) -> Result<Times, AppError> {
    let time_column = need(grid, time, TIME, &[])?;
    let event_column = find(grid, event, EVENT, &[time_column])?;
    let (event_column, flipped) = match event_column {
        Some(column) => (column, false),
        None => match find(grid, None, CENSORED, &[time_column])? {
            Some(column) => (column, true),
            None => need(grid, event, EVENT, &[time_column]).map(|column| (column, false))?,
        },
    };
    let seen_column = find(grid, None, SEEN, &[time_column, event_column])?;
    let mut troubles = Troubles::default();
    let mut out = Times {
        time_column,
        event_column: Some(event_column),
        seen_column,
        rows: Vec::new(),
        gaps: 0,
        unseen: 0,
    };
    for row in 0..grid.rows.len() {
        let time = troubles.time(grid, row, time_column);
        if let Some(time) = time
            && ((positive && time <= 0.0) || time < 0.0)
        {
            troubles.add(grid, row, time_column, "numbers-not-positive");
        }
        let said = &grid.rows[row][event_column];
        // A column of words may say "none" for nothing; a gap is a gap.
        let event = match cell::yes(said) {
            Some(yes) => Some(yes != flipped),
            None if cell::read(said) == cell::Cell::Missing => None,
            None => {
                troubles.add(grid, row, event_column, "numbers-not-an-event");
                None
            }
        };
        // A set that ended for kit, pain or a call was seen to end, whoever looked for the cap.
        let seen = seen_column.is_none_or(|column| cell::yes(&grid.rows[row][column]) == Some(true))
            || cell::ended_otherwise(said);
        let found = match (time, event) {
            (Some(_), Some(false)) if !seen => {
                out.unseen += 1;
                None
            }
            (Some(time), Some(event)) => Some((time, event)),
            _ => {
                out.gaps += 1;
                None
            }
        };
        out.rows.push(found);
    }
    troubles.settle()?;
    Ok(out)
}

impl Times {
    /// Sentences on what was left out.
    pub(super) fn left_out_words(&self) -> String {
        let mut words = String::new();
        if 0 < self.gaps {
            words.push(' ');
            words.push_str(&say("numbers-left-out", &[("number", self.gaps.to_string())]));
        }
        if 0 < self.unseen {
            words.push(' ');
            words.push_str(&say("numbers-unseen", &[("number", self.unseen.to_string())]));
        }
        words
    }
}

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    let times = times(grid, options.time.as_deref(), options.event.as_deref(), false)?;
    let taken: Vec<usize> =
        [Some(times.time_column), times.event_column, times.seen_column].into_iter().flatten().collect();
    let group = find(grid, options.group.as_deref(), ARM, &taken)?;
    let mut arms: BTreeMap<String, Vec<Timed>> = BTreeMap::new();
    for (row, found) in times.rows.iter().enumerate() {
        if let Some((time, event)) = *found {
            let arm = group.map_or_else(String::new, |column| grid.rows[row][column].trim().to_owned());
            arms.entry(arm).or_default().push(Timed { time, event });
        }
    }
    let all: Vec<Timed> = arms.values().flatten().copied().collect();
    let counts = json!({
        "n": all.len(), "events": all.iter().filter(|timed| timed.event).count(),
        "censored": all.iter().filter(|timed| !timed.event).count(), "left_out": times.gaps, "unseen": times.unseen,
        "level": options.level.share(), "limits": limits_word(options.limits),
    });
    let curve = match Curve::of(&all, options.limits, options.level) {
        Ok(curve) => curve,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], counts)),
    };
    let mut fields = super::object(counts);
    fields.extend(super::object(curve_json(&curve, options)));
    let mut says = match curve.median() {
        Some(median) => say(
            "numbers-survival-says",
            &[
                ("n", curve.n.to_string()),
                ("events", curve.events.to_string()),
                ("median", shown(median)),
                ("low", curve.median_interval().0.map_or_else(|| word("numbers-no-lower-bound"), shown)),
                ("high", curve.median_interval().1.map_or_else(|| word("numbers-no-upper-bound"), shown)),
                ("level", shown_level(options.level)),
            ],
        ),
        None => say(
            "numbers-survival-no-median",
            &[("n", curve.n.to_string()), ("events", curve.events.to_string()), ("last", shown(curve.last))],
        ),
    };
    let mut blocks = Vec::new();
    if group.is_some() && 1 < arms.len() {
        let mut list = Vec::new();
        for (name, times) in &arms {
            if let Ok(curve) = Curve::of(times, options.limits, options.level) {
                let mut one = super::object(curve_json(&curve, options));
                one.insert("group".into(), json!(name));
                one.insert("n".into(), json!(curve.n));
                one.insert("events".into(), json!(curve.events));
                one.insert("censored".into(), json!(curve.n - curve.events));
                list.push(Value::Object(one));
                blocks.push(Block::Says(say(
                    "numbers-survival-arm",
                    &[
                        ("group", name.clone()),
                        ("n", curve.n.to_string()),
                        ("events", curve.events.to_string()),
                        ("median", curve.median().map_or_else(|| word("numbers-not-reached"), shown)),
                    ],
                )));
                blocks.push(Block::Table(table(&curve)));
            }
        }
        fields.insert("groups".into(), Value::Array(list));
        let names: Vec<&String> = arms.keys().collect();
        let each: Vec<Vec<Timed>> = arms.values().cloned().collect();
        match log_rank(&each) {
            Ok(found) => {
                let groups = names.iter().enumerate().map(|(place, name)| {
                    json!({"group": name, "observed": found.observed[place], "expected": found.expected[place]})
                });
                fields.insert("log_rank".into(), json!({
                    "chi_square": found.chi_square, "df": found.df, "p": found.p, "groups": groups.collect::<Value>(),
                }));
                says.push(' ');
                says.push_str(&say(
                    "numbers-log-rank-says",
                    &[
                        ("chi", shown(found.chi_square)),
                        ("df", found.df.to_string()),
                        ("p", shown_p(found.p)),
                    ],
                ));
            }
            Err(lack) => {
                fields.insert("log_rank".into(), json!({"reason": lack.word()}));
            }
        }
    } else {
        blocks.push(Block::Table(table(&curve)));
    }
    says.push_str(&times.left_out_words());
    fields.insert("converged".into(), Value::Bool(true));
    Ok(Answer::of(says, Value::Object(fields), blocks))
}

fn limits_word(limits: Limits) -> &'static str {
    match limits {
        Limits::Plain => "plain",
        Limits::Log => "log",
        Limits::LogLog => "log-log",
    }
}

fn curve_json(curve: &Curve, options: &Options) -> Value {
    let (low, high) = curve.median_interval();
    let steps = curve.steps.iter().map(|step| json!({
        "time": step.time, "at_risk": step.at_risk, "events": step.events, "survival": step.share, "se": step.se,
        "low": step.interval.map(|interval| interval.low), "high": step.interval.map(|interval| interval.high),
    }));
    let until = options.until.unwrap_or(curve.last);
    let mean = match curve.mean_until(until) {
        Ok((mean, se)) => json!({"until": until, "estimate": mean, "se": se}),
        Err(lack) => json!({"until": until, "reason": lack.word()}),
    };
    json!({
        "median": curve.median(), "median_low": low, "median_high": high, "restricted_mean": mean,
        "longest": curve.last, "curve": steps.collect::<Value>(),
    })
}

fn table(curve: &Curve) -> Vec<Vec<String>> {
    let mut rows = vec![head(&[
        "numbers-head-time",
        "numbers-head-at-risk",
        "numbers-head-events",
        "numbers-head-share",
        "numbers-head-range",
    ])];
    rows.extend(curve.steps.iter().map(|step| {
        vec![
            shown(step.time),
            step.at_risk.to_string(),
            step.events.to_string(),
            shown(step.share),
            step.interval.map_or_else(|| "-".to_owned(), shown_range),
        ]
    }));
    rows
}
