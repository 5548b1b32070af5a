//! Attendance, exposure, shoulder problems, and how many were sore.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use stats::level::Level;
use stats::rates::share::Share;
use trade::history::{PainReport, days_between};
use trade::side::Side;

use super::{Figure, Stretch};
use crate::desk::{Desk, Person};

/// What was counted in a stretch.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Counted {
    /// Swimmers with a session on land.
    pub people: usize,
    /// Swimmers with kilometres on record.
    pub people_in_water: usize,
    /// Sessions attended, each swimmer's counted.
    pub sessions: usize,
    /// The same as attendance counts it.
    pub attended: u64,
    /// Sessions that were held for the squads, for each swimmer since his first.
    pub offered: u64,
    /// Hours that form was held on land.
    pub hours_held: f64,
    /// Kilometres swum.
    pub km: f64,
    /// Shoulder problems: see [`problems`].
    pub problems: u64,
    /// Of these, of swimmers with kilometres on record.
    pub problems_in_water: u64,
    /// Swimmers who had any.
    pub people_with: usize,
}

/// Pain from which on a report counts as a problem, of ten.
const PROBLEM_FROM: f64 = 3.0;
/// Days without a report after which the next one is a new problem.
const NEW_AFTER: i32 = 14;

/// Counts a stretch.
pub fn count(desk: &Desk, stretch: Stretch) -> Counted {
    let mut out = Counted::default();
    // Days on which each squad trained on land, whoever came.
    let mut held: BTreeMap<&str, BTreeSet<(Date, u8)>> = BTreeMap::new();
    for person in desk.people() {
        for session in person.read.history.sessions.iter().filter(|session| stretch.holds(session.date)) {
            held.entry(&person.read.swimmer.squad).or_default().insert((session.date, session.number));
        }
    }
    for person in desk.people() {
        let history = &person.read.history;
        let attended: BTreeSet<(Date, u8)> = history
            .sessions
            .iter()
            .filter(|session| stretch.holds(session.date))
            .map(|session| (session.date, session.number))
            .collect();
        if let Some(first) = attended.first() {
            out.people += 1;
            out.sessions += attended.len();
            let left = person.read.swimmer.left;
            let days = held.get(person.read.swimmer.squad.as_str()).into_iter().flatten();
            let offered = days.filter(|day| first <= *day && left.is_none_or(|left| day.0 < left)).count();
            out.attended += attended.len() as u64;
            out.offered += offered as u64;
        }
        let sets = history
            .sessions
            .iter()
            .filter(|session| stretch.holds(session.date))
            .flat_map(|session| &session.blocks);
        out.hours_held += sets.map(|block| block.total().seconds()).sum::<f64>() / 3600.0;
        let km: f64 =
            history.water_weeks.iter().filter(|week| stretch.holds(week.from)).map(|week| week.km).sum();
        let problems = problems(person, stretch);
        if 0.0 < km {
            out.people_in_water += 1;
            out.km += km;
            out.problems_in_water += problems;
        }
        out.problems += problems;
        out.people_with += usize::from(0 < problems);
    }
    out
}

/// New shoulder problems of one swimmer: a report of pain of three or more of ten, or of a sign, on a shoulder that had
/// no such report for a fortnight. Practice of this tool; the definition stands beside the figure.
pub fn problems(person: &Person, stretch: Stretch) -> u64 {
    let mut last: BTreeMap<Side, Date> = BTreeMap::new();
    let mut found = 0;
    for report in &person.read.history.pains {
        for side in Side::BOTH {
            if !is_problem(report, side) {
                continue;
            }
            let is_new = last.get(&side).is_none_or(|last| NEW_AFTER <= days_between(*last, report.date));
            last.insert(side, report.date);
            if is_new && stretch.holds(report.date) {
                found += 1;
            }
        }
    }
    found
}

fn is_problem(report: &PainReport, side: Side) -> bool {
    let hurts = report.of(side).is_some_and(|pain| PROBLEM_FROM <= f64::from(pain.get()));
    let sign = !report.signs.is_empty() && report.sign_side.is_none_or(|of| of == side);
    hurts || sign
}

/// Month by month, how many of those who were asked said that a shoulder hurt at all.
pub fn sore(desk: &Desk, stretch: Stretch) -> Vec<(Date, Figure<Share>)> {
    let mut months: BTreeMap<Date, (BTreeSet<store::SubjectId>, BTreeSet<store::SubjectId>)> =
        BTreeMap::new();
    for person in desk.people() {
        for report in person.read.history.pains.iter().filter(|report| stretch.holds(report.date)) {
            let Some(worst) = report.worst() else { continue };
            let month = months.entry(report.date.first_of_month()).or_default();
            month.0.insert(person.subject);
            if 0 < worst.get() {
                month.1.insert(person.subject);
            }
        }
    }
    months
        .into_iter()
        .map(|(month, (asked, sore))| {
            let share = Share::new(sore.len() as u64, asked.len() as u64, Level::USUAL);
            (month, Figure::of(asked.len(), share))
        })
        .collect()
}
