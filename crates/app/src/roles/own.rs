//! What swimmers see of themselves, and guardians of their wards: the own record, and nobody else's.

use std::collections::BTreeMap;

use door::permit::{Thing, may};
use door::principal::Principal;
use jiff::civil::Date;
use serde::Serialize;
use serde_json::Value;
use trade::side::Side;
use trade::trace::{Class, Line};

use super::lines::proposal_for;
use super::practitioner::facts_of;
use super::{attended, called, seeing, water};
use crate::desk::{Desk, Person};
use crate::error::AppError;
use crate::wire::answer::{ProposalWord, Reason, Wording, shown_word};

/// Days of attendance shown.
const DAYS: i32 = 365;

/// Families of rules that every guardian may read of, whatever a teenager has agreed to: pain, urgent signs, papers.
/// All others may speak of the health history.
const FOR_EVERY_GUARDIAN: &[&str] = &["E", "U", "G1", "G2", "G3", "G4", "G5", "G8"];

/// The swimmer's own view.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SwimmerView {
    /// The record.
    pub own: OwnRecord,
}

/// A guardian's view of one ward.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GuardianView {
    /// The record.
    pub ward: OwnRecord,
}

/// One record, for those whose own business it is. Plain facts; nothing compares it with anybody else's.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OwnRecord {
    /// Random id.
    pub subject: String,
    /// What the swimmer is called.
    pub name: String,
    /// Squad.
    pub squad: String,
    /// `full`, `limited`, `not yet`, `out`.
    pub left: &'static str,
    /// The same for the right shoulder.
    pub right: &'static str,
    /// Why something is held back.
    pub reasons: Vec<Reason>,
    /// What a person decided about the water, or whom to ask.
    pub water: String,
    /// The card with its reasons.
    pub card: Vec<ProposalWord>,
    /// Days at dryland in the last year.
    pub attended: Vec<String>,
    /// What holds on record, by kind, as far as it is theirs to see.
    pub facts: BTreeMap<&'static str, Vec<Value>>,
}

impl OwnRecord {
    /// The record on one day, as this person may see it.
    pub fn of(desk: &Desk, who: &Principal, person: &Person, on: Date) -> Result<Self, AppError> {
        let about = desk.about(person.subject, on)?;
        desk.may(who, Thing::Health, about, on)?;
        let sees = |thing| may(who, thing, about, on).is_ok();
        let sees_history = sees(Thing::History);
        let readable = |line: &Line| {
            line.class != Class::Health
                || sees_history
                || FOR_EVERY_GUARDIAN.iter().any(|family| match family.len() {
                    1 => line.rule.0.starts_with(family),
                    _ => line.rule.0 == *family,
                })
        };
        let assessment = desk.assess(person, on);
        let gate = &assessment.gate;
        let wording = Wording { texts: desk.texts(), reader: desk.reader() };
        let reasons = gate.holds.iter().map(|hold| &hold.line).filter(|line| readable(line));
        let card = assessment.plan.proposals.iter().map(|proposal| {
            let mut proposal = proposal_for(who.role, proposal);
            proposal.trace.retain(readable);
            proposal.alone.retain(readable);
            wording.proposal(&proposal)
        });
        let mut facts = facts_of(desk, person, |kind| sees(seeing(kind)))?;
        strip_notes(&mut facts);
        Ok(Self {
            subject: person.subject.to_string(),
            name: called(person),
            squad: person.read.swimmer.squad.clone(),
            left: shown_word(gate.shoulder(Side::Left)),
            right: shown_word(gate.shoulder(Side::Right)),
            reasons: reasons.map(|line| wording.reason(line)).collect(),
            water: water(desk, person, on),
            card: card.collect(),
            attended: attended(person, on, DAYS),
            facts,
        })
    }
}

/// Reasons that somebody wrote beside a decision or a session are notes: handed out on request, in the archive.
fn strip_notes(facts: &mut BTreeMap<&'static str, Vec<Value>>) {
    for field in ["reason", "before_water_override", "words"] {
        for payload in facts.iter_mut().filter(|(kind, _)| **kind != "absence").flat_map(|(_, all)| all) {
            if let Value::Object(fields) = payload {
                fields.remove(field);
            }
        }
    }
}
