//! The absence table, cell by cell, as the trade writes it.

use jiff::ToSpan;
use jiff::civil::date;
use trade::dosing::Action;
use trade::history::*;
use trade::side::WorkingSide;

use crate::build::*;

/// Rungs down, sets and cap of the first session back, steps up forbidden after it and for how many days.
type Cell = (Action, i64, u8, f64, Option<i64>);

/// Columns: healthy and swam; healthy, did not swim; ill.
const TABLE: [(i64, [Cell; 3]); 9] = [
    (
        5,
        [
            (Action::Stay, 0, 3, 120.0, None),
            (Action::Restart, 0, 2, 120.0, None),
            (Action::Restart, 0, 2, 120.0, Some(7)),
        ],
    ),
    (
        7,
        [
            (Action::Stay, 0, 3, 120.0, None),
            (Action::Restart, 0, 2, 120.0, None),
            (Action::Restart, 0, 2, 120.0, Some(7)),
        ],
    ),
    (
        8,
        [
            (Action::Restart, 0, 2, 120.0, Some(0)),
            (Action::Restart, 0, 2, 120.0, Some(7)),
            (Action::Restart, 1, 2, 120.0, Some(7)),
        ],
    ),
    (
        14,
        [
            (Action::Restart, 0, 2, 120.0, Some(0)),
            (Action::Restart, 0, 2, 120.0, Some(7)),
            (Action::Restart, 1, 2, 120.0, Some(7)),
        ],
    ),
    (
        15,
        [
            (Action::Restart, 1, 2, 60.0, Some(0)),
            (Action::Restart, 1, 2, 45.0, Some(7)),
            (Action::Restart, 2, 2, 45.0, Some(14)),
        ],
    ),
    (
        28,
        [
            (Action::Restart, 1, 2, 60.0, Some(0)),
            (Action::Restart, 1, 2, 45.0, Some(7)),
            (Action::Restart, 2, 2, 45.0, Some(14)),
        ],
    ),
    (
        29,
        [
            (Action::Teach, 2, 2, 30.0, Some(0)),
            (Action::Teach, 2, 2, 30.0, Some(7)),
            (Action::Teach, 2, 2, 30.0, Some(14)),
        ],
    ),
    (
        56,
        [
            (Action::Teach, 2, 2, 30.0, Some(0)),
            (Action::Teach, 2, 2, 30.0, Some(7)),
            (Action::Teach, 2, 2, 30.0, Some(14)),
        ],
    ),
    // The table for new swimmers begins lower than two rungs down here.
    (
        57,
        [
            (Action::Teach, 3, 2, 30.0, Some(14)),
            (Action::Teach, 3, 2, 30.0, Some(14)),
            (Action::Teach, 3, 2, 30.0, Some(14)),
        ],
    ),
];

fn away(days: i64, column: usize) -> History {
    let mut history = swimmer(date(2009, 5, 1));
    // Row at 25 N: the table for girls of 15 to 18 begins at 20 N.
    let sets = [set(1, 90.0, form("F03")), set(2, 80.0, form("F03")), set(3, 70.0, form("F03"))];
    history.sessions.push(session(ago(days), "SC-1", "b32", &sets));
    history.pains.push(no_pain(ago(days)));
    let (reason, kept_swimming) = match column {
        0 => (AbsenceReason::Healthy, Some(true)),
        1 => (AbsenceReason::Healthy, Some(false)),
        _ => (AbsenceReason::Illness, None),
    };
    let (from, to) = (ago(days - 1), Some(ago(1)));
    history.absences.push(Absence { from, to, reason, kept_swimming });
    history
}

#[test]
fn every_cell_of_the_absence_table_is_as_written() {
    for (days, cells) in TABLE {
        for (column, (action, down, sets, cap, _)) in cells.into_iter().enumerate() {
            let (_, plan) = judged(protocol(), &away(days, column));
            let proposal = line(&plan, "SC-1", WorkingSide::Both);
            let place = format!("{days} days, column {column}: {:?}", proposal.trace);
            assert_eq!(proposal.action, action, "{place}");
            let dose = proposal.dose.expect("a dose");
            let exercise = protocol().exercise(&proposal.exercise).expect("known");
            let level = exercise.place_of(dose.rung.as_ref().expect("a rung")).expect("on the ladder");
            // From place 5 (32 N) downwards; ill for 29 days and more begins where new swimmers do, if that is lower.
            let wanted = match (days, column) {
                (57.., _) | (29.., 2) => 3,
                _ => 5 - usize::try_from(down).expect("small"),
            };
            assert_eq!(level, wanted, "{place}");
            assert_eq!((dose.sets, dose.cap.seconds()), (sets, cap), "{place}");
            assert_eq!(dose.timed, action != Action::Teach, "{place}");
        }
    }
}

/// After a first session the ban on steps up holds for as many days as the table says.
#[test]
fn steps_up_stay_forbidden_for_as_long_as_the_table_says() {
    for (days, cells) in TABLE.into_iter().take(6) {
        for (column, (.., forbidden)) in cells.into_iter().enumerate() {
            for since in [1_i64, 6, 7, 8, 13, 14, 15] {
                let mut history = away(days + since, column);
                history.absences[0].to = Some(ago(since + 1));
                let full = [set(1, 120.0, End::Cap), set(2, 120.0, End::Cap), set(3, 120.0, End::Cap)];
                // Enough full sessions for the careful count, the last one yesterday at the latest.
                for day in [since, 1] {
                    if history.sessions.iter().all(|session| session.date != ago(day)) {
                        history.sessions.push(session(ago(day), "SC-1", "b32", &full));
                        history.pains.push(no_pain(ago(day)));
                    }
                }
                let (_, plan) = judged(protocol(), &history);
                let proposal = line(&plan, "SC-1", WorkingSide::Both);
                let is_forbidden = forbidden.is_some_and(|forbidden| since < forbidden);
                let why = format!("{days} days, column {column}, {since} days since: {:?}", proposal.trace);
                assert!(!(is_forbidden && proposal.action == Action::Up), "{why}");
            }
        }
    }
}

#[test]
fn a_gap_of_other_exercises_does_not_end_the_way_back_of_this_one() {
    let mut history = away(21, 0);
    history.absences[0].to = Some(ago(3));
    let sets = [set(1, 50.0, form("F06")), set(2, 40.0, form("F06"))];
    history.sessions.push(session(ago(2), "RC-1", "b16", &sets));
    history.pains.push(no_pain(ago(2)));
    let (_, plan) = judged(protocol(), &history);
    let dose = line(&plan, "SC-1", WorkingSide::Both).dose.expect("a dose");
    assert_eq!(dose.rung.map(|rung| rung.to_string()).as_deref(), Some("b25"));
    assert_eq!((dose.sets, dose.cap.seconds()), (2, 60.0));
}

#[test]
fn an_absence_that_nobody_explained_uses_the_careful_column() {
    let mut history = away(21, 0);
    history.absences.clear();
    let (_, plan) = judged(protocol(), &history);
    let proposal = line(&plan, "SC-1", WorkingSide::Both);
    assert_eq!(proposal.dose.expect("a dose").cap.seconds(), 45.0);
    assert!(proposal.trace.iter().any(|line| line.says == "absence-reason-unknown"));
}

#[test]
fn two_weeks_of_planned_work_are_no_absence_and_fifteen_days_are() {
    for (days, is_absence) in [(10, false), (14, false), (15, true)] {
        let mut history = away(days, 0);
        history.absences.clear();
        let period = Period { from: ago(days - 1), to: ON.saturating_sub(1.day()), phase: Phase::Taper };
        history.calendar.periods.push(period);
        let (_, plan) = judged(protocol(), &history);
        let action = line(&plan, "SC-1", WorkingSide::Both).action;
        assert_eq!(action == Action::Restart, is_absence, "{days} days");
    }
}
