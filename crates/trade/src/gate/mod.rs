//! The gate: whether a shoulder may take part on one day, and why not.
//!
//! Nothing here clears anybody. Rules hold; a hold ends by a recorded fact, and which kind of fact is part of
//! the hold. Safety is monotone: one more warning sign never makes an outcome milder.
//!
//! - `record`: what was known on the day asked about, and what a letter or a reopening covers.
//! - `papers`: consent, intake questions, screening present.
//! - `limits`: signed limits, bans, fever, referrals, return from injury without a letter.
//! - `moments`, `pain`, `repeats`, `ends`: pain as it was spoken, what it holds, what its return means, and
//!   what may end it.
//! - `signs`: warning signs by urgency.
//! - `findings`: what the screening showed.
//! - [`growth`]: growth velocity and maturity offset.
//! - `tracks`: youth, laxity, newcomer, way back after an injury.
//! - `water`: a jump in kilometres, worth a talk.

mod ends;
mod findings;
pub mod growth;
mod limits;
pub(crate) mod moments;
pub(crate) mod pain;
pub(crate) mod papers;
pub(crate) mod record;
mod repeats;
pub(crate) mod signs;
mod tracks;
pub(crate) mod water;

use std::cmp::Reverse;
use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::{HoldTime, Pain};

use crate::history::{Clinician, History, Urgency};
use crate::name::ExerciseId;
use crate::protocol::{Protocol, Tag};
use crate::side::Side;
use crate::trace::Line;

use record::Record;

/// Judges one person on one day.
///
/// The history must be [in order](History::in_order). Facts dated after the day asked about do not exist yet.
pub fn gate(protocol: &Protocol, history: &History, on: Date) -> Gate {
    judged(&Record::known(protocol, history, on))
}

/// The same, where the caller has already read the record.
pub(crate) fn judged(record: &Record<'_>) -> Gate {
    let mut gate = Gate::open(record.on);
    papers::judge(record, &mut gate);
    limits::judge(record, &mut gate);
    let moments = moments::of(record);
    pain::judge(record, &moments, &mut gate);
    repeats::judge(record, &moments, &mut gate);
    signs::judge(record, &mut gate);
    findings::judge(record, &mut gate);
    tracks::judge(record, &moments, &mut gate);
    water::judge(record, &mut gate);
    ends::propose(record, &moments, &mut gate);
    gate.put_worst_first();
    gate
}

/// What a shoulder, or a person, may do. Ordered from the most to the least allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Availability {
    /// Takes part in everything.
    Full,
    /// Takes part within limits that are written down.
    Limited,
    /// Papers or screening are missing.
    NotYet,
    /// Out of shoulder dryland; a rule may propose the end, a person confirms it.
    OutToday,
    /// Out, referred; only a licensed clinician ends it.
    OutReferred,
}

impl Availability {
    /// True when no loaded shoulder exercise may be given.
    pub fn blocks(self) -> bool {
        Availability::NotYet <= self
    }

    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Availability::Full => "full",
            Availability::Limited => "limited",
            Availability::NotYet => "not-yet",
            Availability::OutToday => "out-today",
            Availability::OutReferred => "out-referred",
        }
    }
}

/// Which fact ends a hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EndsBy {
    /// The missing paper, answer or measurement itself.
    Record,
    /// A date that passes.
    Date,
    /// A practitioner's confirmation, which a rule may propose.
    Practitioner,
    /// A licensed clinician's letter, and nothing else.
    Clinician,
}

/// One reason why something is held back.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// How far it holds back.
    pub availability: Availability,
    /// Which shoulder; none for the whole person.
    pub side: Option<Side>,
    /// Rule, values and who may read them.
    pub line: Line,
    /// Since when.
    pub since: Date,
    /// When to look again.
    pub review: Option<Date>,
    /// What ends it.
    pub ends_by: EndsBy,
    /// How soon somebody licensed must look, where that is the matter.
    pub urgency: Option<Urgency>,
}

/// A signed limit in force on the day.
#[derive(Debug, Clone, PartialEq)]
pub struct ActiveLimit {
    /// Shoulder; none for both.
    pub side: Option<Side>,
    /// Last day.
    pub until: Date,
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
    /// One-sided pain that the limit covers.
    pub allows_pain_up_to: Option<Pain>,
}

/// What is stopped on the day itself.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StopToday {
    /// These exercises only.
    pub exercises: BTreeSet<ExerciseId>,
    /// Every shoulder exercise.
    pub all_shoulder: bool,
    /// The whole session.
    pub session: bool,
}

/// A pain event: a set that ended for pain, one-sided or joint pain during a set, or 3 and more at any time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PainEvent {
    /// Day it began.
    pub date: Date,
    /// Shoulders it was spoken for.
    pub sides: BTreeSet<Side>,
    /// Highest number spoken, where one was.
    pub worst: Option<Pain>,
}

/// Growth hold in force.
#[derive(Debug, Clone, PartialEq)]
pub struct GrowthHold {
    /// Day it began.
    pub since: Date,
    /// Week of the hold on the day asked about, counted from one.
    pub week: u16,
    /// No pain event since it began.
    pub pain_free: bool,
    /// Why it began.
    pub line: Line,
}

/// Way back after an injury.
#[derive(Debug, Clone, PartialEq)]
pub struct Reentry {
    /// Day of the clearance.
    pub since: Date,
    /// Week of the way back on the day asked about, counted from one.
    pub week: u16,
    /// Shoulder; none for both.
    pub side: Option<Side>,
    /// Only the clinician's plan counts (dislocation, operation): the tool writes no dose.
    pub by_clinicians_plan: bool,
    /// Return conditions that are not recorded or not met.
    pub open_conditions: Vec<Line>,
}

/// Tracks that change dose and count. Several can hold at once; each only ever makes the dose more careful.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tracks {
    /// Under 14.
    pub youth: Option<Line>,
    /// Laxity at or over the cut.
    pub hypermobile: Option<Line>,
    /// Growth hold.
    pub growth: Option<GrowthHold>,
    /// Way back after an injury.
    pub reentry: Option<Reentry>,
    /// In the first weeks of the programme.
    pub newcomer: Option<Line>,
}

/// The answer of the gate for one person on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Gate {
    /// Day asked about.
    pub on: Date,
    /// Everything that holds back, worst first.
    pub holds: Vec<Hold>,
    /// Signed limits in force.
    pub limits: Vec<ActiveLimit>,
    /// Tracks.
    pub tracks: Tracks,
    /// Stopped on the day.
    pub stop_today: StopToday,
    /// Pain events, oldest first.
    pub pain_events: Vec<PainEvent>,
    /// No steps up before this day, with the reason.
    pub no_up_before: Option<(Date, Line)>,
    /// Today's three questions are answered; without them nobody starts.
    pub questions_answered: bool,
    /// Findings and prompts that change no availability: what to ask and whom to tell.
    pub notes: Vec<Line>,
    /// "Two pain-free days": a rule proposes to end these holds; a person confirms.
    pub proposed_ends: Vec<(Option<Side>, Line)>,
    /// Exercises left out of the programme by a finding, with the reason.
    pub left_out: Vec<(ExerciseId, Line)>,
    /// Exercises offered because a finding asks for them (mobility).
    pub with_finding: BTreeSet<ExerciseId>,
    /// The weaker arm in external rotation by the last screening, where it is beyond the error of the test.
    pub weaker_arm: Option<Side>,
}

impl Gate {
    /// A gate that holds nothing back yet.
    fn open(on: Date) -> Self {
        Self {
            on,
            holds: Vec::new(),
            limits: Vec::new(),
            tracks: Tracks::default(),
            stop_today: StopToday::default(),
            pain_events: Vec::new(),
            no_up_before: None,
            questions_answered: false,
            notes: Vec::new(),
            proposed_ends: Vec::new(),
            left_out: Vec::new(),
            with_finding: BTreeSet::new(),
            weaker_arm: None,
        }
    }

    /// Worst first; ties by content, so that the order in which rules ran cannot matter.
    fn put_worst_first(&mut self) {
        self.holds.sort_by_cached_key(|hold| {
            (
                Reverse(hold.availability),
                Reverse(hold.urgency),
                hold.since,
                hold.side,
                format!("{:?}", hold.line),
            )
        });
    }

    /// Availability of the person: what holds the whole person back.
    pub fn person(&self) -> Availability {
        self.worst(|hold| hold.side.is_none())
    }

    /// Availability of one shoulder, the person's holds included.
    pub fn shoulder(&self, side: Side) -> Availability {
        let by_holds = self.worst(|hold| hold.side.is_none_or(|held| held == side));
        let limited = self.limits.iter().any(|limit| limit.side.is_none_or(|held| held == side));
        if limited { by_holds.max(Availability::Limited) } else { by_holds }
    }

    fn worst(&self, concerns: impl Fn(&Hold) -> bool) -> Availability {
        self.holds
            .iter()
            .filter(|hold| concerns(hold))
            .map(|hold| hold.availability)
            .max()
            .unwrap_or(Availability::Full)
    }
}
