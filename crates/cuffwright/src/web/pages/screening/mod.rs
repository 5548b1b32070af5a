//! A screening day: its stations, its arithmetic, and what comes of it.
//!
//! - [`station`]: entry at speed, one form for a whole station; [`grid`] draws its rows.
//! - [`paper`]: the blank form.
//! - [`watch`]: the squad's flags.
//! - [`values`]: one swimmer's values and what follows; [`retest`]: what changed.
//! - [`trial`]: the club's own trial of a test.

pub mod grid;
pub mod paper;
pub mod retest;
pub mod station;
pub mod trial;
pub mod values;
pub mod watch;

use app::desk::Desk;
use maud::{Markup, html};
use trade::screening::measure::Station;
use trade::screening::plan::{Stand, Throughput, shared, throughput};

use super::first;
use super::shared::encoded;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::form::{Field, field, submit};
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

pub(super) const HERE: Here = Here::Below(Place::People, Spot::Screening);

/// What a station is called.
pub fn station_name(station: Station) -> String {
    text(&format!("station-{}", station.word()))
}

/// What a measure is called.
pub fn measure_name(key: &str) -> String {
    text(&format!("measure-{key}"))
}

/// Left, right, or nothing.
pub fn side_after(side: Option<trade::side::Side>) -> String {
    side.map_or_else(String::new, |side| format!(", {}", text(&format!("side-{}", side.word()))))
}

/// The day: stations to enter, the plan, what comes of it.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let here = Here::At(Place::People, Spot::Screening);
    if desk.people().next().is_none() {
        return first::show(desk, visit, here);
    }
    let (title, lede) = (text("screening-title"), text("screening-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let date = visit.query.some("date").unwrap_or_default();
    let body = html! {
        section aria-labelledby="stations" {
            h2 id="stations" { (text("screening-stations")) }
            ol.stations {
                @for station in Station::ALL {
                    li {
                        a href={ "/screening/" (station.word()) @if !date.is_empty() { "?date=" (encoded(date)) } } { (station_name(station)) }
                        p.quiet {
                            (what_is_measured(station))
                            @if station.is_licensed() { " " b { (text("station-licensed")) } }
                        }
                    }
                }
            }
        }
        section aria-labelledby="after" {
            h2 id="after" { (text("screening-after")) }
            ul.ways {
                li { a href="/screening/findings" { (text("watch-title")) } }
                li { a href="/screening/trials" { (text("trial-title")) } }
                li { a href="/screening/form" { (text("paper-screening-title")) } }
            }
        }
        (plan(desk, visit))
    };
    visit.page(desk, frame, body)
}

fn what_is_measured(station: Station) -> String {
    let names: Vec<String> = station.measures().map(|measure| measure_name(measure.key)).collect();
    if names.is_empty() { text("station-check-in-what") } else { names.join(", ") }
}

/// The arithmetic of the day, shown.
fn plan(desk: &Desk, visit: &Visit) -> Markup {
    let squad = desk.squad_on(visit.today()).count();
    let typed = visit.query.some("swimmers").map(str::to_owned).unwrap_or_else(|| squad.to_string());
    let testers = visit.query.some("testers").map(str::to_owned).unwrap_or_else(|| "7".to_owned());
    let stands = stands();
    let swimmers: u32 = typed.parse().unwrap_or(0);
    let wanted: usize = testers.parse().unwrap_or(stands.len());
    let stands = shared(&stands, wanted);
    let planned = throughput(swimmers, &stands).ok();
    html! {
        section aria-labelledby="plan" {
            h2 id="plan" { (text("plan-title")) }
            form.search method="get" action="/screening#plan" {
                (field(&Field { name: "swimmers", label: &text("plan-swimmers"), value: &typed, keyboard: Some("numeric"), ..Field::default() }))
                (field(&Field { name: "testers", label: &text("plan-testers"), value: &testers, keyboard: Some("numeric"), ..Field::default() }))
                div.search-do { (submit(&text("plan-submit"))) }
            }
            @match &planned {
                None => p.field-problem { (text("plan-refused")) },
                Some(planned) => (planned_day(planned, &stands)),
            }
        }
    }
}

/// The stations in their usual minutes, by their names.
pub fn stands() -> Vec<Stand> {
    Station::ALL
        .iter()
        .map(|station| Stand { name: station_name(*station), minutes: station.minutes(), testers: 1 })
        .collect()
}

fn planned_day(planned: &Throughput, stands: &[Stand]) -> Markup {
    let number = |value: f64| format!("{value:.0}");
    let clock = |minutes: f64| {
        let whole = minutes.round() as i64;
        let (hours, rest) = (whole / 60, whole % 60);
        say("plan-clock", &[("hours", Value::Count(hours)), ("minutes", Value::Words(&format!("{rest:02}")))])
    };
    let slowest = &stands[planned.bottleneck];
    let before = stands.len().saturating_sub(1);
    let (n, s) = (planned.swimmers.to_string(), stands.len().to_string());
    let (slot, sum) = (number(planned.slot), number(planned.per_swimmer));
    let (whistle, flowing, more) =
        (number(planned.whistle), number(planned.flowing), number(planned.with_one_more));
    let (waves, rest) =
        ((i64::from(planned.swimmers) + before as i64).to_string(), (planned.swimmers - 1).to_string());
    let rows: Vec<Vec<Markup>> = stands
        .iter()
        .enumerate()
        .map(|(at, stand)| {
            vec![
                html! { (stand.name) @if at == planned.bottleneck { " " b.slowest { (text("plan-slowest")) } } },
                html! { (number(stand.minutes)) },
            ]
        })
        .collect();
    let heads = [text("col-station"), text("col-minutes")];
    html! {
        p.plan-sum { (say("plan-sum", &[("n", Value::Words(&n)), ("clock", Value::Words(&clock(planned.flowing))), ("station", Value::Words(&slowest.name))])) }
        ul.plan-how {
            li { (say("plan-flowing", &[("sum", Value::Words(&sum)), ("rest", Value::Words(&rest)), ("slot", Value::Words(&slot)), ("total", Value::Words(&flowing))])) }
            li { (say("plan-whistle", &[("n", Value::Words(&n)), ("s", Value::Words(&s)), ("waves", Value::Words(&waves)), ("slot", Value::Words(&slot)), ("total", Value::Words(&whistle)), ("clock", Value::Words(&clock(planned.whistle)))])) }
            li { (say("plan-more", &[("station", Value::Words(&slowest.name)), ("total", Value::Words(&more)), ("clock", Value::Words(&clock(planned.with_one_more)))])) }
        }
        (table("plan-stations", &text("plan-table"), &[Column::words(&heads[0]), Column::number(&heads[1])], &rows))
        p.quiet { (text("plan-order")) }
    }
}
