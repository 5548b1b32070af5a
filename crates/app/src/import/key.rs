//! Natural keys: the same row has the same key, however often it is imported; the store's ids follow from it.

use std::collections::BTreeMap;

use serde_json::Value;
use store::{FactId, SubjectId};
use uuid::Uuid;

use super::people::Existing;
use super::words::{name_key, number_key};
use crate::facts::Kind;

/// The subject id of a swimmer who is not on record yet.
pub(crate) fn subject_id(
    namespace: Uuid,
    number: Option<&str>,
    name: &str,
    born: jiff::civil::Date,
) -> SubjectId {
    let whom = match number {
        Some(number) => format!("number/{}", number_key(number)),
        None => format!("name/{}/{born}", name_key(name)),
    };
    SubjectId::from_uuid(Uuid::new_v5(&namespace, format!("swimmer/{whom}").as_bytes()))
}

/// A club's mark on a piece, for comparison.
fn mark_key(mark: &str) -> String {
    mark.trim().to_lowercase()
}

/// The natural key of a fact, from its payload. Kinds that are never imported have none; nor has pain, because two
/// reports of one moment are both kept.
pub fn natural_key(kind: Kind, subject: SubjectId, payload: &Value) -> Option<String> {
    let text = |name: &str| payload.get(name).and_then(Value::as_str);
    let number = |name: &str| payload.get(name).and_then(Value::as_u64);
    let word = kind.word();
    if kind == Kind::KitPiece {
        return Some(format!("{word}/{}", mark_key(text("mark")?)));
    }
    let whose = subject;
    Some(match kind {
        Kind::Swimmer => format!("{word}/{whose}"),
        Kind::Consent => format!("{word}/{whose}/{}", text("signed")?),
        Kind::Intake | Kind::Growth => format!("{word}/{whose}/{}", text("date")?),
        // A station's own record of a day is not the day's row of a file: neither replaces the other.
        Kind::Screening => match text("station") {
            Some(station) => format!("{word}/{whose}/{}/{station}", text("date")?),
            None => format!("{word}/{whose}/{}", text("date")?),
        },
        Kind::Session => format!("{word}/{whose}/{}/{}", text("date")?, number("number")?),
        Kind::Set => format!(
            "{word}/{whose}/{}/{}/{}/{}/{}",
            text("date")?,
            number("session")?,
            text("exercise")?,
            text("side")?,
            number("number")?
        ),
        _ => return None,
    })
}

/// The key under which pain of one moment of one session is imported.
pub(super) fn pain_key(subject: SubjectId, date: jiff::civil::Date, session: u8, when: &str) -> String {
    format!("pain/{subject}/{date}/{session}/{when}")
}

/// Live facts on record that were written by hand and carry no natural key of a file; found by the key that a file's
/// row of the same content would have.
#[derive(Debug, Clone, Default)]
pub struct HandWritten(BTreeMap<String, Existing>);

impl HandWritten {
    /// Adds a live fact.
    pub fn add(&mut self, fact: FactId, kind: Kind, subject: SubjectId, payload: Value) {
        let Some(key) = natural_key(kind, subject, &payload) else { return };
        let existing = Existing { fact, payload, imported: None };
        // Two facts under one key: whichever order they come in, the same one is compared.
        let slot = self.0.entry(key).or_insert_with(|| existing.clone());
        if fact < slot.fact {
            *slot = existing;
        }
    }

    /// The live fact under a natural key.
    pub fn find(&self, natural_key: &str) -> Option<&Existing> {
        self.0.get(natural_key)
    }
}
