//! What belongs to a session on deck: its plan, what a device wrote down, an incident, the place.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{ContextWord, Problem, WorkingSideWord};

/// How a group works, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PatternWord {
    /// Everybody the same exercise at the same time.
    #[default]
    Together,
    /// Each group another exercise, and all change at once.
    Stations,
    /// One works, one watches.
    Pairs,
}

/// One exercise of a planned session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlannedExercise {
    /// Which.
    pub exercise: String,
    /// Longest set of the session, seconds: the common clock's.
    pub cap_s: f64,
    /// Sets on the common clock.
    pub sets: u8,
}

/// A session that was prepared: what every device in it shares.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeckSessionFact {
    /// Names the session in every entry of every device.
    pub session: String,
    /// Civil day in the club's zone.
    pub date: Date,
    /// Which session of the day.
    pub number: u8,
    /// Context.
    pub context: ContextWord,
    /// Squads; empty for everybody.
    #[serde(default)]
    pub squads: Vec<String>,
    /// How the group works.
    #[serde(default)]
    pub pattern: PatternWord,
    /// Minutes of work there are.
    pub minutes: u16,
    /// Exercises in order.
    pub exercises: Vec<PlannedExercise>,
    /// Who prepared it.
    pub by: String,
    /// Reason of a named override that put it right before the water.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before_water_override: Option<String>,
}

impl DeckSessionFact {
    /// Says whether this can be run at all.
    pub fn check(&self) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        if self.exercises.is_empty() {
            problems.push(Problem::at("exercises", "deck-no-exercise"));
        }
        for (place, exercise) in self.exercises.iter().enumerate() {
            if !(5.0..=120.0).contains(&exercise.cap_s) {
                problems.push(Problem::at(format!("exercises[{place}].cap_s"), "deck-cap-range"));
            }
            if !(1..=3).contains(&exercise.sets) {
                problems.push(Problem::at(format!("exercises[{place}].sets"), "deck-sets-range"));
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

/// Where the session is held, for whoever rings for help.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeckPlaceFact {
    /// Emergency number.
    pub number: String,
    /// Address of the site.
    pub address: String,
    /// Which entrance, and who opens it.
    pub entrance: String,
    /// Where the defibrillator hangs.
    pub defibrillator: String,
}

/// An incident: a record of its own, apart from anybody's health record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IncidentFact {
    /// Civil day.
    pub date: Date,
    /// What sort: band, slip, collision, faint, worry, other.
    pub what: String,
    /// In words, as written within the hour.
    #[serde(default)]
    pub words: String,
    /// Mark of the piece of kit that was taken out of use.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit: Option<String>,
    /// Who wrote it.
    pub by: String,
}

/// One line of a page for home.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HomeLine {
    /// Exercise.
    pub exercise: String,
    /// Side.
    pub side: WorkingSideWord,
    /// Rung.
    pub rung: String,
    /// Longest set, seconds.
    pub cap_s: f64,
}

/// What a page for home holds, so that the code which comes back can be read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HomeSheetFact {
    /// Its number, which stands in every code from it.
    pub sheet: u32,
    /// Day it was made.
    pub date: Date,
    /// Lines in the order of the code.
    pub lines: Vec<HomeLine>,
}
