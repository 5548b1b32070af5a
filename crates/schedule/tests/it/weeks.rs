//! Random weeks, over changes of clocks too: no plan and no repair ever breaks a hard rule.

use jiff::civil::{Date, date};
use proptest::prelude::*;
use schedule::time::Span;
use schedule::week::audit::{breaches, sessions_of};
use schedule::week::plan::{Answer, plan};
use schedule::week::repair::repair;
use schedule::week::{Closure, Grade, Group, Meet, Place, Week};

use crate::build::{candidates, known, supervisor, water, window, zone};

/// Weeks of the tests: a plain one, and both in which clocks change.
const MONDAYS: [Date; 3] = [date(2026, 3, 9), date(2026, 3, 23), date(2026, 10, 19)];

fn random() -> impl Strategy<Value = Week> {
    let practice =
        (0..8i64, prop::sample::select(vec!["05:30-07:30", "14:00-16:00", "16:00-18:00", "18:00-20:00"]));
    (
        prop::sample::select(MONDAYS.to_vec()),
        prop::collection::vec((1..3u8, 4..20u32, any::<bool>()), 1..5),
        prop::collection::vec((0..4usize, practice), 0..16),
        prop::collection::vec((0..2usize, 0..7i64), 3..10),
        prop::option::of((0..10i64, prop::sample::select(vec![Grade::A, Grade::B, Grade::C]))),
        any::<bool>(),
    )
        .prop_map(|(monday, groups, practices, windows, meet, watched)| {
            let mut week = Week::new(zone(), monday, monday.saturating_add(jiff::Span::new().days(6)));
            week.places.push(Place { name: "deck".into(), groups_at_once: 2, people: Some(30) });
            week.places.push(Place { name: "hall".into(), groups_at_once: 1, people: None });
            for (at, (sessions, size, young)) in groups.iter().enumerate() {
                week.groups.push(Group {
                    name: format!("G{at}"),
                    size: *size,
                    young: *young,
                    sessions: *sessions,
                    at_least: 0,
                    minutes: 40,
                    needs: vec![],
                    wishes: vec![],
                });
            }
            for (who, (day, times)) in practices {
                if who < week.groups.len() {
                    water(&mut week, &[who], day, times);
                }
            }
            for (place, day) in windows {
                window(&mut week, place, day, if place == 0 { "16:00-21:00" } else { "06:00-13:00" });
            }
            if let Some((day, grade)) = meet {
                let span = crate::build::span(&week, day, "09:00-17:00");
                week.meets.push(Meet { name: "meet".into(), grade, groups: vec![0], span });
            }
            if watched {
                let every: Vec<(i64, &str)> = (0..7).map(|day| (day, "06:00-21:30")).collect();
                supervisor(&mut week, "N", &every);
                supervisor(&mut week, "O", &every[..3]);
            }
            candidates(&mut week);
            week
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn no_plan_breaks_a_hard_rule(week in random()) {
        let Answer::Plan(plan) = plan(&week, 20.0) else { return Err(TestCaseError::fail("fewer may do, so there is a plan")) };
        let broken = breaches(&week, &sessions_of(&week, &plan.sessions));
        prop_assert!(broken.is_empty(), "{:?}", broken);
        gaps_are_real(&week, &plan.sessions)?;
    }

    #[test]
    fn no_repair_breaks_a_hard_rule(mut week in random(), day in 0..7i64) {
        let Answer::Plan(before) = plan(&week, 20.0) else { return Err(TestCaseError::fail("a plan")) };
        for placed in &before.sessions {
            let slot = week.slots[placed.slot];
            week.known.push(schedule::week::Known { group: placed.group, place: slot.place, span: slot.span, overruled: None });
        }
        let whole_day = crate::build::span(&week, day, "00:00-23:59");
        week.closures.push(Closure { place: None, span: whole_day, why: "closed".into() });
        let repair = repair(&week, 20.0).expect("in time");
        prop_assert!(repair.left.is_empty(), "{:?}", repair.left);
        let hit = week.known.iter().filter(|known| known.span.overlaps(whole_day)).count();
        // Only what is hit needs to move: everything else can stay where it is.
        prop_assert!(repair.kept.len() + hit >= week.known.len() || repair.clash.is_none());
        if hit == 0 {
            prop_assert_eq!(repair.kept.len(), week.known.len());
            prop_assert!(repair.moves.is_empty());
        }
        gaps_are_real(&week, &repair.plan.sessions)?;
    }
}

/// Water, free days and hours once more, by instants.
fn gaps_are_real(week: &Week, sessions: &[schedule::week::Placed]) -> Result<(), TestCaseError> {
    for placed in sessions {
        let span: Span = week.slots[placed.slot].span;
        for water in week.water.iter().filter(|water| water.groups.contains(&placed.group)) {
            let (before, after) = (span.minutes_to(water.span), water.span.minutes_to(span));
            prop_assert!(240 <= before || 0 <= after, "{} and {}", span, water.span);
        }
        for other in sessions.iter().filter(|other| other.group == placed.group && **other != *placed) {
            let gap = week.slots[other.slot].span;
            prop_assert!(1440 <= span.minutes_to(gap).max(gap.minutes_to(span)));
        }
    }
    Ok(())
}

#[test]
fn hours_are_counted_over_the_night_that_is_an_hour_short() {
    // Clocks jump in the night to Sunday 29 March 2026: from Saturday 18:40 to Sunday 18:45 looks like more than 24 h
    // and is 23 h 05.
    let mut week = Week::new(zone(), date(2026, 3, 23), date(2026, 3, 29));
    week.places.push(Place { name: "deck".into(), groups_at_once: 1, people: None });
    let seniors = crate::build::group(&mut week, "Seniors", 2);
    week.settings.free_days = 0;
    week.settings.min_hours_between = 24.0;
    known(&mut week, seniors, 0, 5, "18:00-18:40");
    for (times, is_allowed) in [("18:45-19:25", false), ("19:39-20:19", false), ("19:40-20:20", true)] {
        let request = schedule::week::request::Request {
            group: seniors,
            place: 0,
            span: crate::build::span(&week, 6, times),
        };
        let reply = schedule::week::request::answer(&week, &request);
        assert_eq!(reply.is_granted(), is_allowed, "{times}: {:?}", reply.breaks);
    }
}
