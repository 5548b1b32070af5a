//! What must be closed: by when, what, by whom, and the fact that closes it.

use maud::{Markup, html};

use crate::web::words::{Value, say, text};

/// By when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum When {
    /// Days since it should have been closed.
    Late(u32),
    /// Today.
    Today,
    /// Tomorrow.
    Tomorrow,
    /// A later day, in words.
    On(String),
}

impl When {
    const fn word(&self) -> &'static str {
        match self {
            When::Late(_) => "late",
            When::Today => "today",
            When::Tomorrow | When::On(_) => "later",
        }
    }

    fn in_words(&self) -> String {
        match self {
            When::Late(days) => say("due-late", &[("days", Value::Count(i64::from(*days)))]),
            When::Today => text("due-today"),
            When::Tomorrow => text("due-tomorrow"),
            When::On(day) => day.clone(),
        }
    }
}

/// Where the fact that closes a line is recorded.
#[derive(Debug, Clone)]
pub enum Closing {
    /// Nowhere.
    None,
    /// Right here, in a form that opens under the line.
    Here(Markup),
    /// On a page of its own.
    There(String),
}

/// One line.
#[derive(Debug, Clone)]
pub struct DueLine {
    /// By when.
    pub when: When,
    /// About whom: name and address of the page; none for kit and the like.
    pub about: Option<(String, String)>,
    /// What it is.
    pub what: String,
    /// Who has to close it.
    pub owner: String,
    /// Where the fact that closes it is recorded.
    pub close: Closing,
    /// Why it is due; empty markup when nothing stands behind it.
    pub why: Markup,
}

/// The list, in the order given.
pub fn due_list(label: &str, lines: &[DueLine]) -> Markup {
    html! {
        ol.due aria-label=(label) {
            @for line in lines {
                li class={ "due-line due-" (line.when.word()) } {
                    p.due-when { (line.when.in_words()) }
                    div.due-what {
                        p.due-says {
                            @if let Some((name, href)) = &line.about { a href=(href) { (name) } " " }
                            (line.what)
                        }
                        (line.why)
                    }
                    p.due-owner { (say("due-owner", &[("owner", Value::Words(&line.owner))])) }
                    @match &line.close {
                        Closing::None => {}
                        Closing::There(href) => p.due-close {
                            a.button.button-plain href=(href) aria-label=(close_label(line)) { (text("due-close")) }
                        },
                        Closing::Here(form) => details.due-close.due-here {
                            summary.button.button-plain aria-label=(close_label(line)) { (text("due-close")) }
                            (form)
                        },
                    }
                }
            }
        }
    }
}

/// Ten links that all say "Close it" are no use to somebody who hears them in a row.
fn close_label(line: &DueLine) -> String {
    let about = line.about.as_ref().map(|(name, _)| format!("{name} ")).unwrap_or_default();
    format!("{}: {about}{}", text("due-close"), line.what)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lateness_is_said_in_words() {
        let line = |when| DueLine {
            when,
            about: Some(("Nuno".to_owned(), "/people/3".to_owned())),
            what: "tell the guardian".to_owned(),
            owner: text("owner-practitioner"),
            close: Closing::There("/people/3/told".to_owned()),
            why: html! {},
        };
        let shown =
            due_list("Due", &[line(When::Late(1)), line(When::Late(4)), line(When::Today)]).into_string();
        assert!(
            shown.contains("late by 1 day<")
                && shown.contains("late by 4 days<")
                && shown.contains(">today<")
        );
        assert!(shown.contains("aria-label=\"Close it: Nuno tell the guardian\""));
    }
}
