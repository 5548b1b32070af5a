//! From a route to a page function and back. Page functions are plain and may be slow, so they run where waiting is
//! allowed; a fault in one of them becomes a page with a reference, and everybody else goes on.

use std::future::Future;

use axum::extract::{RawPathParams, RawQuery, Request, State};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};

use app::desk::Desk;

use super::sent::{Sent, take};
use super::visit::{Answer, Visit};
use super::{Site, fresh_key};
use crate::web::error::{Kind, WebError};
use crate::web::respond;

/// Largest body of an ordinary form.
pub const FORM_LIMIT: usize = 64 * 1024;
/// Largest body of a session's form: thirty swimmers with all their sets.
pub const SESSION_LIMIT: usize = 1024 * 1024;
/// Largest file of a club.
pub const FILE_LIMIT: usize = 24 * 1024 * 1024;

/// A page that is read.
pub type Read = fn(&Desk, &Visit) -> Answer;
/// A form that is sent.
pub type Write = fn(&mut Desk, &Visit, &Sent) -> Answer;

type Params = Result<RawPathParams, axum::extract::rejection::RawPathParamsRejection>;

/// A route for reading.
pub fn shows(page: Read) -> MethodRouter<Site> {
    get(
        move |State(site): State<Site>, params: Params, RawQuery(query): RawQuery, request: Request| async move {
            let visit = visit(site, params, query, &request);
            apart(move || {
                let desk = visit.site.desk();
                page(&desk, &visit)
            })
            .await
        },
    )
}

/// A route for reading and for the form that the page carries.
pub fn takes(form: Write, limit: usize) -> MethodRouter<Site> {
    post(
        move |State(site): State<Site>, params: Params, RawQuery(query): RawQuery, request: Request| async move {
            let visit = visit(site, params, query, &request);
            let sent = match take(request, limit).await {
                Ok(sent) => sent,
                Err(error) => return error.into_response(),
            };
            if sent.one("token") != visit.site.token() {
                return WebError::new(Kind::Foreign).into_response();
            }
            apart(move || once(form, &visit, &sent)).await
        },
    )
}

/// Stores a form once, however often a nervous finger sends it.
fn once(form: Write, visit: &Visit, sent: &Sent) -> Answer {
    let mut desk = visit.site.desk();
    let key = sent.one("once");
    if let Some(led_to) = visit.site.already_led_to(key) {
        return Ok(respond::see(&led_to));
    }
    let answer = form(&mut desk, visit, sent)?;
    let led_to = answer.headers().get(axum::http::header::LOCATION).and_then(|to| to.to_str().ok());
    if let (Some(led_to), false) = (led_to, key.is_empty()) {
        visit.site.remember_form(key, led_to);
    }
    Ok(answer)
}

fn visit(site: Site, params: Params, query: Option<String>, request: &Request) -> Visit {
    let params = params.map_or_else(
        |_| Vec::new(),
        |params| params.iter().map(|(name, value)| (name.to_owned(), value.to_owned())).collect(),
    );
    let moment = site.now();
    let query = Sent::read(query.unwrap_or_default().as_bytes());
    Visit { site, moment, params, query, path: request.uri().path().to_owned() }
}

/// Runs what may take a while where waiting is allowed.
pub async fn apart(work: impl FnOnce() -> Answer + Send + 'static) -> Response {
    match tokio::task::spawn_blocking(work).await {
        Ok(answer) => answer.into_response(),
        Err(_) => defect().into_response(),
    }
}

/// Layer for the whole router: a fault anywhere else is caught as well.
pub async fn caught(request: Request, next: axum::middleware::Next) -> Response {
    caught_in(next.run(request)).await
}

async fn caught_in(work: impl Future<Output = Response> + Send + 'static) -> Response {
    match tokio::spawn(work).await {
        Ok(response) => response,
        Err(_) => defect().into_response(),
    }
}

/// The panic itself has been written where the command was started; the reference ties the page to that place.
fn defect() -> WebError {
    let reference = fresh_key()[..8].to_owned();
    #[expect(clippy::print_stderr, reason = "whoever started the command reads faults there")]
    {
        eprintln!("cuffwright: fault {reference}: see the lines above");
    }
    WebError::defect(reference)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn a_fault_becomes_a_page_with_a_reference() {
        let response = apart(|| panic!("on purpose")).await;
        assert_eq!(response.status(), axum::http::StatusCode::INTERNAL_SERVER_ERROR);
        let response = caught_in(async { panic!("on purpose") }).await;
        assert_eq!(response.status(), axum::http::StatusCode::INTERNAL_SERVER_ERROR);
    }
}
