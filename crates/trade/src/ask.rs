//! Whom to ask, and about what. A reason is a prompt to talk, never a verdict, and reasons are not added up.

use jiff::civil::Date;

use crate::dosing::Plan;
use crate::gate::{Availability, Gate};
use crate::history::{Block, End, History, days_between};
use crate::rule::{RuleCode, dose_rules, gate_rules, screening_rules as codes};
use crate::side::{Side, WorkingSide};
use crate::trace::{Arg, Class, Line};
use crate::weekly::Score;

/// Days over which patterns are looked for.
pub const WINDOW_DAYS: i32 = 28;
/// Days within which a substantial problem is followed by contact.
pub const CONTACT_DAYS: u16 = 2;
/// Fewest pain answers, all zero, that make a pattern beside falling times.
const FEWEST_ZEROS: usize = 4;
/// Fewest sessions in which an arm was spared.
const FEWEST_SPARED: usize = 2;
/// Rise of the weekly score that asks.
const RISE: u8 = 10;

/// What kind of reason, the one that waits least well first. This is the order of the list, and all of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// A substantial problem was answered.
    Substantial,
    /// Zeros for pain with falling times.
    HiddenPain,
    /// One arm is spared.
    OneArm,
    /// A problem stays or grows.
    StaysOrGrows,
    /// A measure drifts beyond its own usual spread.
    Drift,
    /// The water jumped.
    Water,
    /// Nothing was heard for weeks.
    Silence,
}

impl Reason {
    /// Every kind, in order.
    pub const ALL: [Reason; 7] = [
        Reason::Substantial,
        Reason::HiddenPain,
        Reason::OneArm,
        Reason::StaysOrGrows,
        Reason::Drift,
        Reason::Water,
        Reason::Silence,
    ];

    /// The word used in files; the question stands in the catalogue under `ask-` and this word.
    pub const fn word(self) -> &'static str {
        match self {
            Reason::Substantial => "substantial",
            Reason::HiddenPain => "hidden-pain",
            Reason::OneArm => "one-arm",
            Reason::StaysOrGrows => "stays-or-grows",
            Reason::Drift => "drift",
            Reason::Water => "water",
            Reason::Silence => "silence",
        }
    }
}

/// One thing to ask.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// What kind.
    pub reason: Reason,
    /// Which shoulder, where it is one.
    pub side: Option<Side>,
    /// Day it was seen.
    pub seen: Date,
    /// What was seen, with its rule.
    pub line: Line,
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

/// Everything to ask one swimmer on one day, the weightiest first. The history must be in order.
pub fn asks(history: &History, gate: &Gate, plan: &Plan, on: Date) -> Vec<Ask> {
    let mut found = Vec::new();
    for side in Side::BOTH {
        weekly(history, side, on, &mut found);
    }
    found.extend(hidden_pain(history, plan, on));
    for side in Side::BOTH {
        found.extend(spared(history, gate, side, on));
    }
    found.extend(gate.notes.iter().filter(|note| note.rule == gate_rules::M1).map(|note| Ask {
        reason: Reason::Water,
        side: None,
        seen: on,
        line: note.clone(),
    }));
    found.sort_by_cached_key(|ask| (ask.reason, ask.side, format!("{:?}", ask.line)));
    found
}

/// Scores of one shoulder within the window, oldest first.
fn scores(history: &History, side: Side, on: Date) -> Vec<(Date, Score)> {
    history
        .weekly_checks
        .iter()
        .filter(|check| (0..WINDOW_DAYS).contains(&days_between(check.date, on)))
        .filter_map(|check| Some((check.date, check.of(side)?.score()?)))
        .collect()
}

/// The newest substantial problem of one shoulder, with its sentence: also what the due list asks contact for.
pub fn substantial(history: &History, side: Side, on: Date) -> Option<(Date, Line)> {
    let (date, score) = scores(history, side, on).into_iter().rfind(|(_, score)| score.substantial)?;
    let line = line(codes::Q1, "ask-saw-substantial")
        .with("side", Arg::Shoulder(side))
        .with("points", Arg::Count(score.points.into()))
        .with("date", Arg::Date(date));
    Some((date, line))
}

fn weekly(history: &History, side: Side, on: Date, found: &mut Vec<Ask>) {
    if let Some((seen, line)) = substantial(history, side, on) {
        found.push(Ask { reason: Reason::Substantial, side: Some(side), seen, line });
        return;
    }
    let scores = scores(history, side, on);
    let [.., (_, before), (date, now)] = scores.as_slice() else { return };
    let rose = before.points.saturating_add(RISE) <= now.points;
    if (before.problem && now.problem) || rose {
        let line = line(codes::Q2, "ask-saw-stays")
            .with("side", Arg::Shoulder(side))
            .with("before", Arg::Count(before.points.into()))
            .with("now", Arg::Count(now.points.into()))
            .with("date", Arg::Date(*date));
        found.push(Ask { reason: Reason::StaysOrGrows, side: Some(side), seen: *date, line });
    }
}

/// A fall of times, told by the plan's own rule, while every answer about pain was zero.
fn hidden_pain(history: &History, plan: &Plan, on: Date) -> Option<Ask> {
    let fell = plan.proposals.iter().find_map(|proposal| {
        let line = proposal.trace.iter().find(|line| line.rule == dose_rules::P10)?;
        Some((proposal, line))
    })?;
    let answers: Vec<_> = history
        .pains
        .iter()
        .filter(|report| (0..WINDOW_DAYS).contains(&days_between(report.date, on)))
        .filter(|report| report.is_complete() || !report.signs.is_empty())
        .collect();
    let all_zero = answers.iter().all(|report| {
        report.signs.is_empty() && report.worst().is_none_or(|pain| pain == quantity::Pain::NONE)
    });
    if answers.len() < FEWEST_ZEROS || !all_zero {
        return None;
    }
    let (proposal, fall) = fell;
    let mut line = line(codes::Q3, "ask-saw-hidden-pain")
        .with("exercise", Arg::Exercise(proposal.exercise.clone()))
        .with("answers", Arg::Count(i64::try_from(answers.len()).unwrap_or(i64::MAX)));
    line.args.extend(fall.args.iter().filter(|(name, _)| *name == "share").cloned());
    Some(Ask { reason: Reason::HiddenPain, side: proposal.side.shoulder(), seen: on, line })
}

/// One arm is left out or stopped by choice again and again, the other never.
fn spared(history: &History, gate: &Gate, side: Side, on: Date) -> Option<Ask> {
    // Where the gate keeps the arm out, or it hurt, the reason is known.
    let is_known = gate.shoulder(side) != Availability::Full
        || gate.limits.iter().any(|limit| limit.side.is_none_or(|limited| limited == side))
        || gate
            .pain_events
            .iter()
            .any(|event| event.sides.contains(&side) && days_between(event.date, on) < WINDOW_DAYS);
    if is_known {
        return None;
    }
    let in_window = |date: Date| (0..WINDOW_DAYS).contains(&days_between(date, on));
    let days_of = |side: Side| -> Vec<Date> {
        history
            .sessions
            .iter()
            .filter(|session| in_window(session.date) && is_spared(&session.blocks, side))
            .map(|session| session.date)
            .collect()
    };
    let days = days_of(side);
    if days.len() < FEWEST_SPARED || !days_of(side.other()).is_empty() {
        return None;
    }
    let seen = *days.last()?;
    let line = line(codes::Q4, "ask-saw-one-arm")
        .with("side", Arg::Shoulder(side))
        .with("sessions", Arg::Count(i64::try_from(days.len()).unwrap_or(i64::MAX)))
        .with("date", Arg::Date(seen));
    Some(Ask { reason: Reason::OneArm, side: Some(side), seen, line })
}

/// In one session: for some one-arm exercise the other arm worked and this one did not, or this one was stopped by
/// choice and the other was not.
fn is_spared(blocks: &[Block], side: Side) -> bool {
    let chose = |block: &Block| block.sets.iter().any(|set| set.end == End::ChoseToStop);
    blocks.iter().filter(|block| block.side == WorkingSide::from(side.other()) && !block.sets.is_empty()).any(
        |other| {
            let own = blocks
                .iter()
                .find(|block| block.exercise == other.exercise && block.side == WorkingSide::from(side));
            match own {
                None => true,
                Some(own) => own.sets.is_empty() || (chose(own) && !chose(other)),
            }
        },
    )
}
