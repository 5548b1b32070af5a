//! Repair: the week has changed under sessions that people know. What breaks, and the least change that mends it.
//!
//! Keeping a session where and when people know it weighs more than every preference together; then the same day.

use std::collections::BTreeSet;

use super::audit::{Breach, Session, breaches, sessions_of};
use super::clash::{Clash, clash};
use super::model::{Ask, Solved, Table, solve};
use super::plan::{Plan, finish};
use super::prefer::{points, total};
use super::{Placed, Week};
use crate::time::days_between;

/// Points for a session that stays: above any sum of preferences.
const KEPT: i64 = 10_000;
/// Points for a session on a day on which the group expects one.
const SAME_DAY: i64 = 40;

/// One session that moves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Move {
    /// Index of the group.
    pub group: usize,
    /// The session people know; none when it is new.
    pub from: Option<usize>,
    /// Where it goes, as a slot; none when it falls out.
    pub to: Option<usize>,
}

/// What came of a repair.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repair {
    /// What the known sessions break now.
    pub broken: Vec<Breach>,
    /// Known sessions that stay, by index.
    pub kept: Vec<usize>,
    /// What changes.
    pub moves: Vec<Move>,
    /// The week afterwards.
    pub plan: Plan,
    /// Why not everything could be kept, when a session falls out.
    pub clash: Option<Clash>,
    /// What the repaired week still breaks: only what had been so before and was overruled.
    pub left: Vec<Breach>,
}

/// The least change. Nothing when time ran out.
pub fn repair(week: &Week, seconds: f64) -> Option<Repair> {
    let known: Vec<Session> = week.known.iter().map(Session::from).collect();
    let broken = breaches(week, &known);
    let table = Table::new(week);
    let in_slots: Vec<Option<Placed>> = week
        .known
        .iter()
        .map(|known| week.slot_at(known.place, known.span).map(|slot| Placed { group: known.group, slot }))
        .collect();
    let expected: BTreeSet<Placed> = in_slots.iter().flatten().copied().collect();
    let standing: BTreeSet<Placed> = week
        .known
        .iter()
        .zip(&in_slots)
        .filter(|(known, placed)| {
            known.overruled.is_some()
                && placed.is_some_and(|placed| {
                    let mut reasons = table.reasons[placed.group][placed.slot].iter();
                    reasons.all(|one| {
                        one.requirement.is_some_and(|requirement| requirement.kind.can_be_overruled())
                    })
                })
        })
        .filter_map(|(_, placed)| *placed)
        .collect();
    let worth = |placed: Placed| {
        let span = week.slots[placed.slot].span;
        let same_day =
            week.known.iter().any(|known| known.group == placed.group && known.span.day() == span.day());
        total(&points(week, placed.group, span))
            + if expected.contains(&placed) { KEPT } else { 0 }
            + if same_day { SAME_DAY } else { 0 }
    };
    let counts: Vec<u8> = (0..week.groups.len())
        .map(|group| {
            // A group may do with fewer rather than have everything moved; it never ends below the fewest that will do.
            let has = week.known.iter().filter(|known| known.group == group).count();
            u8::try_from(has).unwrap_or(u8::MAX).min(table.allowances[group].at_least)
        })
        .collect();
    let nothing = BTreeSet::new();
    let mut ask = Ask {
        dropped: &nothing,
        points: &worth,
        standing: &standing,
        at_least: Some(&counts),
        loosened: None,
        seconds,
    };
    let fewest = vec![0; week.groups.len()];
    let (solved, clash) = match solve(week, &table, &ask) {
        Solved::Impossible => {
            let clash = clash(week, &table, seconds);
            ask.at_least = Some(&fewest);
            (solve(week, &table, &ask), Some(clash))
        }
        solved => (solved, None),
    };
    let Solved::Plan { sessions, points: sum, at_most, .. } = solved else { return None };
    let kept: Vec<usize> = (0..in_slots.len())
        .filter(|at| in_slots[*at].is_some_and(|placed| sessions.contains(&placed)))
        .collect();
    let moves = moves(week, &sessions, &in_slots);
    let mut after = sessions_of(week, &sessions);
    for session in &mut after {
        let same = |known: &&super::Known| {
            known.group == session.group && known.place == session.place && known.span == session.span
        };
        session.overruled = week.known.iter().find(same).and_then(|known| known.overruled.clone());
    }
    let left = breaches(week, &after);
    Some(Repair { broken, kept, moves, plan: finish(week, sessions, sum, at_most), clash, left })
}

/// Pairs what falls out with what comes in, group by group, nearest days first.
fn moves(week: &Week, sessions: &[Placed], known: &[Option<Placed>]) -> Vec<Move> {
    let mut moves = Vec::new();
    for group in 0..week.groups.len() {
        let gone: Vec<usize> = (0..known.len())
            .filter(|at| week.known[*at].group == group)
            .filter(|at| known[*at].is_none_or(|placed| !sessions.contains(&placed)))
            .collect();
        let mut new: Vec<usize> = sessions
            .iter()
            .filter(|placed| placed.group == group && !known.contains(&Some(**placed)))
            .map(|placed| placed.slot)
            .collect();
        for from in gone {
            let day = week.known[from].span.day();
            let nearest =
                (0..new.len()).min_by_key(|at| days_between(day, week.slots[new[*at]].span.day()).abs());
            let to = nearest.map(|at| new.remove(at));
            moves.push(Move { group, from: Some(from), to });
        }
        moves.extend(new.into_iter().map(|to| Move { group, from: None, to: Some(to) }));
    }
    moves
}
