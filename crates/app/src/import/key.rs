//! Natural keys, and the ids that follow from them: the same row gets the same id, however often it is imported.

use std::collections::BTreeMap;

use serde_json::Value;
use uuid::Uuid;

use super::people::Existing;
use super::words::{name_key, number_key};
use crate::facts::Kind;

/// The id of a fact that is recorded under a natural key for the first time.
pub fn fact_id(namespace: Uuid, natural_key: &str) -> Uuid {
    Uuid::new_v5(&namespace, format!("fact/{natural_key}").as_bytes())
}

/// The id of a fact that corrects another. It depends on what it corrects, so that going back to an earlier value
/// is a new correction and not an old one repeated.
pub(super) fn correction_id(namespace: Uuid, natural_key: &str, corrects: Uuid, payload: &Value) -> Uuid {
    Uuid::new_v5(&namespace, format!("correction/{natural_key}/{corrects}/{payload}").as_bytes())
}

/// The subject id of a swimmer who is not on record yet.
pub(super) fn subject_id(namespace: Uuid, number: Option<&str>, name: &str, born: jiff::civil::Date) -> Uuid {
    let whom = match number {
        Some(number) => format!("number/{}", number_key(number)),
        None => format!("name/{}/{born}", name_key(name)),
    };
    Uuid::new_v5(&namespace, format!("swimmer/{whom}").as_bytes())
}

/// A club's mark on a piece, for comparison.
fn mark_key(mark: &str) -> String {
    mark.trim().to_lowercase()
}

/// The natural key of a fact, from its payload. Kinds that are never imported have none; nor has pain, because two
/// reports of one moment are both kept.
pub fn natural_key(kind: Kind, subject: Option<Uuid>, payload: &Value) -> Option<String> {
    let text = |name: &str| payload.get(name).and_then(Value::as_str);
    let number = |name: &str| payload.get(name).and_then(Value::as_u64);
    let word = kind.word();
    if kind == Kind::KitPiece {
        return Some(format!("{word}/{}", mark_key(text("mark")?)));
    }
    let whose = subject?;
    Some(match kind {
        Kind::Swimmer => format!("{word}/{whose}"),
        Kind::Consent => format!("{word}/{whose}/{}", text("signed")?),
        Kind::Intake | Kind::Screening | Kind::Growth => format!("{word}/{whose}/{}", text("date")?),
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
pub(super) fn pain_key(subject: Uuid, date: jiff::civil::Date, session: u8, when: &str) -> String {
    format!("pain/{subject}/{date}/{session}/{when}")
}

/// Live facts on record, found by natural key or by the id that began their line of corrections.
#[derive(Debug, Clone, Default)]
pub struct ExistingFacts {
    by_first: BTreeMap<Uuid, Existing>,
    by_key: BTreeMap<String, Existing>,
}

impl ExistingFacts {
    /// Adds a live fact. `first` is the fact at the beginning of its line of corrections: itself, where none was
    /// corrected.
    pub fn add(&mut self, first: Uuid, live: Uuid, kind: Kind, subject: Option<Uuid>, payload: Value) {
        let existing = Existing { fact: live, payload };
        if let Some(key) = natural_key(kind, subject, &existing.payload) {
            // Two facts under one key were entered by hand; whichever order they come in, the same one is compared.
            let slot = self.by_key.entry(key).or_insert_with(|| existing.clone());
            if existing.fact < slot.fact {
                *slot = existing.clone();
            }
        }
        self.by_first.insert(first, existing);
    }

    /// The live fact under a natural key, or of the line that this id began.
    pub fn find(&self, natural_key: &str, first: Uuid) -> Option<Existing> {
        self.by_first.get(&first).or_else(|| self.by_key.get(natural_key)).cloned()
    }
}
