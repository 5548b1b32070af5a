//! What passes between the club and licensed practice: referral, clearance, limit.

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::{HoldTime, Pain};
use serde::{Deserialize, Serialize};
use trade::history::{self, InjuryKind, ReturnConditions, Urgency};
use trade::name::ExerciseId;
use trade::protocol::Tag;

use super::Problem;
use super::body::ordered;
use super::person::SideWord;

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
    /// The clinician as the trade sees one; refused when the licence is not valid on the day.
    pub fn to_trade(&self, on: Date) -> Result<history::Clinician, Vec<Problem>> {
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
