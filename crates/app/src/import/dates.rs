//! Days as lists write them. Which of two numbers is the day is never guessed.

use jiff::civil::Date;

use super::words::tokens;

/// Which of the first two numbers of a date is the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DateOrder {
    /// 31.12.2026
    DayFirst,
    /// 12/31/2026
    MonthFirst,
}

impl DateOrder {
    /// The word on the command line and in forms.
    pub const fn word(self) -> &'static str {
        match self {
            DateOrder::DayFirst => "day-first",
            DateOrder::MonthFirst => "month-first",
        }
    }

    /// Reads the word on the command line and in forms.
    pub fn from_word(word: &str) -> Option<DateOrder> {
        [DateOrder::DayFirst, DateOrder::MonthFirst].into_iter().find(|order| order.word() == word)
    }

    /// Reads a pattern such as `DD.MM.YYYY`, as headers give it in brackets.
    pub(super) fn from_pattern(pattern: &str) -> Option<DateOrder> {
        let words = tokens(pattern);
        let letters: Vec<&str> = words.iter().map(String::as_str).collect();
        match letters.as_slice() {
            ["dd" | "d" | "tt" | "jj", "mm" | "m", ..] => Some(DateOrder::DayFirst),
            ["mm" | "m", "dd" | "d", ..] => Some(DateOrder::MonthFirst),
            _ => None,
        }
    }
}

/// Why a text is not a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateError {
    /// Not a date.
    NotADate,
    /// Day and month may be either way round.
    Ambiguous,
    /// A year of two digits.
    ShortYear,
    /// No such day in the calendar.
    Impossible,
    /// A bare number, as spreadsheets store days.
    Serial,
}

/// Three numbers with the year last.
enum Shape {
    Settled(i64, i64, i64),
    TwoWays(i64, i64, i64),
}

/// Reads a day. `order` settles dates that could be read both ways.
pub fn read_day(text: &str, order: Option<DateOrder>) -> Result<Date, DateError> {
    match shape(text)? {
        Shape::Settled(year, month, day) => make(year, month, day),
        Shape::TwoWays(first, second, year) => match order {
            Some(DateOrder::DayFirst) => make(year, second, first),
            Some(DateOrder::MonthFirst) => make(year, first, second),
            None if first == second => make(year, first, second),
            None if 12 < first && 12 < second => Err(DateError::Impossible),
            None if 31 < first || 31 < second || first == 0 || second == 0 => Err(DateError::Impossible),
            None => Err(DateError::Ambiguous),
        },
    }
}

/// The order that this one text shows beyond doubt, if it is a date that shows one.
pub fn order_shown(text: &str) -> Option<DateOrder> {
    match shape(text).ok()? {
        Shape::TwoWays(first, second, _) if (13..=31).contains(&first) && (1..=12).contains(&second) => {
            Some(DateOrder::DayFirst)
        }
        Shape::TwoWays(first, second, _) if (13..=31).contains(&second) && (1..=12).contains(&first) => {
            Some(DateOrder::MonthFirst)
        }
        _ => None,
    }
}

fn make(year: i64, month: i64, day: i64) -> Result<Date, DateError> {
    let year = i16::try_from(year).map_err(|_| DateError::Impossible)?;
    let month = i8::try_from(month).map_err(|_| DateError::Impossible)?;
    let day = i8::try_from(day).map_err(|_| DateError::Impossible)?;
    Date::new(year, month, day).map_err(|_| DateError::Impossible)
}

fn shape(text: &str) -> Result<Shape, DateError> {
    let text = without_time(text.trim());
    if !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()) {
        return Err(if (4..=6).contains(&text.len()) { DateError::Serial } else { DateError::NotADate });
    }
    let parts: Vec<&str> = text
        .split(['.', '/', '-', ' ', ',', '\u{a0}', '\u{2010}', '\u{2011}'])
        .filter(|part| !part.is_empty())
        .collect();
    let [first, second, third] = parts.as_slice() else { return Err(DateError::NotADate) };
    let number = |part: &str| -> Option<i64> {
        (part.len() <= 4 && part.chars().all(|c| c.is_ascii_digit())).then(|| part.parse().ok())?
    };
    match (number(first), number(second), number(third)) {
        (Some(year), Some(month), Some(day)) if first.len() == 4 => {
            if 2 < second.len() || 2 < third.len() {
                return Err(DateError::NotADate);
            }
            Ok(Shape::Settled(year, month, day))
        }
        (Some(one), Some(two), Some(year)) if first.len() <= 2 && second.len() <= 2 => match third.len() {
            4 => Ok(Shape::TwoWays(one, two, year)),
            1 | 2 => Err(DateError::ShortYear),
            _ => Err(DateError::NotADate),
        },
        (Some(day), None, Some(year)) => named(second, day, third, year),
        (None, Some(day), Some(year)) => named(first, day, third, year),
        _ => Err(DateError::NotADate),
    }
}

fn named(month: &str, day: i64, year_text: &str, year: i64) -> Result<Shape, DateError> {
    let month = month_named(month).ok_or(DateError::NotADate)?;
    match year_text.len() {
        4 => Ok(Shape::Settled(year, month, day)),
        1 | 2 => Err(DateError::ShortYear),
        _ => Err(DateError::NotADate),
    }
}

/// Drops a time of day behind the date: `2026-09-07T00:00:00`, `07/09/2026 00:00`.
fn without_time(text: &str) -> &str {
    let cut = text.char_indices().find(|&(place, c)| {
        let tail = &text[place + c.len_utf8()..];
        matches!(c, 'T' | ' ')
            && tail.contains(':')
            && tail.starts_with(|c: char| c.is_ascii_digit())
            && tail.chars().all(|c| c.is_ascii_digit() || matches!(c, ':' | '.' | 'Z' | '+' | '-'))
    });
    cut.map_or(text, |(place, _)| text[..place].trim_end())
}

/// Months by name: English, German, French, Spanish; the first letters that settle it, or the whole.
fn month_named(word: &str) -> Option<i64> {
    const MONTHS: [&[&str]; 12] = [
        &["jan", "january", "januar", "janner", "janvier", "janv", "ene", "enero"],
        &["feb", "february", "februar", "fevrier", "fevr", "febrero"],
        &["mar", "march", "marz", "mrz", "mars", "marzo"],
        &["apr", "april", "avril", "avr", "abr", "abril"],
        &["may", "mai", "mayo"],
        &["jun", "june", "juni", "juin", "junio"],
        &["jul", "july", "juli", "juillet", "juil", "julio"],
        &["aug", "august", "aout", "ago", "agosto"],
        &["sep", "sept", "september", "septembre", "septiembre"],
        &["oct", "october", "okt", "oktober", "octobre", "octubre"],
        &["nov", "november", "novembre", "noviembre"],
        &["dec", "december", "dez", "dezember", "decembre", "dic", "diciembre"],
    ];
    let word = tokens(word).concat();
    let place = MONTHS.iter().position(|names| names.contains(&word.as_str()))?;
    i64::try_from(place).ok().map(|place| place + 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use DateOrder::{DayFirst, MonthFirst};
    use jiff::civil::date;
    use proptest::prelude::*;

    #[test]
    fn days_as_lists_write_them() {
        let cases = [
            ("2026-09-07", None, date(2026, 9, 7)),
            ("2026-09-07T10:15:00", None, date(2026, 9, 7)),
            ("2026/9/7", None, date(2026, 9, 7)),
            ("07.09.2026", Some(DayFirst), date(2026, 9, 7)),
            ("7.9.2026", Some(DayFirst), date(2026, 9, 7)),
            ("07/09/2026 00:00", Some(DayFirst), date(2026, 9, 7)),
            ("09-07-2026", Some(MonthFirst), date(2026, 9, 7)),
            ("09/07/2026", Some(MonthFirst), date(2026, 9, 7)),
            ("05.05.2026", None, date(2026, 5, 5)),
            ("7 Sep 2026", None, date(2026, 9, 7)),
            ("7. September 2026", None, date(2026, 9, 7)),
            ("Sep 7, 2026", None, date(2026, 9, 7)),
            ("1. März 2026", None, date(2026, 3, 1)),
            ("29.02.2012", Some(DayFirst), date(2012, 2, 29)),
        ];
        for (text, order, wanted) in cases {
            assert_eq!(read_day(text, order), Ok(wanted), "{text}");
        }
    }

    #[test]
    fn what_is_no_day_says_why() {
        let cases = [
            ("07.09.2026", None, DateError::Ambiguous),
            ("31.12.2026", None, DateError::Ambiguous),
            ("07.09.26", Some(DayFirst), DateError::ShortYear),
            ("7 Sep 26", None, DateError::ShortYear),
            ("31.04.2026", Some(DayFirst), DateError::Impossible),
            ("29.02.2013", Some(DayFirst), DateError::Impossible),
            ("12/31/2026", Some(DayFirst), DateError::Impossible),
            ("2026-13-01", None, DateError::Impossible),
            ("13.14.2026", None, DateError::Impossible),
            ("46000", None, DateError::Serial),
            ("soon", None, DateError::NotADate),
            ("07.09", Some(DayFirst), DateError::NotADate),
            ("", None, DateError::NotADate),
        ];
        for (text, order, wanted) in cases {
            assert_eq!(read_day(text, order), Err(wanted), "{text}");
        }
        assert_eq!(order_shown("31.12.2026"), Some(DayFirst));
        assert_eq!(order_shown("12/31/2026"), Some(MonthFirst));
        assert_eq!(order_shown("12/11/2026"), None);
        assert_eq!(DateOrder::from_pattern("DD.MM.YYYY"), Some(DayFirst));
        assert_eq!(DateOrder::from_pattern("mm/dd/yyyy"), Some(MonthFirst));
    }

    proptest! {
        #[test]
        fn a_day_comes_back_however_it_was_written(days in 0_i64..40_000) {
            let day = date(1930, 1, 1).saturating_add(jiff::Span::new().days(days));
            let (y, m, d) = (day.year(), day.month(), day.day());
            prop_assert_eq!(read_day(&day.to_string(), None), Ok(day));
            prop_assert_eq!(read_day(&format!("{d:02}.{m:02}.{y}"), Some(DayFirst)), Ok(day));
            prop_assert_eq!(read_day(&format!("{d}/{m}/{y}"), Some(DayFirst)), Ok(day));
            prop_assert_eq!(read_day(&format!("{m:02}-{d:02}-{y}"), Some(MonthFirst)), Ok(day));
            prop_assert_eq!(read_day(&format!("{m}/{d}/{y}"), Some(MonthFirst)), Ok(day));
            if 12 < d {
                prop_assert_eq!(order_shown(&format!("{d}.{m}.{y}")), Some(DayFirst));
                prop_assert_eq!(order_shown(&format!("{m}/{d}/{y}")), Some(MonthFirst));
            }
        }

        #[test]
        fn no_text_panics(text in any::<String>(), near in "[0-9./ -]{0,12}") {
            for order in [None, Some(DayFirst), Some(MonthFirst)] {
                let _ = (read_day(&text, order), read_day(&near, order));
            }
        }
    }
}
