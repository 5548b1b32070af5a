//! The season: one page that survives a statistician's questions.

use app::desk::Desk;
use app::text::day;
use app::year::strength::Strength;
use app::year::{Figure, Year, season_of, year};
use maud::{Markup, html};
use picture::plot::{Axis, Mark, Plot, Role};
use quantity::Range;

use super::{fixed, not_shown, range};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let stretch = season_of(desk, visit.today());
    let year = year(desk, stretch);
    let (title, from, to) = (text("board-title"), day(stretch.from), day(stretch.to));
    let lede = say("board-lede", &[("from", Value::Words(&from)), ("to", Value::Words(&to))]);
    let here = Here::At(Place::Year, Spot::Season);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if year.now.sessions == 0 && year.now.km <= 0.0 && year.sore.is_empty() {
            p { (text("board-nothing")) }
        } @else {
            (figures(&year))
            section { h2 { (text("board-power")) } p { (power(&year)) } }
            (strength(&year))
            (sore(&year))
        }
    };
    visit.page(desk, frame, body)
}

/// One figure: what it is, its value and range in large type, and a plain sentence.
fn row(name: &str, value: String, range: String, says: String) -> Markup {
    card(&text(name), &value, &range, &says)
}

fn card(name: &str, value: &str, range: &str, says: &str) -> Markup {
    html! {
        div.board-figure {
            dt { (name) }
            dd.board-value { (value) @if !range.is_empty() { " " span.board-range { (range) } } }
            @if !says.is_empty() { dd.board-says { (says) } }
        }
    }
}

/// A figure that may be hidden.
fn shown<T>(name: &str, figure: &Figure<T>, says: String, of: impl Fn(&T) -> (String, String)) -> Markup {
    match (figure.shown(), not_shown(figure)) {
        (Some(value), _) => {
            let (value, range) = of(value);
            row(name, value, range, says)
        }
        (None, why) => card(&text(name), "-", "", &format!("{} {says}", why.unwrap_or_default())),
    }
}

fn figures(year: &Year) -> Markup {
    let now = &year.now;
    let count = |value: u64| Value::Count(i64::try_from(value).unwrap_or(i64::MAX));
    let size = |value: usize| Value::Count(i64::try_from(value).unwrap_or(i64::MAX));
    let (km, hours) = (fixed(now.km, 0), fixed(now.hours_held, 1));
    let percent = |value: f64| format!("{} %", fixed(100.0 * value, 0));
    let mut rows = vec![shown(
        "board-adherence",
        &year.adherence,
        say("board-adherence-says", &[("attended", count(now.attended)), ("offered", count(now.offered))]),
        |share| (percent(share.share), format!("{} %", range(share.wilson.map(|end| 100.0 * end), 0))),
    )];
    let values = [("km", Value::Words(&km)), ("sessions", size(now.sessions))];
    let says = [
        ("km", Value::Words(&km)),
        ("water", size(now.people_in_water)),
        ("sessions", size(now.sessions)),
        ("people", size(now.people)),
        ("hours", Value::Words(&hours)),
    ];
    rows.push(row(
        "board-exposure",
        say("board-exposure-value", &values),
        String::new(),
        say("board-exposure-says", &says),
    ));
    // How many had a problem is said only where they are several, or none.
    let with = if 0 < now.people_with && now.people_with < app::year::FEWEST {
        text("board-fewer-than-five")
    } else {
        now.people_with.to_string()
    };
    let says = say("board-problems-says", &[("people", Value::Words(&with))]);
    rows.push(row("board-problems", now.problems.to_string(), String::new(), says));
    let rate = |rate: &stats::rates::count::Rate| (fixed(rate.rate, 2), range(rate.interval, 2));
    rows.push(shown("board-per-km", &year.per_km, text("board-per-km-says"), rate));
    rows.push(shown("board-per-session", &year.per_session, String::new(), rate));
    if let Some(before) = &year.before {
        let holds = year.ratio.shown().is_none_or(|ratio| ratio.exact.holds(1.0));
        let says = say(
            if holds { "board-ratio-holds" } else { "board-ratio-differs" },
            &[("now", count(now.problems)), ("before", count(before.problems))],
        );
        rows.push(shown("board-ratio", &year.ratio, says, |ratio| {
            (ratio.ratio.map_or_else(|| "-".to_owned(), |ratio| fixed(ratio, 2)), range(ratio.exact, 2))
        }));
    } else {
        rows.push(row("board-ratio", "-".to_owned(), String::new(), text("board-ratio-none")));
    }
    let says = year.rungs.shown().map_or_else(String::new, |rungs| {
        let k = usize::try_from(rungs.higher.k).unwrap_or(usize::MAX);
        say(
            "board-rungs-says",
            &[("higher", size(k)), ("lines", size(rungs.lines)), ("lower", size(rungs.lower))],
        )
    });
    rows.push(shown("board-rungs", &year.rungs, says, |rungs| {
        let mean = fixed(rungs.mean, 1);
        let higher = range(rungs.higher.wilson.map(|end| 100.0 * end), 0);
        let higher = say("board-rungs-range", &[("range", Value::Words(&higher))]);
        (say("board-rungs-value", &[("mean", Value::Words(&mean))]), higher)
    }));
    html! {
        section {
            h2 { (text("board-figures")) }
            dl.board { @for row in &rows { (row) } }
        }
    }
}

fn power(year: &Year) -> String {
    let n = Value::Count(i64::try_from(year.now.problems).unwrap_or(i64::MAX));
    match year.shows_from {
        Some(share) => {
            let percent = fixed(100.0 * share, 0);
            say("board-power-says", &[("n", n), ("percent", Value::Words(&percent))])
        }
        None => say("board-power-none", &[("n", n)]),
    }
}

fn strength(year: &Year) -> Markup {
    html! {
        section {
            h2 { (text("board-strength")) }
            p { (text("board-strength-lede")) }
            dl.board { @for strength in &year.strength { (strength_card(strength)) } }
        }
    }
}

fn strength_card(strength: &Strength) -> Markup {
    let (name, unit) = Range::of(strength.key).map_or((strength.key, ""), |range| (range.label, range.unit));
    let Some(change) = strength.found.shown() else {
        return card(name, "-", "", &not_shown(&strength.found).unwrap_or_default());
    };
    let size = |value: usize| Value::Count(i64::try_from(value).unwrap_or(i64::MAX));
    let start = format!("{} {unit}", fixed(change.at_start, 0));
    let values = [
        ("tests", size(change.tests)),
        ("shoulders", size(change.shoulders)),
        ("people", size(change.people)),
        ("start", Value::Words(&start)),
    ];
    let moved = text(if !change.sound {
        "board-strength-unsound"
    } else if 0.0 < change.range.low {
        "board-strength-up"
    } else if change.range.high < 0.0 {
        "board-strength-down"
    } else {
        "board-strength-open"
    });
    let a_month =
        format!("{}{} {unit}", if 0.0 < change.a_month { "+" } else { "" }, fixed(change.a_month, 1));
    let value = say("board-a-month", &[("value", Value::Words(&a_month))]);
    card(name, &value, &range(change.range, 1), &format!("{moved} {}", say("board-strength-says", &values)))
}

fn sore(year: &Year) -> Markup {
    if year.sore.is_empty() {
        return html! {};
    }
    let mut points = Vec::new();
    let mut months: Vec<String> = Vec::new();
    let mut rows = Vec::new();
    for (place, (month, figure)) in year.sore.iter().enumerate() {
        // A day is written “1 March 2026”; a month is the same without its day.
        let whole = day(*month);
        let label = whole.split_once(' ').map_or_else(|| whole.clone(), |(_, month)| month.to_owned());
        let cell = |text: String| html! { (text) };
        match figure.shown() {
            Some(share) => {
                let wilson = share.wilson.map(|end| 100.0 * end);
                points.push((place as f64, wilson.low, 100.0 * share.share, wilson.high));
                rows.push(vec![
                    cell(label.clone()),
                    cell(share.n.to_string()),
                    cell(share.k.to_string()),
                    cell(format!("{} %", fixed(100.0 * share.share, 0))),
                    cell(format!("{} %", range(wilson, 0))),
                ]);
            }
            None => {
                let why = not_shown(figure).unwrap_or_default();
                let blank = || cell(String::new());
                rows.push(vec![cell(label.clone()), blank(), blank(), cell(why), blank()]);
            }
        }
        months.push(label.chars().take(3).collect());
    }
    let heads =
        ["board-head-month", "board-head-asked", "board-head-sore", "board-head-share", "board-head-range"]
            .map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let (name, lede, share) = (text("board-sore"), text("board-sore-lede"), text("board-sore-axis"));
    let mut across = Axis::of("");
    across.from = Some(-0.5);
    across.to = Some(months.len() as f64 - 0.5);
    across.named = months.iter().enumerate().map(|(place, month)| (place as f64, month.as_str())).collect();
    let mut up = Axis::from_nought(&share);
    up.to = Some(100.0);
    let marks = vec![Mark::Intervals { name: &share, role: Role::First, points }];
    let drawn = Plot { name: &name, description: &lede, x: across, y: up, marks };
    html! {
        section {
            h2 { (name) }
            p { (lede) }
            @if 1 < months.len() { figure.plot-figure { (picture::plot::svg(&drawn, picture::Ink::Roles)) } }
            (table("board-sore", &text("board-sore-caption"), &columns, &rows))
        }
    }
}
