//! Every form by which a fact about one swimmer is written down.
//!
//! One table of sheets: what each asks, and how the answers become facts. A sheet is drawn on its own page, and in
//! part on the day's list; either way it is sent to the same address, and what was typed never gets lost.
//!
//! - [`take`]: reading what was typed.
//! - [`pain`], [`away`], [`letters`], [`papers`], [`body`], [`arms`], [`small`]: the sheets.

pub mod arms;
pub mod away;
pub mod body;
pub mod letters;
pub mod pain;
pub mod papers;
pub mod small;
pub mod take;
pub mod water;

use app::desk::{Desk, Draft};
use app::error::ErrorKind;
use app::facts::Kind;
use axum::http::StatusCode;
use maud::{Markup, html};

use super::shared::{back_or, href, name};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, asks, field_id};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};
use take::{Setting, Taking};

/// One form.
pub struct Sheet {
    /// Its word in the address.
    pub word: &'static str,
    /// The kind of fact it records: what recording it takes follows from that.
    pub kind: Kind,
    /// What it records, in words.
    pub title: &'static str,
    /// What it does and who may do it.
    pub lede: &'static str,
    /// What it asks.
    pub asks: fn(&Setting<'_>) -> Vec<Ask>,
    /// From answers to facts; none when something is missing, which has then been noted.
    pub take: fn(&Setting<'_>, &mut Taking<'_>) -> Option<Vec<Draft>>,
}

/// Every sheet, in the order in which the swimmer's page offers them.
pub const SHEETS: &[Sheet] = &[
    pain::PAIN,
    small::GUARDIAN,
    small::WATER,
    small::REOPENING,
    small::TALK,
    away::ILLNESS,
    away::ABSENCE,
    away::BAN,
    letters::REFERRAL,
    letters::ANSWER,
    letters::CLEARANCE,
    letters::LIMIT,
    small::TAUGHT,
    small::SIGN_OFF,
    body::GROWTH,
    arms::ARMS,
    body::SCREENING,
    water::WATER_WEEK,
    water::WATER_SESSION,
    papers::CONSENT,
    papers::WITHDRAWAL,
    papers::INTAKE,
];

/// A sheet by its word.
pub fn sheet(word: &str) -> Option<&'static Sheet> {
    SHEETS.iter().find(|sheet| sheet.word == word)
}

/// Where a sheet stands.
pub fn address(person_href: &str, word: &str) -> String {
    format!("{person_href}/record/{word}")
}

/// Shows one form.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let sheet = sheet(visit.param("sheet")).ok_or_else(WebError::missing)?;
    let setting = Setting { desk, person, visit };
    let given = with_today(sheet, &visit.query, visit);
    page(&setting, sheet, &given, &[], StatusCode::OK)
}

/// Today stands in the date fields from the start: it is right nine times of ten and plain to see.
fn with_today(sheet: &Sheet, given: &Sent, visit: &Visit) -> Sent {
    let mut with = given.clone();
    let today =
        if sheet.word == water::WATER_WEEK.word { trade::load::monday(visit.today()) } else { visit.today() };
    for name in ["date", "from", "opened", "signed"] {
        if given.one(name).is_empty() {
            with = with.with(name, &today.to_string());
        }
    }
    if given.one("by").is_empty() {
        with = with.with("by", &visit.author().name);
    }
    with
}

fn page(setting: &Setting<'_>, sheet: &Sheet, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let who = name(setting.person);
    let title =
        say("record-title", &[("what", Value::Words(&text(sheet.title))), ("name", Value::Words(&who))]);
    let own = href(setting.person);
    let back = back_or(given.one("back"), &own).to_owned();
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let lede = text(sheet.lede);
    let frame = Frame {
        title: &title,
        lede: Some(&lede),
        here: Here::Below(Place::People, Spot::People),
        outcome: refused.as_ref(),
        ..Frame::default()
    };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action=(address(&own, sheet.word)) novalidate[!wrong.is_empty()] {
            (setting.visit.seals())
            input type="hidden" name="back" value=(back);
            (asks("", &(sheet.asks)(setting), given, wrong))
            div.record-do { (submit(&text("record-submit"))) a.button.button-plain href=(back) { (text("record-leave")) } }
        }
    };
    setting.visit.page_as(setting.desk, status, frame, body)
}

/// Part of a form, drawn where it is needed: the questions named, everything else going along unseen.
pub fn in_place(
    setting: &Setting<'_>,
    word: &str,
    key: &str,
    shown: &[&str],
    preset: &[(&str, &str)],
    back: &str,
) -> Markup {
    let Some(sheet) = sheet(word) else { return html! {} };
    let own = href(setting.person);
    let given = with_today(sheet, &Sent::of(preset), setting.visit);
    let all = (sheet.asks)(setting);
    let visible: Vec<Ask> = all.iter().filter(|ask| shown.contains(&ask.name)).cloned().collect();
    let unseen = all.iter().filter(|ask| !shown.contains(&ask.name) && !given.one(ask.name).is_empty());
    html! {
        form.in-place method="post" action=(address(&own, word)) {
            (setting.visit.seals())
            input type="hidden" name="back" value=(back);
            @for ask in unseen { input type="hidden" name=(ask.name) value=(given.one(ask.name)); }
            (asks(key, &visible, &given, &[]))
            (submit(&text("record-submit")))
        }
    }
}

/// Takes one form.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let subject = visit.subject()?;
    let sheet = sheet(visit.param("sheet")).ok_or_else(WebError::missing)?;
    let (drafts, wrong, own) = {
        let setting = Setting { desk, person: desk.person(subject)?, visit };
        let asked = (sheet.asks)(&setting);
        let mut taking = Taking::new(sent, &asked, visit.today());
        let drafts = (sheet.take)(&setting, &mut taking);
        (drafts, taking.problems, href(setting.person))
    };
    let drafts = match drafts {
        Some(drafts) if wrong.is_empty() => drafts,
        _ => return again(desk, visit, sheet, sent, wrong),
    };
    if let Err(error) = visit.record(desk, subject, &drafts) {
        if error.kind != ErrorKind::Input {
            return Err(WebError::from(error).back_to(own));
        }
        let wrong = at_fields(problems_of(&error), desk, visit, sheet)?;
        return again(desk, visit, sheet, sent, wrong);
    }
    if pain::names_an_emergency(sent) {
        return Ok(respond::see(&with_done(&own, "emergency")));
    }
    Ok(respond::see(&with_done(back_or(sent.one("back"), &own), "recorded")))
}

fn again(desk: &Desk, visit: &Visit, sheet: &Sheet, sent: &Sent, wrong: Vec<Problem>) -> Answer {
    let setting = Setting { desk, person: desk.person(visit.subject()?)?, visit };
    page(&setting, sheet, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY)
}

/// Fields are named after the places of the fact, so that what the fact's own check finds stands at its field.
fn at_fields(
    found: Vec<Problem>,
    desk: &Desk,
    visit: &Visit,
    sheet: &Sheet,
) -> Result<Vec<Problem>, WebError> {
    let setting = Setting { desk, person: desk.person(visit.subject()?)?, visit };
    let asked = (sheet.asks)(&setting);
    Ok(found
        .into_iter()
        .map(|mut problem| {
            let root = problem.place.split(['.', '[']).next().unwrap_or_default();
            if let Some(ask) = asked.iter().find(|ask| ask.name == root) {
                problem.field = Some(field_id("", ask.name));
                problem.place = ask.label.clone();
            }
            problem
        })
        .collect())
}
