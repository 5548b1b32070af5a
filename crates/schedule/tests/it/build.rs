//! Weeks put together by hand, in a few words.

use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use schedule::time::Span;
use schedule::week::slots::{add, after_practices, from_known, from_windows};
use schedule::week::{Group, Known, Place, Supervisor, Water, Week, Window};

/// Monday of most tests.
pub(crate) const MONDAY: Date = date(2026, 3, 9);

pub(crate) fn zone() -> TimeZone {
    TimeZone::get("Europe/Amsterdam").expect("a zone of the tests")
}

/// An empty week from Monday to Sunday with one place that takes one group.
pub(crate) fn week() -> Week {
    let mut week = Week::new(zone(), MONDAY, MONDAY.saturating_add(jiff::Span::new().days(6)));
    week.places.push(Place { name: "deck".into(), groups_at_once: 1, people: None });
    week
}

/// A group of twelve who want so many sessions of 40 minutes.
pub(crate) fn group(week: &mut Week, name: &str, sessions: u8) -> usize {
    week.groups.push(Group {
        name: name.into(),
        size: 12,
        young: false,
        sessions,
        at_least: sessions,
        minutes: 40,
        needs: vec![],
        wishes: vec![],
    });
    week.groups.len() - 1
}

/// A stretch: days after Monday, "17:30-19:00".
pub(crate) fn span(week: &Week, day: i64, times: &str) -> Span {
    let (from, to) = times.split_once('-').expect("from-to");
    let clock = |text: &str| -> (i8, i8) {
        let (hour, minute) = text.split_once(':').expect("hour:minute");
        (hour.parse().expect("hour"), minute.parse().expect("minute"))
    };
    let day = week.first.saturating_add(jiff::Span::new().days(day));
    let at = |(hour, minute)| day.at(hour, minute, 0, 0);
    Span::new(&week.zone, at(clock(from)), at(clock(to))).expect("a stretch of the tests")
}

pub(crate) fn water(week: &mut Week, groups: &[usize], day: i64, times: &str) {
    let span = span(week, day, times);
    week.water.push(Water { name: format!("practice {times}"), groups: groups.to_vec(), span });
}

pub(crate) fn window(week: &mut Week, place: usize, day: i64, times: &str) {
    let span = span(week, day, times);
    week.windows.push(Window { place, span });
}

pub(crate) fn supervisor(week: &mut Week, name: &str, hours: &[(i64, &str)]) {
    let hours = hours.iter().map(|(day, times)| span(week, *day, times)).collect();
    week.supervisors.push(Supervisor { name: name.into(), hours, ratio: None });
}

pub(crate) fn known(week: &mut Week, group: usize, place: usize, day: i64, times: &str) {
    let span = span(week, day, times);
    week.known.push(Known { group, place, span, overruled: None });
}

/// Adds one candidate.
pub(crate) fn slot(week: &mut Week, place: usize, day: i64, times: &str) -> usize {
    let span = span(week, day, times);
    add(week, place, span);
    week.slot_at(place, span).expect("just added")
}

/// Adds candidates from windows, practices and known sessions.
pub(crate) fn candidates(week: &mut Week) {
    from_windows(week, &[]);
    after_practices(week);
    from_known(week);
}
