//! One's own account: who one is here, a new password, and ending every session.

use app::desk::Desk;
use app::entry::problem::{denied, locked};
use app::entry::{Begun, author_of};
use axum::http::StatusCode;
use door::permit::Denied;
use door::principal::{AccountId, Via};
use maud::{Markup, html};

use super::{at_field, new_password, new_password_asks, new_token};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::site::way::Cookie;
use crate::web::words::{Value, say, text};

fn questions() -> Vec<Ask> {
    let mut all =
        vec![Ask::new("old", "door-ask-old-password", Control::Secret("current-password")).needed()];
    all.extend(new_password_asks());
    all
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &Sent::default(), &[], StatusCode::OK)
}

fn own(visit: &Visit) -> Result<AccountId, WebError> {
    match visit.who()?.via {
        Via::Account(id) => Ok(id),
        _ => Err(WebError::from(denied(Denied::Role))),
    }
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let account = desk.account(own(visit)?)?;
    let who = visit.who()?;
    let role = text(&format!("role-{}", who.role.word()));
    let lede = say("me-lede", &[("name", Value::Words(&author_of(who).name)), ("role", Value::Words(&role))]);
    let title = text("me-title");
    let frame = Frame { title: &title, lede: Some(&lede), here: Here::Nowhere, ..Frame::default() };
    let body = html! {
        dl.facts-list {
            dt { (text("door-ask-login")) } dd { (account.login.unwrap_or_default()) }
            @if let Some(licence) = &account.licence {
                dt { (text("account-licence")) }
                dd { (say("account-licence-until", &[("number", Value::Words(&licence.number)), ("day", Value::Words(&app::text::day(licence.until)))])) }
            }
        }
        p { a href="/me/audit" { (text("me-acts")) } }
        h2 { (text("me-password")) }
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record.door-form method="post" action="/me/password" {
            (visit.seals())
            (asks("", &questions(), given, wrong))
            (submit(&text("me-password-do")))
        }
        h2 { (text("me-everywhere")) }
        p { (text("me-everywhere-how")) }
        (everywhere(visit))
    };
    visit.page_as(desk, status, frame, body)
}

fn everywhere(visit: &Visit) -> Markup {
    html! {
        form.act method="post" action="/me/sign-out-everywhere" {
            (visit.seals())
            button.button.button-plain type="submit" { (text("me-everywhere-do")) }
        }
    }
}

/// Takes a new password, after the old one.
pub fn password(visit: &Visit, sent: &Sent) -> Answer {
    let id = own(visit)?;
    let who = visit.who()?;
    let refused =
        |wrong: Vec<Problem>, status| page(&visit.site.desk(), visit, &Sent::default(), &wrong, status);
    let login = visit.site.desk().account(id)?.login.unwrap_or_default();
    let hash = match new_password(sent, &[&who.name, &login]) {
        Ok(hash) => hash,
        Err(wrong) => return refused(wrong, StatusCode::UNPROCESSABLE_ENTITY),
    };
    let begun = visit.site.desk().begin_sign_in(&visit.moment, &login, visit.way.peer)?;
    let begun = match begun {
        Begun::Try(begun) => begun,
        Begun::Locked { until } => {
            let says = problems_of(&locked(until, &visit.site.desk().zone()));
            return refused(says, StatusCode::TOO_MANY_REQUESTS);
        }
    };
    let checked = begun.check(sent.one("old"));
    let token = new_token()?;
    let changed = visit.site.desk().change_password(&visit.moment, who, checked, &hash, &token);
    if let Err(error) = changed {
        return refused(at_field(&error, "old"), StatusCode::UNPROCESSABLE_ENTITY);
    }
    let mut response = respond::see("/me?done=password");
    Cookie::Session.set(&mut response, &token.reveal(), visit.way.secure);
    Ok(response)
}

/// Ends every session of the account, this one too.
pub fn out_everywhere(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    desk.sign_out_everywhere(&visit.moment, visit.who()?)?;
    let mut response = respond::see("/sign-in?done=signed-out");
    Cookie::Session.clear(&mut response, visit.way.secure);
    Ok(response)
}
