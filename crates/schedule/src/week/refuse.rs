//! Why a slot is no slot for a group, taken alone: every reason, with the figures behind it.
//!
//! What depends on other sessions of the plan (free days, room, adults) is judged in `model` and [`super::audit`].

use super::requirement::{Kind, Requirement, Subject};
use super::{Grade, Week};
use crate::settings::minutes;
use crate::time::{Span, days_between};

/// What stands in the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// Outside the days to plan.
    OtherDays,
    /// No deck window covers it.
    NoWindow,
    /// The slot is shorter than the session, or not made for it.
    Length {
        /// Minutes of the slot.
        has: i64,
        /// Minutes of the session.
        needs: i64,
    },
    /// The group swims at that time.
    InWater {
        /// Index of the practice.
        water: usize,
    },
    /// The next water comes too soon.
    BeforeWater {
        /// Index of the practice.
        water: usize,
        /// Minutes between.
        has: i64,
        /// Minutes asked for.
        needs: i64,
    },
    /// Too close before a meet.
    BeforeMeet {
        /// Index of the meet.
        meet: usize,
        /// Minutes between.
        has: i64,
        /// Minutes asked for.
        needs: i64,
    },
    /// On the days of a meet.
    DuringMeet {
        /// Index of the meet.
        meet: usize,
    },
    /// Another load the same day.
    LoadSameDay {
        /// Index of the load.
        load: usize,
    },
    /// Another load with too few free days between.
    LoadTooNear {
        /// Index of the load.
        load: usize,
        /// Free days between.
        free_days: i64,
        /// Minutes between.
        has: i64,
    },
    /// The group is elsewhere.
    Elsewhere {
        /// Index of the entry.
        busy: usize,
    },
    /// The place is closed.
    Closed {
        /// Index of the closure.
        closure: usize,
    },
    /// The place is too small for the group alone.
    TooManyForPlace {
        /// Swimmers.
        size: u32,
        /// Room.
        room: u32,
    },
    /// There are not enough adults for the group alone.
    NoSupervisor {
        /// Adults at that time.
        adults: usize,
        /// Swimmers.
        size: u32,
    },
    /// There is not enough kit for the group alone.
    KitShort {
        /// Index of the kit.
        kit: usize,
        /// Pieces needed.
        needs: u32,
    },
}

/// One reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reason {
    /// The requirement that is not met; none for what lies outside the question.
    pub requirement: Option<Requirement>,
    /// What stands in the way.
    pub cause: Cause,
    /// How far it misses, in minutes or pieces; at least 1. Relaxing prefers what misses least.
    pub short: i64,
}

/// Every reason against a group in a stretch of time at a place; empty when nothing stands in the way.
pub fn reasons(
    week: &Week,
    group: usize,
    place: usize,
    span: Span,
    in_window: bool,
    exact: bool,
) -> Vec<Reason> {
    let mut found = Vec::new();
    let who = &week.groups[group];
    let mut add = |kind: Kind, subject: Subject, cause: Cause, short: i64| {
        found.push(Reason { requirement: Some(Requirement { kind, subject }), cause, short: short.max(1) });
    };
    let of = Subject::Group(group);
    if !in_window {
        add(Kind::Window, Subject::Place(place), Cause::NoWindow, 1);
    }
    let fits = if exact { span.minutes() == who.minutes } else { who.minutes <= span.minutes() };
    if !fits {
        add(Kind::Length, of, Cause::Length { has: span.minutes(), needs: who.minutes }, 1);
    }
    water(week, group, span, &mut add);
    meets(week, group, span, &mut add);
    loads(week, group, span, &mut add);
    for (busy, entry) in week.busy.iter().enumerate() {
        if entry.groups.contains(&group) && entry.span.overlaps(span) {
            add(Kind::Elsewhere, of, Cause::Elsewhere { busy }, 1);
        }
    }
    for (closure, entry) in week.closures.iter().enumerate() {
        if entry.place.is_none_or(|closed| closed == place) && entry.span.overlaps(span) {
            add(Kind::Closed, Subject::Closure(closure), Cause::Closed { closure }, 1);
        }
    }
    if let Some(room) = week.places[place].people.filter(|room| *room < who.size) {
        let short = i64::from(who.size - room);
        add(Kind::Room, Subject::Place(place), Cause::TooManyForPlace { size: who.size, room }, short);
    }
    if !week.supervisors.is_empty() {
        let adults: Vec<usize> = present(week, span);
        if !enough(week, &adults, &[group]) {
            let cause = Cause::NoSupervisor { adults: adults.len(), size: who.size };
            add(Kind::Supervision, Subject::All, cause, 1);
        }
    }
    for (kit, needs) in &who.needs {
        let pieces = week.kit[*kit].pieces;
        if pieces < *needs {
            let cause = Cause::KitShort { kit: *kit, needs: *needs };
            add(Kind::Kit, Subject::Kit(*kit), cause, i64::from(needs - pieces));
        }
    }
    if span.day() < week.first || week.last < span.day() {
        found.push(Reason { requirement: None, cause: Cause::OtherDays, short: 1 });
    }
    found
}

fn water(week: &Week, group: usize, span: Span, add: &mut impl FnMut(Kind, Subject, Cause, i64)) {
    let needs = week.settings.gap_minutes();
    let of = Subject::Group(group);
    for (water, practice) in week.water_of(group) {
        if practice.span.overlaps(span) {
            add(Kind::InWater, of, Cause::InWater { water }, 1);
        } else {
            let has = span.minutes_to(practice.span);
            if 0 <= has && has < needs {
                add(Kind::BeforeWater, of, Cause::BeforeWater { water, has, needs }, needs - has);
            }
        }
    }
}

fn meets(week: &Week, group: usize, span: Span, add: &mut impl FnMut(Kind, Subject, Cause, i64)) {
    let of = Subject::Group(group);
    for (meet, entry) in week.meets.iter().enumerate().filter(|(_, meet)| meet.groups.contains(&group)) {
        let hours = match entry.grade {
            Grade::A | Grade::B => week.settings.meet_gap_ab_h,
            Grade::C => week.settings.meet_gap_c_h,
        };
        let needs = minutes(hours);
        let has = span.minutes_to(entry.span);
        let days = days_between(span.day(), entry.span.day());
        if has < 0 {
            if span.day() <= entry.span.end.day() && entry.span.start.day() <= span.day() {
                add(Kind::MeetGap, of, Cause::DuringMeet { meet }, needs);
            }
        } else if has < needs || (entry.grade == Grade::C && days <= 1) {
            // A C meet keeps the whole day before it free, whatever the hour of the first start.
            add(Kind::MeetGap, of, Cause::BeforeMeet { meet, has, needs }, (needs - has).max(1));
        }
    }
}

fn loads(week: &Week, group: usize, span: Span, add: &mut impl FnMut(Kind, Subject, Cause, i64)) {
    let of = Subject::Group(group);
    for (load, entry) in week.loads.iter().enumerate().filter(|(_, load)| load.groups.contains(&group)) {
        let apart = days_between(span.day(), entry.span.day()).abs();
        if apart == 0 {
            add(Kind::OtherLoad, of, Cause::LoadSameDay { load }, 1);
            continue;
        }
        let has = span.minutes_to(entry.span).max(entry.span.minutes_to(span));
        let free_days = apart - 1;
        if free_days < i64::from(week.settings.free_days) || has < minutes(week.settings.min_hours_between) {
            add(Kind::OtherLoad, of, Cause::LoadTooNear { load, free_days, has }, 1);
        }
    }
}

/// Supervisors who are there for the whole stretch.
pub fn present(week: &Week, span: Span) -> Vec<usize> {
    let is_there = |who: &super::Supervisor| who.hours.iter().any(|hours| hours.covers(span));
    (0..week.supervisors.len()).filter(|at| is_there(&week.supervisors[*at])).collect()
}

/// Whether these adults may watch these groups together: each age alone, both together, and no more than the trade's
/// sentence about a second adult allows.
pub fn enough(week: &Week, adults: &[usize], groups: &[usize]) -> bool {
    let rows = supervision_rows(week);
    rows.iter().all(|row| {
        let asked: f64 = groups.iter().map(|group| (row.asks)(week, *group)).sum();
        let offered: f64 = adults.iter().map(|adult| (row.offers)(week, *adult)).sum();
        asked <= 1e-9 || asked <= offered + if adults.is_empty() { 0.0 } else { row.first } + 1e-9
    })
}

/// One inequality of supervision: what the groups ask for is at most what the adults offer.
pub(super) struct SupervisionRow {
    /// What one group asks for.
    pub(super) asks: fn(&Week, usize) -> f64,
    /// What one adult offers.
    pub(super) offers: fn(&Week, usize) -> f64,
    /// What the first adult offers beyond that.
    pub(super) first: f64,
}

/// Every inequality in force.
///
/// Swimmers under 13 by the ratio for them, swimmers from 13 by theirs, and mixed groups by shares of an adult. Where the
/// club has stated no ratio of its own, a second adult adds five swimmers from 13 on, not fifteen: 15 with one, 20 with
/// two. That each further adult adds five again is our reading of that sentence.
pub(super) fn supervision_rows(week: &Week) -> Vec<SupervisionRow> {
    let mut rows = vec![
        SupervisionRow {
            asks: |week, group| {
                if week.groups[group].young { f64::from(week.groups[group].size) } else { 0.0 }
            },
            offers: |week, adult| f64::from(ratio(week, adult)[0]),
            first: 0.0,
        },
        SupervisionRow {
            asks: |week, group| {
                if week.groups[group].young { 0.0 } else { f64::from(week.groups[group].size) }
            },
            offers: |week, adult| f64::from(ratio(week, adult)[1]),
            first: 0.0,
        },
        SupervisionRow {
            asks: |week, group| {
                let who = &week.groups[group];
                f64::from(who.size) / f64::from(week.settings.ratio[usize::from(!who.young)].max(1))
            },
            offers: |week, adult| {
                let share =
                    |at: usize| f64::from(ratio(week, adult)[at]) / f64::from(week.settings.ratio[at].max(1));
                share(0).max(share(1))
            },
            first: 0.0,
        },
    ];
    if week.supervisors.iter().all(|who| who.ratio.is_none()) {
        // 10 + 5 for each adult: 15 with one, 20 with two, in thirds of the ratio in force.
        rows.push(SupervisionRow {
            asks: rows[1].asks,
            offers: |week, _| f64::from(week.settings.ratio[1]) / 3.0,
            first: f64::from(week.settings.ratio[1]) * 2.0 / 3.0,
        });
    }
    rows
}

fn ratio(week: &Week, adult: usize) -> [u32; 2] {
    week.supervisors[adult].ratio.unwrap_or(week.settings.ratio)
}
