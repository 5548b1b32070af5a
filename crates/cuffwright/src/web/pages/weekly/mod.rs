//! The weekly check: how it was answered, one swimmer's answers, the blank form, and the water beside it.
//!
//! - [`check`]: one swimmer's check.
//! - [`paper`]: the blank form.
//! - [`water`]: one swimmer's water, in a sentence and a table.

pub mod check;
pub mod paper;
pub mod water;

use app::asking::{SHOWN_FROM, response};
use app::desk::{Desk, Person};
use app::views::people::{Find, find};
use maud::{Markup, html};
use trade::load::monday;

use super::first;
use super::shared::{href, name, short_day, tells_apart};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

pub(super) const HERE: Here = Here::Below(Place::People, Spot::Weekly);

/// The newest check of the week of a day.
fn of_week(person: &Person, on: jiff::civil::Date) -> Option<&trade::history::WeeklyCheck> {
    let from = monday(on);
    person.read.history.weekly_checks.iter().rev().find(|check| from <= check.date && check.date <= on)
}

/// Whoever has not answered in the week of a day, by name.
pub(super) fn open_in_week(desk: &Desk, on: jiff::civil::Date) -> Vec<&Person> {
    find(desk, on, &Find::default())
        .into_iter()
        .map(|found| found.person)
        .filter(|person| of_week(person, on).is_none())
        .collect()
}

/// The week.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let here = Here::At(Place::People, Spot::Weekly);
    if desk.people().next().is_none() {
        return first::show(desk, visit, here);
    }
    let on = visit.day();
    let week = response(desk, on);
    let (title, lede) = (text("weekly-title"), text("weekly-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let count = |n: usize| Value::Count(i64::try_from(n).unwrap_or(i64::MAX));
    let from = short_day(week.from);
    let needed = format!("{:.0}", SHOWN_FROM * 100.0);
    let rows: Vec<Vec<Markup>> = find(desk, on, &Find::default())
        .iter()
        .map(|found| {
            let person = found.person;
            let check = of_week(person, on);
            vec![
                html! { a href={ (href(person)) "/weekly" } { (name(person)) } " " span.quiet { (tells_apart(person)) } },
                html! { @match check { Some(check) => (short_day(check.date)), None => a href={ (href(person)) "/weekly?paper=yes" } { (text("weekly-enter")) } } },
            ]
        })
        .collect();
    let heads = [text("col-name"), text("col-answered")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let open = open_in_week(desk, on);
    let body = html! {
        p.plan-sum { (say("weekly-answered", &[("n", count(week.answered)), ("of", count(week.squad)), ("from", Value::Words(&from))])) }
        @match (week.problem, week.substantial) {
            (Some(problem), Some(substantial)) => p { (say("weekly-problems", &[("problem", count(problem)), ("substantial", count(substantial)), ("n", count(week.answered))])) },
            _ => p { (say("weekly-too-few", &[("needed", Value::Words(&needed))])) },
        }
        ul.ways {
            @if let Some(next) = open.first() { li { a href={ (href(next)) "/weekly?paper=yes" } { (text("weekly-from-paper")) } } }
            li { a href="/weekly/form" { (text("weekly-form")) } }
            li { a href="/due#ask" { (text("ask-title")) } }
        }
        (table("weekly", &text("weekly-table"), &columns, &rows))
        p.quiet { (text("weekly-rule")) }
    };
    visit.page(desk, frame, body)
}
