//! How a phone comes to trust the laptop: a code for its camera, the steps for two families of phones, and the
//! certificate to take along. Nothing here is secret, so nobody need sign in.

use app::desk::Desk;
use app::entry::install::{AFTERWARDS, FAMILIES, INTRODUCTION};
use axum::body::Body;
use axum::http::{HeaderValue, header};
use axum::response::Response;
use maud::{PreEscaped, html};

use crate::web::error::WebError;
use crate::web::layout::{Frame, Here};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let (title, lede) = (text("install-title"), text("install-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: Here::Nowhere, ..Frame::default() };
    let Some(lan) = visit.site.lan() else {
        let body = html! { div.outcome.outcome-ask { p { (text("devices-no-lan")) " " code { "cuffwright serve --lan" } } } };
        return visit.page(desk, frame, body);
    };
    let here = lan.address("/install");
    let Some(authority) = &lan.authority else {
        let body = html! { p { (say("install-own", &[("address", Value::Words(&lan.address("/")))])) } };
        return visit.page(desk, frame, body);
    };
    let values = [("fingerprint", Value::Words(&authority.fingerprint)), ("address", Value::Words(&here))];
    let body = html! {
        div.pairing {
            div {
                p.install-address { b { (here) } }
                @for address in lan.numbers("/install") { p.quiet { (say("pairing-or", &[("address", Value::Words(&address))])) } }
                @for sentence in INTRODUCTION { p { (say(sentence, &values)) } }
                p { (text("install-first-warning")) }
                p { a.button href="/install/cuffwright.crt" { (text("install-certificate")) } }
            }
            @if let Some(drawing) = door::qr::svg(&here, &text("install-qr")) { div.qr { (PreEscaped(drawing)) } }
        }
        @for family in FAMILIES {
            h2 { (text(family.title)) }
            ol.steps { @for step in family.steps { li { (say(step, &values)) } } }
        }
        div.install-after { @for sentence in AFTERWARDS { p { (text(sentence)) } } }
    };
    visit.page(desk, frame, body)
}

/// The certificate of the laptop's own authority, as phones take it.
pub fn certificate(_: &Desk, visit: &Visit) -> Answer {
    let lan = visit.site.lan().ok_or_else(WebError::missing)?;
    let authority = lan.authority.ok_or_else(WebError::missing)?;
    let mut response = Response::new(Body::from(authority.pem));
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/x-x509-ca-cert"));
    headers.insert(
        header::CONTENT_DISPOSITION,
        HeaderValue::from_static("attachment; filename=\"cuffwright.crt\""),
    );
    Ok(response)
}
