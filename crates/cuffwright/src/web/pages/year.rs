//! The year: each week of the season with its phase, its planned sessions, and the rule behind each reduction.

use app::desk::Desk;
use app::week::say::short_day;
use app::week::season::{SeasonWeek, rule_words};
use app::week::stored::monday_of;
use jiff::civil::Date;
use maud::{Markup, html};

use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::notice::empty;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let (title, lede) = (text("place-year"), text("year-lede"));
    let here = Here::At(Place::Year, Spot::Year);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let squads = desk.squads(visit.today());
    let asked = visit.query.one("squad");
    let squad = squads.iter().find(|squad| *squad == asked).or(squads.first()).cloned().unwrap_or_default();
    let this = monday_of(visit.today());
    let body = match desk.season_of(&squad, visit.today()) {
        None => html! { (empty(&text("year-none"), None)) },
        Some(weeks) => html! {
            nav.turn aria-label=(text("year-squads")) { ul { @for other in &squads {
                li { a.button.button-plain href={ "/year?squad=" (super::shared::encoded(other)) } aria-current=[(*other == squad).then_some("true")] { (other) } }
            } } }
            (rope(&weeks, this))
            (table(&squad, &weeks, this))
        },
    };
    visit.page(desk, frame, body)
}

/// The season as a rope: a float for each week, as high as its sessions, marked by its phase.
fn rope(weeks: &[SeasonWeek], this: Date) -> Markup {
    let step = 100.0 / weeks.len().max(1) as f64;
    let most = weeks.iter().map(|week| week.week.sessions).max().unwrap_or(1).max(1);
    html! {
        svg.yr-rope width="100%" height="84" aria-hidden="true" focusable="false" {
            line.wk-cable x1="0" y1="44" x2="100%" y2="44" {}
            @for (index, week) in weeks.iter().enumerate() {
                @let height = 12.0 + 44.0 * f64::from(week.week.sessions) / f64::from(most);
                @let x = format!("{:.2}%", step * (index as f64 + 0.12));
                rect class={ "yr-float yr-" (week.week.phase.word()) @if week.week.monday == this { " yr-now" } }
                    x=(x) y=(format!("{:.1}", 44.0 - height / 2.0)) width=(format!("{:.2}%", step * 0.76)) height=(format!("{height:.1}")) rx="4" {}
                @for (_, grade) in &week.meets {
                    text.yr-meet x=(format!("{:.2}%", step * (index as f64 + 0.5))) y="82" text-anchor="middle" { (grade) }
                }
            }
        }
    }
}

fn table(squad: &str, weeks: &[SeasonWeek], this: Date) -> Markup {
    html! {
        div.table-scroll {
            table.yr-table {
                caption { (say("year-table", &[("squad", Value::Words(squad))])) }
                thead { tr {
                    th scope="col" { (text("year-week")) }
                    th scope="col" { (text("year-from")) }
                    th scope="col" { (text("year-phase")) }
                    th scope="col" { (text("year-planned")) }
                    th scope="col" { (text("year-set")) }
                    th scope="col" { (text("year-done")) }
                    th scope="col" { (text("year-why")) }
                } }
                tbody { @for week in weeks {
                    @let is_now = week.week.monday == this;
                    tr class=[is_now.then_some("yr-now-row")] {
                        th scope="row" { (week.week.number) @if is_now { " " (text("year-now")) } }
                        td { a href=(super::week::href(week.week.monday)) { (short_day(week.week.monday)) } }
                        td { (text(&format!("year-phase-{}", week.week.phase.word()))) }
                        td { (week.week.sessions) }
                        td { (week.set) }
                        td { (week.done) }
                        td {
                            @for (name, grade) in &week.meets { b { (name) " (" (grade) "). " } }
                            @for rule in &week.week.rules { (rule_words(rule)) " " }
                        }
                    }
                } }
            }
        }
        p.quiet { (text("year-planned-note")) }
    }
}
