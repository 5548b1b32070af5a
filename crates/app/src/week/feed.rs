//! The timetable as iCalendar (RFC 5545): one feed a squad, one a person; and as CSV.
//!
//! Times are written in UTC, so that no reader needs our zone. Each session has a name that stays through every
//! change; a change counts its sequence up, and a cancelled session stays in the feed and says so. Nothing of anybody's
//! health is in a feed, and no reason of an override: it says when and where, as the wall does.

use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use store::{FactId, SubjectId};

use super::timetable::Kept;
use crate::desk::Desk;
use crate::error::AppError;
use crate::facts::{DrylandFact, MeetFact};
use crate::text::Texts;

/// Longest content line, octets, without its line end.
const LINE: usize = 75;

/// One event of a feed.
struct Event {
    uid: String,
    sequence: u32,
    start: String,
    end: String,
    summary: String,
    location: String,
    description: String,
    is_cancelled: bool,
}

impl Desk {
    /// Dryland and meets of one squad. `stamp` is when the feed is made.
    pub fn squad_feed(&self, squad: &str, stamp: Timestamp) -> Result<String, AppError> {
        let zone = self.club_zone()?;
        let table = &self.club().timetable;
        let sessions = table.dryland.iter().filter(|kept| kept.fact.squad == squad);
        let mut events: Vec<Event> = sessions.filter_map(|kept| session(&zone, kept, None)).collect();
        let swims = |kept: &&Kept<MeetFact>| {
            kept.fact.squads.is_empty() || kept.fact.squads.iter().any(|own| own == squad)
        };
        for kept in table.meets.iter().filter(swims) {
            events.push(self.meet(kept, kept.fact.grade)?);
        }
        let name = Texts::english().say("feed-name", &[("who", squad.to_owned())]);
        Ok(calendar(&name, &events, stamp))
    }

    /// The same for one person: the squad's sessions less those that person sits out for another load, and the meets
    /// that person swims.
    pub fn person_feed(&self, subject: SubjectId, stamp: Timestamp) -> Result<String, AppError> {
        let zone = self.club_zone()?;
        let person = self.person(subject)?;
        let squad = &person.read.swimmer.squad;
        let table = &self.club().timetable;
        let own = subject.to_string();
        let free_days = i64::from(self.week_settings().free_days);
        let sits_out = |fact: &DrylandFact| {
            table.others.iter().any(|other| {
                let other = &other.fact;
                let near = (-free_days..=free_days).any(|step| {
                    let day = fact.date.saturating_add(jiff::Span::new().days(step));
                    other.date == Some(day) || other.weekday == Some(day.weekday().to_monday_one_offset())
                });
                other.loads_shoulders && other.swimmers.contains(&own) && near
            })
        };
        let mut events: Vec<Event> = table
            .dryland
            .iter()
            .filter(|kept| kept.fact.squad == *squad)
            .filter_map(|kept| session(&zone, kept, sits_out(&kept.fact).then_some("feed-sits-out")))
            .collect();
        for kept in &table.meets {
            if let Some(grade) = kept.fact.grade_for(squad, &own) {
                events.push(self.meet(kept, grade)?);
            }
        }
        let name = Texts::english().say("feed-name", &[("who", person.read.swimmer.name.clone())]);
        Ok(calendar(&name, &events, stamp))
    }

    /// A meet as an event. Its name is that of the first fact about it, and each correction since counts.
    fn meet(&self, kept: &Kept<MeetFact>, grade: crate::facts::GradeWord) -> Result<Event, AppError> {
        let (mut first, mut sequence) = (kept.id, 0);
        while let Some(before) = self.store().fact(first)?.and_then(|fact| fact.told.supersedes()) {
            (first, sequence) = (before, sequence + 1);
        }
        Ok(meet(kept, grade, (first, sequence)))
    }

    /// Every dryland session as a table.
    pub fn timetable_csv(&self) -> String {
        let mut out = csv::Writer::from_writer(Vec::new());
        let header = ["squad", "date", "from", "to", "place", "state", "overruled_by", "uid", "sequence"];
        // Writing into memory cannot fail; a cell holds what it holds.
        out.write_record(header).ok();
        for kept in &self.club().timetable.dryland {
            let fact = &kept.fact;
            let by = fact.overruled.as_ref().map_or("", |own| own.by.as_str());
            let row = [
                fact.squad.clone(),
                fact.date.to_string(),
                fact.from.strftime("%H:%M").to_string(),
                fact.to.strftime("%H:%M").to_string(),
                fact.place.clone(),
                if fact.cancelled { "cancelled" } else { "planned" }.to_owned(),
                by.to_owned(),
                fact.uid.clone(),
                fact.sequence.to_string(),
            ];
            out.write_record(row.map(|cell| harmless(&cell))).ok();
        }
        out.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
    }
}

/// A cell that a spreadsheet reads as text and not as a formula.
fn harmless(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t']) { format!("'{cell}") } else { cell.to_owned() }
}

fn utc(zone: &TimeZone, at: DateTime) -> Option<String> {
    let instant = zone.to_timestamp(at).ok()?;
    Some(instant.strftime("%Y%m%dT%H%M%SZ").to_string())
}

fn session(zone: &TimeZone, kept: &Kept<DrylandFact>, left_out: Option<&str>) -> Option<Event> {
    let texts = Texts::english();
    let fact = &kept.fact;
    let overruled = fact.overruled.as_ref().map(|own| texts.say("feed-overruled", &[("by", own.by.clone())]));
    Some(Event {
        uid: fact.uid.clone(),
        sequence: fact.sequence,
        start: format!("DTSTART:{}", utc(zone, fact.date.to_datetime(fact.from))?),
        end: format!("DTEND:{}", utc(zone, fact.date.to_datetime(fact.to))?),
        summary: texts.say("feed-session", &[("squad", fact.squad.clone())]),
        location: fact.place.clone(),
        description: left_out.map(|says| texts.word(says)).or(overruled).unwrap_or_default(),
        is_cancelled: fact.cancelled || left_out.is_some(),
    })
}

fn meet(kept: &Kept<MeetFact>, grade: crate::facts::GradeWord, (first, sequence): (FactId, u32)) -> Event {
    let texts = Texts::english();
    let fact = &kept.fact;
    let last = fact.last.unwrap_or(fact.date).max(fact.date);
    let day = |day: Date| day.strftime("%Y%m%d").to_string();
    let name = fact.name.clone().unwrap_or_else(|| texts.word("feed-meet"));
    Event {
        uid: format!("meet-{first}"),
        sequence,
        start: format!("DTSTART;VALUE=DATE:{}", day(fact.date)),
        // The end of a whole day is the day after.
        end: format!("DTEND;VALUE=DATE:{}", day(last.tomorrow().unwrap_or(last))),
        summary: texts.say("feed-meet-summary", &[("name", name), ("grade", grade.letter().to_owned())]),
        location: String::new(),
        description: String::new(),
        is_cancelled: false,
    }
}

fn calendar(name: &str, events: &[Event], stamp: Timestamp) -> String {
    let stamp = stamp.strftime("%Y%m%dT%H%M%SZ").to_string();
    let mut out = String::new();
    line(&mut out, "BEGIN:VCALENDAR");
    line(&mut out, "VERSION:2.0");
    line(&mut out, "PRODID:-//Cuffwright//Timetable//EN");
    line(&mut out, "CALSCALE:GREGORIAN");
    line(&mut out, "METHOD:PUBLISH");
    line(&mut out, &format!("X-WR-CALNAME:{}", escaped(name)));
    for event in events {
        line(&mut out, "BEGIN:VEVENT");
        line(&mut out, &format!("UID:{}@cuffwright.invalid", escaped(&event.uid)));
        line(&mut out, &format!("DTSTAMP:{stamp}"));
        line(&mut out, &format!("SEQUENCE:{}", event.sequence));
        line(&mut out, &event.start);
        line(&mut out, &event.end);
        line(&mut out, &format!("SUMMARY:{}", escaped(&event.summary)));
        for (key, value) in [("LOCATION", &event.location), ("DESCRIPTION", &event.description)] {
            if !value.is_empty() {
                line(&mut out, &format!("{key}:{}", escaped(value)));
            }
        }
        line(&mut out, if event.is_cancelled { "STATUS:CANCELLED" } else { "STATUS:CONFIRMED" });
        line(&mut out, "END:VEVENT");
    }
    line(&mut out, "END:VCALENDAR");
    out
}

/// Text as a value: backslash, semicolon, comma and line ends are escaped (RFC 5545, 3.3.11).
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(letter);
            }
            '\n' => out.push_str("\\n"),
            '\r' => {}
            letter if letter.is_control() => {}
            letter => out.push(letter),
        }
    }
    out
}

/// One content line, folded after 75 octets and never inside a letter (RFC 5545, 3.1).
fn line(out: &mut String, text: &str) {
    let mut used = 0;
    for letter in text.chars() {
        if LINE < used + letter.len_utf8() {
            out.push_str("\r\n ");
            used = 1;
        }
        out.push(letter);
        used += letter.len_utf8();
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_folded_between_letters() {
        let mut out = String::new();
        line(&mut out, &format!("SUMMARY:{}", "å".repeat(60)));
        for part in out.split("\r\n").filter(|part| !part.is_empty()) {
            assert!(part.len() <= LINE, "{part}");
        }
        assert_eq!(out.replace("\r\n ", "").trim_end(), format!("SUMMARY:{}", "å".repeat(60)));
        assert_eq!(escaped("a;b,c\\d\ne"), "a\\;b\\,c\\\\d\\ne");
        assert_eq!(harmless("=1+1"), "'=1+1");
    }
}
