//! Who the swimmer is, what was agreed to, and what was asked and measured.

use jiff::civil::Date;
use quantity::{Length, Mass};

use super::body::Sign;
use crate::side::Side;

/// Sex, as the start table, the laxity cut and the growth equations need it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sex {
    /// Female.
    Female,
    /// Male.
    Male,
    /// Not stated: wherever it matters the more cautious reading is used.
    Unstated,
}

/// Training background, as the start table needs it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Experience {
    /// In the first season of dryland.
    Beginner,
    /// One season or more.
    Trained,
}

/// One swimmer.
#[derive(Debug, Clone, PartialEq)]
pub struct Swimmer {
    /// Date of birth.
    pub born: Date,
    /// Sex.
    pub sex: Sex,
    /// Training background.
    pub experience: Experience,
    /// First day of this programme; none before it began.
    pub programme_started: Option<Date>,
}

impl Swimmer {
    /// Age in completed years.
    pub fn age_on(&self, day: Date) -> i16 {
        let years = day.year() - self.born.year();
        let had_birthday = (day.month(), day.day()) >= (self.born.month(), self.born.day());
        if had_birthday { years } else { years - 1 }
    }

    /// Age in decimal years, for the growth equations.
    pub fn exact_age_on(&self, day: Date) -> f64 {
        f64::from(days_between(self.born, day)) / 365.25
    }
}

/// Whole days from one date to another; negative when the second is earlier.
pub fn days_between(from: Date, to: Date) -> i32 {
    (to - from).get_days()
}

/// One thing a person can agree to, apart from all others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ConsentItem {
    /// Screening by touch and measurement.
    Screening,
    /// The exercise programme.
    Exercise,
    /// Recording of health data.
    HealthRecord,
    /// What the coach may see beyond availability.
    CoachSees,
    /// Sharing with a doctor.
    Doctor,
    /// Photo and film.
    Photo,
    /// De-identified use for evaluation.
    Evaluation,
    /// Help by an assistant of either sex.
    Assistant,
    /// The child's own agreement.
    Assent,
}

impl ConsentItem {
    /// Every item.
    pub const ALL: [ConsentItem; 9] = [
        ConsentItem::Screening,
        ConsentItem::Exercise,
        ConsentItem::HealthRecord,
        ConsentItem::CoachSees,
        ConsentItem::Doctor,
        ConsentItem::Photo,
        ConsentItem::Evaluation,
        ConsentItem::Assistant,
        ConsentItem::Assent,
    ];

    /// The three without which nobody takes part.
    pub const NEEDED: [ConsentItem; 3] =
        [ConsentItem::Screening, ConsentItem::Exercise, ConsentItem::HealthRecord];

    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            ConsentItem::Screening => "screening",
            ConsentItem::Exercise => "exercise",
            ConsentItem::HealthRecord => "health-record",
            ConsentItem::CoachSees => "coach-sees",
            ConsentItem::Doctor => "doctor",
            ConsentItem::Photo => "photo",
            ConsentItem::Evaluation => "evaluation",
            ConsentItem::Assistant => "assistant",
            ConsentItem::Assent => "assent",
        }
    }
}

/// A consent as signed on one day; items are granted or refused apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Consent {
    /// Day it was signed.
    pub signed: Date,
    /// Items granted.
    pub granted: Vec<ConsentItem>,
    /// Who signed.
    pub signer: String,
    /// Relation to the swimmer: self, mother, guardian.
    pub relation: String,
    /// Version of the text that was signed.
    pub text_version: String,
    /// Day it was withdrawn; acts from that day on.
    pub withdrawn: Option<Date>,
}

/// Answers to the intake questions. A question that was not answered is none, never a no.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    /// Day the questions were answered.
    pub date: Date,
    /// Shoulder pain in the last 12 months.
    pub shoulder_pain_12_months: Option<bool>,
    /// A dislocation, or the feeling of slipping, ever.
    pub dislocation_or_slipping: Option<bool>,
    /// A shoulder operation, ever.
    pub operation: Option<bool>,
    /// Red-flag signs answered with yes.
    pub signs: Vec<Sign>,
    /// Whether the red-flag questions were all answered.
    pub signs_asked: bool,
}

/// What came of one test on one side.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A value in the unit of its range.
    Measured(f64),
    /// Not tested, with the reason.
    NotTested(String),
    /// The swimmer did not want to.
    Refused,
    /// Stopped because it hurt: also a pain report.
    NotDonePain,
}

/// One value of a screening.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Key of the value in the range table, for instance `er_force`.
    pub key: String,
    /// Side, for values that have one.
    pub side: Option<Side>,
    /// What came of it.
    pub outcome: Outcome,
}

/// One screening, as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Screening {
    /// Day.
    pub date: Date,
    /// Tester, as named by the club.
    pub tester: String,
    /// Values.
    pub findings: Vec<Finding>,
    /// Shoulders behind which a hollow was seen.
    pub visible_hollow: Vec<Side>,
}

impl Screening {
    /// The measured value of one key on one side.
    pub fn measured(&self, key: &str, side: Option<Side>) -> Option<f64> {
        self.findings.iter().find_map(|finding| match finding.outcome {
            Outcome::Measured(value) if finding.key == key && finding.side == side => Some(value),
            _ => None,
        })
    }
}

/// One body measurement; each value is already the mean of two readings where two were taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrowthMeasure {
    /// Day.
    pub date: Date,
    /// Height.
    pub height: Length,
    /// Sitting height.
    pub sitting: Option<Length>,
    /// Body mass.
    pub mass: Option<Mass>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn age_counts_completed_years() {
        let swimmer = Swimmer {
            born: date(2012, 2, 29),
            sex: Sex::Female,
            experience: Experience::Beginner,
            programme_started: None,
        };
        assert_eq!(swimmer.age_on(date(2026, 2, 28)), 13);
        assert_eq!(swimmer.age_on(date(2026, 3, 1)), 14);
        assert_eq!(days_between(date(2026, 2, 28), date(2026, 3, 1)), 1);
        assert_eq!(days_between(date(2025, 11, 3), date(2026, 11, 3)), 365);
    }
}
