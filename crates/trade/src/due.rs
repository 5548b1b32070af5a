//! What must be closed by a recorded fact, with an owner and a date.
//!
//! Nothing here is ticked off: an entry goes when the fact it asks for is on record, and only then.
//!
//! - `pain`: follow-ups, guardian, referral letters and answers, ends to confirm, water, talks.
//! - `weekly`: contact after a substantial problem in the weekly check.
//! - `upkeep`: papers, limits, growth and re-tests that run out or are missing.

mod pain;
mod upkeep;
mod weekly;

use jiff::civil::Date;

use crate::gate::judged;
use crate::gate::record::Record;
use crate::history::History;
use crate::protocol::Protocol;
use crate::side::Side;
use crate::trace::Line;

/// Everything that is open for one person on one day, earliest first.
///
/// The history must be [in order](History::in_order); the next practice decides by when the water must be settled.
pub fn due(protocol: &Protocol, history: &History, on: Date, next_practice: Option<Date>) -> Vec<Due> {
    let record = Record::known(protocol, history, on);
    let gate = judged(&record);
    let mut open = Vec::new();
    pain::list(&record, &gate, next_practice, &mut open);
    upkeep::list(&record, &gate, &mut open);
    weekly::list(history, on, &mut open);
    open.sort_by_cached_key(|due| (due.by, due.kind, due.side, format!("{:?}", due.line)));
    open
}

/// Who has to close it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Owner {
    /// The practitioner.
    Practitioner,
    /// A licensed clinician.
    Clinician,
    /// Whoever runs the session.
    Supervisor,
    /// The club's administrator.
    Administrator,
}

/// What kind of fact closes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Ask the morning after a pain event.
    NextMorning,
    /// Ask seven days after a pain event.
    SevenDays,
    /// Tell a minor's guardian today.
    TellGuardian,
    /// Write the referral.
    WriteReferral,
    /// A referral has no answer yet.
    ReferralAnswer,
    /// Confirm or refuse the end of "out today".
    ConfirmEnd,
    /// Decide about the water before the next practice.
    Water,
    /// A signed limit runs out.
    LimitEnds,
    /// A consent runs out, or has.
    Consent,
    /// Intake questions are missing.
    Intake,
    /// Screening is missing.
    Screening,
    /// Measure growth.
    Growth,
    /// Re-test.
    Retest,
    /// Talk with the swimmer: something to ask, nothing decided.
    Talk,
    /// Inspect a piece of kit.
    KitInspection,
}

impl Kind {
    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::NextMorning => "next-morning",
            Kind::SevenDays => "seven-days",
            Kind::TellGuardian => "tell-guardian",
            Kind::WriteReferral => "write-referral",
            Kind::ReferralAnswer => "referral-answer",
            Kind::ConfirmEnd => "confirm-end",
            Kind::Water => "water",
            Kind::LimitEnds => "limit-ends",
            Kind::Consent => "consent",
            Kind::Intake => "intake",
            Kind::Screening => "screening",
            Kind::Growth => "growth",
            Kind::Retest => "retest",
            Kind::Talk => "talk",
            Kind::KitInspection => "kit-inspection",
        }
    }
}

/// One thing to close.
#[derive(Debug, Clone, PartialEq)]
pub struct Due {
    /// What kind of fact closes it.
    pub kind: Kind,
    /// Who has to close it.
    pub owner: Owner,
    /// By when.
    pub by: Date,
    /// Which shoulder, where it is one.
    pub side: Option<Side>,
    /// What it is, with its rule and values.
    pub line: Line,
}
