//! One web error: title, message, status and a way on.
//!
//! A clinical outcome is never an error. What a person reads here says first whether anything was recorded.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};

use super::layout::{Frame, shell};
use super::parts::notice::{Problem, problems};
use super::respond;
use super::words::{Value, say, text};

/// The closed list of what can go wrong with a request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// What was sent cannot be read or breaks a rule.
    Input,
    /// Nothing stands at this address.
    Missing,
    /// The address does not take this kind of request.
    Method,
    /// The record has changed meanwhile.
    Conflict,
    /// More was sent than is taken.
    Large,
    /// The file of records cannot be reached.
    Storage,
    /// A fault of the program.
    Defect,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 7] =
        [Kind::Input, Kind::Missing, Kind::Method, Kind::Conflict, Kind::Large, Kind::Storage, Kind::Defect];

    /// The status it leaves with.
    pub const fn status(self) -> StatusCode {
        match self {
            Kind::Input => StatusCode::UNPROCESSABLE_ENTITY,
            Kind::Missing => StatusCode::NOT_FOUND,
            Kind::Method => StatusCode::METHOD_NOT_ALLOWED,
            Kind::Conflict => StatusCode::CONFLICT,
            Kind::Large => StatusCode::PAYLOAD_TOO_LARGE,
            Kind::Storage => StatusCode::SERVICE_UNAVAILABLE,
            Kind::Defect => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Kind::Input => "input",
            Kind::Missing => "missing",
            Kind::Method => "method",
            Kind::Conflict => "conflict",
            Kind::Large => "large",
            Kind::Storage => "storage",
            Kind::Defect => "defect",
        }
    }
}

/// An error on its way to a reader.
#[derive(Debug, Clone, PartialEq)]
pub struct WebError {
    /// What went wrong.
    pub kind: Kind,
    /// Each problem with its hint; may be empty.
    pub problems: Vec<Problem>,
    /// What the reader can quote, so that a log line can be found.
    pub reference: Option<String>,
    /// The page the reader came from, as a path on this site.
    pub back: Option<String>,
}

impl WebError {
    /// An error of one kind, with nothing to add.
    pub const fn new(kind: Kind) -> Self {
        Self { kind, problems: Vec::new(), reference: None, back: None }
    }

    /// Nothing stands at this address.
    pub const fn missing() -> Self {
        Self::new(Kind::Missing)
    }

    /// What was sent has these problems.
    pub fn input(problems: Vec<Problem>) -> Self {
        Self { problems, ..Self::new(Kind::Input) }
    }

    /// A fault of the program, with the reference under which it was logged.
    pub fn defect(reference: impl Into<String>) -> Self {
        Self { reference: Some(reference.into()), ..Self::new(Kind::Defect) }
    }

    /// Adds the page to go back to.
    pub fn back_to(mut self, path: impl Into<String>) -> Self {
        self.back = Some(path.into());
        self
    }

    /// The page.
    pub fn render(&self) -> Markup {
        let word = self.kind.word();
        let title = text(&format!("error-{word}-title"));
        let status = i64::from(self.kind.status().as_u16());
        let lede = text(&format!("error-{word}-message"));
        let body = html! {
            @if !self.problems.is_empty() { (problems(&self.problems)) }
            @if let Some(reference) = &self.reference {
                p { (say("error-reference", &[("reference", Value::Words(reference))])) }
            }
            h2 { (text("error-on-heading")) }
            ul.ways {
                @if let Some(back) = &self.back { li { a href=(back) { (text("error-back")) } } }
                li { a href="/due" { (text("error-to-due")) } }
                li { a href="/people" { (text("error-to-people")) } }
            }
            p.quiet { (say("error-status", &[("status", Value::Count(status))])) }
        };
        shell(&Frame { title: &title, lede: Some(&lede), ..Frame::default() }, body)
    }
}

impl IntoResponse for WebError {
    fn into_response(self) -> Response {
        respond::page_with(self.kind.status(), self.render())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_its_words_and_a_way_on() {
        for kind in Kind::ALL {
            let page = WebError::new(kind).back_to("/people/7").render().into_string();
            assert!(!page.contains('‹'), "{kind:?}: {page}");
            assert!(page.contains("href=\"/due\"") && page.contains("href=\"/people/7\""), "{kind:?}");
            assert!(page.contains(kind.status().as_str()), "{kind:?}");
        }
    }

    #[test]
    fn every_error_says_that_nothing_was_recorded_where_something_was_sent() {
        for kind in Kind::ALL {
            let page = WebError::new(kind).render().into_string();
            assert_eq!(page.contains("Nothing was recorded"), kind != Kind::Missing, "{kind:?}");
        }
    }

    #[test]
    fn a_defect_can_be_quoted_and_its_reference_is_escaped() {
        let page = WebError::defect("7f<3").render().into_string();
        assert!(page.contains("7f&lt;3"), "{page}");
    }
}
