//! One person's whole record: everything ever recorded about them, corrections and decisions included, once for
//! reading and once for machines. What it says of others is only who wrote it down.

use std::collections::BTreeSet;
use std::io::{Cursor, Write};

use door::permit::Thing;
use door::principal::Principal;
use serde_json::{Value, json};
use store::{Digest, Fact, SubjectId};
use zip::CompressionMethod;
use zip::write::{SimpleFileOptions, ZipWriter};

use super::page;
use crate::desk::Desk;
use crate::entry::audit::Act;
use crate::entry::audit::{self, Seen};
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// Version of the archive's shape.
pub const SHAPE: &str = "cuffwright-person-1";

/// Files by their path, in a fixed order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Archive {
    /// Path and bytes.
    pub files: Vec<(String, Vec<u8>)>,
}

/// Everything that an archive is made of.
pub(super) struct Whole {
    pub(super) name: String,
    pub(super) made: String,
    /// Every fact in order of arrival, with whether it still holds.
    pub(super) facts: Vec<(Fact, Holds)>,
    /// Facts that wait for a person because their id was taken.
    pub(super) waiting: Vec<Fact>,
    pub(super) seen: Vec<Seen>,
}

/// How a fact stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    Yes,
    /// It holds, and a person must settle something about it.
    Contested,
    /// Another fact stands in its place.
    Replaced,
    /// It takes another back.
    TakesBack,
}

impl Holds {
    const fn word(self) -> &'static str {
        match self {
            Holds::Yes => "holds",
            Holds::Contested => "contested",
            Holds::Replaced => "replaced",
            Holds::TakesBack => "takes-back",
        }
    }
}

impl Archive {
    /// The same as one zip file: equal archives give equal bytes.
    pub fn to_zip(&self) -> Result<Vec<u8>, AppError> {
        let failed = |error: &dyn std::fmt::Display| {
            AppError::new(ErrorKind::Storage, "error-storage")
                .with("detail", error)
                .hint("error-storage-hint")
        };
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        let how = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        for (path, bytes) in &self.files {
            zip.start_file(path, how).map_err(|error| failed(&error))?;
            zip.write_all(bytes).map_err(|error| failed(&error))?;
        }
        Ok(zip.finish().map_err(|error| failed(&error))?.into_inner())
    }
}

impl Desk {
    /// One person's whole record; that it was handed out is written down.
    pub fn archive_of(
        &mut self,
        moment: &Moment,
        who: &Principal,
        subject: SubjectId,
    ) -> Result<Archive, AppError> {
        self.may_about(who, Thing::Archive, subject, moment.today)?;
        let whole = self.whole(moment, who, subject)?;
        let texts = self.texts();
        let mut files = vec![
            (
                "READ-ME.txt".to_owned(),
                texts
                    .say(
                        "archive-read-me",
                        &[
                            ("name", whole.name.clone()),
                            ("made", crate::text::day(moment.today)),
                            ("facts", whole.facts.len().to_string()),
                        ],
                    )
                    .into_bytes(),
            ),
            ("record.html".to_owned(), page::record(self, &whole).into_bytes()),
            ("record.json".to_owned(), pretty(&record(subject, &whole)?)),
            ("seen-and-changed.json".to_owned(), pretty(&looks(&whole.seen))),
        ];
        for (hash, text) in self.protocols_behind(&whole)? {
            files.push((format!("protocols/{hash}.toml"), text.into_bytes()));
        }
        let entry = audit::by(moment, who, Act::Archived, Some(Thing::Archive)).about(subject);
        self.store_mut().at_door(|door| door.audit(&entry.into()))?;
        Ok(Archive { files })
    }

    fn whole(&self, moment: &Moment, who: &Principal, subject: SubjectId) -> Result<Whole, AppError> {
        let live = self.store().live_facts(subject)?;
        let standing = |fact: &Fact| {
            let found = live.iter().find(|live| live.fact.told.id == fact.told.id);
            match found {
                Some(live) if live.contested => Holds::Contested,
                Some(_) => Holds::Yes,
                None if fact.told.payload.is_none() => Holds::TakesBack,
                None => Holds::Replaced,
            }
        };
        let facts = self.store().history(subject)?.into_iter().map(|fact| (fact.clone(), standing(&fact)));
        let facts: Vec<(Fact, Holds)> = facts.collect();
        let refusals = self.store().open_refusals()?.into_iter().map(|refusal| refusal.offered);
        Ok(Whole {
            name: self.person(subject)?.read.swimmer.name.clone(),
            made: moment.stamp.clone(),
            facts,
            waiting: refusals.filter(|fact| fact.told.subject == subject).collect(),
            seen: self.audit(moment, who, audit::Of::Record(subject), None, u32::MAX)?,
        })
    }

    /// The text of every protocol that a decision names, by its hash, as far as it is kept.
    fn protocols_behind(&self, whole: &Whole) -> Result<Vec<(String, String)>, AppError> {
        let mut hashes = BTreeSet::new();
        for (fact, _) in &whole.facts {
            if let Some(hash) = payload(fact)?["protocol"].as_str() {
                hashes.insert(hash.to_owned());
            }
        }
        let mut found = Vec::new();
        for hash in hashes {
            if let Ok(digest) = hash.parse::<Digest>()
                && let Some(text) = self.store().document(digest)?
            {
                found.push((hash, text));
            }
        }
        Ok(found)
    }
}

/// A payload as JSON; null for a retraction.
pub(super) fn payload(fact: &Fact) -> Result<Value, AppError> {
    let Some(payload) = &fact.told.payload else { return Ok(Value::Null) };
    serde_json::from_str(payload.as_str()).map_err(|error| {
        AppError::new(ErrorKind::Storage, "error-storage").with("detail", error).hint("error-storage-hint")
    })
}

fn record(subject: SubjectId, whole: &Whole) -> Result<Value, AppError> {
    let facts = whole.facts.iter().map(|(fact, holds)| line(fact, holds.word()));
    let waiting = whole.waiting.iter().map(|fact| line(fact, "waiting"));
    Ok(json!({
        "shape": SHAPE,
        "subject": subject.to_string(),
        "made": whole.made,
        "facts": facts.collect::<Result<Vec<_>, _>>()?,
        "waiting": waiting.collect::<Result<Vec<_>, _>>()?,
    }))
}

fn line(fact: &Fact, stands: &str) -> Result<Value, AppError> {
    let told = &fact.told;
    Ok(json!({
        "id": told.id.to_string(),
        "kind": told.kind,
        "version": told.version,
        "stands": stands,
        "payload": payload(fact)?,
        "author": told.author,
        "device": told.device,
        "device_time": told.device_time,
        "received": fact.received,
        "corrects": told.correction.as_ref().map(|correction| correction.of.to_string()),
        "reason": told.correction.as_ref().map(|correction| correction.reason.clone()),
    }))
}

fn looks(seen: &[Seen]) -> Value {
    let rows = seen.iter().map(|row| {
        json!({
            "at": page::instant(row.at),
            "who": row.name,
            "role": row.role.map(door::role::Role::word),
            "act": row.act,
            "thing": row.thing.map(Thing::word),
            "everybody": row.everybody,
        })
    });
    Value::Array(rows.collect())
}

fn pretty(value: &Value) -> Vec<u8> {
    serde_json::to_vec_pretty(value).expect("a value can always be written as JSON")
}
