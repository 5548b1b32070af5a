//! Erasing one person: an act of its own, with the name typed once more.

use app::desk::Desk;
use app::error::ErrorKind;
use app::privacy::Ground;
use axum::http::StatusCode;
use maud::html;

use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::name;
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::notice::{Problem, problems};
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

fn questions() -> [Ask; 2] {
    let grounds = Ground::ALL
        .iter()
        .map(|ground| (ground.word().to_owned(), text(&format!("erase-ground-{}", ground.word()))));
    [
        Ask::new("ground", "erase-ground", Control::One(grounds.collect())).needed(),
        Ask::new("name", "erase-name", Control::Line).needed().hint("erase-name-hint"),
    ]
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &Sent::default(), &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let subject = visit.subject()?;
    let whose = name(desk.person(subject)?);
    let full = desk.person(subject)?.read.swimmer.name.clone();
    let title = say("erase-title", &[("name", Value::Words(&whose))]);
    let lede = text("erase-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        ul.plain-list {
            li { (text("erase-what")) }
            li { (text("erase-stays")) }
            li { (text("erase-elsewhere")) }
        }
        form.record method="post" action={ "/people/" (subject) "/erase" } {
            (visit.seals())
            p { (text("erase-full-name")) " " b { (full) } }
            (asks("", &questions(), given, wrong))
            div.record-do {
                button.button.button-stop type="submit" { (text("erase-do")) }
                a.button.button-plain href={ "/people/" (subject) "/consent" } { (text("record-leave")) }
            }
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// Erases.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let Some(ground) = Ground::from_word(sent.one("ground")) else {
        let field = Some("ground".to_owned());
        let wrong = [Problem { says: text("take-needed"), field, ..Problem::default() }];
        return page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    };
    let erased = desk.erase_person(&visit.moment, visit.who()?, visit.subject()?, sent.one("name"), ground);
    match erased {
        Ok(erased) => {
            let (title, lede) = (text("erased-title"), text("erase-elsewhere"));
            let here = Here::Below(Place::People, Spot::People);
            let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
            let facts = i64::try_from(erased.facts).unwrap_or(i64::MAX);
            let accounts = i64::try_from(erased.accounts).unwrap_or(i64::MAX);
            let body = html! {
                p { (say("erased-facts", &[("n", Value::Count(facts))])) }
                p { (say("erased-accounts", &[("n", Value::Count(accounts))])) }
                @if !erased.scrubbed { p { strong { (text("erased-not-scrubbed")) } } }
                p { a href="/people" { (text("error-to-people")) } }
            };
            visit.page(desk, frame, body)
        }
        Err(error) if error.kind == ErrorKind::Input => {
            let mut wrong = problems_of(&error);
            wrong.iter_mut().for_each(|problem| problem.field = Some("name".to_owned()));
            page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY)
        }
        Err(error) => Err(WebError::from(error)),
    }
}
