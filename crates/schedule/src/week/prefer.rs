//! What is rather wanted, in points: shown with every plan, never stronger than a requirement.
//!
//! The order of the places in a day is core practice (after the last practice first); the numbers are ours and only say
//! which of two allowed times is taken.

use super::{Grade, Week};
use crate::time::{Span, days_between};

/// A kind of preference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Preference {
    /// A session takes place at all: sessions beyond the fewest count.
    Session,
    /// Directly after the last practice of the day.
    DirectlyAfterLast,
    /// Later after the last practice of the day.
    AfterLast,
    /// A day without water.
    DryDay,
    /// Before water, with the gap kept.
    BeforeWithGap,
    /// A wish of the group.
    Wish,
    /// Early in the week before a main meet.
    EarlyBeforeMeet,
    /// It ends late in the evening.
    LateEnd,
}

impl Preference {
    /// Every kind.
    pub const ALL: [Preference; 8] = [
        Preference::Session,
        Preference::DirectlyAfterLast,
        Preference::AfterLast,
        Preference::DryDay,
        Preference::BeforeWithGap,
        Preference::Wish,
        Preference::EarlyBeforeMeet,
        Preference::LateEnd,
    ];

    /// The word in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Preference::Session => "session",
            Preference::DirectlyAfterLast => "directly-after-last",
            Preference::AfterLast => "after-last",
            Preference::DryDay => "dry-day",
            Preference::BeforeWithGap => "before-with-gap",
            Preference::Wish => "wish",
            Preference::EarlyBeforeMeet => "early-before-meet",
            Preference::LateEnd => "late-end",
        }
    }
}

/// Points for one session.
const SESSION: i64 = 100;
/// Minutes after midnight from which an end is late.
const LATE: i64 = 21 * 60;

/// What speaks for and against one group in one stretch of time.
pub fn points(week: &Week, group: usize, span: Span) -> Vec<(Preference, i64)> {
    let mut points = vec![(Preference::Session, SESSION), place_in_day(week, group, span)];
    let weekday = span.day().weekday().to_monday_one_offset();
    let clock =
        |stamp: crate::time::Stamp| i64::from(stamp.civil().hour()) * 60 + i64::from(stamp.civil().minute());
    for wish in &week.groups[group].wishes {
        let on_day = wish.weekdays.is_empty() || wish.weekdays.contains(&weekday);
        if on_day && wish.from <= clock(span.start) && clock(span.end) <= wish.to {
            points.push((Preference::Wish, i64::from(wish.weight)));
        }
    }
    let main_meet = week.meets.iter().filter(|meet| meet.grade == Grade::A && meet.groups.contains(&group));
    for meet in main_meet {
        let days = days_between(span.day(), meet.span.day());
        if (0..=7).contains(&days) {
            points.push((Preference::EarlyBeforeMeet, -3 * days_between(week.first, span.day())));
        }
    }
    if LATE < clock(span.end) {
        points.push((Preference::LateEnd, -8));
    }
    points
}

/// Where in the day it lies, seen from the group's own water.
fn place_in_day(week: &Week, group: usize, span: Span) -> (Preference, i64) {
    let same_day = |water: &&super::Water| water.span.day() == span.day();
    let water: Vec<Span> = week
        .water
        .iter()
        .filter(|water| water.groups.contains(&group))
        .filter(same_day)
        .map(|water| water.span)
        .collect();
    let Some(last) = water.iter().map(|water| water.end).max() else { return (Preference::DryDay, 15) };
    let after = last.minutes_until(span.start);
    if after < 0 {
        (Preference::BeforeWithGap, 10)
    } else if after <= week.settings.directly_after_min {
        (Preference::DirectlyAfterLast, 30)
    } else {
        (Preference::AfterLast, 20)
    }
}

/// The sum.
pub fn total(points: &[(Preference, i64)]) -> i64 {
    points.iter().map(|(_, points)| points).sum()
}
