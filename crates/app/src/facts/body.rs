//! Pain, illness, absence, ban, referral, clearance, limit, reopening, water advice, guardian told, talk.

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::{HoldTime, Pain};
use serde::{Deserialize, Serialize};
use trade::history::{self, AbsenceReason, InjuryKind, PainKind, PainWhen, ReturnConditions, Urgency};
use trade::name::ExerciseId;
use trade::protocol::Tag;

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

/// Urgency, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum UrgencyWord {
    Talk,
    WithinAWeek,
    SameDay,
    Emergency,
}

impl From<UrgencyWord> for Urgency {
    fn from(word: UrgencyWord) -> Self {
        match word {
            UrgencyWord::Talk => Urgency::Talk,
            UrgencyWord::WithinAWeek => Urgency::WithinAWeek,
            UrgencyWord::SameDay => Urgency::SameDay,
            UrgencyWord::Emergency => Urgency::Emergency,
        }
    }
}

impl From<Urgency> for UrgencyWord {
    fn from(urgency: Urgency) -> Self {
        match urgency {
            Urgency::Talk => UrgencyWord::Talk,
            Urgency::WithinAWeek => UrgencyWord::WithinAWeek,
            Urgency::SameDay => UrgencyWord::SameDay,
            Urgency::Emergency => UrgencyWord::Emergency,
        }
    }
}

/// A referral.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReferralFact {
    /// Day.
    pub opened: Date,
    /// Shoulder; absent for the whole person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<SideWord>,
    /// How soon.
    pub urgency: UrgencyWord,
    /// Day the answer came.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub answered: Option<Date>,
}

impl ReferralFact {
    /// The referral as the trade sees one.
    pub fn to_trade(&self) -> history::Referral {
        history::Referral {
            opened: self.opened,
            side: self.side.map(Into::into),
            urgency: self.urgency.into(),
            answered: self.answered,
        }
    }
}

/// A licensed clinician.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClinicianFact {
    /// Name.
    pub name: String,
    /// Licence number.
    pub licence: String,
    /// Last day it is valid.
    pub licence_until: Date,
}

impl ClinicianFact {
    fn to_trade(&self, on: Date) -> Result<history::Clinician, Vec<Problem>> {
        let clinician = history::Clinician {
            name: self.name.clone(),
            licence: self.licence.clone(),
            licence_until: self.licence_until,
        };
        if clinician.is_licensed_on(on) {
            Ok(clinician)
        } else {
            Err(vec![Problem::at("clinician", "fact-not-licensed").with("name", &self.name).with("date", on)])
        }
    }
}

/// Injury, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum InjuryWord {
    Dislocation,
    Operation,
    Other,
}

/// A clinician's clearance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClearanceFact {
    /// Day of the letter.
    pub date: Date,
    /// Shoulder; absent for the whole person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<SideWord>,
    /// Who signed.
    pub clinician: ClinicianFact,
    /// What had been injured; absent when there was a question but no injury.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub injury: Option<InjuryWord>,
    /// No pain in daily life.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub daily_life_pain_free: Option<bool>,
    /// Largest difference of range to the other side, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range_gap_deg: Option<f64>,
    /// External rotation strength as a per cent of the other side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_pct_of_other: Option<f64>,
    /// Weeks at half of the usual water without pain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub half_water_weeks: Option<f64>,
}

impl ClearanceFact {
    /// The clearance as the trade sees one; refused without a valid licence.
    pub fn to_trade(&self) -> Result<history::Clearance, Vec<Problem>> {
        Ok(history::Clearance {
            date: self.date,
            side: self.side.map(Into::into),
            clinician: self.clinician.to_trade(self.date)?,
            injury: self.injury.map(|word| match word {
                InjuryWord::Dislocation => InjuryKind::Dislocation,
                InjuryWord::Operation => InjuryKind::Operation,
                InjuryWord::Other => InjuryKind::Other,
            }),
            conditions: ReturnConditions {
                daily_life_pain_free: self.daily_life_pain_free,
                range_gap_deg: self.range_gap_deg,
                strength_share: self.strength_pct_of_other.map(|pct| pct / 100.0),
                half_water_weeks: self.half_water_weeks,
            },
        })
    }
}

/// A clinician's signed limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitFact {
    /// Day signed.
    pub signed: Date,
    /// Last day.
    pub until: Date,
    /// Shoulder; absent for both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<SideWord>,
    /// Who signed.
    pub clinician: ClinicianFact,
    /// Locked tags, for instance `overhead`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub locked_tags: Vec<String>,
    /// Locked exercises.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub locked_exercises: Vec<String>,
    /// Most sets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sets: Option<u8>,
    /// Longest set in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cap_s: Option<f64>,
    /// One-sided pain the limit covers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub allows_pain_up_to: Option<i64>,
    /// What the clinician wrote.
    #[serde(default)]
    pub note: String,
}

impl LimitFact {
    /// The limit as the trade sees one; refused without a valid licence.
    pub fn to_trade(&self) -> Result<history::Limit, Vec<Problem>> {
        let mut problems = Vec::new();
        if let Err(more) = ordered(self.signed, Some(self.until)) {
            problems.extend(more);
        }
        let mut locked_tags = BTreeSet::new();
        for (index, word) in self.locked_tags.iter().enumerate() {
            match Tag::from_word(word) {
                Some(tag) => {
                    locked_tags.insert(tag);
                }
                None => problems.push(
                    Problem::at(format!("locked_tags[{index}]"), "fact-unknown-tag").with("word", word),
                ),
            }
        }
        let cap = match self.cap_s.map(HoldTime::try_from_seconds) {
            None => None,
            Some(Ok(cap)) if HoldTime::ZERO < cap => Some(cap),
            Some(_) => {
                problems.push(Problem::at("cap_s", "fact-not-positive"));
                None
            }
        };
        let allows_pain_up_to = match self.allows_pain_up_to.map(Pain::new) {
            None => None,
            Some(Ok(pain)) => Some(pain),
            Some(Err(error)) => {
                problems.push(Problem::at("allows_pain_up_to", "fact-pain-scale").with("value", error.0));
                None
            }
        };
        let clinician = match self.clinician.to_trade(self.signed) {
            Ok(clinician) => clinician,
            Err(more) => {
                problems.extend(more);
                return Err(problems);
            }
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::Limit {
            signed: self.signed,
            until: self.until,
            side: self.side.map(Into::into),
            clinician,
            locked_tags,
            locked_exercises: self.locked_exercises.iter().map(|id| ExerciseId::new(id)).collect(),
            sets: self.sets,
            cap,
            allows_pain_up_to,
            note: self.note.clone(),
        })
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
