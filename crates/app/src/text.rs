//! The one text catalogue: every sentence a person reads, by its name.
//!
//! Sentences live in Fluent files under `text/<language>/`, one file an area. Code below this module names a
//! sentence and hands over values; only here do values become words, in the reader's units.

use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use jiff::civil::Date;
use quantity::{Force, HoldTime, Mass};
use trade::protocol::Protocol;
use trade::trace::{Arg, Line};

use crate::facts::Units;

/// English, file by file.
const ENGLISH: &[(&str, &str)] = &[
    ("access", include_str!("../text/en/access.ftl")),
    ("asking", include_str!("../text/en/asking.ftl")),
    ("cli", include_str!("../text/en/cli.ftl")),
    ("contract", include_str!("../text/en/contract.ftl")),
    ("deck", include_str!("../text/en/deck.ftl")),
    ("door", include_str!("../text/en/door.ftl")),
    ("dosing", include_str!("../text/en/dosing.ftl")),
    ("due", include_str!("../text/en/due.ftl")),
    ("error", include_str!("../text/en/error.ftl")),
    ("fact", include_str!("../text/en/fact.ftl")),
    ("gate", include_str!("../text/en/gate.ftl")),
    ("import", include_str!("../text/en/import.ftl")),
    ("numbers", include_str!("../text/en/numbers.ftl")),
    ("load", include_str!("../text/en/load.ftl")),
    ("loadcli", include_str!("../text/en/loadcli.ftl")),
    ("protocol", include_str!("../text/en/protocol.ftl")),
    ("scale", include_str!("../text/en/scale.ftl")),
    ("screening", include_str!("../text/en/screening.ftl")),
    ("season", include_str!("../text/en/season.ftl")),
    ("web", include_str!("../text/en/web.ftl")),
    ("week", include_str!("../text/en/week.ftl")),
    ("word", include_str!("../text/en/word.ftl")),
];

/// A catalogue in one language.
pub struct Texts {
    bundle: FluentBundle<FluentResource>,
}

impl Texts {
    /// The English catalogue.
    pub fn english() -> &'static Texts {
        static ENGLISH_TEXTS: OnceLock<Texts> = OnceLock::new();
        ENGLISH_TEXTS.get_or_init(|| Texts::build("en-GB", ENGLISH))
    }

    fn build(language: &str, files: &[(&str, &str)]) -> Texts {
        let language = language.parse().expect("the language tag is written in this file");
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        bundle.set_use_isolating(false);
        for (file, text) in files {
            let resource = FluentResource::try_new((*text).to_owned())
                .unwrap_or_else(|(_, errors)| panic!("text/en/{file}.ftl does not parse: {errors:?}"));
            bundle
                .add_resource(resource)
                .unwrap_or_else(|errors| panic!("text/en/{file}.ftl repeats a message: {errors:?}"));
        }
        Texts { bundle }
    }

    /// True when the catalogue has this sentence.
    pub fn has(&self, name: &str) -> bool {
        self.bundle.has_message(name)
    }

    /// One sentence with its values. A name that is missing comes back in brackets: seen, but nothing breaks.
    pub fn say(&self, name: &str, values: &[(&str, String)]) -> String {
        let Some(pattern) = self.bundle.get_message(name).and_then(|message| message.value()) else {
            return format!("[{name}]");
        };
        let mut args = FluentArgs::new();
        for (key, value) in values {
            args.set(*key, FluentValue::from(value.as_str()));
        }
        let mut errors = Vec::new();
        self.bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned()
    }

    /// One sentence with values of which some choose between singular and plural.
    pub fn phrase(&self, name: &str, values: &[(&str, Value<'_>)]) -> String {
        let Some(pattern) = self.bundle.get_message(name).and_then(|message| message.value()) else {
            return format!("[{name}]");
        };
        let mut args = FluentArgs::new();
        for (key, value) in values {
            let value = match value {
                Value::Words(words) => FluentValue::from(*words),
                Value::Count(count) => FluentValue::from(*count),
            };
            args.set(*key, value);
        }
        let mut errors = Vec::new();
        self.bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned()
    }

    /// One word or sentence without values.
    pub fn word(&self, name: &str) -> String {
        self.say(name, &[])
    }

    /// One line of a trace.
    pub fn line(&self, line: &Line, reader: Reader<'_>) -> String {
        let values: Vec<(&str, String)> =
            line.args.iter().map(|(name, arg)| (*name, self.value(arg, reader))).collect();
        self.say(line.says, &values)
    }

    /// One value, as this reader reads it.
    pub fn value(&self, arg: &Arg, reader: Reader<'_>) -> String {
        match arg {
            Arg::Time(time) => seconds(*time),
            Arg::Mass(value) => mass(*value, reader.units),
            Arg::Force(value) => force(*value, reader.units),
            Arg::Pain(pain) => pain.to_string(),
            Arg::Count(count) => count.to_string(),
            Arg::Share(share) => format!("{:.0} %", share * 100.0),
            Arg::Number(value, decimals) => format!("{value:.*}", usize::from(*decimals)),
            Arg::Date(date) => day(*date),
            Arg::Exercise(id) => {
                reader.protocol.exercise(id).map_or_else(|| id.to_string(), |exercise| exercise.name.clone())
            }
            Arg::Rung(exercise, rung) => reader
                .protocol
                .exercise(exercise)
                .and_then(|exercise| exercise.rung(rung))
                .map_or_else(|| rung.to_string(), |rung| reader.rung_name(rung)),
            Arg::Fault(code) => reader
                .protocol
                .fault(code)
                .map_or_else(|| code.to_string(), |fault| format!("{} ({code})", fault.name)),
            Arg::Shoulder(side) => self.word(&format!("side-{}", side.word())),
            Arg::Working(side) => self.word(&format!("side-{}", side.word())),
            Arg::Verbatim(text) => text.clone(),
            Arg::Word(name) => self.word(name),
        }
    }
}

/// One value in a sentence of the pages.
#[derive(Debug, Clone, Copy)]
pub enum Value<'a> {
    /// Words, exactly as given.
    Words(&'a str),
    /// A whole number, which also chooses between singular and plural.
    Count(i64),
}

/// Whose eyes a sentence is for.
#[derive(Clone, Copy)]
pub struct Reader<'a> {
    /// Protocol that names exercises, rungs and faults.
    pub protocol: &'a Protocol,
    /// Units of the club.
    pub units: Units,
    /// Bands of the club that were measured, which take the place of nominal rungs.
    pub measured: &'a [MeasuredBand],
}

/// A band that was measured with a scale.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredBand {
    /// The club's mark on it.
    pub mark: String,
    /// Force at double length.
    pub at_double: Force,
}

/// A measured band stands for a nominal rung when their forces lie this near, as a part: half of a small step.
const STANDS_FOR: f64 = 0.11;

impl Reader<'_> {
    /// A rung as its club reads it: the measured piece where there is one, else its own name, in the club's units.
    pub fn rung_name(&self, rung: &trade::protocol::Rung) -> String {
        self.measured_for(rung).map_or_else(
            || rung_name(rung, self.units),
            |band| format!("{}, measured {} at double length", band.mark, force(band.at_double, self.units)),
        )
    }

    /// The measured band nearest to a nominal rung, where one is near enough.
    pub fn measured_for(&self, rung: &trade::protocol::Rung) -> Option<&MeasuredBand> {
        let trade::protocol::Load::Band(nominal) = rung.load else { return None };
        let off = |band: &MeasuredBand| {
            band.at_double.ratio_to(nominal).map_or(f64::MAX, |ratio| (ratio - 1.0).abs())
        };
        self.measured
            .iter()
            .filter(|band| off(band) <= STANDS_FOR)
            .min_by(|one, other| off(one).total_cmp(&off(other)))
    }
}

/// Seconds, without decimals where there are none.
pub fn seconds(time: HoldTime) -> String {
    let value = time.seconds();
    if (value - value.round()).abs() < 0.05 { format!("{value:.0} s") } else { format!("{value:.1} s") }
}

/// A mass in the club's unit.
pub fn mass(value: Mass, units: Units) -> String {
    match units {
        Units::Metric => format!("{} kg", trimmed(value.kilograms(), 2)),
        Units::Imperial => format!("{} lb", trimmed(value.pounds(), 1)),
    }
}

/// A force in the club's unit.
pub fn force(value: Force, units: Units) -> String {
    match units {
        Units::Metric => format!("{} N", trimmed(value.newtons(), 1)),
        Units::Imperial => format!("{} lbf", trimmed(value.pounds_force(), 1)),
    }
}

fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// A rung as its club reads it: its own name, or in pounds where the club counts in pounds.
pub fn rung_name(rung: &trade::protocol::Rung, units: Units) -> String {
    use trade::protocol::Load;
    match (rung.load, units) {
        (Load::Weight(value), Units::Imperial) if !rung.not_heavier => mass(value, units),
        (Load::Band(value), Units::Imperial) if !rung.not_heavier => {
            format!("{} at double length", force(value, units))
        }
        _ => rung.name.clone(),
    }
}

/// A civil day in words: 9 March 2026.
pub fn day(date: Date) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let month = usize::from(date.month().unsigned_abs()) - 1;
    format!("{} {} {}", date.day(), MONTHS[month], date.year())
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn values_are_written_for_the_reader() {
        assert_eq!(seconds(HoldTime::from_seconds(118.0)), "118 s");
        assert_eq!(seconds(HoldTime::from_seconds(119.6)), "119.6 s");
        assert_eq!(mass(Mass::from_kilograms(0.75), Units::Metric), "0.75 kg");
        assert_eq!(mass(Mass::from_kilograms(2.2), Units::Imperial), "4.9 lb");
        assert_eq!(force(Force::from_newtons(16.0), Units::Metric), "16 N");
        assert_eq!(day(date(2026, 3, 9)), "9 March 2026");
    }

    #[test]
    fn a_missing_sentence_is_seen_and_breaks_nothing() {
        assert_eq!(Texts::english().word("no-such-sentence"), "[no-such-sentence]");
    }
}
