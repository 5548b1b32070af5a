//! The demo club: an invented squad with ten weeks of work behind it, made from one number.
//!
//! Nothing here goes around the rules. Before each session the gate and the plan are asked for that day; their dose
//! is what is done, and each move is decided as a practitioner would. The last session's proposals are left open, so
//! that the demo's day begins with a full review queue.
//!
//! - [`cast`]: who is who, and what is awkward about each.
//! - `days`: season, programme halves, wall clock.
//! - `club`, `week`, `papers`, `story`: what is written down beside training.
//! - `weekly`: the weekly check, and the club's own trial of a test.
//! - `script`, `sets`, `session`: how sets go, and one session from question to last set.
//! - `diary`: writing facts, and the record kept in step with them.
//! - `random`: chance from one number.

pub mod cast;
mod club;
mod days;
mod diary;
mod papers;
mod random;
mod script;
mod session;
mod sets;
mod story;
mod week;
mod weekly;

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Time;
use store::{NewFact, Store, SubjectId};
use trade::history::{Calendar, History};
use trade::protocol::Protocol;
use uuid::Builder;

pub use cast::{CAST, Case, Member};
pub use days::{DAY, ZONE};

use crate::desk::Desk;
use crate::error::AppError;
use crate::history::{LiveFact, read_calendar};
use crate::moment::Moment;
use diary::{Diary, Hand};
use random::Random;
use session::Attendance;
use sets::Body;

/// The club's name.
pub const CLUB: &str = "Hallavesi Swim Club";
/// The practitioner who answers for the squad.
pub const PRACTITIONER: &str = "Ronja Ahvenlaine";
/// The number the demo starts from when nobody gives another.
pub const SEED: u64 = 20_261_125;

/// The demo club, ready to be stored.
#[derive(Debug, Clone)]
pub struct DemoClub {
    /// Every fact, in the order in which the club wrote it down.
    pub facts: Vec<NewFact>,
    /// Ids, in the order of [`CAST`].
    pub subjects: Vec<SubjectId>,
}

/// Every fact of the demo club: the same from the same number and protocol.
pub fn facts(seed: u64, protocol: &Protocol) -> Vec<NewFact> {
    DemoClub::new(seed, protocol).facts
}

/// The morning of the demo's day, as an instant. The running clock only moves the time, never the day.
pub fn morning() -> Moment {
    let now = days::instant(DAY, 7 * 3600 + 45 * 60);
    Moment {
        unix_millis: u64::try_from(now.as_millisecond()).unwrap_or(0),
        stamp: now.to_string(),
        today: DAY,
        time: Time::constant(7, 45, 0, 0),
    }
}

/// A desk at a store that now holds the demo club.
pub fn open(seed: u64, protocol: Protocol, store: Store) -> Result<Desk, AppError> {
    let facts = facts(seed, &protocol);
    let mut desk = Desk::new(store, protocol)?;
    desk.append(&morning(), facts)?;
    Ok(desk)
}

impl DemoClub {
    /// Plays the season.
    pub fn new(seed: u64, protocol: &Protocol) -> Self {
        let mut facts = tell_club(seed, protocol);
        let calendar = calendar_of(&facts);
        let mut subjects = Vec::new();
        for (subject, told) in tell_everybody(seed, protocol, &calendar) {
            subjects.push(subject);
            facts.extend(told);
        }
        facts.sort_by(|one, other| one.device_time.cmp(&other.device_time));
        number(&mut facts);
        Self { facts, subjects }
    }

    /// The id of the first swimmer of a case.
    pub fn subject(&self, case: Case) -> Option<SubjectId> {
        CAST.iter().position(|member| member.case == case).and_then(|index| self.subjects.get(index)).copied()
    }
}

/// Every swimmer's season, in the order of the cast. Nobody's depends on another's, so they are played side by side.
fn tell_everybody(seed: u64, protocol: &Protocol, calendar: &Calendar) -> Vec<(SubjectId, Vec<NewFact>)> {
    let hands = std::thread::available_parallelism().map_or(1, std::num::NonZero::get).min(CAST.len());
    let mut told: Vec<(usize, (SubjectId, Vec<NewFact>))> = std::thread::scope(|scope| {
        let played: Vec<_> = (0..hands)
            .map(|hand| {
                scope.spawn(move || {
                    let mine = CAST.iter().enumerate().skip(hand).step_by(hands);
                    mine.map(|(index, member)| {
                        let (subject, told, _) = tell_member(seed, protocol, calendar, index, member);
                        (index, (subject, told))
                    })
                    .collect::<Vec<_>>()
                })
            })
            .collect();
        played
            .into_iter()
            .flat_map(|hand| hand.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    });
    told.sort_by_key(|(index, _)| *index);
    told.into_iter().map(|(_, season)| season).collect()
}

/// Each device counts its own facts.
fn number(facts: &mut [NewFact]) {
    let mut running: BTreeMap<String, u64> = BTreeMap::new();
    for fact in facts {
        let next = running.entry(fact.device.clone()).or_default();
        *next += 1;
        fact.device_seq = *next;
    }
}

fn tell_club(seed: u64, protocol: &Protocol) -> Vec<NewFact> {
    // The club has no record of its own; any swimmer's empty one will do.
    let nobody = History::new(papers::swimmer(&CAST[0], 0).to_trade());
    let random = Random::for_member(seed, u64::MAX);
    let mut diary = Diary::new(protocol, SubjectId::CLUB, random, nobody);
    club::tell(&mut diary);
    week::tell(&mut diary);
    diary.into_facts()
}

fn calendar_of(facts: &[NewFact]) -> Calendar {
    let live: Vec<LiveFact> = facts
        .iter()
        .filter_map(|fact| {
            Some(LiveFact {
                id: fact.id.to_string(),
                kind: crate::facts::Kind::from_word(&fact.kind)?,
                payload: fact.payload.as_ref()?.as_str().to_owned(),
            })
        })
        .collect();
    read_calendar(&live).0
}

fn tell_member(
    seed: u64,
    protocol: &Protocol,
    calendar: &Calendar,
    index: usize,
    member: &Member,
) -> (SubjectId, Vec<NewFact>, History) {
    let place = u64::try_from(index).expect("the cast is short");
    let mut random = Random::for_member(seed, place);
    let subject = SubjectId::from_uuid(Builder::from_random_bytes(random.sixteen_bytes()).into_uuid());
    let mut body = Body::new(&mut random, script::is_strong(member.case));
    let row = papers::swimmer(member, index);
    let mut history = History::new(row.to_trade());
    history.calendar = calendar.clone();
    let mut diary = Diary::new(protocol, subject, random, history);
    diary.at(member.joined(), 8 * 60);
    diary.write(Hand::Office, &row);
    let mut attendance = Attendance::new();
    let mut day = member.joined();
    while day < DAY {
        story::tell(&mut diary, member, day);
        papers::tell(&mut diary, member, day);
        diary.settle();
        session::hold(&mut diary, member, &mut body, &mut attendance, day);
        story::tell_after(&mut diary, member, day);
        diary.settle();
        day = day.saturating_add(1.day());
    }
    let history = diary.history.clone();
    // Written last, so that the invented season does not hang on it.
    papers::arms(&mut diary, member);
    (subject, diary.into_facts(), history)
}

#[cfg(test)]
mod tests;
