//! Coming back after days away: how many rungs lower, how much less, and for how long.
//!
//! The table is common practice and cautious on purpose: tissue and form come back later than force. Its only
//! anchor is that children lost 19.3 % of upper-body strength in eight weeks without training (Faigenbaum 1996),
//! about 2.6 % a week.

use jiff::ToSpan;
use jiff::civil::Date;
use quantity::HoldTime;

use super::bounds::Bounds;
use super::gap::{Column, Gap};
use crate::protocol::Parameters;
use crate::rule::RuleCode;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

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
    /// The water comes back first.
    pub water_first: bool,
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
    water_first: false,
    clinicians_word: false,
    ask_heart: false,
};

const TWO: Option<u8> = Some(2);

impl Return {
    /// The table asks for nothing.
    pub fn is_nothing(&self) -> bool {
        *self == NOTHING
    }

    /// A real restart: lower, taught again, or from the beginning. Only then the careful count applies.
    pub fn is_restart(&self) -> bool {
        self.down != 0 || self.reteach || self.as_new
    }

    /// How much is asked, for picking the most cautious of several answers.
    pub fn weight(&self) -> impl Ord + use<> {
        (self.as_new, self.down, self.reteach, self.lasts_days, self.sets.is_some())
    }
}

/// The table: rows by days, columns by how they were spent.
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
    match (row, gap.column) {
        _ if gap.is_planned => NOTHING,
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
            ask_heart: gap.is_ill,
            ..NOTHING
        },
        // The table names no sets or cap for more than four weeks; those of the row above hold, since longer away
        // can hardly ask for more.
        (3, Column::Swam) => Return {
            rule: codes::A4,
            down: 2,
            sets: TWO,
            cap_s: Some(60),
            no_up: true,
            reteach: true,
            ..NOTHING
        },
        (3, Column::Dry) => Return {
            rule: codes::A4,
            down: 2,
            sets: TWO,
            cap_s: Some(45),
            lasts_days: 7,
            no_up: true,
            reteach: true,
            water_first: true,
            ..NOTHING
        },
        // The clinician's letter asks for two rungs down in any case.
        (3, Column::Injured) if !gap.is_ill => Return {
            rule: codes::A4,
            down: 2,
            sets: TWO,
            cap_s: Some(45),
            no_up: true,
            lasts_days: 14,
            reteach: true,
            ..NOTHING
        },
        (3, _) => Return { ask_heart: true, ..as_new(codes::A4) },
        _ => Return { clinicians_word: gap.is_ill, ask_heart: gap.is_ill, ..as_new(codes::A5) },
    }
}

/// From the beginning: never milder than the rows above it, which matters once the teaching block is over.
const fn as_new(rule: RuleCode) -> Return {
    Return { rule, down: 2, sets: TWO, cap_s: Some(45), lasts_days: 14, no_up: true, as_new: true, ..NOTHING }
}

/// When a dose is looked at, seen from the way back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// The first session after the gap, of the swimmer or of one line of sets.
    First,
    /// A later one.
    Later,
}

/// Narrows the dose for a gap that is open, has just ended, or whose after-effects still last.
pub fn bounds_after(gap: &Gap, answer: &Return, on: Date, since: Since) -> Bounds {
    let mut bounds = Bounds::default();
    let is_first = since == Since::First;
    let lasts_until = gap.back.saturating_add(i32::from(answer.lasts_days).days());
    if answer.is_nothing() || !(is_first || on < lasts_until) {
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
    let says = match (since, gap.column) {
        (Since::First, Column::Swam) => "absence-back-swam",
        (Since::First, Column::Dry) => "absence-back-dry",
        (Since::First, Column::Ill) => "absence-back-ill",
        (Since::First, Column::Injured) => "absence-back-injured",
        (Since::Later, _) => "absence-still-returning",
    };
    let mut why = line(says);
    if !is_first {
        why = why.with("until", Arg::Date(lasts_until));
    }
    if answer.no_up {
        bounds.no_up.push(why.clone());
    }
    bounds.narrowed_by.push(why);
    if is_first {
        let asked = [
            (!gap.is_known, "absence-reason-unknown"),
            (answer.ask_heart, "absence-ask-heart"),
            (answer.water_first, "absence-water-first"),
            (answer.clinicians_word, "absence-clinicians-word"),
        ];
        for (_, says) in asked.into_iter().filter(|(asks, _)| *asks) {
            bounds.narrowed_by.push(line(says));
        }
        if answer.clinicians_word {
            bounds.alone.push(line("absence-clinicians-word"));
        }
    }
    bounds
}
