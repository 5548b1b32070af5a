//! The door: first run, signing in and out, one's own account, everybody's accounts, paired devices, and how a phone
//! learns to trust the laptop.
//!
//! - [`first`], [`sign_in`], [`code`]: coming in. [`me`]: one's own account.
//! - [`accounts`], [`account`]: who may come in. [`devices`]: phones and tablets on deck, pairing.
//! - [`install`]: trusting the laptop's certificate.

pub mod account;
pub mod accounts;
pub mod code;
pub mod devices;
pub mod first;
pub mod install;
pub mod me;
pub mod sign_in;

use app::desk::Desk;
use app::entry::problem::weak;
use app::entry::{NewCode, SignedIn};
use app::error::AppError;
use axum::http::StatusCode;
use axum::response::Response;
use door::Stamp;
use door::code::{Code, Purpose};
use door::fresh;
use door::password::PasswordHash;
use door::policy::accept;
use door::token::Token;
use jiff::Timestamp;
use maud::{Markup, html};

use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::site::way::Cookie;
use crate::web::words::text;

/// One form on a page of its own.
struct Form<'a> {
    title: &'a str,
    lede: &'a str,
    here: Here,
    action: &'a str,
    asks: &'a [Ask],
    given: &'a Sent,
    wrong: &'a [Problem],
    submit: &'a str,
    below: Markup,
}

impl Form<'_> {
    fn page(&self, desk: &Desk, visit: &Visit, status: StatusCode) -> Answer {
        let (title, lede) = (text(self.title), text(self.lede));
        let frame = Frame { title: &title, lede: Some(&lede), here: self.here, ..Frame::default() };
        let body = html! {
            @if !self.wrong.is_empty() { (problems(self.wrong)) }
            form.record.door-form method="post" action=(self.action) {
                (visit.seals())
                @if let Some(to) = self.given.some("to") { input type="hidden" name="to" value=(to); }
                (asks("", self.asks, self.given, self.wrong))
                (submit(&text(self.submit)))
            }
            (self.below)
        };
        visit.page_as(desk, status, frame, body)
    }
}

/// The password that is wanted, typed twice.
fn new_password_asks() -> [Ask; 2] {
    [
        Ask::new("password", "door-ask-new-password", Control::Secret("new-password"))
            .needed()
            .hint("door-ask-new-password-hint"),
        Ask::new("again", "door-ask-again", Control::Secret("new-password")).needed(),
    ]
}

/// Reads a new password and hashes it. `names` are what anybody would try for this person. Slow: call it without the
/// desk in hand.
fn new_password(sent: &Sent, names: &[&str]) -> Result<PasswordHash, Vec<Problem>> {
    let at = |field: &str, mut found: Vec<Problem>| {
        found.iter_mut().for_each(|problem| problem.field = Some(field.to_owned()));
        found
    };
    let password = sent.one("password");
    let accepted =
        accept(password, names).map_err(|weakness| at("password", problems_of(&weak(weakness))))?;
    if sent.one("again") != password {
        let problem = Problem { says: text("door-not-the-same"), ..Problem::default() };
        return Err(at("again", vec![problem]));
    }
    let salt = fresh::bytes().ok_or_else(|| vec![no_chance()])?;
    Ok(PasswordHash::of(&accepted, &salt))
}

fn no_chance() -> Problem {
    Problem { says: text("door-no-chance"), ..Problem::default() }
}

/// A token nobody has had before.
pub(crate) fn new_token() -> Result<Token, WebError> {
    let bytes = fresh::bytes().ok_or_else(|| WebError::defect("chance"))?;
    Ok(Token::from_random(bytes))
}

/// A code nobody has had before.
fn new_code(purpose: Purpose) -> Result<NewCode, WebError> {
    fresh_code(purpose).ok_or_else(|| WebError::defect("chance"))
}

/// The same for the command line; none when the computer gives no random numbers.
pub(crate) fn fresh_code(purpose: Purpose) -> Option<NewCode> {
    // Bytes that would favour some letters are passed over; that more than a few draws fail is next to impossible.
    (0..32).find_map(|_| {
        let code = Code::from_random(purpose, &fresh::bytes()?)?;
        Some(NewCode { id: fresh::id()?, code })
    })
}

/// Somebody is in: the browser gets the new token, and nothing that it came with counts any more.
fn entered(visit: &Visit, signed: &SignedIn, to: &str) -> Response {
    let mut response = respond::see(to);
    Cookie::Session.set(&mut response, &signed.token.reveal(), visit.way.secure);
    response
}

/// What went wrong, at a field where it belongs to one.
fn at_field(error: &AppError, field: &str) -> Vec<Problem> {
    let mut found = problems_of(error);
    found.iter_mut().for_each(|problem| problem.field = Some(field.to_owned()));
    found
}

/// An instant in the club's own time, as people write it.
pub(crate) fn moment_words(desk: &Desk, at: Stamp) -> String {
    let millis = i64::try_from(at.0).ok().and_then(|millis| Timestamp::from_millisecond(millis).ok());
    millis.map_or_else(String::new, |instant| {
        let local = desk.zone().to_datetime(instant);
        format!("{}, {:02}:{:02}", app::text::day(local.date()), local.hour(), local.minute())
    })
}
