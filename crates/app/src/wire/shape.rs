//! From the text of a history file to its shape: every unknown field by its place, with the nearest known name.

use serde::de::DeserializeOwned;
use serde_json::Value;
use serde_path_to_error::{Path, Segment};

use crate::facts::Problem;

/// Most unknown fields that are listed before reading gives up.
const MOST: usize = 40;

/// Words that people bring along, with the word used here. They are named in the hint, never taken silently.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("will", "chose-to-stop"),
    ("tired", "chose-to-stop"),
    ("out", "left"),
    ("alarm", "left"),
    ("gear", "kit"),
    ("l", "left"),
    ("r", "right"),
    ("girl", "female"),
    ("woman", "female"),
    ("f", "female"),
    ("boy", "male"),
    ("man", "male"),
    ("m", "male"),
    ("practice", "after-practice"),
    ("holiday", "healthy"),
    ("exams", "healthy"),
    ("fever", "illness"),
    ("ill", "illness"),
    ("injured", "injury"),
    ("morning", "next-morning"),
    ("muscle", "ache"),
    ("one-sided", "joint"),
    ("levelup", "up"),
    ("time", "seconds"),
    ("secs", "seconds"),
    ("time-s", "seconds"),
    ("reason", "end"),
    ("end-reason", "end"),
    ("dob", "born"),
    ("birth-date", "born"),
    ("date-of-birth", "born"),
    ("gender", "sex"),
    ("arm", "side"),
    ("kg", "weight_kg"),
    ("weight", "weight_kg"),
    ("newtons", "band_n"),
    ("cap", "cap_s"),
    ("watched", "seen"),
    ("pain-reports", "pains"),
    ("today", "on"),
    ("date", "on"),
    ("started", "programme_started"),
    ("height", "height_cm"),
    ("parameters", "settings"),
];

/// Reads a shape. Every unknown field is listed; anything else that is wrong ends the list, since what follows it
/// cannot be judged.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, Vec<Problem>> {
    let mut value: Value = serde_json::from_str(text).map_err(|error| {
        let problem = Problem::at("", "contract-not-json")
            .with("line", error.line())
            .with("column", error.column())
            .with("detail", without_place(&error.to_string()));
        vec![problem]
    })?;
    let mut problems = Vec::new();
    loop {
        match serde_path_to_error::deserialize::<_, T>(value.clone()) {
            Ok(shape) if problems.is_empty() => return Ok(shape),
            Ok(_) => return Err(problems),
            Err(error) => {
                let detail = without_place(&error.inner().to_string());
                let place = error.path().clone();
                problems.push(problem_of(&place, &detail));
                let unknown = detail.starts_with("unknown field");
                if !unknown || MOST <= problems.len() || !take_out(&mut value, &place, &detail) {
                    return Err(problems);
                }
            }
        }
    }
}

/// What a message puts between backticks.
fn quoted(detail: &str) -> Vec<&str> {
    detail.split('`').skip(1).step_by(2).collect()
}

fn without_place(detail: &str) -> String {
    detail.split(" at line ").next().unwrap_or(detail).to_owned()
}

fn problem_of(place: &Path, detail: &str) -> Problem {
    let path = match place.to_string() {
        whole if whole == "." => String::new(),
        path => path,
    };
    let names = quoted(detail);
    match names.split_first() {
        Some((word, known)) if detail.starts_with("unknown field") => {
            named(path, ["contract-field-near", "contract-field-list"], word, known)
        }
        Some((word, known)) if detail.starts_with("unknown variant") => {
            named(path, ["contract-word-near", "contract-word-list"], word, known)
        }
        Some((word, _)) if detail.starts_with("missing field") => {
            Problem::at(path, "contract-missing").with("word", word)
        }
        _ => Problem::at(path, "fact-shape").with("detail", detail),
    }
}

/// A name that is not known here, with the nearest one, or with all of them.
fn named(path: String, says: [&'static str; 2], word: &str, known: &[&str]) -> Problem {
    match nearest(word, known) {
        Some(near) => Problem::at(path, says[0]).with("word", word).with("near", near),
        None => Problem::at(path, says[1]).with("word", word).with("known", known.join(", ")),
    }
}

/// The known name that was probably meant.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let plain = |name: &str| name.to_lowercase().replace(['_', ' '], "-");
    let word = plain(word);
    let other = OTHER_WORDS.iter().filter(|(brought, _)| *brought == word).map(|(_, here)| *here);
    let by_meaning = other.into_iter().find_map(|here| known.iter().find(|name| **name == here));
    let by_letters = || {
        known
            .iter()
            .map(|name| (strsim::damerau_levenshtein(&word, &plain(name)), *name))
            .filter(|(steps, name)| *steps * 3 <= name.len().max(3))
            .min()
            .map(|(_, name)| name)
    };
    by_meaning.copied().or_else(by_letters)
}

/// Takes the unknown field out, so that the next problem can be found.
fn take_out(value: &mut Value, place: &Path, detail: &str) -> bool {
    let names = quoted(detail);
    let Some(unknown) = names.first() else { return false };
    let mut here = value;
    for step in place.iter() {
        let next = match step {
            Segment::Map { key } if key == unknown && here.get(key).is_some() => break,
            Segment::Map { key } => here.get_mut(key),
            Segment::Seq { index } => here.get_mut(index),
            Segment::Enum { .. } | Segment::Unknown => return false,
        };
        let Some(next) = next else { return false };
        here = next;
    }
    here.as_object_mut().is_some_and(|fields| fields.remove(*unknown).is_some())
}
