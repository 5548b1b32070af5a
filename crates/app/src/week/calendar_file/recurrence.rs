//! The stated subset of recurrence rules: weekly and daily, with interval, days, count and end.

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

/// How often.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Every {
    /// Each day, or each so many.
    Day,
    /// Each week, or each so many.
    Week,
}

/// A rule of the subset.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Rule {
    pub(super) every: Every,
    interval: i64,
    count: Option<usize>,
    until: Option<Date>,
    days: Vec<i8>,
}

const DAYS: [&str; 7] = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
/// Most steps taken when a rule is written out.
const MOST_STEPS: usize = 1_500;

impl Rule {
    /// Reads a rule, or says which part of it is outside the subset.
    pub(super) fn read(text: &str) -> Result<Rule, String> {
        let mut rule = Rule { every: Every::Day, interval: 1, count: None, until: None, days: Vec::new() };
        let mut has_frequency = false;
        for part in text.split(';').filter(|part| !part.is_empty()) {
            let refused = || part.to_owned();
            let (key, value) = part.split_once('=').ok_or_else(refused)?;
            match key.to_ascii_uppercase().as_str() {
                "FREQ" => {
                    has_frequency = true;
                    rule.every = match value.to_ascii_uppercase().as_str() {
                        "WEEKLY" => Every::Week,
                        "DAILY" => Every::Day,
                        _ => return Err(refused()),
                    };
                }
                "INTERVAL" => {
                    rule.interval =
                        value.parse().ok().filter(|step| (1..=52).contains(step)).ok_or_else(refused)?
                }
                "COUNT" => {
                    rule.count = Some(value.parse().ok().filter(|count| 0 < *count).ok_or_else(refused)?)
                }
                "UNTIL" => {
                    let day = value.get(..8).ok_or_else(refused)?;
                    rule.until = Some(Date::strptime("%Y%m%d", day).map_err(|_| refused())?);
                }
                "BYDAY" => {
                    for day in value.split(',') {
                        let at = DAYS
                            .iter()
                            .position(|known| known.eq_ignore_ascii_case(day))
                            .ok_or_else(refused)?;
                        rule.days.push(i8::try_from(at + 1).map_err(|_| refused())?);
                    }
                }
                // The first day of the week matters only where weeks are skipped.
                "WKST" if value.eq_ignore_ascii_case("MO") => {}
                _ => return Err(refused()),
            }
        }
        if !has_frequency {
            return Err("FREQ".to_owned());
        }
        if rule.every == Every::Day && !rule.days.is_empty() {
            return Err("BYDAY".to_owned());
        }
        rule.days.sort_unstable();
        rule.days.dedup();
        Ok(rule)
    }

    /// True for "every week on these days, without end".
    pub(super) fn is_plain_weekly(&self) -> bool {
        self.every == Every::Week && self.interval == 1 && !self.has_end()
    }

    /// True when it ends by itself.
    pub(super) fn has_end(&self) -> bool {
        self.count.is_some() || self.until.is_some()
    }

    /// Its days of the week; that of the first event when none is named.
    pub(super) fn weekdays(&self, first: Date) -> Vec<i8> {
        if self.days.is_empty() { vec![first.weekday().to_monday_one_offset()] } else { self.days.clone() }
    }

    /// Every start up to a day.
    pub(super) fn dates(&self, first: DateTime, last: Date) -> Vec<DateTime> {
        let last = self.until.map_or(last, |until| until.min(last));
        let monday = schedule::year::monday_of(first.date());
        let weekdays = self.weekdays(first.date());
        let mut all = Vec::new();
        for step in 0..MOST_STEPS {
            let step = i64::try_from(step).unwrap_or(0) * self.interval;
            let days: Vec<Date> = match self.every {
                Every::Day => vec![first.date().saturating_add(step.days())],
                Every::Week => {
                    let week = monday.saturating_add((step * 7).days());
                    weekdays.iter().map(|day| week.saturating_add(i64::from(day - 1).days())).collect()
                }
            };
            for day in days.iter().copied().filter(|day| first.date() <= *day) {
                if last < day || self.count.is_some_and(|count| count <= all.len()) {
                    return all;
                }
                all.push(day.to_datetime(first.time()));
            }
            if days.first().is_some_and(|day| last < *day) {
                break;
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn starts(rule: &str, first: Date) -> Vec<String> {
        let rule = Rule::read(rule).expect("within the subset");
        let last = date(2026, 12, 31);
        rule.dates(first.at(17, 0, 0, 0), last).iter().map(|start| start.date().to_string()).collect()
    }

    #[test]
    fn the_subset_is_written_out() {
        let monday = date(2026, 3, 9);
        for (rule, expected) in [
            ("FREQ=WEEKLY;COUNT=3", vec!["2026-03-09", "2026-03-16", "2026-03-23"]),
            ("FREQ=WEEKLY;BYDAY=TU,TH;COUNT=3", vec!["2026-03-10", "2026-03-12", "2026-03-17"]),
            ("FREQ=WEEKLY;INTERVAL=2;UNTIL=20260410T000000Z", vec!["2026-03-09", "2026-03-23", "2026-04-06"]),
            ("FREQ=DAILY;COUNT=2", vec!["2026-03-09", "2026-03-10"]),
            ("FREQ=DAILY;INTERVAL=3;UNTIL=20260315", vec!["2026-03-09", "2026-03-12", "2026-03-15"]),
        ] {
            assert_eq!(starts(rule, monday), expected, "{rule}");
        }
    }

    #[test]
    fn what_is_outside_is_named() {
        for (rule, part) in [
            ("FREQ=MONTHLY", "FREQ=MONTHLY"),
            ("FREQ=WEEKLY;BYSETPOS=1", "BYSETPOS=1"),
            ("FREQ=WEEKLY;BYDAY=1MO", "BYDAY=1MO"),
            ("FREQ=WEEKLY;WKST=SU", "WKST=SU"),
            ("FREQ=DAILY;BYDAY=MO", "BYDAY"),
            ("COUNT=3", "FREQ"),
            ("FREQ=WEEKLY;INTERVAL=0", "INTERVAL=0"),
        ] {
            assert_eq!(Rule::read(rule), Err(part.to_owned()), "{rule}");
        }
    }
}
