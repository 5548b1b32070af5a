//! One swimmer's water: one sentence, and a small table. No ratio to the month, and no zone.

use app::desk::Desk;
use maud::{Markup, html};
use trade::load::{Row, newest, sentence, table as weeks};

use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::record::address;
use crate::web::pages::shared::{href, name, reason, short_day};
use crate::web::parts::table::{Column, table};
use crate::web::parts::why::why;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Weeks in the table.
const WEEKS: u8 = 10;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let own = href(person);
    let who = name(person);
    let title = say("water-title", &[("name", Value::Words(&who))]);
    let lede = text("water-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let history = &person.read.history;
    let said = newest(history, visit.day()).and_then(|row| sentence(&row));
    let daily = desk.club().about.as_ref().is_some_and(|club| club.daily_practices);
    let back = format!("{own}/water");
    let enter =
        |word: &str| format!("{}?back={}", address(&own, word), crate::web::pages::shared::encoded(&back));
    let body = html! {
        @match &said { Some(line) => (why(&[reason(desk, line)])), None => p { (text("water-nothing")) } }
        (listed(&weeks(history, visit.day(), WEEKS)))
        ul.ways {
            li { a href=(enter("water-week")) { (text("water-enter-week")) } }
            @if daily { li { a href=(enter("water-session")) { (text("water-enter-session")) } } }
        }
        @if !daily { p.quiet { (text("water-daily-off")) " " a href="/club" { (text("water-daily-where")) } } }
        p { a href=(own) { (text("facts-back")) } }
    };
    visit.page(desk, frame, body)
}

fn listed(rows: &[Row]) -> Markup {
    let number = |value: Option<f64>, decimals: usize| {
        value.map_or_else(|| "–".to_owned(), |value| format!("{value:.decimals$}"))
    };
    let signed = |value: Option<f64>, factor: f64, unit: &str| {
        value.map_or_else(
            || "–".to_owned(),
            |value| {
                let rounded = (value * factor).round();
                let sign = if rounded < 0.0 {
                    "−"
                } else if 0.0 < rounded {
                    "+"
                } else {
                    ""
                };
                format!("{sign}{:.0}{unit}", rounded.abs())
            },
        )
    };
    let lines: Vec<Vec<Markup>> = rows
        .iter()
        .rev()
        .map(|row| {
            vec![
                html! { (short_day(row.from)) @if row.km.is_none() { " " span.quiet { (text("water-gap")) } } },
                html! { (number(row.km, 1)) },
                html! { (row.sessions.map_or_else(|| "–".to_owned(), |sessions| sessions.to_string())) },
                html! { (number(row.minutes, 0)) },
                html! { (number(row.effort, 1)) },
                html! { (number(row.load, 0)) },
                html! { (signed(row.more_km, 1.0, "")) },
                html! { (signed(row.more_share, 100.0, " %")) },
            ]
        })
        .collect();
    let heads = [
        text("col-week"),
        text("col-km"),
        text("col-practices"),
        text("col-minutes"),
        text("col-effort"),
        text("col-load"),
        text("col-more-km"),
        text("col-more-share"),
    ];
    let columns: Vec<Column<'_>> = heads
        .iter()
        .enumerate()
        .map(|(index, head)| if index == 0 { Column::words(head) } else { Column::number(head) })
        .collect();
    table("water", &text("water-table"), &columns, &lines)
}
