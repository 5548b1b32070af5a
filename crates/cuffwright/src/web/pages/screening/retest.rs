//! A re-test: previous and present, up, down or cannot tell, the error used and where it comes from. One drawing, and
//! the same in a table.

use app::desk::Desk;
use app::screening::cell::{shown, unit};
use app::screening::retest::{Row, retest};
use app::text::day;
use maud::{Markup, html};
use trade::history::days_between;
use trade::rule::screening_rules::V10;
use trade::screening::change::Word;
use trade::screening::error::{ENOUGH_OWN, Origin};

use super::{measure_name, side_after};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::{href, name};
use crate::web::parts::notice::empty;
use crate::web::parts::table::{Column, table};
use crate::web::parts::why::rule_link;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let own = href(person);
    let who = name(person);
    let title = say("retest-title", &[("name", Value::Words(&who))]);
    let lede = text("retest-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let rows = retest(desk, person, visit.day());
    let count = |word: Word| rows.iter().filter(|row| row.change.word == word).count().to_string();
    let (up, down, same) = (count(Word::Up), count(Word::Down), count(Word::CannotTell));
    let body = html! {
        @if rows.is_empty() {
            (empty(&text("retest-nothing"), Some((&text("values-link"), &format!("{own}/screening")))))
        } @else {
            p.plan-sum { (say("retest-sum", &[("up", Value::Words(&up)), ("down", Value::Words(&down)), ("same", Value::Words(&same))])) }
            p.quiet { (text("retest-growth")) " " (rule_link(V10.0)) }
            (picture(&rows))
            (twin(desk, &rows))
            (errors(&rows))
        }
        p { a href={ (own) "/screening" } { (text("values-link")) } " " a href=(own) { (text("facts-back")) } }
    };
    visit.page(desk, frame, body)
}

/// Steps in one unit of the range table that are worth showing of a change: a tenth, of a length in metres a
/// millimetre.
fn scale(row: &Row) -> f64 {
    if quantity::Range::of(row.measure.key).is_some_and(|range| range.unit == "m") { 1000.0 } else { 10.0 }
}

fn row_name(row: &Row) -> String {
    format!("{}{}", measure_name(row.measure.key), side_after(row.side))
}

fn word_of(row: &Row) -> String {
    text(&format!("change-{}", row.change.word.word()))
}

/// The same in numbers.
fn twin(desk: &Desk, rows: &[Row]) -> Markup {
    let units = desk.reader().units;
    let show = |row: &Row, value: f64| shown(row.measure, value, units);
    let lines: Vec<Vec<Markup>> = rows
        .iter()
        .map(|row| {
            let sign = |value: f64| {
                // Limits of an error are known to a tenth at best.
                let text = show(row, (value.abs() * scale(row)).round() / scale(row));
                if value < 0.0 && text != "0" { format!("−{text}") } else if 0.0 < value && text != "0" { format!("+{text}") } else { text }
            };
            vec![
                html! { (row_name(row)) @if row.other_tester() { p.quiet { (text("retest-other-tester")) } } },
                html! { (show(row, row.before.value)) p.quiet { (day(row.before.date)) } },
                html! { (show(row, row.now.value)) p.quiet { (day(row.now.date)) } },
                html! { (sign(row.change.difference)) " " (unit(row.measure.key, units).symbol()) },
                html! { @if let (Some(low), Some(high)) = (row.change.low, row.change.high) { (say("retest-interval", &[("low", Value::Words(&sign(low))), ("high", Value::Words(&sign(high)))])) } @else { "–" } },
                html! { b.change-word { (mark(row.change.word)) (word_of(row)) } },
            ]
        })
        .collect();
    let heads = [
        text("col-measure"),
        text("col-previous"),
        text("col-now"),
        text("col-change"),
        text("col-interval"),
        text("col-said"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    table("retest", &text("retest-table"), &columns, &lines)
}

fn mark(word: Word) -> Markup {
    let path = match word {
        Word::Up => "M4 15l7-9 7 9",
        Word::Down => "M4 7l7 9 7-9",
        Word::CannotTell => "M3 9c3-5 5 3 8 0s5-5 8 0M3 15c3-5 5 3 8 0s5-5 8 0",
    };
    html! { svg.change-mark viewBox="0 0 22 22" width="22" height="22" aria-hidden="true" focusable="false" { path d=(path) {} } }
}

/// Which error was used for what, with its people.
fn errors(rows: &[Row]) -> Markup {
    let mut seen: Vec<&str> = Vec::new();
    let mut lines: Vec<(String, String)> = Vec::new();
    for row in rows {
        if seen.contains(&row.measure.key) {
            continue;
        }
        seen.push(row.measure.key);
        let says = match &row.error {
            None => text("error-none"),
            Some(Origin::Published(published)) => say(
                "error-published",
                &[
                    ("source", Value::Words(published.source)),
                    ("n", Value::Count(i64::from(published.n))),
                    ("people", Value::Words(&text(published.population))),
                ],
            ),
            Some(Origin::Own(trial)) => {
                let when = day(trial.date);
                let id = if trial.n < ENOUGH_OWN { "error-own-few" } else { "error-own" };
                say(
                    id,
                    &[
                        ("day", Value::Words(&when)),
                        ("n", Value::Count(i64::try_from(trial.n).unwrap_or(i64::MAX))),
                    ],
                )
            }
        };
        lines.push((measure_name(row.measure.key), says));
    }
    let days = rows.iter().map(|row| days_between(row.before.date, row.now.date)).max().unwrap_or(0);
    html! {
        section aria-labelledby="errors" {
            h2 id="errors" { (text("retest-errors")) }
            p.quiet { (say("retest-days", &[("days", Value::Count(i64::from(days)))])) " " a href="/screening/trials" { (text("trial-title")) } }
            dl.errors { @for (measure, says) in &lines { dt { (measure) } dd { (says) } } }
        }
    }
}

/// Every change on one scale: in smallest changes beyond error. Inside the band it cannot be told.
fn picture(rows: &[Row]) -> Markup {
    const LEFT: f64 = 250.0;
    const WIDTH: f64 = 470.0;
    const STEP: f64 = 26.0;
    /// Ends of the scale; a change beyond them is drawn at the end with an arrow.
    const ENDS: f64 = 3.0;
    let known: Vec<(&Row, f64)> =
        rows.iter().filter_map(|row| Some((row, row.change.difference / row.change.smallest?))).collect();
    if known.is_empty() {
        return html! {};
    }
    let height = 54.0 + STEP * known.len() as f64;
    let x = |value: f64| LEFT + WIDTH * (value.clamp(-ENDS, ENDS) + ENDS) / (2.0 * ENDS);
    let bottom = height - 26.0;
    let place = |value: f64| format!("{value:.1}");
    html! {
        figure.intervals tabindex="0" role="group" aria-labelledby="intervals-title" {
            svg role="img" viewBox={ "0 0 740 " (place(height)) } aria-labelledby="intervals-title intervals-desc" focusable="false" {
                title id="intervals-title" { (text("intervals-title")) }
                desc id="intervals-desc" { (text("intervals-desc")) }
                rect.intervals-band x=(place(x(-1.0))) y="20" width=(place(x(1.0) - x(-1.0))) height=(place(bottom - 20.0)) {}
                @for tick in [-3, -2, -1, 0, 1, 2, 3] {
                    path class=(if tick == 0 { "intervals-zero" } else { "intervals-tick" }) d={ "M" (place(x(f64::from(tick)))) " 20V" (place(bottom)) } {}
                }
                text.intervals-word x=(place(x(-2.0))) y="14" { (text("change-down")) }
                text.intervals-word x=(place(x(0.0))) y="14" { (text("change-cannot-tell")) }
                text.intervals-word x=(place(x(2.0))) y="14" { (text("change-up")) }
                @for (index, (row, value)) in known.iter().enumerate() {
                    @let y = 20.0 + STEP * (index as f64 + 0.5);
                    text.intervals-name x=(place(LEFT - 12.0)) y=(place(y + 5.0)) { (row_name(row)) }
                    path.intervals-bar d={ "M" (place(x(value - 1.0))) " " (place(y)) "H" (place(x(value + 1.0))) } {}
                    @match row.change.word {
                        Word::CannotTell => circle.intervals-open cx=(place(x(*value))) cy=(place(y)) r="6" {},
                        _ => circle.intervals-dot cx=(place(x(*value))) cy=(place(y)) r="7" {},
                    }
                }
                text.intervals-word x=(place(x(0.0))) y=(place(height - 6.0)) { (text("intervals-axis")) }
            }
        }
    }
}
