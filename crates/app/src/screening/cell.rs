//! What a person types into one box: a number, with or without its unit, or a word that says why there is none.

use quantity::reading::{self, Dimension, ReadingError, Unit};
use quantity::{Judgement, Range};
use trade::screening::measure::Measure;

use crate::facts::{Problem, Units, WithoutValue};

/// What stands in a box.
#[derive(Debug, Clone, PartialEq)]
pub enum Typed {
    /// Nothing.
    Nothing,
    /// A value in the unit of its range, and as it was written.
    Value {
        /// The value.
        value: f64,
        /// Written, unit included.
        entered: String,
        /// Outside the plausible range: a person must say that it is meant.
        unusual: bool,
    },
    /// Why there is no value; for pain the number, where one was said.
    Without(WithoutValue, Option<i64>),
}

/// The unit in which a club writes a measure where nobody names one.
pub fn unit(key: &str, units: Units) -> Unit {
    let imperial = units == Units::Imperial;
    match dimension(key) {
        Dimension::Angle => Unit::Degree,
        Dimension::Time => Unit::Second,
        Dimension::Count => Unit::One,
        Dimension::Force if imperial => Unit::PoundForce,
        Dimension::Force => Unit::Newton,
        Dimension::Mass if imperial => Unit::Pound,
        Dimension::Mass => Unit::Kilogram,
        Dimension::Length if imperial => Unit::Inch,
        Dimension::Length => Unit::Centimetre,
    }
}

fn dimension(key: &str) -> Dimension {
    match Range::of(key).map_or("", |range| range.unit) {
        "deg" => Dimension::Angle,
        "N" => Dimension::Force,
        "m" | "cm" => Dimension::Length,
        "kg" => Dimension::Mass,
        "s" => Dimension::Time,
        _ => Dimension::Count,
    }
}

/// Canonical units in one unit of the range table.
fn scale(range: &Range) -> f64 {
    if range.unit == "cm" { 100.0 } else { 1.0 }
}

/// From a number in the club's unit to the unit of the range table.
pub fn from_written(key: &str, units: Units) -> f64 {
    Range::of(key).map_or(1.0, |range| unit(key, units).to_canonical(1.0) * scale(range))
}

/// A value of the range table in the club's unit, written for a box.
pub fn shown(measure: &Measure, value: f64, units: Units) -> String {
    let Some(range) = Range::of(measure.key) else { return value.to_string() };
    let in_unit = unit(measure.key, units).from_canonical(value / scale(range));
    let text = format!("{in_unit:.2}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// The word for why there is no value, if the box holds one.
fn without(text: &str) -> Option<Typed> {
    let lowered = text.to_lowercase();
    let cut = lowered.find(|c: char| !c.is_alphabetic() && c != ' ' && c != '-').unwrap_or(lowered.len());
    let (word, rest) = lowered.split_at(cut);
    let rest = rest.trim_matches(|c: char| " :;,()".contains(c));
    if word.trim() == "-" && rest.starts_with(|c: char| c.is_ascii_digit()) {
        // A minus sign, not the mark of a test that was not done.
        return None;
    }
    let number = rest.split('/').next().and_then(|number| number.trim().parse::<i64>().ok());
    Some(match word.trim() {
        "p" | "pain" => Typed::Without(WithoutValue::Pain, number.filter(|number| (0..=10).contains(number))),
        "r" | "refused" | "declined" => Typed::Without(WithoutValue::Refused, None),
        "n" | "nt" | "-" | "not tested" | "not done" => {
            let reason = if rest.is_empty() { "not said" } else { rest };
            Typed::Without(WithoutValue::NotTested(reason.to_owned()), None)
        }
        _ => return None,
    })
}

/// Reads one box. A comma is a decimal comma: nobody groups thousands in a range or a force.
pub fn read(text: &str, measure: &Measure, units: Units) -> Result<Typed, Problem> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(Typed::Nothing);
    }
    if let Some(word) = without(text) {
        return Ok(word);
    }
    let range = Range::of(measure.key).expect("every measure stands in the range table");
    let assumed = unit(measure.key, units);
    let plain = text.replace(',', ".");
    let read =
        reading::quantity(&plain, dimension(measure.key), Some(assumed), Some(reading::DecimalMark::Point));
    let read = read.map_err(|error| match error {
        ReadingError::WrongKind(unit) => Problem::at("", "screening-wrong-unit")
            .with("unit", unit.symbol())
            .with("wanted", assumed.symbol()),
        _ => Problem::at("", "screening-not-read").with("text", text),
    })?;
    let value = read.value * scale(range);
    let limits = |(low, high): (f64, f64), says| {
        let in_unit = |value: f64| {
            let value = read.unit.from_canonical(value / scale(range));
            format!("{}", (value * 100.0).round() / 100.0)
        };
        Problem::at("", says)
            .with("label", range.label)
            .with("low", in_unit(low))
            .with("high", in_unit(high))
            .with("unit", read.unit.symbol())
    };
    match range.judge(value) {
        Judgement::Refuse => Err(limits(range.hard, "screening-impossible")),
        judged => {
            let symbol = read.unit.symbol();
            let has_unit = text.chars().any(|c| c.is_alphabetic() || "\"'°:".contains(c));
            let entered =
                if has_unit || symbol.is_empty() { text.to_owned() } else { format!("{text} {symbol}") };
            Ok(Typed::Value { value, entered, unusual: judged == Judgement::Ask })
        }
    }
}

/// The sentence of a value that is possible but unusual, in the club's unit.
pub fn unusual(measure: &Measure, units: Units) -> Problem {
    let range = Range::of(measure.key).expect("every measure stands in the range table");
    Problem::at("", "screening-unusual-value")
        .with("label", range.label)
        .with("low", shown(measure, range.plausible.0, units))
        .with("high", shown(measure, range.plausible.1, units))
        .with("unit", unit(measure.key, units).symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(key: &str) -> &'static Measure {
        Measure::of(key).expect("it is measured")
    }

    #[test]
    fn numbers_with_and_without_units_in_either_system() {
        for (key, text, units, wanted) in [
            ("er_force", "92,5", Units::Metric, 92.5),
            ("er_force", "20 lbf", Units::Metric, 20.0 * 4.448_221_615_260_5),
            ("er_force", "20", Units::Imperial, 20.0 * 4.448_221_615_260_5),
            ("height", "162", Units::Metric, 1.62),
            ("height", "5'4\"", Units::Imperial, 1.6256),
            ("lever_arm", "24", Units::Metric, 0.24),
            ("pec_minor_length", "15.2", Units::Metric, 15.2),
            ("posterior_endurance_time", "1:12", Units::Metric, 72.0),
            ("shoulder_er_rom", "98°", Units::Metric, 98.0),
        ] {
            let Ok(Typed::Value { value, unusual, .. }) = read(text, of(key), units) else {
                panic!("{key} {text} is a value")
            };
            assert!((value - wanted).abs() < 1e-9 && !unusual, "{key} {text}: {value}");
        }
    }

    #[test]
    fn words_say_why_there_is_none_and_are_never_zero() {
        for (text, wanted) in [
            ("pain", Typed::Without(WithoutValue::Pain, None)),
            ("p 4", Typed::Without(WithoutValue::Pain, Some(4))),
            ("pain 4/10", Typed::Without(WithoutValue::Pain, Some(4))),
            ("Pain: 11", Typed::Without(WithoutValue::Pain, None)),
            ("r", Typed::Without(WithoutValue::Refused, None)),
            ("-", Typed::Without(WithoutValue::NotTested("not said".to_owned()), None)),
            ("not tested (cast)", Typed::Without(WithoutValue::NotTested("cast".to_owned()), None)),
            ("", Typed::Nothing),
        ] {
            assert_eq!(read(text, of("er_force"), Units::Metric), Ok(wanted), "{text}");
        }
    }

    #[test]
    fn impossible_is_refused_and_unusual_is_asked_about() {
        let says = |key, text| read(text, of(key), Units::Metric).map_err(|problem| problem.says);
        assert_eq!(says("shoulder_er_rom", "198"), Err("screening-impossible"));
        assert_eq!(says("shoulder_er_rom", "-5"), Err("screening-impossible"));
        assert_eq!(says("shoulder_er_rom", "9o"), Err("screening-not-read"));
        assert_eq!(says("shoulder_er_rom", "90 N"), Err("screening-wrong-unit"));
        for text in ["nan", "inf", "1e400"] {
            assert!(says("er_force", text).is_err(), "{text}");
        }
        assert!(matches!(says("shoulder_er_rom", "45"), Ok(Typed::Value { unusual: true, .. })));
    }
}
