//! Words and small pieces that many pages need.

use app::desk::{Desk, Person};
use app::text::day;
use app::wire::answer::Wording;
use door::permit::Thing;
use jiff::civil::Date;
use maud::{Markup, html};
use trade::gate::{Availability, EndsBy, Gate, Hold};
use trade::history::Urgency;
use trade::rule::{Ground, catalogue};
use trade::side::Side;
use trade::trace::Line;

use crate::web::parts::shoulder::ShoulderState;
use crate::web::parts::why::Reason;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// The wording of this desk's readers.
pub fn wording(desk: &Desk) -> Wording<'_> {
    Wording { texts: desk.texts(), reader: desk.reader() }
}

/// One line of a trace, in words.
pub fn sentence(desk: &Desk, line: &Line) -> String {
    desk.texts().line(line, desk.reader())
}

/// One line of a trace with its rule.
pub fn reason(desk: &Desk, line: &Line) -> Reason {
    let rule = catalogue::rule_of(line.rule);
    Reason {
        code: line.rule.to_string(),
        sentence: sentence(desk, line),
        source: rule.map_or_else(String::new, |rule| rule.source.to_owned()),
        ground: rule.map_or(Ground::CommonPractice, |rule| rule.ground),
    }
}

/// Several lines of a trace.
pub fn reasons(desk: &Desk, lines: &[Line]) -> Vec<Reason> {
    lines.iter().map(|line| reason(desk, line)).collect()
}

/// A day with its weekday and without the year: Mon 9 March.
pub fn short_day(date: Date) -> String {
    const WEEKDAYS: [&str; 7] = [
        "weekday-monday",
        "weekday-tuesday",
        "weekday-wednesday",
        "weekday-thursday",
        "weekday-friday",
        "weekday-saturday",
        "weekday-sunday",
    ];
    let index = usize::from(date.weekday().to_monday_zero_offset().unsigned_abs());
    let whole = day(date);
    let without_year = whole.rsplit_once(' ').map_or(whole.as_str(), |(day, _)| day);
    format!("{} {without_year}", text(WEEKDAYS[index]))
}

/// Where a swimmer's page is.
pub fn href(person: &Person) -> String {
    format!("/people/{}", person.subject)
}

/// What the swimmer is called; a swimmer without a name is still somebody.
pub fn name(person: &Person) -> String {
    let name = person.read.swimmer.name.trim();
    if name.is_empty() { text("person-unnamed") } else { name.to_owned() }
}

/// What tells two swimmers of one name apart.
pub fn tells_apart(person: &Person) -> String {
    let swimmer = &person.read.swimmer;
    let mut parts = Vec::new();
    if !swimmer.squad.is_empty() {
        parts.push(swimmer.squad.clone());
    }
    let born = i64::from(swimmer.born.year());
    parts.push(say("person-born", &[("year", Value::Words(&born.to_string()))]));
    if let Some(number) = &swimmer.club_number {
        parts.push(say("person-club-number", &[("number", Value::Words(number))]));
    }
    parts.join(", ")
}

/// The same for whoever asks: year of birth and number only where they may be seen.
pub fn tells_apart_to(visit: &Visit, person: &Person) -> String {
    if visit.may(Thing::Personal) { tells_apart(person) } else { person.read.swimmer.squad.clone() }
}

/// One shoulder in a line: what it may do, the weightiest reason, when to look again.
pub fn shoulder_state(desk: &Desk, gate: &Gate, side: Side) -> ShoulderState {
    let hold = app::views::people::weightiest(gate, side);
    let because = match hold {
        Some(hold) => sentence(desk, &hold.line),
        None => gate
            .limits
            .iter()
            .find(|limit| limit.side.is_none_or(|held| held == side))
            .map(|limit| {
                let until = short_day(limit.until);
                let values = [("name", Value::Words(&limit.clinician.name)), ("until", Value::Words(&until))];
                say("limit-in-force", &values)
            })
            .unwrap_or_default(),
    };
    ShoulderState {
        availability: gate.shoulder(side),
        because,
        review: hold.and_then(|hold| hold.review).map(short_day),
    }
}

/// The word of a side, or that it is the whole person.
pub fn side_word(side: Option<Side>) -> String {
    text(match side {
        Some(Side::Left) => "shoulder-left",
        Some(Side::Right) => "shoulder-right",
        None => "shoulder-person",
    })
}

/// What ends a hold, in words.
pub fn ends_by(desk: &Desk, hold: &Hold) -> String {
    desk.texts().word(match hold.ends_by {
        EndsBy::Record => "ends-by-record",
        EndsBy::Date => "ends-by-date",
        EndsBy::Practitioner => "ends-by-practitioner",
        EndsBy::Clinician => "ends-by-clinician",
    })
}

/// What to do for an urgency.
pub fn what_to_do(urgency: Urgency) -> String {
    text(match urgency {
        Urgency::Talk => "urgency-talk-do",
        Urgency::WithinAWeek => "urgency-within-a-week-do",
        Urgency::SameDay => "urgency-same-day-do",
        Urgency::Emergency => "urgency-emergency-do",
    })
}

/// Whom to ring, and the line that everybody on deck must know.
pub fn whom_to_ring(desk: &Desk, person: &Person) -> Markup {
    let swimmer = &person.read.swimmer;
    let club = desk.club().about.as_ref();
    html! {
        ul.ring {
            @for contact in &swimmer.contacts {
                li { (say("ring-contact", &[("name", Value::Words(&contact.name)), ("relation", Value::Words(&contact.relation))])) " " b { (contact.phone) } }
            }
            @if swimmer.contacts.is_empty() { li.quiet { (text("ring-nobody")) } }
            @if let Some(club) = club {
                li { (say("ring-practitioner", &[("name", Value::Words(&club.practitioner))])) " " b { (club.practitioner_phone) } }
            }
            @if let Some(note) = &swimmer.emergency_note { li.ring-note { (say("ring-note", &[("note", Value::Words(note))])) } }
        }
    }
}

/// Who practises here, for "ask NAME".
pub fn practitioner(desk: &Desk) -> String {
    desk.club().about.as_ref().map_or_else(|| text("owner-practitioner"), |club| club.practitioner.clone())
}

/// Every availability, the best first.
pub const AVAILABILITIES: [Availability; 5] = [
    Availability::Full,
    Availability::Limited,
    Availability::NotYet,
    Availability::OutToday,
    Availability::OutReferred,
];

/// An address on this site to lead back to; anything else leads to the given page.
pub fn back_or<'a>(sought: &'a str, otherwise: &'a str) -> &'a str {
    let local = sought.starts_with('/') && !sought.starts_with("//") && !sought.contains(['\\', '\r', '\n']);
    if local { sought } else { otherwise }
}

/// Text as it stands in an address.
pub fn encoded(text: &str) -> String {
    form_urlencoded::byte_serialize(text.as_bytes()).collect()
}
