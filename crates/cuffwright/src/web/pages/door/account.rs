//! One account: how it stands, and what whoever answers for accounts can do with it.

use app::desk::Desk;
use app::entry::Account;
use axum::http::StatusCode;
use door::code::Purpose;
use door::principal::{AccountId, Via};
use door::role::Role;
use maud::{Markup, html};
use uuid::Uuid;

use super::accounts::{bound, invited, licence, name_of, state_of, whose};
use super::{moment_words, new_code};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

fn id_of(visit: &Visit) -> Result<AccountId, WebError> {
    Uuid::parse_str(visit.param("account")).map(AccountId).map_err(|_| WebError::missing())
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &Sent::default(), &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let account = desk.account(id_of(visit)?)?;
    let title = name_of(&account);
    let role = text(&format!("role-{}", account.role.word()));
    let state = state_of(&account);
    let lede = say("account-lede", &[("role", Value::Words(&role)), ("state", Value::Words(&state))]);
    let here = Here::Below(Place::People, Spot::Accounts);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let names: Vec<String> = account
        .bound
        .keys()
        .filter_map(|subject| desk.person(*subject).ok())
        .map(|person| person.read.swimmer.name.clone())
        .collect();
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        dl.facts-list {
            dt { (text("door-ask-login")) } dd { (account.login.clone().unwrap_or_default()) }
            dt { (text("account-made")) } dd { (moment_words(desk, account.made)) }
            @if let Some(licence) = &account.licence {
                dt { (text("account-licence")) }
                dd { (say("account-licence-until", &[("number", Value::Words(&licence.number)), ("day", Value::Words(&app::text::day(licence.until)))])) }
            }
            @if !names.is_empty() { dt { (text("account-whose")) } dd { (names.join(", ")) } }
        }
        @if account.closed.is_none() { (acts(desk, visit, &account, given, wrong)) }
    };
    visit.page_as(desk, status, frame, body)
}

fn acts(desk: &Desk, visit: &Visit, account: &Account, given: &Sent, wrong: &[Problem]) -> Markup {
    let is_owner = visit.who.as_ref().is_some_and(|who| who.role == Role::Owner);
    let is_own = visit.who.as_ref().is_some_and(|who| who.via == Via::Account(account.id));
    let until = account.licence.as_ref().map(|licence| licence.until.to_string()).unwrap_or_default();
    let number = account.licence.as_ref().map(|licence| licence.number.clone()).unwrap_or_default();
    let licence_now = Sent::of(&[("licence", number.as_str()), ("licence_until", until.as_str())]);
    let ids: Vec<String> = account.bound.keys().map(ToString::to_string).collect();
    let whose_now = ids.iter().fold(Sent::default(), |sent, id| sent.with("whose", id));
    let agreed = account.bound.values().any(|binding| binding.history);
    let whose_now = if agreed { whose_now.with("history", "yes") } else { whose_now };
    html! {
        div.acts {
            @if is_owner && !account.confirmed { (act(visit, account, "confirm", "account-confirm", "account-confirm-how")) }
            @if !is_own { (act(visit, account, "invite", "account-invite-again", "account-invite-again-how")) }
            (act(visit, account, "unlock", "account-unlock", "account-unlock-how"))
        }
        @if is_owner {
            @let sent = if given.some("licence").is_some() { given } else { &licence_now };
            details.decision open[!wrong.is_empty()] {
                summary.button.button-plain { (text("account-licence-change")) }
                form.record method="post" action={ "/accounts/" (account.id.0) "/licence" } {
                    (visit.seals())
                    (asks("", &[
                        Ask::new("licence", "account-licence", Control::Line).hint("account-licence-hint"),
                        Ask::new("licence_until", "account-licence-day", Control::Day),
                    ], sent, wrong))
                    (submit(&text("record-submit")))
                }
            }
            @if account.role.is_bound() {
                details.decision {
                    summary.button.button-plain { (text("account-whose-change")) }
                    form.record method="post" action={ "/accounts/" (account.id.0) "/whose" } {
                        (visit.seals())
                        (asks("b", &[
                            Ask::new("whose", "account-whose", whose(desk, visit)).hint("account-whose-hint"),
                            Ask::new("history", "account-history", Control::Tick).hint("account-history-hint"),
                        ], &whose_now, &[]))
                        (submit(&text("record-submit")))
                    }
                }
            }
        }
        @if !is_own {
            details.decision {
                summary.button.button-plain { (text("account-close")) }
                p { (text("account-close-how")) }
                (act(visit, account, "close", "account-close-do", ""))
            }
        }
    }
}

fn act(visit: &Visit, account: &Account, word: &str, label: &str, how: &str) -> Markup {
    html! {
        form.act method="post" action={ "/accounts/" (account.id.0) "/" (word) } {
            (visit.seals())
            button.button.button-plain type="submit" { (text(label)) }
            @if !how.is_empty() { p.quiet { (text(how)) } }
        }
    }
}

/// Takes one act.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let id = id_of(visit)?;
    let (moment, who) = (&visit.moment, visit.who()?);
    let account = desk.account(id)?;
    let done = match visit.param("act") {
        "confirm" => desk.confirm_account(moment, who, id),
        "unlock" => desk.lift_lock(moment, who, account.login.as_deref().unwrap_or_default()),
        "close" => desk.close_account(moment, who, id),
        "whose" => desk.set_bound(moment, who, id, &bound(sent)),
        "licence" => match licence(sent) {
            Ok(licence) => desk.set_licence(moment, who, id, licence.as_ref()),
            Err(wrong) => return page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY),
        },
        "invite" => {
            let code = new_code(Purpose::Invitation)?;
            desk.invite_again(moment, who, id, &code)?;
            return invited(desk, visit, &desk.account(id)?, &code);
        }
        _ => return Err(WebError::missing()),
    };
    match done {
        Ok(()) => Ok(respond::see(&with_done(&format!("/accounts/{}", id.0), "account"))),
        Err(error) if app::entry::problem::is_denial(&error) => Err(WebError::from(error)),
        Err(error) => page(desk, visit, sent, &problems_of(&error), StatusCode::CONFLICT),
    }
}
