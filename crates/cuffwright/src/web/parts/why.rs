//! Reasons behind a verdict: rule, sentence, source, strength of evidence.
//!
//! What a reader may not see has been taken out before it comes here.

use maud::{Markup, html};
use trade::rule::Ground;

use crate::web::words::{Value, say, text};

/// One reason, already in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reason {
    /// Code of the rule that speaks.
    pub code: String,
    /// What it says here, with its values.
    pub sentence: String,
    /// Where the rule comes from.
    pub source: String,
    /// Strength of evidence.
    pub ground: Ground,
}

/// The word for a strength of evidence.
pub fn ground_word(ground: Ground) -> String {
    text(match ground {
        Ground::Published => "why-strength-published",
        Ground::CorePractice => "why-strength-core",
        Ground::CommonPractice => "why-strength-common",
        Ground::House => "why-strength-house",
    })
}

/// A question that opens its own answer: the weightiest sentence stands outside, where it comes from and every
/// further reason inside.
pub fn why(reasons: &[Reason]) -> Markup {
    html! {
        @if let Some(first) = reasons.first() {
            div.why {
                p.why-first { (first.sentence) }
                details {
                    summary { (text("why")) }
                    (strung(reasons, Opening::SaidAbove))
                }
            }
        }
    }
}

/// Every reason in order of weight, strung on a cable.
pub fn trace(reasons: &[Reason]) -> Markup {
    strung(reasons, Opening::SaidHere)
}

/// Whether the first sentence already stands above the list, so that it need not be read twice.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Opening {
    SaidAbove,
    SaidHere,
}

fn strung(reasons: &[Reason], opening: Opening) -> Markup {
    html! {
        ol.trace aria-label=(text("trace-heading")) {
            @for (index, reason) in reasons.iter().enumerate() {
                li {
                    @if 0 < index || opening == Opening::SaidHere { p.trace-says { (reason.sentence) } }
                    p.trace-ground {
                        (rule_link(&reason.code)) ", " (ground_word(reason.ground)) ". "
                        (say("why-source", &[("source", Value::Words(&reason.source))]))
                    }
                }
            }
        }
    }
}

/// Link to a rule in the catalogue.
pub fn rule_link(code: &str) -> Markup {
    html! { a.rule href={ "/rules/" (code) } { (say("why-rule-link", &[("code", Value::Words(code))])) } }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_shows_rule_sentence_source_and_strength() {
        let reason = Reason {
            code: "P4".to_owned(),
            sentence: "The third set ended at 118 s.".to_owned(),
            source: "practice sheet".to_owned(),
            ground: Ground::CommonPractice,
        };
        assert!(trace(std::slice::from_ref(&reason)).into_string().contains("The third set"));
        let shown = why(&[reason]).into_string();
        assert_eq!(shown.matches("The third set").count(), 1, "said once, above");
        for part in ["href=\"/rules/P4\"", "The third set", "practice sheet", "common practice", "<details>"]
        {
            assert!(shown.contains(part), "{part} in {shown}");
        }
    }

    #[test]
    fn without_a_reason_there_is_no_question() {
        assert_eq!(why(&[]).into_string(), "");
    }
}
