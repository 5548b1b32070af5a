//! What a person says to a proposal, as a form sends it.

use app::decide::{LineRef, Say};
use app::desk::Desk;
use axum::http::StatusCode;
use door::permit::Thing;
use quantity::HoldTime;
use trade::dosing::Action;
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use super::lines::Given;
use crate::web::error::{WebError, problems_of};
use crate::web::pages::shared::back_or;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::text;

/// Which line a form is about, and what it says.
pub fn read_decision(visit: &Visit, sent: &Sent) -> Result<(LineRef, Say), WebError> {
    let broken = || WebError::input(Vec::new()).back_to(visit.path.trim_end_matches("/decide"));
    let line = LineRef {
        subject: visit.subject()?,
        exercise: ExerciseId::new(sent.one("exercise")),
        side: WorkingSide::from_word(sent.one("side")).ok_or_else(broken)?,
        on: sent.one("on").parse().map_err(|_| broken())?,
    };
    let said = match sent.one("choice") {
        "confirm" => {
            let action = Action::ALL.into_iter().find(|action| action.word() == sent.one("action"));
            Say::Confirm { action: action.ok_or_else(broken)?, rung: sent.some("rung").map(RungId::new) }
        }
        "override" => Say::Override {
            rung: sent.some("instead").map(RungId::new),
            sets: sent.some("sets").and_then(|sets| sets.parse().ok()),
            cap: sent
                .some("cap")
                .and_then(|cap| cap.replace(',', ".").parse().ok())
                .and_then(|cap| HoldTime::try_from_seconds(cap).ok()),
            reason: sent.one("reason").to_owned(),
        },
        _ => return Err(broken()),
    };
    Ok((line, said))
}

/// Takes one decision.
pub fn decide(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let (line, said) = read_decision(visit, sent)?;
    let cap_unread = sent.some("cap").is_some() && matches!(said, Say::Override { cap: None, .. });
    if cap_unread {
        let says = text("take-not-a-number");
        return refused(desk, visit, sent, line, says, StatusCode::UNPROCESSABLE_ENTITY);
    }
    match desk.decide(&visit.moment, &visit.author(), &line, &said) {
        Ok(_) => {
            desk.changed(&visit.moment, visit.who()?, Thing::Decide, &[line.subject])?;
            let own = format!("/people/{}", line.subject);
            Ok(respond::see(&with_done(back_or(sent.one("back"), &own), "decided")))
        }
        Err(error) => {
            let words = problems_of(&error);
            let says: Vec<String> = words
                .iter()
                .map(|problem| format!("{} {}", problem.says, problem.hint).trim().to_owned())
                .collect();
            let is_input = error.kind == app::error::ErrorKind::Input;
            let status = if is_input { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::CONFLICT };
            refused(desk, visit, sent, line, says.join(" "), status)
        }
    }
}

/// The page again, with what was chosen and written, and why it was not taken.
fn refused(
    desk: &Desk,
    visit: &Visit,
    sent: &Sent,
    line: LineRef,
    says: String,
    status: StatusCode,
) -> Answer {
    let person = desk.person(line.subject)?;
    let given =
        Given { line, says, choice: sent.one("choice").to_owned(), reason: sent.one("reason").to_owned() };
    if sent.one("back").starts_with("/review") {
        return crate::web::pages::review::page(desk, visit, Some(&given), status);
    }
    super::page(desk, visit, person, Some(&given), status)
}
