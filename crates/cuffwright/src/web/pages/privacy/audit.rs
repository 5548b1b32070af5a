//! Who saw and changed what: all of it, by one person, about one record, or one's own.

use app::desk::Desk;
use app::entry::Seen;
use app::entry::audit::Of;
use door::principal::{AccountId, Via};
use maud::{Markup, html};
use store::SubjectId;
use uuid::Uuid;

use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::door::moment_words;
use crate::web::pages::shared::name;
use crate::web::parts::form::{Filter, search_in};
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Rows on one page.
const ROWS: u32 = 100;

/// All of it, filtered by who or about whom.
pub fn all(desk: &Desk, visit: &Visit) -> Answer {
    let account = Uuid::parse_str(visit.query.one("account")).ok().map(AccountId);
    let subject: Option<SubjectId> = visit.query.one("subject").parse().ok();
    let of = match (account, subject) {
        (Some(account), _) => Of::Account(account),
        (None, Some(subject)) => Of::Record(subject),
        (None, None) => Of::All,
    };
    let mut accounts: Vec<(String, String)> =
        desk.accounts()?.iter().map(|account| (account.id.0.to_string(), account.name.clone())).collect();
    accounts.sort_by(|one, other| one.1.cmp(&other.1));
    let mut people: Vec<(String, String)> =
        desk.people().map(|person| (person.subject.to_string(), person.read.swimmer.name.clone())).collect();
    people.sort_by(|one, other| one.1.cmp(&other.1));
    fn shown(all: &[(String, String)]) -> Vec<(&str, &str)> {
        all.iter().map(|(value, words)| (value.as_str(), words.as_str())).collect()
    }
    let (accounts, people) = (shown(&accounts), shown(&people));
    let (by, about) = (text("audit-by"), text("audit-about"));
    let filters = [
        Filter { name: "account", label: &by, value: visit.query.one("account"), options: &accounts },
        Filter { name: "subject", label: &about, value: visit.query.one("subject"), options: &people },
    ];
    let above = search_in("/audit", &filters);
    let here = Here::At(Place::People, Spot::Audit);
    page(desk, visit, of, &text("audit-title"), here, above)
}

/// About one record.
pub fn of_record(desk: &Desk, visit: &Visit) -> Answer {
    let subject = visit.subject()?;
    let whose = name(desk.person(subject)?);
    let title = say("audit-title-record", &[("name", Value::Words(&whose))]);
    let here = Here::Below(Place::People, Spot::People);
    page(desk, visit, Of::Record(subject), &title, here, html! {})
}

/// One's own acts.
pub fn own(desk: &Desk, visit: &Visit) -> Answer {
    let Via::Account(id) = visit.who()?.via else { return Err(WebError::missing()) };
    page(desk, visit, Of::Account(id), &text("me-acts"), Here::Nowhere, html! {})
}

fn page(desk: &Desk, visit: &Visit, of: Of, title: &str, here: Here, above: Markup) -> Answer {
    let before = visit.query.one("before").parse().ok();
    let seen = desk.audit(&visit.moment, visit.who()?, of, before, ROWS)?;
    let lede = text("audit-lede");
    let frame = Frame { title, lede: Some(&lede), here, ..Frame::default() };
    let heads = ["audit-when", "audit-who", "audit-did", "audit-what", "audit-whom"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = seen.iter().map(|row| line(desk, visit, row)).collect();
    let older = seen.last().filter(|_| seen.len() == ROWS as usize).map(|last| {
        let kept =
            ["account", "subject"].map(|field| format!("{field}={}", visit.query.one(field))).join("&");
        format!("{}?{kept}&before={}", visit.path, last.seq)
    });
    let body = html! {
        (above)
        @if rows.is_empty() { p.quiet { (text("audit-none")) } }
        @else { (table("audit", title, &columns, &rows)) }
        @if let Some(older) = older { p { a href=(older) { (text("audit-older")) } } }
    };
    visit.page(desk, frame, body)
}

fn line(desk: &Desk, visit: &Visit, row: &Seen) -> Vec<Markup> {
    let role = row.role.map(|role| text(&format!("role-{}", role.word())));
    let who = match (&row.via, row.name.is_empty()) {
        (store::Via::Nobody, _) => text("audit-nobody"),
        (store::Via::Laptop, _) => text("audit-laptop"),
        (_, true) => text("account-erased"),
        _ => row.name.clone(),
    };
    // A name only for somebody who sees that name elsewhere too.
    let whom = row.subject.map(|subject| match desk.person(subject) {
        Ok(person) if visit.may(door::permit::Thing::Roster) => name(person),
        Ok(_) => text("audit-this-record"),
        Err(_) => text("account-erased"),
    });
    vec![
        html! { (moment_words(desk, row.at)) },
        html! { (who) @if let Some(role) = role { ", " (role) } },
        html! { (text(&format!("act-{}", row.act))) },
        html! { @if let Some(thing) = row.thing { (text(&format!("thing-{}", thing.word()))) } },
        html! {
            @if let Some(whom) = whom { (whom) }
            @else if row.everybody { (text("audit-everybody")) }
        },
    ]
}
