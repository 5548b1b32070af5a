//! The plan: as many points as possible under every requirement, with the proof or the gap.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::clash::{Clash, clash};
use super::model::{Ask, Solved, Table, solve};
use super::prefer::{Preference, points, total};
use super::refuse::Reason;
use super::{Grade, Placed, Week};
use crate::time::days_between;

/// Fewer sessions on some days, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// Most sessions on those days.
    pub most: u8,
    /// First of the days.
    pub from: Date,
    /// Last of the days.
    pub to: Date,
    /// Why.
    pub why: Fewer,
}

impl Limit {
    /// True when the day is one of them.
    pub fn covers(&self, day: Date) -> bool {
        self.from <= day && day <= self.to
    }
}

/// Why there are fewer sessions. Planned, so never counted as missed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fewer {
    /// The week of a B meet: one session less.
    MeetWeek {
        /// Index of the meet.
        meet: usize,
    },
    /// Two weeks before a main meet: one session less.
    TwoWeeksBefore {
        /// Index of the meet.
        meet: usize,
    },
    /// The last week before a main meet: one session.
    LastWeek {
        /// Index of the meet.
        meet: usize,
    },
    /// In a camp: once or twice.
    Camp {
        /// Index of the camp.
        camp: usize,
    },
}

/// What one group may have this week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Allowance {
    /// Sessions to be planned.
    pub wanted: u8,
    /// Fewest that will do.
    pub at_least: u8,
    /// Limits on some days.
    pub limits: Vec<Limit>,
}

/// Most loaded sessions in a week of camp: "once or twice".
const CAMP_MOST: u8 = 2;

/// What one group may have: its own wish, less what meets and camps take away.
pub fn allowance(week: &Week, group: usize) -> Allowance {
    let who = &week.groups[group];
    let usual = who.sessions.min(week.settings.sessions_week);
    let mut limits = Vec::new();
    let whole_week = |most: u8, why: Fewer| Limit { most, from: week.first, to: week.last, why };
    for (meet, entry) in week.meets.iter().enumerate().filter(|(_, meet)| meet.groups.contains(&group)) {
        let to_first = days_between(week.first, entry.span.day());
        match entry.grade {
            Grade::B if week.first <= entry.span.day() && entry.span.day() <= week.last => {
                limits.push(whole_week(usual.saturating_sub(1), Fewer::MeetWeek { meet }));
            }
            Grade::A if (0..=7).contains(&to_first) => limits.push(whole_week(1, Fewer::LastWeek { meet })),
            Grade::A if (8..=14).contains(&to_first) => {
                limits.push(whole_week(usual.saturating_sub(1), Fewer::TwoWeeksBefore { meet }));
                let from = entry.span.day().saturating_sub(jiff::Span::new().days(7));
                limits.push(Limit {
                    most: 1,
                    from: from.max(week.first),
                    to: week.last,
                    why: Fewer::LastWeek { meet },
                });
            }
            _ => {}
        }
    }
    for (camp, entry) in week.camps.iter().enumerate().filter(|(_, camp)| camp.groups.contains(&group)) {
        if entry.from <= week.last && week.first <= entry.to {
            let (from, to) = (entry.from.max(week.first), entry.to.min(week.last));
            limits.push(Limit { most: CAMP_MOST, from, to, why: Fewer::Camp { camp } });
        }
    }
    // Only a limit on the whole week lowers what is wanted; one on some days leaves the others.
    let most = limits
        .iter()
        .filter(|limit| limit.from == week.first && limit.to == week.last)
        .map(|limit| limit.most)
        .min();
    let wanted = most.map_or(who.sessions, |most| who.sessions.min(most));
    Allowance { wanted, at_least: who.at_least.min(wanted), limits }
}

/// One kind of preference, summed over the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// What.
    pub preference: Preference,
    /// How many sessions.
    pub sessions: usize,
    /// How many points.
    pub points: i64,
}

/// A plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Who trains when, by time, then by group.
    pub sessions: Vec<Placed>,
    /// Points.
    pub points: i64,
    /// No plan has more points than this.
    pub at_most: i64,
    /// Where the points come from.
    pub tally: Vec<Tally>,
}

impl Plan {
    /// True when no plan has more points.
    pub fn is_proven(&self) -> bool {
        self.points == self.at_most
    }
}

/// What came of planning.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// A plan.
    Plan(Plan),
    /// There is none, and these requirements are why.
    Clash(Clash),
    /// Time was up before a plan was found or its impossibility shown.
    OutOfTime,
}

/// The best plan within so many seconds, or the clash.
pub fn plan(week: &Week, seconds: f64) -> Answer {
    let table = Table::new(week);
    let nothing = BTreeSet::new();
    let standing = BTreeSet::new();
    let by_points = |placed: Placed| total(&points(week, placed.group, week.slots[placed.slot].span));
    let ask = Ask {
        dropped: &nothing,
        points: &by_points,
        standing: &standing,
        at_least: None,
        loosened: None,
        seconds,
    };
    match solve(week, &table, &ask) {
        Solved::Plan { sessions, points, at_most, .. } => {
            Answer::Plan(finish(week, sessions, points, at_most))
        }
        Solved::Impossible => Answer::Clash(clash(week, &table, seconds)),
        Solved::Unknown => Answer::OutOfTime,
    }
}

/// Sorts the sessions and sums up where the points come from.
pub(super) fn finish(week: &Week, mut sessions: Vec<Placed>, sum: i64, at_most: i64) -> Plan {
    sessions
        .sort_by_key(|placed| (week.slots[placed.slot].span, week.slots[placed.slot].place, placed.group));
    let each: Vec<(Preference, i64)> =
        sessions.iter().flat_map(|placed| points(week, placed.group, week.slots[placed.slot].span)).collect();
    let tally = Preference::ALL
        .into_iter()
        .filter_map(|preference| {
            let of_kind: Vec<i64> =
                each.iter().filter(|(kind, _)| *kind == preference).map(|(_, it)| *it).collect();
            let sum = of_kind.iter().sum();
            (!of_kind.is_empty()).then_some(Tally { preference, sessions: of_kind.len(), points: sum })
        })
        .collect();
    Plan { sessions, points: sum, at_most, tally }
}

/// Slots that a group cannot have, with every reason.
pub fn refused(week: &Week) -> Vec<(Placed, Vec<Reason>)> {
    let table = Table::new(week);
    let mut all = Vec::new();
    for (group, row) in table.reasons.into_iter().enumerate() {
        for (slot, reasons) in row.into_iter().enumerate() {
            // A slot made for another length of session is not refused to anybody: it was never meant.
            let is_meant =
                !reasons.iter().any(|reason| matches!(reason.cause, super::refuse::Cause::Length { .. }))
                    || !week.slots[slot].exact;
            if !reasons.is_empty() && is_meant {
                all.push((Placed { group, slot }, reasons));
            }
        }
    }
    all
}
