//! The pages that the console's scripts fill: almost nothing stands in them, so that one kept by a device never shows
//! yesterday's names.

use app::desk::Desk;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use maud::{DOCTYPE, Markup, html};

use super::session;
use crate::web::assets::{Asset, href};
use crate::web::console::{CONSOLE_POLICY, module};
use crate::web::respond;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The console.
pub fn console(desk: &Desk, visit: &Visit) -> Answer {
    let session = session(desk, visit)?;
    Ok(scripted(
        "deck-title",
        "main.js",
        html! {
            div.deck id="deck" data-session=(session.session) data-nobag=(text("deck-nobag")) {}
            noscript { p { (text("deck-noscript")) " " a href="/session" { (text("deck-by-hand")) } } }
        },
    ))
}

/// What the group sees.
pub fn wall(desk: &Desk, visit: &Visit) -> Answer {
    let session = session(desk, visit)?;
    Ok(scripted(
        "deck-open-wall",
        "wall.js",
        html! {
            main.deck-group id="deck-wall" data-session=(session.session) data-nobag=(text("deck-nobag")) {}
        },
    ))
}

fn scripted(title: &'static str, script: &str, body: Markup) -> Response {
    let title = text(title);
    let page = html! {
        (DOCTYPE)
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="dark";
                title { (say("page-title", &[("title", Value::Words(&title))])) }
                link rel="icon" type="image/svg+xml" href=(href(Asset::Mark));
                link rel="stylesheet" href=(href(Asset::Style));
                script type="module" src=(module(script)) {}
            }
            body.deck-body { (body) }
        }
    };
    let mut response = respond::page_with(StatusCode::OK, page);
    response.headers_mut().insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(CONSOLE_POLICY));
    response
}
