//! Everybody whom a role may see, as that role's type shows them.

use app::desk::Desk;
use app::roles::{AdminView, CoachView, OwnRecord, SupervisorView, View};
use maud::{Markup, html};

use super::parts::{attended, day, shown};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::notice::empty;
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let who = visit.who()?;
    let views = desk.views_for(who, visit.today())?;
    let title = text("spot-people");
    let lede = say(&format!("seen-lede-{}", who.role.word()), &[("n", Value::Count(views.len() as i64))]);
    let here = Here::At(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if views.is_empty() { (empty(&text("people-nobody"), None)) }
        @else { (list(&views)) }
    };
    visit.page(desk, frame, body)
}

fn list(views: &[View]) -> Markup {
    let coach: Vec<&CoachView> = views
        .iter()
        .filter_map(|view| if let View::Coach(view) = view { Some(&**view) } else { None })
        .collect();
    let deck: Vec<&SupervisorView> = views
        .iter()
        .filter_map(|view| if let View::Supervisor(view) = view { Some(&**view) } else { None })
        .collect();
    let papers: Vec<&AdminView> = views
        .iter()
        .filter_map(|view| if let View::Admin(view) = view { Some(&**view) } else { None })
        .collect();
    let own: Vec<&OwnRecord> = views
        .iter()
        .filter_map(|view| match view {
            View::Swimmer(view) => Some(&view.own),
            View::Guardian(view) => Some(&view.ward),
            _ => None,
        })
        .collect();
    html! {
        @if !coach.is_empty() { (coaches(&coach)) }
        @if !deck.is_empty() { (supervisors(&deck)) }
        @if !papers.is_empty() { (administrators(&papers)) }
        @if !own.is_empty() { (owns(&own)) }
    }
}

/// One cell, with its own heading for narrow screens, where a row stands as a block.
fn cell(head: &str, content: Markup) -> Markup {
    html! { @if !content.0.is_empty() { span.cell-head { (text(head)) " " } (content) } }
}

fn linked(subject: &str, name: &str) -> Markup {
    html! { a href={ "/people/" (subject) } { (name) } }
}

fn coaches(views: &[&CoachView]) -> Markup {
    let heads = [
        "seen-name",
        "seen-squad",
        "seen-availability",
        "seen-activity",
        "seen-review",
        "seen-water",
        "seen-there",
    ]
    .map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = views
        .iter()
        .map(|view| {
            vec![
                linked(&view.subject, &view.name),
                cell("seen-squad", html! { (view.squad) }),
                cell("seen-availability", shown(view.availability)),
                html! { (view.activity_words) },
                cell("seen-review", html! { @if let Some(review) = &view.review { (day(review)) } }),
                cell("seen-water", html! { (view.water) }),
                cell("seen-there", html! { (attended(&view.attended)) }),
            ]
        })
        .collect();
    html! { div.stacked { (table("squad", &text("seen-caption-coach"), &columns, &rows)) } }
}

fn supervisors(views: &[&SupervisorView]) -> Markup {
    let heads = ["seen-name", "seen-left", "seen-right", "seen-today", "seen-emergency"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = views
        .iter()
        .map(|view| {
            let today = match (view.session_over, view.may_start, view.asked_today) {
                (true, _, _) => "seen-today-over",
                (_, true, _) => "seen-today-may",
                (_, _, false) => "seen-today-ask",
                _ => "seen-today-nothing",
            };
            vec![
                html! { (linked(&view.subject, &view.name)) p.quiet { (view.squad) @if view.is_under_13 { ", " (text("seen-under-13")) } } },
                cell("seen-left", shown(view.left)),
                cell("seen-right", shown(view.right)),
                cell("seen-today", html! { (text(today)) }),
                cell("seen-emergency", html! { @if let Some(line) = &view.emergency { strong.stop { (line) } } }),
            ]
        })
        .collect();
    html! { div.stacked { (table("squad", &text("seen-caption-supervisor"), &columns, &rows)) } }
}

fn administrators(views: &[&AdminView]) -> Markup {
    let heads = ["seen-name", "seen-squad", "seen-born", "seen-consent", "seen-accounts"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = views
        .iter()
        .map(|view| {
            let newest = view.consents.iter().find(|consent| consent.withdrawn.is_none());
            vec![
                linked(&view.subject, &view.full_name),
                cell("seen-squad", html! { (view.squad) }),
                cell("seen-born", html! { (day(&view.born)) }),
                cell("seen-consent", html! {
                    @match newest {
                        Some(consent) => { (say("seen-consent-until", &[("day", Value::Words(&day(&consent.until)))])) }
                        None => { (text("seen-consent-none")) }
                    }
                }),
                cell("seen-accounts", html! { (view.accounts.len()) }),
            ]
        })
        .collect();
    html! { div.stacked { (table("squad", &text("seen-caption-administrator"), &columns, &rows)) } }
}

fn owns(views: &[&OwnRecord]) -> Markup {
    html! {
        ul.own-list {
            @for view in views {
                li.own-line {
                    h2 { (linked(&view.subject, &view.name)) }
                    p { (text("seen-left")) " " (shown(view.left)) " " (text("seen-right")) " " (shown(view.right)) }
                    p.quiet { (attended(&view.attended)) }
                }
            }
        }
    }
}
