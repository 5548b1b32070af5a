//! Feeds, read back by a parser that is not ours: stable names, sequences, cancellations, times in UTC.

use app::facts::*;
use icalendar::parser::{Component, read_calendar, unfold};
use jiff::civil::date;
use store::SubjectId;

use crate::club::{author, clock, club_fact, day, desk, moment, session, swimmer};

const STAMP: &str = "2026-03-09T11:00:00Z";

/// Properties of every event, by name.
fn events(feed: &str) -> Vec<Vec<(String, String)>> {
    assert!(
        feed.ends_with("END:VCALENDAR\r\n") && !feed.replace("\r\n", "").contains('\n'),
        "lines end with CRLF"
    );
    assert!(feed.split("\r\n").all(|line| line.len() <= 75), "lines are folded");
    let unfolded = unfold(feed);
    let calendar = read_calendar(&unfolded).unwrap();
    let event = |component: &Component<'_>| {
        component
            .properties
            .iter()
            .map(|one| (one.name.to_string(), one.val.clone().unescape_text().to_string()))
            .collect()
    };
    calendar.components.iter().filter(|component| component.name == "VEVENT").map(event).collect()
}

fn value<'a>(event: &'a [(String, String)], name: &str) -> &'a str {
    event.iter().find(|(known, _)| known == name).map_or("", |(_, value)| value)
}

#[test]
fn a_session_keeps_its_name_through_a_move_and_a_cancellation() {
    let mut desk = desk();
    club_fact(
        &mut desk,
        &DrylandFact {
            place: "Deck; north, upper".into(),
            ..session("dryland-blue", "Blue", day(1), "18:00", "18:40")
        },
    );
    let stamp = STAMP.parse().unwrap();
    let first = events(&desk.squad_feed("Blue", stamp).unwrap());
    assert_eq!(first.len(), 1);
    let name = value(&first[0], "UID").to_owned();
    assert_eq!((value(&first[0], "SEQUENCE"), value(&first[0], "STATUS")), ("0", "CONFIRMED"));
    assert_eq!(value(&first[0], "DTSTART"), "20260310T170000Z", "18:00 in Amsterdam in winter");
    assert_eq!(value(&first[0], "LOCATION"), "Deck; north, upper");
    let kept = desk.club().timetable.dryland[0].clone();
    let moved = DrylandFact { sequence: 1, date: date(2026, 3, 31), ..kept.fact.clone() };
    let draft = app::desk::Draft::new(&moved).correcting(kept.id, "moved");
    desk.record(&moment(1), &author(), SubjectId::CLUB, &[draft]).unwrap();
    let second = events(&desk.squad_feed("Blue", stamp).unwrap());
    assert_eq!((value(&second[0], "UID"), value(&second[0], "SEQUENCE")), (name.as_str(), "1"));
    assert_eq!(value(&second[0], "DTSTART"), "20260331T160000Z", "the same hour, in summer");
    let draft = desk.cancel_session("dryland-blue").unwrap();
    desk.record(&moment(2), &author(), SubjectId::CLUB, &[draft]).unwrap();
    let third = events(&desk.squad_feed("Blue", stamp).unwrap());
    assert_eq!((value(&third[0], "UID"), value(&third[0], "SEQUENCE")), (name.as_str(), "2"));
    assert_eq!(value(&third[0], "STATUS"), "CANCELLED");
}

#[test]
fn a_person_is_told_what_that_person_does() {
    let mut desk = desk();
    club_fact(&mut desk, &session("a", "Blue", day(1), "18:00", "18:40"));
    club_fact(&mut desk, &session("b", "Green", day(1), "19:00", "19:40"));
    let gym = OtherTimeFact {
        what: "gym".into(),
        squads: vec![],
        swimmers: vec![swimmer(2).to_string()],
        weekday: Some(3),
        date: None,
        from: clock("07:00"),
        to: clock("08:00"),
        loads_shoulders: true,
    };
    club_fact(&mut desk, &gym);
    let meet = MeetFact {
        date: day(5),
        grade: GradeWord::B,
        name: Some("County".into()),
        last: Some(day(6)),
        starts: None,
        squads: vec!["Blue".into()],
        swimmers: vec![],
    };
    club_fact(&mut desk, &meet);
    let stamp = STAMP.parse().unwrap();
    let of = |number| events(&desk.person_feed(swimmer(number), stamp).unwrap());
    let state = |number| of(number).iter().map(|event| value(event, "STATUS").to_owned()).collect::<Vec<_>>();
    assert_eq!(state(1), ["CONFIRMED", "CONFIRMED"], "session and meet");
    assert_eq!(state(2), ["CANCELLED", "CONFIRMED"], "sits out for the gym on the day after");
    assert_eq!(state(3), ["CONFIRMED"], "the other squad has no meet");
    let whole_days = of(1).pop().unwrap();
    assert_eq!((value(&whole_days, "DTSTART"), value(&whole_days, "DTEND")), ("20260314", "20260316"));
}

#[test]
fn a_corrected_meet_is_the_same_event_later() {
    let mut desk = desk();
    let meet = |day| MeetFact {
        date: day,
        grade: GradeWord::C,
        name: Some("County".into()),
        last: None,
        starts: None,
        squads: vec![],
        swimmers: vec![],
    };
    club_fact(&mut desk, &meet(day(5)));
    let stamp = STAMP.parse().unwrap();
    let before = events(&desk.squad_feed("Blue", stamp).unwrap());
    let kept = desk.club().timetable.meets[0].id;
    let draft = app::desk::Draft::new(&meet(day(6))).correcting(kept, "a day later");
    desk.record(&moment(1), &author(), SubjectId::CLUB, &[draft]).unwrap();
    let after = events(&desk.squad_feed("Blue", stamp).unwrap());
    assert_eq!(value(&before[0], "UID"), value(&after[0], "UID"));
    assert_eq!((value(&before[0], "SEQUENCE"), value(&after[0], "SEQUENCE")), ("0", "1"));
}

#[test]
fn the_table_says_the_same() {
    let mut desk = desk();
    club_fact(&mut desk, &session("a", "=Blue", day(1), "18:00", "18:40"));
    let table = desk.timetable_csv();
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines[0], "squad,date,from,to,place,state,overruled_by,uid,sequence");
    assert_eq!(lines[1], "'=Blue,2026-03-10,18:00,18:40,Deck,planned,,a,0", "no cell is a formula");
}
