//! Judges a timetable without a solver: everything it breaks, with the sessions concerned.
//!
//! Used when the week changes under sessions that people already know, and to hold the solver against the rules.

use super::plan::{Limit, allowance};
use super::refuse::{Cause, Reason, enough, present, reasons};
use super::requirement::{Kind, Requirement, Subject};
use super::{Known, Override, Placed, Week};
use crate::settings::minutes;
use crate::time::{Span, days_between};

/// A session as it is judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Index of the group.
    pub group: usize,
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
    /// Overruled by name.
    pub overruled: Option<Override>,
}

impl From<&Known> for Session {
    fn from(known: &Known) -> Self {
        Self { group: known.group, place: known.place, span: known.span, overruled: known.overruled.clone() }
    }
}

/// Sessions of a plan.
pub fn sessions_of(week: &Week, plan: &[Placed]) -> Vec<Session> {
    plan.iter()
        .map(|placed| {
            let slot = &week.slots[placed.slot];
            Session { group: placed.group, place: slot.place, span: slot.span, overruled: None }
        })
        .collect()
}

/// How a requirement is broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum How {
    /// By one session alone.
    Alone(Cause),
    /// Two sessions of a group on one day.
    SameDay,
    /// Too few free days between two sessions of a group.
    TooNear {
        /// Free days between.
        free_days: i64,
        /// Minutes between.
        has: i64,
    },
    /// More sessions than the week allows.
    TooMany {
        /// Sessions.
        has: usize,
        /// Most.
        most: u8,
    },
    /// More sessions than a meet or camp leaves.
    MorePlanned {
        /// Sessions.
        has: usize,
        /// The limit.
        limit: Limit,
    },
    /// Too many groups or swimmers in one place.
    Crowded,
    /// Too few adults.
    Unwatched {
        /// Adults at that time.
        adults: usize,
    },
    /// Too little kit.
    KitShort {
        /// Pieces wanted.
        wanted: u32,
    },
}

/// One broken requirement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Breach {
    /// Which.
    pub requirement: Requirement,
    /// How.
    pub how: How,
    /// Indices of the sessions concerned.
    pub sessions: Vec<usize>,
}

/// Everything that a timetable breaks. Sessions too close before water that were overruled by name do not count.
pub fn breaches(week: &Week, sessions: &[Session]) -> Vec<Breach> {
    let mut found = Vec::new();
    for (at, session) in sessions.iter().enumerate() {
        for reason in alone(week, session) {
            if let Some(requirement) = reason.requirement {
                found.push(Breach { requirement, how: How::Alone(reason.cause), sessions: vec![at] });
            }
        }
    }
    for group in 0..week.groups.len() {
        of_group(week, sessions, group, &mut found);
    }
    for (at, session) in sessions.iter().enumerate() {
        at_once(week, sessions, at, session, &mut found);
    }
    found
}

/// Reasons against one session taken alone. Its length is what was asked for or agreed, and no reason against it.
pub fn alone(week: &Week, session: &Session) -> Vec<Reason> {
    let in_window = week.in_window(session.place, session.span);
    let mut all = reasons(week, session.group, session.place, session.span, in_window, false);
    all.retain(|reason| !matches!(reason.cause, Cause::Length { .. }));
    if session.overruled.is_some() {
        all.retain(|reason| !reason.requirement.is_some_and(|one| one.kind.can_be_overruled()));
    }
    all
}

fn of_group(week: &Week, sessions: &[Session], group: usize, found: &mut Vec<Breach>) {
    let own: Vec<(usize, &Session)> =
        sessions.iter().enumerate().filter(|(_, session)| session.group == group).collect();
    for (index, (at, one)) in own.iter().enumerate() {
        for (other_at, other) in &own[index + 1..] {
            let apart = days_between(one.span.day(), other.span.day()).abs();
            let has = one.span.minutes_to(other.span).max(other.span.minutes_to(one.span));
            let pair = vec![*at, *other_at];
            let mut add = |kind: Kind, how: How| {
                let requirement = Requirement::of_group(kind, group);
                found.push(Breach { requirement, how, sessions: pair.clone() });
            };
            let near = How::TooNear { free_days: apart - 1, has };
            if apart == 0 {
                add(Kind::OnceADay, How::SameDay);
            } else if apart - 1 < i64::from(week.settings.free_days) {
                add(Kind::FreeDay, near);
            } else if has < minutes(week.settings.min_hours_between) {
                add(Kind::HoursBetween, near);
            }
        }
    }
    let in_week: Vec<usize> = own
        .iter()
        .filter(|(_, session)| week.first <= session.span.day() && session.span.day() <= week.last)
        .map(|(at, _)| *at)
        .collect();
    let most = week.settings.sessions_week;
    if usize::from(most) < in_week.len() {
        let how = How::TooMany { has: in_week.len(), most };
        found.push(Breach {
            requirement: Requirement::of_group(Kind::WeekMost, group),
            how,
            sessions: in_week.clone(),
        });
    }
    for limit in allowance(week, group).limits {
        let on_days: Vec<usize> =
            in_week.iter().copied().filter(|at| limit.covers(sessions[*at].span.day())).collect();
        if usize::from(limit.most) < on_days.len() {
            let how = How::MorePlanned { has: on_days.len(), limit };
            found.push(Breach {
                requirement: Requirement::of_group(Kind::PlannedFewer, group),
                how,
                sessions: on_days,
            });
        }
    }
}

/// What is broken at the moment one session starts: room, adults, kit. Each moment is judged at its latest start.
fn at_once(week: &Week, sessions: &[Session], at: usize, session: &Session, found: &mut Vec<Breach>) {
    let moment = Span { start: session.span.start, end: session.span.end };
    let active: Vec<usize> = (0..sessions.len())
        .filter(|other| {
            let span = sessions[*other].span;
            span.start <= moment.start && moment.start < span.end
        })
        .collect();
    // Sessions that start together are judged once, by the last of them.
    if active.iter().any(|other| sessions[*other].span.start == moment.start && at < *other) {
        return;
    }
    for (place, room) in week.places.iter().enumerate() {
        let here: Vec<usize> =
            active.iter().copied().filter(|other| sessions[*other].place == place).collect();
        let people: u32 = here.iter().map(|other| week.groups[sessions[*other].group].size).sum();
        let groups = u32::try_from(here.len()).unwrap_or(u32::MAX);
        if 1 < here.len() && (room.groups_at_once < groups || room.people.is_some_and(|most| most < people)) {
            let requirement = Requirement { kind: Kind::Room, subject: Subject::Place(place) };
            found.push(Breach { requirement, how: How::Crowded, sessions: here });
        }
    }
    for (kit, stock) in week.kit.iter().enumerate() {
        let need = |other: &usize| -> u32 {
            let needs = &week.groups[sessions[*other].group].needs;
            needs.iter().filter(|(which, _)| *which == kit).map(|(_, pieces)| *pieces).sum()
        };
        let wanted: u32 = active.iter().map(need).sum();
        if 1 < active.len() && stock.pieces < wanted {
            let requirement = Requirement { kind: Kind::Kit, subject: Subject::Kit(kit) };
            found.push(Breach { requirement, how: How::KitShort { wanted }, sessions: active.clone() });
        }
    }
    watched(week, sessions, &active, found);
}

/// Whether the adults who are there can be shared out so that every place is watched.
fn watched(week: &Week, sessions: &[Session], active: &[usize], found: &mut Vec<Breach>) {
    if week.supervisors.is_empty() || active.len() < 2 {
        return;
    }
    // The stretch that all of them share: adults who stay for that are there.
    let Some(start) = active.iter().map(|at| sessions[*at].span.start).max() else { return };
    let Some(end) = active.iter().map(|at| sessions[*at].span.end).min() else { return };
    let there = present(week, Span { start, end });
    let mut places: Vec<usize> = active.iter().map(|at| sessions[*at].place).collect();
    places.sort_unstable();
    places.dedup();
    let groups_at = |place: usize| -> Vec<usize> {
        active.iter().filter(|at| sessions[**at].place == place).map(|at| sessions[*at].group).collect()
    };
    if !can_share(week, &there, &places, &groups_at, &mut vec![Vec::new(); places.len()]) {
        let requirement = Requirement { kind: Kind::Supervision, subject: Subject::All };
        let how = How::Unwatched { adults: there.len() };
        found.push(Breach { requirement, how, sessions: active.to_vec() });
    }
}

fn can_share(
    week: &Week,
    there: &[usize],
    places: &[usize],
    groups_at: &dyn Fn(usize) -> Vec<usize>,
    shares: &mut Vec<Vec<usize>>,
) -> bool {
    let Some((adult, rest)) = there.split_first() else {
        return places
            .iter()
            .zip(shares.iter())
            .all(|(place, adults)| enough(week, adults, &groups_at(*place)));
    };
    for at in 0..places.len() {
        shares[at].push(*adult);
        let ok = can_share(week, rest, places, groups_at, shares);
        shares[at].pop();
        if ok {
            return true;
        }
    }
    false
}
