//! For how long records are kept once a swimmer has left, and whose time has passed. A proposal, never an act.

use app::desk::Desk;
use app::privacy::Retention;
use axum::http::StatusCode;
use maud::html;

use crate::web::error::problems_of;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

fn questions() -> [Ask; 2] {
    [
        Ask::new("years", "retention-years", Control::Number).needed(),
        Ask::new("age", "retention-age", Control::Number).hint("retention-age-hint"),
    ]
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let given = desk.retention()?.map_or_else(Sent::default, |kept| {
        let age = kept.until_age.map(|age| age.to_string()).unwrap_or_default();
        Sent::of(&[("years", &kept.years_after_leaving.to_string()), ("age", &age)])
    });
    page(desk, visit, &given, &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let (title, lede) = (text("retention-title"), text("retention-lede"));
    let here = Here::At(Place::People, Spot::Retention);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let overdue = desk.overdue_for_erasure(visit.today())?;
    let settled = desk.retention()?.is_some();
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action="/retention" {
            (visit.seals())
            (asks("", &questions(), given, wrong))
            (submit(&text("record-submit")))
        }
        h2 { (text("retention-overdue")) }
        @if !settled { p.quiet { (text("retention-not-settled")) } }
        @else if overdue.is_empty() { p.quiet { (text("retention-nobody")) } }
        ul.record-lines {
            @for one in &overdue {
                li {
                    a href={ "/people/" (one.subject) "/erase" } { (one.name) } " "
                    (say("retention-since", &[("left", Value::Words(&app::text::day(one.left))), ("since", Value::Words(&app::text::day(one.since)))]))
                }
            }
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// Settles it.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let number = |field: &str| sent.some(field).map(str::parse::<u8>);
    let wrong = |field: &str, says: &str| {
        [Problem { says: text(says), field: Some(field.to_owned()), ..Problem::default() }]
    };
    let again =
        |desk: &Desk, wrong: &[Problem]| page(desk, visit, sent, wrong, StatusCode::UNPROCESSABLE_ENTITY);
    let years = match number("years") {
        Some(Ok(years)) => years,
        Some(Err(_)) => return again(desk, &wrong("years", "take-not-whole")),
        None => return again(desk, &wrong("years", "take-needed")),
    };
    let until_age = match number("age") {
        None => None,
        Some(Ok(age)) => Some(age),
        Some(Err(_)) => return again(desk, &wrong("age", "take-not-whole")),
    };
    let retention = Retention { years_after_leaving: years, until_age };
    match desk.set_retention(&visit.moment, visit.who()?, &retention) {
        Ok(()) => Ok(respond::see("/retention?done=recorded")),
        Err(error) => again(desk, &problems_of(&error)),
    }
}
