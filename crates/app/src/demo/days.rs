//! The days of the demo season, and what a clock on the wall says of an instant.

use jiff::Timestamp;
use jiff::civil::{Date, Weekday, date};
use jiff::tz::Offset;
use trade::history::days_between;

/// The day on which the demo stands still: a Wednesday whose session has not been held yet.
pub const DAY: Date = date(2026, 11, 25);
/// The club's time zone.
pub const ZONE: &str = "Europe/Helsinki";
/// First Monday of loaded work.
pub(super) const SEASON: Date = date(2026, 9, 14);
/// First day anything was written down.
pub(super) const BOOKS_OPEN: Date = date(2026, 6, 10);
/// The last Sunday of October, on which clocks went back an hour.
const SUMMER_TIME_ENDS: Date = date(2026, 10, 25);

/// Screening day before the season, and the re-test in the middle of it.
pub(super) const SCREENING_DAYS: [Date; 2] = [date(2026, 9, 12), date(2026, 11, 14)];
/// Days on which heights are taken.
pub(super) const MEASURING_DAYS: [Date; 3] = [BOOKS_OPEN, date(2026, 9, 12), date(2026, 11, 14)];

/// An instant from the club's wall clock. The two offsets of 2026 are written out, so that nothing is read from a
/// time zone database.
pub(super) fn instant(day: Date, seconds: u32) -> Timestamp {
    let offset = Offset::constant(if day < SUMMER_TIME_ENDS { 3 } else { 2 });
    let midnight = offset.to_timestamp(day.at(0, 0, 0, 0)).unwrap_or(Timestamp::UNIX_EPOCH);
    midnight.saturating_add(jiff::SignedDuration::from_secs(i64::from(seconds))).unwrap_or(midnight)
}

/// Week of the season, counted from one; none before it.
pub(super) fn week(day: Date) -> Option<u32> {
    let days = u32::try_from(days_between(SEASON, day)).ok()?;
    Some(days / 7 + 1)
}

/// Days since the season began; zero before it.
pub(super) fn season_days(day: Date) -> f64 {
    f64::from(days_between(SEASON, day).max(0))
}

/// Which of the two halves of the programme stands on a day: they take turns, so that each is done three times in a
/// fortnight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Half {
    /// Band, weights, row, plank.
    A,
    /// Band, push-up plus, prone lift, dead bug.
    B,
}

impl Half {
    pub(super) const fn exercises(self) -> [&'static str; 4] {
        match self {
            Half::A => ["RC-1", "RC-3", "SC-1", "CO-1"],
            Half::B => ["RC-1", "SC-2", "SC-3", "CO-4"],
        }
    }

    /// The half that is done on a day, if there is dryland at all.
    pub(super) fn on(day: Date) -> Option<Half> {
        let place = match day.weekday() {
            Weekday::Monday => 0,
            Weekday::Wednesday => 1,
            Weekday::Friday => 2,
            _ => return None,
        };
        let odd = (week(day)? + place).is_multiple_of(2);
        Some(if odd { Half::B } else { Half::A })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_take_turns() {
        assert_eq!(Half::on(SEASON), Some(Half::A));
        assert_eq!(Half::on(date(2026, 9, 16)), Some(Half::B));
        assert_eq!(Half::on(date(2026, 9, 18)), Some(Half::A));
        assert_eq!(Half::on(date(2026, 9, 21)), Some(Half::B));
        assert_eq!(Half::on(date(2026, 11, 23)), Some(Half::A));
        assert_eq!(Half::on(date(2026, 11, 24)), None);
    }

    #[test]
    fn the_wall_clock_knows_summer_time() {
        assert_eq!(instant(date(2026, 10, 23), 12 * 3600).to_string(), "2026-10-23T09:00:00Z");
        assert_eq!(instant(date(2026, 10, 26), 12 * 3600).to_string(), "2026-10-26T10:00:00Z");
    }
}
