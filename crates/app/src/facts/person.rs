//! Swimmer, consent, intake, screening, growth.

use jiff::civil::Date;
use quantity::{Judgement, Length, Mass, Range};
use serde::{Deserialize, Serialize};
use trade::history::{self, ConsentItem, Experience, Outcome, Sex, Sign};
use trade::side::Side;

use super::Problem;

/// Sex, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum SexWord {
    Female,
    Male,
    #[default]
    Unstated,
}

/// Experience, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum ExperienceWord {
    #[default]
    Beginner,
    Trained,
}

/// A shoulder, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum SideWord {
    Left,
    Right,
}

impl From<SideWord> for Side {
    fn from(word: SideWord) -> Self {
        match word {
            SideWord::Left => Side::Left,
            SideWord::Right => Side::Right,
        }
    }
}

impl From<Side> for SideWord {
    fn from(side: Side) -> Self {
        match side {
            Side::Left => SideWord::Left,
            Side::Right => SideWord::Right,
        }
    }
}

/// Somebody to ring.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ContactFact {
    /// Name.
    pub name: String,
    /// Relation to the swimmer.
    pub relation: String,
    /// Telephone, as written.
    pub phone: String,
}

/// Who a swimmer is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SwimmerFact {
    /// Full name; empty only where a file is about nobody in particular.
    #[serde(default)]
    pub name: String,
    /// What the swimmer is called.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub goes_by: Option<String>,
    /// Date of birth.
    pub born: Date,
    /// Sex.
    #[serde(default)]
    pub sex: SexWord,
    /// Squad.
    #[serde(default)]
    pub squad: String,
    /// Training background.
    #[serde(default)]
    pub experience: ExperienceWord,
    /// First day of this programme; null before it began.
    #[serde(default)]
    pub programme_started: Option<Date>,
    /// Day the swimmer left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Date>,
    /// Guardians and others to ring.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub contacts: Vec<ContactFact>,
    /// Allergy and emergency line for the deck: latex, asthma, epilepsy.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub emergency_note: Option<String>,
    /// Number in the club's own list, the natural key of a roster.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub club_number: Option<String>,
}

impl SwimmerFact {
    /// The swimmer as the trade sees one.
    pub fn to_trade(&self) -> history::Swimmer {
        history::Swimmer {
            born: self.born,
            sex: match self.sex {
                SexWord::Female => Sex::Female,
                SexWord::Male => Sex::Male,
                SexWord::Unstated => Sex::Unstated,
            },
            experience: match self.experience {
                ExperienceWord::Beginner => Experience::Beginner,
                ExperienceWord::Trained => Experience::Trained,
            },
            programme_started: self.programme_started,
        }
    }
}

/// One consent item, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum ConsentWord {
    Screening,
    Exercise,
    HealthRecord,
    CoachSees,
    Doctor,
    Photo,
    Evaluation,
    Assistant,
    Assent,
}

impl From<ConsentWord> for ConsentItem {
    fn from(word: ConsentWord) -> Self {
        match word {
            ConsentWord::Screening => ConsentItem::Screening,
            ConsentWord::Exercise => ConsentItem::Exercise,
            ConsentWord::HealthRecord => ConsentItem::HealthRecord,
            ConsentWord::CoachSees => ConsentItem::CoachSees,
            ConsentWord::Doctor => ConsentItem::Doctor,
            ConsentWord::Photo => ConsentItem::Photo,
            ConsentWord::Evaluation => ConsentItem::Evaluation,
            ConsentWord::Assistant => ConsentItem::Assistant,
            ConsentWord::Assent => ConsentItem::Assent,
        }
    }
}

/// A consent, as signed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConsentFact {
    /// Day signed.
    pub signed: Date,
    /// Items granted; all others were refused or not asked.
    pub granted: Vec<ConsentWord>,
    /// Who signed.
    pub signer: String,
    /// Relation to the swimmer; `self` for an adult's own.
    pub relation: String,
    /// Version of the text.
    #[serde(default)]
    pub text_version: String,
    /// Day withdrawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub withdrawn: Option<Date>,
}

impl ConsentFact {
    /// The consent as the trade sees one.
    pub fn to_trade(&self) -> history::Consent {
        history::Consent {
            signed: self.signed,
            granted: self.granted.iter().map(|&word| word.into()).collect(),
            signer: self.signer.clone(),
            relation: self.relation.clone(),
            text_version: self.text_version.clone(),
            withdrawn: self.withdrawn,
        }
    }
}

/// Intake answers. A question that was not answered is absent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IntakeFact {
    /// Day.
    pub date: Date,
    /// Shoulder pain in the last 12 months.
    #[serde(default)]
    pub shoulder_pain_12_months: Option<bool>,
    /// A dislocation or slipping, ever.
    #[serde(default)]
    pub dislocation_or_slipping: Option<bool>,
    /// A shoulder operation, ever.
    #[serde(default)]
    pub operation: Option<bool>,
    /// Red-flag signs answered with yes.
    #[serde(default)]
    pub signs: Vec<String>,
    /// Whether all red-flag questions were asked and answered.
    #[serde(default)]
    pub signs_asked: bool,
}

/// Reads sign words, naming each that is unknown.
pub fn signs_from(words: &[String], path: &str) -> Result<Vec<Sign>, Vec<Problem>> {
    let mut signs = Vec::new();
    let mut problems = Vec::new();
    for (index, word) in words.iter().enumerate() {
        match Sign::from_word(word) {
            Some(sign) => signs.push(sign),
            None => {
                problems
                    .push(Problem::at(format!("{path}[{index}]"), "fact-unknown-sign").with("word", word));
            }
        }
    }
    if problems.is_empty() { Ok(signs) } else { Err(problems) }
}

impl IntakeFact {
    /// The intake as the trade sees one.
    pub fn to_trade(&self) -> Result<history::Intake, Vec<Problem>> {
        Ok(history::Intake {
            date: self.date,
            shoulder_pain_12_months: self.shoulder_pain_12_months,
            dislocation_or_slipping: self.dislocation_or_slipping,
            operation: self.operation,
            signs: signs_from(&self.signs, "signs")?,
            signs_asked: self.signs_asked,
        })
    }
}

/// What came of one test, in files: a value or the reason for none.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FindingFact {
    /// Key in the range table.
    pub key: String,
    /// Side, for values that have one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<SideWord>,
    /// The value in the unit of its range.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// As a person wrote it, unit included.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_entered: Option<String>,
    /// Why there is no value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub without_value: Option<WithoutValue>,
    /// Single trials in the unit of the range, where there were several; the value is their mean.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub trials: Vec<f64>,
    /// Outside the plausible range, and a person said that it is meant.
    #[serde(default, skip_serializing_if = "is_no")]
    pub meant: bool,
}

fn is_no(answer: &bool) -> bool {
    !answer
}

/// Why a test has no value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WithoutValue {
    /// Not tested, with the reason.
    NotTested(String),
    /// The swimmer did not want to.
    Refused,
    /// Stopped because it hurt.
    Pain,
}

/// A screening, as measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScreeningFact {
    /// Day.
    pub date: Date,
    /// Tester.
    #[serde(default)]
    pub tester: String,
    /// Values.
    pub findings: Vec<FindingFact>,
    /// Shoulders behind which a hollow was seen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub visible_hollow: Vec<SideWord>,
    /// Somebody licensed looked behind both shoulders: only then does an empty list above mean that none was seen.
    #[serde(default, skip_serializing_if = "is_no")]
    pub looked_behind: bool,
    /// Station of a screening day, by its word.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<String>,
    /// Device and way of measuring, as the club names it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub device: Option<String>,
    /// Hours since the swimmer last swam.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours_since_swim: Option<f64>,
    /// Who did the tests that take a licence.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clinician: Option<super::licensed::ClinicianFact>,
}

impl ScreeningFact {
    /// A screening of which nothing but day and tester is known yet.
    pub fn of(date: Date, tester: &str) -> Self {
        Self {
            date,
            tester: tester.to_owned(),
            findings: Vec::new(),
            visible_hollow: Vec::new(),
            looked_behind: false,
            station: None,
            device: None,
            hours_since_swim: None,
            clinician: None,
        }
    }

    /// The screening as the trade sees one; every value is judged against the range table.
    pub fn to_trade(&self) -> Result<history::Screening, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut findings = Vec::new();
        for (index, finding) in self.findings.iter().enumerate() {
            match finding.to_trade() {
                Ok(finding) => findings.push(finding),
                Err(problem) => problems.push(problem.under(&format!("findings[{index}]"))),
            }
        }
        if let Some(clinician) = &self.clinician
            && let Err(more) = clinician.to_trade(self.date)
        {
            problems.extend(more);
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::Screening {
            date: self.date,
            tester: self.tester.clone(),
            findings,
            visible_hollow: self.visible_hollow.iter().map(|&side| side.into()).collect(),
        })
    }
}

impl FindingFact {
    fn to_trade(&self) -> Result<history::Finding, Problem> {
        let range = Range::of(&self.key)
            .ok_or_else(|| Problem::at("key", "fact-unknown-value").with("key", &self.key))?;
        let outcome = match (self.value, &self.without_value) {
            (Some(value), None) => {
                if range.judge(value) == Judgement::Refuse {
                    return Err(out_of_range("value", range, value));
                }
                Outcome::Measured(value)
            }
            (None, Some(WithoutValue::NotTested(reason))) => Outcome::NotTested(reason.clone()),
            (None, Some(WithoutValue::Refused)) => Outcome::Refused,
            (None, Some(WithoutValue::Pain)) => Outcome::NotDonePain,
            (Some(_), Some(_)) | (None, None) => return Err(Problem::at("", "fact-value-or-reason")),
        };
        Ok(history::Finding { key: range.key.to_owned(), side: self.side.map(Into::into), outcome })
    }
}

/// A value outside its hard range, with the range in the message.
pub fn out_of_range(path: &str, range: &Range, value: f64) -> Problem {
    Problem::at(path, "fact-out-of-range")
        .with("label", range.label)
        .with("value", value)
        .with("low", range.hard.0)
        .with("high", range.hard.1)
        .with("unit", range.unit)
}

/// Height, sitting height, mass: each the mean of two readings where two were taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthFact {
    /// Day.
    pub date: Date,
    /// Height in centimetres.
    pub height_cm: f64,
    /// Sitting height in centimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sitting_height_cm: Option<f64>,
    /// Body mass in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
}

impl GrowthFact {
    /// The measurement as the trade sees one.
    pub fn to_trade(&self) -> Result<history::GrowthMeasure, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut judge = |path: &str, key: &str, value: Option<f64>| {
            let range = Range::of(key).expect("body sizes stand in the range table");
            if let Some(value) = value
                && range.judge(value) == Judgement::Refuse
            {
                problems.push(out_of_range(path, range, value));
            }
        };
        judge("height_cm", "height", Some(self.height_cm / 100.0));
        judge("sitting_height_cm", "sitting_height", self.sitting_height_cm.map(|value| value / 100.0));
        judge("mass_kg", "body_mass", self.mass_kg);
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::GrowthMeasure {
            date: self.date,
            height: Length::from_centimetres(self.height_cm),
            sitting: self.sitting_height_cm.map(Length::from_centimetres),
            mass: self.mass_kg.map(Mass::from_kilograms),
        })
    }
}
