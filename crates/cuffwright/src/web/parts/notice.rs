//! What a form did, what is wrong and what to try, and what to do where nothing stands yet.

use maud::{Markup, html};

use crate::web::words::{Value, say, text};

/// What came of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// A fact was recorded.
    Done,
    /// It was on record already.
    Unchanged,
    /// It was refused.
    Refused,
    /// It is possible but unusual; a person must say so again.
    Ask,
}

impl Outcome {
    const fn word(self) -> &'static str {
        match self {
            Outcome::Done => "done",
            Outcome::Unchanged => "unchanged",
            Outcome::Refused => "refused",
            Outcome::Ask => "ask",
        }
    }

    /// Only a refusal interrupts whoever listens; the others wait for a pause.
    const fn role(self) -> &'static str {
        match self {
            Outcome::Refused | Outcome::Ask => "alert",
            Outcome::Done | Outcome::Unchanged => "status",
        }
    }
}

/// What came of a form, with a sentence.
pub fn outcome(outcome: Outcome, sentence: &str) -> Markup {
    html! {
        div class={ "outcome outcome-" (outcome.word()) } role=(outcome.role()) {
            (mark(outcome))
            p { b { (text(&format!("outcome-{}", outcome.word()))) ". " } (sentence) }
        }
    }
}

fn mark(outcome: Outcome) -> Markup {
    let path = match outcome {
        Outcome::Done => "M4 13l6 6L20 5",
        Outcome::Unchanged => "M4 9h16M4 15h16",
        Outcome::Refused => "M5 5l14 14M19 5L5 19",
        Outcome::Ask => "M12 3v11M12 19v2",
    };
    html! {
        svg.outcome-mark viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false" { path d=(path) {} }
    }
}

/// One problem: where, what, and what to try.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problem {
    /// Where, in the reader's terms: "row 7, column mass", or a field's name. May be empty.
    pub place: String,
    /// What is wrong.
    pub says: String,
    /// What to try; may be empty.
    pub hint: String,
    /// Id of the field it stands at, so that one touch leads there.
    pub field: Option<String>,
}

/// Every problem at once, never just the first.
pub fn problems(list: &[Problem]) -> Markup {
    html! {
        section.problems aria-labelledby="problems" {
            h2 id="problems" { (say("list-problems", &[("n", Value::Count(list.len() as i64))])) }
            ol {
                @for problem in list {
                    li {
                        p {
                            @if !problem.place.is_empty() {
                                @if let Some(field) = &problem.field { a href={ "#" (field) } { (problem.place) } }
                                @else { b { (problem.place) } }
                                ": "
                            }
                            (problem.says)
                        }
                        @if !problem.hint.is_empty() {
                            p.problem-hint { (say("problem-hint", &[("hint", Value::Words(&problem.hint))])) }
                        }
                    }
                }
            }
        }
    }
}

/// Nothing stands here yet: say so, and what to do about it.
pub fn empty(sentence: &str, next: Option<(&str, &str)>) -> Markup {
    html! {
        div.empty {
            svg.empty-rope viewBox="0 0 148 24" width="148" height="24" aria-hidden="true" focusable="false" {
                path.rope-cable d="M0 12h148" {}
                @for x in [6, 24, 42, 60, 78, 96, 114, 132] { rect.rope-float x=(x) y="3" width="12" height="18" rx="3" {} }
            }
            p { (sentence) }
            @if let Some((words, href)) = next { p { a.button href=(href) { (words) } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_outcome_says_what_it_is() {
        for one in [Outcome::Done, Outcome::Unchanged, Outcome::Refused, Outcome::Ask] {
            let shown = outcome(one, "x").into_string();
            assert!(!shown.contains('‹') && shown.contains("<b>"), "{shown}");
        }
        assert!(outcome(Outcome::Refused, "x").into_string().contains("role=\"alert\""));
    }

    #[test]
    fn problems_are_counted_placed_and_hinted() {
        let list = [
            Problem {
                place: "row 7, mass".to_owned(),
                says: "412 kg".to_owned(),
                hint: "41.2".to_owned(),
                field: None,
            },
            Problem {
                says: "no name".to_owned(),
                field: Some("name".to_owned()),
                place: "Name".to_owned(),
                ..Problem::default()
            },
        ];
        let shown = problems(&list).into_string();
        assert!(
            shown.contains("2 problems") && shown.contains("Try: 41.2") && shown.contains("href=\"#name\"")
        );
    }
}
