//! What the head coach sees: who can do what this week, and never why.

use jiff::civil::Date;
use serde::Serialize;
use trade::gate::Gate;
use trade::side::Side;

use super::{attended, called, water};
use crate::desk::{Desk, Person};
use crate::wire::answer::shown_word;

/// Days of attendance shown.
const DAYS: i32 = 28;

/// One swimmer as the head coach sees them. There is no field here that could hold a reason, a number that somebody
/// spoke, a side, or a note; whoever adds one changes what coaches see.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CoachView {
    /// Random id.
    pub subject: String,
    /// What the swimmer is called.
    pub name: String,
    /// Squad.
    pub squad: String,
    /// `full`, `limited`, `not yet`, `out`: the least of both shoulders, since which of them is a health word.
    pub availability: &'static str,
    /// How much of the dryland that leaves: `all`, `part`, `none`.
    pub activity: &'static str,
    /// The same in words.
    pub activity_words: String,
    /// When it is looked at again, if a day is set.
    pub review: Option<String>,
    /// What a person decided about the water, or whom to ask.
    pub water: String,
    /// Days at dryland in the last four weeks.
    pub attended: Vec<String>,
}

impl CoachView {
    /// The view on one day.
    pub fn of(desk: &Desk, person: &Person, on: Date) -> Self {
        let assessment = desk.assess(person, on);
        let gate = &assessment.gate;
        let worst = gate.shoulder(Side::Left).max(gate.shoulder(Side::Right));
        let gives = assessment.plan.proposals.iter().any(|proposal| proposal.dose.is_some());
        let activity = match (shown_word(worst), gives) {
            ("full", true) => "all",
            (_, true) => "part",
            (_, false) => "none",
        };
        Self {
            subject: person.subject.to_string(),
            name: called(person),
            squad: person.read.swimmer.squad.clone(),
            availability: shown_word(worst),
            activity,
            activity_words: desk.texts().word(&format!("role-activity-{activity}")),
            review: review(gate).map(|day| day.to_string()),
            water: water(desk, person, on),
            attended: attended(person, on, DAYS),
        }
    }
}

/// The latest day on which something that holds back is looked at again.
fn review(gate: &Gate) -> Option<Date> {
    gate.holds.iter().filter_map(|hold| hold.review).max()
}
