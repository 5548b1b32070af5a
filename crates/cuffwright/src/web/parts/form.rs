//! Fields, choices, the decision form, search. Everything is a plain form that a browser sends by itself.
//!
//! A problem stands at its field in words and is tied to it, so that it is heard where it matters.

use maud::{Markup, html};

use crate::web::words::{Value, say, text};

/// One line of text.
#[derive(Debug, Clone, Copy, Default)]
pub struct Field<'a> {
    /// Name under which it is sent; also the id of the control.
    pub name: &'a str,
    /// What it is called.
    pub label: &'a str,
    /// What stands in it.
    pub value: &'a str,
    /// What helps to fill it in.
    pub hint: Option<&'a str>,
    /// What is wrong with it.
    pub problem: Option<&'a str>,
    /// Which keyboard a phone shows: `numeric`, `decimal` or none.
    pub keyboard: Option<&'a str>,
    /// True when it may not stay empty.
    pub needed: bool,
}

/// One line of text with label, hint and problem.
pub fn field(shown: &Field<'_>) -> Markup {
    labelled(shown, |described| {
        html! {
            input type="text" id=(shown.name) name=(shown.name) value=(shown.value) inputmode=[shown.keyboard] autocomplete="off"
                required[shown.needed] aria-describedby=[described] aria-invalid=[shown.problem.map(|_| "true")];
        }
    })
}

/// Several lines of text.
pub fn lines(shown: &Field<'_>) -> Markup {
    labelled(shown, |described| {
        html! {
            textarea id=(shown.name) name=(shown.name) rows="3" required[shown.needed]
                aria-describedby=[described] aria-invalid=[shown.problem.map(|_| "true")] { (shown.value) }
        }
    })
}

/// A file to send.
pub fn file(shown: &Field<'_>, accept: &str) -> Markup {
    labelled(shown, |described| {
        html! {
            input type="file" id=(shown.name) name=(shown.name) accept=(accept) required[shown.needed]
                aria-describedby=[described] aria-invalid=[shown.problem.map(|_| "true")];
        }
    })
}

/// A choice among values that a list knows: value sent, words shown.
pub fn select(shown: &Field<'_>, options: &[(&str, &str)]) -> Markup {
    labelled(shown, |described| {
        html! {
            select id=(shown.name) name=(shown.name) required[shown.needed]
                aria-describedby=[described] aria-invalid=[shown.problem.map(|_| "true")] {
                @for (value, words) in options { option value=(value) selected[*value == shown.value] { (words) } }
            }
        }
    })
}

fn labelled(shown: &Field<'_>, control: impl Fn(Option<String>) -> Markup) -> Markup {
    let hint_id = format!("{}-hint", shown.name);
    let problem_id = format!("{}-problem", shown.name);
    let described: Vec<&str> =
        [shown.hint.map(|_| hint_id.as_str()), shown.problem.map(|_| problem_id.as_str())]
            .into_iter()
            .flatten()
            .collect();
    let described = if described.is_empty() { None } else { Some(described.join(" ")) };
    html! {
        div.field {
            label for=(shown.name) { (shown.label) }
            @if let Some(hint) = shown.hint { p.field-hint id=(hint_id) { (hint) } }
            @if let Some(problem) = shown.problem { p.field-problem id=(problem_id) { (problem) } }
            (control(described))
        }
    }
}

/// One of a few, all in sight.
#[derive(Debug, Clone, Copy)]
pub struct Choice<'a> {
    /// Value sent.
    pub value: &'a str,
    /// What it says.
    pub label: &'a str,
    /// What it means.
    pub hint: Option<&'a str>,
}

/// Choices under one question. None is chosen beforehand unless `chosen` says so: an answer that is missing is
/// not an answer.
pub fn choices(name: &str, question: &str, chosen: Option<&str>, options: &[Choice<'_>]) -> Markup {
    html! {
        fieldset.choices {
            legend { (question) }
            @for option in options {
                @let id = format!("{name}-{}", option.value);
                div.choice {
                    input type="radio" id=(id) name=(name) value=(option.value) checked[chosen == Some(option.value)] required;
                    label for=(id) {
                        (option.label)
                        @if let Some(hint) = option.hint { span.choice-hint { (hint) } }
                    }
                }
            }
        }
    }
}

/// The form by which a proposal becomes a decision.
#[derive(Debug, Clone, Copy)]
pub struct Decision<'a> {
    /// Where it is sent.
    pub action: &'a str,
    /// Distinguishes the forms of one page; goes into the ids.
    pub key: &'a str,
    /// What the decision is about, short, for instance the side: tells the buttons of one page apart.
    pub about: &'a str,
    /// The same at more length, for those who hear the buttons of a page in a row; may be empty.
    pub about_unseen: &'a str,
    /// What is confirmed, in words.
    pub confirms: &'a str,
    /// What can be decided instead: value sent, words shown. Empty when only the reason is asked.
    pub instead: &'a [(&'a str, &'a str)],
    /// Most sets that can be given: fewer may be chosen. Zero when there is nothing to choose.
    pub most_sets: u8,
    /// True when somebody has to say yes or no; else the form only offers to decide otherwise.
    pub pressing: bool,
    /// What goes along unseen: name and value. Carries the state that was shown, so that a stale form is refused.
    pub hidden: &'a [(&'a str, &'a str)],
    /// What is wrong with the reason, when the form comes back.
    pub problem: Option<&'a str>,
    /// What had been chosen and written, when the form comes back.
    pub given: Option<(&'a str, &'a str)>,
}

/// Confirm, or decide otherwise and say why. Both are kept. Folded until it is wanted or comes back with a problem.
pub fn decision(shown: &Decision<'_>) -> Markup {
    let named = |part: &str| format!("{}-{part}", shown.key);
    let chosen = shown.given.map(|(choice, _)| choice);
    let reason_id = named("reason");
    let (hint_id, problem_id) = (named("reason-hint"), named("reason-problem"));
    let described = if shown.problem.is_some() { format!("{hint_id} {problem_id}") } else { hint_id.clone() };
    html! {
        details.decision open[shown.problem.is_some()] {
            summary class=(if shown.pressing { "button" } else { "button button-plain" }) {
                (say("decide-open", &[("about", Value::Words(shown.about))]))
                @if !shown.about_unseen.is_empty() { span.unseen { ", " (shown.about_unseen) } }
            }
            form method="post" action=(shown.action) {
            @for (name, value) in shown.hidden { input type="hidden" name=(name) value=(value); }
            fieldset.choices {
                legend { (text("decide-heading")) }
                div.choice {
                    input type="radio" id=(named("confirm")) name="choice" value="confirm" checked[chosen == Some("confirm")] required;
                    label for=(named("confirm")) { (text("decide-confirm")) span.choice-hint { (shown.confirms) } }
                }
                div.choice {
                    input.decision-override type="radio" id=(named("override")) name="choice" value="override" checked[chosen == Some("override")] required;
                    label for=(named("override")) { (text("decide-override")) }
                }
            }
            div.decision-otherwise {
                @if !shown.instead.is_empty() {
                    div.field {
                        label for=(named("instead")) { (text("decide-instead")) }
                        select id=(named("instead")) name="instead" {
                            @for (value, words) in shown.instead { option value=(value) { (words) } }
                        }
                    }
                }
                @if shown.most_sets > 1 {
                    div.field {
                        label for=(named("sets")) { (text("decide-sets")) }
                        select id=(named("sets")) name="sets" {
                            option value="" { (text("decide-sets-same")) }
                            @for sets in 1..shown.most_sets { option value=(sets) { (sets) } }
                        }
                    }
                    div.field {
                        label for=(named("cap")) { (text("decide-cap")) }
                        input type="text" id=(named("cap")) name="cap" inputmode="decimal" autocomplete="off";
                    }
                }
                div.field {
                    label for=(reason_id) { (text("decide-reason")) }
                    p.field-hint id=(hint_id) { (text("decide-reason-hint")) }
                    @if let Some(problem) = shown.problem { p.field-problem id=(problem_id) { (problem) } }
                    textarea id=(reason_id) name="reason" rows="2" aria-describedby=(described)
                        aria-invalid=[shown.problem.map(|_| "true")] { (shown.given.map(|(_, reason)| reason).unwrap_or_default()) }
                }
            }
            (submit(&text("decide-submit")))
            }
        }
    }
}

/// The button that sends a form.
pub fn submit(label: &str) -> Markup {
    html! { button.button type="submit" { (label) } }
}

/// One filter of a search: name sent, label, value now, options without "any".
#[derive(Debug, Clone, Copy)]
pub struct Filter<'a> {
    /// Name under which it is sent.
    pub name: &'a str,
    /// What it is called.
    pub label: &'a str,
    /// What is chosen; empty for any.
    pub value: &'a str,
    /// Value sent and words shown.
    pub options: &'a [(&'a str, &'a str)],
}

/// Filters alone, without a name to search for.
pub fn search_in(action: &str, filters: &[Filter<'_>]) -> Markup {
    html! {
        form.search method="get" action=(action) role="search" {
            (drawn(filters))
            (search_do(action, filters.iter().any(|filter| !filter.value.is_empty())))
        }
    }
}

fn drawn(filters: &[Filter<'_>]) -> Markup {
    html! {
        @for filter in filters {
            div.field {
                label for={ "search-" (filter.name) } { (filter.label) }
                select id={ "search-" (filter.name) } name=(filter.name) {
                    option value="" { (text("filter-any")) }
                    @for (value, words) in filter.options { option value=(value) selected[*value == filter.value] { (words) } }
                }
            }
        }
    }
}

fn search_do(action: &str, narrowed: bool) -> Markup {
    html! {
        div.search-do {
            (submit(&text("search-submit")))
            @if narrowed { a.button.button-plain href=(action) { (text("search-clear")) } }
        }
    }
}

/// Search by name and filters. Sent by GET, so that a found list has an address of its own.
pub fn search(action: &str, sought: &str, filters: &[Filter<'_>]) -> Markup {
    let narrowed = !sought.is_empty() || filters.iter().any(|filter| !filter.value.is_empty());
    html! {
        form.search method="get" action=(action) role="search" {
            div.field {
                label for="search-name" { (text("search-label")) }
                input type="search" id="search-name" name="name" value=(sought) autocomplete="off";
            }
            (drawn(filters))
            (search_do(action, narrowed))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_is_tied_to_its_field() {
        let shown = field(&Field {
            name: "mass",
            label: "Body mass",
            value: "x\"y",
            problem: Some("not a number"),
            hint: Some("kg"),
            ..Field::default()
        });
        let shown = shown.into_string();
        assert!(
            shown.contains("aria-describedby=\"mass-hint mass-problem\"")
                && shown.contains("aria-invalid=\"true\"")
        );
        assert!(shown.contains("value=\"x&quot;y\""), "{shown}");
        let plain = field(&Field { name: "mass", label: "Body mass", ..Field::default() }).into_string();
        assert!(!plain.contains("aria-describedby") && !plain.contains("aria-invalid"));
    }

    #[test]
    fn no_choice_is_made_for_anybody() {
        let options = [
            Choice { value: "yes", label: "Yes", hint: None },
            Choice { value: "no", label: "No", hint: None },
        ];
        assert!(!choices("fever", "Fever?", None, &options).into_string().contains(" checked"));
        assert_eq!(
            choices("fever", "Fever?", Some("no"), &options).into_string().matches(" checked").count(),
            1
        );
        let form = Decision {
            action: "/d",
            key: "k",
            about: "left",
            about_unseen: "",
            confirms: "stay",
            instead: &[],
            most_sets: 0,
            pressing: true,
            hidden: &[("seen", "a1")],
            problem: None,
            given: None,
        };
        let form = decision(&form).into_string();
        assert!(!form.contains(" checked"), "{form}");
        assert!(form.contains("name=\"seen\" value=\"a1\""));
    }

    #[test]
    fn a_refused_decision_keeps_what_was_written() {
        let form = Decision {
            action: "/d",
            key: "k",
            about: "left",
            about_unseen: "",
            confirms: "stay",
            instead: &[("b13", "rung 13 N")],
            most_sets: 3,
            pressing: true,
            hidden: &[],
            problem: Some("say why"),
            given: Some(("override", "tired <after> meet")),
        };
        let form = decision(&form).into_string();
        assert!(form.contains("tired &lt;after&gt; meet") && form.contains("k-reason-hint k-reason-problem"));
        assert_eq!(form.matches(" checked").count(), 1);
    }

    #[test]
    fn a_search_is_a_get_and_offers_the_way_back_once_narrowed() {
        let any = search("/people", "", &[]).into_string();
        assert!(any.contains("method=\"get\"") && !any.contains("Show everybody"));
        assert!(search("/people", "nuno", &[]).into_string().contains("Show everybody"));
    }
}
