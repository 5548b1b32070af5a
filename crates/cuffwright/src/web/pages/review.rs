//! What waits for a person: exceptions first, each by itself; then what may be accepted together.

use app::decide::{LineRef, Say};
use app::desk::Desk;
use app::review::Waiting;
use axum::http::StatusCode;
use door::permit::Thing;
use maud::{Markup, html};
use trade::dosing::Action;
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use super::person::lines::{Given, Words, confirms, exercise_name, form, side_name};
use super::shared::{href, name, reasons, short_day, tells_apart};
use crate::web::error::problems_of;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, empty, outcome};
use crate::web::parts::proposal::{ProposalWords, proposal};
use crate::web::parts::table::{Paging, paging};
use crate::web::parts::why::why;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Exceptions on one page.
const ALONE: usize = 30;
/// Lines that may be accepted together on one page.
const TOGETHER: usize = 100;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, None, StatusCode::OK)
}

/// The page, with what came of a decision that was not taken.
pub fn page(desk: &Desk, visit: &Visit, refused: Option<&Given>, status: StatusCode) -> Answer {
    let queue = desk.review_on(visit.day());
    let (together, alone): (Vec<&Waiting>, Vec<&Waiting>) =
        queue.iter().partition(|waiting| waiting.may_go_together());
    let (title, here) = (text("review-title"), Here::At(Place::Due, Spot::Review));
    let lede = say(
        "review-lede",
        &[
            ("alone", Value::Count(alone.len() as i64)),
            ("together", Value::Count(together.len() as i64)),
            ("day", Value::Words(&short_day(visit.day()))),
        ],
    );
    let wrong = refused.map(|given| outcome(Outcome::Refused, &given.says));
    let frame = Frame { title: &title, lede: Some(&lede), here, outcome: wrong.as_ref(), ..Frame::default() };
    let pages = u32::try_from(alone.len().div_ceil(ALONE).max(together.len().div_ceil(TOGETHER)))
        .unwrap_or(u32::MAX)
        .max(1);
    let at = visit.page_number().min(pages);
    let skip = at as usize - 1;
    let body = html! {
        @if queue.is_empty() { (empty(&text("review-none"), Some((&text("review-none-do"), "/people")))) }
        @let alone_here: Vec<&&Waiting> = alone.iter().skip(skip * ALONE).take(ALONE).collect();
        @if !alone_here.is_empty() {
            section aria-labelledby="alone" {
                h2 id="alone" { (text("review-alone")) }
                p.quiet { (text("review-alone-why")) }
                ul.waiting { @for waiting in alone_here { li { (by_itself(desk, visit, waiting, refused)) } } }
            }
        }
        @let together_here: Vec<&Waiting> = together.iter().skip(skip * TOGETHER).take(TOGETHER).copied().collect();
        @if !together_here.is_empty() { (side_by_side(desk, visit, &together_here)) }
        (paging(Paging { page: at, pages, href: "/review?page=" }))
    };
    visit.page_as(desk, status, frame, body)
}

/// One exception with all its reasons and its own form.
fn by_itself(desk: &Desk, visit: &Visit, waiting: &Waiting, refused: Option<&Given>) -> Markup {
    let Ok(person) = desk.person(waiting.subject) else { return html! {} };
    let shown = &waiting.proposal;
    let words = Words::of(desk, shown);
    let mut lines = shown.trace.clone();
    lines.extend(shown.alone.iter().cloned());
    let reasons = reasons(desk, &lines);
    let title = exercise_name(desk, &shown.exercise);
    let side = side_name(shown.side);
    let who = name(person);
    let proposed = ProposalWords {
        exercise: Some(&title),
        side: &side,
        action: shown.action,
        dose: words.dose(shown),
        count: None,
        reasons: &reasons,
        alone: true,
    };
    html! {
        p.waiting-who { a href=(href(person)) { (who) } " " span.quiet { (tells_apart(person)) } }
        (proposal(&proposed, &form(desk, visit, person, shown, refused, "/review", Some(&who))))
    }
}

/// What one line sends when it is marked: everything that was read, so that a changed proposal is not confirmed.
fn sealed(waiting: &Waiting) -> String {
    let proposal = &waiting.proposal;
    let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()).map_or("", RungId::as_str);
    let parts = [
        waiting.subject.to_string(),
        proposal.exercise.to_string(),
        proposal.side.word().to_owned(),
        proposal.action.word().to_owned(),
        rung.to_owned(),
    ];
    parts.join("|")
}

fn unsealed(text: &str, on: jiff::civil::Date) -> Option<(LineRef, Say)> {
    let mut parts = text.split('|');
    let line = LineRef {
        subject: parts.next()?.parse().ok()?,
        exercise: ExerciseId::new(parts.next()?),
        side: WorkingSide::from_word(parts.next()?)?,
        on,
    };
    let action = parts.next()?;
    let action = Action::ALL.into_iter().find(|known| known.word() == action)?;
    let rung = parts.next().filter(|rung| !rung.is_empty()).map(RungId::new);
    Some((line, Say::Confirm { action, rung }))
}

/// What may be accepted together. Nothing is marked beforehand; one button of its own marks all.
fn side_by_side(desk: &Desk, visit: &Visit, lines: &[&Waiting]) -> Markup {
    let marked = visit.query.has("mark", "all");
    html! {
        section aria-labelledby="together" {
            h2 id="together" { (text("review-together")) }
            p.quiet { (text("review-together-why")) }
            form.mark-all method="get" action="/review#together" {
                input type="hidden" name="page" value=(visit.page_number());
                @if marked { button.button.button-plain type="submit" { (text("review-mark-none")) } }
                @else { button.button.button-plain type="submit" name="mark" value="all" { (say("review-mark-all", &[("n", Value::Count(lines.len() as i64))])) } }
            }
            form method="post" action="/review" {
                (visit.seals())
                input type="hidden" name="on" value=(visit.day());
                ul.together {
                    @for (index, waiting) in lines.iter().enumerate() {
                        @if let Ok(person) = desk.person(waiting.subject) {
                            @let id = format!("line-{index}");
                            li.choice {
                                input type="checkbox" id=(id) name="line" value=(sealed(waiting)) checked[marked];
                                div.together-line {
                                    label for=(id) {
                                        b { (name(person)) } ", " (exercise_name(desk, &waiting.proposal.exercise)) ", " (side_name(waiting.proposal.side))
                                        span.choice-hint { (confirms(desk, &waiting.proposal)) }
                                    }
                                    (why(&reasons(desk, &waiting.proposal.trace)))
                                    a.quiet href={ (href(person)) "#line-" (waiting.proposal.exercise) } { (text("review-to-line")) }
                                }
                            }
                        }
                    }
                }
                div.together-do { (submit(&text("review-confirm-marked"))) }
            }
        }
    }
}

/// Confirms what was marked: all of it or nothing.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let on = sent.one("on").parse().unwrap_or(visit.today());
    let mut lines = Vec::new();
    for text in sent.all("line") {
        // What cannot be read was not drawn by us; confirming the rest without it would be half a confirmation.
        lines.push(
            unsealed(text, on)
                .ok_or_else(|| crate::web::error::WebError::input(Vec::new()).back_to("/review"))?,
        );
    }
    if lines.is_empty() {
        return Ok(respond::see("/review?done=nothing-marked"));
    }
    match desk.confirm_together(&visit.moment, &visit.author(), &lines) {
        Ok(_) => {
            let mut subjects: Vec<_> = lines.iter().map(|(line, _)| line.subject).collect();
            subjects.dedup();
            desk.changed(&visit.moment, visit.who()?, Thing::Decide, &subjects)?;
            Ok(respond::see("/review?done=together"))
        }
        Err(error) => {
            let says: Vec<String> = problems_of(&error)
                .iter()
                .map(|problem| format!("{} {}", problem.says, problem.hint).trim().to_owned())
                .collect();
            let given = Given {
                line: lines[0].0.clone(),
                says: says.join(" "),
                choice: String::new(),
                reason: String::new(),
            };
            // The marks are not kept: what changed has to be read before it is marked again.
            let nothing =
                Given { line: LineRef { exercise: ExerciseId::new(""), ..given.line.clone() }, ..given };
            page(desk, visit, Some(&nothing), StatusCode::CONFLICT)
        }
    }
}
