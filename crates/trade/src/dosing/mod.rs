//! Dosing: what the next session should be for one swimmer, exercise by exercise and side by side, and why.

pub mod absence;
pub mod arms;
pub mod bounds;
pub mod case;
pub mod gap;
pub mod judge;
pub mod offer;
pub mod own;
pub mod pattern;
pub mod plan;
pub mod progress;
pub mod season;
pub mod stage;
pub mod standing;
pub mod start;
pub mod step;

pub use plan::plan;

use jiff::civil::Date;
use quantity::HoldTime;

use crate::name::{ExerciseId, RungId};
use crate::protocol::Tempo;
use crate::side::WorkingSide;
use crate::trace::Line;

/// What is proposed for one exercise and side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Action {
    /// One rung up.
    Up,
    /// Same rung; the rule asks for more first.
    Stay,
    /// Same rung although a step up is earned, half earned or not allowed now.
    Hold,
    /// One rung down.
    Down,
    /// Harder or other, not heavier.
    Switch,
    /// After an absence or an injury: its own rung, sets and cap.
    Restart,
    /// Taught, untimed, until signed off.
    Teach,
    /// First timed set: a calibration set on the rung where the start table begins.
    Calibrate,
    /// Left out of the plan for now (a finding, the track or the calendar says so).
    LeaveOut,
    /// Stopped today.
    Stop,
    /// Not given: the shoulder may not take part.
    Out,
    /// A person decides; the rules cannot tell.
    Ask,
}

impl Action {
    /// Every action.
    pub const ALL: [Action; 12] = [
        Action::Up,
        Action::Stay,
        Action::Hold,
        Action::Down,
        Action::Switch,
        Action::Restart,
        Action::Teach,
        Action::Calibrate,
        Action::LeaveOut,
        Action::Stop,
        Action::Out,
        Action::Ask,
    ];

    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Action::Up => "up",
            Action::Stay => "stay",
            Action::Hold => "hold",
            Action::Down => "down",
            Action::Switch => "switch",
            Action::Restart => "restart",
            Action::Teach => "teach",
            Action::Calibrate => "calibrate",
            Action::LeaveOut => "leave-out",
            Action::Stop => "stop",
            Action::Out => "out",
            Action::Ask => "ask",
        }
    }
}

/// What is to be done in the next session.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// Rung; none for plain exercises.
    pub rung: Option<RungId>,
    /// Sets.
    pub sets: u8,
    /// Longest a set may last.
    pub cap: HoldTime,
    /// Rest between sets.
    pub rest: HoldTime,
    /// Tempo.
    pub tempo: Tempo,
    /// Timed to form loss; false while an exercise is being taught or is plain.
    pub timed: bool,
}

/// How far a swimmer is towards a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Count {
    /// Qualifying sessions on record at this rung.
    pub have: u8,
    /// Qualifying sessions needed.
    pub need: u8,
}

/// One proposal. It becomes a decision when a person confirms it.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Exercise.
    pub exercise: ExerciseId,
    /// Side.
    pub side: WorkingSide,
    /// What is proposed.
    pub action: Action,
    /// Rung now.
    pub from: Option<RungId>,
    /// What to do next session; none when nothing is given.
    pub dose: Option<Dose>,
    /// Towards a step.
    pub count: Count,
    /// Why, most important line first. Never empty.
    pub trace: Vec<Line>,
    /// Why a person must confirm this one by itself; empty when it may be accepted with others.
    pub alone: Vec<Line>,
}

/// Everything proposed for one swimmer for one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Day it is for.
    pub on: Date,
    /// One a line of sets, in protocol order.
    pub proposals: Vec<Proposal>,
}
