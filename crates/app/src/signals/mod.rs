//! Whom to ask this week, and why: charts of each shoulder's own line, zeros with falling times, one-arm avoidance, and
//! the load in plain numbers.
//!
//! A signal is a reason to ask, never a verdict: it closes nothing and opens nothing. How many would speak by chance
//! alone is said beside them.
//!
//! - [`lines`]: self-starting charts. [`patterns`]: rules that a chart cannot see.
//! - [`load`]: kilometres week by week. [`words`]: the sentences.

pub mod lines;
pub mod load;
pub mod patterns;
pub mod words;

use jiff::civil::Date;
use stats::chart::squad::FalseAlarms;
use store::SubjectId;
use trade::name::ExerciseId;
use trade::side::WorkingSide;

use crate::desk::Desk;

/// What speaks.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// Set times of one line on one rung have fallen.
    TimesFell {
        /// Exercise.
        exercise: ExerciseId,
        /// Side.
        side: WorkingSide,
        /// Sessions on that rung.
        sessions: usize,
        /// Mean seconds up to the change.
        before: f64,
        /// Mean seconds since.
        since: f64,
        /// Day of the first session after the change.
        from: Date,
    },
    /// Kilometres a week have left their own level.
    WaterMoved {
        /// Weeks on record.
        weeks: usize,
        /// Mean kilometres up to the change.
        before: f64,
        /// Mean kilometres since.
        since: f64,
        /// First week after the change.
        from: Date,
    },
    /// Every answer was zero, and times have fallen.
    ZerosWithFallingTimes {
        /// Exercise.
        exercise: ExerciseId,
        /// Side.
        side: WorkingSide,
        /// Answers in a row that were zero.
        zeros: usize,
        /// Mean seconds of the three sessions before.
        before: f64,
        /// Mean seconds of the last three.
        since: f64,
    },
    /// One arm was left out, time after time.
    OneArmLeftOut {
        /// Exercise.
        exercise: ExerciseId,
        /// The side that was done.
        done: WorkingSide,
        /// Sessions of the last four in which the other was not.
        times: usize,
    },
}

impl What {
    /// How strongly it asks, for ranking: a pattern of silence first, then shoulders, then the water.
    fn weight(&self) -> u8 {
        match self {
            What::ZerosWithFallingTimes { .. } => 0,
            What::OneArmLeftOut { .. } => 1,
            What::TimesFell { .. } => 2,
            What::WaterMoved { .. } => 3,
        }
    }
}

/// One reason to ask one swimmer.
#[derive(Debug, Clone, PartialEq)]
pub struct Signal {
    /// Whom.
    pub subject: SubjectId,
    /// Why.
    pub what: What,
}

/// All reasons to ask, the strongest first, and how many would be there by chance.
#[derive(Debug, Clone, PartialEq)]
pub struct Signals {
    /// Reasons.
    pub signals: Vec<Signal>,
    /// Charts kept, and their false alarms in a season; nothing where no chart is kept.
    pub by_chance: Option<FalseAlarms>,
    /// Charts with too few readings to say anything.
    pub learning: usize,
}

/// Readings of a season, for the rate of false alarms: two sessions a week for forty weeks would be eighty on one rung,
/// which nobody stays on; half of it is already long.
pub const SEASON_READINGS: usize = 40;

/// Whom to ask on a day.
pub fn signals(desk: &Desk, on: Date) -> Signals {
    let mut out = Signals { signals: Vec::new(), by_chance: None, learning: 0 };
    let mut charts = 0;
    for person in desk.squad_on(on) {
        let found = lines::of(person, on);
        charts += found.charts;
        out.learning += found.learning;
        let reasons = found.speaking.into_iter().chain(patterns::of(person, on));
        out.signals.extend(reasons.map(|what| Signal { subject: person.subject, what }));
    }
    out.signals.sort_by_key(|signal| signal.what.weight());
    let rules = stats::chart::self_start::Rules::swimmer();
    if 0 < charts {
        out.by_chance = FalseAlarms::of(charts, SEASON_READINGS, rules.k, rules.h).ok();
    }
    out
}
