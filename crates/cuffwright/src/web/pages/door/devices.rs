//! Phones and tablets on deck: pairing one by a short code, what is paired, and ending a pairing.

use app::desk::Desk;
use app::entry::Device;
use axum::http::StatusCode;
use door::Stamp;
use door::code::Purpose;
use door::fresh;
use door::permit::Thing;
use door::principal::DeviceId;
use door::session::{DEVICE, Standing, Use};
use maud::{Markup, PreEscaped, html};
use uuid::Uuid;

use super::{Form, moment_words, new_code, new_token};
use crate::web::error::{WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control};
use crate::web::parts::notice::Problem;
use crate::web::parts::table::{Column, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::site::way::Cookie;
use crate::web::words::{Value, say, text};

const HERE: Here = Here::At(Place::Deck, Spot::Devices);

fn holds(device: &Device, now: Stamp) -> bool {
    let used = Use { began: device.paired, seen: device.seen };
    device.ended.is_none() && matches!(DEVICE.standing(used, now), Standing::Holds { .. })
}

/// What is paired.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let now = Stamp(visit.moment.unix_millis);
    let devices: Vec<Device> = desk.devices()?.into_iter().rev().collect();
    let heads = ["device-label", "device-paired", "device-seen", "device-state"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let rows: Vec<Vec<Markup>> = devices
        .iter()
        .map(|device| {
            vec![
                html! { (device.label) },
                html! { (moment_words(desk, device.paired)) },
                html! { (moment_words(desk, device.seen)) },
                html! {
                    @if holds(device, now) {
                        @if visit.may(Thing::EndDevice) {
                            form.act method="post" action={ "/devices/" (device.id.0) "/end" } {
                                (visit.seals())
                                button.button.button-plain type="submit" { (text("device-end")) }
                            }
                        } @else { (text("device-holds")) }
                    } @else { (text("device-ended")) }
                },
            ]
        })
        .collect();
    let (title, lede) = (text("devices-title"), text("devices-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let body = html! {
        @if visit.may(Thing::PairDevice) && !visit.site.entry().is_demo() {
            form.act method="post" action="/devices/pair" {
                (visit.seals())
                button.button type="submit" { (text("devices-pair")) }
            }
        }
        (reached(visit))
        @if devices.is_empty() { p.quiet { (text("devices-none")) } }
        @else { (table("devices", &text("devices-title"), &columns, &rows)) }
    };
    visit.page(desk, frame, body)
}

/// Whether phones can reach the laptop at all, and how they come to trust it.
fn reached(visit: &Visit) -> Markup {
    html! {
        @match visit.site.lan() {
            None => { div.outcome.outcome-ask { p { (text("devices-no-lan")) " " code { "cuffwright serve --lan" } } } }
            Some(_) => { p { a href="/install" { (text("devices-install")) } } }
        }
    }
}

/// Opens a pairing: the code, large, and the same as a code for a camera. It is shown once, for five minutes.
pub fn pair(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    let code = new_code(Purpose::Pairing)?;
    let ends = desk.open_pairing(&visit.moment, visit.who()?, &code)?;
    let shown = code.code.shown();
    let path = format!("/pair?code={shown}");
    let lan = visit.site.lan();
    let address = lan.as_ref().map_or_else(
        || format!("{}://127.0.0.1:{}{path}", visit.way.scheme(), visit.way.port),
        |lan| lan.address(&path),
    );
    let plain = address.split('?').next().unwrap_or_default().to_owned();
    let (title, lede) = (text("pairing-title"), text("pairing-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let until = moment_words(desk, ends);
    let body = html! {
        div.pairing {
            div {
                p.code-shown id="code" { (shown) }
                ol.steps {
                    li { (say("pairing-open", &[("address", Value::Words(&plain))])) }
                    li { (text("pairing-type")) }
                }
                p.quiet { (say("pairing-until", &[("until", Value::Words(&until))])) }
                @if let Some(lan) = &lan {
                    @for address in lan.numbers("/pair") { p.quiet { (say("pairing-or", &[("address", Value::Words(&address))])) } }
                }
            }
            @if let Some(drawing) = door::qr::svg(&address, &text("pairing-qr")) { div.qr { (PreEscaped(drawing)) } }
        }
        (reached(visit))
        p { a href="/devices" { (text("devices-title")) } }
    };
    visit.page(desk, frame, body)
}

/// Ends one pairing.
pub fn end(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    let id = Uuid::parse_str(visit.param("device")).map_err(|_| WebError::missing())?;
    desk.end_device(&visit.moment, visit.who()?, DeviceId(id))?;
    Ok(respond::see(&with_done("/devices", "device-ended")))
}

fn questions() -> [Ask; 2] {
    [
        Ask::new("code", "door-ask-code", Control::Named("one-time-code")).needed(),
        Ask::new("label", "pair-label", Control::Line).needed().hint("pair-label-hint"),
    ]
}

/// Where the device itself types the code.
pub fn ask(desk: &Desk, visit: &Visit) -> Answer {
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    ask_page(desk, visit, &visit.query, &[], StatusCode::OK)
}

fn ask_page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    Form {
        title: "pair-title",
        lede: "pair-lede",
        here: Here::Nowhere,
        action: "/pair",
        asks: &questions(),
        given,
        wrong,
        submit: "pair-do",
        below: html! { @if visit.way.secure { p { a href="/install" { (text("door-to-install")) } } } },
    }
    .page(desk, visit, status)
}

/// Pairs the device that the right code was typed on.
pub fn take(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    if visit.site.entry().is_demo() {
        return Err(WebError::missing());
    }
    let id = fresh::id().ok_or_else(|| WebError::defect("chance"))?;
    let token = new_token()?;
    match desk.pair(&visit.moment, sent.one("code"), sent.one("label"), visit.way.peer, (id, &token)) {
        Ok(_) => {
            let mut response = respond::see("/?done=paired");
            Cookie::Device.set(&mut response, &token.reveal(), visit.way.secure);
            // A session that the browser still carries would come first and hide the device.
            Cookie::Session.clear(&mut response, visit.way.secure);
            Ok(response)
        }
        Err(error) => {
            let locked = error.says == "door-locked";
            let status =
                if locked { StatusCode::TOO_MANY_REQUESTS } else { StatusCode::UNPROCESSABLE_ENTITY };
            ask_page(desk, visit, sent, &problems_of(&error), status)
        }
    }
}
