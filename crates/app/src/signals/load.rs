//! The load in plain numbers: kilometres this week, the change from the last in kilometres and in words. No ratio of a
//! short to a long mean: it says little more than its numerator, and no steering by it has been shown to help.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};
use store::SubjectId;

use crate::desk::{Desk, Person};

/// How a week stands to the one before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// More, by so many percent.
    More(f64),
    /// Less, by so many percent.
    Less(f64),
    /// Within a tenth.
    Alike,
    /// The earlier weeks are too few or too light for a percentage to mean anything.
    NotCompared,
    /// One of the two weeks is not on record.
    NotRecorded,
}

/// One swimmer's weeks.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Whose.
    pub subject: SubjectId,
    /// Kilometres of the last four weeks, oldest first; nothing where a week is not on record.
    pub weeks: [Option<f64>; 4],
    /// Change of the last full week in kilometres.
    pub change_km: Option<f64>,
    /// The same in words.
    pub change: Change,
}

/// Share of the eight-week mean below which three weeks are too light to compare with.
const TOO_LIGHT: f64 = 0.3;
/// Change that counts as none: a tenth.
const ALIKE: f64 = 0.1;

/// The load of everybody in the last four weeks before a day; the running week is left out.
pub fn load(desk: &Desk, on: Date) -> Vec<Load> {
    desk.squad_on(on).map(|person| of(person, on)).collect()
}

fn of(person: &Person, on: Date) -> Load {
    let monday = monday_of(on);
    let km = |back: i32| {
        let from = monday.saturating_sub((7 * back).days());
        let of_week = person.read.history.water_weeks.iter().filter(|week| monday_of(week.from) == from);
        let found: Vec<f64> = of_week.map(|week| week.km).collect();
        (!found.is_empty()).then(|| found.iter().sum::<f64>())
    };
    let weeks = [km(4), km(3), km(2), km(1)];
    let known = |weeks: &[Option<f64>]| {
        let known: Vec<f64> = weeks.iter().flatten().copied().collect();
        (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
    };
    let eight: Vec<Option<f64>> = (1..=8).map(km).collect();
    let change = match (weeks[3], weeks[2]) {
        (Some(now), Some(before)) => {
            let (three, eight) = (known(&weeks[..3]), known(&eight));
            let light = three.zip(eight).is_some_and(|(three, eight)| three < TOO_LIGHT * eight);
            let share = (now - before) / before;
            if light || before <= 0.0 {
                Change::NotCompared
            } else if share.abs() <= ALIKE {
                Change::Alike
            } else if 0.0 < share {
                Change::More(100.0 * share)
            } else {
                Change::Less(-100.0 * share)
            }
        }
        _ => Change::NotRecorded,
    };
    let change_km = weeks[3].zip(weeks[2]).map(|(now, before)| now - before);
    Load { subject: person.subject, weeks, change_km, change }
}

fn monday_of(day: Date) -> Date {
    if day.weekday() == Weekday::Monday {
        day
    } else {
        day.saturating_sub(i32::from(day.weekday().to_monday_zero_offset()).days())
    }
}
