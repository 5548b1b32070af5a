//! From a route to a page function and back. Page functions are plain and may be slow, so they run where waiting is
//! allowed; a fault in one of them becomes a page with a reference, and everybody else goes on.

use std::future::Future;
use std::sync::Arc;

use axum::extract::{RawPathParams, RawQuery, Request, State};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};

use app::desk::Desk;

use super::enter::{Arrived, enter};
use super::sent::{Sent, take};
use super::visit::{Answer, Visit};
use super::way::Way;
use super::{Site, fresh_key};
use crate::web::error::{Kind, WebError};
use crate::web::respond;
use crate::web::routes::{Does, Route};

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
/// A form whose taking is slow: it asks for the desk itself, as shortly as it can.
pub type WriteApart = fn(&Visit, &Sent) -> Answer;

type Params = Result<RawPathParams, axum::extract::rejection::RawPathParamsRejection>;

/// A row of the route table, as the framework takes it.
pub fn method_router(route: &'static Route, site: &Site) -> MethodRouter<Site> {
    match route.does {
        Does::Shows(page) => shows(route, page),
        Does::Takes(form, limit) => takes(route, limit, move |visit, sent| once(form, visit, sent)),
        Does::TakesApart(form, limit) => takes(route, limit, form),
        Does::Stands(_, there) => there().layer(from_fn_with_state((site.clone(), route), admitted)),
    }
}

fn shows(route: &'static Route, page: Read) -> MethodRouter<Site> {
    get(
        move |State(site): State<Site>, params: Params, RawQuery(query): RawQuery, request: Request| async move {
            let arrived = arrived(site, params, query, &request);
            apart(move || {
                let visit = match enter(arrived, route) {
                    Ok(visit) => visit,
                    Err(answer) => return *answer,
                };
                let desk = visit.site.desk();
                let answer = page(&desk, &visit);
                answer.unwrap_or_else(|error| error.answer(&desk, &visit))
            })
            .await
        },
    )
}

fn takes(
    route: &'static Route,
    limit: usize,
    form: impl Fn(&Visit, &Sent) -> Answer + Clone + Send + Sync + 'static,
) -> MethodRouter<Site> {
    post(
        move |State(site): State<Site>, params: Params, RawQuery(query): RawQuery, request: Request| async move {
            let arrived = arrived(site, params, query, &request);
            // Whoever may not send it has none of its body read.
            let visit = match tokio::task::spawn_blocking(move || enter(arrived, route)).await {
                Ok(Ok(visit)) => visit,
                Ok(Err(answer)) => return *answer,
                Err(_) => return defect().into_response(),
            };
            let sent = match take(request, limit).await {
                Ok(sent) => sent,
                Err(error) => return apart(move || error.answer(&visit.site.desk(), &visit)).await,
            };
            apart(move || {
                let answer = match visit.is_sealed(sent.one("token")) {
                    true => form(&visit, &sent),
                    false => Err(WebError::new(Kind::Foreign)),
                };
                answer.unwrap_or_else(|error| error.answer(&visit.site.desk(), &visit))
            })
            .await
        },
    )
}

/// Layer of a handler of its own: in by the same way as any page, and the visit laid into the request.
async fn admitted(
    State((site, route)): State<(Site, &'static Route)>,
    params: Params,
    RawQuery(query): RawQuery,
    mut request: Request,
    next: Next,
) -> Response {
    let arrived = arrived(site, params, query, &request);
    match tokio::task::spawn_blocking(move || enter(arrived, route)).await {
        Ok(Ok(visit)) => {
            request.extensions_mut().insert(Arc::new(visit));
            next.run(request).await
        }
        Ok(Err(answer)) => *answer,
        Err(_) => defect().into_response(),
    }
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

fn arrived(site: Site, params: Params, query: Option<String>, request: &Request) -> Arrived {
    let params = params.map_or_else(
        |_| Vec::new(),
        |params| params.iter().map(|(name, value)| (name.to_owned(), value.to_owned())).collect(),
    );
    let way = way_of(&site, request);
    Arrived {
        site,
        way,
        headers: request.headers().clone(),
        params,
        query: query.unwrap_or_default(),
        path: request.uri().path().to_owned(),
        reads: matches!(*request.method(), axum::http::Method::GET | axum::http::Method::HEAD),
    }
}

/// The way a request came: the socket says it of each connection.
pub fn way_of(site: &Site, request: &Request) -> Way {
    request.extensions().get::<Way>().copied().unwrap_or_else(|| Way::laptop(site.port()))
}

/// Runs what may take a while where waiting is allowed.
pub async fn apart(work: impl FnOnce() -> Response + Send + 'static) -> Response {
    match tokio::task::spawn_blocking(work).await {
        Ok(answer) => answer,
        Err(_) => defect().into_response(),
    }
}

/// Layer for the whole router: a fault anywhere else is caught as well.
pub async fn caught(request: Request, next: Next) -> Response {
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
