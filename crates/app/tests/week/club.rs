//! A small club with two squads, a deck, an adult and practices.

use app::desk::{Author, Desk, Draft};
use app::facts::*;
use app::moment::Moment;
use jiff::Timestamp;
use jiff::civil::{Date, Time, date};
use jiff::tz::TimeZone;
use store::{Store, SubjectId};
use uuid::Uuid;

pub(crate) const MONDAY: Date = date(2026, 3, 9);

pub(crate) fn day(step: i64) -> Date {
    MONDAY.saturating_add(jiff::Span::new().days(step))
}

pub(crate) fn clock(text: &str) -> Time {
    text.parse().unwrap()
}

pub(crate) fn zone() -> TimeZone {
    TimeZone::get("Europe/Amsterdam").unwrap()
}

/// So many minutes after Monday noon.
pub(crate) fn moment(minutes: i64) -> Moment {
    let noon: Timestamp = "2026-03-09T11:00:00Z".parse().unwrap();
    Moment::of(noon.checked_add(jiff::SignedDuration::from_mins(minutes)).unwrap(), &zone())
}

pub(crate) fn author() -> Author {
    Author { name: "Nadia Orr".into(), device: "test".into() }
}

pub(crate) fn swimmer(number: u128) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((9 << 100) + number))
}

pub(crate) fn record<T: Payload>(desk: &mut Desk, subject: SubjectId, fact: &T) {
    desk.record(&moment(0), &author(), subject, &[Draft::new(fact)]).unwrap();
}

pub(crate) fn club_fact<T: Payload>(desk: &mut Desk, fact: &T) {
    record(desk, SubjectId::CLUB, fact);
}

/// Squads practise 16:00 to 18:00 from Monday to Friday; the deck is theirs 12:00 to 20:00 every day but Sunday.
pub(crate) fn desk() -> Desk {
    let mut desk = Desk::new(Store::in_memory().unwrap(), trade::protocol::shipped().clone()).unwrap();
    club_fact(
        &mut desk,
        &ClubFact {
            name: "Invented".into(),
            zone: "Europe/Amsterdam".into(),
            units: Units::Metric,
            practitioner: "Nadia Orr".into(),
            practitioner_phone: String::new(),
            daily_practices: false,
        },
    );
    club_fact(&mut desk, &SeasonFact { start: date(2026, 1, 5) });
    for squad in ["Blue", "Green"] {
        let plan =
            SquadPlanFact { squad: squad.into(), sessions: 2, at_least: None, minutes: 40, teaching: false };
        club_fact(&mut desk, &plan);
        for weekday in 1..=5 {
            let practice = PracticeFact {
                squad: squad.into(),
                weekday,
                from: clock("16:00"),
                to: clock("18:00"),
                place: "Pool".into(),
            };
            club_fact(&mut desk, &practice);
        }
    }
    let hours = |days: std::ops::RangeInclusive<i8>| {
        days.map(|weekday| HoursWord { weekday, from: clock("12:00"), to: clock("20:00") })
            .collect::<Vec<_>>()
    };
    club_fact(
        &mut desk,
        &DeckHoursFact { place: "Deck".into(), hours: hours(1..=6), groups_at_once: 1, swimmers: None },
    );
    club_fact(&mut desk, &SupervisorFact { name: "Nadia Orr".into(), hours: hours(1..=6), ratio: None });
    for (number, squad) in [(1, "Blue"), (2, "Blue"), (3, "Green")] {
        let fact: SwimmerFact = serde_json::from_str(&format!(
            r#"{{"name":"Swimmer {number}","born":"2010-05-0{number}","sex":"female","squad":"{squad}","experience":"trained"}}"#
        ))
        .unwrap();
        record(&mut desk, swimmer(number), &fact);
    }
    desk
}

pub(crate) fn session(uid: &str, squad: &str, day: Date, from: &str, to: &str) -> DrylandFact {
    DrylandFact {
        uid: uid.into(),
        sequence: 0,
        squad: squad.into(),
        place: "Deck".into(),
        date: day,
        from: clock(from),
        to: clock(to),
        cancelled: false,
        overruled: None,
    }
}
