//! Who may come in: everybody's accounts, and the form by which somebody new is invited.

use std::collections::BTreeMap;

use app::desk::Desk;
use app::entry::{Account, NewAccount, NewCode};
use axum::http::StatusCode;
use door::code::Purpose;
use door::fresh;
use door::permit::may_give;
use door::principal::Binding;
use door::role::{Licence, Role};
use maud::{Markup, html};
use store::SubjectId;

use super::{moment_words, new_code};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, Group, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::parts::table::{Column, table};
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Everybody.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let accounts = desk.accounts()?;
    let heads = ["account-name", "account-role", "door-ask-login", "account-state"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = accounts
        .iter()
        .map(|account| {
            vec![
                html! { a href={ "/accounts/" (account.id.0) } { (name_of(account)) } },
                html! { (text(&format!("role-{}", account.role.word()))) },
                html! { (account.login.clone().unwrap_or_default()) },
                html! { (state_of(account)) },
            ]
        })
        .collect();
    let (title, lede) = (text("accounts-title"), text("accounts-lede"));
    let here = Here::At(Place::People, Spot::Accounts);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        p { a.button href="/accounts/new" { (text("accounts-invite")) } }
        @if accounts.is_empty() { p.quiet { (text("seen-accounts-none")) } }
        @else { (table("accounts", &text("accounts-caption"), &columns, &rows)) }
    };
    visit.page(desk, frame, body)
}

/// The name, or that the person was erased.
pub(super) fn name_of(account: &Account) -> String {
    if account.name.is_empty() { text("account-erased") } else { account.name.clone() }
}

/// How an account stands, in words.
pub(super) fn state_of(account: &Account) -> String {
    text(match (account.closed.is_some(), account.confirmed, account.has_password) {
        (true, ..) => "account-closed",
        (_, _, false) => "account-invited",
        (_, false, _) => "account-waits",
        _ => "account-open",
    })
}

/// Swimmers that an account may belong to, as boxes to tick.
pub(super) fn whose(desk: &Desk, visit: &Visit) -> Control {
    let mut squad: Vec<(String, String)> = desk
        .squad_on(visit.today())
        .map(|person| (person.subject.to_string(), person.read.swimmer.name.clone()))
        .collect();
    squad.sort_by(|one, other| one.1.cmp(&other.1));
    Control::Several(vec![Group {
        heading: text("account-whose-heading"),
        then: String::new(),
        word: "whose",
        options: squad,
    }])
}

/// Who was ticked.
pub(super) fn bound(sent: &Sent) -> BTreeMap<SubjectId, Binding> {
    let agreed = sent.has("history", "yes");
    let ticked = sent.all("whose").filter_map(|id| id.parse().ok());
    ticked.map(|subject| (subject, Binding { history: agreed })).collect()
}

fn questions(desk: &Desk, visit: &Visit) -> Vec<Ask> {
    let by = visit.who.as_ref().map(|who| who.role);
    let given = Role::ALL.into_iter().filter(|role| by.is_some_and(|by| may_give(by, *role)));
    let mut roles = vec![(String::new(), text("choice-choose"))];
    roles.extend(given.map(|role| (role.word().to_owned(), text(&format!("role-{}", role.word())))));
    let mut all = vec![
        Ask::new("role", "account-role", Control::Pick(roles)).needed(),
        Ask::new("name", "account-name", Control::Line).needed(),
        Ask::new("login", "door-ask-login", Control::Line).needed().hint("door-ask-login-hint"),
    ];
    if by == Some(Role::Owner) {
        all.push(Ask::new("licence", "account-licence", Control::Line).hint("account-licence-hint"));
        all.push(Ask::new("licence_until", "account-licence-day", Control::Day));
    }
    all.push(Ask::new("whose", "account-whose", whose(desk, visit)).hint("account-whose-hint"));
    all.push(Ask::new("history", "account-history", Control::Tick).hint("account-history-hint"));
    all
}

/// The form for somebody new.
pub fn new(desk: &Desk, visit: &Visit) -> Answer {
    form(desk, visit, &visit.query, &[], StatusCode::OK)
}

fn form(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let (title, lede) = (text("accounts-invite"), text("accounts-invite-lede"));
    let here = Here::Below(Place::People, Spot::Accounts);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action="/accounts/new" {
            (visit.seals())
            (asks("", &questions(desk, visit), given, wrong))
            (submit(&text("accounts-invite-do")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// The licence that was typed, none when its fields are empty.
pub(super) fn licence(sent: &Sent) -> Result<Option<Licence>, Vec<Problem>> {
    let Some(number) = sent.some("licence") else { return Ok(None) };
    let wrong = |says: &str| {
        let field = Some("licence_until".to_owned());
        vec![Problem { says: text(says), field, ..Problem::default() }]
    };
    let until = sent.some("licence_until").ok_or_else(|| wrong("take-needed"))?;
    let until = until.parse().map_err(|_| wrong("take-not-a-day"))?;
    Ok(Some(Licence { number: number.to_owned(), until }))
}

/// Makes the account and shows the code of its invitation, once.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let refused =
        |desk: &Desk, wrong: &[Problem]| form(desk, visit, sent, wrong, StatusCode::UNPROCESSABLE_ENTITY);
    let at =
        |field: &str, says: String| [Problem { says, field: Some(field.to_owned()), ..Problem::default() }];
    let Some(role) = Role::from_word(sent.one("role")) else {
        return refused(desk, &at("role", text("take-needed")));
    };
    let licence = match licence(sent) {
        Ok(licence) => licence,
        Err(wrong) => return refused(desk, &wrong),
    };
    let new = NewAccount {
        role,
        login: sent.one("login").to_owned(),
        name: sent.one("name").to_owned(),
        licence,
        bound: if role.is_bound() { bound(sent) } else { BTreeMap::new() },
    };
    let id = fresh::id().ok_or_else(|| WebError::defect("chance"))?;
    let code = new_code(Purpose::Invitation)?;
    match desk.make_account(&visit.moment, visit.who()?, id, &new, &code) {
        Ok(made) => invited(desk, visit, &desk.account(made)?, &code),
        Err(error) if app::entry::problem::is_denial(&error) => Err(WebError::from(error)),
        Err(error) => refused(desk, &problems_of(&error)),
    }
}

/// The code of an invitation: shown once, to be handed over.
pub(super) fn invited(desk: &Desk, visit: &Visit, account: &Account, code: &NewCode) -> Answer {
    let (title, lede) =
        (say("invited-title", &[("name", Value::Words(&account.name))]), text("invited-lede"));
    let here = Here::Below(Place::People, Spot::Accounts);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let ends = door::Stamp(visit.moment.unix_millis).after(Purpose::Invitation.lifetime());
    let address = visit.site.lan().map_or_else(
        || format!("{}://127.0.0.1:{}/invited", visit.way.scheme(), visit.way.port),
        |lan| lan.address("/invited"),
    );
    let body = html! {
        p.code-shown id="code" { (code.code.shown()) }
        dl.facts-list {
            dt { (text("door-ask-login")) } dd { (account.login.clone().unwrap_or_default()) }
            dt { (text("invited-where")) } dd { (address) }
            dt { (text("invited-until")) } dd { (moment_words(desk, ends)) }
        }
        @if !account.confirmed { p { (text("account-waits")) } }
        p.quiet { (text("invited-once")) }
        p { a href="/accounts" { (text("accounts-title")) } }
    };
    visit.page(desk, frame, body)
}
