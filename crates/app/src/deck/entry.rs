//! One entry of a device, as it comes over the wire and as it lies in the store.
//!
//! Every touch carries its set whole, so that no entry needs another one to be understood. What an entry says is its
//! content; who sent it when is beside it.

use serde::{Deserialize, Serialize};

use crate::facts::{EndWord, PainKindWord, Problem, WhenWord, WorkingSideWord, read_json};

/// Which set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slot {
    /// Exercise.
    pub exercise: String,
    /// Side.
    pub side: WorkingSideWord,
    /// Which set, from one.
    pub set: u8,
    /// Rung prescribed.
    pub planned: String,
    /// Rung used.
    pub used: String,
    /// Sets prescribed.
    pub sets: u8,
    /// Cap in force, seconds.
    pub cap_s: f64,
    /// Real rest before it, seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rest_s: Option<f64>,
}

/// An entry. `k` says what it is; see [`Entry::check`] for what each needs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "fields are told once, in docs/deck.md, for both languages")]
pub struct Entry {
    pub id: String,
    pub session: String,
    pub device: String,
    pub seq: u64,
    pub boot: String,
    pub t: f64,
    pub wall: String,
    pub k: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub who: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub phase: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ms: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slot: Option<Slot>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<EndWord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fault: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub awake: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bridged: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub present: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<PainKindWord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fresh: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effort: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<WhenWord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exercise: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rung: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<WorkingSideWord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mark: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sound: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signs: Option<Vec<String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub adults: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waves: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<i64>,
}

/// What an entry may be, and the fields that it cannot do without.
const NEEDS: &[(&str, &[&str])] = &[
    ("attend", &["who", "present"]),
    ("leave", &["who"]),
    ("answers", &["who", "left", "right", "how"]),
    ("place", &["who", "group"]),
    ("rung", &["who", "exercise", "side", "rung"]),
    ("go", &["phase"]),
    ("halt", &["what"]),
    ("cue", &["who", "run", "ms", "slot"]),
    ("end", &["who", "run", "ms", "slot", "reason"]),
    ("held", &["who", "run", "ms", "slot"]),
    ("cap", &["who", "run", "ms", "slot", "awake"]),
    ("note", &["who", "slot", "fault"]),
    ("undo", &["of"]),
    ("pain", &["who", "when"]),
    ("effort", &["who", "effort"]),
    ("taught", &["who", "exercise"]),
    ("crew", &["adults"]),
    ("kit", &["mark", "sound"]),
    ("incident", &["what"]),
];

/// Longest words in an entry, characters.
const LONGEST: usize = 2000;

impl Entry {
    /// Reads one entry.
    pub fn read(text: &str) -> Result<Self, Problem> {
        read_json(text)
    }

    /// Says what is missing or cannot be.
    pub fn check(&self) -> Result<(), Problem> {
        let Some((_, needs)) = NEEDS.iter().find(|(kind, _)| *kind == self.k) else {
            return Err(Problem::at("k", "deck-entry-unknown").with("kind", &self.k));
        };
        let written = serde_json::to_value(self).expect("a wire shape can always be written as JSON");
        if let Some(missing) = needs.iter().find(|name| written.get(**name).is_none()) {
            return Err(Problem::at(*missing, "deck-entry-missing").with("field", missing));
        }
        let in_scale = |value: Option<i64>| value.is_none_or(|value| (0..=10).contains(&value));
        if !in_scale(self.left) || !in_scale(self.right) || !in_scale(self.effort) {
            return Err(Problem::at("left", "deck-entry-scale"));
        }
        let is_time = |value: f64| value.is_finite() && (0.0..=1e15).contains(&value);
        let slot_is_sound = self.slot.as_ref().is_none_or(|slot| {
            (1.0..=600.0).contains(&slot.cap_s)
                && (1..=9).contains(&slot.set)
                && (1..=9).contains(&slot.sets)
                && slot.rest_s.is_none_or(is_time)
        });
        if !is_time(self.t) || !self.ms.is_none_or(is_time) || !slot_is_sound {
            return Err(Problem::at("slot", "deck-entry-number"));
        }
        let words = [&self.words, &self.what, &self.by, &self.fault, &self.mark];
        if words.into_iter().flatten().any(|text| LONGEST < text.chars().count()) {
            return Err(Problem::at("words", "deck-entry-long"));
        }
        Ok(())
    }
}

impl Slot {
    /// Orders and names a set of one swimmer.
    pub fn key(&self) -> (String, WorkingSideWord, u8) {
        (self.exercise.clone(), self.side, self.set)
    }
}
