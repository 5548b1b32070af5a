//! Calendars of others: the stated subset is read, the rest is refused with its line, twice changes nothing.

use app::facts::Kind;
use app::week::calendar_file::{As, Incoming, read};

use crate::club::{author, day, desk, moment, zone};

fn event(lines: &str) -> String {
    format!("BEGIN:VEVENT\nUID:u1\nSUMMARY:Swim\n{lines}END:VEVENT\n")
}

fn calendar(events: &str) -> String {
    format!("BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//x//EN\n{events}END:VCALENDAR\n").replace('\n', "\r\n")
}

fn practices(text: &str) -> Incoming {
    read(text, &As::Practices("Blue".into()), &zone(), day(0))
}

fn kinds(found: &Incoming) -> Vec<Kind> {
    assert_eq!(found.refused, vec![]);
    found.entries.iter().map(|entry| entry.draft.kind).collect()
}

const TIMES: &str =
    "DTSTART;TZID=Europe/Amsterdam:20260302T160000\nDTEND;TZID=Europe/Amsterdam:20260302T180000\n";

#[test]
fn weekly_practices_come_with_their_exceptions() {
    let rule = "RRULE:FREQ=WEEKLY;BYDAY=MO,WE\nEXDATE;TZID=Europe/Amsterdam:20260311T160000\n";
    let moved = "BEGIN:VEVENT\nUID:u1\nSUMMARY:Swim\nRECURRENCE-ID;TZID=Europe/Amsterdam:20260316T160000\nDTSTART:20260316T180000Z\nDURATION:PT90M\nEND:VEVENT\n";
    let found = practices(&calendar(&(event(&format!("{TIMES}{rule}")) + moved)));
    assert_eq!(kinds(&found), [Kind::Practice, Kind::Practice, Kind::PracticeChange, Kind::PracticeChange]);
    assert!(
        found.entries[3].draft.payload.contains("\"from\":\"19:00:00\""),
        "{}",
        found.entries[3].draft.payload
    );
}

#[test]
fn what_ends_is_written_out_and_what_is_over_is_left_out() {
    let found = practices(&calendar(&event(&format!("{TIMES}RRULE:FREQ=WEEKLY;COUNT=4\n"))));
    assert_eq!(kinds(&found), [Kind::PracticeChange; 4]);
    let long_ago = "DTSTART:20250302T160000\nDTEND:20250302T180000\n";
    assert_eq!(practices(&calendar(&event(long_ago))).refused[0].says, "calendar-empty");
    let loads = read(
        &calendar(&event(&format!("{TIMES}RRULE:FREQ=WEEKLY\n"))),
        &As::Loads("Blue".into()),
        &zone(),
        day(0),
    );
    assert_eq!(kinds(&loads), [Kind::OtherTime]);
}

#[test]
fn what_is_outside_the_subset_is_refused_with_its_line() {
    for (lines, says) in [
        (format!("{TIMES}RRULE:FREQ=MONTHLY\n"), "calendar-rule"),
        (format!("{TIMES}RDATE:20260310T160000\n"), "calendar-not-read"),
        (
            "DTSTART:20260310T160000Z\nDTEND:20260310T170000Z\nRRULE:FREQ=WEEKLY\n".to_owned(),
            "calendar-utc-rule",
        ),
        ("DTSTART;VALUE=DATE:20260310\nDTEND;VALUE=DATE:20260311\n".to_owned(), "calendar-whole-day"),
        ("DTSTART:20260310T160000\nDTEND:20260310T150000\n".to_owned(), "week-end-before-start"),
        (
            "DTSTART;TZID=Europe/Nowhere:20260310T160000\nDTEND:20260310T170000\n".to_owned(),
            "calendar-unknown-zone",
        ),
        ("DTSTART:20260310T160000\n".to_owned(), "calendar-no-end"),
        (
            "DTSTART:20260610T160000\nDTEND:20260610T170000\nRRULE:FREQ=WEEKLY\n".to_owned(),
            "calendar-begins-later",
        ),
    ] {
        let found = practices(&calendar(&event(&lines)));
        let refused: Vec<_> =
            found.refused.iter().map(|problem| (problem.path.as_str(), problem.says)).collect();
        assert_eq!(refused, [("4", says)], "{lines}");
    }
    assert_eq!(practices("BEGIN:VCALENDAR\nnonsense").refused[0].says, "calendar-unreadable");
}

#[test]
fn a_table_is_read_and_ten_thousand_events_are_not() {
    let found = practices("squad,day,from,to\nBlue,Mon-Wed,16:00,18:00\n,2026-03-14,9.00,11.00\n");
    assert_eq!(kinds(&found), [Kind::Practice, Kind::Practice, Kind::Practice, Kind::PracticeChange]);
    let says = |text: &str| {
        practices(text).refused.into_iter().map(|problem| (problem.path, problem.says)).collect::<Vec<_>>()
    };
    let at = |line: &str, says| (line.to_owned(), says);
    assert_eq!(says("squad,from,to\nBlue,16:00,18:00\n"), [at("1", "calendar-no-column")]);
    assert_eq!(
        says("squad,day,from,to\nBlue,Mon,16:00,15:00\nBlue,Moon,16:00,17:00\nBlue,Mon,x,17:00\n"),
        [at("2", "week-end-before-start"), at("3", "calendar-bad-day"), at("4", "calendar-bad-time")]
    );
    assert_eq!(
        says("squad,day,from,to\nBlue,Mon,16:00,18:00\nBlue,Mon,17:00,19:00\n"),
        [at("3", "calendar-overlap")]
    );
    let many = event("DTSTART:20260310T160000\nDTEND:20260310T170000\n").repeat(10_000);
    let mut desk = desk();
    let before = desk.store().counts().unwrap();
    let incoming = practices(&calendar(&many));
    assert_eq!((incoming.entries.len(), incoming.refused[0].says), (0, "calendar-too-many"));
    assert!(desk.bring_in_calendar(&moment(1), &author(), &incoming).is_err());
    let rows = "Blue,Mon,16:00,18:00\n".repeat(10_000);
    assert_eq!(says(&format!("squad,day,from,to\n{rows}")), [at("", "calendar-too-many")]);
    assert_eq!(desk.store().counts().unwrap(), before);
}

#[test]
fn the_same_file_twice_changes_nothing_and_an_edited_one_corrects() {
    let mut desk = desk();
    let text = |to: &str| format!("squad,day,from,to\nRed,Mon,16:00,{to}\nRed,2026-03-14,09:00,11:00\n");
    let mut bring =
        |text: &str, minutes| desk.bring_in_calendar(&moment(minutes), &author(), &practices(text)).unwrap();
    let first = bring(&text("18:00"), 1);
    assert_eq!((first.added, first.changed, first.unchanged), (2, 0, 0));
    let again = bring(&text("18:00"), 2);
    assert_eq!((again.added, again.changed, again.unchanged), (0, 0, 2));
    let edited = bring(&text("18:30"), 3);
    assert_eq!((edited.added, edited.changed, edited.unchanged), (0, 1, 1));
    assert!(desk.squads(day(0)).contains(&"Red".to_owned()));
}
