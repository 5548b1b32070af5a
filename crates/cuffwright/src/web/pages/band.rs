//! One band: what it was measured to pull, how it wears, and the form for the next measuring.

use app::desk::{Desk, Draft};
use app::facts::{CalibrationFact, Problem as Found, ReadingFact};
use app::load::band;
use app::text::day;
use app::views::bands::{Band, bands, wear_words};
use axum::http::StatusCode;
use maud::{Markup, html};
use mechanics::elastic::{Fit, Stretch};
use picture::plot::{Axis, Mark, Plot, Role};
use store::SubjectId;

use super::shared::short_day;
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::drawn::plotted;
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// Address of one band.
pub fn address(mark: &str) -> String {
    let mark: String = form_urlencoded::byte_serialize(mark.as_bytes()).collect();
    format!("/kit/band?mark={mark}")
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let given = Sent::of(&[("date", &visit.today().to_string()), ("by", &visit.author().name)]);
    page(desk, visit, visit.query.one("mark"), &given, &[], StatusCode::OK)
}

fn page(
    desk: &Desk,
    visit: &Visit,
    mark: &str,
    given: &Sent,
    wrong: &[Problem],
    status: StatusCode,
) -> Answer {
    let all = bands(desk, visit.today());
    let band = all
        .iter()
        .find(|band| band.piece.fact.mark == mark)
        .ok_or_else(|| WebError::missing().back_to("/kit"))?;
    let title = say("band-title", &[("mark", Value::Words(mark))]);
    let lede = text("band-lede");
    let here = Here::Below(Place::Kit, Spot::Kit);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        section { h2 { (text("band-wear")) } (wear(band)) }
        @match band.newest().zip(band.fit()) {
            Some((fact, fit)) => (measured(fact, fit)),
            None => p.quiet { (text("band-not-measured")) },
        }
        @if 1 < band.calibrations.len() { (earlier(band)) }
        @if visit.may(door::permit::Thing::EditKit) {
            section { h2 { (text("band-measure")) } (how()) (form(visit, mark, given, wrong)) }
        }
        (safety())
    };
    visit.page_as(desk, status, frame, body)
}

fn wear(band: &Band) -> Markup {
    let (verdict, found) = wear_words(&band.wear);
    html! {
        p class=[(verdict == "wear-withdrawn").then_some("kit-out")] { (text(verdict)) }
        @if !found.is_empty() {
            ul { @for (says, values) in &found {
                @let values: Vec<(&str, Value<'_>)> = values.iter().map(|(name, value)| (*name, Value::Words(value))).collect();
                li { (say(says, &values)) }
            } }
        }
    }
}

fn figures(value: f64) -> String {
    if value.abs() < 10.0 { format!("{value:.2}") } else { format!("{value:.1}") }
}

/// The law with its plot, its residuals, and how it came about.
fn measured(fact: &CalibrationFact, fit: &Fit) -> Markup {
    let (low, high) = fit.range();
    let double = Stretch::from_ratio(2.0).map(|double| fit.predict(double));
    let [a, b] = fit.constants();
    let when = short_day(fact.date);
    let percent = |stretch: Stretch| format!("{:.0}", stretch.percent_elongation());
    html! {
        section {
            h2 { (say("band-measured", &[("day", Value::Words(&when)), ("by", Value::Words(&fact.by))])) }
            @if let Some(double) = double {
                p.lead { (say("band-double", &[
                    ("force", Value::Words(&figures(double.curve.value.newtons()))),
                    ("low", Value::Words(&figures(double.new_reading_95.0.newtons()))),
                    ("high", Value::Words(&figures(double.new_reading_95.1.newtons()))),
                ])) }
            }
            p { (say("band-range", &[("low", Value::Words(&percent(low))), ("high", Value::Words(&percent(high)))])) }
            (force_plot(fact, fit))
            (residual_plot(fact, fit))
            details.why { summary { (text("why")) }
                ol {
                    li { (say("band-why-readings", &[("n", Value::Count(fact.readings.len() as i64)), ("rest", Value::Words(&format!("{:.3}", fact.rest_m)))])) }
                    @if let Some(entered) = &fact.as_entered { li { (say("band-why-entered", &[("entered", Value::Words(entered))])) } }
                    li { (say("band-why-law", &[
                        ("a", Value::Words(&figures(a.value.newtons()))), ("asd", Value::Words(&figures(a.sd.newtons()))),
                        ("b", Value::Words(&figures(b.value.newtons()))), ("bsd", Value::Words(&figures(b.sd.newtons()))),
                    ])) }
                    li { (say("band-why-spread", &[("sd", Value::Words(&figures(fit.residual_sd().newtons())))])) }
                    li { (text("band-why-source")) }
                }
            }
        }
    }
}

fn force_plot(fact: &CalibrationFact, fit: &Fit) -> Markup {
    let (low, high) = fit.range();
    let from = 1.0;
    let at = |part: u32| from + (high.ratio() - from) * f64::from(part) / 40.0;
    let predicted: Vec<_> = (0..=40)
        .filter_map(|part| Stretch::from_ratio(at(part)))
        .map(|stretch| (stretch, fit.predict(stretch)))
        .collect();
    let elongation = |stretch: Stretch| stretch.percent_elongation();
    let (name, description) = (text("band-plot"), text("band-plot-desc"));
    let (x, y) = (text("band-plot-x"), text("band-plot-y"));
    let (curve, interval, points, first) = (
        text("band-plot-curve"),
        text("band-plot-interval"),
        text("band-plot-points"),
        text("band-plot-first"),
    );
    let plot = Plot {
        name: &name,
        description: &description,
        x: Axis::from_nought(&x),
        y: Axis::from_nought(&y),
        marks: vec![
            Mark::Band {
                name: &interval,
                role: Role::Quiet,
                points: predicted
                    .iter()
                    .map(|(at, said)| {
                        let (low, high) = said.new_reading_95;
                        (elongation(*at), low.newtons().max(0.0), high.newtons())
                    })
                    .collect(),
            },
            Mark::Line {
                name: &curve,
                role: Role::First,
                points: predicted
                    .iter()
                    .map(|(at, said)| (elongation(*at), said.curve.value.newtons()))
                    .collect(),
            },
            Mark::Points {
                name: &points,
                role: Role::First,
                points: fact
                    .readings
                    .iter()
                    .map(|reading| (100.0 * (reading.length_m / fact.rest_m - 1.0), reading.force_n))
                    .collect(),
            },
            Mark::Moment { name: &first, role: Role::Quiet, at: elongation(low) },
        ],
    };
    plotted(&plot, (0, 2))
}

fn residual_plot(fact: &CalibrationFact, fit: &Fit) -> Markup {
    let points: Vec<(f64, f64)> = fact
        .readings
        .iter()
        .zip(fit.residuals())
        .map(|(reading, residual)| (100.0 * (reading.length_m / fact.rest_m - 1.0), residual.newtons()))
        .collect();
    let (name, description) = (text("band-residuals"), text("band-residuals-desc"));
    let (x, y, curve, off) = (
        text("band-plot-x"),
        text("band-residuals-y"),
        text("band-residuals-curve"),
        text("band-residuals-points"),
    );
    let plot = Plot {
        name: &name,
        description: &description,
        x: Axis::from_nought(&x),
        y: Axis::of(&y),
        marks: vec![
            Mark::Level { name: &curve, role: Role::Quiet, at: 0.0 },
            Mark::Points { name: &off, role: Role::First, points },
        ],
    };
    plotted(&plot, (0, 2))
}

fn earlier(band: &Band) -> Markup {
    html! {
        section {
            h2 { (text("band-earlier")) }
            ul { @for (fact, fit) in &band.calibrations {
                li { (day(fact.date)) ": " @match fit {
                    Ok(fit) => {
                        @let double = Stretch::from_ratio(2.0).map(|double| figures(fit.predict(double).curve.value.newtons())).unwrap_or_default();
                        (say("band-earlier-double", &[("force", Value::Words(&double))]))
                    }
                    Err(_) => (text("band-earlier-none")),
                } }
            } }
        }
    }
}

fn how() -> Markup {
    html! { ol.band-how { @for step in ["band-how-mark", "band-how-pull", "band-how-read", "band-how-again"] { li { (text(step)) } } } }
}

fn questions() -> Vec<Ask> {
    let lengths = [("cm", "unit-cm"), ("m", "unit-m"), ("in", "unit-in")];
    let forces = [("kgf", "unit-kg"), ("n", "unit-n"), ("lbf", "unit-lb")];
    let picks =
        |units: [(&str, &str); 3]| units.map(|(value, words)| (value.to_owned(), text(words))).to_vec();
    vec![
        Ask::new("date", "ask-date", Control::Day).needed(),
        Ask::new("by", "ask-by", Control::Line).needed(),
        Ask::new("length_unit", "band-ask-length-unit", Control::One(picks(lengths))).needed(),
        Ask::new("force_unit", "band-ask-force-unit", Control::One(picks(forces))).needed(),
        Ask::new("rest", "band-ask-rest", Control::Line).needed().hint("band-ask-rest-hint"),
        Ask::new("readings", "band-ask-readings", Control::Lines).needed().hint("band-ask-readings-hint"),
    ]
}

fn form(visit: &Visit, mark: &str, given: &Sent, wrong: &[Problem]) -> Markup {
    html! {
        form.record method="post" action="/kit/band" {
            (visit.seals())
            input type="hidden" name="mark" value=(mark);
            (asks("", &questions(), given, wrong))
            (submit(&text("record-submit")))
        }
    }
}

/// Takes one calibration. Readings that give no law are shown again with the reason, and nothing is kept.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let mark = sent.one("mark").to_owned();
    let asked = questions();
    let mut taking = super::record::take::Taking::new(sent, &asked, visit.today());
    let (date, by) = (taking.past_day("date"), taking.words("by"));
    let (length, force) = (taking.words("length_unit"), taking.words("force_unit"));
    let (rest, readings) = (taking.words("rest"), taking.words("readings"));
    let mut wrong = taking.problems;
    let mut drafts = Vec::new();
    if let (Some(date), Some(by), Some(length), Some(force), Some(rest), Some(typed)) =
        (date, by, length, force, rest, readings)
    {
        match fact(date, &mark, by, (&length, &force), &rest, &typed) {
            Ok(fact) => drafts.push(Draft::new(&fact)),
            Err(found) => wrong.extend(found.iter().map(said)),
        }
    }
    if !wrong.is_empty() || drafts.is_empty() {
        return page(desk, visit, &mark, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    }
    visit.record(desk, SubjectId::CLUB, &drafts)?;
    Ok(respond::see(&with_done(&address(&mark), "recorded")))
}

fn said(found: &Found) -> Problem {
    let values: Vec<(&str, Value<'_>)> =
        found.args.iter().map(|(name, value)| (*name, Value::Words(value))).collect();
    Problem { place: found.path.clone(), says: say(found.says, &values), ..Problem::default() }
}

/// One line a reading: length, then force, apart by a blank, a semicolon or a comma.
fn fact(
    date: jiff::civil::Date,
    mark: &str,
    by: String,
    (length, force): (&str, &str),
    rest: &str,
    typed: &str,
) -> Result<CalibrationFact, Vec<Found>> {
    let rest = if rest.trim().parse::<f64>().is_ok() {
        format!("{} {length}", rest.trim())
    } else {
        rest.replace(',', ".")
    };
    let rest = if rest.trim().ends_with(|letter: char| letter.is_ascii_digit()) {
        format!("{rest} {length}")
    } else {
        rest
    };
    let rest =
        band::length(&rest).map_err(|problem| vec![Found { path: text("band-ask-rest"), ..problem }])?;
    let mut table = format!("length_{length};force_{force}\n");
    for line in typed.lines().map(str::trim).filter(|line| !line.is_empty()) {
        let apart = |letter: char| letter.is_whitespace() || letter == ';';
        let cells: Vec<&str> = if line.contains(apart) {
            line.split(apart).filter(|cell| !cell.is_empty()).map(|cell| cell.trim_matches(',')).collect()
        } else {
            line.split(',').collect()
        };
        table.push_str(&cells.join(";"));
        table.push('\n');
    }
    let readings = band::readings(&table)?;
    let fact = CalibrationFact {
        date,
        mark: mark.to_owned(),
        rest_m: rest.metres(),
        readings: readings
            .iter()
            .map(|(length_m, force_n)| ReadingFact { length_m: *length_m, force_n: *force_n })
            .collect(),
        by,
        as_entered: Some(format!("{typed} ({length}, {force})").replace(['\r', '\n'], "; ")),
    };
    fact.fit()?;
    Ok(fact)
}

/// What stands wherever bands are cut, joined or hung up.
pub fn safety() -> Markup {
    html! {
        section { h2 { (text("band-safety")) }
            ul.exercise-cautions { @for caution in ["band-safety-knot", "band-safety-test", "band-safety-anchor", "band-safety-face", "band-safety-latex"] { li { (text(caution)) } } }
        }
    }
}
