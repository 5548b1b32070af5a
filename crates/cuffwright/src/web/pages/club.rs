//! Who the club is: asked once, before anything else, and corrected here.

use app::desk::{Desk, Draft};
use app::facts::{ClubFact, Kind, Units, read_json};
use axum::http::StatusCode;
use maud::html;
use store::SubjectId;

use super::record::pain::worded;
use super::record::take::Taking;
use super::shared::back_or;
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::text;

fn questions() -> Vec<Ask> {
    let units = worded(&[("metric", "club-metric"), ("imperial", "club-imperial")]);
    vec![
        Ask::new("name", "club-name", Control::Line).needed(),
        Ask::new("practitioner", "club-practitioner", Control::Line).needed(),
        Ask::new("practitioner_phone", "club-phone", Control::Line),
        Ask::new("zone", "club-zone", Control::Line).hint("club-zone-hint").needed(),
        Ask::new("units", "club-units", Control::One(units)).needed(),
        Ask::new("daily_practices", "club-daily", Control::Tick).hint("club-daily-hint"),
    ]
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let about = desk.club().about.as_ref();
    let zone = jiff::tz::TimeZone::system().iana_name().unwrap_or("Etc/UTC").to_owned();
    let given = about.map_or_else(
        || Sent::of(&[("practitioner", &visit.author().name), ("zone", &zone), ("units", "metric")]),
        |club| {
            Sent::of(&[
                ("name", &club.name),
                ("practitioner", &club.practitioner),
                ("practitioner_phone", &club.practitioner_phone),
                ("zone", &club.zone),
                ("units", if club.units == Units::Metric { "metric" } else { "imperial" }),
                ("daily_practices", if club.daily_practices { "yes" } else { "" }),
            ])
        },
    );
    let given = given.with("back", visit.query.one("back"));
    page(desk, visit, &given, &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let (title, lede) = (text("club-title"), text("club-lede"));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let here = Here::Below(Place::People, Spot::People);
    let frame =
        Frame { title: &title, lede: Some(&lede), here, outcome: refused.as_ref(), ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action="/club" {
            (visit.seals())
            input type="hidden" name="back" value=(given.one("back"));
            (asks("", &questions(), given, wrong))
            (submit(&text("record-submit")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// Records who the club is; a later record replaces the earlier one and says so.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let asked = questions();
    let mut taking = Taking::new(sent, &asked, visit.today());
    let (name, practitioner, zone) =
        (taking.words("name"), taking.words("practitioner"), taking.words("zone"));
    let units = taking.word::<Units>("units");
    if zone.as_ref().is_some_and(|zone| jiff::tz::TimeZone::get(zone).is_err()) {
        taking.wrong("zone", text("club-zone-unknown"));
    }
    let (Some(name), Some(practitioner), Some(zone), Some(units), true) =
        (name, practitioner, zone, units, taking.problems.is_empty())
    else {
        return page(desk, visit, sent, &taking.problems, StatusCode::UNPROCESSABLE_ENTITY);
    };
    let club = ClubFact {
        name,
        zone,
        units,
        practitioner,
        practitioner_phone: sent.one("practitioner_phone").to_owned(),
        daily_practices: sent.has("daily_practices", "yes"),
    };
    let before = desk
        .store()
        .live_facts(SubjectId::CLUB)
        .map_err(|error| WebError::from(app::error::AppError::from(error)))?
        .into_iter()
        .find(|live| {
            live.fact.told.kind == Kind::Club.word() && read_json::<ClubFact>(live.payload()).is_ok()
        });
    let draft = Draft::new(&club);
    let draft = match before {
        Some(before) => draft.correcting(before.fact.told.id, &text("club-reason")),
        None => draft,
    };
    visit.record(desk, SubjectId::CLUB, &[draft])?;
    Ok(respond::see(&with_done(back_or(sent.one("back"), "/"), "recorded")))
}
