//! Ill, away, told not to train.

use app::desk::Draft;
use app::facts::{AbsenceFact, BanFact, IllnessFact};

use super::Sheet;
use super::pain::worded;
use super::take::{Setting, Taking};
use crate::web::parts::ask::{Ask, Control};
use crate::web::words::text;

/// An illness.
pub const ILLNESS: Sheet = Sheet {
    word: "illness",
    kind: app::facts::Kind::Illness,
    title: "record-illness",
    lede: "record-illness-lede",
    asks: |_| {
        vec![
            Ask::new("from", "ask-first-day", Control::Day).needed(),
            Ask::new("fever", "ask-fever", Control::One(yes_no())).needed(),
            Ask::new("bed_days", "ask-bed-days", Control::Number),
            Ask::new("symptom_free_from", "ask-symptom-free", Control::Day).hint("ask-symptom-free-hint"),
        ]
    },
    take: |_, taking| {
        let (from, fever) = (taking.past_day("from"), taking.yes_no("fever"));
        if fever.is_none() && taking.sent().one("fever").is_empty() {
            taking.wrong("fever", text("take-needed"));
        }
        let bed_days = taking.whole_or_none("bed_days");
        let symptom_free_from = taking.day_or_none("symptom_free_from");
        let fact =
            IllnessFact { from: from?, fever: fever?, bed_days, symptom_free_from: symptom_free_from? };
        Some(vec![Draft::new(&fact)])
    },
};

/// A stretch away.
pub const ABSENCE: Sheet = Sheet {
    word: "absence",
    kind: app::facts::Kind::Absence,
    title: "record-absence",
    lede: "record-absence-lede",
    asks: |_| {
        let why =
            [("healthy", "absence-healthy"), ("illness", "absence-illness"), ("injury", "absence-injury")];
        vec![
            Ask::new("from", "ask-first-day-away", Control::Day).needed(),
            Ask::new("to", "ask-last-day-away", Control::Day).hint("ask-open-end"),
            Ask::new("reason", "ask-absence-why", Control::One(worded(&why))).needed(),
            Ask::new("kept_swimming", "ask-kept-swimming", Control::One(yes_no_unknown())),
        ]
    },
    take: |_, taking| {
        let (from, to) = (taking.day("from"), taking.day_or_none("to"));
        let reason = taking.word("reason");
        let kept_swimming = taking.yes_no("kept_swimming");
        Some(vec![Draft::new(&AbsenceFact { from: from?, to: to?, reason: reason?, kept_swimming })])
    },
};

/// A "do not train" from outside.
pub const BAN: Sheet = Sheet {
    word: "ban",
    kind: app::facts::Kind::Ban,
    title: "record-ban",
    lede: "record-ban-lede",
    asks: |_| {
        vec![
            Ask::new("from", "ask-first-day", Control::Day).needed(),
            Ask::new("until", "ask-last-day", Control::Day).hint("ask-open-end"),
            Ask::new("by", "ask-who-said", Control::Line).needed(),
        ]
    },
    take: |_: &Setting<'_>, taking: &mut Taking<'_>| {
        let (from, until, by) = (taking.day("from"), taking.day_or_none("until"), taking.words("by"));
        Some(vec![Draft::new(&BanFact { from: from?, until: until?, by: by? })])
    },
};

/// Yes and no.
pub fn yes_no() -> Vec<(String, String)> {
    worded(&[("no", "choice-no"), ("yes", "choice-yes")])
}

/// Yes, no, and that nobody has said.
pub fn yes_no_unknown() -> Vec<(String, String)> {
    worded(&[("yes", "choice-yes"), ("no", "choice-no"), ("", "choice-unknown")])
}
