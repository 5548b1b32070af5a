//! Plan, closure, repair, wishes, overrides: what is recorded, and what is refused.

use app::error::ErrorKind;
use app::facts::*;
use app::week::act::{Standing, Wish, standing};
use schedule::week::plan::Answer;
use store::SubjectId;

use crate::club::{MONDAY, author, clock, club_fact, day, desk, moment, record, session, swimmer};

fn wish(squad: &str, step: i64, from: &str, to: &str) -> Wish {
    Wish { squad: squad.into(), place: "Deck".into(), date: day(step), from: clock(from), to: clock(to) }
}

#[test]
fn a_week_is_planned_adopted_and_sound() {
    let mut desk = desk();
    let stored = desk.week_of(MONDAY).unwrap();
    assert_eq!(stored.week.groups.len(), 2);
    let Standing::Unplanned(Answer::Plan(plan)) = standing(&stored) else { panic!("a plan") };
    assert_eq!(plan.sessions.len(), 4);
    let drafts = desk.adopt_plan(MONDAY, &stored.digest).unwrap();
    desk.record(&moment(1), &author(), SubjectId::CLUB, &drafts).unwrap();
    let after = desk.week_of(MONDAY).unwrap();
    assert!(matches!(standing(&after), Standing::Sound));
    assert_eq!(after.known.len(), 4);
    let again = desk.adopt_plan(MONDAY, &stored.digest).unwrap_err();
    assert_eq!((again.kind, again.says), (ErrorKind::Refused, "week-stale"));
}

#[test]
fn a_closure_breaks_two_sessions_and_two_moves_mend_it() {
    let mut desk = desk();
    for squad in ["Blue", "Green"] {
        let times = if squad == "Blue" { ("18:00", "18:40") } else { ("18:40", "19:20") };
        for step in [0, 2] {
            club_fact(&mut desk, &session(&format!("{squad}-{step}"), squad, day(step), times.0, times.1));
        }
    }
    assert!(matches!(standing(&desk.week_of(MONDAY).unwrap()), Standing::Sound));
    let closed =
        ClosureFact { place: "Deck".into(), from: day(2), to: day(2), between: None, why: "pump".into() };
    club_fact(&mut desk, &closed);
    let stored = desk.week_of(MONDAY).unwrap();
    let Standing::Broken(repair) = standing(&stored) else { panic!("broken") };
    assert_eq!((repair.broken.len(), repair.moves.len(), repair.kept.len()), (2, 2, 2));
    let drafts = desk.confirm_repair(MONDAY, &stored.digest).unwrap();
    desk.record(&moment(1), &author(), SubjectId::CLUB, &drafts).unwrap();
    let after = desk.week_of(MONDAY).unwrap();
    assert!(matches!(standing(&after), Standing::Sound));
    let moved: Vec<_> = desk.club().timetable.dryland.iter().filter(|kept| kept.fact.sequence == 1).collect();
    assert_eq!(moved.len(), 2, "the same sessions, one change later");
    assert!(moved.iter().all(|kept| kept.fact.uid.ends_with("-2") && kept.fact.date != day(2)));
}

#[test]
fn a_wish_before_the_water_is_refused_and_an_offer_is_taken() {
    let mut desk = desk();
    club_fact(&mut desk, &session("a", "Blue", day(1), "18:00", "18:40"));
    let asked = wish("Blue", 1, "15:20", "15:45");
    let stored = desk.week_of(MONDAY).unwrap();
    let (_, reply) = stored.reply(&asked, None).unwrap();
    assert!(!reply.is_granted() && reply.can_be_overruled);
    assert_eq!(reply.offers.len(), 3);
    let refused = desk.grant(MONDAY, &asked, None, None).unwrap_err();
    assert_eq!((refused.kind, refused.says), (ErrorKind::Refused, "week-not-granted"));
    let better = wish("Blue", 1, "18:05", "18:30");
    let draft = desk.grant(MONDAY, &better, None, None).unwrap();
    desk.record(&moment(1), &author(), SubjectId::CLUB, &[draft]).unwrap();
    let table = &desk.club().timetable;
    assert_eq!(table.dryland.len(), 1, "the known session moved");
    assert_eq!((table.dryland[0].fact.uid.as_str(), table.dryland[0].fact.from), ("a", clock("18:05")));
}

#[test]
fn an_override_is_kept_by_name_and_excludes_the_session_from_progression() {
    let mut desk = desk();
    let asked = wish("Blue", 1, "15:00", "15:40");
    let own = overruled();
    let draft = desk.grant(MONDAY, &asked, None, Some(own)).unwrap();
    desk.record(&moment(1), &author(), SubjectId::CLUB, &[draft]).unwrap();
    assert!(matches!(standing(&desk.week_of(MONDAY).unwrap()), Standing::Sound), "it stands as overruled");
    let held: SessionFact =
        serde_json::from_str(&format!(r#"{{"date":"{}","number":1,"context":"rested"}}"#, day(1))).unwrap();
    record(&mut desk, swimmer(1), &held);
    record(&mut desk, swimmer(3), &held);
    let excluded = |number| {
        let person = desk.person(swimmer(number)).unwrap();
        person.read.history.sessions[0].excluded.clone()
    };
    assert_eq!(excluded(1), Some(trade::history::Excluded::BeforeWaterOverride("film day".into())));
    assert_eq!(excluded(3), None, "the other squad's session is its own");
    let next_day = wish("Blue", 2, "15:00", "15:40");
    let own = overruled();
    let refused = desk.grant(MONDAY, &next_day, None, Some(own)).unwrap_err();
    assert_eq!(refused.says, "week-not-granted", "the free day cannot be overruled");
}

#[test]
fn practices_move_fall_out_and_rest_in_holidays() {
    let mut desk = desk();
    let change = PracticeChangeFact {
        squad: "Blue".into(),
        date: day(0),
        was: Some(clock("16:00")),
        now: Some(MovedWord { date: day(0), from: clock("19:00"), to: clock("20:00") }),
        why: "guests".into(),
    };
    club_fact(&mut desk, &change);
    club_fact(
        &mut desk,
        &ClosureFact { place: "Pool".into(), from: day(1), to: day(1), between: None, why: "pump".into() },
    );
    club_fact(&mut desk, &HolidayFact { name: "Break".into(), from: day(3), to: day(4), exams: false });
    let stored = desk.week_of(MONDAY).unwrap();
    let blue: Vec<String> =
        stored.week.water_of(0).into_iter().map(|(_, water)| water.span.to_string()).collect();
    let in_week: Vec<&String> =
        blue.iter().filter(|span| ("2026-03-09".."2026-03-16").contains(&&span[..10])).collect();
    assert_eq!(in_week, ["2026-03-09 19:00-20:00", "2026-03-11 16:00-18:00"]);
    assert_eq!(stored.fallen_out.len(), 6, "both squads on three days");
}

#[test]
fn a_meet_counts_as_it_counts_to_each_swimmer() {
    let mut desk = desk();
    let meet = MeetFact {
        date: day(5),
        grade: GradeWord::A,
        name: Some("County".into()),
        last: None,
        starts: None,
        squads: vec!["Blue".into()],
        swimmers: vec![
            SwimmerGrade { swimmer: swimmer(2).to_string(), grade: None },
            SwimmerGrade { swimmer: swimmer(3).to_string(), grade: Some(GradeWord::C) },
        ],
    };
    club_fact(&mut desk, &meet);
    let grades = |number| {
        let person = desk.person(swimmer(number)).unwrap();
        person.read.history.calendar.meets.iter().map(|meet| meet.grade).collect::<Vec<_>>()
    };
    use trade::history::Grade;
    assert_eq!((grades(1), grades(2), grades(3)), (vec![Grade::A], vec![], vec![Grade::C]));
    let stored = desk.week_of(MONDAY).unwrap();
    let Standing::Unplanned(Answer::Plan(plan)) = standing(&stored) else { panic!("a plan") };
    let count = |group| plan.sessions.iter().filter(|placed| placed.group == group).count();
    assert_eq!((count(0), count(1)), (1, 2), "one session in the last week before it, for its squad");
}

#[test]
fn bad_entries_are_refused_and_nothing_is_stored() {
    let mut desk = desk();
    let before = desk.store().counts().unwrap();
    for payload in [
        (
            "dryland",
            r#"{"uid":"x","sequence":0,"squad":"Blue","place":"Deck","date":"2026-03-10","from":"18:00:00","to":"17:00:00"}"#,
        ),
        ("closure", r#"{"place":" ","from":"2026-03-10","to":"2026-03-09","why":"x"}"#),
        ("squad-plan", r#"{"squad":"Blue","sessions":9,"minutes":2}"#),
        ("supervisor", r#"{"name":"N","hours":[{"weekday":8,"from":"18:00:00","to":"19:00:00"}]}"#),
        ("other-time", r#"{"what":"gym","from":"18:00:00","to":"19:00:00","loads_shoulders":true}"#),
        ("practice-change", r#"{"date":"2026-03-10"}"#),
    ] {
        let draft = app::desk::Draft {
            kind: Kind::from_word(payload.0).unwrap(),
            payload: payload.1.into(),
            corrects: None,
        };
        let refused = desk.record(&moment(1), &author(), SubjectId::CLUB, &[draft]).unwrap_err();
        assert!(!refused.problems.is_empty(), "{payload:?}");
    }
    assert_eq!(desk.store().counts().unwrap(), before);
}

#[test]
fn the_year_shows_what_the_rules_take_away() {
    let mut desk = desk();
    club_fact(
        &mut desk,
        &MeetFact {
            date: day(26),
            grade: GradeWord::B,
            name: Some("Town".into()),
            last: None,
            starts: None,
            squads: vec![],
            swimmers: vec![],
        },
    );
    let weeks = desk.season_of("Blue", day(0)).unwrap();
    assert_eq!(weeks[0].week.monday.to_string(), "2026-01-05");
    let meet_week = weeks.iter().find(|week| !week.meets.is_empty()).unwrap();
    assert_eq!((meet_week.week.sessions, meet_week.meets[0].1), (1, "B"));
}

fn overruled() -> OverruledWord {
    OverruledWord { by: "Nadia Orr".into(), reason: "film day".into() }
}
