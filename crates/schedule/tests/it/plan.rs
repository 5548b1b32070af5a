//! The planner against brute force on weeks small enough to try everything.

use std::collections::BTreeSet;

use proptest::prelude::*;
use schedule::week::plan::{Answer, plan};
use schedule::week::prefer::{points, total};
use schedule::week::{Load, Placed, Week};

use crate::build::{candidates, group, slot, span, supervisor, water, week, window};
use crate::oracle::keeps_every_rule;

/// Most points of any set of sessions that keeps every rule; none when there is no such set.
fn brute_force(week: &Week) -> Option<i64> {
    let all: Vec<Placed> = (0..week.groups.len())
        .flat_map(|group| (0..week.slots.len()).map(move |slot| Placed { group, slot }))
        .collect();
    assert!(all.len() <= 16, "too many to try");
    (0u32..1 << all.len())
        .filter_map(|mask| {
            let chosen: Vec<Placed> =
                all.iter().enumerate().filter(|(at, _)| mask & (1 << at) != 0).map(|(_, it)| *it).collect();
            keeps_every_rule(week, &chosen).then(|| {
                chosen.iter().map(|one| total(&points(week, one.group, week.slots[one.slot].span))).sum()
            })
        })
        .max()
}

fn tiny() -> impl Strategy<Value = Week> {
    let times =
        prop::sample::select(vec!["07:00-07:40", "12:00-12:40", "15:00-15:40", "18:10-18:50", "19:00-19:40"]);
    let practices = prop::sample::select(vec!["05:30-07:00", "16:00-18:00", "13:00-14:00"]);
    (
        prop::collection::vec((0..5i64, times), 1..6),
        prop::collection::vec((0..2usize, 0..6i64, practices), 0..5),
        1..3usize,
        prop::collection::vec(1..3u8, 2),
        prop::option::of((0..5i64, 0..2usize)),
        any::<bool>(),
        1..3u32,
    )
        .prop_map(|(slots, practices, groups, sessions, load, watched, at_once)| {
            let mut built = week();
            built.places[0].groups_at_once = at_once;
            for (at, wanted) in sessions.iter().copied().enumerate().take(groups) {
                group(&mut built, &format!("G{at}"), wanted);
                // Fewer may do for the second, so that counts are a choice too.
                built.groups[at].at_least = if at == 0 { wanted } else { 0 };
            }
            for (who, day, times) in practices {
                if who < groups {
                    water(&mut built, &[who], day, times);
                }
            }
            for (day, times) in slots {
                slot(&mut built, 0, day, times);
            }
            if let Some((day, who)) = load.filter(|(_, who)| *who < groups) {
                let span = span(&built, day, "10:00-11:00");
                built.loads.push(Load { name: "gym".into(), groups: vec![who], span });
            }
            if watched {
                supervisor(&mut built, "N", &[(0, "06:00-22:00"), (2, "06:00-22:00"), (4, "17:00-22:00")]);
            }
            built
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]
    #[test]
    fn the_planner_finds_what_brute_force_finds(week in tiny()) {
        match (plan(&week, 20.0), brute_force(&week)) {
            (Answer::Plan(plan), Some(best)) => {
                prop_assert!(keeps_every_rule(&week, &plan.sessions), "{:?}", plan.sessions);
                prop_assert!(plan.is_proven());
                prop_assert_eq!(plan.points, best);
            }
            (Answer::Clash(clash), None) => prop_assert!(!clash.members.is_empty() && clash.is_smallest),
            (answer, best) => prop_assert!(false, "{:?} beside {:?}", answer, best),
        }
    }
}

#[test]
fn points_are_summed_by_what_they_are_for() {
    let mut week = week();
    let seniors = group(&mut week, "Seniors", 2);
    for day in [0, 2, 4] {
        water(&mut week, &[seniors], day, "16:00-18:00");
        window(&mut week, 0, day, "18:00-19:00");
    }
    candidates(&mut week);
    let Answer::Plan(plan) = plan(&week, 10.0) else { panic!("a plan") };
    assert!(plan.is_proven());
    assert_eq!(plan.sessions.len(), 2);
    assert_eq!(plan.tally.iter().map(|tally| tally.points).sum::<i64>(), plan.points);
    let days: BTreeSet<_> = plan.sessions.iter().map(|placed| week.slots[placed.slot].span.day()).collect();
    assert_eq!(days.len(), 2);
}

#[test]
fn an_empty_week_is_planned_and_has_nothing_in_it() {
    let week = week();
    assert!(matches!(plan(&week, 1.0), Answer::Plan(plan) if plan.sessions.is_empty() && plan.is_proven()));
}
