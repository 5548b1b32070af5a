//! What the owner and a practitioner see: everything.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;
use serde_json::Value;

use super::called;
use crate::desk::{Desk, Person};
use crate::error::AppError;
use crate::facts::Kind;
use crate::wire::answer::{Answer, Wording};

/// One swimmer as the practitioner sees them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PractitionerView {
    /// Random id.
    pub subject: String,
    /// What the swimmer is called.
    pub name: String,
    /// What the rules say, in full.
    pub answer: Answer,
    /// Everything that holds on record, by kind.
    pub facts: BTreeMap<&'static str, Vec<Value>>,
    /// Facts about which a person must settle something.
    pub contested: usize,
}

impl PractitionerView {
    /// The view on one day.
    pub fn of(desk: &Desk, person: &Person, on: Date) -> Result<Self, AppError> {
        let assessment = desk.assess(person, on);
        let wording = Wording { texts: desk.texts(), reader: desk.reader() };
        Ok(Self {
            subject: person.subject.to_string(),
            name: called(person),
            answer: wording.answer(&person.read.history, &assessment.gate, &assessment.due, &assessment.plan),
            facts: facts_of(desk, person, |_| true)?,
            contested: person.contested,
        })
    }
}

/// Live facts of one swimmer by kind, for the kinds that are asked for. What this version cannot read is left out.
pub(super) fn facts_of(
    desk: &Desk,
    person: &Person,
    wanted: impl Fn(Kind) -> bool,
) -> Result<BTreeMap<&'static str, Vec<Value>>, AppError> {
    let mut all: BTreeMap<&'static str, Vec<Value>> = BTreeMap::new();
    for live in desk.store().live_facts(person.subject)? {
        let kind = Kind::from_word(&live.fact.told.kind).filter(|kind| wanted(*kind));
        if let Some(kind) = kind
            && let Ok(payload) = serde_json::from_str(live.payload())
        {
            all.entry(kind.word()).or_default().push(payload);
        }
    }
    Ok(all)
}
