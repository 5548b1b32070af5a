//! Importing into the desk: what a club's file would change, and then the change itself, all or nothing.

use jiff::civil::Date;
use serde_json::Value;
use store::{Correction, FactId, ImportStep, NewFact, Payload, SubjectId, deterministic_id, import_id};

use crate::desk::{Author, Desk};
use crate::error::{AppError, ErrorKind};
use crate::facts::{ContextWord, Kind};
use crate::import::{
    self, Change, Exercises, Existing, FileProblem, HandWritten, Known, KnownSwimmer, OnRecord, Options,
    PlannedFact, Preview,
};
use crate::moment::Moment;
use crate::text::Texts;

/// A file as it was handed in, with what a person has said about it.
#[derive(Debug, Clone)]
pub struct Incoming<'a> {
    /// Its bytes.
    pub bytes: &'a [u8],
    /// Its name, for the ending and for the record.
    pub name: &'a str,
    /// What it is a list of; its headers decide where nobody said.
    pub kind: Option<import::Kind>,
    /// Order of day and month, where the file does not settle it.
    pub dates: Option<import::DateOrder>,
    /// Context of past sessions, where the file does not say.
    pub context: Option<ContextWord>,
    /// Unusual values are meant.
    pub accept_unusual: bool,
}

/// What an import did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Done {
    /// Facts added.
    pub added: usize,
    /// Facts corrected.
    pub corrected: usize,
    /// Facts that were on record already.
    pub unchanged: usize,
}

/// Why there is no preview: the file itself, or the record.
#[derive(Debug)]
pub enum NoPreview {
    /// The file cannot be read as a table, or nobody can tell what it lists.
    File(FileProblem),
    /// The record cannot be read, or is not ready.
    Record(AppError),
}

impl From<AppError> for NoPreview {
    fn from(error: AppError) -> Self {
        NoPreview::Record(error)
    }
}

impl Desk {
    /// What importing a file would do. Nothing is stored.
    pub fn preview_import(&self, today: Date, file: &Incoming<'_>) -> Result<Preview, NoPreview> {
        let options = Options {
            units: self.reader().units,
            dates: file.dates,
            context: file.context,
            accept_unusual: file.accept_unusual,
            ..Options::new(today, self.namespace()?)
        };
        let swimmers: Vec<KnownSwimmer> = self
            .people()
            .map(|person| KnownSwimmer {
                subject: person.subject,
                name: person.read.swimmer.name.clone(),
                born: person.read.swimmer.born,
                club_number: person.read.swimmer.club_number.clone(),
            })
            .collect();
        let by_hand = self.hand_written()?;
        // The first trouble with the store is kept: a row whose record cannot be read must not look new.
        let trouble = std::cell::RefCell::new(None);
        let on_record = |kind: Kind, key: &str| match self.on_record(kind, key, &by_hand) {
            Ok(found) => found,
            Err(error) => {
                trouble.borrow_mut().get_or_insert(error);
                OnRecord::Contested
            }
        };
        let known =
            Known { swimmers: &swimmers, exercises: Exercises::of(self.protocol()), on_record: &on_record };
        let preview =
            import::read(file.bytes, file.name, file.kind, &known, &options).map_err(NoPreview::File)?;
        match trouble.into_inner() {
            Some(error) => Err(NoPreview::Record(error)),
            None => Ok(preview),
        }
    }

    /// Stores what a preview shows, all or nothing. A preview that is not ready is refused.
    pub fn import(
        &mut self,
        moment: &Moment,
        author: &Author,
        preview: &Preview,
        file_name: &str,
    ) -> Result<Done, AppError> {
        if author.name.trim().is_empty() {
            return Err(AppError::new(ErrorKind::Input, "error-blank-author"));
        }
        if !preview.is_ready() {
            return Err(
                AppError::new(ErrorKind::Input, "error-import-not-ready").hint("error-import-not-ready-hint")
            );
        }
        let mut facts = Vec::new();
        let mut done = Done { added: 0, corrected: 0, unchanged: preview.counts.unchanged };
        for planned in preview.changes() {
            facts.push(new_fact(moment, author, planned, file_name)?);
            match planned.change {
                Change::Corrects { .. } => done.corrected += 1,
                Change::Added | Change::Unchanged(_) => done.added += 1,
            }
        }
        if !facts.is_empty() {
            self.append(moment, facts)?;
        }
        Ok(done)
    }

    /// The store's own random number: the id under which the club was first described.
    fn namespace(&self) -> Result<uuid::Uuid, AppError> {
        self.store()
            .history(SubjectId::CLUB)?
            .iter()
            .find(|fact| fact.told.kind == Kind::Club.word() && fact.told.correction.is_none())
            .map(|fact| fact.told.id.uuid())
            .ok_or_else(|| AppError::new(ErrorKind::Refused, "error-no-club").hint("error-no-club-hint"))
    }

    fn hand_written(&self) -> Result<HandWritten, AppError> {
        let mut found = HandWritten::default();
        for live in self.store().all_live_facts()? {
            let told = &live.fact.told;
            if told.natural_key.is_none()
                && let Some(kind) = Kind::from_word(&told.kind)
                && let Ok(payload) = serde_json::from_str::<Value>(live.payload())
            {
                found.add(told.id, kind, told.subject, payload);
            }
        }
        Ok(found)
    }

    fn on_record(&self, kind: Kind, key: &str, by_hand: &HandWritten) -> Result<OnRecord, AppError> {
        // A payload that no fact has: the step then tells what stands there, whatever the row says.
        let nothing = Payload::from_text("[]").expect("an empty list is JSON");
        Ok(match self.store().import_step(kind.word(), key, &nothing)? {
            ImportStep::New { .. } => {
                by_hand.find(key).map_or(OnRecord::Nothing, |existing| OnRecord::Live(existing.clone()))
            }
            ImportStep::Unchanged { id } | ImportStep::CorrectedByHand { id } => self.live(id, None)?,
            ImportStep::Changed { supersedes, by_hand, .. } => {
                let imported = if by_hand { self.last_imported(supersedes)? } else { None };
                self.live(supersedes, imported)?
            }
            ImportStep::Retracted { .. } | ImportStep::Erased => OnRecord::LeftAlone,
            ImportStep::Conflict { .. } => OnRecord::Contested,
        })
    }

    fn live(&self, id: FactId, imported: Option<Value>) -> Result<OnRecord, AppError> {
        let payload =
            self.store().fact(id)?.and_then(|fact| fact.told.payload).and_then(|payload| value(&payload));
        Ok(payload
            .map_or(OnRecord::Contested, |payload| OnRecord::Live(Existing { fact: id, payload, imported })))
    }

    /// What a file last said before a person corrected it: the nearest fact with a key, back along the corrections.
    fn last_imported(&self, head: FactId) -> Result<Option<Value>, AppError> {
        let mut next = Some(head);
        while let Some(id) = next {
            let Some(fact) = self.store().fact(id)? else { break };
            if fact.told.natural_key.is_some() {
                return Ok(fact.told.payload.as_ref().and_then(value));
            }
            next = fact.told.supersedes();
        }
        Ok(None)
    }
}

fn value(payload: &Payload) -> Option<Value> {
    serde_json::from_str(payload.as_str()).ok()
}

fn new_fact(
    moment: &Moment,
    author: &Author,
    planned: &PlannedFact,
    file: &str,
) -> Result<NewFact, AppError> {
    let payload = Payload::of(&planned.payload).map_err(|error| {
        AppError::new(ErrorKind::Input, "error-payload").with("detail", format!("{error:?}"))
    })?;
    let kind = planned.kind.word();
    let (id, correction) = match &planned.change {
        Change::Corrects { fact, .. } => (
            import_id(kind, &planned.natural_key, *fact, &payload),
            Some(Correction {
                of: *fact,
                reason: Texts::english().say("import-reason", &[("file", file.to_owned())]),
            }),
        ),
        Change::Added | Change::Unchanged(_) => (deterministic_id(kind, &planned.natural_key), None),
    };
    Ok(NewFact {
        id,
        kind: kind.to_owned(),
        version: 1,
        subject: planned.subject.id().unwrap_or(SubjectId::CLUB),
        payload: Some(payload),
        author: author.name.clone(),
        device: author.device.clone(),
        device_seq: 0,
        device_time: moment.stamp.clone(),
        correction,
        natural_key: Some(planned.natural_key.clone()),
    })
}
