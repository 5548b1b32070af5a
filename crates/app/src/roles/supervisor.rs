//! What the supervisor of a session sees: doses, may or may not, the allergy and emergency line, no clinical notes.

use door::role::Role;
use jiff::civil::Date;
use serde::Serialize;
use trade::side::Side;

use super::lines::proposal_for;
use super::{attended, called, water};
use crate::desk::{Desk, Person};
use crate::facts::ContactFact;
use crate::wire::answer::{ProposalWord, Wording, shown_word};

/// Age below which a session needs more supervisors.
const YOUNG_BELOW: i16 = 13;
/// Days of attendance shown.
const DAYS: i32 = 28;

/// One swimmer as the supervisor sees them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SupervisorView {
    /// Random id.
    pub subject: String,
    /// Full name, for the one who has two of a kind on deck.
    pub full_name: String,
    /// What the swimmer is called.
    pub name: String,
    /// Squad.
    pub squad: String,
    /// Counts double for the supervision ratio.
    pub is_under_13: bool,
    /// `full`, `limited`, `not yet`, `out`.
    pub left: &'static str,
    /// The same for the right shoulder.
    pub right: &'static str,
    /// Today's questions are answered; nobody starts without.
    pub asked_today: bool,
    /// May start something today.
    pub may_start: bool,
    /// The whole session is over for today.
    pub session_over: bool,
    /// Exercises that are over for today.
    pub over_today: Vec<String>,
    /// The card: every line with its dose, and why as far as it concerns the dose.
    pub card: Vec<ProposalWord>,
    /// What a person decided about the water, or whom to ask.
    pub water: String,
    /// Allergy and emergency line.
    pub emergency: Option<String>,
    /// Whom to ring.
    pub contacts: Vec<ContactFact>,
    /// Days at dryland in the last four weeks.
    pub attended: Vec<String>,
}

impl SupervisorView {
    /// The view on one day.
    pub fn of(desk: &Desk, person: &Person, on: Date) -> Self {
        let assessment = desk.assess(person, on);
        let gate = &assessment.gate;
        let wording = Wording { texts: desk.texts(), reader: desk.reader() };
        let card: Vec<ProposalWord> = assessment
            .plan
            .proposals
            .iter()
            .map(|proposal| wording.proposal(&proposal_for(Role::Supervisor, proposal)))
            .collect();
        let swimmer = &person.read.swimmer;
        let is_over = gate.stop_today.session || gate.stop_today.all_shoulder;
        Self {
            subject: person.subject.to_string(),
            full_name: swimmer.name.clone(),
            name: called(person),
            squad: swimmer.squad.clone(),
            is_under_13: person.read.history.swimmer.age_on(on) < YOUNG_BELOW,
            left: shown_word(gate.shoulder(Side::Left)),
            right: shown_word(gate.shoulder(Side::Right)),
            asked_today: gate.questions_answered,
            may_start: gate.questions_answered && !is_over && card.iter().any(|line| line.dose.is_some()),
            session_over: gate.stop_today.session,
            over_today: gate.stop_today.exercises.iter().map(ToString::to_string).collect(),
            card,
            water: water(desk, person, on),
            emergency: swimmer.emergency_note.clone(),
            contacts: swimmer.contacts.clone(),
            attended: attended(person, on, DAYS),
        }
    }
}
