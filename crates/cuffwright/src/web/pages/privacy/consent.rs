//! What was agreed to about one swimmer: each item apart, by which text, signed by whom, until when. Withdrawing acts
//! the same day. Below it, what else concerns the record as a whole.

use app::desk::Desk;
use app::facts::ConsentWord;
use app::privacy::consent::Withdrawal;
use app::roles::AdminView;
use axum::http::StatusCode;
use door::permit::Thing;
use maud::{Markup, html};
use trade::history::ConsentItem;

use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::record::take::word_of;
use crate::web::pages::seen::parts::day;
use crate::web::pages::shared::name;
use crate::web::parts::notice::{Outcome, outcome};
use crate::web::parts::table::{Column, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, None, StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, wrong: Option<&Markup>, status: StatusCode) -> Answer {
    let subject = visit.subject()?;
    let person = desk.person(subject)?;
    let whose = name(person);
    let title = say("consent-title", &[("name", Value::Words(&whose))]);
    let lede = text("consent-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, outcome: wrong, ..Frame::default() };
    // Made of the administrator's type: papers, and nothing of what they are about.
    let view = AdminView::of(desk, person)?;
    let today = visit.today().to_string();
    let holding = |word: &str| {
        view.consents.iter().find(|consent| {
            consent.withdrawn.is_none() && today <= consent.until && consent.granted.contains(&word)
        })
    };
    let who = visit.who()?;
    let can = |thing| desk.may_about(who, thing, subject, visit.today()).is_ok();
    let own = format!("/people/{subject}");
    let heads =
        ["consent-item", "consent-stands", "consent-signer", "consent-version", "consent-until"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = ConsentItem::ALL
        .iter()
        .map(|item| {
            let words = text(&format!("consent-item-{}", item.word()));
            match holding(item.word()) {
                Some(consent) => vec![
                    html! { (words) },
                    html! { b { (text("consent-granted")) } },
                    html! { (consent.signer) ", " (consent.relation) ", " (day(&consent.signed)) },
                    html! { (consent.text_version) },
                    html! { (day(&consent.until)) },
                ],
                None => vec![
                    html! { (words) },
                    html! { (text("consent-not-granted")) },
                    html! {},
                    html! {},
                    html! {},
                ],
            }
        })
        .collect();
    let granted: Vec<&ConsentItem> =
        ConsentItem::ALL.iter().filter(|item| holding(item.word()).is_some()).collect();
    let body = html! {
        (table("items", &text("consent-caption"), &columns, &rows))
        @if can(Thing::RecordConsent) { p { a.button href={ (own) "/record/consent?back=" (own) "/consent" } { (text("consent-record")) } } }
        @if can(Thing::WithdrawConsent) && !granted.is_empty() {
            details.decision {
                summary.button.button-plain { (text("consent-withdraw")) }
                form.record method="post" action={ (own) "/consent/withdraw" } {
                    (visit.seals())
                    p { (text("consent-withdraw-how")) }
                    fieldset.choices {
                        legend { (text("consent-withdraw-what")) }
                        @for item in &granted {
                            @let id = format!("item-{}", item.word());
                            div.choice {
                                input type="checkbox" id=(id) name="item" value=(item.word());
                                label for=(id) { (text(&format!("consent-item-{}", item.word()))) }
                            }
                        }
                        div.choice {
                            input type="checkbox" id="item-all" name="all" value="yes";
                            label for="item-all" { (text("consent-withdraw-all")) }
                        }
                    }
                    button.button type="submit" { (text("consent-withdraw-do")) }
                }
            }
        }
        (papers(&view))
        @if can(Thing::Archive) || can(Thing::AuditOfRecord) || can(Thing::Erase) {
            h2 { (text("record-whole")) }
            ul.ways {
                @if can(Thing::Archive) {
                    li { form method="post" action={ (own) "/archive" } { (visit.seals()) button.button.button-plain type="submit" { (text("archive-do")) } } }
                }
                @if can(Thing::AuditOfRecord) { li { a href={ (own) "/audit" } { (text("audit-link")) } } }
                @if can(Thing::Erase) { li { a href={ (own) "/erase" } { (text("erase-link")) } } }
            }
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// Every paper ever signed, the newest first.
fn papers(view: &AdminView) -> Markup {
    html! {
        @if !view.consents.is_empty() {
            h2 { (text("consent-papers")) }
            ul.record-lines {
                @for consent in &view.consents {
                    li {
                        (say("consent-paper", &[("day", Value::Words(&day(&consent.signed))), ("signer", Value::Words(&consent.signer)), ("relation", Value::Words(&consent.relation)), ("version", Value::Words(&consent.text_version)), ("until", Value::Words(&day(&consent.until)))]))
                        @if let Some(withdrawn) = &consent.withdrawn { " " b { (say("consent-withdrawn-on", &[("day", Value::Words(&day(withdrawn)))])) } }
                    }
                }
            }
        }
    }
}

/// Withdraws what was ticked, today.
pub fn withdraw(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let subject = visit.subject()?;
    let items: Vec<ConsentWord> = sent.all("item").filter_map(word_of).collect();
    let what = if sent.has("all", "yes") { Withdrawal::All } else { Withdrawal::Items(items.clone()) };
    if items.is_empty() && what != Withdrawal::All {
        let wrong = outcome(Outcome::Refused, &text("consent-nothing-ticked"));
        return page(desk, visit, Some(&wrong), StatusCode::UNPROCESSABLE_ENTITY);
    }
    match desk.withdraw_consent(&visit.moment, visit.who()?, subject, &what) {
        Ok(_) => Ok(respond::see(&with_done(&format!("/people/{subject}/consent"), "withdrawn"))),
        Err(error) if app::entry::problem::is_denial(&error) => Err(WebError::from(error)),
        Err(error) => {
            let says =
                problems_of(&error).into_iter().map(|problem| problem.says).collect::<Vec<_>>().join(" ");
            let wrong = outcome(Outcome::Refused, &says);
            page(desk, visit, Some(&wrong), StatusCode::CONFLICT)
        }
    }
}
