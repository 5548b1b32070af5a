//! Stretches of civil time, with the instant each end really is: gaps are measured in hours that pass.
//!
//! On the nights when clocks change, 22:00 to 06:00 is seven or nine hours. A rule that asks for hours counts those.

use std::fmt;

use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use jiff::tz::{AmbiguousOffset, TimeZone};

/// One civil time in one zone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stamp {
    /// Minutes since the Unix epoch. Stands first, so that stamps order by what really comes first.
    minute: i64,
    /// As a clock on the wall shows it.
    civil: DateTime,
}

/// Why a civil time cannot be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeFault {
    /// Clocks jump over it on that day.
    Skipped(DateTime),
    /// Outside the calendar.
    Outside(DateTime),
    /// The end is not after the start.
    Backwards {
        /// Start.
        start: DateTime,
        /// End.
        end: DateTime,
    },
}

impl fmt::Display for TimeFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TimeFault::Skipped(at) => write!(out, "{at} does not exist: clocks jump over it"),
            TimeFault::Outside(at) => write!(out, "{at} is outside the calendar"),
            TimeFault::Backwards { start, end } => write!(out, "{end} is not after {start}"),
        }
    }
}

impl std::error::Error for TimeFault {}

impl Stamp {
    /// A civil time in a zone. Of a time that happens twice the first is taken.
    pub fn new(zone: &TimeZone, civil: DateTime) -> Result<Self, TimeFault> {
        let ambiguous = zone.to_ambiguous_timestamp(civil);
        if matches!(ambiguous.offset(), AmbiguousOffset::Gap { .. }) {
            return Err(TimeFault::Skipped(civil));
        }
        let instant: Timestamp = ambiguous.earlier().map_err(|_| TimeFault::Outside(civil))?;
        Ok(Self { minute: instant.as_second().div_euclid(60), civil })
    }

    /// As a clock on the wall shows it.
    pub fn civil(self) -> DateTime {
        self.civil
    }

    /// The civil day.
    pub fn day(self) -> Date {
        self.civil.date()
    }

    /// Minutes that pass until another moment; negative when it came before.
    pub fn minutes_until(self, later: Stamp) -> i64 {
        later.minute - self.minute
    }
}

/// A stretch of time: start included, end not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// Start.
    pub start: Stamp,
    /// End.
    pub end: Stamp,
}

impl Span {
    /// A stretch between two civil times of one zone.
    pub fn new(zone: &TimeZone, start: DateTime, end: DateTime) -> Result<Self, TimeFault> {
        let (from, to) = (Stamp::new(zone, start)?, Stamp::new(zone, end)?);
        if to.minute <= from.minute {
            Err(TimeFault::Backwards { start, end })
        } else {
            Ok(Self { start: from, end: to })
        }
    }

    /// Minutes that pass in it.
    pub fn minutes(self) -> i64 {
        self.start.minutes_until(self.end)
    }

    /// True when the two share a moment.
    pub fn overlaps(self, other: Span) -> bool {
        self.start.minute < other.end.minute && other.start.minute < self.end.minute
    }

    /// True when the other lies wholly inside.
    pub fn covers(self, other: Span) -> bool {
        self.start.minute <= other.start.minute && other.end.minute <= self.end.minute
    }

    /// Minutes from its end to the other's start.
    pub fn minutes_to(self, later: Span) -> i64 {
        self.end.minutes_until(later.start)
    }

    /// The civil day it starts on.
    pub fn day(self) -> Date {
        self.start.day()
    }
}

impl fmt::Display for Span {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (start, end) = (self.start.civil, self.end.civil);
        write!(
            out,
            "{} {:02}:{:02}-{:02}:{:02}",
            start.date(),
            start.hour(),
            start.minute(),
            end.hour(),
            end.minute()
        )
    }
}

/// Whole calendar days from one day to another.
pub fn days_between(from: Date, to: Date) -> i64 {
    from.duration_until(to).as_hours() / 24
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn zone() -> TimeZone {
        TimeZone::get("Europe/Amsterdam").expect("a zone of the tests")
    }

    #[test]
    fn a_night_of_changing_clocks_has_another_length() {
        let at = |day: Date, hour: i8| Stamp::new(&zone(), day.at(hour, 0, 0, 0)).expect("exists");
        let night = |day: Date| at(day, 22).minutes_until(at(day.tomorrow().expect("in range"), 6));
        assert_eq!(night(date(2026, 3, 20)), 8 * 60);
        assert_eq!(night(date(2026, 3, 28)), 7 * 60, "spring");
        assert_eq!(night(date(2026, 10, 24)), 9 * 60, "autumn");
    }

    #[test]
    fn a_time_that_does_not_exist_is_refused_and_one_that_comes_twice_is_the_first() {
        let skipped = date(2026, 3, 29).at(2, 30, 0, 0);
        assert_eq!(Stamp::new(&zone(), skipped), Err(TimeFault::Skipped(skipped)));
        let twice = Stamp::new(&zone(), date(2026, 10, 25).at(2, 30, 0, 0)).expect("exists");
        let after = Stamp::new(&zone(), date(2026, 10, 25).at(3, 30, 0, 0)).expect("exists");
        assert_eq!(twice.minutes_until(after), 120);
    }

    #[test]
    fn an_end_before_its_start_is_refused() {
        let day = date(2026, 3, 9);
        let (start, end) = (day.at(18, 0, 0, 0), day.at(17, 0, 0, 0));
        assert_eq!(Span::new(&zone(), start, end), Err(TimeFault::Backwards { start, end }));
        assert_eq!(days_between(day, date(2026, 3, 30)), 21, "over a change of clocks too");
    }
}
