//! The calendar: deload weeks, camps, tapers and meets.
//!
//! All common practice. A planned reduction is never a missed session.

use jiff::civil::Date;
use quantity::HoldTime;

use super::bounds::Bounds;
use crate::history::{Calendar, Grade, Phase, days_between};
use crate::protocol::Parameters;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// Longest time before a meet at which it changes anything.
const RUN_UP_DAYS: i32 = 21;
/// Sets in a camp or in the early weeks of a taper: about a third less than three.
const REDUCED_SETS: u8 = 2;
/// Cap from two weeks before a main meet.
const TAPER_CAP: HoldTime = HoldTime::from_seconds(90.0);
/// The one set of the last week before a main meet.
const LAST_WEEK_CAP: HoldTime = HoldTime::from_seconds(60.0);

/// Narrows the dose for what the calendar says of one day.
pub fn bounds_on(parameters: &Parameters, calendar: &Calendar, on: Date) -> Bounds {
    let mut bounds = Bounds::default();
    if let Some(week) = deload_week(parameters, calendar, on) {
        deload(
            parameters,
            &mut bounds,
            Line::new(codes::S1, "season-deload-week", Class::Dose).with("week", Arg::Count(i64::from(week))),
        );
    }
    for period in calendar.periods.iter().filter(|period| period.from <= on && on <= period.to) {
        let until = ("until", Arg::Date(period.to));
        match period.phase {
            Phase::Deload => {
                let line = Line::new(codes::S1, "season-deload-planned", Class::Dose).with(until.0, until.1);
                deload(parameters, &mut bounds, line);
            }
            Phase::Camp => {
                let line = Line::new(codes::S2, "season-camp", Class::Dose).with(until.0, until.1);
                reduce(&mut bounds, REDUCED_SETS, None, line);
            }
            Phase::Taper => {
                let line = Line::new(codes::S3, "season-taper", Class::Dose).with(until.0, until.1);
                reduce(&mut bounds, REDUCED_SETS, None, line);
            }
        }
    }
    for meet in &calendar.meets {
        let days = days_between(on, meet.date);
        if 0 <= days {
            before_meet(parameters, &mut bounds, meet.grade, meet.date, days);
        }
    }
    bounds
}

/// True where the calendar asks for a lower rung on one day, for that session only.
pub fn lowers_rungs(parameters: &Parameters, calendar: &Calendar, on: Date) -> bool {
    is_eventful(parameters, calendar, on) && bounds_on(parameters, calendar, on).rungs_lower != 0
}

/// The most sets the calendar leaves for one day, where it says anything.
pub fn most_sets(parameters: &Parameters, calendar: &Calendar, on: Date) -> Option<u8> {
    if is_eventful(parameters, calendar, on) { bounds_on(parameters, calendar, on).sets } else { None }
}

/// Whether the calendar may say anything of one day. Many days are asked about, and few of them are.
fn is_eventful(parameters: &Parameters, calendar: &Calendar, on: Date) -> bool {
    deload_week(parameters, calendar, on).is_some()
        || calendar.periods.iter().any(|period| period.from <= on && on <= period.to)
        || calendar.meets.iter().any(|meet| on <= meet.date && days_between(on, meet.date) <= RUN_UP_DAYS)
}

/// The number of the week when it is a deload week, counted from the season's start.
pub fn deload_week(parameters: &Parameters, calendar: &Calendar, on: Date) -> Option<u32> {
    let every = u32::from(parameters.deload_every_weeks?);
    let days = u32::try_from(days_between(calendar.season_start?, on)).ok()?;
    let week = days / 7 + 1;
    (0 < every && week.is_multiple_of(every)).then_some(week)
}

fn deload(parameters: &Parameters, bounds: &mut Bounds, line: Line) {
    reduce(bounds, parameters.deload_sets, Some(parameters.deload_cap), line);
}

fn reduce(bounds: &mut Bounds, sets: u8, cap: Option<HoldTime>, line: Line) {
    bounds.at_most_sets(sets);
    if let Some(cap) = cap {
        bounds.at_most(cap);
    }
    bounds.no_up.push(line.clone());
    bounds.narrowed_by.push(line);
}

/// Days stand for hours here, on the cautious side: an evening session two days before a morning start is less
/// than 48 hours away, so two whole days are kept free for a gap of 48.
fn before_meet(parameters: &Parameters, bounds: &mut Bounds, grade: Grade, date: Date, days: i32) {
    let gap_h = match grade {
        Grade::A | Grade::B => parameters.meet_gap_ab_h,
        Grade::C => parameters.meet_gap_c_h,
    };
    let line = |says| {
        Line::new(codes::S4, says, Class::Dose)
            .with("meet", Arg::Date(date))
            .with("days", Arg::Count(i64::from(days)))
    };
    if f64::from(days) * 24.0 <= gap_h {
        bounds.nothing_loaded.push(line("season-meet-gap").with("hours", Arg::Number(gap_h, 0)));
        return;
    }
    if grade != Grade::A {
        return;
    }
    match days {
        ..=7 => {
            reduce(bounds, 1, Some(LAST_WEEK_CAP), line("season-meet-last-week"));
            bounds.rungs_lower = bounds.rungs_lower.max(1);
        }
        8..=14 => reduce(bounds, REDUCED_SETS, Some(TAPER_CAP), line("season-meet-two-weeks")),
        15..=21 => reduce(bounds, REDUCED_SETS, None, line("season-meet-three-weeks")),
        _ => {}
    }
}
