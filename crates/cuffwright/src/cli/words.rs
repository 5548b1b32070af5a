//! Sentences from the text catalogue, and words of the command line that become values.

use app::facts::Units;
use app::text::Texts;
use clap::ValueEnum;
use jiff::civil::Date;
use trade::dosing::Action;
use trade::side::WorkingSide;

/// One sentence of the text catalogue.
pub(crate) fn say(name: &str, values: &[(&str, String)]) -> String {
    Texts::english().say(name, values)
}

/// One sentence without values.
pub(crate) fn word(name: &str) -> String {
    Texts::english().word(name)
}

/// Units on the command line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsWord {
    /// kg, cm, N.
    Metric,
    /// lb, in, lbf.
    Imperial,
}

impl From<UnitsWord> for Units {
    fn from(word: UnitsWord) -> Self {
        match word {
            UnitsWord::Metric => Units::Metric,
            UnitsWord::Imperial => Units::Imperial,
        }
    }
}

/// A day of the calendar.
pub(crate) fn day(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| word("cli-not-a-day"))
}

/// A side that works.
pub(crate) fn side(text: &str) -> Result<WorkingSide, String> {
    WorkingSide::from_word(&text.to_lowercase()).ok_or_else(|| word("cli-not-a-side"))
}

/// What a proposal proposes.
pub(crate) fn action(text: &str) -> Result<Action, String> {
    Action::ALL.into_iter().find(|action| action.word().eq_ignore_ascii_case(text)).ok_or_else(|| {
        let known: Vec<&str> = Action::ALL.into_iter().map(Action::word).collect();
        say("cli-not-an-action", &[("known", known.join(", "))])
    })
}
