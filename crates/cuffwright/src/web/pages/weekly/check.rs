//! One swimmer's weekly check: four questions a shoulder, in our own words. From the swimmer or from paper.

use app::desk::{Desk, Draft};
use app::facts::{AnswersFact, PainFact, PainKindWord, WeeklyCheckFact, WhenWord};
use app::text::day;
use axum::http::StatusCode;
use maud::{Markup, html};
use trade::side::Side;
use trade::weekly::LAST;

use super::open_in_week;
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::record::take::Taking;
use crate::web::pages::shared::{href, name};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::parts::table::{Column, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Names of the questions of one shoulder, in order; the first decides whether the others are asked.
const LEFT: [&str; 4] = ["left_taking_part", "left_less_training", "left_performance", "left_symptoms"];
const RIGHT: [&str; 4] = ["right_taking_part", "right_less_training", "right_performance", "right_symptoms"];

/// The words of each question and of its four answers.
pub const QUESTIONS: [(&str, [&str; 4]); 4] = [
    ("check-part", ["check-part-0", "check-part-1", "check-part-2", "check-part-3"]),
    ("check-less", ["check-less-0", "check-less-1", "check-less-2", "check-less-3"]),
    ("check-swim", ["check-swim-0", "check-swim-1", "check-swim-2", "check-swim-3"]),
    ("check-felt", ["check-felt-0", "check-felt-1", "check-felt-2", "check-felt-3"]),
];

fn names(side: Side) -> [&'static str; 4] {
    match side {
        Side::Left => LEFT,
        Side::Right => RIGHT,
    }
}

fn asks_of(side: Side) -> Vec<Ask> {
    names(side)
        .into_iter()
        .zip(QUESTIONS)
        .map(|(name, (question, answers))| {
            let options =
                answers.iter().enumerate().map(|(place, id)| (place.to_string(), text(id))).collect();
            Ask::new(name, question, Control::One(options))
        })
        .collect()
}

fn date_ask() -> Vec<Ask> {
    vec![Ask::new("date", "ask-date", Control::Day).needed()]
}

fn pain_asks() -> Vec<Ask> {
    vec![
        Ask::new("pain_left", "check-pain-left", Control::Pain),
        Ask::new("pain_right", "check-pain-right", Control::Pain),
    ]
}

/// The form and what was answered before.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let given = visit.query.clone().with("date", &visit.today().to_string());
    page(desk, visit, &given, &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let own = href(person);
    let who = name(person);
    let title = say("check-title", &[("name", Value::Words(&who))]);
    let lede = text("check-lede");
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let here = Here::Below(Place::People, Spot::Weekly);
    let frame =
        Frame { title: &title, lede: Some(&lede), here, outcome: refused.as_ref(), ..Frame::default() };
    // Entering one sheet after the other is the practitioner's; swimmers answer for themselves.
    let paper = given.has("paper", "yes") && visit.is_clinical();
    let sees = visit.is_clinical() || visit.who()?.role.is_bound();
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record.check method="post" action={ (own) "/weekly" } novalidate {
            (visit.seals())
            @if paper { input type="hidden" name="paper" value="yes"; }
            (asks("", &date_ask(), given, wrong))
            div.check-sides {
                @for side in Side::BOTH {
                    section aria-labelledby={ "check-" (side.word()) } {
                        h2 id={ "check-" (side.word()) } { (text(&format!("shoulder-{}", side.word()))) }
                        (asks("", &asks_of(side), given, wrong))
                    }
                }
            }
            (asks("", &pain_asks(), given, wrong))
            div.record-do { (submit(&text(if paper { "check-submit-next" } else { "record-submit" }))) a.button.button-plain href=(own) { (text("record-leave")) } }
        }
        @if sees { (before(person)) }
        p.quiet { (text("weekly-rule")) }
    };
    visit.page_as(desk, status, frame, body)
}

fn before(person: &app::desk::Person) -> Markup {
    let rows: Vec<Vec<Markup>> = person
        .read
        .history
        .weekly_checks
        .iter()
        .rev()
        .take(12)
        .map(|check| {
            let score = |side: Side| {
                let score = check.of(side).and_then(|answers| answers.score());
                html! {
                    @match score {
                        None => span.quiet { (text("pain-not-asked")) },
                        Some(score) => { (score.points) @if score.substantial { " " b { (text("check-substantial")) } } },
                    }
                }
            };
            vec![html! { (day(check.date)) }, score(Side::Left), score(Side::Right)]
        })
        .collect();
    let heads = [text("col-day"), text("shoulder-left-short"), text("shoulder-right-short")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! { @if !rows.is_empty() { (table("checks", &text("check-table"), &columns, &rows)) } }
}

/// Keeps one check. The pain numbers beside it go through the pain rules like any other.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let subject = visit.subject()?;
    let own = href(desk.person(subject)?);
    let all: Vec<Ask> = date_ask()
        .into_iter()
        .chain(asks_of(Side::Left))
        .chain(asks_of(Side::Right))
        .chain(pain_asks())
        .collect();
    let mut taking = Taking::new(sent, &all, visit.today());
    let date = taking.past_day("date");
    let (left, right) = (answers(&mut taking, Side::Left), answers(&mut taking, Side::Right));
    let pain = [taking.whole_or_none::<i64>("pain_left"), taking.whole_or_none::<i64>("pain_right")];
    if left.is_none() && right.is_none() && taking.problems.is_empty() {
        taking.wrong(LEFT[0], text("check-nothing"));
    }
    let wrong = taking.problems;
    let (Some(date), true) = (date, wrong.is_empty()) else {
        return page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    };
    let paper = sent.has("paper", "yes") && visit.is_clinical();
    let mut drafts = vec![Draft::new(&WeeklyCheckFact { date, left, right, from_paper: paper })];
    if pain.iter().any(Option::is_some) {
        drafts.push(Draft::new(&PainFact {
            date,
            when: WhenWord::Other,
            exercise: None,
            left: pain[0],
            right: pain[1],
            kind: PainKindWord::Unstated,
            signs: Vec::new(),
            sign_side: None,
            asked: Some("weekly check".to_owned()),
        }));
    }
    if let Err(error) = visit.record(desk, subject, &drafts) {
        if error.kind != app::error::ErrorKind::Input {
            return Err(WebError::from(error).back_to(own));
        }
        let wrong = problems_of(&error);
        return page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    }
    if paper {
        let next = open_in_week(desk, visit.today()).first().map(|person| href(person));
        let to = next.map_or_else(|| "/weekly".to_owned(), |next| format!("{next}/weekly?paper=yes"));
        return Ok(respond::see(&crate::web::site::visit::with_done(&to, "recorded")));
    }
    Ok(respond::see(&format!("{own}?done=recorded")))
}

/// The answers about one shoulder; none when none was given. What the rule needs and was not answered is said.
fn answers(taking: &mut Taking<'_>, side: Side) -> Option<AnswersFact> {
    let names = names(side);
    let given = names.map(|name| taking.whole_or_none::<u8>(name));
    if given.iter().all(Option::is_none) {
        return None;
    }
    let [taking_part, less_training, performance, symptoms] = given;
    let Some(taking_part) = taking_part else {
        taking.wrong(names[0], text("take-needed"));
        return None;
    };
    if taking_part == 0 || taking_part == LAST {
        // The check ends here, whatever else was ticked.
        let ended = AnswersFact { taking_part, less_training: None, performance: None, symptoms: None };
        return Some(ended);
    }
    for (name, answer) in names.iter().zip(given).skip(1) {
        if answer.is_none() {
            taking.wrong(name, text("check-needed"));
        }
    }
    Some(AnswersFact { taking_part, less_training, performance, symptoms })
}
