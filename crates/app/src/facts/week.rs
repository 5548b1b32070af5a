//! The timetable: who wants dryland, when the deck is ours, who supervises, what is closed, and the sessions themselves.
//!
//! Every time is civil, in the club's zone. A weekly pattern stands once; what differs on a day is a fact of its own.

use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};

use super::body::ordered;
use super::{Kind, Problem, read_json};

/// Most swimmers, sessions or minutes anybody could mean; beyond it a number is a slip.
const MOST_MINUTES: u16 = 240;

/// What a squad wants of dryland.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SquadPlanFact {
    /// Squad.
    pub squad: String,
    /// Sessions a week.
    pub sessions: u8,
    /// Fewest sessions that will do; as many as wanted when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least: Option<u8>,
    /// Minutes of one session.
    pub minutes: u16,
    /// In teaching: the closer supervision applies.
    #[serde(default)]
    pub teaching: bool,
}

/// Hours of one day of the week.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoursWord {
    /// Day of the week, 1 is Monday.
    pub weekday: i8,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
}

/// Hours at which a place is ours for dryland, every week.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeckHoursFact {
    /// Place.
    pub place: String,
    /// Hours.
    pub hours: Vec<HoursWord>,
    /// Groups that fit in at once.
    #[serde(default = "one")]
    pub groups_at_once: u8,
    /// Swimmers that fit in at once, where that is the limit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swimmers: Option<u16>,
}

fn one() -> u8 {
    1
}

/// Somebody who supervises, every week.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SupervisorFact {
    /// Name.
    pub name: String,
    /// Hours.
    pub hours: Vec<HoursWord>,
    /// Swimmers this person may watch, where the club has said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ratio: Option<u8>,
}

/// A time at which squads are elsewhere, or carry another load on the same shoulders.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OtherTimeFact {
    /// What it is: school, gym, handball.
    pub what: String,
    /// Squads; empty for all.
    #[serde(default)]
    pub squads: Vec<String>,
    /// Subject ids of single swimmers; then it is about them alone, and the squad trains without them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub swimmers: Vec<String>,
    /// Every week on this day, 1 is Monday.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weekday: Option<i8>,
    /// Once, on this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
    /// True when it loads the shoulders: it then counts as a loaded session.
    pub loads_shoulders: bool,
}

/// A place that is closed: a deck, a hall or a pool.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClosureFact {
    /// Place.
    pub place: String,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// Between these times; all day when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub between: Option<(Time, Time)>,
    /// Why.
    pub why: String,
}

/// Days without practice: holidays. Exams do not take practices away, only sessions of dryland.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HolidayFact {
    /// What they are called.
    pub name: String,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// True for exams: practices go on.
    #[serde(default)]
    pub exams: bool,
}

/// One practice that differs from the weekly pattern: moved, cancelled, or extra.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PracticeChangeFact {
    /// Squad; empty for all.
    #[serde(default)]
    pub squad: String,
    /// Its day in the weekly pattern, or the day of an extra practice.
    pub date: Date,
    /// Its start in the weekly pattern; absent for an extra practice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was: Option<Time>,
    /// When it is instead; absent when it is cancelled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub now: Option<MovedWord>,
    /// Why.
    #[serde(default)]
    pub why: String,
}

/// When something is instead.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MovedWord {
    /// Day.
    pub date: Date,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
}

/// A named override of the rule about water.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OverruledWord {
    /// Who took it.
    pub by: String,
    /// The reason.
    pub reason: String,
}

/// One dryland session of a squad, as people know it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DrylandFact {
    /// Its name in calendars; stays the same through every change.
    pub uid: String,
    /// Counts the changes that people must hear of.
    pub sequence: u32,
    /// Squad.
    pub squad: String,
    /// Place.
    pub place: String,
    /// Day.
    pub date: Date,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
    /// True when it does not take place.
    #[serde(default)]
    pub cancelled: bool,
    /// Set when it stands too close before water by a named override; such a session never counts towards a step up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overruled: Option<OverruledWord>,
}

fn blank(path: &str, text: &str, problems: &mut Vec<Problem>) {
    if text.trim().is_empty() {
        problems.push(Problem::at(path, "fact-blank"));
    }
}

fn times(from: Time, to: Time, path: &str, problems: &mut Vec<Problem>) {
    if to <= from {
        problems.push(Problem::at(path, "week-end-before-start").with("from", from).with("to", to));
    }
}

fn weekday(day: i8, path: &str, problems: &mut Vec<Problem>) {
    if !(1..=7).contains(&day) {
        problems.push(Problem::at(path, "week-not-a-weekday").with("value", day));
    }
}

fn all_hours(hours: &[HoursWord], problems: &mut Vec<Problem>) {
    if hours.is_empty() {
        problems.push(Problem::at("hours", "fact-blank"));
    }
    for (at, one) in hours.iter().enumerate() {
        weekday(one.weekday, &format!("hours[{at}].weekday"), problems);
        times(one.from, one.to, &format!("hours[{at}].to"), problems);
    }
}

/// What is wrong with a payload of the timetable; nothing for another kind.
pub fn check_week(kind: Kind, payload: &str) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    let found = &mut problems;
    let read = match kind {
        Kind::SquadPlan => read_json::<SquadPlanFact>(payload).map(|fact| {
            blank("squad", &fact.squad, found);
            if 7 < fact.sessions || fact.at_least.is_some_and(|least| fact.sessions < least) {
                found.push(Problem::at("sessions", "week-sessions").with("value", fact.sessions));
            }
            if !(5..=MOST_MINUTES).contains(&fact.minutes) {
                found.push(Problem::at("minutes", "week-minutes").with("value", fact.minutes));
            }
        }),
        Kind::DeckHours => read_json::<DeckHoursFact>(payload).map(|fact| {
            blank("place", &fact.place, found);
            all_hours(&fact.hours, found);
        }),
        Kind::Supervisor => read_json::<SupervisorFact>(payload).map(|fact| {
            blank("name", &fact.name, found);
            all_hours(&fact.hours, found);
        }),
        Kind::OtherTime => read_json::<OtherTimeFact>(payload).map(|fact| {
            blank("what", &fact.what, found);
            times(fact.from, fact.to, "to", found);
            match (fact.weekday, fact.date) {
                (Some(day), None) => weekday(day, "weekday", found),
                (None, Some(_)) => {}
                _ => found.push(Problem::at("weekday", "week-day-or-date")),
            }
        }),
        Kind::Closure => read_json::<ClosureFact>(payload).map(|fact| {
            blank("place", &fact.place, found);
            blank("why", &fact.why, found);
            found.extend(ordered(fact.from, Some(fact.to)).err().unwrap_or_default());
            if let Some((from, to)) = fact.between {
                times(from, to, "between", found);
            }
        }),
        Kind::Holiday => read_json::<HolidayFact>(payload).map(|fact| {
            blank("name", &fact.name, found);
            found.extend(ordered(fact.from, Some(fact.to)).err().unwrap_or_default());
        }),
        Kind::PracticeChange => read_json::<PracticeChangeFact>(payload).map(|fact| {
            if fact.was.is_none() && fact.now.is_none() {
                found.push(Problem::at("now", "fact-blank"));
            }
            if let Some(now) = &fact.now {
                times(now.from, now.to, "now.to", found);
            }
        }),
        Kind::Dryland => read_json::<DrylandFact>(payload).map(|fact| {
            blank("uid", &fact.uid, found);
            blank("squad", &fact.squad, found);
            blank("place", &fact.place, found);
            times(fact.from, fact.to, "to", found);
            if let Some(own) = &fact.overruled {
                blank("overruled.by", &own.by, found);
                blank("overruled.reason", &own.reason, found);
            }
        }),
        _ => Ok(()),
    };
    match read {
        Err(problem) => Err(vec![problem]),
        Ok(()) if problems.is_empty() => Ok(()),
        Ok(()) => Err(problems),
    }
}
