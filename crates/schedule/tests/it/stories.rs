//! The trade's worked stories about time: S7 doubles, S12 the coach who wants it before practice.

use schedule::week::Load;
use schedule::week::Week;
use schedule::week::plan::{Answer, plan};
use schedule::week::prefer::{points, total};
use schedule::week::refuse::Cause;
use schedule::week::request::{OfferKind, Request, answer, answer_instead};
use schedule::week::requirement::Kind;

use crate::build::{candidates, group, known, slot, span, supervisor, water, week, window};

/// A group with doubles on Tuesday and a morning practice on Wednesday.
fn doubles(gap_h: f64) -> (Week, usize) {
    let mut week = week();
    week.settings.pre_water_gap_h = gap_h;
    let seniors = group(&mut week, "Seniors", 1);
    water(&mut week, &[seniors], 1, "05:30-07:30");
    water(&mut week, &[seniors], 1, "16:00-18:00");
    water(&mut week, &[seniors], 2, "05:30-07:30");
    (week, seniors)
}

fn kinds(week: &Week, group: usize, day: i64, times: &str) -> Vec<Kind> {
    let request = Request { group, place: 0, span: span(week, day, times) };
    answer(week, &request).breaks.into_iter().map(|breach| breach.requirement.kind).collect()
}

#[test]
fn s7_doubles() {
    let (a, b, c, d) = ("07:40-08:20", "12:15-12:55", "15:00-15:40", "18:10-18:50");
    for (gap_h, allowed) in [
        (4.0, [true, false, false, true]),
        (3.0, [true, true, false, true]),
        (8.0, [false, false, false, true]),
    ] {
        let (week, seniors) = doubles(gap_h);
        for (times, is_allowed) in [a, b, c, d].into_iter().zip(allowed) {
            let expected = if is_allowed { vec![] } else { vec![Kind::BeforeWater] };
            assert_eq!(kinds(&week, seniors, 1, times), expected, "{times} at {gap_h} h");
        }
    }
    let (week, seniors) = doubles(4.0);
    let gap = |times: &str| {
        let request = Request { group: seniors, place: 0, span: span(&week, 1, times) };
        answer(&week, &request).breaks.into_iter().find_map(|breach| match breach.how {
            schedule::week::audit::How::Alone(Cause::BeforeWater { has, .. }) => Some(has),
            _ => None,
        })
    };
    assert_eq!(gap(b), Some(3 * 60 + 5), "3 h 05");
    assert_eq!(gap(c), Some(20), "20 min");
}

#[test]
fn s7_the_last_practice_of_the_day_is_preferred_and_one_a_day_is_enough() {
    let (mut week, seniors) = doubles(4.0);
    week.groups[seniors].sessions = 2;
    week.groups[seniors].at_least = 1;
    for times in ["07:40-08:20", "18:10-18:50"] {
        slot(&mut week, 0, 1, times);
    }
    let worth = |at: usize| total(&points(&week, seniors, week.slots[at].span));
    assert!(worth(0) < worth(1));
    let Answer::Plan(plan) = plan(&week, 5.0) else { panic!("a plan") };
    assert_eq!(plan.sessions.len(), 1, "never two a day");
    assert_eq!(plan.sessions[0].slot, 1);
}

#[test]
fn s7_the_next_morning_is_a_consecutive_day() {
    let (mut week, seniors) = doubles(4.0);
    known(&mut week, seniors, 0, 1, "18:10-18:50");
    assert_eq!(kinds(&week, seniors, 2, "07:40-08:20"), vec![Kind::FreeDay]);
}

#[test]
fn s12_the_coach_wants_it_before_practice() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    week.groups[seniors].minutes = 25;
    water(&mut week, &[seniors], 1, "16:00-18:00");
    water(&mut week, &[seniors], 3, "16:00-18:00");
    for day in 0..5 {
        window(&mut week, 0, day, "09:00-20:00");
    }
    candidates(&mut week);
    let request = Request { group: seniors, place: 0, span: span(&week, 1, "15:20-15:45") };
    let reply = answer(&week, &request);
    assert!(!reply.is_granted());
    assert_eq!(reply.breaks.len(), 1);
    assert!(
        reply.can_be_overruled && !reply.activation,
        "the easy minutes are off unless the club wants them"
    );
    assert_eq!(reply.offers.len(), 3);
    let kinds: Vec<OfferKind> = reply.offers.iter().map(|offer| offer.kind).collect();
    assert_eq!(kinds, vec![OfferKind::AfterLast, OfferKind::EndsEarlyEnough, OfferKind::OtherDay]);
    assert_eq!(reply.offers[0].span, span(&week, 1, "18:00-18:25"));
    assert_eq!(reply.offers[1].span, span(&week, 1, "11:35-12:00"), "ending by 12:00");
    for offer in &reply.offers {
        let wish = Request { group: seniors, place: offer.place, span: offer.span };
        assert!(answer(&week, &wish).is_granted(), "an offer is never refused: {}", offer.span);
    }
    week.settings.activation_allowed = true;
    assert!(answer(&week, &request).activation);
}

#[test]
fn s12_only_the_rule_about_water_may_be_overruled() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    water(&mut week, &[seniors], 1, "16:00-18:00");
    known(&mut week, seniors, 0, 0, "18:00-18:40");
    let request = Request { group: seniors, place: 0, span: span(&week, 1, "15:00-15:40") };
    let reply = answer(&week, &request);
    let kinds: Vec<Kind> = reply.breaks.iter().map(|breach| breach.requirement.kind).collect();
    assert_eq!(kinds, vec![Kind::BeforeWater, Kind::FreeDay]);
    assert!(!reply.can_be_overruled);
}

#[test]
fn offers_move_the_nearest_session_of_a_full_week() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    water(&mut week, &[seniors], 3, "16:00-18:00");
    for day in [0, 4] {
        known(&mut week, seniors, 0, day, "18:00-18:40");
    }
    let request = Request { group: seniors, place: 0, span: span(&week, 3, "15:20-15:45") };
    let reply = answer(&week, &request);
    let kinds: Vec<Kind> = reply.breaks.iter().map(|breach| breach.requirement.kind).collect();
    assert_eq!(kinds, vec![Kind::BeforeWater, Kind::FreeDay], "as one more it is also too near to Friday's");
    assert_eq!((reply.instead_of, reply.offers_instead_of), (None, Some(1)), "Friday's would move");
    assert_eq!(reply.offers.len(), 2, "after the practice, and ending by noon");
    for offer in &reply.offers {
        let wish = Request { group: seniors, place: offer.place, span: offer.span };
        assert!(answer_instead(&week, &wish, Some(1)).is_granted(), "{}", offer.span);
    }
    week.groups[seniors].sessions = 3;
    assert_eq!(answer(&week, &request).offers_instead_of, None, "there is room for one more");
}

#[test]
fn other_loads_count_as_loaded_sessions() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 1);
    let at_gym = span(&week, 2, "10:00-11:00");
    week.loads.push(Load { name: "gym".into(), groups: vec![seniors], span: at_gym });
    for (day, is_allowed) in [(0, true), (1, false), (2, false), (3, false), (4, true)] {
        let expected = if is_allowed { vec![] } else { vec![Kind::OtherLoad] };
        assert_eq!(kinds(&week, seniors, day, "18:00-18:40"), expected, "day {day}");
    }
}

#[test]
fn adults_count_as_the_trade_counts_them() {
    // 15 swimmers from 13 with one adult, 20 with two, eight under 13 with one.
    for (size, young, adults, is_enough) in [
        (15, false, 1, true),
        (16, false, 1, false),
        (20, false, 2, true),
        (21, false, 2, false),
        (8, true, 1, true),
        (9, true, 1, false),
        (16, true, 2, true),
        (1, false, 0, false),
    ] {
        let mut week = week();
        let squad = group(&mut week, "Squad", 1);
        week.groups[squad].size = size;
        week.groups[squad].young = young;
        supervisor(&mut week, "away", &[(6, "06:00-07:00")]);
        for at in 0..adults {
            supervisor(&mut week, &format!("adult {at}"), &[(0, "17:00-20:00")]);
        }
        let expected = if is_enough { vec![] } else { vec![Kind::Supervision] };
        assert_eq!(kinds(&week, squad, 0, "18:00-18:40"), expected, "{size} young {young} with {adults}");
    }
}
