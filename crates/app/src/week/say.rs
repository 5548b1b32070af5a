//! Requirements, reasons and moves in words, from the one catalogue.

use schedule::time::Span;
use schedule::week::audit::{Breach, How, Session};
use schedule::week::plan::Fewer;
use schedule::week::refuse::Cause;
use schedule::week::requirement::{Kind, Requirement, Subject};
use schedule::week::{Placed, Week};

use crate::text::{Texts, Value};

/// Words about one week.
#[derive(Clone, Copy)]
pub struct Say<'a> {
    /// The week.
    pub week: &'a Week,
    texts: &'static Texts,
}

/// A stretch as people say it: Tue 10 Mar, 15:20-15:45.
pub fn when(span: Span) -> String {
    format!("{}, {}", short_day(span.day()), times(span))
}

/// A day as people say it in a timetable: Tue 10 Mar.
pub fn short_day(day: jiff::civil::Date) -> String {
    day.strftime("%a %-d %b").to_string()
}

/// Times as people say them: 15:20-15:45.
pub fn times(span: Span) -> String {
    format!("{}-{}", clock(span.start.civil()), clock(span.end.civil()))
}

/// A time of day.
pub fn clock(at: jiff::civil::DateTime) -> String {
    at.strftime("%H:%M").to_string()
}

/// Minutes as people say them: 20 min, 3 h 05 min, 4 h.
pub fn lasting(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes:02} min"),
    }
}

fn number(value: f64) -> String {
    if value.fract() == 0.0 { format!("{value:.0}") } else { format!("{value}") }
}

impl<'a> Say<'a> {
    /// Words about one week.
    pub fn about(week: &'a Week) -> Self {
        Self { week, texts: Texts::english() }
    }

    /// A group's name.
    pub fn group(self, group: usize) -> &'a str {
        &self.week.groups[group].name
    }

    /// A place's name.
    pub fn place(self, place: usize) -> &'a str {
        &self.week.places[place].name
    }

    /// A placed session: Seniors, Tue 10 Mar, 18:00-18:40.
    pub fn placed(self, placed: Placed) -> String {
        format!("{}, {}", self.group(placed.group), when(self.week.slots[placed.slot].span))
    }

    fn free_days(self, count: i64) -> String {
        self.texts.phrase("free-days-count", &[("count", Value::Count(count))])
    }

    fn adults(self, count: usize) -> String {
        let count = i64::try_from(count).unwrap_or(i64::MAX);
        self.texts.phrase("adults-count", &[("count", Value::Count(count))])
    }

    /// Whom a requirement is about; empty for everybody.
    pub fn subject(self, subject: Subject) -> String {
        match subject {
            Subject::All => String::new(),
            Subject::Group(at) => self.group(at).to_owned(),
            Subject::Place(at) => self.place(at).to_owned(),
            Subject::Closure(at) => {
                self.week.closures[at].place.map_or_else(String::new, |place| self.place(place).to_owned())
            }
            Subject::Kit(at) => self.week.kit[at].name.clone(),
        }
    }

    /// A requirement in words.
    pub fn requirement(self, requirement: Requirement) -> String {
        let settings = &self.week.settings;
        let mut values = vec![("who", self.subject(requirement.subject))];
        match (requirement.kind, requirement.subject) {
            (Kind::Sessions, Subject::Group(at)) => {
                let least = schedule::week::plan::allowance(self.week, at).at_least;
                values.push(("count", least.to_string()));
            }
            (Kind::BeforeWater, _) => values.push(("hours", number(settings.pre_water_gap_h))),
            (Kind::HoursBetween, _) => values.push(("hours", number(settings.min_hours_between))),
            (Kind::FreeDay, _) => values.push(("days", self.free_days(i64::from(settings.free_days)))),
            (Kind::WeekMost, _) => values.push(("count", settings.sessions_week.to_string())),
            (Kind::Closed, Subject::Closure(at)) => {
                values.push(("why", self.week.closures[at].why.clone()));
                values.push(("when", when(self.week.closures[at].span)));
            }
            (Kind::Room, Subject::Place(at)) => {
                let place = &self.week.places[at];
                let room = place.people.unwrap_or(place.groups_at_once);
                values.push(("count", room.to_string()));
            }
            (Kind::Kit, Subject::Kit(at)) => values.push(("count", self.week.kit[at].pieces.to_string())),
            _ => {}
        }
        self.texts.say(&format!("requirement-{}", requirement.kind.word()), &values)
    }

    /// Why one session of a group at a place cannot be.
    pub fn cause(self, cause: Cause, group: usize, place: usize) -> String {
        let week = self.week;
        let who = ("who", self.group(group).to_owned());
        let at_place = ("place", self.place(place).to_owned());
        let size = ("size", week.groups[group].size.to_string());
        match cause {
            Cause::OtherDays => self.texts.word("why-other-days"),
            Cause::NoWindow => self.texts.say("why-no-window", &[at_place]),
            Cause::Length { has, needs } => {
                self.texts.say("why-length", &[("has", has.to_string()), ("needs", needs.to_string())])
            }
            Cause::InWater { water } => {
                let practice = &week.water[water];
                self.texts.say(
                    "why-in-water",
                    &[who, ("water", practice.name.clone()), ("when", times(practice.span))],
                )
            }
            Cause::BeforeWater { water, has, needs } => {
                let practice = &week.water[water];
                self.texts.say(
                    "why-before-water",
                    &[
                        ("has", lasting(has)),
                        ("needs", lasting(needs)),
                        ("water", practice.name.clone()),
                        ("when", when(practice.span)),
                    ],
                )
            }
            Cause::BeforeMeet { meet, has, needs } => {
                let entry = &week.meets[meet];
                self.texts.say(
                    "why-before-meet",
                    &[
                        ("has", lasting(has)),
                        ("needs", lasting(needs)),
                        ("meet", entry.name.clone()),
                        ("grade", entry.grade.letter().to_owned()),
                        ("when", short_day(entry.span.day())),
                    ],
                )
            }
            Cause::DuringMeet { meet } => {
                let entry = &week.meets[meet];
                let grade = ("grade", entry.grade.letter().to_owned());
                self.texts.say("why-during-meet", &[("meet", entry.name.clone()), grade])
            }
            Cause::LoadSameDay { load } => {
                self.texts.say("why-load-same-day", &[("load", week.loads[load].name.clone())])
            }
            Cause::LoadTooNear { load, free_days, .. } => {
                let entry = &week.loads[load];
                let days = self.free_days(free_days);
                let named = ("load", entry.name.clone());
                self.texts.say("why-load-too-near", &[named, ("when", when(entry.span)), ("days", days)])
            }
            Cause::Elsewhere { busy } => {
                let entry = &week.busy[busy];
                self.texts
                    .say("why-elsewhere", &[who, ("what", entry.name.clone()), ("when", times(entry.span))])
            }
            Cause::Closed { closure } => {
                self.texts.say("why-closed", &[at_place, ("why", week.closures[closure].why.clone())])
            }
            Cause::TooManyForPlace { room, .. } => {
                self.texts.say("why-too-many-for-place", &[at_place, ("room", room.to_string()), who, size])
            }
            Cause::NoSupervisor { adults, .. } => {
                self.texts.say("why-no-supervisor", &[("adults", self.adults(adults)), size])
            }
            Cause::KitShort { kit, needs } => {
                let stock = &week.kit[kit];
                let pieces = ("pieces", stock.pieces.to_string());
                self.texts.say(
                    "why-kit-short",
                    &[who, ("needs", needs.to_string()), ("kit", stock.name.clone()), pieces],
                )
            }
        }
    }

    /// Why there are fewer sessions.
    pub fn fewer(self, why: Fewer) -> String {
        let meet =
            |says: &str, at: usize| self.texts.say(says, &[("meet", self.week.meets[at].name.clone())]);
        match why {
            Fewer::MeetWeek { meet: at } => meet("fewer-meet-week", at),
            Fewer::TwoWeeksBefore { meet: at } => meet("fewer-two-weeks", at),
            Fewer::LastWeek { meet: at } => meet("fewer-last-week", at),
            Fewer::Camp { .. } => self.texts.word("fewer-camp"),
        }
    }

    /// A broken requirement in words.
    pub fn breach(self, breach: &Breach, sessions: &[Session]) -> String {
        let first = breach.sessions.first().and_then(|at| sessions.get(*at));
        let (group, place) = first.map_or((0, 0), |session| (session.group, session.place));
        let who = ("who", self.group(group).to_owned());
        match &breach.how {
            How::Alone(cause) => self.cause(*cause, group, place),
            How::SameDay => self.texts.say("why-same-day", &[who]),
            How::TooNear { free_days, has } => self
                .texts
                .say("why-too-near", &[who, ("days", self.free_days(*free_days)), ("has", lasting(*has))]),
            How::TooMany { has, most } => {
                self.texts.say("why-too-many", &[who, ("has", has.to_string()), ("most", most.to_string())])
            }
            How::MorePlanned { has, limit } => {
                let most = ("most", limit.most.to_string());
                self.texts.say(
                    "why-more-planned",
                    &[who, ("has", has.to_string()), most, ("why", self.fewer(limit.why))],
                )
            }
            How::Crowded => self.texts.say("why-crowded", &[("place", self.place(place).to_owned())]),
            How::Unwatched { adults } => self.texts.say("why-unwatched", &[("adults", self.adults(*adults))]),
            How::KitShort { wanted } => {
                let Subject::Kit(at) = breach.requirement.subject else { return String::new() };
                let stock = &self.week.kit[at];
                let pieces = ("pieces", stock.pieces.to_string());
                self.texts.say(
                    "why-kit-together",
                    &[("wanted", wanted.to_string()), ("kit", stock.name.clone()), pieces],
                )
            }
        }
    }
}
