//! What is proposed for one exercise and side: action, dose, count, why.

use maud::{Markup, html};
use trade::dosing::{Action, Count};

use super::count::count;
use super::why::{Reason, why};
use crate::web::words::{Value, say, text};

/// The dose of the next session, in words for the reader's units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoseWords<'a> {
    /// Rung as the club calls it; none for plain exercises.
    pub rung: Option<&'a str>,
    /// Rung it comes from, where it changes.
    pub from: Option<&'a str>,
    /// Sets.
    pub sets: u8,
    /// Cap in seconds, in words; none while untimed.
    pub cap: Option<&'a str>,
    /// Rest in seconds, in words.
    pub rest: &'a str,
    /// Tempo in words.
    pub tempo: &'a str,
}

/// One proposal, ready to show.
#[derive(Debug, Clone, PartialEq)]
pub struct ProposalWords<'a> {
    /// The exercise's name; none where a heading above says it for both sides.
    pub exercise: Option<&'a str>,
    /// The side it works, in words.
    pub side: &'a str,
    /// What is proposed.
    pub action: Action,
    /// What to do; none when nothing is given.
    pub dose: Option<DoseWords<'a>>,
    /// Towards a step; none where steps do not apply.
    pub count: Option<Count>,
    /// Why.
    pub reasons: &'a [Reason],
    /// True when it is confirmed by itself.
    pub alone: bool,
}

/// The word of an action.
pub fn action_word(action: Action) -> String {
    text(match action {
        Action::Up => "page-action-up",
        Action::Stay => "page-action-stay",
        Action::Hold => "page-action-hold",
        Action::Down => "page-action-down",
        Action::Switch => "page-action-switch",
        Action::Restart => "page-action-restart",
        Action::Teach => "page-action-teach",
        Action::Calibrate => "page-action-calibrate",
        Action::LeaveOut => "page-action-leave-out",
        Action::Stop => "page-action-stop",
        Action::Out => "page-action-out",
        Action::Ask => "page-action-ask",
    })
}

/// The proposal; `below` is what follows it, for instance the decision form.
pub fn proposal(shown: &ProposalWords<'_>, below: &Markup) -> Markup {
    html! {
        article class={ "proposal proposal-" (shown.action.word()) } {
            @match shown.exercise {
                Some(exercise) => h3 { (exercise) span.proposal-side { ", " (shown.side) } },
                None => h4.proposal-side { (shown.side) },
            }
            p.proposal-action { (rungs(shown.action)) " " (action_word(shown.action)) }
            @if let Some(dose) = &shown.dose { (dose_line(dose)) }
            @if let Some(towards) = shown.count { (count(towards)) }
            (why(shown.reasons))
            @if shown.alone { p.proposal-alone { (text("decide-alone")) } }
            (below)
        }
    }
}

fn dose_line(dose: &DoseWords<'_>) -> Markup {
    let sets = dose.sets.to_string();
    html! {
        p.dose {
            @if let Some(cap) = dose.cap {
                b.dose-sets { (say("dose-sets-cap", &[("sets", Value::Words(&sets)), ("cap", Value::Words(cap))])) }
            } @else {
                b.dose-sets { (text("dose-untimed")) }
            }
            @if let Some(rung) = dose.rung {
                span.dose-part {
                    @match dose.from {
                        Some(from) => (say("dose-rung-change", &[("from", Value::Words(from)), ("to", Value::Words(rung))])),
                        None => (say("dose-rung", &[("rung", Value::Words(rung))])),
                    }
                }
            }
            span.dose-part { (say("dose-rest", &[("rest", Value::Words(dose.rest))])) }
            span.dose-part { (dose.tempo) }
        }
    }
}

/// Three rungs of a ladder and where the next session stands on them. Decoration: the word says the same.
fn rungs(action: Action) -> Markup {
    let at = match action {
        Action::Up => Some(4),
        Action::Stay | Action::Hold | Action::Switch | Action::Restart | Action::Calibrate => Some(12),
        Action::Down => Some(20),
        Action::Teach | Action::LeaveOut | Action::Stop | Action::Out | Action::Ask => None,
    };
    html! {
        svg.rungs viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false" {
            path.rungs-line d="M3 4h18M3 12h18M3 20h18" {}
            @if let Some(y) = at { rect.rungs-at x="7" y=(y - 4) width="10" height="8" rx="2.5" {} }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_action_has_its_word() {
        for action in Action::ALL {
            assert!(!action_word(action).contains('‹'), "{action:?}");
        }
    }

    #[test]
    fn a_shoulder_that_gets_nothing_shows_no_dose() {
        let none = ProposalWords {
            exercise: Some("Band external rotation"),
            side: "right",
            action: Action::Out,
            dose: None,
            count: None,
            reasons: &[],
            alone: false,
        };
        let shown = proposal(&none, &html! {}).into_string();
        assert!(shown.contains("Not given") && !shown.contains("class=\"dose\""), "{shown}");
    }
}
