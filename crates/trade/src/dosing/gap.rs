//! Gaps between loaded sessions: how long, how they were spent, and which of them were planned.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::history::{AbsenceReason, Grade, History, days_between};
use crate::protocol::Parameters;

/// Days before a main meet during which less work is planned: three weeks, common practice.
const MEET_RUN_UP_DAYS: i64 = 21;
/// Longest gap that belongs to a normal week whatever the swimmer did in it.
const WEEK: i32 = 7;

/// How the swimmer spent the gap, as the table's columns see it. Ordered by rising caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Healthy and swam on.
    Swam,
    /// Healthy, but did not swim; also when nobody said.
    Dry,
    /// Ill with fever, or more than three days in bed.
    Ill,
    /// Injured: only the way back of a clinician's letter counts.
    Injured,
}

/// A stretch between two loaded sessions, or between the last one and the day asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// Last loaded session before it.
    pub last: Date,
    /// First session after it, or the day asked about.
    pub back: Date,
    /// Days from one to the other.
    pub days: i32,
    /// How it was spent.
    pub column: Column,
    /// Ill in between as well, whatever column speaks.
    pub is_ill: bool,
    /// Somebody said whether the swimmer swam, was ill or injured.
    pub is_known: bool,
    /// A taper, camp, lighter week or main meet accounts for it, and it is no longer than two weeks: no absence.
    pub is_planned: bool,
}

/// Days of loaded or taught work since the first loaded session, oldest first, up to and with the day asked about.
/// Who was only taught so far has nothing to come back to.
fn days_of_work(history: &History, on: Date) -> Vec<Date> {
    let loaded: Vec<Date> = history
        .sessions
        .iter()
        .filter(|session| !session.blocks.is_empty() && session.date <= on)
        .map(|session| session.date)
        .collect();
    let Some(first) = loaded.iter().min().copied() else { return Vec::new() };
    let taught = history.taught.iter().map(|taught| taught.date);
    let mut days: Vec<Date> =
        loaded.into_iter().chain(taught.filter(|date| first <= *date && *date <= on)).collect();
    days.sort_unstable();
    days.dedup();
    days
}

/// Every gap up to the day asked about, oldest first; the last one is still open, and of no days where the swimmer
/// trained on the day itself. Empty before the first session.
pub fn gaps(parameters: &Parameters, history: &History, on: Date) -> Vec<Gap> {
    let mut days = days_of_work(history, on);
    let trained_today =
        history.sessions.iter().any(|session| session.date == on && !session.blocks.is_empty());
    // Teaching today does not close the gap that is open today; it is part of the way back.
    if !trained_today {
        days.retain(|day| *day < on);
    }
    if !days.is_empty() {
        days.push(on);
    }
    days.windows(2).map(|pair| gap_between(parameters, history, pair[0], pair[1])).collect()
}

fn gap_between(parameters: &Parameters, history: &History, last: Date, back: Date) -> Gap {
    let within = |from: Date, to: Option<Date>| from < back && to.is_none_or(|to| last < to);
    let absences: Vec<_> = history.absences.iter().filter(|gone| within(gone.from, gone.to)).collect();
    let days = days_between(last, back);
    let ill = absences.iter().any(|gone| gone.reason == AbsenceReason::Illness)
        || history.illnesses.iter().any(|illness| {
            within(illness.from, illness.symptom_free_from)
                && (illness.fever || illness.bed_days.is_some_and(|days| 3 < days))
        });
    let column = if absences.iter().any(|gone| gone.reason == AbsenceReason::Injury) {
        Column::Injured
    } else if ill {
        Column::Ill
    } else if absences.iter().all(|gone| gone.kept_swimming == Some(true))
        && (!absences.is_empty() || days <= WEEK)
    {
        Column::Swam
    } else {
        Column::Dry
    };
    let is_known =
        days <= WEEK || Column::Ill <= column || absences.iter().any(|gone| gone.kept_swimming.is_some());
    let longest_planned = i32::from(parameters.gap_days[1]);
    let is_planned = column < Column::Ill
        && days <= longest_planned
        && WEEK < days
        && days - planned_days(history, last, back) <= WEEK;
    Gap { last, back, days, column, is_ill: ill, is_known, is_planned }
}

/// Days of a gap that the calendar had planned to be lighter.
fn planned_days(history: &History, last: Date, back: Date) -> i32 {
    let calendar = &history.calendar;
    let before_main_meet = |day: Date| {
        calendar
            .meets
            .iter()
            .filter(|meet| meet.grade == Grade::A)
            .any(|meet| day <= meet.date && meet.date <= day.saturating_add(MEET_RUN_UP_DAYS.days()))
    };
    let is_planned = |day: Date| {
        calendar.periods.iter().any(|period| period.from <= day && day <= period.to) || before_main_meet(day)
    };
    let mut count = 0;
    let mut day = last.saturating_add(1.day());
    while day < back {
        count += i32::from(is_planned(day));
        day = day.saturating_add(1.day());
    }
    count
}
