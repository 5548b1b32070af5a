//! The contract in one call: a history file's text in, an answer or every problem out.

use serde_json::Value;
use trade::dosing::plan;
use trade::due::due;
use trade::gate;
use trade::protocol::{Protocol, read};

use super::answer::{Answer, Wording};
use super::propose::HistoryFile;
use super::shape;
use crate::facts::{Problem, Units};
use crate::text::{Reader, Texts};

/// Answers one history file under a protocol, after the file's own settings.
pub fn propose(protocol: &Protocol, text: &str, units: Units) -> Result<Answer, Vec<Problem>> {
    let file: HistoryFile = shape::read(text)?;
    let changed;
    let protocol = if file.settings.is_empty() {
        protocol
    } else {
        changed = with_settings(protocol, &file.settings)?;
        &changed
    };
    let history = file.to_history(protocol)?;
    let gate = gate::gate(protocol, &history, file.on);
    let due = due(protocol, &history, file.on, file.next_practice);
    let mut plan = plan(protocol, &history, &gate);
    let wanted = wanted_exercises(&file);
    if !wanted.is_empty() {
        plan.proposals.retain(|proposal| wanted.contains(&proposal.exercise.to_string()));
    }
    let texts = Texts::english();
    let wording = Wording { texts, reader: Reader { protocol, units, measured: &[] } };
    Ok(wording.answer(&history, &gate, &due, &plan))
}

/// The exercises the file asks about, else those it has a record of; empty for all.
fn wanted_exercises(file: &HistoryFile) -> Vec<String> {
    if let Some(exercises) = &file.exercises {
        return exercises.clone();
    }
    let sessions = file.sessions.iter().flat_map(|session| &session.blocks).map(|block| &block.exercise);
    let placements = file.placements.iter().map(|placement| &placement.exercise);
    let taught = file.taught.iter().map(|taught| &taught.exercise);
    sessions.chain(placements).chain(taught).cloned().collect()
}

/// The protocol with some parameters changed. The whole protocol is read again, so that every limit still holds.
fn with_settings(
    protocol: &Protocol,
    settings: &serde_json::Map<String, Value>,
) -> Result<Protocol, Vec<Problem>> {
    let mut document: toml::Table =
        protocol.text.parse().expect("a protocol in force has been read from this very text");
    let mut problems = Vec::new();
    for (key, value) in settings {
        let path = format!("settings.{key}");
        let row = document
            .get_mut("parameters")
            .and_then(toml::Value::as_table_mut)
            .and_then(|rows| rows.get_mut(key))
            .and_then(toml::Value::as_table_mut);
        let Some(row) = row else {
            let known: Vec<&str> = protocol.parameters.listed.iter().map(|listed| listed.key).collect();
            problems.push(match shape::nearest(key, &known) {
                Some(near) => Problem::at(path, "contract-setting-near").with("word", key).with("near", near),
                None => Problem::at(path, "fact-unknown-setting").with("word", key),
            });
            continue;
        };
        match toml::Value::try_from(value) {
            Ok(value) => {
                row.insert("value".to_owned(), value);
            }
            Err(error) => problems.push(Problem::at(path, "fact-setting-refused").with("detail", error)),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let text = toml::to_string(&document).expect("a table that was read can be written");
    read::read(&text).map_err(|refused| {
        let texts = Texts::english();
        refused
            .iter()
            .map(|problem| {
                let detail = texts.say(problem.says, &problem.args);
                Problem::at("settings", "fact-setting-refused").with("detail", detail)
            })
            .collect()
    })
}
