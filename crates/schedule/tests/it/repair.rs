//! Repair: what people know is kept, what breaks is moved, and no more.

use schedule::week::repair::repair;
use schedule::week::requirement::Kind;
use schedule::week::{Closure, Override};

use crate::build::{candidates, group, known, span, water, week, window};

#[test]
fn a_closed_deck_is_repaired_with_two_moves() {
    let mut week = week();
    let (seniors, juniors) = (group(&mut week, "Seniors", 2), group(&mut week, "Juniors", 2));
    for day in 0..5 {
        water(&mut week, &[seniors], day, "16:00-18:00");
        water(&mut week, &[juniors], day, "16:00-17:00");
        window(&mut week, 0, day, "17:00-19:30");
    }
    for day in [0, 2] {
        known(&mut week, seniors, 0, day, "18:00-18:40");
        known(&mut week, juniors, 0, day, "17:10-17:50");
    }
    let wednesday = span(&week, 2, "00:00-23:00");
    week.closures.push(Closure { place: Some(0), span: wednesday, why: "pump".into() });
    candidates(&mut week);
    let repair = repair(&week, 10.0).expect("in time");
    assert_eq!(repair.broken.len(), 2);
    assert!(repair.broken.iter().all(|breach| breach.requirement.kind == Kind::Closed));
    assert_eq!(repair.kept, vec![0, 1]);
    assert_eq!(repair.moves.len(), 2);
    assert!(repair.clash.is_none() && repair.left.is_empty());
    for change in &repair.moves {
        let to = week.slots[change.to.expect("moved, not lost")].span;
        assert!(to.day() != wednesday.day());
    }
}

#[test]
fn a_practice_that_moves_takes_only_what_it_must() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    water(&mut week, &[seniors], 0, "06:00-07:00");
    // Was in the morning, now in the evening: what stood at 17:00 is suddenly right before the water.
    water(&mut week, &[seniors], 2, "18:00-19:00");
    for day in [0, 2, 3, 4] {
        window(&mut week, 0, day, "17:00-20:00");
    }
    known(&mut week, seniors, 0, 0, "17:00-17:40");
    known(&mut week, seniors, 0, 2, "17:00-17:40");
    candidates(&mut week);
    let repair = repair(&week, 10.0).expect("in time");
    assert_eq!(repair.kept, vec![0]);
    assert_eq!(repair.moves.len(), 1);
    let to = week.slots[repair.moves[0].to.expect("moved")].span;
    assert_eq!(to, span(&week, 2, "19:00-19:40"), "the same day, after the water");
}

#[test]
fn what_cannot_be_placed_falls_out_and_says_why() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 1);
    known(&mut week, seniors, 0, 1, "17:00-17:40");
    water(&mut week, &[seniors], 1, "18:00-19:00");
    candidates(&mut week);
    week.windows.push(schedule::week::Window { place: 0, span: span(&week, 1, "17:00-18:00") });
    for slot in &mut week.slots {
        slot.in_window = slot.span.start.civil().hour() == 17;
    }
    let repair = repair(&week, 10.0).expect("in time");
    assert!(repair.plan.sessions.is_empty());
    assert_eq!(repair.moves.len(), 1);
    assert_eq!(repair.moves[0].to, None);
    assert!(repair.clash.is_some());
}

#[test]
fn an_overruled_session_stays_where_it_was_put() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 1);
    water(&mut week, &[seniors], 1, "18:00-19:00");
    known(&mut week, seniors, 0, 1, "17:00-17:40");
    week.known[0].overruled = Some(Override { by: "N".into(), reason: "film day".into() });
    candidates(&mut week);
    let repair = repair(&week, 10.0).expect("in time");
    assert!(repair.broken.is_empty() && repair.moves.is_empty() && repair.left.is_empty());
    assert_eq!(repair.kept, vec![0]);
}

#[test]
fn one_session_falls_out_rather_than_all_of_them_moving() {
    // Monday, Wednesday, Friday, and Monday's deck closes. Three sessions would fit only as Tuesday, Thursday, Saturday;
    // two will do, so Monday falls out and the others stay where people know them.
    let build = |at_least: u8| {
        let mut week = week();
        let seniors = group(&mut week, "Seniors", 3);
        week.groups[seniors].at_least = at_least;
        for day in 0..6 {
            window(&mut week, 0, day, "18:00-19:00");
        }
        for day in [0, 2, 4] {
            known(&mut week, seniors, 0, day, "18:00-18:40");
        }
        let monday = span(&week, 0, "00:00-23:00");
        week.closures.push(Closure { place: None, span: monday, why: "tiles".into() });
        candidates(&mut week);
        repair(&week, 10.0).expect("in time")
    };
    let fewer = build(2);
    assert_eq!((fewer.kept.len(), fewer.moves.len(), fewer.moves[0].to), (2, 1, None));
    let all = build(3);
    assert_eq!((all.kept.len(), all.moves.len()), (0, 3));
}
