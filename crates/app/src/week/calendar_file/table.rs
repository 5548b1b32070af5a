//! A timetable as a table: squad, day, from, to, and what it is; one line a practice.

use schedule::describe::{clock, date, weekdays};

use super::{As, Entry, Incoming, MOST_EVENTS, other};
use crate::desk::Draft;
use crate::facts::{MovedWord, PracticeChangeFact, PracticeFact, Problem};

/// Columns by what people call them.
const COLUMNS: [(&str, &[&str]); 6] = [
    ("squad", &["squad", "group", "team"]),
    ("day", &["day", "weekday", "date", "days"]),
    ("from", &["from", "start", "begin", "starts"]),
    ("to", &["to", "end", "until", "ends"]),
    ("place", &["place", "pool", "location", "where"]),
    ("what", &["what", "name", "summary", "title"]),
];

pub(super) fn read(text: &str, what: &As) -> Incoming {
    let mut found = Incoming::default();
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let delimiter =
        [b';', b'\t', b','].into_iter().max_by_key(|mark| first.bytes().filter(|byte| byte == mark).count());
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .delimiter(delimiter.unwrap_or(b','))
        .from_reader(text.as_bytes());
    let mut columns: Option<Vec<Option<usize>>> = None;
    for (count, record) in reader.records().enumerate() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                found.refused.push(Problem::at("", "calendar-unreadable").with("detail", error));
                return found;
            }
        };
        if MOST_EVENTS < count {
            found.entries.clear();
            found.refused =
                vec![Problem::at("", "calendar-too-many").with("count", count).with("most", MOST_EVENTS)];
            return found;
        }
        let line = record.position().map_or(0, csv::Position::line);
        match &columns {
            None => {
                let plain = |cell: &str| cell.to_lowercase();
                let places: Vec<Option<usize>> = COLUMNS
                    .iter()
                    .map(|(_, names)| record.iter().position(|cell| names.contains(&plain(cell).as_str())))
                    .collect();
                for (at, needed) in [(1, "day"), (2, "from"), (3, "to")] {
                    if places[at].is_none() {
                        found
                            .refused
                            .push(Problem::at(line.to_string(), "calendar-no-column").with("column", needed));
                    }
                }
                if !found.refused.is_empty() {
                    return found;
                }
                columns = Some(places);
            }
            Some(columns) => row(&record, columns, line, what, &mut found),
        }
    }
    if columns.is_none() || (found.entries.is_empty() && found.refused.is_empty()) {
        found.refused.push(Problem::at("", "calendar-empty"));
    }
    found
}

fn row(record: &csv::StringRecord, columns: &[Option<usize>], line: u64, what: &As, found: &mut Incoming) {
    let cell = |at: usize| columns[at].and_then(|column| record.get(column)).unwrap_or("");
    if record.iter().all(str::is_empty) {
        return;
    }
    let mut wrong =
        |says, value: &str| found.refused.push(Problem::at(line.to_string(), says).with("value", value));
    let (Some(from), Some(to)) = (clock(cell(2)), clock(cell(3))) else {
        let value = if clock(cell(2)).is_none() { cell(2) } else { cell(3) };
        return wrong("calendar-bad-time", value);
    };
    if to <= from {
        let problem =
            Problem::at(line.to_string(), "week-end-before-start").with("from", from).with("to", to);
        return found.refused.push(problem);
    }
    let squad = match (cell(0), what) {
        ("", As::Practices(squad) | As::Loads(squad) | As::Elsewhere(squad)) => squad.clone(),
        (squad, _) => squad.to_owned(),
    };
    let name = if cell(5).is_empty() { squad.clone() } else { cell(5).to_owned() };
    let line = usize::try_from(line).unwrap_or(usize::MAX);
    let times = format!("{}-{}", from.strftime("%H:%M"), to.strftime("%H:%M"));
    let texts = crate::text::Texts::english();
    let entry = |day: String, draft: Draft, words: String| Entry {
        line,
        key: format!("table {squad} {day} {from} {name}"),
        draft,
        words,
    };
    if let Some(day) = date(cell(1)) {
        let draft = match what {
            As::Practices(_) => Draft::new(&PracticeChangeFact {
                squad: squad.clone(),
                date: day,
                was: None,
                now: Some(MovedWord { date: day, from, to }),
                why: name.clone(),
            }),
            _ => Draft::new(&other(what, &name, &squad, None, Some(day), (from, to))),
        };
        let words = format!("{name}: {} {times}", crate::week::say::short_day(day));
        found.entries.push(entry(day.to_string(), draft, words));
        return;
    }
    let Some(days) = weekdays(cell(1)) else {
        let value = cell(1).to_owned();
        return found.refused.push(Problem::at(line.to_string(), "calendar-bad-day").with("value", value));
    };
    for weekday in days {
        let draft = match what {
            As::Practices(_) => {
                let place = cell(4).to_owned();
                Draft::new(&PracticeFact { squad: squad.clone(), weekday, from, to, place })
            }
            _ => Draft::new(&other(what, &name, &squad, Some(weekday), None, (from, to))),
        };
        let words = format!("{name}: {} {times}", texts.word(&format!("weekday-{weekday}")));
        found.entries.push(entry(weekday.to_string(), draft, words));
    }
}
