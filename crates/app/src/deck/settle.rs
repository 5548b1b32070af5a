//! From a device's outbox to facts: each entry is stored as it came, then what the session's entries amount to is
//! brought into line with what is on record. What a person has corrected by hand since is left alone.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use store::{
    Correction, FactId, ImportStep, NewFact, Outcome, Payload, SubjectId, deterministic_id, import_id,
};

use super::ENTRY;
use super::entry::Entry;
use super::fold::{Derived, fold};
use crate::desk::{Author, Desk};
use crate::error::AppError;
use crate::facts::{DeckSessionFact, Kind, Problem, read_json};
use crate::moment::Moment;

/// What became of one entry. The device may let go of it only when it is named here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ack {
    /// Which.
    pub id: String,
    /// `added`, `already`, `erased`; or `refused`, `invalid`: kept on the device and shown.
    pub outcome: &'static str,
    /// Why, in words, for what was not taken.
    pub says: String,
}

/// A reason given with every derived fact; a person reads it beside the fact.
const REASON: &str = "deck-reason";

impl Desk {
    /// Takes a batch from a device. When this returns, what is acknowledged is on the disk.
    pub fn receive(
        &mut self,
        moment: &Moment,
        author: &Author,
        texts: &[String],
    ) -> Result<Vec<Ack>, AppError> {
        let mut acks: BTreeMap<usize, Ack> = BTreeMap::new();
        let mut batch = Vec::new();
        let mut places = Vec::new();
        let mut sessions = BTreeSet::new();
        for (place, text) in texts.iter().enumerate() {
            match self.entry_fact(author, text) {
                Ok((fact, session)) => {
                    batch.push(fact);
                    places.push(place);
                    sessions.insert(session);
                }
                Err((id, problem)) => {
                    let says = self.texts().say(problem.says, &problem.args);
                    acks.insert(place, Ack { id, outcome: "invalid", says });
                }
            }
        }
        let outcomes = self.keep(moment, batch)?;
        for (place, (id, outcome)) in places.into_iter().zip(outcomes) {
            let (word, says) = match outcome {
                Outcome::Added => ("added", String::new()),
                Outcome::AlreadyThere => ("already", String::new()),
                Outcome::Erased => ("erased", String::new()),
                Outcome::Refused { .. } => ("refused", self.texts().word("deck-entry-taken")),
            };
            acks.insert(place, Ack { id: id.to_string(), outcome: word, says });
        }
        for session in sessions {
            self.settle_session(moment, author, &session)?;
        }
        Ok(acks.into_values().collect())
    }

    fn entry_fact(&self, author: &Author, text: &str) -> Result<(NewFact, String), (String, Problem)> {
        let loose: serde_json::Value = serde_json::from_str(text).unwrap_or_default();
        let named = loose["id"].as_str().unwrap_or_default().to_owned();
        let fail = |problem: Problem| (named.clone(), problem);
        let entry = Entry::read(text).map_err(fail)?;
        entry.check().map_err(fail)?;
        let id: FactId = entry.id.parse().map_err(|_| fail(Problem::at("id", "deck-entry-id")))?;
        let subject = match &entry.who {
            None => SubjectId::CLUB,
            Some(who) => who.parse().map_err(|_| fail(Problem::at("who", "deck-entry-who")))?,
        };
        // Somebody erased meanwhile is no mistake of the device: the store answers for them.
        let is_erased = || {
            self.store().tombstones().is_ok_and(|stones| stones.iter().any(|stone| stone.subject == subject))
        };
        if subject != SubjectId::CLUB && self.person(subject).is_err() && !is_erased() {
            return Err(fail(Problem::at("who", "deck-entry-who")));
        }
        if self.deck_session(&entry.session).is_none() {
            return Err(fail(Problem::at("session", "deck-entry-session")));
        }
        let payload = Payload::of(&loose).map_err(|_| fail(Problem::at("", "deck-entry-number")))?;
        let fact = NewFact {
            id,
            kind: ENTRY.to_owned(),
            version: 1,
            subject,
            payload: Some(payload),
            author: author.name.clone(),
            device: entry.device.clone(),
            device_seq: entry.seq,
            device_time: entry.wall.clone(),
            correction: None,
            natural_key: None,
        };
        Ok((fact, entry.session))
    }

    /// The session that entries name; none when nobody prepared it here.
    pub fn deck_session(&self, session: &str) -> Option<DeckSessionFact> {
        self.deck_sessions().into_iter().find(|found| found.session == session)
    }

    /// Every prepared session, newest first.
    pub fn deck_sessions(&self) -> Vec<DeckSessionFact> {
        let found = self.store().live_facts_of_kind(Kind::DeckSession.word()).unwrap_or_default();
        let mut sessions: Vec<DeckSessionFact> =
            found.iter().filter_map(|live| read_json(live.payload()).ok()).collect();
        sessions.sort_by_key(|session| std::cmp::Reverse((session.date, session.number)));
        sessions
    }

    /// Every entry of a session that is on record.
    pub fn deck_entries(&self, session: &str) -> Result<Vec<Entry>, AppError> {
        let found = self.store().live_facts_of_kind(ENTRY)?;
        let entries = found.iter().filter_map(|live| Entry::read(live.payload()).ok());
        Ok(entries.filter(|entry| entry.session == session).collect())
    }

    /// Brings every open session into line: after a fault between storing entries and drawing facts from them.
    pub fn settle_all(&mut self, moment: &Moment) -> Result<(), AppError> {
        for session in self.deck_sessions() {
            let author = Author { name: session.by.clone(), device: "deck".to_owned() };
            self.settle_session(moment, &author, &session.session)?;
        }
        Ok(())
    }

    fn settle_session(&mut self, moment: &Moment, author: &Author, session: &str) -> Result<(), AppError> {
        let Some(about) = self.deck_session(session) else { return Ok(()) };
        let entries = self.deck_entries(session)?;
        let known: BTreeSet<SubjectId> = self.people().map(|person| person.subject).collect();
        let wanted = fold(&about, &entries, &known);
        let mut facts = Vec::new();
        for derived in &wanted {
            facts.extend(self.step(moment, author, derived)?);
        }
        facts.extend(self.withdrawn(moment, author, session, &wanted)?);
        if !facts.is_empty() {
            self.append(moment, facts)?;
        }
        Ok(())
    }

    /// The fact that brings one key into line; none when it already is, or a person has spoken.
    fn step(&self, moment: &Moment, author: &Author, derived: &Derived) -> Result<Option<NewFact>, AppError> {
        let (kind, key) = (derived.draft.kind.word(), derived.key.as_str());
        let payload = crate::desk::payload_of(&derived.draft.payload)?;
        let shared = derived.shared.as_ref().map(|shared| deterministic_id(kind, shared));
        let (id, of) = match self.store().import_step(kind, key, &payload)? {
            ImportStep::New { id } => (id, shared),
            ImportStep::Changed { id, supersedes, by_hand: false } => (id, Some(supersedes)),
            ImportStep::Retracted { id: head } if self.is_ours(head, key)? => {
                (import_id(kind, key, head, &payload), Some(head))
            }
            _ => return Ok(None),
        };
        Ok(Some(self.new_fact(moment, author, derived.subject, (kind, key), id, Some(payload), of)))
    }

    /// What was derived before and no longer follows is taken back.
    fn withdrawn(
        &self,
        moment: &Moment,
        author: &Author,
        session: &str,
        wanted: &[Derived],
    ) -> Result<Vec<NewFact>, AppError> {
        let stays: BTreeSet<(&str, &str)> =
            wanted.iter().map(|derived| (derived.draft.kind.word(), derived.key.as_str())).collect();
        let prefix = format!("deck:{session}:");
        // Only the id of the retraction is made from it: no fact has this payload.
        let nothing = Payload::from_text("[]").expect("an empty list is JSON");
        let mut facts = Vec::new();
        for kind in [Kind::Set, Kind::Session, Kind::Pain, Kind::Taught, Kind::Inspection, Kind::Incident] {
            for live in self.store().live_facts_of_kind(kind.word())? {
                let told = &live.fact.told;
                let Some(key) = told.natural_key.as_deref().filter(|key| key.starts_with(&prefix)) else {
                    continue;
                };
                if !stays.contains(&(kind.word(), key)) {
                    let id = import_id(kind.word(), key, told.id, &nothing);
                    let key = (kind.word(), key);
                    facts.push(self.new_fact(moment, author, told.subject, key, id, None, Some(told.id)));
                }
            }
        }
        Ok(facts)
    }

    /// Takes one recorded set back, because a person chose another record of it.
    pub fn deck_take_back(
        &mut self,
        moment: &Moment,
        author: &Author,
        subject: SubjectId,
        id: FactId,
        reason: &str,
    ) -> Result<(), AppError> {
        let fact = NewFact {
            id: FactId::fresh(moment.unix_millis),
            kind: Kind::Set.word().to_owned(),
            version: 1,
            subject,
            payload: None,
            author: author.name.clone(),
            device: author.device.clone(),
            device_seq: 0,
            device_time: moment.stamp.clone(),
            correction: Some(Correction { of: id, reason: reason.to_owned() }),
            natural_key: None,
        };
        self.append(moment, vec![fact]).map(drop)
    }

    /// A person has looked at a refused entry.
    pub fn close_refusal(&mut self, closing: &store::Closing) -> Result<(), AppError> {
        Ok(self.store_mut().close_refusal(closing)?)
    }

    fn is_ours(&self, head: FactId, key: &str) -> Result<bool, AppError> {
        Ok(self.store().fact(head)?.is_some_and(|fact| fact.told.natural_key.as_deref() == Some(key)))
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "a fact has that many parts, and they are told apart by type"
    )]
    fn new_fact(
        &self,
        moment: &Moment,
        author: &Author,
        subject: SubjectId,
        (kind, key): (&str, &str),
        id: FactId,
        payload: Option<Payload>,
        of: Option<FactId>,
    ) -> NewFact {
        NewFact {
            id,
            kind: kind.to_owned(),
            version: 1,
            subject,
            payload,
            author: author.name.clone(),
            device: "deck".to_owned(),
            device_seq: 0,
            device_time: moment.stamp.clone(),
            correction: of.map(|of| Correction { of, reason: self.texts().word(REASON) }),
            natural_key: Some(key.to_owned()),
        }
    }
}
