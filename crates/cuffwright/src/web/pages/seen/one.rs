//! One swimmer, as a role's type shows them.

use app::desk::Desk;
use app::facts::ContactFact;
use app::roles::{AdminView, CoachView, OwnRecord, SupervisorView, View};
use app::wire::answer::ProposalWord;
use door::permit::Thing;
use maud::{Markup, html};
use serde_json::Value as Json;
use trade::name::ExerciseId;

use super::parts::{attended, card_line, day, reasons, shown};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::person::lines::exercise_name;
use crate::web::parts::shoulder::availability_key;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let who = visit.who()?;
    let subject = visit.subject()?;
    let view = desk.view_for(who, subject, visit.today())?;
    let (name, squad, body) = match &view {
        View::Coach(view) => (&view.name, &view.squad, coach(view)),
        View::Supervisor(view) => (&view.full_name, &view.squad, supervisor(desk, view)),
        View::Admin(view) => (&view.full_name, &view.squad, administrator(view)),
        View::Swimmer(view) => (&view.own.name, &view.own.squad, own(desk, &view.own)),
        View::Guardian(view) => (&view.ward.name, &view.ward.squad, own(desk, &view.ward)),
        // The practitioner has a page of his own; this one never holds that type.
        View::Practitioner(_) => return Err(crate::web::error::WebError::missing()),
    };
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: name, lede: Some(squad), here, ..Frame::default() };
    let can = |thing| desk.may_about(who, thing, subject, visit.today()).is_ok();
    let own_path = format!("/people/{subject}");
    let body = html! {
        (body)
        ul.ways {
            @if can(Thing::ReportPain) { li { a.button href={ (own_path) "/record/pain" } { (text("seen-report-pain")) } } }
            @if can(Thing::Consent) { li { a href={ (own_path) "/consent" } { (text("privacy-consent-link")) } } }
            @if can(Thing::AuditOfRecord) { li { a href={ (own_path) "/audit" } { (text("audit-link")) } } }
        }
    };
    visit.page(desk, frame, body)
}

fn coach(view: &CoachView) -> Markup {
    html! {
        dl.facts-list {
            dt { (text("seen-availability")) } dd { (shown(view.availability)) }
            dt { (text("seen-activity")) } dd { (view.activity_words) }
            @if let Some(review) = &view.review { dt { (text("seen-review")) } dd { (day(review)) } }
            dt { (text("seen-water")) } dd { (view.water) }
            dt { (text("seen-there")) } dd { (attended(&view.attended)) }
        }
        p.quiet { (text("seen-coach-why")) }
    }
}

fn both(left: &str, right: &str) -> Markup {
    html! {
        dl.facts-list {
            dt { (text("seen-left")) } dd { (shown(left)) }
            dt { (text("seen-right")) } dd { (shown(right)) }
        }
    }
}

fn card(desk: &Desk, card: &[ProposalWord]) -> Markup {
    html! {
        h2 { (text("seen-card")) }
        @if card.is_empty() { p.quiet { (text("person-next-none")) } }
        ul.card-lines { @for line in card { (card_line(&exercise_name(desk, &ExerciseId::new(&line.exercise)), line)) } }
    }
}

fn ring(contacts: &[ContactFact]) -> Markup {
    html! {
        @if !contacts.is_empty() {
            h2 { (text("seen-ring")) }
            ul { @for contact in contacts { li { (contact.name) ", " (contact.relation) ": " a href={ "tel:" (contact.phone.replace(' ', "")) } { (contact.phone) } } } }
        }
    }
}

fn supervisor(desk: &Desk, view: &SupervisorView) -> Markup {
    html! {
        @if let Some(line) = &view.emergency { p.outcome.outcome-ask { strong { (line) } } }
        (both(view.left, view.right))
        @if view.session_over { p { strong { (text("seen-today-over")) } } }
        @else if !view.asked_today { p { strong { (text("seen-today-ask")) } } }
        @for exercise in &view.over_today {
            p { (say("seen-over-today", &[("exercise", Value::Words(&exercise_name(desk, &ExerciseId::new(exercise))))])) }
        }
        dl.facts-list {
            dt { (text("seen-water")) } dd { (view.water) }
            dt { (text("seen-there")) } dd { (attended(&view.attended)) }
        }
        (card(desk, &view.card))
        (ring(&view.contacts))
        (availability_key())
    }
}

fn administrator(view: &AdminView) -> Markup {
    html! {
        dl.facts-list {
            dt { (text("seen-born")) } dd { (day(&view.born)) }
            @if let Some(number) = &view.club_number { dt { (text("seen-number")) } dd { (number) } }
            @if let Some(left) = &view.left { dt { (text("seen-gone")) } dd { (day(left)) } }
        }
        (ring(&view.contacts))
        h2 { (text("seen-accounts")) }
        @if view.accounts.is_empty() { p.quiet { (text("seen-accounts-none")) } }
        ul { @for account in &view.accounts { li { (account.name) ", " (text(&format!("role-{}", account.role))) } } }
    }
}

fn own(desk: &Desk, view: &OwnRecord) -> Markup {
    html! {
        (both(view.left, view.right))
        (reasons(&view.reasons))
        dl.facts-list {
            dt { (text("seen-water")) } dd { (view.water) }
            dt { (text("seen-there")) } dd { (attended(&view.attended)) }
        }
        (card(desk, &view.card))
        h2 { (text("seen-record")) }
        @for (kind, payloads) in &view.facts {
            details.past-part {
                summary { (text(&format!("archive-kind-{kind}"))) " (" (payloads.len()) ")" }
                ol.record-lines { @for payload in payloads { li { (payload_list(payload)) } } }
            }
        }
        (availability_key())
    }
}

/// What was written down, name and value, as it stands on record.
fn payload_list(value: &Json) -> Markup {
    html! {
        @match value {
            Json::Null => {}
            Json::Object(fields) => {
                ul { @for (name, value) in fields.iter().filter(|(_, value)| !value.is_null()) { li { (name.replace('_', " ")) ": " (payload_list(value)) } } }
            }
            Json::Array(items) => { ul { @for item in items { li { (payload_list(item)) } } } }
            Json::String(words) => { (words) }
            other => { (other.to_string()) }
        }
    }
}
