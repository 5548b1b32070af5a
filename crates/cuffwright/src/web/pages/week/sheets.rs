//! What can be entered by hand, as data: one sheet for each kind of entry.

use app::desk::{Desk, Draft};
use app::facts::{
    ClosureFact, DeckHoursFact, GradeWord, HolidayFact, HoursWord, MeetFact, MovedWord, OtherTimeFact,
    PracticeChangeFact, PracticeFact, SquadPlanFact, SupervisorFact,
};
use jiff::civil::Time;
use schedule::describe::clock;

use crate::web::pages::record::take::Taking;
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::words::text;

/// One kind of entry.
pub struct Sheet {
    /// In the address.
    pub word: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// What it asks.
    pub asks: fn(&Desk) -> Vec<Ask>,
    /// What it makes of the answers; what is wrong stands in the taking.
    pub take: fn(&mut Taking<'_>) -> Option<Vec<Draft>>,
}

/// Every kind, the commonest first.
pub const SHEETS: &[Sheet] = &[
    Sheet { word: "closure", title: "week-sheet-closure", asks: closure_asks, take: closure },
    Sheet { word: "change", title: "week-sheet-change", asks: change_asks, take: change },
    Sheet { word: "practice", title: "week-sheet-practice", asks: practice_asks, take: practice },
    Sheet { word: "meet", title: "week-sheet-meet", asks: meet_asks, take: meet },
    Sheet { word: "other", title: "week-sheet-other", asks: other_asks, take: other },
    Sheet { word: "deck", title: "week-sheet-deck", asks: deck_asks, take: deck },
    Sheet { word: "supervisor", title: "week-sheet-supervisor", asks: supervisor_asks, take: supervisor },
    Sheet { word: "plan", title: "week-sheet-plan", asks: plan_asks, take: plan },
    Sheet { word: "holiday", title: "week-sheet-holiday", asks: holiday_asks, take: holiday },
];

/// The sheet of an address.
pub fn find(word: &str) -> Option<&'static Sheet> {
    SHEETS.iter().find(|sheet| sheet.word == word)
}

fn named(list: impl Iterator<Item = String>, all: bool) -> Vec<(String, String)> {
    let mut options: Vec<(String, String)> =
        if all { vec![(String::new(), text("week-all"))] } else { Vec::new() };
    options.extend(list.map(|name| (name.clone(), name)));
    options
}

fn squads(desk: &Desk, all: bool) -> Control {
    // Everybody's squad, whoever has left since: an entry may be about the past as well.
    Control::Pick(named(desk.squads(jiff::civil::Date::MIN).into_iter(), all))
}

fn weekdays() -> Ask {
    const DAYS: [(&str, &str); 7] = [
        ("1", "weekday-1"),
        ("2", "weekday-2"),
        ("3", "weekday-3"),
        ("4", "weekday-4"),
        ("5", "weekday-5"),
        ("6", "weekday-6"),
        ("7", "weekday-7"),
    ];
    let options = DAYS.map(|(value, words)| (value.to_owned(), text(words))).to_vec();
    let group = Group { heading: String::new(), then: String::new(), word: "days", options };
    Ask::new("days", "week-ask-days", Control::Several(vec![group]))
}

fn from() -> Ask {
    Ask::new("from", "week-ask-from", Control::Line).hint("week-ask-time-hint").needed()
}

fn to() -> Ask {
    Ask::new("to", "week-ask-to", Control::Line).hint("week-ask-time-hint").needed()
}

/// A time of day that must be given.
fn time(taking: &mut Taking<'_>, name: &str) -> Option<Time> {
    let words = taking.words(name)?;
    let read = clock(&words);
    if read.is_none() {
        taking.wrong(name, text("week-not-a-time"));
    }
    read
}

/// A time of day that may stay empty. Outer none: it cannot be read.
fn time_or_none(taking: &mut Taking<'_>, name: &str) -> Option<Option<Time>> {
    if taking.sent().one(name).is_empty() { Some(None) } else { time(taking, name).map(Some) }
}

/// Both times of one entry, in order.
fn both(taking: &mut Taking<'_>) -> Option<(Time, Time)> {
    let (from, to) = (time(taking, "from"), time(taking, "to"));
    let (from, to) = (from?, to?);
    if to <= from {
        taking.wrong("to", text("week-ends-first"));
        return None;
    }
    Some((from, to))
}

fn days(taking: &mut Taking<'_>) -> Option<Vec<i8>> {
    let days: Vec<i8> = taking.sent().all("days").filter_map(|day| day.parse().ok()).collect();
    if days.is_empty() {
        taking.wrong("days", text("take-needed"));
        return None;
    }
    Some(days)
}

/// The first and last day of an entry, in order.
fn stretch(taking: &mut Taking<'_>) -> Option<(jiff::civil::Date, jiff::civil::Date)> {
    let first = taking.day("first");
    let last = taking.day_or_none("last");
    let (first, last) = (first?, last?.or(first)?);
    if last < first {
        taking.wrong("last", text("week-ends-first"));
        return None;
    }
    Some((first, last))
}

fn squad(taking: &Taking<'_>) -> String {
    taking.sent().one("squad").to_owned()
}

fn closure_asks(desk: &Desk) -> Vec<Ask> {
    let table = &desk.club().timetable;
    let mut places: Vec<String> = table
        .deck
        .iter()
        .map(|kept| kept.fact.place.clone())
        .chain(table.practices.iter().map(|kept| kept.fact.place.clone()))
        .filter(|place| !place.is_empty())
        .collect();
    places.sort();
    places.dedup();
    vec![
        Ask::new("place", "week-ask-place", Control::Pick(named(places.into_iter(), false))).needed(),
        Ask::new("first", "week-ask-first", Control::Day).needed(),
        Ask::new("last", "week-ask-last", Control::Day).hint("week-ask-last-hint"),
        Ask::new("why", "week-ask-why", Control::Line).needed(),
    ]
}

fn closure(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (place, days, why) = (taking.words("place"), stretch(taking), taking.words("why"));
    let (from, to) = days?;
    Some(vec![Draft::new(&ClosureFact { place: place?, from, to, between: None, why: why? })])
}

fn change_asks(desk: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("squad", "week-ask-squad", squads(desk, true)),
        Ask::new("date", "week-ask-change-day", Control::Day).needed(),
        Ask::new("was", "week-ask-was", Control::Line).hint("week-ask-was-hint"),
        Ask::new("now", "week-ask-now-day", Control::Day).hint("week-ask-now-hint"),
        Ask::new("from", "week-ask-from", Control::Line).hint("week-ask-time-hint"),
        Ask::new("to", "week-ask-to", Control::Line).hint("week-ask-time-hint"),
        Ask::new("why", "week-ask-why", Control::Line).needed(),
    ]
}

fn change(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (date, was, why) = (taking.day("date"), time_or_none(taking, "was"), taking.words("why"));
    let now_day = taking.day_or_none("now")?;
    let has_times = !taking.sent().one("from").is_empty() || !taking.sent().one("to").is_empty();
    let now = if has_times {
        let (from, to) = both(taking)?;
        Some(MovedWord { date: now_day.or(date)?, from, to })
    } else {
        None
    };
    let was = was?;
    if was.is_none() && now.is_none() {
        taking.wrong("was", text("week-change-nothing"));
        return None;
    }
    Some(vec![Draft::new(&PracticeChangeFact { squad: squad(taking), date: date?, was, now, why: why? })])
}

fn practice_asks(_: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("squad", "week-ask-squad", Control::Line).needed(),
        weekdays(),
        from(),
        to(),
        Ask::new("place", "week-ask-pool", Control::Line),
    ]
}

fn practice(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (squad, days, times) = (taking.words("squad"), days(taking), both(taking));
    let (squad, (from, to)) = (squad?, times?);
    let place = taking.sent().one("place").to_owned();
    let one =
        |weekday| Draft::new(&PracticeFact { squad: squad.clone(), weekday, from, to, place: place.clone() });
    Some(days?.into_iter().map(one).collect())
}

fn meet_asks(desk: &Desk) -> Vec<Ask> {
    let grades = ["A", "B", "C"]
        .map(|grade| (grade.to_owned(), text(&format!("week-grade-{}", grade.to_lowercase()))));
    vec![
        Ask::new("name", "week-ask-name", Control::Line).needed(),
        Ask::new("grade", "week-ask-grade", Control::One(grades.to_vec())).needed(),
        Ask::new("squad", "week-ask-squad", squads(desk, true)),
        Ask::new("first", "week-ask-first", Control::Day).needed(),
        Ask::new("last", "week-ask-last", Control::Day).hint("week-ask-last-hint"),
        Ask::new("starts", "week-ask-starts", Control::Line).hint("week-ask-time-hint"),
    ]
}

fn meet(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (name, grade, days) = (taking.words("name"), taking.words("grade"), stretch(taking));
    let starts = time_or_none(taking, "starts")?;
    let grade = match grade?.as_str() {
        "A" => GradeWord::A,
        "B" => GradeWord::B,
        "C" => GradeWord::C,
        _ => return None,
    };
    let (date, last) = days?;
    let squad = squad(taking);
    Some(vec![Draft::new(&MeetFact {
        date,
        grade,
        name: Some(name?),
        last: (last != date).then_some(last),
        starts,
        squads: if squad.is_empty() { Vec::new() } else { vec![squad] },
        swimmers: Vec::new(),
    })])
}

fn other_asks(desk: &Desk) -> Vec<Ask> {
    let kinds = vec![
        ("elsewhere".to_owned(), text("week-other-elsewhere")),
        ("load".to_owned(), text("week-other-load")),
    ];
    vec![
        Ask::new("what", "week-ask-name", Control::Line).needed(),
        Ask::new("kind", "week-ask-kind", Control::One(kinds)).needed(),
        Ask::new("squad", "week-ask-squad", squads(desk, true)),
        weekdays(),
        from(),
        to(),
    ]
}

fn other(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (what, kind, days, times) = (taking.words("what"), taking.words("kind"), days(taking), both(taking));
    let (what, kind, (from, to)) = (what?, kind?, times?);
    let squad = squad(taking);
    let squads: Vec<String> = if squad.is_empty() { Vec::new() } else { vec![squad] };
    let one = |weekday| {
        Draft::new(&OtherTimeFact {
            what: what.clone(),
            squads: squads.clone(),
            swimmers: Vec::new(),
            weekday: Some(weekday),
            date: None,
            from,
            to,
            loads_shoulders: kind == "load",
        })
    };
    Some(days?.into_iter().map(one).collect())
}

fn hours(taking: &mut Taking<'_>) -> Option<Vec<HoursWord>> {
    let (days, times) = (days(taking), both(taking));
    let (from, to) = times?;
    Some(days?.into_iter().map(|weekday| HoursWord { weekday, from, to }).collect())
}

fn deck_asks(_: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("place", "week-ask-place", Control::Line).needed(),
        weekdays(),
        from(),
        to(),
        Ask::new("groups", "week-ask-at-once", Control::Number),
    ]
}

fn deck(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (place, hours) = (taking.words("place"), hours(taking));
    let groups_at_once = taking.whole_or_none::<u8>("groups").unwrap_or(1).max(1);
    Some(vec![Draft::new(&DeckHoursFact { place: place?, hours: hours?, groups_at_once, swimmers: None })])
}

fn supervisor_asks(_: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("name", "week-ask-who", Control::Line).needed(),
        weekdays(),
        from(),
        to(),
        Ask::new("ratio", "week-ask-ratio", Control::Number).hint("week-ask-ratio-hint"),
    ]
}

fn supervisor(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (name, hours) = (taking.words("name"), hours(taking));
    let ratio = taking.whole_or_none::<u8>("ratio");
    Some(vec![Draft::new(&SupervisorFact { name: name?, hours: hours?, ratio })])
}

fn plan_asks(desk: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("squad", "week-ask-squad", squads(desk, false)).needed(),
        Ask::new("sessions", "week-ask-sessions", Control::Number).needed(),
        Ask::new("least", "week-ask-least", Control::Number),
        Ask::new("minutes", "week-ask-minutes", Control::Number).needed(),
        Ask::new("teaching", "week-ask-teaching", Control::Tick),
    ]
}

fn plan(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let squad = taking.words("squad");
    let mut whole = |name: &str| {
        taking.words(name)?;
        taking.whole_or_none::<u16>(name)
    };
    let (sessions, minutes) = (whole("sessions"), whole("minutes"));
    let at_least = taking.whole_or_none::<u8>("least");
    let teaching = taking.sent().has("teaching", "yes");
    let sessions = u8::try_from(sessions?).unwrap_or(u8::MAX);
    Some(vec![Draft::new(&SquadPlanFact { squad: squad?, sessions, at_least, minutes: minutes?, teaching })])
}

fn holiday_asks(_: &Desk) -> Vec<Ask> {
    vec![
        Ask::new("name", "week-ask-name", Control::Line).needed(),
        Ask::new("first", "week-ask-first", Control::Day).needed(),
        Ask::new("last", "week-ask-last", Control::Day).hint("week-ask-last-hint"),
        Ask::new("exams", "week-ask-exams", Control::Tick),
    ]
}

fn holiday(taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (name, days) = (taking.words("name"), stretch(taking));
    let (from, to) = days?;
    let exams = taking.sent().has("exams", "yes");
    Some(vec![Draft::new(&HolidayFact { name: name?, from, to, exams })])
}
