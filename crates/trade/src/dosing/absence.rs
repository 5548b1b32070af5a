//! Coming back after days away: how many rungs lower, how much less, and for how long.
//!
//! The table is common practice and cautious on purpose: tissue and form come back later than force. Its only
//! anchor is that children lost 19.3 % of upper-body strength in eight weeks without training (Faigenbaum 1996),
//! about 2.6 % a week.

use jiff::ToSpan;
use jiff::civil::Date;
use quantity::HoldTime;

use super::bounds::Bounds;
use crate::history::{AbsenceReason, History, days_between};
use crate::protocol::Parameters;
use crate::rule::RuleCode;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// How the swimmer spent the gap, as the table's columns see it. Ordered by rising caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Healthy and swam on.
    Swam,
    /// Healthy, but did not swim; also when nobody said.
    Dry,
    /// Ill with fever, or more than three days in bed.
    Ill,
    /// Injured: only the way back of a clinician's letter counts.
    Injured,
}

/// A stretch between two loaded sessions, or between the last one and the day asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// Last loaded session before it.
    pub last: Date,
    /// First session after it, or the day asked about.
    pub back: Date,
    /// Days from one to the other.
    pub days: i32,
    /// How it was spent.
    pub column: Column,
    /// Somebody said whether the swimmer swam, was ill or injured.
    pub is_known: bool,
}

/// What the table says of one gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Return {
    /// Rule of the band the gap falls into.
    pub rule: RuleCode,
    /// Rungs down.
    pub down: usize,
    /// Most sets.
    pub sets: Option<u8>,
    /// Longest set, seconds.
    pub cap_s: Option<u16>,
    /// Days after the return for which sets, cap and the ban on steps up hold; zero is the first session only.
    pub lasts_days: u16,
    /// Nothing may step up.
    pub no_up: bool,
    /// Taught again, untimed, in the first session.
    pub reteach: bool,
    /// Starts over like a newcomer.
    pub as_new: bool,
    /// A clinician should have a word first.
    pub clinicians_word: bool,
    /// Ask about heart and breathing.
    pub ask_heart: bool,
}

const NOTHING: Return = Return {
    rule: codes::A1,
    down: 0,
    sets: None,
    cap_s: None,
    lasts_days: 0,
    no_up: false,
    reteach: false,
    as_new: false,
    clinicians_word: false,
    ask_heart: false,
};

/// Sets after any return that is reduced at all.
const TWO: Option<u8> = Some(2);

/// Looks a gap up in the table.
pub fn table(parameters: &Parameters, gap: &Gap) -> Return {
    let [first, second, third, fourth] = parameters.gap_days.map(i32::from);
    let row = if gap.days <= first {
        0
    } else if gap.days <= second {
        1
    } else if gap.days <= third {
        2
    } else if gap.days <= fourth {
        3
    } else {
        4
    };
    let ill = Column::Ill <= gap.column;
    match (row, gap.column) {
        (0, Column::Swam) => NOTHING,
        (0, Column::Dry) => Return { sets: TWO, ..NOTHING },
        (0, _) => Return { sets: TWO, no_up: true, lasts_days: 7, ..NOTHING },
        (1, Column::Swam) => Return { rule: codes::A2, sets: TWO, no_up: true, ..NOTHING },
        (1, Column::Dry) => Return { rule: codes::A2, sets: TWO, no_up: true, lasts_days: 7, ..NOTHING },
        (1, _) => Return { rule: codes::A2, down: 1, sets: TWO, no_up: true, lasts_days: 7, ..NOTHING },
        (2, Column::Swam) => {
            Return { rule: codes::A3, down: 1, sets: TWO, cap_s: Some(60), no_up: true, ..NOTHING }
        }
        (2, Column::Dry) => Return {
            rule: codes::A3,
            down: 1,
            sets: TWO,
            cap_s: Some(45),
            no_up: true,
            lasts_days: 7,
            ..NOTHING
        },
        (2, _) => Return {
            rule: codes::A3,
            down: 2,
            sets: TWO,
            cap_s: Some(45),
            no_up: true,
            lasts_days: 14,
            ask_heart: true,
            ..NOTHING
        },
        (3, column) if column <= Column::Dry => {
            Return { rule: codes::A4, down: 2, sets: TWO, no_up: true, reteach: true, ..NOTHING }
        }
        (3, _) => Return { rule: codes::A4, as_new: true, no_up: true, ask_heart: true, ..NOTHING },
        _ => Return {
            rule: codes::A5,
            as_new: true,
            no_up: true,
            clinicians_word: ill,
            ask_heart: ill,
            ..NOTHING
        },
    }
}

/// Days of loaded work, oldest first, up to but without the day asked about.
fn loaded_days(history: &History, on: Date) -> Vec<Date> {
    let mut days: Vec<Date> = history
        .sessions
        .iter()
        .filter(|session| session.date < on && !session.blocks.is_empty())
        .map(|session| session.date)
        .chain(history.taught.iter().map(|taught| taught.date).filter(|date| *date < on))
        .collect();
    days.sort_unstable();
    days.dedup();
    days
}

/// The gap between the last loaded session and the day asked about; none before the first session.
pub fn current_gap(history: &History, on: Date) -> Option<Gap> {
    let trained_today =
        history.sessions.iter().any(|session| session.date == on && !session.blocks.is_empty());
    let last = if trained_today { on } else { *loaded_days(history, on).last()? };
    Some(gap_between(history, last, on))
}

/// The latest gap longer than the first band that ended with a session, if there is one.
pub fn past_gap(parameters: &Parameters, history: &History, on: Date) -> Option<Gap> {
    loaded_days(history, on.saturating_add(1.day()))
        .windows(2)
        .rev()
        .map(|pair| gap_between(history, pair[0], pair[1]))
        .find(|gap| table(parameters, gap) != NOTHING)
}

fn gap_between(history: &History, last: Date, back: Date) -> Gap {
    let within = |from: Date, to: Option<Date>| from < back && to.is_none_or(|to| last < to);
    let absences: Vec<_> = history.absences.iter().filter(|gone| within(gone.from, gone.to)).collect();
    let days = days_between(last, back);
    let ill = absences.iter().any(|gone| gone.reason == AbsenceReason::Illness)
        || history.illnesses.iter().any(|illness| {
            within(illness.from, illness.symptom_free_from)
                && (illness.fever || illness.bed_days.is_some_and(|days| 3 < days))
        });
    let column = if absences.iter().any(|gone| gone.reason == AbsenceReason::Injury) {
        Column::Injured
    } else if ill {
        Column::Ill
    } else if absences.iter().all(|gone| gone.kept_swimming == Some(true))
        && (!absences.is_empty() || days <= 7)
    {
        Column::Swam
    } else {
        Column::Dry
    };
    let is_known =
        days <= 7 || Column::Ill <= column || absences.iter().any(|gone| gone.kept_swimming.is_some());
    Gap { last, back, days, column, is_known }
}

/// Narrows the dose for a gap that has just ended, or whose after-effects still last.
pub fn bounds_after(parameters: &Parameters, gap: &Gap, on: Date) -> Bounds {
    let answer = table(parameters, gap);
    let mut bounds = Bounds::default();
    let is_first_session = gap.back == on;
    let lasts_until = gap.back.saturating_add(i32::from(answer.lasts_days).days());
    if answer == NOTHING || !(is_first_session || on < lasts_until) {
        return bounds;
    }
    let line = |says| {
        Line::new(answer.rule, says, Class::Dose)
            .with("days", Arg::Count(i64::from(gap.days)))
            .with("last", Arg::Date(gap.last))
    };
    if let Some(sets) = answer.sets {
        bounds.at_most_sets(sets);
    }
    if let Some(cap) = answer.cap_s {
        bounds.at_most(HoldTime::from_seconds(f64::from(cap)));
    }
    bounds.untimed = answer.reteach && is_first_session;
    let says = match (is_first_session, gap.column) {
        (true, Column::Swam) => "absence-back-swam",
        (true, Column::Dry) => "absence-back-dry",
        (true, Column::Ill) => "absence-back-ill",
        (true, Column::Injured) => "absence-back-injured",
        (false, _) => "absence-still-returning",
    };
    let mut why = line(says);
    if !is_first_session {
        why = why.with("until", Arg::Date(lasts_until));
    }
    if answer.no_up {
        bounds.no_up.push(why.clone());
    }
    bounds.narrowed_by.push(why);
    if is_first_session && !gap.is_known {
        bounds.narrowed_by.push(line("absence-reason-unknown"));
    }
    if answer.ask_heart && is_first_session {
        bounds.narrowed_by.push(line("absence-ask-heart"));
    }
    if answer.clinicians_word && is_first_session {
        bounds.narrowed_by.push(line("absence-clinicians-word"));
    }
    bounds
}
