//! Pain, illness, absence, ban, reopening, water advice, guardian told, talk.

use jiff::civil::Date;
use quantity::Pain;
use serde::{Deserialize, Serialize};
use trade::history::{self, AbsenceReason, PainKind, PainWhen};
use trade::name::ExerciseId;

use super::Problem;
use super::person::{SideWord, signs_from};

/// When a pain number was spoken, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum WhenWord {
    Before,
    During,
    After,
    NextMorning,
    FollowUp,
    Other,
}

/// Kind of pain, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum PainKindWord {
    Ache,
    Joint,
    #[default]
    Unstated,
}

/// Pain and signs, as spoken or seen. A shoulder that was not answered is absent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PainFact {
    /// Civil day.
    pub date: Date,
    /// When in the day's order.
    pub when: WhenWord,
    /// Exercise, for pain during a set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exercise: Option<String>,
    /// Left shoulder, 0-10.
    #[serde(default)]
    pub left: Option<i64>,
    /// Right shoulder, 0-10.
    #[serde(default)]
    pub right: Option<i64>,
    /// Ache of both sides, or joint and one-sided.
    #[serde(default)]
    pub kind: PainKindWord,
    /// Signs by their words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signs: Vec<String>,
    /// Shoulder the signs belong to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sign_side: Option<SideWord>,
    /// How it was asked: alone, by a finger sign, spoken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<String>,
}

impl PainFact {
    /// The report as the trade sees one.
    pub fn to_trade(&self) -> Result<history::PainReport, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut score = |path: &str, value: Option<i64>| {
            value.and_then(|value| match Pain::new(value) {
                Ok(pain) => Some(pain),
                Err(error) => {
                    problems.push(Problem::at(path, "fact-pain-scale").with("value", error.0));
                    None
                }
            })
        };
        let left = score("left", self.left);
        let right = score("right", self.right);
        let signs = match signs_from(&self.signs, "signs") {
            Ok(signs) => signs,
            Err(unknown) => {
                problems.extend(unknown);
                Vec::new()
            }
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::PainReport {
            date: self.date,
            when: match self.when {
                WhenWord::Before => PainWhen::Before,
                WhenWord::During => PainWhen::During(self.exercise.as_deref().map(ExerciseId::new)),
                WhenWord::After => PainWhen::After,
                WhenWord::NextMorning => PainWhen::NextMorning,
                WhenWord::FollowUp => PainWhen::FollowUp,
                WhenWord::Other => PainWhen::Other,
            },
            left,
            right,
            kind: match self.kind {
                PainKindWord::Ache => PainKind::Ache,
                PainKindWord::Joint => PainKind::JointOrOneSided,
                PainKindWord::Unstated => PainKind::Unstated,
            },
            signs: signs.into_iter().collect(),
            sign_side: self.sign_side.map(Into::into),
        })
    }
}

/// An illness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IllnessFact {
    /// First day.
    pub from: Date,
    /// With fever.
    pub fever: bool,
    /// Days in bed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bed_days: Option<u16>,
    /// First day without symptoms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub symptom_free_from: Option<Date>,
}

impl IllnessFact {
    /// The illness as the trade sees one.
    pub fn to_trade(&self) -> history::Illness {
        history::Illness {
            from: self.from,
            fever: self.fever,
            bed_days: self.bed_days,
            symptom_free_from: self.symptom_free_from,
        }
    }
}

/// Reason of an absence, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum AbsenceWord {
    Healthy,
    Illness,
    Injury,
}

/// A stretch away.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AbsenceFact {
    /// First day away.
    pub from: Date,
    /// Last day away.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<Date>,
    /// Why.
    pub reason: AbsenceWord,
    /// Whether the swimmer kept swimming; absent when nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept_swimming: Option<bool>,
}

impl AbsenceFact {
    /// The absence as the trade sees one.
    pub fn to_trade(&self) -> Result<history::Absence, Vec<Problem>> {
        ordered(self.from, self.to)?;
        Ok(history::Absence {
            from: self.from,
            to: self.to,
            reason: match self.reason {
                AbsenceWord::Healthy => AbsenceReason::Healthy,
                AbsenceWord::Illness => AbsenceReason::Illness,
                AbsenceWord::Injury => AbsenceReason::Injury,
            },
            kept_swimming: self.kept_swimming,
        })
    }
}

/// Refuses a stretch that ends before it begins.
pub(super) fn ordered(from: Date, to: Option<Date>) -> Result<(), Vec<Problem>> {
    match to {
        Some(to) if to < from => {
            Err(vec![Problem::at("to", "fact-ends-before-start").with("from", from).with("to", to)])
        }
        _ => Ok(()),
    }
}

/// A "do not train" from outside.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BanFact {
    /// First day.
    pub from: Date,
    /// Last day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// Who said so.
    pub by: String,
}

impl BanFact {
    /// The ban as the trade sees one.
    pub fn to_trade(&self) -> Result<history::Ban, Vec<Problem>> {
        ordered(self.from, self.until)?;
        Ok(history::Ban { from: self.from, until: self.until, by: self.by.clone() })
    }
}

/// "Out today" ended by a person.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReopeningFact {
    /// Day from which it holds.
    pub date: Date,
    /// Shoulder; absent for both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<SideWord>,
    /// Who confirmed.
    pub by: String,
}

impl ReopeningFact {
    /// The reopening as the trade sees one.
    pub fn to_trade(&self) -> history::Reopening {
        history::Reopening { date: self.date, side: self.side.map(Into::into), by: self.by.clone() }
    }
}

/// What was decided about the water.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaterAdviceFact {
    /// Day.
    pub date: Date,
    /// In plain words for the coach.
    pub advice: String,
    /// Who decided.
    pub by: String,
}

impl WaterAdviceFact {
    /// The advice as the trade sees it.
    pub fn to_trade(&self) -> history::WaterAdvice {
        history::WaterAdvice { date: self.date, advice: self.advice.clone(), by: self.by.clone() }
    }
}

/// A guardian was told.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GuardianToldFact {
    /// Day.
    pub date: Date,
    /// Who told.
    pub by: String,
}

impl GuardianToldFact {
    /// The note as the trade sees one.
    pub fn to_trade(&self) -> history::GuardianTold {
        history::GuardianTold { date: self.date, by: self.by.clone() }
    }
}

/// A talk took place: what closes "something to ask".
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TalkFact {
    /// Day.
    pub date: Date,
    /// Who talked.
    pub by: String,
    /// Rule code that asked for it.
    pub about: String,
}
