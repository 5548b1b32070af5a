//! No plan: the smallest set of requirements that cannot hold together, and what giving up each one would buy.
//!
//! A deletion filter: leave out one requirement after the other and keep it out whenever there is still no plan. What
//! is left cannot be made smaller: without any one of its members there is a plan.

use std::collections::BTreeSet;

use super::model::{Ask, Solved, Table, solve};
use super::prefer::{points, total};
use super::refuse::Reason;
use super::requirement::{Kind, Requirement, Subject};
use super::{Placed, Week};

/// Requirements that cannot hold together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clash {
    /// Each, with what giving it up would buy.
    pub members: Vec<Member>,
    /// False when time ran out, so that fewer might do.
    pub is_smallest: bool,
}

/// One requirement of a clash.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member {
    /// What must hold.
    pub requirement: Requirement,
    /// What giving it up would buy.
    pub buys: Buys,
}

/// What giving up one requirement would buy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Buys {
    /// Nobody can give it up.
    Nothing,
    /// A plan.
    Plan {
        /// Who would train when.
        sessions: Vec<Placed>,
        /// Sessions that would break the requirement, each with how.
        breaks: Vec<(Placed, Reason)>,
        /// Units of room, adults, kit or sessions that are missing.
        missing: i64,
    },
    /// Something else stands in the way as well.
    OtherClash,
    /// Time ran out.
    Unknown,
}

/// The order in which requirements are tried to be left out. Those that explain most to a person come last, so that
/// they are what is left.
const ORDER: [Kind; 16] = [
    Kind::InWater,
    Kind::Length,
    Kind::HoursBetween,
    Kind::OnceADay,
    Kind::Room,
    Kind::Kit,
    Kind::Elsewhere,
    Kind::Closed,
    Kind::OtherLoad,
    Kind::PlannedFewer,
    Kind::WeekMost,
    Kind::MeetGap,
    Kind::Supervision,
    Kind::FreeDay,
    Kind::BeforeWater,
    Kind::Window,
];

pub(super) fn clash(week: &Week, table: &Table, seconds: f64) -> Clash {
    let each = seconds.min(2.0);
    let mut dropped = BTreeSet::new();
    let mut is_smallest = true;
    let mut try_without = |dropped: &mut BTreeSet<Requirement>, more: &[Requirement]| {
        let mut without = dropped.clone();
        without.extend(more.iter().copied());
        match feasible(week, table, &without, each) {
            Some(false) => *dropped = without,
            Some(true) => {}
            None => is_smallest = false,
        }
    };
    for group in 0..week.groups.len() {
        try_without(&mut dropped, &[Requirement::of_group(Kind::Sessions, group)]);
    }
    let all = requirements(week, table);
    // A group that needs no session asks for nothing else either.
    for group in 0..week.groups.len() {
        if dropped.contains(&Requirement::of_group(Kind::Sessions, group)) {
            dropped.extend(all.iter().filter(|one| one.subject == Subject::Group(group)).copied());
        }
    }
    for kind in ORDER {
        for requirement in all.iter().filter(|one| one.kind == kind) {
            if !dropped.contains(requirement) {
                try_without(&mut dropped, &[*requirement]);
            }
        }
    }
    let members = all
        .into_iter()
        .filter(|requirement| !dropped.contains(requirement))
        .map(|requirement| Member { requirement, buys: buys(week, table, requirement, each) })
        .collect();
    Clash { members, is_smallest }
}

/// Every requirement that could play a part.
fn requirements(week: &Week, table: &Table) -> BTreeSet<Requirement> {
    let mut all: BTreeSet<Requirement> =
        table.reasons.iter().flatten().flatten().filter_map(|reason| reason.requirement).collect();
    for group in 0..week.groups.len() {
        let kinds = [
            Kind::Sessions,
            Kind::OnceADay,
            Kind::FreeDay,
            Kind::HoursBetween,
            Kind::WeekMost,
            Kind::PlannedFewer,
        ];
        all.extend(kinds.map(|kind| Requirement::of_group(kind, group)));
    }
    all.extend(
        (0..week.places.len()).map(|at| Requirement { kind: Kind::Room, subject: Subject::Place(at) }),
    );
    all.extend((0..week.kit.len()).map(|at| Requirement { kind: Kind::Kit, subject: Subject::Kit(at) }));
    if !week.supervisors.is_empty() {
        all.insert(Requirement { kind: Kind::Supervision, subject: Subject::All });
    }
    all
}

fn ask<'a>(
    dropped: &'a BTreeSet<Requirement>,
    standing: &'a BTreeSet<Placed>,
    points: &'a dyn Fn(Placed) -> i64,
    loosened: Option<Requirement>,
    seconds: f64,
) -> Ask<'a> {
    Ask { dropped, points, standing, at_least: None, loosened, seconds }
}

/// Whether there is a plan without some requirements; none when time ran out.
fn feasible(week: &Week, table: &Table, dropped: &BTreeSet<Requirement>, seconds: f64) -> Option<bool> {
    let standing = BTreeSet::new();
    match solve(week, table, &ask(dropped, &standing, &|_| 0, None, seconds)) {
        Solved::Plan { .. } => Some(true),
        Solved::Impossible => Some(false),
        Solved::Unknown => None,
    }
}

fn buys(week: &Week, table: &Table, requirement: Requirement, seconds: f64) -> Buys {
    if requirement.kind.is_fixed() {
        return Buys::Nothing;
    }
    let (nothing, standing) = (BTreeSet::new(), BTreeSet::new());
    let by_points = |placed: Placed| total(&points(week, placed.group, week.slots[placed.slot].span));
    match solve(week, table, &ask(&nothing, &standing, &by_points, Some(requirement), seconds)) {
        Solved::Plan { mut sessions, slack, .. } => {
            sessions.sort_by_key(|placed| (week.slots[placed.slot].span, placed.group));
            let breaks: Vec<(Placed, Reason)> = sessions
                .iter()
                .flat_map(|placed| {
                    let reasons = table.reasons[placed.group][placed.slot].iter();
                    reasons
                        .filter(|reason| reason.requirement == Some(requirement))
                        .map(|reason| (*placed, *reason))
                })
                .collect();
            let missing = match (requirement.kind, requirement.subject) {
                (Kind::Sessions, Subject::Group(group)) => {
                    let has = sessions.iter().filter(|placed| placed.group == group).count();
                    i64::from(table.allowances[group].at_least) - i64::try_from(has).unwrap_or(0)
                }
                _ => slack,
            };
            Buys::Plan { sessions, breaks, missing }
        }
        Solved::Impossible => Buys::OtherClash,
        Solved::Unknown => Buys::Unknown,
    }
}
