//! Statistics of a plain table, for a club's own trials and for checking this tool from outside.
//!
//! Needs no store. A table comes in (CSV with comma, semicolon or tab, or a workbook), columns are found by what they
//! are called, and an answer comes out: a JSON value of a documented shape, and the same in words. Data that carry no
//! answer are answered too, with the reason.
//!
//! - [`grid`], [`columns`], [`cell`]: reading generously, and never guessing in silence.
//! - [`Answer`]: what every question is answered with.
//! - one module a question.

pub mod cell;
pub mod censored;
pub mod chart;
pub mod columns;
pub mod covariates;
pub mod grid;
pub mod icc;
pub mod mixed;
pub mod rate;
pub mod survival;

use serde_json::{Map, Value, json};
use stats::lack::Lack;
use stats::level::{Interval, Level};

use crate::text::Texts;

/// One part of an answer in words.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A sentence or more.
    Says(String),
    /// A table, its head first.
    Table(Vec<Vec<String>>),
}

/// An answer: the same for programs and for people.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// For programs; without the name of its shape, which the command adds.
    pub json: Map<String, Value>,
    /// For people.
    pub blocks: Vec<Block>,
    /// Whether there is an answer; otherwise a reason stands in its place.
    pub answered: bool,
}

impl Answer {
    /// An answer with its plain sentence first.
    fn of(says: String, fields: Value, mut tables: Vec<Block>) -> Answer {
        let mut json = Map::new();
        json.insert("says".to_owned(), Value::String(says.clone()));
        json.insert("answered".to_owned(), Value::Bool(true));
        json.extend(object(fields));
        tables.insert(0, Block::Says(says));
        Answer { json, blocks: tables, answered: true }
    }

    /// No answer, and why. `names` are the covariates, so that one can be named.
    fn lacking(lack: &Lack, names: &[String], fields: Value) -> Answer {
        let says = lack_words(lack, names);
        let mut json = Map::new();
        json.insert("says".to_owned(), Value::String(says.clone()));
        json.insert("answered".to_owned(), Value::Bool(false));
        json.insert("reason".to_owned(), Value::String(lack.word().to_owned()));
        json.insert("converged".to_owned(), Value::Bool(false));
        if let Lack::Collinear { column } | Lack::RunsAway { column } = lack {
            json.insert("column".to_owned(), json!(names.get(*column)));
        }
        json.extend(object(fields));
        Answer { json, blocks: vec![Block::Says(says)], answered: false }
    }
}

fn object(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        _ => Map::new(),
    }
}

/// A reason in words, for pages that have no columns to name.
pub fn reason(lack: &Lack) -> String {
    lack_words(lack, &[])
}

/// A reason in words.
fn lack_words(lack: &Lack, names: &[String]) -> String {
    let name = |column: usize| names.get(column).cloned().unwrap_or_else(|| (column + 1).to_string());
    match lack {
        Lack::TooFew { of, found, needed } => {
            let of = word(&format!("lack-of-{of}"));
            say("lack-too-few", &[("of", of), ("found", found.to_string()), ("needed", needed.to_string())])
        }
        Lack::Collinear { column } => say("lack-collinear", &[("column", name(*column))]),
        Lack::RunsAway { column } => say("lack-runs-away", &[("column", name(*column))]),
        Lack::Setting { name } => say("lack-setting", &[("name", (*name).to_owned())]),
        other => word(&format!("lack-{}", other.word())),
    }
}

fn say(name: &str, values: &[(&str, String)]) -> String {
    Texts::english().say(name, values)
}

fn word(name: &str) -> String {
    Texts::english().word(name)
}

/// A number for people: four figures, no more digits than the data carry.
pub(crate) fn shown(value: f64) -> String {
    if value.is_nan() {
        return "-".to_owned();
    }
    if value.is_infinite() {
        return if value < 0.0 { word("numbers-no-lower-bound") } else { word("numbers-no-upper-bound") };
    }
    let size = value.abs();
    let decimals = if size == 0.0 || 1000.0 <= size {
        0
    } else {
        // Four figures, at most six decimals.
        usize::try_from(3 - (size.log10().floor() as i32)).unwrap_or(0).min(6)
    };
    let text = format!("{value:.decimals$}");
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text };
    if text == "-0" { "0".to_owned() } else { text }
}

/// A p for people.
fn shown_p(p: f64) -> String {
    if p < 0.001 { "< 0.001".to_owned() } else { format!("{p:.3}") }
}

fn shown_range(interval: Interval) -> String {
    say("numbers-range", &[("low", shown(interval.low)), ("high", shown(interval.high))])
}

/// A level for people, 95 %.
fn shown_level(level: Level) -> String {
    let percent = level.share() * 100.0;
    shown((percent * 1000.0).round() / 1000.0)
}

/// A head of a table.
fn head(names: &[&str]) -> Vec<String> {
    names.iter().map(|name| word(name)).collect()
}
