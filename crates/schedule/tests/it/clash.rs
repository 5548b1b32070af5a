//! Impossible weeks: the clash is as small as it can be, and giving up a member buys what is said.

use schedule::week::clash::{Buys, Clash};
use schedule::week::plan::{Answer, plan};
use schedule::week::requirement::{Kind, Requirement, Subject};
use schedule::week::{Grade, Meet, Week};

use crate::build::{candidates, group, slot, span, supervisor, water, week, window};

fn clash(week: &Week) -> Clash {
    match plan(week, 10.0) {
        Answer::Clash(clash) => clash,
        other => panic!("no clash: {other:?}"),
    }
}

fn kinds(clash: &Clash) -> Vec<Kind> {
    clash.members.iter().map(|member| member.requirement.kind).collect()
}

#[test]
fn a_slot_right_before_the_water_clashes_with_the_wish_for_a_session() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 1);
    water(&mut week, &[seniors], 1, "16:00-18:00");
    slot(&mut week, 0, 1, "15:00-15:40");
    let clash = clash(&week);
    assert!(clash.is_smallest);
    assert_eq!(kinds(&clash), vec![Kind::Sessions, Kind::BeforeWater]);
    let Buys::Plan { missing, .. } = &clash.members[0].buys else { panic!("{clash:?}") };
    assert_eq!(*missing, 1, "one session fewer");
    let Buys::Plan { breaks, .. } = &clash.members[1].buys else { panic!("{clash:?}") };
    assert_eq!(breaks.len(), 1);
    assert_eq!(breaks[0].1.short, 240 - 20);
}

#[test]
fn two_sessions_on_neighbouring_days_clash_over_the_free_day() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    slot(&mut week, 0, 1, "18:00-18:40");
    slot(&mut week, 0, 2, "18:00-18:40");
    group(&mut week, "Not concerned", 0);
    let clash = clash(&week);
    assert_eq!(kinds(&clash), vec![Kind::Sessions, Kind::FreeDay]);
    assert!(clash.members.iter().all(|member| member.requirement.subject == Subject::Group(seniors)));
    assert!(clash.members.iter().all(|member| matches!(member.buys, Buys::Plan { .. })));
}

#[test]
fn a_wider_window_is_named_where_it_would_help() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 1);
    water(&mut week, &[seniors], 1, "16:00-18:00");
    window(&mut week, 0, 1, "14:00-15:40");
    candidates(&mut week);
    let clash = clash(&week);
    let window = Requirement { kind: Kind::Window, subject: Subject::Place(0) };
    let member =
        clash.members.iter().find(|member| member.requirement == window).expect("the window is named");
    let Buys::Plan { breaks, .. } = &member.buys else { panic!("{clash:?}") };
    assert_eq!(week.slots[breaks[0].0.slot].span, span(&week, 1, "18:00-18:40"));
}

#[test]
fn too_little_room_says_how_much_is_missing() {
    let mut week = week();
    for name in ["A", "B", "C"] {
        group(&mut week, name, 1);
    }
    slot(&mut week, 0, 1, "18:00-18:40");
    let clash = clash(&week);
    let room = clash.members.iter().find(|member| member.requirement.kind == Kind::Room).expect("room");
    // Two of the three already clash, and the third would clash too: room for one more would not be enough.
    assert!(matches!(room.buys, Buys::Plan { missing: 2, .. }), "{clash:?}");
}

#[test]
fn adults_that_are_missing_are_counted() {
    let mut week = week();
    let squad = group(&mut week, "Squad", 1);
    week.groups[squad].size = 14;
    group(&mut week, "Other", 1);
    week.groups[1].size = 14;
    week.places[0].groups_at_once = 2;
    slot(&mut week, 0, 1, "18:00-18:40");
    supervisor(&mut week, "N", &[(1, "17:00-20:00")]);
    let clash = clash(&week);
    assert!(kinds(&clash).contains(&Kind::Supervision), "{clash:?}");
}

#[test]
fn a_main_meet_takes_sessions_away_without_any_clash() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 3);
    for day in 0..5 {
        slot(&mut week, 0, day, "18:00-18:40");
    }
    let on_saturday = span(&week, 5, "09:00-17:00");
    week.meets.push(Meet {
        name: "Nationals".into(),
        grade: Grade::A,
        groups: vec![seniors],
        span: on_saturday,
    });
    let Answer::Plan(plan) = plan(&week, 10.0) else { panic!("a planned reduction is no clash") };
    assert_eq!(plan.sessions.len(), 1);
    assert_eq!(plan.sessions[0].slot, 0, "early in the week");
}
