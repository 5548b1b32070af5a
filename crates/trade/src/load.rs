//! The water of a week, in one sentence and a small table. No ratio of this week to the month, and no zone.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;

use crate::history::{History, WaterWeek};
use crate::rule::screening_rules::Q6;
use crate::trace::{Arg, Class, Line};

/// Weeks before this one whose mean it is set beside.
const BESIDE: i64 = 3;
/// Weeks that say what is usual, for the guard.
const USUAL: i64 = 8;
/// Share of the usual under which the weeks before are too small to divide by: a choice of this project.
const SMALL: f64 = 0.3;

/// One week of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its Monday.
    pub from: Date,
    /// Kilometres; none where nobody wrote any down, which is not zero.
    pub km: Option<f64>,
    /// Practices.
    pub sessions: Option<u16>,
    /// Minutes.
    pub minutes: Option<f64>,
    /// Effort, 0 to 10: the week's, or the mean over its practices weighted by their minutes.
    pub effort: Option<f64>,
    /// Effort times minutes, in arbitrary units.
    pub load: Option<f64>,
    /// Kilometres more than the mean of the three weeks before.
    pub more_km: Option<f64>,
    /// The same as a share of that mean; none where the mean is too small to divide by.
    pub more_share: Option<f64>,
}

/// The Monday of the week of a day.
pub fn monday(day: Date) -> Date {
    day.saturating_sub(i64::from(day.weekday().to_monday_zero_offset()).days())
}

/// Session load: effort times minutes (Foster 2001).
pub fn session_load(effort: f64, minutes: f64) -> f64 {
    effort * minutes
}

/// The last weeks up to the one of a day, oldest first. A week that nobody wrote down stands as a gap.
pub fn table(history: &History, on: Date, weeks: u8) -> Vec<Row> {
    let written = written(history, on);
    let last = monday(on);
    (0..i64::from(weeks))
        .rev()
        .filter_map(|back| last.checked_sub((7 * back).days()).ok())
        .map(|from| row(&written, from))
        .collect()
}

/// The newest week that somebody wrote down.
pub fn newest(history: &History, on: Date) -> Option<Row> {
    let written = written(history, on);
    let from = *written.iter().rev().find(|(_, week)| week.km.is_some())?.0;
    Some(row(&written, from))
}

/// The sentence of a week.
pub fn sentence(row: &Row) -> Option<Line> {
    let km = row.km?;
    let line = |says| {
        Line::new(Q6, says, Class::Health).with("from", Arg::Date(row.from)).with("km", Arg::Number(km, 0))
    };
    Some(match (row.more_km, row.more_share) {
        (None, _) => line("load-week-alone"),
        (Some(more), share) => {
            let says = match (more < 0.0, share) {
                (false, Some(_)) => "load-week-more",
                (true, Some(_)) => "load-week-less",
                (false, None) => "load-week-more-km",
                (true, None) => "load-week-less-km",
            };
            let line = line(says).with("more", Arg::Number(more.abs(), 0));
            share.map_or(line.clone(), |share| line.with("share", Arg::Share(share.abs())))
        }
    })
}

#[derive(Debug, Clone, Copy, Default)]
struct Week {
    km: Option<f64>,
    sessions: Option<u16>,
    minutes: Option<f64>,
    load: Option<f64>,
    effort: Option<f64>,
}

/// By its Monday. A whole week that somebody wrote down goes before the sum of single practices.
fn written(history: &History, on: Date) -> BTreeMap<Date, Week> {
    let mut weeks: BTreeMap<Date, Week> = BTreeMap::new();
    for session in history.water_sessions.iter().filter(|session| session.date <= on) {
        let week = weeks.entry(monday(session.date)).or_default();
        let add = |sum: &mut Option<f64>, value: Option<f64>| {
            if let Some(value) = value {
                *sum = Some(sum.unwrap_or(0.0) + value);
            }
        };
        add(&mut week.km, session.metres.map(|metres| metres / 1000.0));
        add(&mut week.minutes, session.minutes);
        add(
            &mut week.load,
            session.effort.zip(session.minutes).map(|(effort, minutes)| session_load(effort, minutes)),
        );
        week.sessions = Some(week.sessions.unwrap_or(0).saturating_add(1));
    }
    for week in weeks.values_mut() {
        week.effort = week.load.zip(week.minutes.filter(|minutes| 0.0 < *minutes)).map(|(load, m)| load / m);
    }
    // Two records of one week: the larger is used, since a large week is what asks.
    let mut whole: Vec<&WaterWeek> = history.water_weeks.iter().filter(|week| week.from <= on).collect();
    whole.sort_by(|one, other| one.km.total_cmp(&other.km));
    for week in whole {
        let slot = weeks.entry(week.from).or_default();
        let load = week.effort.zip(week.minutes).map(|(effort, minutes)| session_load(effort, minutes));
        *slot = Week {
            km: Some(week.km),
            sessions: week.sessions.or(slot.sessions),
            minutes: week.minutes.or(slot.minutes),
            effort: week.effort.or(slot.effort),
            load: load.or(slot.load),
        };
    }
    weeks
}

fn row(written: &BTreeMap<Date, Week>, from: Date) -> Row {
    let of = written.get(&from).copied().unwrap_or_default();
    let before = |weeks: i64| -> Vec<f64> {
        (1..=weeks)
            .filter_map(|back| from.checked_sub((7 * back).days()).ok())
            .filter_map(|monday| written.get(&monday).and_then(|week| week.km))
            .collect()
    };
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
    let three = before(BESIDE);
    // A week that nobody wrote down is unknown, so without all three there is no mean.
    let beside = (three.len() == BESIDE as usize).then(|| mean(&three));
    let usual = before(USUAL);
    let more_km = of.km.zip(beside).map(|(km, beside)| km - beside);
    let more_share = more_km
        .zip(beside)
        .and_then(|(more, beside)| (0.0 < beside && SMALL * mean(&usual) <= beside).then(|| more / beside));
    Row {
        from,
        km: of.km,
        sessions: of.sessions,
        minutes: of.minutes,
        effort: of.effort,
        load: of.load,
        more_km,
        more_share,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::{Experience, Sex, Swimmer, WaterSession};
    use jiff::civil::date;

    const MONDAY: Date = date(2026, 11, 23);

    fn history(km: &[Option<f64>]) -> History {
        let mut history = History::new(Swimmer {
            born: date(2010, 1, 1),
            sex: Sex::Male,
            experience: Experience::Trained,
            programme_started: None,
        });
        // The last is this week's.
        for (back, km) in km.iter().rev().enumerate() {
            if let Some(km) = km {
                let from = MONDAY.saturating_sub((7 * back as i64).days());
                history.water_weeks.push(WaterWeek::of(from, *km));
            }
        }
        history.in_order()
    }

    fn last(km: &[Option<f64>]) -> Row {
        newest(&history(km), MONDAY).expect("a week is written down")
    }

    #[test]
    fn a_week_is_set_beside_the_three_before() {
        // Source: evidence check load.acwr, weeks 18, 20, 22 and 27 km: uncoupled 1.35, said here as 7 km and 35 %.
        let row = last(&[Some(18.0), Some(20.0), Some(22.0), Some(27.0)]);
        assert_eq!(row.more_km, Some(7.0));
        assert!((row.more_share.expect("the weeks before are not small") - 0.35).abs() < 1e-12);
        assert_eq!(sentence(&row).expect("there is a week").says, "load-week-more");
    }

    #[test]
    fn a_gap_is_no_zero_and_small_weeks_are_not_divided_by() {
        let row = last(&[Some(18.0), None, Some(22.0), Some(27.0)]);
        assert_eq!((row.more_km, row.more_share), (None, None));
        let after_a_break = last(&[
            Some(30.0),
            Some(30.0),
            Some(30.0),
            Some(30.0),
            Some(30.0),
            Some(2.0),
            Some(2.0),
            Some(2.0),
            Some(20.0),
        ]);
        assert_eq!((after_a_break.more_km, after_a_break.more_share), (Some(18.0), None));
        let rows = table(&history(&[Some(18.0), None, Some(22.0)]), MONDAY, 3);
        assert_eq!(rows.iter().map(|row| row.km).collect::<Vec<_>>(), [Some(18.0), None, Some(22.0)]);
    }

    #[test]
    fn session_load_is_effort_times_minutes() {
        // Source: Foster 2001, J Strength Cond Res 15:109; evidence check load.srpe: 270, 840, 225, in all 1335.
        let mut history = history(&[]);
        for (day, effort, minutes) in [(0, 3.0, 90.0), (2, 7.0, 120.0), (4, 5.0, 45.0)] {
            history.water_sessions.push(WaterSession {
                date: MONDAY.saturating_add(i64::from(day).days()),
                metres: Some(3000.0),
                minutes: Some(minutes),
                effort: Some(effort),
            });
        }
        let row = newest(&history, date(2026, 11, 29)).expect("practices are written down");
        assert_eq!((row.load, row.km, row.sessions), (Some(1335.0), Some(9.0), Some(3)));
        assert!((row.effort.expect("there is effort") - 1335.0 / 255.0).abs() < 1e-12);
    }
}
