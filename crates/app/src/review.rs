//! The review queue: what is proposed and waits for a person, exceptions first.

use jiff::civil::Date;
use store::SubjectId;
use trade::dosing::{Action, Plan, Proposal};
use trade::name::ExerciseId;
use trade::side::WorkingSide;

use crate::desk::{Desk, Person};

/// One line of one swimmer that waits for a decision.
#[derive(Debug, Clone, PartialEq)]
pub struct Waiting {
    /// Whose.
    pub subject: SubjectId,
    /// Name, for the list.
    pub name: String,
    /// What is proposed.
    pub proposal: Proposal,
}

impl Waiting {
    /// May be accepted together with others.
    pub fn may_go_together(&self) -> bool {
        goes_together(&self.proposal)
    }
}

/// True where nothing asks that this proposal be confirmed by itself.
pub fn goes_together(proposal: &Proposal) -> bool {
    proposal.alone.is_empty() && proposal.action != Action::Ask
}

/// True where the proposal would change what a swimmer does, so that a person must say yes or no.
pub fn needs_a_decision(proposal: &Proposal) -> bool {
    let moves = proposal.dose.as_ref().is_some_and(|dose| dose.rung != proposal.from);
    match proposal.action {
        Action::Ask | Action::Switch => true,
        Action::Up | Action::Down | Action::Restart | Action::Calibrate => moves,
        Action::Stay | Action::Hold | Action::Teach | Action::LeaveOut | Action::Stop | Action::Out => false,
    }
}

/// Sets of one line on record.
pub fn sets_on_record(person: &Person, exercise: &ExerciseId, side: WorkingSide) -> usize {
    person
        .read
        .history
        .sessions
        .iter()
        .flat_map(|session| &session.blocks)
        .filter(|block| block.exercise == *exercise && block.side == side)
        .map(|block| block.sets.len())
        .sum()
}

/// A decision on the same proposal, with no set recorded since.
fn is_settled(person: &Person, proposal: &Proposal) -> bool {
    let now = sets_on_record(person, &proposal.exercise, proposal.side);
    person.read.decisions.iter().any(|decision| {
        decision.exercise == proposal.exercise.as_str()
            && WorkingSide::from(decision.side) == proposal.side
            && decision.proposed == proposal.action.word()
            && decision.sets_on_record == now
            && decision.proposed_rung.as_deref()
                == proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()).map(|rung| rung.as_str())
    })
}

/// Everything of one swimmer that waits.
pub fn waiting_for(person: &Person, plan: &Plan) -> Vec<Waiting> {
    plan.proposals
        .iter()
        .filter(|proposal| needs_a_decision(proposal) && !is_settled(person, proposal))
        .map(|proposal| Waiting {
            subject: person.subject,
            name: person.read.swimmer.name.clone(),
            proposal: proposal.clone(),
        })
        .collect()
}

impl Desk {
    /// Everything that waits on one day: what must be confirmed by itself first, then by swimmer.
    pub fn review_on(&self, on: Date) -> Vec<Waiting> {
        let mut queue: Vec<Waiting> =
            self.squad_on(on).flat_map(|person| self.assess(person, on).waiting.clone()).collect();
        queue.sort_by(|one, other| {
            let key = |waiting: &Waiting| (waiting.may_go_together(), order(waiting.proposal.action));
            key(one).cmp(&key(other)).then_with(|| one.name.cmp(&other.name)).then_with(|| {
                (&one.proposal.exercise, one.proposal.side)
                    .cmp(&(&other.proposal.exercise, other.proposal.side))
            })
        });
        queue
    }
}

const fn order(action: Action) -> u8 {
    match action {
        Action::Ask => 0,
        Action::Restart => 1,
        Action::Down => 2,
        Action::Switch => 3,
        Action::Up => 4,
        _ => 5,
    }
}
