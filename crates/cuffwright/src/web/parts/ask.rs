//! What a form asks, as data: one description that is drawn on its own page and, in part, on the day's list.
//!
//! A form that comes back shows what was typed and, at each field, what is wrong with it.

use maud::{Markup, html};

use super::notice::Problem;
use crate::web::site::sent::Sent;
use crate::web::words::text;

/// One question.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// Name under which it is sent.
    pub name: &'static str,
    /// What it is called.
    pub label: String,
    /// What helps to answer it.
    pub hint: Option<String>,
    /// How it is answered.
    pub control: Control,
    /// True when it may not stay empty.
    pub needed: bool,
}

/// How a question is answered.
#[derive(Debug, Clone, PartialEq)]
pub enum Control {
    /// A day.
    Day,
    /// One line of text.
    Line,
    /// One line of text that a browser may fill in, by the word it knows it under.
    Named(&'static str),
    /// A password, by the word a browser knows it under. What was typed never comes back.
    Secret(&'static str),
    /// A number with decimals.
    Number,
    /// Several lines of text.
    Lines,
    /// One of a list: value sent, words shown.
    Pick(Vec<(String, String)>),
    /// One of a few, all in sight.
    One(Vec<(String, String)>),
    /// A pain number from 0 to 10, or not asked.
    Pain,
    /// Several of many, in groups.
    Several(Vec<Group>),
    /// One box to tick.
    Tick,
}

/// A group of boxes under one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Its heading.
    pub heading: String,
    /// What to do once one of them is ticked; empty when nothing.
    pub then: String,
    /// Goes into the class, for instance `emergency`.
    pub word: &'static str,
    /// Value sent, words shown.
    pub options: Vec<(String, String)>,
}

impl Ask {
    /// A question by its name and the name of its label in the catalogue.
    pub fn new(name: &'static str, label: &'static str, control: Control) -> Self {
        Self { name, label: text(label), hint: None, control, needed: false }
    }

    /// May not stay empty.
    pub fn needed(mut self) -> Self {
        self.needed = true;
        self
    }

    /// Adds what helps to answer it.
    pub fn hint(mut self, id: &'static str) -> Self {
        self.hint = Some(text(id));
        self
    }

    /// Id of its control, where the form is told apart by a key.
    pub fn id(&self, key: &str) -> String {
        field_id(key, self.name)
    }
}

/// Id of a control by the key of its form and its name.
pub fn field_id(key: &str, name: &str) -> String {
    if key.is_empty() { name.to_owned() } else { format!("{key}-{name}") }
}

/// Draws questions with what was typed so far.
pub fn asks(key: &str, asks: &[Ask], sent: &Sent, problems: &[Problem]) -> Markup {
    html! {
        @for ask in asks {
            @let id = ask.id(key);
            @let wrong = problems.iter().find(|problem| problem.field.as_deref() == Some(id.as_str()));
            (one(&id, ask, sent, wrong.map(|problem| problem.says.as_str())))
        }
    }
}

fn one(id: &str, ask: &Ask, sent: &Sent, problem: Option<&str>) -> Markup {
    match &ask.control {
        Control::One(options) => radios(id, ask, options, sent, problem),
        Control::Pain => pain(id, ask, sent, problem),
        Control::Several(groups) => several(id, ask, groups, sent, problem),
        Control::Tick => html! {
            div.choice.tick {
                input type="checkbox" id=(id) name=(ask.name) value="yes" checked[sent.has(ask.name, "yes")];
                label for=(id) { (ask.label) @if let Some(hint) = &ask.hint { span.choice-hint { (hint) } } }
            }
        },
        _ => lined(id, ask, sent, problem),
    }
}

fn described(id: &str, ask: &Ask, problem: Option<&str>) -> Option<String> {
    let hint = ask.hint.as_ref().map(|_| format!("{id}-hint"));
    let problem = problem.map(|_| format!("{id}-problem"));
    let both: Vec<String> = [hint, problem].into_iter().flatten().collect();
    if both.is_empty() { None } else { Some(both.join(" ")) }
}

fn remarks(id: &str, ask: &Ask, problem: Option<&str>) -> Markup {
    html! {
        @if let Some(hint) = &ask.hint { p.field-hint id={ (id) "-hint" } { (hint) } }
        @if let Some(problem) = problem { p.field-problem id={ (id) "-problem" } { (problem) } }
    }
}

fn lined(id: &str, ask: &Ask, sent: &Sent, problem: Option<&str>) -> Markup {
    let described = described(id, ask, problem);
    let invalid = problem.map(|_| "true");
    let value = sent.one(ask.name);
    html! {
        div class={ "field field-" (ask.name) } {
            label for=(id) { (ask.label) }
            (remarks(id, ask, problem))
            @match &ask.control {
                Control::Day => input type="date" id=(id) name=(ask.name) value=(value) required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid];,
                Control::Lines => textarea id=(id) name=(ask.name) rows="3" required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid] { (value) },
                Control::Pick(options) => select id=(id) name=(ask.name) required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid] {
                        @for (option, words) in options { option value=(option) selected[option == value] { (words) } }
                    },
                Control::Secret(known) => input type="password" id=(id) name=(ask.name) autocomplete=(known) required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid];,
                Control::Named(known) => input type="text" id=(id) name=(ask.name) value=(value) autocomplete=(known)
                    autocapitalize="none" spellcheck="false" required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid];,
                other => input type="text" id=(id) name=(ask.name) value=(value) autocomplete="off"
                    inputmode=[(*other == Control::Number).then_some("decimal")] required[ask.needed]
                    aria-describedby=[described] aria-invalid=[invalid];,
            }
        }
    }
}

fn radios(id: &str, ask: &Ask, options: &[(String, String)], sent: &Sent, problem: Option<&str>) -> Markup {
    html! {
        fieldset.choices id=(id) aria-describedby=[described(id, ask, problem)] {
            legend { (ask.label) }
            (remarks(id, ask, problem))
            @for (value, words) in options {
                @let option = format!("{id}-{value}");
                div.choice {
                    input type="radio" id=(option) name=(ask.name) value=(value) checked[sent.has(ask.name, value)] required[ask.needed];
                    label for=(option) { (words) }
                }
            }
        }
    }
}

/// Eleven floats in a row and "not asked", which is what stands there until somebody answers.
fn pain(id: &str, ask: &Ask, sent: &Sent, problem: Option<&str>) -> Markup {
    let given = sent.one(ask.name);
    html! {
        fieldset.pain id=(id) aria-describedby=[described(id, ask, problem)] {
            legend { (ask.label) }
            (remarks(id, ask, problem))
            div.pain-row {
                @let none = format!("{id}-none");
                span.pain-one.pain-none {
                    input type="radio" id=(none) name=(ask.name) value="" checked[given.is_empty()];
                    label for=(none) { (text("pain-not-asked")) }
                }
                @for number in 0..=10 {
                    @let option = format!("{id}-{number}");
                    span.pain-one {
                        input type="radio" id=(option) name=(ask.name) value=(number) checked[given == number.to_string()];
                        label for=(option) { (number) }
                    }
                }
            }
        }
    }
}

fn several(id: &str, ask: &Ask, groups: &[Group], sent: &Sent, problem: Option<&str>) -> Markup {
    html! {
        div.several id=(id) {
            p.several-label { (ask.label) }
            (remarks(id, ask, problem))
            @for group in groups {
                fieldset class={ "choices several-group several-" (group.word) } {
                    @if !group.heading.is_empty() { legend { (group.heading) } }
                    @if !group.then.is_empty() { p.several-then { (group.then) } }
                    @for (value, words) in &group.options {
                        @let option = format!("{id}-{value}");
                        div.choice {
                            input type="checkbox" id=(option) name=(ask.name) value=(value) checked[sent.has(ask.name, value)];
                            label for=(option) { (words) }
                        }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(label: &'static str) -> Ask {
        Ask::new("left", label, Control::Pain)
    }

    #[test]
    fn nobody_is_given_a_pain_number_that_was_not_spoken() {
        let shown = asks("k", &[number("shoulder-left")], &Sent::default(), &[]).into_string();
        assert_eq!(shown.matches(" checked").count(), 1);
        assert!(shown.contains("value=\"\" checked"), "not asked stands there: {shown}");
    }

    #[test]
    fn what_was_typed_comes_back_with_its_problem() {
        let ask = Ask::new("note", "decide-reason", Control::Lines).hint("decide-reason-hint");
        let wrong =
            Problem { says: "too <short>".into(), field: Some("k-note".into()), ..Problem::default() };
        let shown = asks("k", &[ask], &Sent::of(&[("note", "a <b>")]), &[wrong]).into_string();
        assert!(shown.contains("a &lt;b&gt;") && shown.contains("too &lt;short&gt;"));
        assert!(shown.contains("aria-describedby=\"k-note-hint k-note-problem\""));
    }
}
