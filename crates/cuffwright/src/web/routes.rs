//! Every address, as a table of contents.

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::{from_fn, from_fn_with_state, map_response};
use axum::routing::get;

use super::error::{Kind, WebError};
use super::pages::{
    club, due, facts, import, kit, people, person, record, review, rules, screening, session, weekly,
};
use super::site::Site;
use super::site::guard::only_us;
use super::site::run::{FILE_LIMIT, FORM_LIMIT, SESSION_LIMIT, caught, shows, takes};
use super::{assets, respond};

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
        .route("/people/{id}/screening", shows(screening::values::show))
        .route("/people/{id}/retest", shows(screening::retest::show))
        .route(
            "/people/{id}/weekly",
            shows(weekly::check::show).merge(takes(weekly::check::send, FORM_LIMIT)),
        )
        .route("/people/{id}/water", shows(weekly::water::show))
        .route("/screening", shows(screening::show))
        .route("/screening/form", shows(screening::paper::show))
        .route("/screening/findings", shows(screening::watch::show))
        .route(
            "/screening/trials",
            shows(screening::trial::show).merge(takes(screening::trial::send, FILE_LIMIT)),
        )
        .route(
            "/screening/{station}",
            shows(screening::station::show).merge(takes(screening::station::send, SESSION_LIMIT)),
        )
        .route("/weekly", shows(weekly::show))
        .route("/weekly/form", shows(weekly::paper::show))
        .route("/review", shows(review::show).merge(takes(review::send, FORM_LIMIT)))
        .route("/session", shows(session::show).merge(takes(session::send, SESSION_LIMIT)))
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
