//! What stands in a deck bag: the shapes that the console reads, and nothing else.
//!
//! Their fields are told once, in the console's own types (`assets/deck`) and in `docs/deck.md`.

use std::collections::BTreeMap;

use serde::Serialize;

use super::prior::Prior;
use crate::facts::{ContactFact, DeckPlaceFact};

/// The bag.
#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "fields are told once, in the console's types and in docs/deck.md")]
pub struct Bag {
    pub shape: &'static str,
    pub device: String,
    pub session: Session,
    pub made_at: String,
    pub made_ms: u64,
    pub may_decide: bool,
    pub club: String,
    pub practitioner: Named,
    pub place: DeckPlaceFact,
    pub timing: Timing,
    pub pain: PainRule,
    pub ratio: Ratio,
    pub exercises: Vec<Run>,
    pub swimmers: Vec<Swimmer>,
    pub kit: Vec<KitPiece>,
    pub signs: Vec<SignWord>,
    pub words: BTreeMap<String, String>,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct SignWord {
    pub sign: &'static str,
    pub words: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Session {
    pub id: String,
    pub date: String,
    pub number: u8,
    pub context: crate::facts::ContextWord,
    pub title: String,
    pub pattern: crate::facts::PatternWord,
    pub minutes: u16,
    pub by: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Named {
    pub name: String,
    pub phone: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Timing {
    pub rest_s: f64,
    pub side_s: f64,
    pub change_s: f64,
    pub lead_s: f64,
    pub cue_grace_s: f64,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct PainRule {
    pub out_from: u8,
    pub stop_exercise_from: u8,
    pub event_from: u8,
    pub refer_from: u8,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Ratio {
    pub under_13: u8,
    pub from_13: u8,
    pub two_adults: u8,
}

/// Tempo, as the console reads it.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
#[allow(missing_docs, reason = "see Bag")]
pub enum TempoWord {
    Beat { out: f64, hold: f64, back: f64 },
    Hold,
    Circles { every_s: f64 },
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Run {
    pub id: String,
    pub name: String,
    pub arms: &'static str,
    pub loads_shoulder: bool,
    pub uses_band: bool,
    pub tempo: TempoWord,
    pub cap_s: f64,
    pub sets: u8,
    pub movement: String,
    pub set_up: String,
    pub cautions: Vec<String>,
    pub faults: Vec<FaultWord>,
    pub figure: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct FaultWord {
    pub code: String,
    pub name: String,
    pub cue: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Swimmer {
    pub id: String,
    pub name: String,
    pub full_name: String,
    pub under_13: bool,
    pub teaching: bool,
    pub latex: &'static str,
    pub emergency: String,
    pub contacts: Vec<ContactFact>,
    pub asked_today: bool,
    pub lines: BTreeMap<&'static str, Vec<LineWord>>,
    pub why_not: String,
    pub first: BTreeMap<String, &'static str>,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct LineWord {
    pub exercise: String,
    pub side: &'static str,
    pub planned: String,
    pub rung_name: String,
    pub sets: u8,
    pub cap_s: f64,
    pub timed: bool,
    pub tempo: TempoWord,
    pub prior: Prior,
    pub easier: Vec<Easier>,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct Easier {
    pub rung: String,
    pub name: String,
}

#[derive(Debug, Clone, Serialize)]
#[allow(missing_docs, reason = "see Bag")]
pub struct KitPiece {
    pub mark: String,
    pub what: &'static str,
    pub pieces: u16,
    pub latex: &'static str,
    pub inspected: String,
    pub due: bool,
}
