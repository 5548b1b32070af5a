//! Days and times as people write them: `Mon`, `weekdays`, `2026-03-10`, `17:30`, `5.30 pm`, `16:00-18:00`.

use std::ops::Range;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;

use super::problem::{BACKWARDS, BAD_DATE, BAD_DAY, BAD_TIME, DAY_OUTSIDE, NO_END, Report, SKIPPED_TIME};
use super::table::{Key, Table};
use crate::time::{Span, TimeFault};

pub(super) const DAYS: Key = &["days", "day", "weekday", "weekdays", "date", "dates", "on"];
pub(super) const FROM: Key = &["from", "start", "starts", "begin", "begins", "start_time", "at"];
pub(super) const TO: Key = &["to", "end", "ends", "until", "till", "end_time", "finish"];
pub(super) const TIME: Key = &["time", "times"];
/// Days and times in one text.
pub(super) const WHEN: Key = &["when"];
pub(super) const MINUTES: Key =
    &["minutes", "duration", "length", "duration_min", "length_min", "duration_minutes", "mins"];

/// The days of the file.
#[derive(Clone)]
pub(super) struct Days {
    pub(super) zone: TimeZone,
    pub(super) first: Date,
    pub(super) last: Date,
}

/// How far a weekly pattern reaches past the days to plan, in days: what stands there still counts.
#[derive(Clone, Copy)]
pub(super) struct Reach {
    pub(super) before: i64,
    pub(super) after: i64,
}

const WEEKDAYS: [(&str, &str); 7] = [
    ("monday", "mon"),
    ("tuesday", "tue"),
    ("wednesday", "wed"),
    ("thursday", "thu"),
    ("friday", "fri"),
    ("saturday", "sat"),
    ("sunday", "sun"),
];

/// A weekday by name, 1 is Monday.
fn weekday(word: &str) -> Option<i8> {
    let word = word.trim().trim_end_matches('.').to_lowercase();
    let word = word.strip_suffix('s').filter(|word| word.ends_with("day")).unwrap_or(&word);
    let is_it = |full: &str, short: &str| {
        word == full
            || (3 <= word.len() && word.starts_with(short) && full.starts_with(&word[..3]) && word.len() <= 5)
    };
    WEEKDAYS.iter().position(|(full, short)| is_it(full, short)).and_then(|at| i8::try_from(at + 1).ok())
}

/// Weekdays a word stands for: a name, a range of names, `weekdays`, `weekend`, `daily`.
pub fn weekdays(word: &str) -> Option<Vec<i8>> {
    let lower = word.trim().to_lowercase();
    match lower.as_str() {
        "weekdays" | "workdays" | "school days" | "schooldays" => return Some((1..=5).collect()),
        "weekend" | "weekends" => return Some(vec![6, 7]),
        "daily" | "every day" | "everyday" | "all" | "all days" => return Some((1..=7).collect()),
        _ => {}
    }
    if let Some(day) = weekday(&lower) {
        return Some(vec![day]);
    }
    let (from, to) = ["-", "–", " to ", ".."].iter().find_map(|mark| lower.split_once(mark))?;
    let (from, to) = (weekday(from)?, weekday(to)?);
    let days = (0..7).map(|step| (from - 1 + step) % 7 + 1);
    let mut range: Vec<i8> = Vec::new();
    for day in days {
        range.push(day);
        if day == to {
            break;
        }
    }
    Some(range)
}

/// A date, as `2026-03-10`.
pub fn date(text: &str) -> Option<Date> {
    text.trim().parse::<Date>().ok().filter(|_| text.trim().len() == 10)
}

/// A time of day: `17:30`, `17.30`, `17h30`, `5:30 pm`, `17`. 24:00 is the end of the day and not a start.
pub fn clock(text: &str) -> Option<Time> {
    let text = text.trim().to_lowercase();
    let (text, afternoon) = match text.strip_suffix("pm").or_else(|| text.strip_suffix("p.m.")) {
        Some(rest) => (rest.trim().to_owned(), Some(true)),
        None => match text.strip_suffix("am").or_else(|| text.strip_suffix("a.m.")) {
            Some(rest) => (rest.trim().to_owned(), Some(false)),
            None => (text, None),
        },
    };
    let mut parts = text.split([':', '.', 'h']);
    let number = |part: &str| part.parse::<i8>().ok().filter(|_| part.len() <= 2 && !part.is_empty());
    let hour = number(parts.next()?)?;
    let minute = parts.next().map_or(Some(0), |part| if part.is_empty() { Some(0) } else { number(part) })?;
    let second = parts.next().map_or(Some(0), number)?;
    if parts.next().is_some() || second != 0 {
        return None;
    }
    let hour = match afternoon {
        Some(_) if !(1..=12).contains(&hour) => return None,
        Some(true) => hour % 12 + 12,
        Some(false) => hour % 12,
        None => hour,
    };
    Time::new(hour, minute, 0, 0).ok()
}

/// One or several days of a table, as dates. A weekly pattern reaches past the days to plan; a date stands for itself.
pub(super) fn days_of(
    table: &Table<'_>,
    days: &Days,
    reach: Reach,
    report: &mut Report<'_>,
) -> Option<Vec<Date>> {
    let words = table.texts(DAYS, report)?;
    let mut all: Vec<Date> =
        words.iter().flat_map(|(text, at)| days_in(text, at, days, reach, report)).collect();
    all.sort_unstable();
    all.dedup();
    Some(all)
}

/// Days in one text.
fn days_in(text: &str, at: &Range<usize>, days: &Days, reach: Reach, report: &mut Report<'_>) -> Vec<Date> {
    let mut all = Vec::new();
    for word in text.split([',', ';', '/', '&']).map(str::trim).filter(|word| !word.is_empty()) {
        if let Some(day) = date(word) {
            all.push(day);
        } else if let Some(wanted) = weekdays(word) {
            let mut day = days.first.saturating_sub(reach.before.days());
            let last = days.last.saturating_add(reach.after.days());
            let mut any = false;
            while day <= last {
                if wanted.contains(&day.weekday().to_monday_one_offset()) {
                    all.push(day);
                    any |= days.first <= day && day <= days.last;
                }
                day = day.saturating_add(1.day());
            }
            if !any && reach.before == 0 {
                let values = [word.to_owned(), days.first.to_string(), days.last.to_string()];
                report.add(&DAY_OUTSIDE, at.clone(), values);
            }
        } else {
            let looks_like_date = word.starts_with(|letter: char| letter.is_ascii_digit());
            let message = if looks_like_date { &BAD_DATE } else { &BAD_DAY };
            report.add(message, at.clone(), [word.to_owned()]);
        }
    }
    if all.is_empty() && text.trim().is_empty() {
        report.add(&BAD_DAY, at.clone(), [text.to_owned()]);
    }
    all
}

/// A stretch of the day, or of dated moments.
pub(super) enum Times {
    /// The same times on every day of the entry.
    Daily(Time, Time),
    /// From one dated moment to another.
    Dated(DateTime, DateTime),
}

/// What stands under one key: a time of day or a dated moment.
enum Moment {
    Clock(Time),
    Dated(DateTime),
}

fn moment(text: &str) -> Option<Moment> {
    let text = text.trim();
    if let Some((day, time)) = text.split_once(['T', ' ']).filter(|(day, _)| date(day).is_some()) {
        return Some(Moment::Dated(date(day)?.to_datetime(clock(time)?)));
    }
    clock(text).map(Moment::Clock)
}

/// The times of a table: from and to, from and minutes, or one text with both. `minutes` is used when no end is given.
pub(super) fn times_of(
    table: &Table<'_>,
    minutes: Option<i64>,
    report: &mut Report<'_>,
) -> Option<(Times, Range<usize>)> {
    if let Some((text, at)) = table.text(TIME, report) {
        let both = ["–", " to ", "-"].iter().find_map(|mark| text.split_once(mark));
        return match both.map(|(from, to)| (clock(from), clock(to))) {
            Some((Some(from), Some(to))) => Some((Times::Daily(from, to), at)),
            _ => {
                report.add(&BAD_TIME, at, [text]);
                None
            }
        };
    }
    let (from_text, from_at) = match table.find(FROM, report) {
        Some(value) => (clock_text(value, FROM[0], report)?, value.span()),
        None => {
            table.need(FROM, report);
            return None;
        }
    };
    let Some(from) = moment(&from_text) else {
        report.add(&BAD_TIME, from_at, [from_text]);
        return None;
    };
    let to = match table.find(TO, report) {
        Some(value) => {
            let text = clock_text(value, TO[0], report)?;
            // Midnight at the end of the day is the last minute of it: sessions do not run over midnight.
            let shown = if matches!(text.trim(), "24:00" | "24.00" | "24" | "24:00:00") {
                "23:59".to_owned()
            } else {
                text
            };
            let Some(to) = moment(&shown) else {
                report.add(&BAD_TIME, value.span(), [shown]);
                return None;
            };
            Some(to)
        }
        None => None,
    };
    let lasting = table.whole(MINUTES, (1, 24 * 60 - 1), report).map(i64::from).or(minutes);
    let times = match (from, to) {
        (Moment::Clock(from), Some(Moment::Clock(to))) => Times::Daily(from, to),
        (Moment::Dated(from), Some(Moment::Dated(to))) => Times::Dated(from, to),
        (Moment::Dated(from), Some(Moment::Clock(to))) => Times::Dated(from, from.date().to_datetime(to)),
        (Moment::Clock(_), Some(Moment::Dated(to))) => {
            report.add(&BAD_TIME, from_at, [to.to_string()]);
            return None;
        }
        (from, None) => {
            let Some(lasting) = lasting else {
                report.add(&NO_END, table.at.clone(), [table.within.clone()]);
                return None;
            };
            match from {
                Moment::Dated(from) => Times::Dated(from, from.saturating_add(lasting.minutes())),
                Moment::Clock(from) => {
                    let day = Date::constant(2000, 1, 1).to_datetime(from).saturating_add(lasting.minutes());
                    Times::Daily(from, day.time())
                }
            }
        }
    };
    Some((times, from_at))
}

/// A value as the text of a time. A whole number is an hour, as in `from = 16`.
fn clock_text(value: super::table::Value<'_>, key: &str, report: &mut Report<'_>) -> Option<String> {
    match value.get_ref() {
        toml::de::DeValue::Integer(digits) => Some(digits.as_str().to_owned()),
        _ => super::table::text(value, key, report),
    }
}

/// Stretches written as one text each: `Mon-Fri 17:00-20:00`.
pub(super) fn written_spans(
    texts: Vec<(String, Range<usize>)>,
    days: &Days,
    reach: Reach,
    report: &mut Report<'_>,
) -> Vec<Span> {
    let mut spans = Vec::new();
    for (text, at) in texts {
        let (words, times) = text.trim().rsplit_once(' ').unwrap_or(("", text.trim()));
        let both = ["–", "-"].iter().find_map(|mark| times.split_once(mark));
        let Some((Some(from), Some(to))) = both.map(|(from, to)| (clock(from), clock(to))) else {
            report.add(&BAD_TIME, at, [text]);
            continue;
        };
        for day in days_in(words, &at, days, reach, report) {
            spans.extend(span(&days.zone, day.to_datetime(from), day.to_datetime(to), at.clone(), report));
        }
    }
    spans
}

/// Every stretch of a table: its times on each of its days, or what stands under `when`.
pub(super) fn spans_of(
    table: &Table<'_>,
    days: &Days,
    reach: Reach,
    minutes: Option<i64>,
    report: &mut Report<'_>,
) -> Vec<Span> {
    if let Some(texts) = table.texts(WHEN, report) {
        return written_spans(texts, days, reach, report);
    }
    let on = days_of(table, days, reach, report);
    let Some((times, at)) = times_of(table, minutes, report) else { return Vec::new() };
    match times {
        Times::Dated(from, to) => span(&days.zone, from, to, at, report).into_iter().collect(),
        Times::Daily(from, to) => {
            let Some(on) = on else {
                table.need(DAYS, report);
                return Vec::new();
            };
            on.into_iter()
                .filter_map(|day| {
                    span(&days.zone, day.to_datetime(from), day.to_datetime(to), at.clone(), report)
                })
                .collect()
        }
    }
}

/// A stretch, or what is wrong with it.
pub(super) fn span(
    zone: &TimeZone,
    from: DateTime,
    to: DateTime,
    at: Range<usize>,
    report: &mut Report<'_>,
) -> Option<Span> {
    match Span::new(zone, from, to) {
        Ok(span) => Some(span),
        Err(TimeFault::Backwards { start, end }) => {
            let values = if start.date() == end.date() {
                [start.strftime("%H:%M").to_string(), end.strftime("%H:%M").to_string()]
            } else {
                [start.strftime("%F %H:%M").to_string(), end.strftime("%F %H:%M").to_string()]
            };
            report.add(&BACKWARDS, at, values);
            None
        }
        Err(TimeFault::Skipped(moment) | TimeFault::Outside(moment)) => {
            report.add(&SKIPPED_TIME, at, [moment.strftime("%F %H:%M").to_string()]);
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_as_people_write_them() {
        for (word, expected) in [
            ("Mon", vec![1]),
            ("monday", vec![1]),
            ("Tues", vec![2]),
            ("Thurs.", vec![4]),
            ("Saturdays", vec![6]),
            ("weekdays", vec![1, 2, 3, 4, 5]),
            ("Mon-Wed", vec![1, 2, 3]),
            ("Sat to Mon", vec![6, 7, 1]),
            ("daily", vec![1, 2, 3, 4, 5, 6, 7]),
        ] {
            assert_eq!(weekdays(word), Some(expected), "{word}");
        }
        for word in ["moonday", "m", "T", "day", "", "Mon-Fry"] {
            assert_eq!(weekdays(word), None, "{word}");
        }
    }

    #[test]
    fn times_are_read_as_people_write_them() {
        let at = |hour, minute| Time::new(hour, minute, 0, 0).ok();
        for (text, expected) in [
            ("17:30", at(17, 30)),
            ("17.30", at(17, 30)),
            ("17h30", at(17, 30)),
            ("17:30:00", at(17, 30)),
            ("5:30 pm", at(17, 30)),
            ("5pm", at(17, 0)),
            ("12 am", at(0, 0)),
            ("7", at(7, 0)),
            ("25:00", None),
            ("17:61", None),
            ("13 pm", None),
            ("half past five", None),
            ("17:30:15", None),
            ("", None),
        ] {
            assert_eq!(clock(text), expected, "{text}");
        }
    }
}
