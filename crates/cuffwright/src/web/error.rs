//! One web error: title, message, status and a way on.
//!
//! A clinical outcome is never an error. What a person reads here says first whether anything was recorded.

use app::desk::Desk;
use app::error::{AppError, ErrorKind};
use app::text::Texts;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};

use super::layout::{Frame, shell};
use super::parts::notice::{Problem, problems};
use super::respond;
use super::site::visit::Visit;
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
    /// It contradicts what is on record, or a rule that nobody may override.
    Refused,
    /// A form that does not come from our own page of this start.
    Foreign,
    /// Asked under a name that is not this machine's.
    Elsewhere,
    /// It took too long to arrive.
    Slow,
    /// Nobody has signed in, or not for a while.
    SignIn,
    /// Not for this role, or not this record.
    Denied,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 13] = [
        Kind::Input,
        Kind::Missing,
        Kind::Method,
        Kind::Conflict,
        Kind::Large,
        Kind::Storage,
        Kind::Defect,
        Kind::Refused,
        Kind::Foreign,
        Kind::Elsewhere,
        Kind::Slow,
        Kind::SignIn,
        Kind::Denied,
    ];

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
            Kind::Refused => StatusCode::CONFLICT,
            Kind::Foreign => StatusCode::FORBIDDEN,
            Kind::Elsewhere => StatusCode::MISDIRECTED_REQUEST,
            Kind::Slow => StatusCode::REQUEST_TIMEOUT,
            Kind::SignIn => StatusCode::UNAUTHORIZED,
            Kind::Denied => StatusCode::FORBIDDEN,
        }
    }

    /// Title and message.
    const fn says(self) -> (&'static str, &'static str) {
        match self {
            Kind::Input => ("error-input-title", "error-input-message"),
            Kind::Missing => ("error-missing-title", "error-missing-message"),
            Kind::Method => ("error-method-title", "error-method-message"),
            Kind::Conflict => ("error-conflict-title", "error-conflict-message"),
            Kind::Large => ("error-large-title", "error-large-message"),
            Kind::Storage => ("error-storage-title", "error-storage-message"),
            Kind::Defect => ("error-defect-title", "error-defect-message"),
            Kind::Refused => ("error-refused-title", "error-refused-message"),
            Kind::Foreign => ("error-foreign-title", "error-foreign-message"),
            Kind::Elsewhere => ("error-elsewhere-title", "error-elsewhere-message"),
            Kind::Slow => ("error-slow-title", "error-slow-message"),
            Kind::SignIn => ("error-sign-in-title", "error-sign-in-message"),
            Kind::Denied => ("error-denied-title", "error-denied-message"),
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
        self.render_in(Frame::default())
    }

    /// The answer to one visit: with its own club, places and way out.
    pub fn answer(&self, desk: &Desk, visit: &Visit) -> Response {
        let page = visit.framed(desk, Frame::default(), |frame| self.render_in(frame));
        respond::page_with(self.kind.status(), page)
    }

    fn render_in(&self, frame: Frame<'_>) -> Markup {
        let (title, lede) = self.kind.says();
        let (title, lede) = (text(title), text(lede));
        let status = i64::from(self.kind.status().as_u16());
        let body = html! {
            @if self.kind == Kind::Denied {
                // Not a fault of anybody's, so it is told and not counted.
                @for problem in &self.problems { p { (problem.says) } }
            } @else if !self.problems.is_empty() { (problems(&self.problems)) }
            @if let Some(reference) = &self.reference {
                p { (say("error-reference", &[("reference", Value::Words(reference))])) }
            }
            h2 { (text("error-on-heading")) }
            ul.ways {
                @if let Some(back) = &self.back { li { a href=(back) { (text("error-back")) } } }
                @if self.kind == Kind::SignIn { li { a href="/sign-in" { (text("error-to-sign-in")) } } }
                li { a href="/" { (text("error-to-first")) } }
                li { a href="/people" { (text("error-to-people")) } }
            }
            p.quiet { (say("error-status", &[("status", Value::Count(status))])) }
        };
        shell(&Frame { title: &title, lede: Some(&lede), ..frame }, body)
    }
}

impl From<AppError> for WebError {
    fn from(error: AppError) -> Self {
        let kind = match error.kind {
            _ if app::entry::problem::is_denial(&error) => Kind::Denied,
            ErrorKind::Input => Kind::Input,
            ErrorKind::NotFound => Kind::Missing,
            ErrorKind::Refused => Kind::Refused,
            ErrorKind::Storage => Kind::Storage,
        };
        Self { problems: problems_of(&error), ..Self::new(kind) }
    }
}

/// Every problem of an operation that did not happen, in words.
pub fn problems_of(error: &AppError) -> Vec<Problem> {
    let texts = Texts::english();
    if !error.problems.is_empty() {
        return error
            .problems
            .iter()
            .map(|problem| Problem {
                place: problem.path.clone(),
                says: texts.say(problem.says, &problem.args),
                ..Problem::default()
            })
            .collect();
    }
    let hint = error.hint.map(|hint| texts.word(hint)).unwrap_or_default();
    vec![Problem { says: texts.say(error.says, &error.args), hint, ..Problem::default() }]
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
            assert!(page.contains("href=\"/\"") && page.contains("href=\"/people/7\""), "{kind:?}");
            assert!(page.contains(kind.status().as_str()), "{kind:?}");
        }
    }

    #[test]
    fn every_error_says_that_nothing_was_recorded_where_something_was_sent() {
        for kind in Kind::ALL {
            let page = WebError::new(kind).render().into_string();
            assert_eq!(
                page.contains("Nothing was recorded"),
                !matches!(kind, Kind::Missing | Kind::Elsewhere | Kind::Denied),
                "{kind:?}"
            );
        }
    }

    #[test]
    fn a_defect_can_be_quoted_and_its_reference_is_escaped() {
        let page = WebError::defect("7f<3").render().into_string();
        assert!(page.contains("7f&lt;3"), "{page}");
    }
}
