//! The club itself, practices, season, periods, meets, kit, inspections.

use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};
use trade::history::{self, Grade, Phase};

use super::Problem;
use super::body::ordered;

/// Units in which the club reads and writes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Units {
    /// kg, cm, N.
    #[default]
    Metric,
    /// lb, in, lbf.
    Imperial,
}

/// The club.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClubFact {
    /// Name.
    pub name: String,
    /// Time zone by its IANA name; a session's civil day comes from it.
    pub zone: String,
    /// Units.
    #[serde(default)]
    pub units: Units,
    /// The practitioner who answers for the squad, and how to reach them.
    pub practitioner: String,
    /// Telephone of the practitioner.
    #[serde(default)]
    pub practitioner_phone: String,
    /// Single practices are written down, day by day; off unless a club wants it.
    #[serde(default, skip_serializing_if = "is_off")]
    pub daily_practices: bool,
}

fn is_off(setting: &bool) -> bool {
    !setting
}

/// A weekly water practice.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PracticeFact {
    /// Squad; empty for all.
    #[serde(default)]
    pub squad: String,
    /// Day of the week, 1 is Monday.
    pub weekday: i8,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
    /// Pool, where there is more than one or it may close.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
}

/// The season's first Monday of loaded work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeasonFact {
    /// First day.
    pub start: Date,
}

/// Phase, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum PhaseWord {
    Deload,
    Camp,
    Taper,
}

/// A planned stretch of the calendar.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PeriodFact {
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// What it is.
    pub phase: PhaseWord,
}

impl PeriodFact {
    /// The period as the trade sees one.
    pub fn to_trade(&self) -> Result<history::Period, Vec<Problem>> {
        ordered(self.from, Some(self.to))?;
        Ok(history::Period {
            from: self.from,
            to: self.to,
            phase: match self.phase {
                PhaseWord::Deload => Phase::Deload,
                PhaseWord::Camp => Phase::Camp,
                PhaseWord::Taper => Phase::Taper,
            },
        })
    }
}

/// How much a meet counts, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum GradeWord {
    A,
    B,
    C,
}

impl GradeWord {
    /// The letter.
    pub const fn letter(self) -> &'static str {
        match self {
            GradeWord::A => "A",
            GradeWord::B => "B",
            GradeWord::C => "C",
        }
    }

    /// As the trade sees it.
    pub const fn to_trade(self) -> Grade {
        match self {
            GradeWord::A => Grade::A,
            GradeWord::B => Grade::B,
            GradeWord::C => Grade::C,
        }
    }
}

/// A meet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeetFact {
    /// First day.
    pub date: Date,
    /// How much it counts.
    pub grade: GradeWord,
    /// What it is called.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Last day, where it lasts longer than one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last: Option<Date>,
    /// First start, where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starts: Option<Time>,
    /// Squads that swim it; empty for all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub squads: Vec<String>,
    /// Swimmers to whom it counts otherwise than to the others.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub swimmers: Vec<SwimmerGrade>,
}

/// How much a meet counts to one swimmer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SwimmerGrade {
    /// Subject id.
    pub swimmer: String,
    /// How much it counts; absent when this swimmer does not swim it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grade: Option<GradeWord>,
}

impl MeetFact {
    /// The meet as the trade sees one.
    pub fn to_trade(&self) -> history::Meet {
        history::Meet { date: self.date, grade: self.grade.to_trade() }
    }

    /// How much it counts to one swimmer of a squad; none when they do not swim it.
    pub fn grade_for(&self, squad: &str, subject: &str) -> Option<GradeWord> {
        if let Some(own) = self.swimmers.iter().find(|own| own.swimmer == subject) {
            return own.grade;
        }
        let is_theirs = self.squads.is_empty() || self.squads.iter().any(|swims| swims == squad);
        is_theirs.then_some(self.grade)
    }
}

/// What a piece of kit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum KitWord {
    Band,
    Weight,
    Ball,
    Mat,
    Anchor,
    Other,
}

/// A piece of kit. A band is known by its measured force, never by a colour.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KitPieceFact {
    /// The club's own mark on the piece.
    pub mark: String,
    /// What it is.
    pub kind: KitWord,
    /// Force at double length, newtons, for a band.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub force_at_double_n: Option<f64>,
    /// Rest length, metres, for a band.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rest_length_m: Option<f64>,
    /// Mass, kilograms, for a weight or ball.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
    /// How many of it.
    #[serde(default = "one")]
    pub pieces: u16,
    /// In service since.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_service: Option<Date>,
    /// Contains latex; absent when nobody knows, which counts as yes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latex: Option<bool>,
    /// Withdrawn on, with the reason.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub withdrawn: Option<(Date, String)>,
    /// Measured values as a person wrote them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_entered: Option<String>,
}

fn one() -> u16 {
    1
}

/// An inspection of a piece of kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InspectionFact {
    /// Day.
    pub date: Date,
    /// Mark of the piece.
    pub mark: String,
    /// Sound, or to be withdrawn.
    pub sound: bool,
    /// Who looked.
    pub by: String,
}
