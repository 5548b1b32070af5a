//! How long a full week takes: 12 groups, 40 practices, 30 slots; plan and repair.

use divan::Bencher;
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use schedule::time::Span;
use schedule::week::plan::{Answer, plan};
use schedule::week::repair::repair;
use schedule::week::{Closure, Group, Known, Place, Slot, Supervisor, Water, Week, Wish};

const MONDAY: Date = date(2026, 3, 9);

fn span(week: &Week, day: usize, from: (i8, i8), to: (i8, i8)) -> Span {
    let day = MONDAY.saturating_add(jiff::Span::new().days(i64::try_from(day).expect("a few days")));
    Span::new(&week.zone, day.at(from.0, from.1, 0, 0), day.at(to.0, to.1, 0, 0))
        .expect("a stretch of the bench")
}

/// Twelve groups with two sessions each, forty practices, thirty slots at three places with three adults.
fn full() -> Week {
    let zone = TimeZone::get("Europe/Amsterdam").expect("a zone of the bench");
    let mut week = Week::new(zone, MONDAY, MONDAY.saturating_add(jiff::Span::new().days(6)));
    for (name, groups_at_once) in [("deck", 2), ("hall", 1), ("gallery", 1)] {
        week.places.push(Place { name: name.into(), groups_at_once, people: None });
    }
    for at in 0..12u32 {
        week.groups.push(Group {
            name: format!("Group {at}"),
            size: 6 + at % 5,
            young: at < 3,
            sessions: 2,
            at_least: 2,
            minutes: 40,
            needs: vec![],
            wishes: vec![Wish {
                weekdays: vec![1 + (at % 5) as i8],
                from: 0,
                to: 1440,
                weight: 5 + at as i32 % 3,
            }],
        });
    }
    for at in 0..40usize {
        let groups = vec![at % 12, (at * 5 + 3) % 12];
        let span = match at % 4 {
            0 => span(&week, at % 6, (5, 30), (7, 0)),
            1 => span(&week, at % 6, (15, 0), (16, 30)),
            _ => span(&week, at % 6, (16, 30), (18, 0)),
        };
        week.water.push(Water { name: format!("practice {at}"), groups, span });
    }
    for at in 0..30usize {
        let from = [(7, 10), (16, 30), (18, 10), (19, 0), (20, 0)][at / 6];
        let span = span(&week, at % 6, from, (from.0, from.1 + 40 - if from.1 == 30 { 11 } else { 0 }));
        let place = at % 3;
        let span = Span::new(
            &week.zone,
            span.start.civil(),
            span.start.civil().saturating_add(jiff::Span::new().minutes(40)),
        )
        .expect("a stretch");
        week.slots.push(Slot { place, span, in_window: true, exact: false });
    }
    for name in ["N", "O", "P"] {
        let hours = (0..6).map(|day| span(&week, day, (7, 0), (21, 30))).collect();
        week.supervisors.push(Supervisor { name: name.into(), hours, ratio: None });
    }
    week
}

fn main() {
    let week = full();
    let said = match plan(&week, 60.0) {
        Answer::Plan(plan) => {
            format!("{} sessions, {} points, proven {}", plan.sessions.len(), plan.points, plan.is_proven())
        }
        other => format!("no plan: {other:?}"),
    };
    #[expect(clippy::print_stdout, reason = "a bench speaks to whoever started it")]
    {
        println!("{said}");
    }
    divan::main();
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn plan_a_week(bencher: Bencher<'_, '_>) {
    bencher.with_inputs(full).bench_values(|week| plan(&week, 60.0));
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn repair_a_week(bencher: Bencher<'_, '_>) {
    bencher
        .with_inputs(|| {
            let mut week = full();
            let Answer::Plan(plan) = plan(&week, 60.0) else { return week };
            for placed in plan.sessions {
                let slot = week.slots[placed.slot];
                week.known.push(Known {
                    group: placed.group,
                    place: slot.place,
                    span: slot.span,
                    overruled: None,
                });
            }
            let tuesday = span(&week, 1, (0, 0), (23, 0));
            week.closures.push(Closure { place: Some(0), span: tuesday, why: "closed".into() });
            week
        })
        .bench_values(|week| repair(&week, 60.0));
}
