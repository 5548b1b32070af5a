//! The demo club's timetable: deck hours, adults, what squads want, and a week in which the pool closes on Friday.

use jiff::ToSpan;
use jiff::civil::{Date, Time, date, time};

use super::cast::Squad;
use super::days::{BOOKS_OPEN, DAY};
use super::diary::{Diary, Hand};
use crate::facts::{
    ClosureFact, DeckHoursFact, DrylandFact, HolidayFact, HoursWord, MovedWord, OtherTimeFact,
    PracticeChangeFact, SquadPlanFact, SupervisorFact,
};

/// The club's pool, with the deck beside it.
pub(super) const POOL: &str = "Pool";
/// The hall upstairs.
const HALL: &str = "Hall";
/// Mondays of the weeks whose sessions people know of.
const WEEKS: [Date; 3] = [date(2026, 11, 16), date(2026, 11, 23), date(2026, 11, 30)];

/// Tells the timetable.
pub(super) fn tell(diary: &mut Diary<'_>) {
    diary.at(BOOKS_OPEN, 9 * 60);
    let hours = |days: &[i8], from: Time, to: Time| -> Vec<HoursWord> {
        days.iter().map(|weekday| HoursWord { weekday: *weekday, from, to }).collect()
    };
    let weekdays = [1, 2, 3, 4, 5];
    let (late, evening) = (time(17, 30, 0, 0), time(20, 45, 0, 0));
    let saturday = hours(&[6], time(10, 0, 0, 0), time(12, 0, 0, 0));
    let deck = |place: &str, hours: Vec<HoursWord>| DeckHoursFact {
        place: place.to_owned(),
        hours,
        groups_at_once: 1,
        swimmers: None,
    };
    let beside_pool = [hours(&weekdays, late, evening), saturday.clone()].concat();
    diary.write(Hand::Office, &deck(POOL, beside_pool));
    diary.write(Hand::Office, &deck(HALL, hours(&[2, 3, 4], time(7, 0, 0, 0), time(14, 0, 0, 0))));
    for (name, days) in [(Hand::Practitioner.name(), &[1, 3, 5][..]), (Hand::Deck.name(), &weekdays[..])] {
        let own = [hours(days, late, evening), saturday.clone()].concat();
        let who = SupervisorFact { name: name.to_owned(), hours: own, ratio: None };
        diary.write(Hand::Practitioner, &who);
    }
    let mornings = hours(&[2, 3, 4], time(9, 0, 0, 0), time(13, 0, 0, 0));
    diary.write(
        Hand::Practitioner,
        &SupervisorFact { name: "Ilmari Suvanne".to_owned(), hours: mornings, ratio: None },
    );
    for squad in Squad::ALL {
        let (sessions, minutes) = if squad == Squad::Juniors { (2, 30) } else { (3, 35) };
        let plan = SquadPlanFact {
            squad: squad.name().to_owned(),
            sessions,
            at_least: Some(2),
            minutes,
            teaching: false,
        };
        diary.write(Hand::Practitioner, &plan);
    }
    for weekday in weekdays {
        let school = OtherTimeFact {
            what: "School".to_owned(),
            squads: vec![Squad::Juniors.name().to_owned(), Squad::Youth.name().to_owned()],
            swimmers: Vec::new(),
            weekday: Some(weekday),
            date: None,
            from: time(8, 15, 0, 0),
            to: time(15, 0, 0, 0),
            loads_shoulders: false,
        };
        diary.write(Hand::Office, &school);
    }
    let winter = HolidayFact {
        name: "Midwinter break".to_owned(),
        from: date(2026, 12, 21),
        to: date(2026, 12, 26),
        exams: false,
    };
    diary.write(Hand::Office, &winter);
    sessions(diary);
    this_week(diary);
}

/// Sessions right after practice on Mondays, Wednesdays and Fridays, as they are told to everybody.
fn sessions(diary: &mut Diary<'_>) {
    diary.at(date(2026, 11, 8), 19 * 60);
    for monday in WEEKS {
        for squad in Squad::ALL {
            let days: &[i64] = if squad == Squad::Juniors { &[0, 2] } else { &[0, 2, 4] };
            for day in days {
                let date = monday.saturating_add(day.days());
                let minutes: i64 = if squad == Squad::Juniors { 30 } else { 35 };
                let from = midnight_and(i64::from(squad.dryland_from()));
                let fact = DrylandFact {
                    uid: format!("dryland-{}-{date}", squad.name().to_lowercase()),
                    sequence: 0,
                    squad: squad.name().to_owned(),
                    place: POOL.to_owned(),
                    date,
                    from,
                    to: midnight_and(i64::from(squad.dryland_from()) + minutes),
                    cancelled: false,
                    overruled: None,
                };
                diary.write(Hand::Practitioner, &fact);
            }
        }
    }
}

fn midnight_and(minutes: i64) -> Time {
    Time::midnight().wrapping_add(minutes.minutes())
}

/// What differs this week: today's practice is moved to 16:00, and the pool closes on Friday.
fn this_week(diary: &mut Diary<'_>) {
    diary.at(DAY, 7 * 60 + 20);
    let moved = PracticeChangeFact {
        squad: Squad::Performance.name().to_owned(),
        date: DAY,
        was: Some(time(17, 45, 0, 0)),
        now: Some(MovedWord { date: DAY, from: time(16, 0, 0, 0), to: time(17, 55, 0, 0) }),
        why: "water polo has the evening".to_owned(),
    };
    diary.write(Hand::Office, &moved);
    let friday = date(2026, 11, 27);
    let closed = ClosureFact {
        place: POOL.to_owned(),
        from: friday,
        to: friday,
        between: None,
        why: "the filter pump is being replaced".to_owned(),
    };
    diary.write(Hand::Office, &closed);
}
