//! Every address, as a table of contents.

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::{from_fn, from_fn_with_state, map_response};
use axum::routing::{get, post};

use super::error::{Kind, WebError};
use super::pages::{club, deck, due, facts, import, kit, people, person, record, review, rules, session};
use super::site::Site;
use super::site::guard::only_us;
use super::site::run::{FILE_LIMIT, FORM_LIMIT, SESSION_LIMIT, caught, shows, takes};
use super::{assets, console, respond};

/// The whole site.
pub fn router(site: Site) -> Router {
    Router::new()
        .route("/", shows(due::show))
        .route("/due", shows(due::show))
        .route("/people", shows(people::show))
        .route("/people/{id}", shows(person::show))
        .route("/people/{id}/decide", takes(person::decide::decide, FORM_LIMIT))
        .route("/people/{id}/record/{sheet}", shows(record::show).merge(takes(record::send, FORM_LIMIT)))
        .route("/people/{id}/facts", shows(facts::list))
        .route("/people/{id}/facts/{fact}", shows(facts::one))
        .route("/people/{id}/facts/{fact}/correct", takes(facts::correct, FORM_LIMIT))
        .route("/people/{id}/facts/{fact}/take-back", takes(facts::take_back, FORM_LIMIT))
        .route("/review", shows(review::show).merge(takes(review::send, FORM_LIMIT)))
        .route("/session", shows(session::show).merge(takes(session::send, SESSION_LIMIT)))
        .route("/deck", shows(deck::prepare::show).merge(takes(deck::prepare::send, FORM_LIMIT)))
        .route("/deck/place", shows(deck::place::show).merge(takes(deck::place::send, FORM_LIMIT)))
        .route("/deck/hand-in", takes(deck::wire::hand_in, FILE_LIMIT))
        .route("/deck/outbox", post(deck::wire::outbox))
        .route("/deck/session/{session}", shows(deck::shell::console))
        .route("/deck/session/{session}/wall", shows(deck::shell::wall))
        .route("/deck/session/{session}/bag", shows(deck::wire::bag))
        .route("/deck/session/{session}/record", shows(deck::record::show))
        .route("/deck/session/{session}/keep", takes(deck::record::keep, FORM_LIMIT))
        .route("/deck/session/{session}/close", takes(deck::record::close, FORM_LIMIT))
        .route("/deck/app/{version}/{name}", get(console::serve))
        .route("/deck/worker.js", get(console::worker))
        .route("/import", shows(import::show).merge(takes(import::take, FILE_LIMIT)))
        .route("/import/{key}", shows(import::preview).merge(takes(import::confirm, FORM_LIMIT)))
        .route("/club", shows(club::show).merge(takes(club::send, FORM_LIMIT)))
        .route("/kit", shows(kit::show).merge(takes(kit::send, FORM_LIMIT)))
        .route("/rules", shows(rules::show))
        .route("/rules/sources", shows(rules::sources))
        .route("/rules/exercises", shows(rules::exercises::list))
        .route("/rules/exercises/{exercise}", shows(rules::exercises::one))
        .route("/rules/{code}", shows(rules::one))
        .route("/assets/{name}", get(assets::serve))
        .fallback(|| async { WebError::missing() })
        .method_not_allowed_fallback(|| async { WebError::new(Kind::Method) })
        .layer(DefaultBodyLimit::max(FILE_LIMIT))
        .layer(from_fn_with_state(site.clone(), only_us))
        .layer(from_fn(caught))
        .layer(map_response(respond::guard))
        .with_state(site)
}
