//! Setting a password by a code: an invitation from the owner, or a recovery code from the laptop's command line.

use app::desk::Desk;
use app::entry::code::Typed;
use axum::http::StatusCode;
use door::code::Purpose;
use maud::html;

use super::{Form, entered, new_password, new_password_asks, new_token};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here};
use crate::web::parts::ask::{Ask, Control};
use crate::web::parts::notice::Problem;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

fn questions() -> Vec<Ask> {
    let mut all = vec![
        Ask::new("login", "door-ask-login", Control::Named("username")).needed(),
        Ask::new("code", "door-ask-code", Control::Named("one-time-code"))
            .needed()
            .hint("door-ask-code-hint"),
    ];
    all.extend(new_password_asks());
    all
}

/// The page, for either kind of code.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    page(desk, visit, &visit.query, &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    Form {
        title: "door-invited-title",
        lede: "door-invited-lede",
        here: Here::Nowhere,
        action: "/invited",
        asks: &questions(),
        given,
        wrong,
        submit: "door-invited-do",
        below: html! {},
    }
    .page(desk, visit, status)
}

/// Sets the password and lets the person in, unless the account still waits for an owner's word.
pub fn send(visit: &Visit, sent: &Sent) -> Answer {
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    let given = Sent::of(&[("login", sent.one("login")), ("code", sent.one("code"))]);
    let club = {
        let desk = visit.site.desk();
        desk.club().about.as_ref().map(|club| club.name.clone()).unwrap_or_default()
    };
    let hash = match new_password(sent, &[sent.one("login"), &club]) {
        Ok(hash) => hash,
        Err(wrong) => {
            return page(&visit.site.desk(), visit, &given, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
        }
    };
    let typed = Typed { login: sent.one("login"), code: sent.one("code"), from: visit.way.peer };
    let mut desk = visit.site.desk();
    // Which of the two a code is, its own letters do not say: both are looked at, and one wrong try counts as one.
    let purpose = if desk.has_recovery(&visit.moment, sent.one("login"))? {
        Purpose::Recovery
    } else {
        Purpose::Invitation
    };
    match desk.take_code(&visit.moment, purpose, &typed, &hash, new_token()?) {
        Ok(Some(signed)) => Ok(entered(visit, &signed, "/?done=password")),
        Ok(None) => {
            let (title, lede) = (text("door-waits-title"), text("door-waits-lede"));
            let frame = Frame { title: &title, lede: Some(&lede), ..Frame::default() };
            visit.page(&desk, frame, html! { p { a href="/sign-in" { (text("error-to-sign-in")) } } })
        }
        Err(error) => page(&desk, visit, &given, &problems_of(&error), StatusCode::UNPROCESSABLE_ENTITY),
    }
}
