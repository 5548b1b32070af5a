//! Rules and warning signs.

use app::wire::answer::urgency_word;
use trade::history::{Sign, Urgency};
use trade::protocol::Protocol;
use trade::rule::{RuleCode, catalogue, gate_rules};

use super::entry::Entry;
use crate::cli::words::word;

/// A rule by its code.
pub(super) fn rule(protocol: &Protocol, code: &str) -> Option<Entry> {
    let rule = catalogue::find(code)?;
    Some(
        Entry::new("rule", rule.code.0, rule.name)
            .part("checks", rule.checks)
            .part("matters", rule.matters)
            .part("except", rule.except)
            .part("example", rule.example)
            .part("ground", rule.ground.word())
            .part("source", rule.source)
            .numbers(protocol, rule.parameters),
    )
}

/// A warning sign by its word.
pub(super) fn sign(protocol: &Protocol, code: &str) -> Option<Entry> {
    let sign = Sign::from_word(&code.to_lowercase())?;
    let urgency = sign.urgency();
    let rule = rule_of(urgency);
    let about = catalogue::rule_of(rule);
    let whole = if sign.is_of_the_whole_person() { "cli-sign-person" } else { "cli-sign-shoulder" };
    let entry = Entry::new("sign", sign.word(), &word(&format!("sign-{}", sign.word())))
        .part("urgency", word(&format!("urgency-{}", urgency_word(urgency))))
        .part("do", word(&format!("urgency-{}-do", urgency_word(urgency))))
        .part("concerns", word(whole))
        .part("rule", rule.to_string());
    Some(match about {
        None => entry,
        Some(about) => entry
            .part("checks", about.checks)
            .part("matters", about.matters)
            .part("except", about.except)
            .part("ground", about.ground.word())
            .part("source", about.source)
            .numbers(protocol, about.parameters),
    })
}

/// The rule that speaks for a sign of this urgency.
const fn rule_of(urgency: Urgency) -> RuleCode {
    match urgency {
        Urgency::Emergency => gate_rules::U1,
        Urgency::SameDay => gate_rules::U3,
        Urgency::WithinAWeek => gate_rules::U4,
        Urgency::Talk => gate_rules::U5,
    }
}
