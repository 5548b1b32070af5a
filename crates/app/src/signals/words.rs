//! Reasons to ask, in words.

use super::load::Change;
use super::{Signals, What};
use crate::text::{Texts, day};

/// One reason in a sentence that ends with what to ask.
pub fn sentence(what: &What) -> String {
    let side = |side: trade::side::WorkingSide| Texts::english().word(&format!("side-{}", side.word()));
    let whole = |value: f64| format!("{value:.0}");
    let (name, values) = match what {
        What::TimesFell { exercise, side: of, sessions, before, since, from } => (
            "signal-times-fell",
            vec![
                ("exercise", exercise.to_string()),
                ("side", side(*of)),
                ("sessions", sessions.to_string()),
                ("before", whole(*before)),
                ("since", whole(*since)),
                ("from", day(*from)),
            ],
        ),
        What::WaterMoved { before, since, from, .. } => (
            "signal-water-moved",
            vec![("before", whole(*before)), ("since", whole(*since)), ("from", day(*from))],
        ),
        What::ZerosWithFallingTimes { exercise, side: of, zeros, before, since } => (
            "signal-zeros",
            vec![
                ("exercise", exercise.to_string()),
                ("side", side(*of)),
                ("zeros", zeros.to_string()),
                ("before", whole(*before)),
                ("since", whole(*since)),
            ],
        ),
        What::OneArmLeftOut { exercise, done, times } => (
            "signal-one-arm",
            vec![("exercise", exercise.to_string()), ("side", side(*done)), ("times", times.to_string())],
        ),
    };
    Texts::english().say(name, &values)
}

/// How many charts would speak by chance; nothing where none is kept.
pub fn by_chance(signals: &Signals) -> Option<String> {
    let alarms = signals.by_chance?;
    let values = [
        ("charts", alarms.series.to_string()),
        ("expected", format!("{:.1}", alarms.expected)),
        ("readings", alarms.readings.to_string()),
        ("learning", signals.learning.to_string()),
    ];
    Some(Texts::english().say("signal-by-chance", &values))
}

/// How a week stands to the one before, in words.
pub fn change(change: Change) -> String {
    let percent = |value: f64| vec![("percent", format!("{value:.0}"))];
    let (name, values) = match change {
        Change::More(value) => ("load-more", percent(value)),
        Change::Less(value) => ("load-less", percent(value)),
        Change::Alike => ("load-alike", Vec::new()),
        Change::NotCompared => ("load-not-compared", Vec::new()),
        Change::NotRecorded => ("load-not-recorded", Vec::new()),
    };
    Texts::english().say(name, &values)
}
