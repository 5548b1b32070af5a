//! The first run: nobody has an account yet, so whoever sits at the laptop makes the owner's.

use app::desk::Desk;
use app::entry::{Begun, NewAccount};
use app::error::AppError;
use axum::http::StatusCode;
use door::address::{Place, place_of};
use door::fresh;
use door::permit::Denied;
use door::role::Role;
use maud::html;

use super::{Form, at_field, entered, new_password, new_password_asks, new_token};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::Here;
use crate::web::parts::ask::{Ask, Control};
use crate::web::parts::notice::Problem;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};

fn questions() -> Vec<Ask> {
    let mut all = vec![
        Ask::new("name", "door-ask-name", Control::Named("name")).needed().hint("door-ask-name-hint"),
        Ask::new("login", "door-ask-login", Control::Named("username")).needed().hint("door-ask-login-hint"),
    ];
    all.extend(new_password_asks());
    all
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    only_here(desk, visit)?;
    if !desk.is_first_run()? {
        return Ok(respond::see("/"));
    }
    let practitioner = desk.club().about.as_ref().map(|club| club.practitioner.clone()).unwrap_or_default();
    page(desk, visit, &Sent::of(&[("name", &practitioner)]), &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    Form {
        title: "door-first-title",
        lede: "door-first-lede",
        here: Here::Nowhere,
        action: "/first",
        asks: &questions(),
        given,
        wrong,
        submit: "door-first-do",
        below: html! {},
    }
    .page(desk, visit, status)
}

/// Only at the laptop itself, and never in the demo.
fn only_here(desk: &Desk, visit: &Visit) -> Result<(), WebError> {
    let _ = desk;
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    match place_of(visit.way.peer) {
        Place::Laptop => Ok(()),
        _ => Err(WebError::from(app::entry::problem::denied(Denied::Role))),
    }
}

/// Makes the account and signs in by it at once.
pub fn send(visit: &Visit, sent: &Sent) -> Answer {
    let club = {
        let desk = visit.site.desk();
        only_here(&desk, visit)?;
        desk.club().about.as_ref().map(|club| club.name.clone()).unwrap_or_default()
    };
    let refused =
        |wrong: Vec<Problem>| page(&visit.site.desk(), visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    let (name, login) = (sent.one("name"), sent.one("login"));
    let hash = match new_password(sent, &[name, login, &club]) {
        Ok(hash) => hash,
        Err(wrong) => return refused(wrong),
    };
    let new = NewAccount {
        role: Role::Owner,
        login: login.to_owned(),
        name: name.to_owned(),
        licence: None,
        bound: Default::default(),
    };
    let id = fresh::id().ok_or_else(|| WebError::defect("chance"))?;
    let made = visit.site.desk().make_owner(&visit.moment, id, &new, &hash);
    if let Err(error) = made {
        let field = if error.says.starts_with("door-name") { "name" } else { "login" };
        return refused(at_field(&error, field));
    }
    // In by the same way as ever after, so that the first time proves that it works.
    let begun = visit.site.desk().begin_sign_in(&visit.moment, login, visit.way.peer)?;
    let Begun::Try(begun) = begun else { return Ok(respond::see("/sign-in")) };
    let checked = begun.check(sent.one("password"));
    let token = new_token()?;
    let signed: Result<_, AppError> =
        visit.site.desk().finish_sign_in(&visit.moment, checked, visit.token.as_ref(), token);
    match signed {
        Ok(signed) => Ok(entered(visit, &signed, "/?done=owner")),
        Err(error) => refused(problems_of(&error)),
    }
}
