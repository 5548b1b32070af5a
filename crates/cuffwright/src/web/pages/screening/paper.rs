//! The blank screening form on paper: one sheet a swimmer, in station order, with the same words as the screen.

use app::desk::{Desk, Person};
use app::screening::cell::unit;
use app::screening::row::{places, usual};
use app::views::people::{Find, find};
use maud::{Markup, html};
use trade::screening::measure::{Measure, Station};
use trade::side::Side;

use super::{HERE, measure_name, station_name};
use crate::web::layout::Frame;
use crate::web::pages::shared::{name, tells_apart};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The form: blank once, or once for everybody of a squad.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let (title, lede) = (text("paper-screening-title"), text("paper-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let named = visit.query.has("names", "yes");
    let everybody: Vec<&Person> = if named {
        let sought = Find { squad: visit.query.one("squad").to_owned(), ..Find::default() };
        find(desk, visit.today(), &sought).into_iter().map(|found| found.person).collect()
    } else {
        Vec::new()
    };
    let body = html! {
        p.paper-how {
            a.button.button-plain href=(if named { "/screening/form" } else { "/screening/form?names=yes" }) { (text(if named { "paper-blank" } else { "paper-named" })) }
            " " (text("paper-print"))
        }
        @if named { @for person in &everybody { (sheet(desk, Some(person))) } }
        @else { (sheet(desk, None)) }
    };
    visit.page(desk, frame, body)
}

fn sheet(desk: &Desk, person: Option<&Person>) -> Markup {
    html! {
        section.paper-sheet {
            h2 { (text("paper-screening-heading")) }
            div.paper-head {
                p.paper-line.paper-wide { (text("paper-name")) @if let Some(person) = person { " " b { (name(person)) } " " span.quiet { (tells_apart(person)) } } }
                @for word in ["paper-date", "paper-tester", "paper-device", "paper-hours"] { p.paper-line { (text(word)) } }
            }
            p.paper-rule { (text("paper-rule")) }
            @for station in Station::ALL { (part(desk, station)) }
            p.paper-line.paper-wide { (text("paper-notes")) }
        }
    }
}

fn part(desk: &Desk, station: Station) -> Markup {
    html! {
        div.paper-part {
            h3 { (station_name(station)) @if station.is_licensed() { " " span.quiet { (text("station-licensed")) } } }
            @match station {
                Station::CheckIn => p.paper-boxes { (text("paper-pain-now")) " " @for side in Side::BOTH { (text(&format!("side-{}", side.word()))) " " span.paper-box {} " " } },
                _ => {
                    table.paper-table { tbody {
                        @for measure in shown(station) { (line(desk, measure)) }
                        @if station == Station::Looking {
                            tr { th scope="row" { (text("paper-hollow")) } td { (text("side-left")) " " span.paper-box {} } td { (text("side-right")) " " span.paper-box {} } }
                            tr { th scope="row" { (text("paper-licence")) } td.paper-long colspan="2" {} }
                        }
                    } }
                },
            }
        }
    }
}

/// What a station offers where nobody chose, and the repetitions beside the seconds: a hall uses one of them.
fn shown(station: Station) -> Vec<&'static Measure> {
    let usual = usual(station);
    station
        .measures()
        .filter(|measure| usual.iter().any(|one| one.key == measure.key) || station == Station::Range)
        .collect()
}

fn line(desk: &Desk, measure: &'static Measure) -> Markup {
    let symbol = unit(measure.key, desk.reader().units).symbol();
    let label = if symbol.is_empty() {
        measure_name(measure.key)
    } else {
        say(
            "place-whole",
            &[
                ("measure", Value::Words(&measure_name(measure.key))),
                ("unit", Value::Words(symbol)),
                ("side", Value::Words("")),
            ],
        )
    };
    html! {
        tr {
            th scope="row" { (label) }
            @for place in places(&[measure]) {
                td colspan=[place.side.is_none().then_some("2")] {
                    @if let Some(side) = place.side { (text(&format!("side-{}", side.word()))) " " }
                    @for _ in 0..measure.trials { span.paper-box {} " " }
                }
            }
        }
    }
}
