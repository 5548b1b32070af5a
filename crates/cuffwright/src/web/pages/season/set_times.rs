//! Set times: what goes with longer and shorter ones, what to expect next, and whether such words were right.

use app::desk::Desk;
use app::set_times::SetTimes;
use app::set_times::model::{COLUMNS, Model};
use app::set_times::next::Next;
use maud::{Markup, html};
use picture::plot::{Axis, Mark, Plot, Role};
use stats::level::{Interval, Level};
use stats::set_time::calibration::Record;

use super::{fixed, plot, range, why};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::{href, name};
use crate::web::parts::table::{Column, Paging, paging, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Lines on one page.
const LINES: usize = 40;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let found = desk.set_times(visit.today());
    let (title, lede) = (text("set-times-title"), text("set-times-lede"));
    let here = Here::At(Place::Year, Spot::SetTimes);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        (counts(&found))
        @match &found.model {
            Err(lack) => p { (say("set-times-none", &[("why", Value::Words(&why(lack)))])) },
            Ok(model) => {
                (next(desk, visit, &found.next))
                (record(&found))
                (terms(model))
            }
        }
    };
    visit.page(desk, frame, body)
}

fn count(value: usize) -> Value<'static> {
    Value::Count(i64::try_from(value).unwrap_or(i64::MAX))
}

fn counts(found: &SetTimes) -> Markup {
    let counts = &found.counts;
    let sets = [
        ("sets", count(counts.sets)),
        ("lines", count(counts.lines)),
        ("swimmers", count(counts.swimmers)),
        ("lost", count(counts.lost)),
        ("reached", count(counts.reached)),
        ("other", count(counts.other)),
    ];
    html! {
        p { (say("set-times-counts", &sets)) }
        @if 0 < counts.pain + counts.chose {
            p { (say("set-times-informative", &[("pain", count(counts.pain)), ("chose", count(counts.chose))])) }
        }
        @if 0 < counts.unseen { p { (say("set-times-unseen", &[("unseen", count(counts.unseen))])) } }
        @if 0 < counts.elsewhere { p { (say("set-times-elsewhere", &[("elsewhere", count(counts.elsewhere))])) } }
    }
}

fn columns(heads: &[String]) -> Vec<Column<'_>> {
    heads.iter().map(|head| Column::words(head)).collect()
}

fn next(desk: &Desk, visit: &Visit, all: &[Next]) -> Markup {
    let pages = u32::try_from(all.len().div_ceil(LINES)).unwrap_or(u32::MAX).max(1);
    let page = visit.page_number().min(pages);
    let rows: Vec<Vec<Markup>> =
        all.iter().skip((page as usize - 1) * LINES).take(LINES).map(|next| next_row(desk, next)).collect();
    let heads = [
        "set-times-head-swimmer",
        "set-times-head-line",
        "set-times-head-rung",
        "set-times-head-first",
        "set-times-head-first-chance",
        "set-times-head-all",
        "set-times-head-rests",
    ]
    .map(text);
    html! {
        section {
            h2 { (text("set-times-next")) }
            p { (text("set-times-next-lede")) }
            (table("set-times-next", &text("set-times-next-caption"), &columns(&heads), &rows))
            (paging(Paging { page, pages, href: "/season/set-times?page=" }))
        }
    }
}

fn next_row(desk: &Desk, next: &Next) -> Vec<Markup> {
    let person = desk.person(next.line.subject).ok();
    let side = text(match next.line.side {
        trade::side::WorkingSide::Left => "side-left",
        trade::side::WorkingSide::Right => "side-right",
        trade::side::WorkingSide::Both => "side-both",
        trade::side::WorkingSide::Midline => "side-midline",
    });
    let percent = |chance: f64| format!("{} %", fixed(100.0 * chance, 0));
    let first = next.session.sets.first();
    let seconds = first.map_or_else(String::new, |set| {
        let (median, low, high) =
            (fixed(set.median, 0), fixed(set.interval.low, 0), fixed(set.interval.high, 0));
        let values =
            [("median", Value::Words(&median)), ("low", Value::Words(&low)), ("high", Value::Words(&high))];
        say("set-times-seconds", &values)
    });
    let cap = fixed(next.cap, 0);
    let chance = first.map_or_else(String::new, |set| {
        let percent = fixed(100.0 * set.chance, 0);
        say("set-times-of-cap", &[("percent", Value::Words(&percent)), ("cap", Value::Words(&cap))])
    });
    let cell = |words: String| html! { (words) };
    vec![
        html! { @if let Some(person) = person { a href=(href(person)) { (name(person)) } } },
        cell(format!("{} {side}", next.line.exercise)),
        cell(next.rung.to_string()),
        cell(seconds),
        cell(chance),
        cell(percent(next.session.chance_all)),
        cell(say("set-times-rests", &[("n", count(next.rests_on))])),
    ]
}

fn record(found: &SetTimes) -> Markup {
    html! {
        section {
            h2 { (text("set-times-record")) }
            p { (text("set-times-record-lede")) }
            @match &found.record {
                Ok(record) => (judged(record)),
                Err(_) => p { (text("set-times-record-none")) },
            }
        }
    }
}

fn judged(record: &Record) -> Markup {
    let percent = |value: f64| fixed(100.0 * value, 0);
    let in_percent = |interval: Interval| interval.map(|end| 100.0 * end);
    let (said, came) = (percent(record.said), percent(record.came));
    let whole = [("n", count(record.n)), ("said", Value::Words(&said)), ("came", Value::Words(&came))];
    let (brier, mean) = (fixed(record.brier, 3), fixed(record.brier_of_mean, 3));
    let off = record.p().filter(|p| *p < 0.05).map(|p| fixed(p, 3));
    let rows: Vec<Vec<Markup>> = record
        .classes
        .iter()
        .map(|class| {
            let wilson = in_percent(class.came.wilson);
            let came = [percent(class.came.share), fixed(wilson.low, 0), fixed(wilson.high, 0)];
            let values = [
                ("value", Value::Words(&came[0])),
                ("low", Value::Words(&came[1])),
                ("high", Value::Words(&came[2])),
            ];
            let agrees = if class.agrees { "set-times-agrees" } else { "set-times-agrees-not" };
            vec![
                html! { (percent(class.said)) " %" },
                html! { (class.came.n) },
                html! { (say("set-times-percent-range", &values)) },
                html! { (text(agrees)) },
            ]
        })
        .collect();
    let heads =
        ["set-times-head-said", "set-times-head-sets", "set-times-head-came", "set-times-head-agrees"]
            .map(text);
    let points = record.classes.iter().map(|class| {
        let wilson = in_percent(class.came.wilson);
        (100.0 * class.said, wilson.low, 100.0 * class.came.share, wilson.high)
    });
    let (title, lede) = (text("set-times-record"), text("set-times-record-lede"));
    let (x, y, perfect) =
        (text("set-times-axis-said"), text("set-times-axis-came"), text("set-times-perfect"));
    let ends = |label| Axis { to: Some(100.0), ..Axis::from_nought(label) };
    let marks = vec![
        Mark::Line { name: &perfect, role: Role::Quiet, points: vec![(0.0, 0.0), (100.0, 100.0)] },
        Mark::Intervals { name: &y, role: Role::First, points: points.collect() },
    ];
    let drawn = Plot { name: &title, description: &lede, x: ends(&x), y: ends(&y), marks };
    html! {
        p { (say("set-times-record-whole", &whole)) " "
            @if let Some(p) = off { (say("set-times-record-off", &[("p", Value::Words(&p))])) }
            @else { (text("set-times-record-fine")) } " "
            (say("set-times-record-better", &[("brier", Value::Words(&brier)), ("mean", Value::Words(&mean))])) }
        (plot(&drawn, (0, 0)))
        (table("set-times-record", &text("set-times-record-caption"), &columns(&heads), &rows))
    }
}

fn terms(model: &Model) -> Markup {
    let z = Level::USUAL.z();
    let rows: Vec<Vec<Markup>> = model
        .columns
        .iter()
        .enumerate()
        .map(|(place, &column)| {
            // A coefficient of the logarithm of rest is told for a doubling.
            let unit = if COLUMNS[column] == "set-times-by-rest" { std::f64::consts::LN_2 } else { 1.0 };
            let (value, se) = (unit * model.fit.coefficients[place + 1], unit * model.fit.se(place + 1));
            let factor = fixed(value.exp(), 2);
            let interval = Interval::around(value, z * se).map(f64::exp);
            vec![html! { (text(COLUMNS[column])) }, html! { (factor) }, html! { (range(interval, 2)) }]
        })
        .collect();
    let within = fixed(model.fit.scale().exp(), 2);
    let between = fixed(model.fit.between.as_ref().map_or(0.0, |between| between.sd).exp(), 2);
    let dropped: Vec<String> = model.dropped.iter().map(|&column| text(COLUMNS[column])).collect();
    let dropped = dropped.join(", ");
    let heads = ["set-times-head-what", "set-times-head-factor", "board-head-range"].map(text);
    html! {
        section {
            h2 { (text("set-times-model")) }
            p { (say("set-times-spread", &[("within", Value::Words(&within)), ("between", Value::Words(&between))])) }
            (table("set-times-model", &text("set-times-model-caption"), &columns(&heads), &rows))
            @if !dropped.is_empty() { p { (say("set-times-dropped", &[("what", Value::Words(&dropped))])) } }
        }
    }
}
