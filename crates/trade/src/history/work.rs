//! What was taught, done and confirmed, and the calendar around it.

use jiff::civil::Date;
use quantity::HoldTime;

use crate::name::{ExerciseId, FaultCode, RungId};
use crate::side::WorkingSide;

/// An exercise was taught, untimed.
#[derive(Debug, Clone, PartialEq)]
pub struct Taught {
    /// Day.
    pub date: Date,
    /// Exercise.
    pub exercise: ExerciseId,
}

/// An exercise was signed off: 20 s without a correction at tempo.
#[derive(Debug, Clone, PartialEq)]
pub struct SignOff {
    /// Day.
    pub date: Date,
    /// Exercise.
    pub exercise: ExerciseId,
    /// Who signed.
    pub by: String,
}

/// Why a set ended. The reason decides, not the seconds.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// Still live at the cap in force.
    Cap,
    /// A named fault that one cue did not mend.
    Form(FaultCode),
    /// The swimmer chose to stop.
    ChoseToStop,
    /// Pain: goes to the pain rule.
    Pain,
    /// Band, anchor or ball.
    Kit,
    /// Called away, alarm.
    Left,
}

/// Whether somebody looked near the end of a set that reached the cap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Watched {
    /// Somebody looked.
    Seen,
    /// Nobody did, or it is not known: a cap proves nothing.
    Unseen,
}

/// What measured the time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Clock {
    /// A device's monotonic clock.
    Device,
    /// A hand-held clock; the protocol's tolerance applies to it alone.
    Hand,
}

/// Where in the day, and where, the session stood. Only like is compared with like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Context {
    /// After water practice.
    AfterPractice,
    /// Rested.
    Rested,
    /// At home.
    Home,
}

impl Context {
    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Context::AfterPractice => "after-practice",
            Context::Rested => "rested",
            Context::Home => "home",
        }
    }
}

/// One set.
#[derive(Debug, Clone, PartialEq)]
pub struct Set {
    /// Which set of the block, counted from one.
    pub number: u8,
    /// How long form held.
    pub time: HoldTime,
    /// Cap in force, which may be shorter than the protocol's.
    pub cap: HoldTime,
    /// Real rest before it; none before the first.
    pub rest_before: Option<HoldTime>,
    /// Why it ended.
    pub end: End,
    /// Whether somebody looked.
    pub watched: Watched,
    /// What measured it.
    pub clock: Clock,
    /// A fault that was cued and still there when the cap came.
    pub fault_left: Option<FaultCode>,
}

/// The sets of one exercise on one side in one session.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Exercise.
    pub exercise: ExerciseId,
    /// Side.
    pub side: WorkingSide,
    /// Rung that was prescribed.
    pub planned: RungId,
    /// Rung that was really used.
    pub used: RungId,
    /// Sets that were prescribed.
    pub prescribed_sets: u8,
    /// Sets done.
    pub sets: Vec<Set>,
}

impl Block {
    /// Sum of all set times.
    pub fn total(&self) -> HoldTime {
        self.sets.iter().map(|set| set.time).sum()
    }
}

/// Why a session does not count towards progression.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Excluded {
    /// Done right before the water on a named override, with the reason written down.
    BeforeWaterOverride(String),
}

/// One dryland session of one swimmer.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// Civil day in the club's zone.
    pub date: Date,
    /// Which session of the day, counted from one.
    pub number: u8,
    /// Context.
    pub context: Context,
    /// Set when the session does not count.
    pub excluded: Option<Excluded>,
    /// Exercises done.
    pub blocks: Vec<Block>,
}

/// Why a swimmer stands on a rung.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Move {
    /// Where the calibration set began or ended.
    Start,
    /// A step up.
    Up,
    /// A step down.
    Down,
    /// Harder or other, not heavier.
    Switch,
    /// After an absence.
    Restart,
    /// Set by a person against the proposal.
    Override,
}

/// A rung that a person confirmed for one exercise and side.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// First day it holds.
    pub date: Date,
    /// Exercise.
    pub exercise: ExerciseId,
    /// Side.
    pub side: WorkingSide,
    /// Rung.
    pub rung: RungId,
    /// Why.
    pub because: Move,
}

/// Kilometres swum in one week.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterWeek {
    /// Monday of the week.
    pub from: Date,
    /// Kilometres.
    pub km: f64,
    /// Practices.
    pub sessions: Option<u16>,
    /// Minutes in the water.
    pub minutes: Option<f64>,
    /// Usual effort of its practices, 0 to 10.
    pub effort: Option<f64>,
}

impl WaterWeek {
    /// A week of which only the kilometres are known.
    pub const fn of(from: Date, km: f64) -> Self {
        Self { from, km, sessions: None, minutes: None, effort: None }
    }
}

/// What a planned stretch of the calendar is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Planned lighter week.
    Deload,
    /// Training camp.
    Camp,
    /// Reduction before a main meet.
    Taper,
}

/// A planned stretch.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Period {
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// What it is.
    pub phase: Phase,
}

/// How much a meet counts for this swimmer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// Main meet.
    A,
    /// Counts.
    B,
    /// Trained through.
    C,
}

/// A meet.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Meet {
    /// First day.
    pub date: Date,
    /// How much it counts.
    pub grade: Grade,
}

/// The calendar around one swimmer.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Calendar {
    /// First Monday of loaded work, from which deload weeks are counted; none: only stated periods apply.
    pub season_start: Option<Date>,
    /// Planned stretches.
    pub periods: Vec<Period>,
    /// Meets.
    pub meets: Vec<Meet>,
}

impl Calendar {
    /// Sorts, so that order of entry cannot matter.
    pub fn in_order(&mut self) {
        self.periods.sort();
        self.meets.sort();
    }
}
