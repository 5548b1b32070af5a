//! What a cell says, read the way people write.

use super::grid::normal_form;

/// A number, a gap, or something else.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// A number.
    Number(f64),
    /// Nothing: blank, or a word for "not there".
    Missing,
    /// Something else.
    Text(String),
}

/// Words for "not there". A number that is not one (NaN) is such a word.
const MISSING: &[&str] =
    &["", "na", "n_a", "nan", "null", "none", "missing", "not_tested", "not_done", "#n_a"];

/// Reads one cell. A decimal comma is a decimal point.
pub fn read(text: &str) -> Cell {
    let trimmed = text.trim();
    if trimmed.chars().all(|letter| matches!(letter, '-' | '–' | '—' | '.' | '?'))
        || MISSING.contains(&normal_form(trimmed).as_str())
    {
        return Cell::Missing;
    }
    number(trimmed).map_or_else(|| Cell::Text(trimmed.to_owned()), Cell::Number)
}

/// A finite number; infinities are none.
fn number(text: &str) -> Option<f64> {
    let plain = text.replace(['\u{a0}', '\u{202f}'], "").replace('\u{2212}', "-");
    let plain = if plain.contains('.') { plain } else { plain.replacen(',', ".", 1) };
    plain.parse::<f64>().ok().filter(|value| value.is_finite())
}

/// A length of time in the column's unit: a number, `90 s`, or minutes and seconds as `1:30`.
pub fn time(text: &str) -> Cell {
    let trimmed = text.trim();
    if let Some((minutes, seconds)) = trimmed.split_once(':')
        && let (Some(minutes), Some(seconds)) = (number(minutes), number(seconds))
        && 0.0 <= minutes
        && (0.0..60.0).contains(&seconds)
    {
        return Cell::Number(60.0 * minutes + seconds);
    }
    let bare =
        ["seconds", "secs", "sec", "s"].iter().find_map(|unit| trimmed.strip_suffix(unit)).unwrap_or(trimmed);
    match read(bare) {
        Cell::Text(_) => Cell::Text(trimmed.to_owned()),
        found => found,
    }
}

/// What ends a set, or yes and no.
const YES: &[&str] = &[
    "1",
    "true",
    "t",
    "yes",
    "y",
    "event",
    "form",
    "form_loss",
    "form_lost",
    "lost",
    "lost_form",
    "failed",
    "failure",
    "died",
    "dead",
    "relapse",
    "exact",
    "observed",
    "uncensored",
];
const NO: &[&str] = &[
    "0",
    "false",
    "f",
    "no",
    "n",
    "cap",
    "capped",
    "censored",
    "kit",
    "left",
    "pain",
    "chose",
    "chose_to_stop",
    "stopped",
    "alive",
    "right",
    "right_censored",
    "not_observed",
    "none",
    "completed",
];

/// Words for a set that ended before its cap for another reason than form.
const OTHERWISE: &[&str] = &["kit", "left", "pain", "chose", "chose_to_stop", "stopped"];

/// Whether a set ended before its cap for another reason than form.
pub fn ended_otherwise(text: &str) -> bool {
    OTHERWISE.contains(&normal_form(text).as_str())
}

/// Yes or no; nothing where it says neither.
pub fn yes(text: &str) -> Option<bool> {
    let form = normal_form(text);
    let form = form.strip_suffix("_0").unwrap_or(&form);
    if YES.contains(&form) {
        Some(true)
    } else if NO.contains(&form) {
        Some(false)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn people_write_numbers_in_many_ways() {
        for (text, value) in
            [("12,5", 12.5), (" 12.5 ", 12.5), ("\u{2212}3", -3.0), ("1e3", 1000.0), ("1 000", 1000.0)]
        {
            let text = text.replace("1 000", "1\u{a0}000");
            assert_eq!(read(&text), Cell::Number(value), "{text}");
        }
        for text in ["", "  ", "NA", "n/a", "NaN", "-", "not tested"] {
            assert_eq!(read(text), Cell::Missing, "{text}");
        }
        for text in ["inf", "12 apples", "1,2,3", "0x10"] {
            assert!(matches!(read(text), Cell::Text(_)), "{text}");
        }
        assert_eq!(
            (time("1:30"), time("90 s"), time("90,5s")),
            (Cell::Number(90.0), Cell::Number(90.0), Cell::Number(90.5))
        );
        assert_eq!(
            (yes("TRUE"), yes("1.0"), yes("Form loss"), yes("cap"), yes("2")),
            (Some(true), Some(true), Some(true), Some(false), None)
        );
    }
}
