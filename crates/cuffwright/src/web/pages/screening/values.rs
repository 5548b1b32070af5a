//! One swimmer's screening: what was measured, side by side, what follows from it, and why.

use app::desk::{Desk, Person};
use app::screening::cell::{shown, unit};
use app::screening::sheet::{Sheet, sheet};
use app::text::day;
use maud::{Markup, html};
use quantity::{Judgement, Range};
use trade::history::Outcome;
use trade::screening::derived::{Derived, Gap, Value as Worked};
use trade::screening::measure::Measure;
use trade::side::Side;

use super::{measure_name, side_after};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::{href, name, reason, short_day};
use crate::web::parts::notice::empty;
use crate::web::parts::table::{Column, table};
use crate::web::parts::why::trace;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let own = href(person);
    let who = name(person);
    let title = say("values-title", &[("name", Value::Words(&who))]);
    let lede = text("values-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let wanted = visit.query.one("day").parse().ok();
    let body = match sheet(desk, person, visit.day(), wanted) {
        None => {
            let link = format!("{own}/record/screening");
            html! { (empty(&text("values-nothing"), Some((&text("record-screening"), &link)))) }
        }
        Some(sheet) => html! {
            (other_days(&own, &sheet))
            @if !sheet.flags.is_empty() {
                section aria-labelledby="flags" {
                    h2 id="flags" { (text("values-flags")) }
                    p.quiet { (text("watch-no-score")) }
                    (super::watch::flags(desk, &sheet.flags))
                }
            }
            (measured(desk, &sheet))
            (followed(desk, &sheet))
            p { a href={ (own) "/retest" } { (text("retest-link")) } " " a href=(own) { (text("facts-back")) } }
        },
    };
    visit.page(desk, frame, body)
}

fn other_days(own: &str, sheet: &Sheet<'_>) -> Markup {
    html! {
        @if 1 < sheet.days.len() {
            nav.squads aria-label=(text("values-days")) { ul {
                @for date in sheet.days.iter().rev() {
                    li { a href={ (own) "/screening?day=" (date) } aria-current=[(*date == sheet.day.date).then_some("page")] { (short_day(*date)) } }
                }
            } }
        }
    }
}

fn measured(desk: &Desk, sheet: &Sheet<'_>) -> Markup {
    let units = desk.reader().units;
    let mut keys: Vec<&str> = sheet.day.entries.iter().map(|entry| entry.finding.key.as_str()).collect();
    keys.dedup();
    let rank = |key: &str| {
        trade::screening::measure::MEASURES
            .iter()
            .position(|measure| measure.key == key)
            .unwrap_or(usize::MAX)
    };
    keys.sort_by_key(|key| rank(key));
    let value = |key: &str, side: Option<Side>| {
        let entry = sheet.day.entry(key, side);
        html! {
            @match entry.map(|entry| (&entry.finding.outcome, entry.contested)) {
                None => {},
                Some((Outcome::Measured(value), contested)) => {
                    @match Measure::of(key) { Some(measure) => (shown(measure, *value, units)), None => (value) }
                    @if contested { " " span.out-of-range { (text("values-contested")) } }
                    @if Range::of(key).is_some_and(|range| range.judge(*value) == Judgement::Ask) { " " span.out-of-range { (text("screening-unusual-short")) } }
                },
                Some((Outcome::NotTested(reason), _)) => (say("screening-not-tested", &[("reason", Value::Words(reason))])),
                Some((Outcome::Refused, _)) => (text("screening-refused")),
                Some((Outcome::NotDonePain, _)) => b { (text("screening-pain")) },
            }
        }
    };
    let rows: Vec<Vec<Markup>> = keys
        .iter()
        .map(|key| {
            vec![
                html! { (measure_name(key)) },
                html! { (value(key, Some(Side::Left))) },
                html! { (value(key, Some(Side::Right))) },
                html! { (value(key, None)) },
                html! { (unit(key, units).symbol()) },
            ]
        })
        .collect();
    let heads = [
        text("col-measure"),
        text("shoulder-left-short"),
        text("shoulder-right-short"),
        text("col-whole"),
        text("col-unit"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let mut testers: Vec<&str> = sheet.day.entries.iter().map(|entry| entry.tester).collect();
    testers.sort_unstable();
    testers.dedup();
    let (when, by) = (day(sheet.day.date), testers.join(", "));
    let caption = say("screening-caption", &[("day", Value::Words(&when)), ("tester", Value::Words(&by))]);
    html! {
        (table("measured", &caption, &columns, &rows))
        @for side in &sheet.day.visible_hollow { p.field-problem { (text(&format!("values-hollow-{}", side.word()))) } }
    }
}

/// One value that follows, on one line: sides beside each other where both are known.
struct Line<'a> {
    name: &'static str,
    all: Vec<&'a Derived>,
}

fn followed(desk: &Desk, sheet: &Sheet<'_>) -> Markup {
    let mut lines: Vec<Line<'_>> = Vec::new();
    for derived in &sheet.derived {
        let name = match derived {
            Derived::Known(value) => value.name,
            Derived::Missing(gap) => gap.name,
        };
        match lines.iter_mut().find(|line| line.name == name) {
            Some(line) => line.all.push(derived),
            None => lines.push(Line { name, all: vec![derived] }),
        }
    }
    html! {
        @if !lines.is_empty() {
            section aria-labelledby="followed" {
                h2 id="followed" { (text("values-followed")) }
                p.quiet { (text("values-followed-lede")) }
                ul.worked { @for line in &lines { (one_line(desk, line)) } }
            }
        }
    }
}

fn one_line(desk: &Desk, line: &Line<'_>) -> Markup {
    let known: Vec<&Worked> = line
        .all
        .iter()
        .filter_map(|derived| if let Derived::Known(value) = derived { Some(value) } else { None })
        .collect();
    let gaps = line
        .all
        .iter()
        .filter_map(|derived| if let Derived::Missing(gap) = derived { Some(gap) } else { None });
    html! {
        li {
            div.worked-line {
                p.worked-name { (text(line.name)) }
                @for value in &known { p.worked-value { (value_words(value)) } }
            }
            @for gap in gaps { p.quiet { (gap_words(gap)) } }
            @if !known.is_empty() {
                details {
                    summary { (text("why")) }
                    @for value in &known {
                        @let reasons: Vec<_> = std::iter::once(&value.line).chain(&value.beside).map(|line| reason(desk, line)).collect();
                        @if 1 < known.len() { @if let Some(side) = value.side { h3 { (text(&format!("shoulder-{}-short", side.word()))) } } }
                        (trace(&reasons))
                    }
                }
            }
        }
    }
}

/// The value with its unit; of a difference, which arm has less.
pub fn value_words(value: &Worked) -> String {
    let number = format!("{:.*}", usize::from(value.decimals), value.value);
    let unit = if value.unit == "deg" { "°" } else { value.unit };
    let number = if unit.is_empty() { number } else { format!("{number} {unit}") };
    let is_difference = value.name.ends_with("-difference") || value.name.ends_with("-symmetry");
    match value.side {
        Some(side) if is_difference => {
            let side = text(&format!("side-{}", side.word()));
            say("worked-less", &[("value", Value::Words(&number)), ("side", Value::Words(&side))])
        }
        Some(side) => {
            let side = text(&format!("side-{}", side.word()));
            say("worked-side", &[("value", Value::Words(&number)), ("side", Value::Words(&side))])
        }
        None => number,
    }
}

/// What is missing for a value.
pub fn gap_words(gap: &Gap) -> String {
    let missing: Vec<String> =
        gap.missing.iter().map(|(key, side)| format!("{}{}", measure_name(key), side_after(*side))).collect();
    let side = gap.side.map_or_else(String::new, |side| text(&format!("side-{}", side.word())));
    let what = missing.join("; ");
    let values = [("side", Value::Words(&side)), ("missing", Value::Words(&what))];
    if side.is_empty() { say("worked-missing", &values) } else { say("worked-missing-side", &values) }
}

/// Leads from the swimmer's own page here.
pub fn links(person: &Person) -> Markup {
    let own = href(person);
    html! {
        ul.ways.screening-ways {
            li { a href={ (own) "/screening" } { (text("values-link")) } }
            li { a href={ (own) "/retest" } { (text("retest-link")) } }
            li { a href={ (own) "/weekly" } { (text("weekly-link")) } }
            li { a href={ (own) "/water" } { (text("water-link")) } }
        }
    }
}
