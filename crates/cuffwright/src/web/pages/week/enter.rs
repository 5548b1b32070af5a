//! Entry by hand: one sheet at a time, refused with every problem at its field.

use app::desk::Desk;
use axum::http::StatusCode;
use maud::html;
use store::SubjectId;

use super::sheets::{Sheet, find};
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::record::take::Taking;
use crate::web::pages::shared::back_or;
use crate::web::parts::ask::asks;
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::text;

fn sheet(visit: &Visit) -> Result<&'static Sheet, WebError> {
    find(visit.param("what")).ok_or_else(|| WebError::missing().back_to("/week"))
}

/// The sheet, empty.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let given = Sent::of(&[
        ("back", visit.query.one("back")),
        ("first", visit.query.one("on")),
        ("date", visit.query.one("on")),
    ]);
    page(desk, visit, sheet(visit)?, &given, &[], StatusCode::OK)
}

fn page(
    desk: &Desk,
    visit: &Visit,
    sheet: &Sheet,
    given: &Sent,
    wrong: &[Problem],
    status: StatusCode,
) -> Answer {
    let (title, here) = (text(sheet.title), Here::Below(Place::Week, Spot::Week));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame = Frame { title: &title, here, outcome: refused.as_ref(), ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action={ "/week/enter/" (sheet.word) } {
            (visit.seals())
            input type="hidden" name="back" value=(given.one("back"));
            (asks("", &(sheet.asks)(desk), given, wrong))
            (submit(&text("record-submit")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// Records what the sheet says.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let sheet = sheet(visit)?;
    let asked = (sheet.asks)(desk);
    let mut taking = Taking::new(sent, &asked, visit.today());
    let drafts = (sheet.take)(&mut taking);
    let (Some(drafts), true) = (drafts, taking.problems.is_empty()) else {
        return page(desk, visit, sheet, sent, &taking.problems, StatusCode::UNPROCESSABLE_ENTITY);
    };
    if let Err(error) = visit.record(desk, SubjectId::CLUB, &drafts) {
        if error.problems.is_empty() {
            return Err(error.into());
        }
        let wrong: Vec<Problem> = error
            .problems
            .iter()
            .map(|problem| Problem {
                says: desk.texts().say(problem.says, &problem.args),
                ..Problem::default()
            })
            .collect();
        return page(desk, visit, sheet, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    }
    Ok(respond::see(&with_done(back_or(sent.one("back"), "/week"), "recorded")))
}
