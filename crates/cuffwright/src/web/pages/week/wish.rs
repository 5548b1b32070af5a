//! One wish, for instance of a coach: "15:20 before the 16:00 practice". Granted, or refused with every reason and up
//! to three better offers; each offer is one touch away.

use app::desk::Desk;
use app::facts::OverruledWord;
use app::week::act::Wish;
use app::week::described::{ReplyWord, reply};
use app::week::say::{Say, clock as clock_words};
use app::week::stored::{StoredWeek, monday_of};
use axum::http::StatusCode;
use door::permit::Thing;
use jiff::civil::Date;
use maud::{Markup, html};
use schedule::describe::clock;
use store::SubjectId;

use super::{href, monday};
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::record::take::Taking;
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// What a wish form asks.
fn questions(stored: &StoredWeek) -> Vec<Ask> {
    let names = |list: Vec<&String>| list.into_iter().map(|name| (name.clone(), name.clone())).collect();
    let squads = names(stored.week.groups.iter().map(|group| &group.name).collect());
    let places = names(stored.week.places.iter().map(|place| &place.name).collect());
    vec![
        Ask::new("squad", "week-ask-squad", Control::Pick(squads)).needed(),
        Ask::new("place", "week-ask-place", Control::Pick(places)).needed(),
        Ask::new("date", "ask-date", Control::Day).needed(),
        Ask::new("from", "week-ask-from", Control::Line).hint("week-ask-time-hint").needed(),
        Ask::new("to", "week-ask-to", Control::Line).hint("week-ask-time-hint").needed(),
    ]
}

/// What stands in the form before anybody has typed.
pub fn first_wish(stored: &StoredWeek, monday: Date, today: Date) -> Sent {
    let day = if monday <= today && today <= stored.week.last { today } else { monday };
    let squad = stored.week.groups.first().map_or("", |group| group.name.as_str());
    Sent::of(&[("squad", squad), ("date", &day.to_string())])
}

/// The form. Sent by GET, so that an answer has an address of its own.
pub fn form(stored: &StoredWeek, monday: Date, given: &Sent) -> Markup {
    html! {
        section.wk-wish aria-labelledby="wish" {
            h2 id="wish" { (text("week-wish")) }
            p { (text("week-wish-lede")) }
            form.wk-wish-form method="get" action="/week/wish" {
                input type="hidden" name="of" value=(monday);
                (asks("", &questions(stored), given, &[]))
                (submit(&text("week-wish-ask")))
            }
        }
    }
}

/// Reads a wish; what is wrong stands in `taking`.
fn wish_of(taking: &mut Taking<'_>) -> Option<Wish> {
    let (squad, place) = (taking.words("squad"), taking.words("place"));
    let date = taking.day("date");
    let mut time = |name: &str| {
        let words = taking.words(name)?;
        let read = clock(&words);
        if read.is_none() {
            taking.wrong(name, text("week-not-a-time"));
        }
        read
    };
    let (from, to) = (time("from"), time("to"));
    if let (Some(from), Some(to)) = (from, to)
        && to <= from
    {
        taking.wrong("to", text("week-ends-first"));
        return None;
    }
    Some(Wish { squad: squad?, place: place?, date: date?, from: from?, to: to? })
}

/// The answer to a wish.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &visit.query, None)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, problem: Option<String>) -> Answer {
    let week_of = given.one("date").parse().map_or_else(|_| monday(visit), monday_of);
    if desk.club().about.is_none() {
        return super::nobody_yet(desk, visit, &text("week-wish-title"));
    }
    let stored = desk.week_of(week_of)?;
    let asked = questions(&stored);
    let mut taking = Taking::new(given, &asked, visit.today());
    let wish = wish_of(&mut taking);
    let (title, here) = (text("week-wish-title"), Here::Below(Place::Week, Spot::Week));
    let frame = Frame { title: &title, here, ..Frame::default() };
    let Some(wish) = wish else {
        // Whoever opens the page has asked nothing yet, and has done nothing wrong.
        let is_blank = ["squad", "date", "from", "to"].iter().all(|name| given.one(name).is_empty());
        let body = html! {
            @if !is_blank { (problems(&taking.problems)) }
            (form(&stored, week_of, given))
        };
        let status = if is_blank { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY };
        return visit.page_as(desk, status, frame, body);
    };
    let (request, found) = stored.reply(&wish, None)?;
    let said = reply(Say::about(&stored.week), &request);
    let moves = found.offers_instead_of.and_then(|at| stored.known.get(at)).map(|kept| kept.fact.uid.clone());
    let is_refused = problem.is_some();
    let body = html! {
        @if let Some(problem) = problem { (problems(&[Problem { says: problem, ..Problem::default() }])) }
        (answered(visit, week_of, &wish, &said, moves.as_deref()))
        (form(&stored, week_of, given))
        p { a href=(href(week_of)) { (text("week-back")) } }
    };
    let status = if is_refused { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    visit.page_as(desk, status, frame, body)
}

fn answered(visit: &Visit, week_of: Date, wish: &Wish, said: &ReplyWord, moves: Option<&str>) -> Markup {
    let may_set = visit.may(Thing::EditCalendar);
    let asked = format!("{}, {}-{}", app::week::say::short_day(wish.date), said.at.from, said.at.to);
    let values = [
        ("squad", Value::Words(&wish.squad)),
        ("when", Value::Words(&asked)),
        ("place", Value::Words(&wish.place)),
    ];
    html! {
        section.wk-reply.wk-no[!said.allowed] aria-labelledby="reply" {
            h2 id="reply" { (say(if said.allowed { "week-wish-yes" } else { "week-wish-no" }, &values)) }
            @if let Some(at) = said.instead_of.as_ref().or(said.offers_instead_of.as_ref()) {
                @let was = format!("{}, {}-{}", at.day.parse::<Date>().map(app::week::say::short_day).unwrap_or_default(), at.from, at.to);
                p { (say("week-instead-of", &[("was", Value::Words(&was))])) }
            }
            @if said.allowed && !may_set {
                p { (text("week-wish-told")) }
            } @else if said.allowed {
                (take(visit, week_of, wish, None, &text("week-wish-set")))
            } @else {
                ul.wk-reasons { @for reason in &said.reasons {
                    li { b { (reason.why) } @if super::standing::says_more(reason.what.requirement) { " " span.quiet { (reason.what.words) "." } } }
                } }
                @if !said.offers.is_empty() {
                    h3 { (text("week-better")) }
                    ol.wk-offers { @for offer in &said.offers {
                        li {
                            p { b { (offer.at.day.parse::<Date>().map(app::week::say::short_day).unwrap_or_default()) ", " (offer.at.from) "-" (offer.at.to) } " " (offer.at.place) }
                            p.quiet { (offer.words) }
                            @if let Some(better) = offered(wish, offer).filter(|_| may_set) { (take(visit, week_of, &better, moves, &text("week-offer-take"))) }
                        }
                    } }
                } @else { p { (text("week-no-better")) } }
                @for remark in &said.remarks { p.quiet { (remark) } }
                @if said.can_be_overruled && visit.is_clinical() { (overrule(visit, week_of, wish)) }
            }
        }
    }
}

fn offered(wish: &Wish, offer: &app::week::described::OfferWord) -> Option<Wish> {
    Some(Wish {
        squad: wish.squad.clone(),
        place: offer.at.place.clone(),
        date: offer.at.day.parse().ok()?,
        from: clock(&offer.at.from)?,
        to: clock(&offer.at.to)?,
    })
}

fn hidden(visit: &Visit, week_of: Date, wish: &Wish) -> Markup {
    let midnight = |time: jiff::civil::Time| clock_words(wish.date.to_datetime(time));
    html! {
        (visit.seals())
        input type="hidden" name="of" value=(week_of);
        input type="hidden" name="squad" value=(wish.squad);
        input type="hidden" name="place" value=(wish.place);
        input type="hidden" name="date" value=(wish.date);
        input type="hidden" name="from" value=(midnight(wish.from));
        input type="hidden" name="to" value=(midnight(wish.to));
    }
}

fn take(visit: &Visit, week_of: Date, wish: &Wish, instead: Option<&str>, label: &str) -> Markup {
    html! {
        form.wk-take method="post" action="/week/wish" {
            (hidden(visit, week_of, wish))
            @if let Some(uid) = instead { input type="hidden" name="instead" value=(uid); }
            (submit(label))
        }
    }
}

fn overrule(visit: &Visit, week_of: Date, wish: &Wish) -> Markup {
    let reason = Ask::new("reason", "decide-reason", Control::Lines).hint("week-overrule-hint").needed();
    html! {
        details.decision {
            summary.button.button-plain { (text("week-overrule-open")) }
            form method="post" action="/week/wish" {
                (hidden(visit, week_of, wish))
                input type="hidden" name="overrule" value="yes";
                (asks("", &[reason], &Sent::default(), &[]))
                (submit(&text("week-overrule-do")))
            }
        }
    }
}

/// Sets a session to the wished time.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let week_of =
        sent.one("date").parse().map(monday_of).map_err(|_| WebError::missing().back_to("/week"))?;
    let stored = desk.week_of(week_of)?;
    let asked = questions(&stored);
    let mut taking = Taking::new(sent, &asked, visit.today());
    let Some(wish) = wish_of(&mut taking) else { return page(desk, visit, sent, None) };
    let overruled = sent.has("overrule", "yes");
    if overruled && !visit.is_clinical() {
        return page(desk, visit, sent, Some(text("week-overrule-who")));
    }
    let reason = sent.one("reason");
    if overruled && reason.is_empty() {
        return page(desk, visit, sent, Some(text("week-overrule-reason")));
    }
    let own = overruled.then(|| OverruledWord { by: visit.author().name, reason: reason.to_owned() });
    let draft = desk.grant(week_of, &wish, sent.some("instead"), own)?;
    visit.record(desk, SubjectId::CLUB, &[draft])?;
    Ok(respond::see(&with_done(&href(week_of), "recorded")))
}
