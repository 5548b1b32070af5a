//! Taught, sign-off, session, set, decision, water week.

use jiff::civil::Date;
use quantity::{HoldTime, Judgement, Range};
use serde::{Deserialize, Serialize};
use trade::history::{self, Clock, Context, End, Move, Watched};
use trade::name::{ExerciseId, FaultCode, RungId};
use trade::side::WorkingSide;

use super::Problem;
use super::person::out_of_range;

/// An exercise was taught, untimed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TaughtFact {
    /// Day.
    pub date: Date,
    /// Exercise.
    pub exercise: String,
}

/// An exercise was signed off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignOffFact {
    /// Day.
    pub date: Date,
    /// Exercise.
    pub exercise: String,
    /// Who signed.
    pub by: String,
}

impl TaughtFact {
    /// As the trade sees it.
    pub fn to_trade(&self) -> history::Taught {
        history::Taught { date: self.date, exercise: ExerciseId::new(&self.exercise) }
    }
}

impl SignOffFact {
    /// As the trade sees it.
    pub fn to_trade(&self) -> history::SignOff {
        history::SignOff { date: self.date, exercise: ExerciseId::new(&self.exercise), by: self.by.clone() }
    }
}

/// Context, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum ContextWord {
    AfterPractice,
    Rested,
    Home,
}

impl From<ContextWord> for Context {
    fn from(word: ContextWord) -> Self {
        match word {
            ContextWord::AfterPractice => Context::AfterPractice,
            ContextWord::Rested => Context::Rested,
            ContextWord::Home => Context::Home,
        }
    }
}

/// A swimmer took part in a session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionFact {
    /// Civil day in the club's zone.
    pub date: Date,
    /// Which session of the day.
    #[serde(default = "first")]
    pub number: u8,
    /// Context.
    pub context: ContextWord,
    /// Reason of a named override that put it right before the water; such a session does not count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before_water_override: Option<String>,
    /// Effort of the last practice, 0-10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_practice_effort: Option<i64>,
}

fn first() -> u8 {
    1
}

/// Side, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum WorkingSideWord {
    Left,
    Right,
    Both,
    Midline,
}

impl From<WorkingSideWord> for WorkingSide {
    fn from(word: WorkingSideWord) -> Self {
        match word {
            WorkingSideWord::Left => WorkingSide::Left,
            WorkingSideWord::Right => WorkingSide::Right,
            WorkingSideWord::Both => WorkingSide::Both,
            WorkingSideWord::Midline => WorkingSide::Midline,
        }
    }
}

impl From<WorkingSide> for WorkingSideWord {
    fn from(side: WorkingSide) -> Self {
        match side {
            WorkingSide::Left => WorkingSideWord::Left,
            WorkingSide::Right => WorkingSideWord::Right,
            WorkingSide::Both => WorkingSideWord::Both,
            WorkingSide::Midline => WorkingSideWord::Midline,
        }
    }
}

/// Why a set ended, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum EndWord {
    Cap,
    Form,
    ChoseToStop,
    Pain,
    Kit,
    Left,
}

/// What measured a set, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum ClockWord {
    #[default]
    Device,
    Hand,
}

/// How one set went: the part that is the same in a fact and in a history file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetWord {
    /// Seconds with good form.
    pub seconds: f64,
    /// Why it ended.
    pub end: EndWord,
    /// Fault, for a set that form ended.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fault: Option<String>,
    /// Cap in force, seconds; the protocol's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cap_s: Option<f64>,
    /// Somebody looked near the end. Needed for a set that reached the cap: absent is not yes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<bool>,
    /// Real rest before it, seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rest_before_s: Option<f64>,
    /// What measured it.
    #[serde(default)]
    pub clock: ClockWord,
    /// A fault that was cued and still there when the cap came.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fault_left: Option<String>,
}

/// Largest difference between the time and the cap of a set that is said to have reached it: one second for a
/// device, two for a hand-held clock (the widest tolerance a protocol may set). Beyond that the record
/// contradicts itself and a person must say which of the two is right.
const CAP_SLACK: [(ClockWord, f64); 2] = [(ClockWord::Device, 1.0), (ClockWord::Hand, 2.0)];

impl SetWord {
    /// The set as the trade sees one. `usual_cap` is the cap where none is written.
    pub fn to_trade(&self, number: u8, usual_cap: HoldTime) -> Result<history::Set, Vec<Problem>> {
        let mut problems = Vec::new();
        let range = Range::of("set_time").expect("set times stand in the range table");
        if range.judge(self.seconds) == Judgement::Refuse {
            problems.push(out_of_range("seconds", range, self.seconds));
        }
        let mut positive = |path: &str, value: Option<f64>| match value.map(HoldTime::try_from_seconds) {
            None => None,
            Some(Ok(time)) if HoldTime::ZERO < time => Some(time),
            Some(_) => {
                problems.push(Problem::at(path, "fact-not-positive"));
                None
            }
        };
        let cap = positive("cap_s", self.cap_s).unwrap_or(usual_cap);
        let rest_before = positive("rest_before_s", self.rest_before_s);
        let end = match (self.end, &self.fault) {
            (EndWord::Form, Some(fault)) => Some(End::Form(FaultCode::new(fault))),
            (EndWord::Form, None) => {
                problems.push(Problem::at("fault", "fact-form-needs-fault"));
                None
            }
            (_, Some(_)) => {
                problems.push(Problem::at("fault", "fact-fault-without-form"));
                None
            }
            (EndWord::Cap, None) => Some(End::Cap),
            (EndWord::ChoseToStop, None) => Some(End::ChoseToStop),
            (EndWord::Pain, None) => Some(End::Pain),
            (EndWord::Kit, None) => Some(End::Kit),
            (EndWord::Left, None) => Some(End::Left),
        };
        if self.end == EndWord::Cap {
            let slack =
                CAP_SLACK.iter().find(|(clock, _)| *clock == self.clock).map_or(0.0, |(_, slack)| *slack);
            if slack < (self.seconds - cap.seconds()).abs() {
                problems.push(
                    Problem::at("end", "fact-cap-contradicts-time")
                        .with("seconds", self.seconds)
                        .with("cap", cap.seconds()),
                );
            }
            if self.seen.is_none() {
                problems.push(Problem::at("seen", "fact-cap-needs-seen"));
            }
        }
        match (end, problems.is_empty()) {
            (Some(end), true) => Ok(history::Set {
                number,
                time: HoldTime::from_seconds(self.seconds),
                cap,
                rest_before,
                end,
                watched: if self.seen == Some(true) { Watched::Seen } else { Watched::Unseen },
                clock: match self.clock {
                    ClockWord::Device => Clock::Device,
                    ClockWord::Hand => Clock::Hand,
                },
                fault_left: self.fault_left.as_deref().map(FaultCode::new),
            }),
            _ => Err(problems),
        }
    }
}

/// One set of one swimmer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SetFact {
    /// Civil day of the session.
    pub date: Date,
    /// Which session of the day.
    #[serde(default = "first")]
    pub session: u8,
    /// Exercise.
    pub exercise: String,
    /// Side.
    pub side: WorkingSideWord,
    /// Rung prescribed.
    pub planned: String,
    /// Rung really used.
    pub used: String,
    /// Sets prescribed.
    pub prescribed_sets: u8,
    /// Which set, counted from one.
    pub number: u8,
    /// How it went.
    #[serde(flatten)]
    pub set: SetWord,
}

/// Why a rung changed, in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum MoveWord {
    Start,
    Up,
    Down,
    Switch,
    Restart,
    Override,
}

impl From<MoveWord> for Move {
    fn from(word: MoveWord) -> Self {
        match word {
            MoveWord::Start => Move::Start,
            MoveWord::Up => Move::Up,
            MoveWord::Down => Move::Down,
            MoveWord::Switch => Move::Switch,
            MoveWord::Restart => Move::Restart,
            MoveWord::Override => Move::Override,
        }
    }
}

/// What a person did with a proposal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Taken as proposed.
    Confirmed,
    /// Something else, with a reason.
    Overridden,
}

/// A person confirmed or overrode a proposal. Proposal and decision are both kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DecisionFact {
    /// Day the decision is for: the rung holds from here on.
    pub date: Date,
    /// Exercise.
    pub exercise: String,
    /// Side.
    pub side: WorkingSideWord,
    /// What was proposed, by its word.
    pub proposed: String,
    /// Rung proposed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proposed_rung: Option<String>,
    /// Rule codes behind the proposal, most important first.
    pub codes: Vec<String>,
    /// Confirmed or overridden.
    pub verdict: Verdict,
    /// Rung decided; absent when the exercise is not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rung: Option<String>,
    /// Sets decided.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sets: Option<u8>,
    /// Cap decided, seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cap_s: Option<f64>,
    /// Why the swimmer moves to this rung; absent when the rung stays what it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub because: Option<MoveWord>,
    /// Why a person decided otherwise; needed for an override.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Who decided.
    pub by: String,
    /// Sets of this line that were on record: a later set asks for a new decision.
    #[serde(default)]
    pub sets_on_record: usize,
    /// Hash of the protocol in force.
    pub protocol: String,
    /// Version of the engine.
    pub engine: String,
    /// Digest of the history that the proposal was made from.
    pub inputs: String,
}

impl DecisionFact {
    /// The placement as the trade sees it, for decisions that move the swimmer.
    pub fn to_trade(&self) -> Option<history::Placement> {
        Some(history::Placement {
            date: self.date,
            exercise: ExerciseId::new(&self.exercise),
            side: self.side.into(),
            rung: RungId::new(self.rung.as_deref()?),
            because: self.because?.into(),
        })
    }
}
