//! What fits into the minutes on deck, in words.

use schedule::fit::{Choice, Session, Warning, Way, fit};
use serde::Serialize;

use crate::text::{Texts, Value};

/// Name and version of the output shape.
pub const SHAPE: &str = "cuffwright.fit/1";

/// The whole answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FitAnswer {
    /// [`SHAPE`].
    pub shape: &'static str,
    /// Seconds of work the slot leaves.
    pub usable_seconds: u32,
    /// The same as minutes:seconds.
    pub usable: String,
    /// True when the session fits as asked.
    pub fits: bool,
    /// As asked first, then the alternatives.
    pub options: Vec<OptionWord>,
    /// What must be said beside the numbers.
    pub warnings: Vec<String>,
}

/// One way to do it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OptionWord {
    /// Code of the way.
    pub way: &'static str,
    /// In words.
    pub words: String,
    /// Seconds it takes.
    pub seconds: u32,
    /// The same as minutes:seconds.
    pub clock: String,
    /// Whether that fits.
    pub fits: bool,
    /// Exercises that can never qualify that way, for want of the full cap.
    pub never_qualify: Vec<String>,
}

/// Seconds as minutes:seconds.
pub fn clock(seconds: u32) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// What fits.
pub fn run(session: &Session) -> FitAnswer {
    let texts = Texts::english();
    let found = fit(session);
    let warnings = found
        .warnings
        .iter()
        .map(|warning| match warning {
            Warning::ExternalRotationLast => texts.word("fit-rotation-last"),
            Warning::Waves(waves) => texts.phrase("fit-waves", &[("waves", Value::Count(i64::from(*waves)))]),
            Warning::NoTime => texts.word("fit-no-time"),
        })
        .collect();
    FitAnswer {
        shape: SHAPE,
        usable_seconds: found.usable,
        usable: clock(found.usable),
        fits: found.options.first().is_some_and(|option| option.fits),
        options: found.options.into_iter().map(option).collect(),
        warnings,
    }
}

fn option(choice: Choice) -> OptionWord {
    let texts = Texts::english();
    let number = |says: &str, number: String| texts.say(says, &[("number", number)]);
    let (way, words) = match choice.way {
        Way::AsAsked => ("as-asked", texts.word("fit-as-asked")),
        Way::TwoArms => ("two-arms", texts.word("fit-two-arms")),
        Way::RotatingFullDose => ("rotating-full-dose", texts.word("fit-rotating")),
        Way::Cap(cap) => ("cap", number("fit-cap", cap.to_string())),
        Way::Sets(sets) => ("sets", number("fit-sets", sets.to_string())),
        Way::Split(parts) => ("split", number("fit-split", parts.to_string())),
        Way::First(count) => ("first", number("fit-first", count.to_string())),
    };
    OptionWord {
        way,
        words,
        seconds: choice.seconds,
        clock: clock(choice.seconds),
        fits: choice.fits,
        never_qualify: choice.never_qualify,
    }
}
