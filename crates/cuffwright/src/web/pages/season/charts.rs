//! What the charts say, and the load in plain numbers: a page of its own, so that the day's page stays quick.

use app::desk::Desk;
use app::signals::load::{Load, load};
use app::signals::words::{by_chance, change, sentence};
use app::signals::{Signals, What, signals};
use maud::{Markup, html};

use super::fixed;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::{href, name};
use crate::web::parts::table::{Column, Paging, paging, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

/// Swimmers of the load table on one page.
const LINES: usize = 60;
/// Signals above the fold.
const FOLD: usize = 12;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let found = signals(desk, visit.today());
    let (title, lede) = (text("charts-title"), text("charts-lede"));
    let here = Here::At(Place::Due, Spot::Charts);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        section {
            @if found.signals.is_empty() { p { (text("charts-quiet")) } }
            (list(desk, &found, 0, FOLD))
            @if FOLD < found.signals.len() {
                details { summary { (text("charts-below")) " " (found.signals.len() - FOLD) }
                    (list(desk, &found, FOLD, usize::MAX)) }
            }
            @if let Some(words) = by_chance(&found) { p { (words) } }
        }
        (weeks(desk, visit))
    };
    visit.page(desk, frame, body)
}

/// Reasons to ask, those of one swimmer together at the place of the strongest.
fn list(desk: &Desk, found: &Signals, from: usize, count: usize) -> Markup {
    let mut whom: Vec<(store::SubjectId, Vec<&What>)> = Vec::new();
    for signal in found.signals.iter().skip(from).take(count) {
        match whom.iter_mut().find(|(subject, _)| *subject == signal.subject) {
            Some((_, reasons)) => reasons.push(&signal.what),
            None => whom.push((signal.subject, vec![&signal.what])),
        }
    }
    html! {
        ol.ask-list {
            @for (subject, reasons) in &whom {
                @if let Ok(person) = desk.person(*subject) {
                    li {
                        p.ask-who { a href=(href(person)) { (name(person)) } }
                        @for what in reasons { p { (sentence(what)) } }
                    }
                }
            }
        }
    }
}

fn weeks(desk: &Desk, visit: &Visit) -> Markup {
    let recorded = |load: &Load| load.weeks.iter().any(Option::is_some);
    let all: Vec<Load> = load(desk, visit.today()).into_iter().filter(recorded).collect();
    if all.is_empty() {
        return html! { section { h2 { (text("load-title")) } p { (text("load-none")) } } };
    }
    let pages = u32::try_from(all.len().div_ceil(LINES)).unwrap_or(u32::MAX).max(1);
    let page = visit.page_number().min(pages);
    let rows: Vec<Vec<Markup>> =
        all.iter().skip((page as usize - 1) * LINES).take(LINES).map(|load| row(desk, load)).collect();
    let heads =
        ["load-swimmer", "load-four-ago", "load-three-ago", "load-two-ago", "load-last", "load-change"]
            .map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! {
        section {
            h2 { (text("load-title")) }
            p { (text("load-lede")) }
            (table("load", &text("load-caption"), &columns, &rows))
            (paging(Paging { page, pages, href: "/due/charts?page=" }))
        }
    }
}

fn row(desk: &Desk, load: &Load) -> Vec<Markup> {
    let person = desk.person(load.subject).ok();
    let mut cells =
        vec![html! { @if let Some(person) = person { a href=(href(person)) { (name(person)) } } }];
    for week in load.weeks {
        cells.push(html! { @match week { Some(km) => (fixed(km, 1)), None => (text("load-gap")) } });
    }
    let words = match load.change_km {
        Some(km) => {
            format!("{}{} km: {}", if 0.0 < km { "+" } else { "" }, fixed(km, 1), change(load.change))
        }
        None => change(load.change),
    };
    cells.push(html! { (words) });
    cells
}
