//! The week: water in blue, dryland as floats on each squad's lane, and what no longer holds with its least repair.
//!
//! - [`lanes`]: the drawing and its list; [`standing`]: plan, clash or repair, with the form that confirms it.
//! - [`wish`]: "15:20 before the 16:00 practice"; [`enter`] and [`sheets`]: entry by hand.
//! - [`files`]: feeds, tables and calendars of others.

pub mod enter;
pub mod files;
pub mod lanes;
pub mod sheets;
pub mod standing;
pub mod wish;

use app::desk::Desk;
use app::week::act::standing as standing_of;
use app::week::say::short_day;
use app::week::stored::{StoredWeek, monday_of};
use door::permit::Thing;
use jiff::ToSpan;
use jiff::civil::Date;
use maud::{Markup, html};
use store::SubjectId;

use super::shared::back_or;
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::notice::empty;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// The Monday asked about: that of `?of=`, else of today.
pub fn monday(visit: &Visit) -> Date {
    monday_of(visit.query.one("of").parse().unwrap_or(visit.today()))
}

/// Address of a week.
pub fn href(monday: Date) -> String {
    format!("/week?of={monday}")
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let monday = monday(visit);
    let title = text("place-week");
    if desk.club().about.is_none() {
        return nobody_yet(desk, visit, &title);
    }
    let stored = desk.week_of(monday)?;
    let sunday = monday.saturating_add(6.days());
    let lede = say(
        "week-lede",
        &[("from", Value::Words(&short_day(monday))), ("to", Value::Words(&short_day(sunday)))],
    );
    let here = Here::At(Place::Week, Spot::Week);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        (turn(monday, visit))
        (standing::block(visit, &stored, &standing_of(&stored), monday))
        (lanes::drawing(&stored, visit.today()))
        (wish::form(&stored, monday, &wish::first_wish(&stored, monday, visit.today())))
        (lanes::list(visit, &stored, monday))
        (meets(&stored))
        (ways(desk, visit, monday))
    };
    visit.page(desk, frame, body)
}

/// Before the club is known nobody knows the zone of its times.
pub fn nobody_yet(desk: &Desk, visit: &Visit, title: &str) -> Answer {
    let frame = Frame { title, here: Here::At(Place::Week, Spot::Week), ..Frame::default() };
    visit.page(desk, frame, empty(&text("week-no-club"), Some((&text("week-no-club-do"), "/club"))))
}

fn turn(monday: Date, visit: &Visit) -> Markup {
    let this = monday_of(visit.today());
    html! {
        nav.turn aria-label=(text("week-turn")) { ul {
            li { a.button.button-plain href=(href(monday.saturating_sub(7.days()))) { (text("week-before")) } }
            @if monday != this { li { a.button.button-plain href="/week" { (text("week-this")) } } }
            li { a.button.button-plain href=(href(monday.saturating_add(7.days()))) { (text("week-after")) } }
        } }
    }
}

fn meets(stored: &StoredWeek) -> Markup {
    let ahead: Vec<_> = stored
        .week
        .meets
        .iter()
        .filter(|meet| (0..=28).contains(&schedule::time::days_between(stored.week.first, meet.span.day())))
        .collect();
    html! {
        @if !ahead.is_empty() {
            section.wk-meets {
                h2 { (text("week-meets")) }
                ul { @for meet in ahead {
                    li { b { (short_day(meet.span.day())) } " " (meet.name) " (" (meet.grade.letter()) ")" }
                } }
            }
        }
    }
}

/// What else can be done from here.
fn ways(desk: &Desk, visit: &Visit, monday: Date) -> Markup {
    html! {
        section.wk-ways {
            h2 { (text("week-enter")) }
            @if visit.may(Thing::EditCalendar) {
                ul.wk-links { @for sheet in sheets::SHEETS {
                    li { a href={ "/week/enter/" (sheet.word) "?back=" (super::shared::encoded(&href(monday))) } { (text(sheet.title)) } }
                } li { a href="/week/import" { (text("week-import")) } } }
            }
            h2 { (text("week-take")) }
            ul.wk-links {
                @for squad in desk.squads(monday) {
                    li { a href={ "/week/feed/" (super::shared::encoded(&squad)) } { (say("week-feed", &[("squad", Value::Words(&squad))])) } }
                }
                li { a href="/week/table.csv" { (text("week-csv")) } }
                li { a href={ "/week/week.json?of=" (monday) } { (text("week-json")) } }
            }
        }
    }
}

/// Takes what a form of the page says: adopt, repair, or take one session out.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let monday = monday_of(sent.one("of").parse().map_err(|_| WebError::missing().back_to("/week"))?);
    let seen = sent.one("seen");
    let drafts = match sent.one("do") {
        "adopt" => desk.adopt_plan(monday, seen)?,
        "repair" => desk.confirm_repair(monday, seen)?,
        "cancel" => vec![desk.cancel_session(sent.one("uid"))?],
        _ => return Err(WebError::missing().back_to("/week")),
    };
    visit.record(desk, SubjectId::CLUB, &drafts)?;
    Ok(respond::see(&with_done(back_or(sent.one("back"), &href(monday)), "recorded")))
}
