//! The club's own trial of a test: brought in as a table, kept as a fact, shown with its error.

use app::desk::{Desk, Draft};
use app::facts::TrialFact;
use app::screening::cell::{shown, unit};
use app::screening::trial::{of, read};
use app::text::day;
use axum::http::StatusCode;
use maud::{Markup, html};
use store::SubjectId;
use trade::screening::error::{ENOUGH_OWN, FEWEST_OWN, smallest_change};
use trade::screening::measure::{MEASURES, Measure};

use super::{HERE, measure_name};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::Frame;
use crate::web::pages::record::take::Taking;
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::{Field, file, submit};
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::parts::table::{Column, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

fn asked() -> Vec<Ask> {
    let mut measures = vec![(String::new(), text("choice-choose"))];
    measures.extend(MEASURES.iter().map(|measure| (measure.key.to_owned(), measure_name(measure.key))));
    vec![
        Ask::new("measure", "trial-measure", Control::Pick(measures)).needed(),
        Ask::new("date", "trial-date", Control::Day).needed(),
        Ask::new("how", "trial-how", Control::Line).hint("trial-how-hint"),
    ]
}

/// What is there, and the form.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &Sent::default(), &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let (title, lede) = (text("trial-title"), text("trial-lede"));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame =
        Frame { title: &title, lede: Some(&lede), here: HERE, outcome: refused.as_ref(), ..Frame::default() };
    let problem = wrong.iter().find(|problem| problem.field.as_deref() == Some("file"));
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        (listed(desk))
        section aria-labelledby="bring" {
            h2 id="bring" { (text("trial-bring")) }
            form.record method="post" action="/screening/trials" enctype="multipart/form-data" novalidate[!wrong.is_empty()] {
                (visit.seals())
                (asks("", &asked(), given, wrong))
                (file(&Field { name: "file", label: &text("trial-file"), hint: Some(&text("trial-file-hint")), problem: problem.map(|problem| problem.says.as_str()), needed: true, ..Field::default() }, ".csv,.txt,text/csv"))
                (submit(&text("trial-submit")))
            }
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn listed(desk: &Desk) -> Markup {
    let units = desk.reader().units;
    let rows: Vec<Vec<Markup>> = desk
        .club()
        .trials
        .iter()
        .rev()
        .map(|trial| {
            let measure = Measure::of(&trial.measure);
            let error = of(trial);
            let number = |value: f64| measure.map_or_else(|| value.to_string(), |measure| shown(measure, value, units));
            vec![
                html! { (measure_name(&trial.measure)) @if !trial.how.is_empty() { p.quiet { (trial.how) } } },
                html! { (day(trial.date)) },
                html! { (trial.rows.len()) " × " (trial.rows.first().map_or(0, Vec::len))
                    @if trial.rows.len() < FEWEST_OWN { p.field-problem { (text("trial-too-few")) } }
                    @else if trial.rows.len() < ENOUGH_OWN { p.quiet { (text("trial-few")) } } },
                html! { @if let Some(error) = &error { (number(error.sem)) } @else { (text("trial-no-error")) } },
                html! { @if let Some(error) = &error { (number(smallest_change(error.sem))) } },
                html! { (unit(&trial.measure, units).symbol()) },
            ]
        })
        .collect();
    let heads = [
        text("col-measure"),
        text("col-day"),
        text("col-people"),
        text("col-sem"),
        text("col-smallest"),
        text("col-unit"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! {
        @if rows.is_empty() { p { (text("trial-none")) } }
        @else { (table("trials", &text("trial-table"), &columns, &rows)) }
    }
}

/// Takes a table.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let asked = asked();
    let mut taking = Taking::new(sent, &asked, visit.today());
    let date = taking.past_day("date");
    let measure = taking.words("measure");
    let mut wrong = taking.problems;
    let at_file = |says: String, place: String| Problem {
        place: if place.is_empty() { text("trial-file") } else { place },
        says,
        hint: String::new(),
        field: Some("file".to_owned()),
    };
    let table = match &sent.file {
        None => {
            wrong.push(at_file(text("take-needed"), String::new()));
            None
        }
        Some(file) => match std::str::from_utf8(&file.bytes) {
            Err(_) => {
                wrong.push(at_file(text("trial-not-text"), String::new()));
                None
            }
            Ok(written) => match read(written) {
                Ok(rows) => Some(rows),
                Err(error) => {
                    wrong.extend(
                        problems_of(&error).into_iter().map(|problem| at_file(problem.says, problem.place)),
                    );
                    None
                }
            },
        },
    };
    let (Some(date), Some(measure), Some(rows), true) = (date, measure, table, wrong.is_empty()) else {
        return page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    };
    let rows = in_range_units(desk, &measure, rows);
    let fact = TrialFact { date, measure, rows, how: sent.one("how").to_owned() };
    match visit.record(desk, SubjectId::CLUB, &[Draft::new(&fact)]) {
        Ok(()) => Ok(respond::see("/screening/trials?done=recorded")),
        Err(error) if error.kind == app::error::ErrorKind::Input => {
            let wrong: Vec<Problem> =
                problems_of(&error).into_iter().map(|problem| at_file(problem.says, problem.place)).collect();
            page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY)
        }
        Err(error) => Err(WebError::from(error)),
    }
}

/// A table is written in the club's units; facts keep those of the range table.
pub fn in_range_units(desk: &Desk, key: &str, rows: Vec<Vec<f64>>) -> Vec<Vec<f64>> {
    let factor = app::screening::cell::from_written(key, desk.reader().units);
    rows.into_iter().map(|row| row.into_iter().map(|value| value * factor).collect()).collect()
}
