//! What hurts, what was seen, and what a licensed person wrote about it.

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::{HoldTime, Pain};

use crate::name::ExerciseId;
use crate::protocol::Tag;
use crate::side::Side;

/// When a pain number was spoken.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PainWhen {
    /// Before a session.
    Before,
    /// During a set of this exercise, or of an exercise not named.
    During(Option<ExerciseId>),
    /// After a session.
    After,
    /// The next morning, asked as a follow-up.
    NextMorning,
    /// A later follow-up of a known event.
    FollowUp,
    /// Any other time: a message, a talk, a screening.
    Other,
}

impl PainWhen {
    /// Order within a day: morning, before, during, after, anything else.
    pub const fn order(&self) -> u8 {
        match self {
            PainWhen::NextMorning => 0,
            PainWhen::Before => 1,
            PainWhen::During(_) => 2,
            PainWhen::After => 3,
            PainWhen::FollowUp => 4,
            PainWhen::Other => 5,
        }
    }
}

/// What kind of pain was meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PainKind {
    /// Muscle ache on both sides after a session in the last 48 hours.
    Ache,
    /// In the joint, or on one side.
    JointOrOneSided,
    /// Not said: read as joint or one-sided, the more cautious of the two.
    Unstated,
}

/// How soon somebody licensed must look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Urgency {
    /// A talk with the practitioner.
    Talk,
    /// Seen within a week.
    WithinAWeek,
    /// Seen the same day, at the latest the next morning.
    SameDay,
    /// Emergency number now.
    Emergency,
}

/// A sign that was reported or seen. The tool only logs, shows and locks; it names no cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each sign is worded once, in the text catalogue under its own word")]
pub enum Sign {
    ArmSwollenBlueOrCold,
    VisibleDeformity,
    ShoulderStillOut,
    LossOfFeelingAfterFall,
    NeckInjury,
    ChestPain,
    Breathless,
    Fainting,
    HotJointWithFever,
    FallWithCrack,
    CannotLiftArm,
    CameOutAndBack,
    SuddenWeakness,
    UnwellNightSweats,
    NightPain,
    RestPain,
    Tingling,
    PainlessWeakness,
    VisibleHollow,
    Slipping,
    OuterArmBonePain,
    Swelling,
    ChangedStroke,
    LostRange,
    AcheOver72Hours,
    Clumsiness,
    TendonSitePain,
    PoorSleep,
    Worry,
    UnderEating,
}

impl Sign {
    /// Every sign.
    pub const ALL: [Sign; 30] = [
        Sign::ArmSwollenBlueOrCold,
        Sign::VisibleDeformity,
        Sign::ShoulderStillOut,
        Sign::LossOfFeelingAfterFall,
        Sign::NeckInjury,
        Sign::ChestPain,
        Sign::Breathless,
        Sign::Fainting,
        Sign::HotJointWithFever,
        Sign::FallWithCrack,
        Sign::CannotLiftArm,
        Sign::CameOutAndBack,
        Sign::SuddenWeakness,
        Sign::UnwellNightSweats,
        Sign::NightPain,
        Sign::RestPain,
        Sign::Tingling,
        Sign::PainlessWeakness,
        Sign::VisibleHollow,
        Sign::Slipping,
        Sign::OuterArmBonePain,
        Sign::Swelling,
        Sign::ChangedStroke,
        Sign::LostRange,
        Sign::AcheOver72Hours,
        Sign::Clumsiness,
        Sign::TendonSitePain,
        Sign::PoorSleep,
        Sign::Worry,
        Sign::UnderEating,
    ];

    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Sign::ArmSwollenBlueOrCold => "arm-swollen-blue-or-cold",
            Sign::VisibleDeformity => "visible-deformity",
            Sign::ShoulderStillOut => "shoulder-still-out",
            Sign::LossOfFeelingAfterFall => "loss-of-feeling-after-fall",
            Sign::NeckInjury => "neck-injury",
            Sign::ChestPain => "chest-pain",
            Sign::Breathless => "breathless",
            Sign::Fainting => "fainting",
            Sign::HotJointWithFever => "hot-joint-with-fever",
            Sign::FallWithCrack => "fall-with-crack",
            Sign::CannotLiftArm => "cannot-lift-arm",
            Sign::CameOutAndBack => "came-out-and-back",
            Sign::SuddenWeakness => "sudden-weakness",
            Sign::UnwellNightSweats => "unwell-night-sweats",
            Sign::NightPain => "night-pain",
            Sign::RestPain => "rest-pain",
            Sign::Tingling => "tingling",
            Sign::PainlessWeakness => "painless-weakness",
            Sign::VisibleHollow => "visible-hollow",
            Sign::Slipping => "slipping",
            Sign::OuterArmBonePain => "outer-arm-bone-pain",
            Sign::Swelling => "swelling",
            Sign::ChangedStroke => "changed-stroke",
            Sign::LostRange => "lost-range",
            Sign::AcheOver72Hours => "ache-over-72-hours",
            Sign::Clumsiness => "clumsiness",
            Sign::TendonSitePain => "tendon-site-pain",
            Sign::PoorSleep => "poor-sleep",
            Sign::Worry => "worry",
            Sign::UnderEating => "under-eating",
        }
    }

    /// Reads the word used in files and records.
    pub fn from_word(word: &str) -> Option<Sign> {
        Sign::ALL.into_iter().find(|sign| sign.word() == word)
    }

    /// How soon somebody licensed must look; common practice, after the red-flag lists of shoulder care.
    pub const fn urgency(self) -> Urgency {
        match self {
            Sign::ArmSwollenBlueOrCold
            | Sign::VisibleDeformity
            | Sign::ShoulderStillOut
            | Sign::LossOfFeelingAfterFall
            | Sign::NeckInjury
            | Sign::ChestPain
            | Sign::Breathless
            | Sign::Fainting
            | Sign::HotJointWithFever => Urgency::Emergency,
            Sign::FallWithCrack
            | Sign::CannotLiftArm
            | Sign::CameOutAndBack
            | Sign::SuddenWeakness
            | Sign::UnwellNightSweats => Urgency::SameDay,
            Sign::NightPain
            | Sign::RestPain
            | Sign::Tingling
            | Sign::PainlessWeakness
            | Sign::VisibleHollow
            | Sign::Slipping
            | Sign::OuterArmBonePain
            | Sign::Swelling
            | Sign::ChangedStroke
            | Sign::LostRange => Urgency::WithinAWeek,
            Sign::AcheOver72Hours
            | Sign::Clumsiness
            | Sign::TendonSitePain
            | Sign::PoorSleep
            | Sign::Worry
            | Sign::UnderEating => Urgency::Talk,
        }
    }

    /// Signs that hold the whole person, not one shoulder.
    pub const fn is_of_the_whole_person(self) -> bool {
        matches!(
            self,
            Sign::NeckInjury
                | Sign::ChestPain
                | Sign::Breathless
                | Sign::Fainting
                | Sign::HotJointWithFever
                | Sign::UnwellNightSweats
                | Sign::LossOfFeelingAfterFall
        )
    }
}

/// One pain or sign report. A side that was not answered is none, never a zero.
#[derive(Debug, Clone, PartialEq)]
pub struct PainReport {
    /// Civil day.
    pub date: Date,
    /// When in the day's order.
    pub when: PainWhen,
    /// Left shoulder, if answered.
    pub left: Option<Pain>,
    /// Right shoulder, if answered.
    pub right: Option<Pain>,
    /// Kind of pain.
    pub kind: PainKind,
    /// Signs reported or seen with it.
    pub signs: BTreeSet<Sign>,
    /// Which shoulder the signs belong to, if one; signs without a side hold both.
    pub sign_side: Option<Side>,
}

impl PainReport {
    /// The worse of the two shoulders, of those answered.
    pub fn worst(&self) -> Option<Pain> {
        self.left.max(self.right)
    }

    /// The number spoken for one shoulder.
    pub fn of(&self, side: Side) -> Option<Pain> {
        match side {
            Side::Left => self.left,
            Side::Right => self.right,
        }
    }

    /// Both shoulders were answered.
    pub fn is_complete(&self) -> bool {
        self.left.is_some() && self.right.is_some()
    }
}

/// An illness that kept the swimmer away or warm.
#[derive(Debug, Clone, PartialEq)]
pub struct Illness {
    /// First day.
    pub from: Date,
    /// With fever.
    pub fever: bool,
    /// Days in bed, if known.
    pub bed_days: Option<u16>,
    /// First day without symptoms, if it has come.
    pub symptom_free_from: Option<Date>,
}

/// Why a swimmer was away, as far as anybody said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AbsenceReason {
    /// Healthy: holiday, exams, travel.
    Healthy,
    /// Ill.
    Illness,
    /// Injured.
    Injury,
}

/// A stretch of being away from dryland.
#[derive(Debug, Clone, PartialEq)]
pub struct Absence {
    /// First day away.
    pub from: Date,
    /// Last day away, if it has ended.
    pub to: Option<Date>,
    /// Why.
    pub reason: AbsenceReason,
    /// Whether the swimmer kept swimming; none when nobody said.
    pub kept_swimming: Option<bool>,
}

/// A "do not train" that came from outside.
#[derive(Debug, Clone, PartialEq)]
pub struct Ban {
    /// First day.
    pub from: Date,
    /// Last day; without one it stands until a person lifts it.
    pub until: Option<Date>,
    /// Who said so.
    pub by: String,
}

/// A shoulder, or the person, handed to somebody licensed.
#[derive(Debug, Clone, PartialEq)]
pub struct Referral {
    /// Day.
    pub opened: Date,
    /// Which shoulder; none for the whole person.
    pub side: Option<Side>,
    /// How soon.
    pub urgency: Urgency,
    /// Day the answer came, if it has.
    pub answered: Option<Date>,
}

/// A licensed clinician. Being licensed is a dated attribute of a person, not a role.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clinician {
    /// Name.
    pub name: String,
    /// Licence number.
    pub licence: String,
    /// Last day the licence is valid.
    pub licence_until: Date,
}

impl Clinician {
    /// Named, numbered, and licensed on the day asked about.
    pub fn is_licensed_on(&self, day: Date) -> bool {
        !self.name.trim().is_empty() && !self.licence.trim().is_empty() && day <= self.licence_until
    }
}

/// What had been injured, as far as it changes who may write the way back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum InjuryKind {
    /// A dislocation.
    Dislocation,
    /// An operation.
    Operation,
    /// Anything else.
    Other,
}

/// What a return from injury asks for beside the letter. Not recorded is none, never a yes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ReturnConditions {
    /// No pain in daily life.
    pub daily_life_pain_free: Option<bool>,
    /// Range is within this many degrees of the other side.
    pub range_gap_deg: Option<f64>,
    /// External rotation strength as a share of the other side.
    pub strength_share: Option<f64>,
    /// Weeks at half of the usual water without pain.
    pub half_water_weeks: Option<f64>,
}

/// A written clearance. Only one from a licensed clinician ends "out, referred".
#[derive(Debug, Clone, PartialEq)]
pub struct Clearance {
    /// Day of the letter.
    pub date: Date,
    /// Shoulder cleared; none for the whole person.
    pub side: Option<Side>,
    /// Who signed.
    pub clinician: Clinician,
    /// What had been injured; none when there was no injury, only a question.
    pub injury: Option<InjuryKind>,
    /// Return conditions as far as recorded.
    pub conditions: ReturnConditions,
}

/// Limits that a licensed clinician has written and signed.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Day signed.
    pub signed: Date,
    /// Last day; a limit always has one.
    pub until: Date,
    /// Shoulder; none for both.
    pub side: Option<Side>,
    /// Who signed.
    pub clinician: Clinician,
    /// Tags that are locked.
    pub locked_tags: BTreeSet<Tag>,
    /// Exercises that are locked.
    pub locked_exercises: BTreeSet<ExerciseId>,
    /// Most sets.
    pub sets: Option<u8>,
    /// Longest set.
    pub cap: Option<HoldTime>,
    /// One-sided pain up to this number does not put the shoulder out while the limit stands.
    pub allows_pain_up_to: Option<Pain>,
    /// What the clinician wrote, for those who may read it.
    pub note: String,
}

/// A person, not a rule, ended "out today".
#[derive(Debug, Clone, PartialEq)]
pub struct Reopening {
    /// Day from which it holds.
    pub date: Date,
    /// Shoulder; none for both.
    pub side: Option<Side>,
    /// Who confirmed.
    pub by: String,
}

/// What a person decided about the water.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterAdvice {
    /// Day.
    pub date: Date,
    /// In plain words for the coach.
    pub advice: String,
    /// Who decided.
    pub by: String,
}

/// A guardian was told.
#[derive(Debug, Clone, PartialEq)]
pub struct GuardianTold {
    /// Day.
    pub date: Date,
    /// Who told.
    pub by: String,
}
