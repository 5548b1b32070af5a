//! A number as a person typed it, with its unit: "12,5 kg", "5'4\"", "18 lbf", "1:30".
//!
//! Nothing is guessed. A mark that could be a decimal or a thousands mark is a named problem unless the caller
//! knows which mark the column uses; a unit of another kind, an unknown unit and anything not finite are problems too.

use std::fmt;

pub use crate::unit::{Dimension, Unit};
use crate::unit::{UNITS, written_as};

/// Which mark stands before the decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DecimalMark {
    /// 12,5
    Comma,
    /// 12.5
    Point,
}

/// A number read from text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// The value.
    pub value: f64,
    /// How many decimals were written.
    pub decimals: u8,
    /// The decimal mark that this number shows beyond doubt, if it shows one.
    pub shows: Option<DecimalMark>,
}

/// A quantity read from text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The value in the canonical unit of its dimension.
    pub value: f64,
    /// The unit it was written in.
    pub unit: Unit,
    /// Half of the last place written, in the canonical unit: any true value this close was written this way.
    pub half_last_place: f64,
    /// The decimal mark that the text shows beyond doubt, if it shows one.
    pub shows: Option<DecimalMark>,
}

/// Why a text is not a number or a quantity.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadingError {
    /// Nothing there.
    Empty,
    /// Not a number.
    NotANumber,
    /// The mark may be a decimal or a thousands mark.
    Ambiguous {
        /// Read as a decimal mark.
        as_decimal: f64,
        /// Read as a thousands mark.
        as_thousands: f64,
    },
    /// Infinite, or not a number by its own word.
    NotFinite,
    /// A unit nobody here knows.
    UnknownUnit(String),
    /// A unit of another kind.
    WrongKind(Unit),
    /// No unit beside the number and none known for the column.
    NoUnit,
}

impl fmt::Display for ReadingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadingError::Empty => f.write_str("nothing there"),
            ReadingError::NotANumber => f.write_str("not a number"),
            ReadingError::Ambiguous { as_decimal, as_thousands } => {
                write!(f, "may be {as_decimal} or {as_thousands}")
            }
            ReadingError::NotFinite => f.write_str("not a finite number"),
            ReadingError::UnknownUnit(unit) => write!(f, "unknown unit {unit}"),
            ReadingError::WrongKind(unit) => write!(f, "{} measures something else", unit.symbol()),
            ReadingError::NoUnit => f.write_str("no unit"),
        }
    }
}

impl std::error::Error for ReadingError {}

/// Marks that only ever separate groups of three digits.
fn is_group_space(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\u{2009}' | '’' | '\'')
}

/// Reads a bare number. `mark` is the decimal mark of the column, where that is known.
pub fn number(text: &str, mark: Option<DecimalMark>) -> Result<Number, ReadingError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ReadingError::Empty);
    }
    let (negative, body) = match text.chars().next() {
        Some('-' | '−' | '–') => (true, text.trim_start_matches(['-', '−', '–'])),
        Some('+') => (false, &text[1..]),
        _ => (false, text),
    };
    if text.chars().count() - body.chars().count() > 1 {
        return Err(ReadingError::NotANumber);
    }
    let lowered = body.to_lowercase();
    if ["inf", "infinity", "nan", "∞"].contains(&lowered.as_str()) {
        return Err(ReadingError::NotFinite);
    }
    let (whole, decimals, shows) = split(body, mark)?;
    let joined = if decimals.is_empty() { whole } else { format!("{whole}.{decimals}") };
    let magnitude: f64 = joined.parse().map_err(|_| ReadingError::NotANumber)?;
    if !magnitude.is_finite() {
        return Err(ReadingError::NotFinite);
    }
    let value = if negative && magnitude != 0.0 { -magnitude } else { magnitude };
    Ok(Number { value, decimals: u8::try_from(decimals.len()).unwrap_or(u8::MAX), shows })
}

/// Whole digits, decimals, and the decimal mark shown beyond doubt.
type Split = (String, String, Option<DecimalMark>);

fn split(body: &str, mark: Option<DecimalMark>) -> Result<Split, ReadingError> {
    let first_is_digit_or_mark = body.starts_with(|c: char| c.is_ascii_digit() || c == ',' || c == '.');
    let ends_in_digit = body.ends_with(|c: char| c.is_ascii_digit());
    if !first_is_digit_or_mark || !ends_in_digit {
        return Err(ReadingError::NotANumber);
    }
    if !body.chars().all(|c| c.is_ascii_digit() || c == ',' || c == '.' || is_group_space(c)) {
        return Err(ReadingError::NotANumber);
    }
    let commas = body.matches(',').count();
    let points = body.matches('.').count();
    match (commas, points) {
        (0, 0) => Ok((grouped(body, None)?, String::new(), None)),
        (_, 0) => one_mark(body, ',', DecimalMark::Comma, commas, mark),
        (0, _) => one_mark(body, '.', DecimalMark::Point, points, mark),
        _ => {
            let last_comma = body.rfind(',').expect("a comma was counted");
            let last_point = body.rfind('.').expect("a point was counted");
            let (decimal, group, shown) = if last_point < last_comma {
                (last_comma, '.', DecimalMark::Comma)
            } else {
                (last_point, ',', DecimalMark::Point)
            };
            if mark.is_some_and(|mark| mark != shown) {
                return Err(ReadingError::NotANumber);
            }
            Ok((grouped(&body[..decimal], Some(group))?, digits(&body[decimal + 1..])?, Some(shown)))
        }
    }
}

/// Reads a number that has only commas, or only points.
fn one_mark(
    body: &str,
    sign: char,
    as_decimal: DecimalMark,
    count: usize,
    mark: Option<DecimalMark>,
) -> Result<Split, ReadingError> {
    let other = match as_decimal {
        DecimalMark::Comma => DecimalMark::Point,
        DecimalMark::Point => DecimalMark::Comma,
    };
    if count > 1 {
        return match mark {
            Some(mark) if mark == as_decimal => Err(ReadingError::NotANumber),
            _ => Ok((grouped(body, Some(sign))?, String::new(), Some(other))),
        };
    }
    let (before, after) = body.split_once(sign).expect("the mark was counted");
    let decimals = digits(after);
    let could_group = after.len() == 3 && (1..=3).contains(&before.len()) && !before.starts_with('0');
    let decimal = || -> Result<Split, ReadingError> {
        let whole = if before.is_empty() { "0".to_owned() } else { grouped(before, None)? };
        Ok((whole, decimals.clone()?, if could_group { None } else { Some(as_decimal) }))
    };
    match (could_group, mark) {
        (false, Some(mark)) if mark == other => Err(ReadingError::NotANumber),
        (false, _) => decimal(),
        (true, Some(mark)) if mark == as_decimal => decimal(),
        (true, Some(_)) => Ok((grouped(body, Some(sign))?, String::new(), None)),
        (true, None) => {
            let parse = |text: &str| text.parse::<f64>().map_err(|_| ReadingError::NotANumber);
            Err(ReadingError::Ambiguous {
                as_decimal: parse(&format!("{before}.{after}"))?,
                as_thousands: parse(&format!("{before}{after}"))?,
            })
        }
    }
}

fn digits(text: &str) -> Result<String, ReadingError> {
    if !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()) {
        Ok(text.to_owned())
    } else {
        Err(ReadingError::NotANumber)
    }
}

/// Joins groups of three digits. `sign` separates them, or else any one space-like mark does.
fn grouped(text: &str, sign: Option<char>) -> Result<String, ReadingError> {
    let sign = sign.or_else(|| text.chars().find(|&c| is_group_space(c)));
    let Some(sign) = sign else { return digits(text) };
    let groups: Vec<&str> = text.split(sign).collect();
    let (first, rest) = groups.split_first().expect("a split has a first part");
    let fits = (1..=3).contains(&first.len()) && rest.iter().all(|group| group.len() == 3);
    if groups.len() > 1 && !fits {
        return Err(ReadingError::NotANumber);
    }
    digits(&groups.concat())
}

/// Reads a quantity. `assumed` is the unit of the column, used where the text names none.
pub fn quantity(
    text: &str,
    dimension: Dimension,
    assumed: Option<Unit>,
    mark: Option<DecimalMark>,
) -> Result<Reading, ReadingError> {
    let text = text.trim().replace(['′', '’'], "'").replace(['″', '”', '“'], "\"").replace("''", "\"");
    if text.is_empty() {
        return Err(ReadingError::Empty);
    }
    match dimension {
        Dimension::Length => {
            if let Some(reading) =
                two_parts(&text, &["feet", "foot", "ft", "'"], Unit::Foot, Unit::Inch, 12.0)
            {
                return reading;
            }
        }
        Dimension::Time => {
            if let Some((minutes, seconds)) = text.split_once(':') {
                return joined(minutes, seconds, Unit::Minute, Unit::Second, 60.0);
            }
            if let Some(reading) = two_parts(&text, &["min", "'"], Unit::Minute, Unit::Second, 60.0) {
                return reading;
            }
        }
        Dimension::Mass | Dimension::Force | Dimension::Angle | Dimension::Count => {}
    }
    let cut = text
        .char_indices()
        .rev()
        .find(|(_, c)| c.is_ascii_digit())
        .map(|(place, c)| place + c.len_utf8())
        .unwrap_or(0);
    let (digits, tail) = text.split_at(cut);
    if digits.is_empty() {
        number(&text, mark)?;
        return Err(ReadingError::NotANumber);
    }
    let parsed = number(digits, mark)?;
    let tail = tail.trim();
    let unit = if tail.is_empty() {
        match (assumed, dimension) {
            (Some(unit), _) => unit,
            (None, Dimension::Count) => Unit::One,
            (None, _) => return Err(ReadingError::NoUnit),
        }
    } else {
        unit_of(tail, dimension)?
    };
    reading(parsed, unit)
}

fn unit_of(word: &str, dimension: Dimension) -> Result<Unit, ReadingError> {
    if let Some(unit) = Unit::from_word(word, dimension) {
        return Ok(unit);
    }
    match UNITS.iter().find(|row| written_as(row, word)) {
        Some(row) => Err(ReadingError::WrongKind(row.0)),
        None => Err(ReadingError::UnknownUnit(word.trim().to_owned())),
    }
}

fn reading(parsed: Number, unit: Unit) -> Result<Reading, ReadingError> {
    let value = unit.to_canonical(parsed.value);
    if !value.is_finite() {
        return Err(ReadingError::NotFinite);
    }
    let half_last_place = unit.to_canonical(0.5 * 10_f64.powi(-i32::from(parsed.decimals)));
    Ok(Reading { value, unit, half_last_place, shows: parsed.shows })
}

/// Reads "5 ft 4 in", "5'4\"", "1 min 30 s"; nothing when the text has no larger part followed by a smaller one.
fn two_parts(
    text: &str,
    marks: &[&str],
    larger: Unit,
    smaller: Unit,
    most: f64,
) -> Option<Result<Reading, ReadingError>> {
    let lowered = text.to_lowercase();
    let (place, mark) = marks.iter().find_map(|mark| lowered.find(mark).map(|place| (place, *mark)))?;
    // Lower-casing may change the length of letters beyond ASCII, which no number with a unit contains.
    if !text.is_ascii() {
        return Some(Err(ReadingError::NotANumber));
    }
    let rest = text[place + mark.len()..].trim().trim_start_matches('.').trim();
    if !rest.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let symbols = UNITS.iter().find(|row| row.0 == smaller).map_or(&[][..], |row| row.4);
    let lowered_rest = rest.to_lowercase();
    let tail = lowered_rest.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
    if !tail.trim().is_empty() && !symbols.contains(&tail.trim().trim_end_matches('.')) {
        return Some(Err(ReadingError::UnknownUnit(tail.trim().to_owned())));
    }
    let small = &rest[..rest.len() - tail.len()];
    Some(joined(&text[..place], small, larger, smaller, most))
}

/// A larger part and a smaller one. A group mark cannot stand in either, so a mark in the smaller is decimal.
fn joined(large: &str, small: &str, larger: Unit, smaller: Unit, most: f64) -> Result<Reading, ReadingError> {
    let large = digits(large.trim())?;
    let mark = if small.contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    let small = number(small, Some(mark))?;
    if small.value < 0.0 || most <= small.value {
        return Err(ReadingError::NotANumber);
    }
    let large: f64 = large.parse().map_err(|_| ReadingError::NotANumber)?;
    let value = large * most + small.value;
    reading(Number { value, ..small }, smaller).map(|reading| Reading { unit: larger, ..reading })
}

#[cfg(test)]
#[path = "reading_tests.rs"]
mod tests;
