//! The hard rules once more, written down without the library's own judgement, so that the two can disagree.

use schedule::week::{Grade, Placed, Week};

/// True when a set of sessions keeps every hard rule of the tests' weeks.
pub(crate) fn keeps_every_rule(week: &Week, sessions: &[Placed]) -> bool {
    let span = |placed: &Placed| week.slots[placed.slot].span;
    let hour = |hours: f64| (hours * 60.0).round() as i64;
    let day = |placed: &Placed| span(placed).start.civil().date();
    let days = |one: jiff::civil::Date, other: jiff::civil::Date| one.duration_until(other).as_hours() / 24;
    let each = sessions.iter().all(|placed| {
        let at = span(placed);
        let group = &week.groups[placed.group];
        let place = week.slots[placed.slot].place;
        let minutes = at.start.minutes_until(at.end);
        let is_long_enough = group.minutes <= minutes;
        let open = week.windows.is_empty()
            || week.windows.iter().any(|window| {
                window.place == place
                    && 0 <= window.span.start.minutes_until(at.start)
                    && 0 <= at.end.minutes_until(window.span.end)
            });
        let dry = week.water.iter().filter(|water| water.groups.contains(&placed.group)).all(|water| {
            let until = at.end.minutes_until(water.span.start);
            let since = water.span.end.minutes_until(at.start);
            0 <= since || hour(week.settings.pre_water_gap_h) <= until
        });
        let meets = week.meets.iter().filter(|meet| meet.groups.contains(&placed.group)).all(|meet| {
            let until = at.end.minutes_until(meet.span.start);
            let needed =
                if meet.grade == Grade::C { week.settings.meet_gap_c_h } else { week.settings.meet_gap_ab_h };
            let over = meet.span.end.civil().date() < day(placed);
            over || hour(needed) <= until
        });
        let free = week.busy.iter().filter(|busy| busy.groups.contains(&placed.group)).all(|busy| {
            0 <= at.end.minutes_until(busy.span.start) || 0 <= busy.span.end.minutes_until(at.start)
        });
        let loads = week.loads.iter().filter(|load| load.groups.contains(&placed.group)).all(|load| {
            days(day(placed), load.span.start.civil().date()).abs() > i64::from(week.settings.free_days)
        });
        is_long_enough && open && dry && meets && free && loads && watched(week, sessions, placed)
    });
    let pairs = sessions.iter().enumerate().all(|(index, one)| {
        sessions[index + 1..].iter().filter(|other| other.group == one.group).all(|other| {
            let apart = days(day(one), day(other)).abs();
            let gap = span(one)
                .end
                .minutes_until(span(other).start)
                .max(span(other).end.minutes_until(span(one).start));
            apart > i64::from(week.settings.free_days) && hour(week.settings.min_hours_between) <= gap
        })
    });
    let rooms = sessions.iter().all(|one| {
        let together = sessions.iter().filter(|other| {
            week.slots[other.slot].place == week.slots[one.slot].place
                && span(other).start <= span(one).start
                && span(one).start < span(other).end
        });
        together.count() <= week.places[week.slots[one.slot].place].groups_at_once as usize
    });
    let counts = (0..week.groups.len()).all(|group| {
        let has = sessions.iter().filter(|placed| placed.group == group).count();
        (usize::from(week.groups[group].at_least)..=usize::from(week.groups[group].sessions)).contains(&has)
            && has <= usize::from(week.settings.sessions_week)
    });
    each && pairs && rooms && counts
}

/// Adults at the place when a session starts; the tests' weeks have one place where this matters.
fn watched(week: &Week, sessions: &[Placed], placed: &Placed) -> bool {
    if week.supervisors.is_empty() {
        return true;
    }
    let at = week.slots[placed.slot].span;
    let adults = week
        .supervisors
        .iter()
        .filter(|who| who.hours.iter().any(|hours| hours.start <= at.start && at.end <= hours.end))
        .count();
    let swimmers: u32 = sessions
        .iter()
        .filter(|other| {
            let span = week.slots[other.slot].span;
            span.start <= at.start && at.start < span.end
        })
        .map(|other| week.groups[other.group].size)
        .sum();
    swimmers
        <= match adults {
            0 => 0,
            1 => 15,
            adults => 10 + 5 * adults as u32,
        }
}
