//! What the entries of one session amount to: a pure function of their set. Order, doubles and the device they came
//! through do not matter; what is not there yet is simply not counted yet.
//!
//! A cap is written only for a swimmer who was live at it on an awake page, and counts as seen only when somebody said
//! "held" in its last seconds. Silence is not a cap.

use std::collections::{BTreeMap, BTreeSet};

use store::SubjectId;

use super::entry::{Entry, Slot};
use crate::desk::Draft;
use crate::facts::{
    ClockWord, DeckSessionFact, EndWord, IncidentFact, InspectionFact, PainFact, SessionFact, SetFact,
    SetWord, TaughtFact, WhenWord, WorkingSideWord,
};

/// Stands for a fault that nobody named: form went, and that is all that is known.
pub const UNNAMED_FAULT: &str = "F00";
/// How near the end a look must be, seconds: common practice, the last of three passes over the group.
const NEAR_CAP_S: f64 = 30.0;

/// A fact that follows from entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Derived {
    /// Whose.
    pub subject: SubjectId,
    /// The fact.
    pub draft: Draft,
    /// Names it for good, whatever it comes to say: a later entry corrects what stands under it.
    pub key: String,
    /// What it shares with the same thing recorded by another device; two of those are a conflict for a person.
    pub shared: Option<String>,
}

/// Every fact that follows from these entries.
pub fn fold(session: &DeckSessionFact, entries: &[Entry], known: &BTreeSet<SubjectId>) -> Vec<Derived> {
    let by_id: BTreeMap<&str, &Entry> = entries
        .iter()
        .filter(|entry| entry.session == session.session)
        .map(|entry| (entry.id.as_str(), entry))
        .collect();
    let undone: BTreeSet<&str> =
        by_id.values().filter(|entry| entry.k == "undo").filter_map(|entry| entry.of.as_deref()).collect();
    let is_void = |entry: &Entry| {
        undone.contains(entry.id.as_str()) || entry.run.as_deref().is_some_and(|run| undone.contains(run))
    };
    let mut club = Vec::new();
    let mut people: BTreeMap<SubjectId, Vec<&Entry>> = BTreeMap::new();
    for entry in by_id.values().filter(|entry| !is_void(entry)) {
        match &entry.who {
            None => club.push(*entry),
            Some(who) => {
                if let Some(subject) = who.parse().ok().filter(|subject| known.contains(subject)) {
                    people.entry(subject).or_default().push(entry);
                }
            }
        }
    }
    let mut derived = of_club(session, &club);
    for (subject, mut told) in people {
        told.sort_by(|one, other| {
            (&one.device, one.seq, &one.id).cmp(&(&other.device, other.seq, &other.id))
        });
        derived.extend(of_person(session, subject, &told));
    }
    derived
}

fn of_club(session: &DeckSessionFact, entries: &[&Entry]) -> Vec<Derived> {
    let mut derived = Vec::new();
    let mut add = |draft: Draft, key: String| {
        derived.push(Derived { subject: SubjectId::CLUB, draft, key, shared: None });
    };
    for entry in entries {
        let by = entry.by.clone().unwrap_or_else(|| session.by.clone());
        let inspected = |mark: &str, sound: bool| {
            Draft::new(&InspectionFact { date: session.date, mark: mark.to_owned(), sound, by: by.clone() })
        };
        match entry.k.as_str() {
            "kit" => {
                if let (Some(mark), Some(sound)) = (&entry.mark, entry.sound) {
                    add(inspected(mark, sound), format!("deck:{}:kit:{}", session.session, entry.id));
                }
            }
            "incident" => {
                add(incident(session, entry), format!("deck:{}:incident:{}", session.session, entry.id));
                if let Some(mark) = &entry.mark {
                    add(inspected(mark, false), format!("deck:{}:kit:{}", session.session, entry.id));
                }
            }
            _ => {}
        }
    }
    derived
}

fn incident(session: &DeckSessionFact, entry: &Entry) -> Draft {
    Draft::new(&IncidentFact {
        date: session.date,
        what: entry.what.clone().unwrap_or_default(),
        words: entry.words.clone().unwrap_or_default(),
        kit: entry.mark.clone(),
        by: entry.by.clone().unwrap_or_else(|| session.by.clone()),
    })
}

fn of_person(session: &DeckSessionFact, subject: SubjectId, entries: &[&Entry]) -> Vec<Derived> {
    let mut derived = Vec::new();
    let mut add = |draft: Draft, key: String, shared: Option<String>| {
        derived.push(Derived {
            subject,
            draft,
            key: format!("deck:{}:{subject}:{key}", session.session),
            shared,
        });
    };
    let mut took_part = false;
    for (device, told) in by_device(entries) {
        for (key, touches) in by_set(&told) {
            took_part |=
                touches.iter().any(|entry| matches!(entry.k.as_str(), "end" | "cap" | "held" | "cue"));
            if let Some(set) = set_of(session, &touches) {
                let slot = format!("set:{}:{}:{}", key.0, side_word(key.1), key.2);
                let shared = format!("deck:{}:{subject}:{slot}", session.session);
                add(Draft::new(&set), format!("{slot}:{device}"), Some(shared));
            }
        }
    }
    let mut taught = BTreeSet::new();
    for entry in entries {
        match entry.k.as_str() {
            "answers" | "pain" => add(pain(session, entry), format!("pain:{}", entry.id), None),
            "taught" => taught.extend(entry.exercise.clone()),
            "incident" => add(incident(session, entry), format!("incident:{}", entry.id), None),
            _ => {}
        }
    }
    for exercise in &taught {
        let fact = TaughtFact { date: session.date, exercise: exercise.clone() };
        add(Draft::new(&fact), format!("taught:{exercise}"), None);
    }
    if took_part || !taught.is_empty() {
        // The newest answer about the last practice; ids of devices begin with their time.
        let effort = entries
            .iter()
            .filter(|entry| entry.k == "answers")
            .max_by(|one, other| one.id.cmp(&other.id))
            .and_then(|entry| entry.effort);
        let fact = SessionFact {
            date: session.date,
            number: session.number,
            context: session.context,
            before_water_override: session.before_water_override.clone(),
            last_practice_effort: effort,
        };
        add(Draft::new(&fact), "session".to_owned(), None);
    }
    derived
}

fn by_device<'a>(entries: &[&'a Entry]) -> BTreeMap<&'a str, Vec<&'a Entry>> {
    let mut devices: BTreeMap<&str, Vec<&Entry>> = BTreeMap::new();
    for entry in entries {
        devices.entry(&entry.device).or_default().push(entry);
    }
    devices
}

type SetKey = (String, WorkingSideWord, u8);

fn by_set<'a>(entries: &[&'a Entry]) -> BTreeMap<SetKey, Vec<&'a Entry>> {
    let mut sets: BTreeMap<SetKey, Vec<&Entry>> = BTreeMap::new();
    for entry in entries {
        if let Some(slot) = &entry.slot {
            sets.entry(slot.key()).or_default().push(entry);
        }
    }
    sets
}

/// One set of one swimmer as one device saw it; none while it was not observed.
fn set_of(session: &DeckSessionFact, touches: &[&Entry]) -> Option<SetFact> {
    let ends = touches.iter().filter(|entry| entry.k == "end" && entry.reason.is_some());
    let end =
        ends.min_by(|one, other| elapsed(one).total_cmp(&elapsed(other)).then_with(|| one.id.cmp(&other.id)));
    if let Some(end) = end {
        let slot = end.slot.as_ref()?;
        let reason = end.reason.unwrap_or(EndWord::Left);
        let named = touches.iter().rev().find(|entry| entry.k == "note").and_then(|note| note.fault.clone());
        let fault = (reason == EndWord::Form)
            .then(|| named.or_else(|| end.fault.clone()).unwrap_or_else(|| UNNAMED_FAULT.to_owned()));
        let seconds = (elapsed(end) / 100.0).round() / 10.0;
        return Some(fact(
            session,
            slot,
            Word { seconds: seconds.clamp(0.1, slot.cap_s), end: reason, fault, seen: None },
        ));
    }
    let cap = touches.iter().find(|entry| entry.k == "cap" && entry.awake == Some(true))?;
    let slot = cap.slot.as_ref()?;
    let seen =
        touches.iter().any(|entry| entry.k == "held" && (slot.cap_s - NEAR_CAP_S) * 1000.0 <= elapsed(entry));
    Some(fact(session, slot, Word { seconds: slot.cap_s, end: EndWord::Cap, fault: None, seen: Some(seen) }))
}

struct Word {
    seconds: f64,
    end: EndWord,
    fault: Option<String>,
    seen: Option<bool>,
}

fn fact(session: &DeckSessionFact, slot: &Slot, word: Word) -> SetFact {
    SetFact {
        date: session.date,
        session: session.number,
        exercise: slot.exercise.clone(),
        side: slot.side,
        planned: slot.planned.clone(),
        used: slot.used.clone(),
        prescribed_sets: slot.sets,
        number: slot.set,
        set: SetWord {
            seconds: word.seconds,
            end: word.end,
            fault: word.fault,
            cap_s: Some(slot.cap_s),
            seen: word.seen,
            rest_before_s: slot.rest_s.filter(|rest| 0.0 < *rest),
            clock: ClockWord::Device,
            fault_left: None,
        },
    }
}

fn elapsed(entry: &Entry) -> f64 {
    entry.ms.unwrap_or(0.0)
}

fn pain(session: &DeckSessionFact, entry: &Entry) -> Draft {
    let when = if entry.k == "answers" { WhenWord::Before } else { entry.when.unwrap_or(WhenWord::Other) };
    Draft::new(&PainFact {
        date: session.date,
        when,
        exercise: entry.exercise.clone().filter(|_| when == WhenWord::During),
        left: entry.left,
        right: entry.right,
        kind: entry.kind.unwrap_or_default(),
        signs: entry.signs.clone().unwrap_or_default(),
        sign_side: None,
        asked: entry.how.clone(),
    })
}

const fn side_word(side: WorkingSideWord) -> &'static str {
    match side {
        WorkingSideWord::Left => "left",
        WorkingSideWord::Right => "right",
        WorkingSideWord::Both => "both",
        WorkingSideWord::Midline => "midline",
    }
}
