//! Signing in by name and password, and out again.

use app::desk::Desk;
use app::entry::Begun;
use app::entry::problem::locked;
use axum::http::StatusCode;
use maud::html;

use super::{Form, entered, new_token};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::Here;
use crate::web::pages::shared::back_or;
use crate::web::parts::ask::{Ask, Control};
use crate::web::parts::notice::Problem;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::site::way::Cookie;
use crate::web::words::{Value, say, text};

/// Tries left from which the page says so.
const SAID_FROM: usize = 3;

fn questions() -> [Ask; 2] {
    [
        Ask::new("login", "door-ask-login", Control::Named("username")).needed(),
        Ask::new("password", "door-ask-password", Control::Secret("current-password")).needed(),
    ]
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if visit.site.entry().is_demo() {
        return Ok(respond::see("/"));
    }
    if desk.is_first_run()? {
        return Ok(respond::see("/first"));
    }
    page(desk, visit, &visit.query, &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let below = html! {
        ul.ways {
            li { a href="/invited" { (text("door-to-invited")) } }
            li { a href="/pair" { (text("door-to-pair")) } }
            @if visit.way.secure { li { a href="/install" { (text("door-to-install")) } } }
        }
        details {
            summary { (text("door-forgot")) }
            p { (text("door-forgot-how")) " " code { "cuffwright account recover" } }
        }
    };
    Form {
        title: "door-sign-in-title",
        lede: "door-sign-in-lede",
        here: Here::Nowhere,
        action: "/sign-in",
        asks: &questions(),
        given,
        wrong,
        submit: "door-sign-in-do",
        below,
    }
    .page(desk, visit, status)
}

/// Lets somebody in, or says why not: the same words for a wrong name and a wrong password.
pub fn send(visit: &Visit, sent: &Sent) -> Answer {
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    let given = Sent::of(&[("login", sent.one("login")), ("to", sent.one("to"))]);
    let begun = visit.site.desk().begin_sign_in(&visit.moment, sent.one("login"), visit.way.peer)?;
    let begun = match begun {
        Begun::Try(begun) => begun,
        Begun::Locked { until } => {
            let desk = visit.site.desk();
            let wrong = problems_of(&locked(until, &desk.zone()));
            return page(&desk, visit, &given, &wrong, StatusCode::TOO_MANY_REQUESTS);
        }
    };
    let left = begun.left;
    // Slow on purpose, so nobody else waits for it.
    let checked = begun.check(sent.one("password"));
    let token = new_token()?;
    let mut desk = visit.site.desk();
    match desk.finish_sign_in(&visit.moment, checked, visit.token.as_ref(), token) {
        Ok(signed) => Ok(entered(visit, &signed, back_or(sent.one("to"), "/"))),
        Err(error) => {
            let mut wrong = problems_of(&error);
            if left < SAID_FROM {
                let says = say("door-tries-left", &[("n", Value::Count(left as i64))]);
                wrong.push(Problem { says, ..Problem::default() });
            }
            page(&desk, visit, &given, &wrong, StatusCode::UNPROCESSABLE_ENTITY)
        }
    }
}

/// Ends the session.
pub fn out(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    if let (Some(who), Some(token)) = (&visit.who, &visit.token) {
        desk.sign_out(&visit.moment, who, token)?;
    }
    let mut response = respond::see("/sign-in?done=signed-out");
    Cookie::Session.clear(&mut response, visit.way.secure);
    Ok(response)
}
