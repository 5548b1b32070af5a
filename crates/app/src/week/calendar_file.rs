//! Calendars of others as a preview: iCalendar and CSV, read into practices, other times and loads.
//!
//! Of recurrence rules a stated subset is read: weekly by days with interval, count or end, and daily; exceptions by
//! EXDATE and moved instances by RECURRENCE-ID. Everything else is refused with its line, and nothing of a file is
//! stored while anything of it is refused.

mod recurrence;
mod table;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;
use store::{Correction, FactId, ImportStep, NewFact, SubjectId};

use crate::desk::{Author, Desk, Draft, payload_of};
use crate::error::{AppError, ErrorKind};
use crate::facts::{MovedWord, OtherTimeFact, PracticeChangeFact, PracticeFact, Problem};
use crate::moment::Moment;
use recurrence::{Every, Rule};

/// Most events of one file. A calendar with more is cut down first, by whoever knows it.
pub const MOST_EVENTS: usize = 2_000;
/// Most dates one event may stand for.
const MOST_DATES: usize = 400;
/// How far ahead dates are taken, in days.
const AHEAD: i64 = 400;
/// How far back, in days: what is over changes nothing.
const BACK: i64 = 7;

/// What the events of a file are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum As {
    /// Water practices of a squad; of all when empty.
    Practices(String),
    /// Other loads on the shoulders of a squad.
    Loads(String),
    /// Times at which a squad is elsewhere.
    Elsewhere(String),
}

/// One entry that the file would make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Line of the file.
    pub line: usize,
    /// Tells it from every other, so that the same file twice changes nothing.
    pub key: String,
    /// The fact.
    pub draft: Draft,
    /// In words.
    pub words: String,
}

/// A file, read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Incoming {
    /// What it would make.
    pub entries: Vec<Entry>,
    /// What is refused; paths are line numbers.
    pub refused: Vec<Problem>,
}

/// What an import did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Done {
    /// Entries added.
    pub added: usize,
    /// Entries changed.
    pub changed: usize,
    /// Entries that were on record already.
    pub unchanged: usize,
}

/// Reads a file: iCalendar when it looks like one, else a table.
pub fn read(text: &str, what: &As, zone: &TimeZone, today: Date) -> Incoming {
    let text = text.trim_start_matches('\u{feff}');
    let mut found = if text.trim_start().to_ascii_uppercase().starts_with("BEGIN:VCALENDAR") {
        calendar(text, what, zone, today)
    } else {
        table::read(text, what)
    };
    let overlaps = overlaps(&found.entries);
    found.refused.extend(overlaps);
    found
}

/// Weekly practices of one squad that overlap: nobody swims twice at once.
fn overlaps(entries: &[Entry]) -> Vec<Problem> {
    let practices: Vec<(usize, PracticeFact)> = entries
        .iter()
        .filter(|entry| entry.draft.kind == crate::facts::Kind::Practice)
        .filter_map(|entry| Some((entry.line, crate::facts::read_json(&entry.draft.payload).ok()?)))
        .collect();
    let mut found = Vec::new();
    for (at, (_, one)) in practices.iter().enumerate() {
        for (line, other) in &practices[at + 1..] {
            let same = one.weekday == other.weekday && one.squad == other.squad;
            if same && one.from < other.to && other.from < one.to {
                found.push(
                    Problem::at(line.to_string(), "calendar-overlap")
                        .with("squad", &one.squad)
                        .with("from", other.from),
                );
            }
        }
    }
    found
}

/// One event as it stands in the file.
struct Event {
    line: usize,
    uid: String,
    what: String,
    place: String,
    start: DateTime,
    end: DateTime,
    rule: Option<Rule>,
    except: Vec<DateTime>,
    /// The instance that it replaces, of an event of the same UID.
    instead_of: Option<DateTime>,
    is_cancelled: bool,
}

fn calendar(text: &str, what: &As, zone: &TimeZone, today: Date) -> Incoming {
    let mut found = Incoming::default();
    let lines = event_lines(text);
    if MOST_EVENTS < lines.len() {
        let problem =
            Problem::at("", "calendar-too-many").with("count", lines.len()).with("most", MOST_EVENTS);
        found.refused.push(problem);
        return found;
    }
    let unfolded = icalendar::parser::unfold(text);
    let parsed = match icalendar::parser::read_calendar(&unfolded) {
        Ok(parsed) => parsed,
        Err(detail) => {
            let detail: String = detail.chars().take(200).collect();
            found.refused.push(Problem::at("", "calendar-unreadable").with("detail", detail));
            return found;
        }
    };
    let components = parsed.components.iter().filter(|component| component.name == "VEVENT");
    let mut events = Vec::new();
    for (component, line) in components.zip(lines) {
        match event(component, line, zone) {
            Ok(event) => events.push(event),
            Err(problem) => found.refused.push(problem),
        }
    }
    for event in &events {
        if event.instead_of.is_none() {
            let moved: Vec<&Event> =
                events.iter().filter(|other| other.uid == event.uid && other.instead_of.is_some()).collect();
            if let Err(problem) = entries(event, &moved, what, today, &mut found.entries) {
                found.refused.push(problem);
            }
        }
    }
    if found.entries.is_empty() && found.refused.is_empty() {
        found.refused.push(Problem::at("", "calendar-empty"));
    }
    found
}

/// Line on which each event begins, in the file as it is.
fn event_lines(text: &str) -> Vec<usize> {
    let begins =
        |(at, line): (usize, &str)| line.trim().eq_ignore_ascii_case("BEGIN:VEVENT").then_some(at + 1);
    text.lines().enumerate().filter_map(begins).collect()
}

fn event(
    component: &icalendar::parser::Component<'_>,
    line: usize,
    zone: &TimeZone,
) -> Result<Event, Problem> {
    let at = |says| Problem::at(line.to_string(), says);
    let find = |name: &str| component.properties.iter().find(|property| property.name == name);
    let words = |name: &str| {
        find(name).map(|property| property.val.clone().unescape_text().as_str().trim().to_owned())
    };
    if let Some(other) = component
        .properties
        .iter()
        .find(|property| ["RDATE", "EXRULE"].iter().any(|name| property.name == *name))
    {
        return Err(at("calendar-not-read").with("what", other.name.as_str()));
    }
    let moment = |property: &icalendar::parser::Property<'_>| {
        moment(property, zone).map_err(|says| at(says).with("value", property.val.as_str()))
    };
    let start = moment(find("DTSTART").ok_or_else(|| at("calendar-no-start"))?)?;
    let end = match (find("DTEND"), find("DURATION")) {
        (Some(end), _) => moment(end)?,
        (None, Some(duration)) => {
            let span: jiff::Span = duration
                .val
                .as_str()
                .parse()
                .map_err(|_| at("calendar-bad-time").with("value", duration.val.as_str()))?;
            start
                .checked_add(span)
                .map_err(|_| at("calendar-bad-time").with("value", duration.val.as_str()))?
        }
        (None, None) => return Err(at("calendar-no-end")),
    };
    if end <= start || end.date() != start.date() {
        return Err(at("week-end-before-start").with("from", start).with("to", end));
    }
    let rule = match find("RRULE") {
        Some(rule) => {
            Some(Rule::read(rule.val.as_str()).map_err(|part| at("calendar-rule").with("part", part))?)
        }
        None => None,
    };
    let is_utc = find("DTSTART").is_some_and(|property| property.val.as_str().ends_with('Z'));
    if rule.is_some() && is_utc {
        // Repeated in UTC it would shift by an hour with the clocks, which no practice does.
        return Err(at("calendar-utc-rule"));
    }
    let mut except = Vec::new();
    for property in component.properties.iter().filter(|property| property.name == "EXDATE") {
        for value in property.val.as_str().split(',') {
            let mut one = property.clone();
            one.val = value.into();
            except.push(moment(&one)?);
        }
    }
    let instead_of = find("RECURRENCE-ID").map(moment).transpose()?;
    Ok(Event {
        line,
        uid: words("UID").filter(|uid| !uid.is_empty()).ok_or_else(|| at("calendar-no-uid"))?,
        what: words("SUMMARY").filter(|what| !what.is_empty()).unwrap_or_else(|| "event".to_owned()),
        place: words("LOCATION").unwrap_or_default(),
        start,
        end,
        rule,
        except,
        instead_of,
        is_cancelled: words("STATUS").is_some_and(|status| status.eq_ignore_ascii_case("CANCELLED")),
    })
}

/// A moment in the club's zone: of that zone by name, in UTC, or without a zone.
fn moment(property: &icalendar::parser::Property<'_>, zone: &TimeZone) -> Result<DateTime, &'static str> {
    let param = |key: &str| {
        property
            .params
            .iter()
            .find(|param| param.key == key)
            .and_then(|param| param.val.as_ref())
            .map(|val| val.as_str().trim_matches('"').to_owned())
    };
    let text = property.val.as_str().trim();
    if param("VALUE").is_some_and(|value| value == "DATE") || text.len() == 8 {
        return Err("calendar-whole-day");
    }
    let (text, is_utc) = text.strip_suffix('Z').map_or((text, false), |text| (text, true));
    let read = DateTime::strptime("%Y%m%dT%H%M%S", text).map_err(|_| "calendar-bad-time")?;
    if is_utc {
        let instant = TimeZone::UTC.to_timestamp(read).map_err(|_| "calendar-bad-time")?;
        return Ok(zone.to_datetime(instant));
    }
    match param("TZID") {
        None => Ok(read),
        Some(name) if Some(name.as_str()) == zone.iana_name() => Ok(read),
        Some(name) => {
            let other = TimeZone::get(&name).map_err(|_| "calendar-unknown-zone")?;
            let instant = other.to_timestamp(read).map_err(|_| "calendar-bad-time")?;
            Ok(zone.to_datetime(instant))
        }
    }
}

fn entries(
    event: &Event,
    moved: &[&Event],
    what: &As,
    today: Date,
    out: &mut Vec<Entry>,
) -> Result<(), Problem> {
    let at = |says| Problem::at(event.line.to_string(), says);
    let window = (today.saturating_sub(BACK.days()), today.saturating_add(AHEAD.days()));
    let Some(rule) = &event.rule else {
        if !event.is_cancelled && window.0 <= event.start.date() && event.start.date() <= window.1 {
            out.push(once(event, event.start, event.end, what));
        }
        return Ok(());
    };
    if rule.is_plain_weekly() && today.saturating_add(7.days()) < event.start.date() {
        return Err(at("calendar-begins-later").with("day", event.start.date()));
    }
    if let (As::Practices(_), true) = (what, rule.is_plain_weekly()) {
        for weekday in rule.weekdays(event.start.date()) {
            out.push(weekly(event, weekday, what));
        }
        for except in event.except.iter().filter(|except| window.0 <= except.date()) {
            out.push(change(event, *except, None, what));
        }
        for other in moved {
            let Some(was) = other.instead_of else { continue };
            let now = (!other.is_cancelled).then_some((other.start, other.end));
            out.push(change(event, was, now, what));
        }
        return Ok(());
    }
    if rule.is_plain_weekly() && event.except.is_empty() && moved.is_empty() {
        for weekday in rule.weekdays(event.start.date()) {
            out.push(weekly(event, weekday, what));
        }
        return Ok(());
    }
    if !rule.has_end() && rule.every != Every::Day {
        return Err(at("calendar-no-exceptions"));
    }
    let length =
        event.start.until(event.end).map_err(|_| at("calendar-bad-time").with("value", event.end))?;
    let dates = rule.dates(event.start, window.1);
    let dates: Vec<DateTime> = dates.into_iter().filter(|date| window.0 <= date.date()).collect();
    if MOST_DATES < dates.len() {
        return Err(at("calendar-too-many-dates").with("most", MOST_DATES));
    }
    for date in dates {
        let instead = moved.iter().find(|other| other.instead_of == Some(date));
        match instead {
            Some(other) if !other.is_cancelled => out.push(once(event, other.start, other.end, what)),
            Some(_) => {}
            None if event.except.contains(&date) => {}
            None => out.push(once(event, date, date.saturating_add(length), what)),
        }
    }
    Ok(())
}

fn key(event: &Event, part: &str) -> String {
    format!("calendar {} {part}", event.uid)
}

fn times(from: Time, to: Time) -> String {
    format!("{}-{}", from.strftime("%H:%M"), to.strftime("%H:%M"))
}

/// One entry, dated.
fn once(event: &Event, from: DateTime, to: DateTime, what: &As) -> Entry {
    let part = from.to_string();
    let words =
        format!("{}: {} {}", event.what, super::say::short_day(from.date()), times(from.time(), to.time()));
    let draft = match what {
        As::Practices(squad) => Draft::new(&PracticeChangeFact {
            squad: squad.clone(),
            date: from.date(),
            was: None,
            now: Some(MovedWord { date: from.date(), from: from.time(), to: to.time() }),
            why: event.what.clone(),
        }),
        As::Loads(squad) | As::Elsewhere(squad) => {
            Draft::new(&other(what, &event.what, squad, None, Some(from.date()), (from.time(), to.time())))
        }
    };
    Entry { line: event.line, key: key(event, &part), draft, words }
}

/// One entry, weekly.
fn weekly(event: &Event, weekday: i8, what: &As) -> Entry {
    let (from, to) = (event.start.time(), event.end.time());
    let texts = crate::text::Texts::english();
    let words = format!("{}: {} {}", event.what, texts.word(&format!("weekday-{weekday}")), times(from, to));
    let draft = match what {
        As::Practices(squad) => {
            Draft::new(&PracticeFact { squad: squad.clone(), weekday, from, to, place: event.place.clone() })
        }
        As::Loads(squad) | As::Elsewhere(squad) => {
            Draft::new(&other(what, &event.what, squad, Some(weekday), None, (from, to)))
        }
    };
    Entry { line: event.line, key: key(event, &format!("weekly {weekday}")), draft, words }
}

fn other(
    what: &As,
    name: &str,
    squad: &str,
    weekday: Option<i8>,
    date: Option<Date>,
    (from, to): (Time, Time),
) -> OtherTimeFact {
    OtherTimeFact {
        what: name.to_owned(),
        squads: if squad.is_empty() { Vec::new() } else { vec![squad.to_owned()] },
        swimmers: Vec::new(),
        weekday,
        date,
        from,
        to,
        loads_shoulders: matches!(what, As::Loads(_)),
    }
}

/// A weekly practice that is cancelled or moved once.
fn change(event: &Event, was: DateTime, now: Option<(DateTime, DateTime)>, what: &As) -> Entry {
    let As::Practices(squad) = what else { return once(event, was, was, what) };
    let fact = PracticeChangeFact {
        squad: squad.clone(),
        date: was.date(),
        was: Some(was.time()),
        now: now.map(|(from, to)| MovedWord { date: from.date(), from: from.time(), to: to.time() }),
        why: event.what.clone(),
    };
    let texts = crate::text::Texts::english();
    let says = if now.is_some() { "calendar-moved" } else { "calendar-cancelled" };
    let words = texts.say(says, &[("what", event.what.clone()), ("day", super::say::short_day(was.date()))]);
    Entry { line: event.line, key: key(event, &format!("except {was}")), draft: Draft::new(&fact), words }
}

impl Desk {
    /// Stores what a file would make, all or nothing. Refused as long as anything of the file is.
    pub fn bring_in_calendar(
        &mut self,
        moment: &Moment,
        author: &Author,
        incoming: &Incoming,
    ) -> Result<Done, AppError> {
        if !incoming.refused.is_empty() {
            return Err(AppError::problems(incoming.refused.clone()));
        }
        let mut done = Done::default();
        let mut batch = Vec::new();
        for entry in &incoming.entries {
            crate::history::check(self.protocol(), entry.draft.kind, &entry.draft.payload)
                .map_err(AppError::problems)?;
            let payload = payload_of(&entry.draft.payload)?;
            let kind = entry.draft.kind.word();
            let (id, correction): (FactId, Option<Correction>) =
                match self.store().import_step(kind, &entry.key, &payload)? {
                    ImportStep::New { id } => {
                        done.added += 1;
                        (id, None)
                    }
                    ImportStep::Changed { id, supersedes, by_hand: false } => {
                        done.changed += 1;
                        let reason = crate::text::Texts::english().word("calendar-reason");
                        (id, Some(Correction { of: supersedes, reason }))
                    }
                    ImportStep::Conflict { .. } => {
                        return Err(AppError::new(ErrorKind::Refused, "calendar-conflict")
                            .with("words", &entry.words));
                    }
                    // What a person has changed or taken back since stays as that person left it.
                    _ => {
                        done.unchanged += 1;
                        continue;
                    }
                };
            batch.push(NewFact {
                id,
                kind: kind.to_owned(),
                version: 1,
                subject: SubjectId::CLUB,
                payload: Some(payload),
                author: author.name.clone(),
                device: author.device.clone(),
                device_seq: 0,
                device_time: moment.stamp.clone(),
                correction,
                natural_key: Some(entry.key.clone()),
            });
        }
        if !batch.is_empty() {
            self.append(moment, batch)?;
        }
        Ok(done)
    }
}
