//! From a request to a visit: who asks, whether they may, and that it is written down. Nothing of a page runs before.

use app::desk::Desk;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use door::permit::Thing;
use door::principal::Principal;
use door::token::Token;

use super::needs::{Named, Needs, Shut, seen_by_opening};
use super::sent::Sent;
use super::visit::Visit;
use super::way::{Cookie, Way};
use super::{Entry, Site, see_as};
use crate::web::error::{Kind, WebError};
use crate::web::pages::door::new_token;
use crate::web::pages::shared::encoded;
use crate::web::respond;
use crate::web::routes::Route;

/// A request, before anybody knows who asks.
pub struct Arrived {
    /// The site.
    pub site: Site,
    /// The way it came.
    pub way: Way,
    /// Its headers.
    pub headers: HeaderMap,
    /// Names in its address.
    pub params: Vec<(String, String)>,
    /// What stands behind the question mark.
    pub query: String,
    /// The path.
    pub path: String,
    /// True when it only reads.
    pub reads: bool,
}

/// Whom a request comes from.
struct Asker {
    who: Option<Principal>,
    token: Option<Token>,
}

/// Lets a request in as a visit, or answers why not. Slow enough (it reads the store) to run where waiting is allowed.
pub fn enter(arrived: Arrived, route: &Route) -> Result<Visit, Box<Response>> {
    let Arrived { site, way, headers, params, query, path, reads } = arrived;
    let moment = site.now();
    let mut desk = site.desk();
    let asker = match asker(&site, &mut desk, &headers, way) {
        Ok(asker) => asker,
        Err(error) => return Err(Box::new(error.into_response())),
    };
    let first_run = matches!(site.entry(), Entry::Accounts) && asker.who.is_none();
    let first_run = first_run && desk.is_first_run().unwrap_or(false);
    if first_run && !matches!(route.needs, Needs::Nothing) {
        return Err(Box::new(respond::see("/first")));
    }
    // Whoever is about to sign in gets something by which the form that comes back is known as ours.
    let is_new_browser =
        asker.token.is_none() && !site.entry().is_demo() && matches!(route.needs, Needs::Nothing) && reads;
    let token = if is_new_browser { new_token().ok() } else { asker.token };
    let visit = Visit {
        site: site.clone(),
        moment,
        params,
        query: Sent::read(query.as_bytes()),
        path,
        way,
        headers,
        who: asker.who,
        token,
        is_new_browser,
        route: route.path,
    };
    let named = Named { id: visit.param("id"), sheet: visit.param("sheet"), demo: site.entry().is_demo() };
    if let Err(shut) = route.needs.judge(&desk, visit.who.as_ref(), named, visit.today()) {
        return Err(Box::new(answer_shut(shut, &desk, &visit, reads)));
    }
    if let Err(error) = look(&mut desk, &visit, route, reads) {
        return Err(Box::new(WebError::from(error).answer(&desk, &visit)));
    }
    drop(desk);
    Ok(visit)
}

/// Who asks: in the demo whoever was chosen, else whoever the cookie stands for.
fn asker(site: &Site, desk: &mut Desk, headers: &HeaderMap, way: Way) -> Result<Asker, WebError> {
    if let Entry::Demo(author) = site.entry() {
        let chosen = Cookie::SeeAs.read(headers, way.secure);
        let who = see_as::principal(desk, &author.name, chosen.as_deref(), site.now().today);
        return Ok(Asker { who: Some(who), token: None });
    }
    let moment = site.now();
    let session = Cookie::Session.token(headers, way.secure);
    for token in [session.clone(), Cookie::Device.token(headers, way.secure)].into_iter().flatten() {
        let Some(known) = desk.who(&moment, &token)? else { continue };
        if known.note {
            desk.note_use(&moment, &known, &token)?;
        }
        return Ok(Asker { who: Some(known.who), token: Some(token) });
    }
    Ok(Asker { who: None, token: session })
}

/// That somebody looked is on record before the page leaves. A form is on record by what it records.
fn look(desk: &mut Desk, visit: &Visit, route: &Route, reads: bool) -> Result<(), app::error::AppError> {
    // The first page is the day for whoever reads health words, and leads elsewhere for all others.
    let first = (route.path == "/" && visit.is_clinical()).then_some(Thing::Health);
    let thing = route.needs.thing().or(first).and_then(seen_by_opening);
    let (Some(who), Some(thing), true) = (&visit.who, thing, reads) else { return Ok(()) };
    let subject = match route.needs {
        Needs::Swimmer(_) => visit.subject().ok(),
        _ => None,
    };
    desk.saw(&visit.moment, who, thing, subject)
}

fn answer_shut(shut: Shut, desk: &Desk, visit: &Visit, reads: bool) -> Response {
    match shut {
        Shut::Missing => WebError::missing().answer(desk, visit),
        Shut::SignIn if reads => {
            let to = match visit.path.as_str() {
                "/" => "/sign-in".to_owned(),
                path => format!("/sign-in?to={}", encoded(path)),
            };
            respond::see(&to)
        }
        Shut::SignIn => WebError::new(Kind::SignIn).answer(desk, visit),
        Shut::No(error) => WebError::from(error).answer(desk, visit),
    }
}
