//! The import at the desk: previewed against the store, and recorded all or nothing.

use std::cell::RefCell;

use store::{Correction, NewFact, Outcome, Payload, Store, SubjectId, deterministic_id, import_id};
use uuid::Uuid;

use super::people::{Exercises, Existing, Known, KnownSwimmer, OnRecord};
use super::plan::{Change, Preview};
use super::problem::FileProblem;
use super::{HandWritten, Kind, Options, read};
use crate::desk::{Author, Desk, payload_of};
use crate::error::{AppError, ErrorKind};
use crate::facts;
use crate::moment::Moment;

/// Previews a file against everything on record. The inner result says whether the file is a table of its kind at all.
pub fn preview_at(
    desk: &Desk,
    bytes: &[u8],
    file_name: &str,
    kind: Option<Kind>,
    options: &Options,
) -> Result<Result<Preview, FileProblem>, AppError> {
    let swimmers = swimmers(desk);
    let by_hand = by_hand(desk.store())?;
    let failure = RefCell::new(None);
    let look_up = |kind: facts::Kind, key: &str| match on_record(desk.store(), &by_hand, kind, key) {
        Ok(on_record) => on_record,
        Err(error) => {
            failure.borrow_mut().get_or_insert(error);
            OnRecord::Contested
        }
    };
    let known = Known { swimmers: &swimmers, exercises: Exercises::of(desk.protocol()), on_record: &look_up };
    let preview = read(bytes, file_name, kind, &known, options);
    match failure.into_inner() {
        Some(error) => Err(error.into()),
        None => Ok(preview),
    }
}

/// Records what a preview would change, everything or nothing; how many facts were stored. Refused while the
/// preview is not ready.
pub fn record_at(
    desk: &mut Desk,
    moment: &Moment,
    author: &Author,
    file_name: &str,
    preview: &Preview,
) -> Result<usize, AppError> {
    if !preview.is_ready() {
        return Err(AppError::new(ErrorKind::Refused, "import-not-ready")
            .with("blocking", preview.counts.blocking)
            .with("to_confirm", preview.counts.to_confirm));
    }
    if author.name.trim().is_empty() {
        return Err(AppError::new(ErrorKind::Input, "error-blank-author"));
    }
    let mut batch = Vec::new();
    for planned in preview.changes() {
        let payload = payload_of(&planned.payload.to_string())?;
        let word = planned.kind.word();
        let (id, correction) = match &planned.change {
            Change::Corrects { fact, .. } => {
                let reason = desk.texts().say("import-reason", &[("file", file_name.to_owned())]);
                let id = import_id(word, &planned.natural_key, *fact, &payload);
                (id, Some(Correction { of: *fact, reason }))
            }
            Change::Added | Change::Unchanged(_) => (deterministic_id(word, &planned.natural_key), None),
        };
        batch.push(NewFact {
            id,
            kind: word.to_owned(),
            version: 1,
            subject: planned.subject.id().unwrap_or(SubjectId::CLUB),
            payload: Some(payload),
            author: author.name.clone(),
            device: author.device.clone(),
            device_seq: 0,
            device_time: moment.stamp.clone(),
            correction,
            natural_key: Some(planned.natural_key.clone()),
        });
    }
    if batch.is_empty() {
        return Ok(0);
    }
    let outcomes = desk.append(moment, batch)?;
    Ok(outcomes.into_iter().filter(|outcome| *outcome == Outcome::Added).count())
}

/// The store's own random number: the id of the first record of the club. Nobody can tell a swimmer's id from a
/// name and a birth date without it.
pub fn namespace_of(store: &Store) -> Result<Uuid, AppError> {
    let club = store.history(SubjectId::CLUB)?;
    let first = club
        .iter()
        .filter(|fact| fact.told.kind == facts::Kind::Club.word() && fact.told.correction.is_none())
        .map(|fact| fact.told.id)
        .min();
    Ok(first.map_or(Uuid::nil(), |id| id.uuid()))
}

fn swimmers(desk: &Desk) -> Vec<KnownSwimmer> {
    desk.people()
        .map(|person| KnownSwimmer {
            subject: person.subject,
            name: person.read.swimmer.name.clone(),
            born: person.read.swimmer.born,
            club_number: person.read.swimmer.club_number.clone(),
        })
        .collect()
}

/// Live facts that no file has written.
fn by_hand(store: &Store) -> Result<HandWritten, AppError> {
    let mut index = HandWritten::default();
    for live in store.all_live_facts()? {
        let told = &live.fact.told;
        let payload = told.payload.as_ref().and_then(value_of);
        if let (None, Some(kind), Some(payload)) =
            (&told.natural_key, facts::Kind::from_word(&told.kind), payload)
        {
            index.add(told.id, kind, told.subject, payload);
        }
    }
    Ok(index)
}

fn value_of(payload: &Payload) -> Option<serde_json::Value> {
    serde_json::from_str(payload.as_str()).ok()
}

/// What the store has under a natural key.
fn on_record(
    store: &Store,
    by_hand: &HandWritten,
    kind: facts::Kind,
    natural_key: &str,
) -> Result<OnRecord, store::Error> {
    let word = kind.word();
    if let Some(head) = store.latest_by_natural_key(word, natural_key)? {
        // The head was written by a person when it carries no key; then what the file said last stands further back.
        let mut imported = None;
        let mut before = head.told.supersedes();
        while head.told.natural_key.is_none()
            && imported.is_none()
            && let Some(fact) = before.map(|id| store.fact(id)).transpose()?.flatten()
        {
            if fact.told.natural_key.is_some() {
                imported = fact.told.payload.as_ref().and_then(value_of);
            }
            before = fact.told.supersedes();
        }
        let Some(payload) = head.told.payload.as_ref().and_then(value_of) else {
            return Ok(OnRecord::LeftAlone);
        };
        return Ok(OnRecord::Live(Existing { fact: head.told.id, payload, imported }));
    }
    // No one fact stands there. Which of the reasons it is does not depend on what the row says.
    let anything = Payload::of(&serde_json::json!({})).expect("an empty object is a payload");
    Ok(match store.import_step(word, natural_key, &anything)? {
        store::ImportStep::New { .. } => {
            by_hand.find(natural_key).cloned().map_or(OnRecord::Nothing, OnRecord::Live)
        }
        store::ImportStep::Conflict { .. } => OnRecord::Contested,
        _ => OnRecord::LeftAlone,
    })
}
