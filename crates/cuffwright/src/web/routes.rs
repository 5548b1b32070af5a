//! Every address, as a table: how it is asked, what it needs, what stands there.
//!
//! The router is made of this table and of nothing else, so an address without a declared need does not exist. The
//! tests that look for what must not be seen, the navigation and `docs/addresses.md` read the same table.
//! To add an address, add a row. [`Needs`] says what can be asked for; [`CLINICAL`] and [`DECK`] are the usual two.

use ::door::permit::{Reach, Thing};
use ::door::principal::{Principal, Via};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::{from_fn, from_fn_with_state, map_response};
use axum::routing::{MethodRouter, get, post};

use super::error::{Kind, WebError};
use super::pages::{
    band, club, deck, door, due, facts, home, import, kit, people, person, privacy, record, review, rules,
    screening, season, see_as, session, views, week, weekly, what_if, year,
};
use super::site::Site;
use super::site::guard::only_us;
use super::site::needs::{CLINICAL, DECK, Needs};
use super::site::run::{self, FILE_LIMIT, FORM_LIMIT, Read, SESSION_LIMIT, Write, WriteApart, caught};
use super::{assets, console, respond};

/// One way of asking at one address.
#[derive(Clone, Copy)]
pub struct Route {
    /// The address, with names in braces.
    pub path: &'static str,
    /// What it needs.
    pub needs: Needs,
    /// What stands there.
    pub does: Does,
}

/// What stands at an address.
#[derive(Clone, Copy)]
pub enum Does {
    /// A page that is read.
    Shows(Read),
    /// A form that is sent, of at most so many bytes. It runs with the desk in hand.
    Takes(Write, usize),
    /// The same without the desk in hand: for what is slow, such as comparing a password.
    TakesApart(WriteApart, usize),
    /// A handler of its own: an event stream, a file. It finds the visit (an `Arc<Visit>`) in the request's
    /// extensions, admitted already; whatever it writes it must check for the form word itself
    /// ([`super::site::visit::Visit::is_sealed`]).
    Stands(Method, fn() -> MethodRouter<Site>),
}

/// How it is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Method {
    /// Reading.
    Get,
    /// Writing.
    Post,
}

impl Route {
    /// How it is asked.
    pub const fn method(&self) -> Method {
        match self.does {
            Does::Shows(_) => Method::Get,
            Does::Takes(..) | Does::TakesApart(..) => Method::Post,
            Does::Stands(method, _) => method,
        }
    }
}

const fn shows(path: &'static str, needs: Needs, page: Read) -> Route {
    Route { path, needs, does: Does::Shows(page) }
}

const fn takes(path: &'static str, needs: Needs, form: Write, limit: usize) -> Route {
    Route { path, needs, does: Does::Takes(form, limit) }
}

const fn apart(path: &'static str, needs: Needs, form: WriteApart, limit: usize) -> Route {
    Route { path, needs, does: Does::TakesApart(form, limit) }
}

const fn stands(
    path: &'static str,
    needs: Needs,
    method: Method,
    there: fn() -> MethodRouter<Site>,
) -> Route {
    Route { path, needs, does: Does::Stands(method, there) }
}

/// Every address.
pub const ROUTES: &[Route] = &[
    // The day.
    shows("/", Needs::Known, home::show),
    shows("/due", CLINICAL, due::show),
    shows("/review", Needs::Everybody(Thing::Decide), review::show),
    takes("/review", Needs::Everybody(Thing::Decide), review::send, FORM_LIMIT),
    shows("/session", DECK, session::show),
    takes("/session", DECK, session::send, SESSION_LIMIT),
    // The deck: a session is prepared, run on devices, and looked at.
    shows("/deck", DECK, deck::prepare::show),
    takes("/deck", DECK, deck::prepare::send, FORM_LIMIT),
    shows("/deck/place", DECK, deck::place::show),
    takes("/deck/place", DECK, deck::place::send, FORM_LIMIT),
    takes("/deck/hand-in", DECK, deck::wire::hand_in, FILE_LIMIT),
    stands("/deck/outbox", DECK, Method::Post, || post(deck::wire::outbox)),
    shows("/deck/session/{session}", DECK, deck::shell::console),
    shows("/deck/session/{session}/wall", DECK, deck::shell::wall),
    shows("/deck/session/{session}/bag", DECK, deck::wire::bag),
    shows("/deck/session/{session}/record", DECK, deck::record::show),
    takes("/deck/session/{session}/keep", DECK, deck::record::keep, FORM_LIMIT),
    takes("/deck/session/{session}/close", CLINICAL, deck::record::close, FORM_LIMIT),
    shows("/deck/session/{session}/track/{kind}", DECK, deck::track::file),
    shows("/deck/home", DECK, deck::home::show),
    takes("/deck/home/{id}", Needs::Swimmer(Thing::RecordSession), deck::home::make, FORM_LIMIT),
    takes("/deck/code", DECK, deck::home::take, FORM_LIMIT),
    stands("/deck/app/{version}/{name}", Needs::Nothing, Method::Get, || get(console::serve)),
    stands("/deck/worker.js", Needs::Nothing, Method::Get, || get(console::worker)),
    // The swimmers: each role sees its own type of them.
    shows("/people", Needs::Some(Thing::Roster), people::show),
    shows("/people/{id}", Needs::Swimmer(Thing::Roster), person::show),
    shows("/views", Needs::Some(Thing::Roster), views::all),
    shows("/views/{id}", Needs::Swimmer(Thing::Roster), views::one),
    shows("/people/{id}/loads", CLINICAL, person::loads::show),
    takes("/people/{id}/decide", Needs::Swimmer(Thing::Decide), person::decide::decide, FORM_LIMIT),
    shows("/people/{id}/record/{sheet}", Needs::Sheet, record::show),
    takes("/people/{id}/record/{sheet}", Needs::Sheet, record::send, FORM_LIMIT),
    shows("/people/{id}/facts", Needs::Swimmer(Thing::Notes), facts::list),
    shows("/people/{id}/facts/{fact}", Needs::Swimmer(Thing::Notes), facts::one),
    takes("/people/{id}/facts/{fact}/correct", Needs::Swimmer(Thing::Decide), facts::correct, FORM_LIMIT),
    takes("/people/{id}/facts/{fact}/take-back", Needs::Swimmer(Thing::Decide), facts::take_back, FORM_LIMIT),
    // A screening day, what follows from it, the weekly check.
    shows("/people/{id}/screening", CLINICAL, screening::values::show),
    shows("/people/{id}/retest", CLINICAL, screening::retest::show),
    shows("/people/{id}/water", CLINICAL, weekly::water::show),
    shows("/people/{id}/weekly", Needs::Swimmer(Thing::ReportPain), weekly::check::show),
    takes("/people/{id}/weekly", Needs::Swimmer(Thing::ReportPain), weekly::check::send, FORM_LIMIT),
    shows("/screening", Needs::Everybody(Thing::Examine), screening::show),
    shows("/screening/form", Needs::Everybody(Thing::Examine), screening::paper::show),
    shows("/screening/findings", CLINICAL, screening::watch::show),
    shows("/screening/trials", Needs::Everybody(Thing::Examine), screening::trial::show),
    takes("/screening/trials", Needs::Everybody(Thing::Examine), screening::trial::send, FILE_LIMIT),
    shows("/screening/{station}", Needs::Everybody(Thing::Examine), screening::station::show),
    takes("/screening/{station}", Needs::Everybody(Thing::Examine), screening::station::send, SESSION_LIMIT),
    shows("/weekly", CLINICAL, weekly::show),
    shows("/weekly/form", CLINICAL, weekly::paper::show),
    // The club.
    shows("/import", Needs::Everybody(Thing::Import), import::show),
    takes("/import", Needs::Everybody(Thing::Import), import::take, FILE_LIMIT),
    shows("/import/{key}", Needs::Everybody(Thing::Import), import::preview),
    takes("/import/{key}", Needs::Everybody(Thing::Import), import::confirm, FORM_LIMIT),
    shows("/club", Needs::Everybody(Thing::EditCalendar), club::show),
    takes("/club", Needs::Everybody(Thing::EditCalendar), club::send, FORM_LIMIT),
    shows("/kit", Needs::Everybody(Thing::Kit), kit::show),
    takes("/kit", Needs::Everybody(Thing::EditKit), kit::send, FORM_LIMIT),
    shows("/kit/band", Needs::Everybody(Thing::Kit), band::show),
    takes("/kit/band", Needs::Everybody(Thing::EditKit), band::send, FORM_LIMIT),
    shows("/kit/what-if", Needs::Everybody(Thing::Kit), what_if::show),
    // The season: counts without names; set times with them.
    shows("/season", Needs::Everybody(Thing::Counts), season::board::show),
    shows("/season/set-times", CLINICAL, season::set_times::show),
    shows("/due/charts", CLINICAL, season::charts::show),
    // The timetable: everybody sees when and where; whoever keeps the calendar changes it.
    shows("/week", Needs::Everybody(Thing::Calendar), week::show),
    takes("/week", Needs::Everybody(Thing::EditCalendar), week::send, FORM_LIMIT),
    shows("/week/wish", Needs::Everybody(Thing::Calendar), week::wish::show),
    takes("/week/wish", Needs::Everybody(Thing::EditCalendar), week::wish::send, FORM_LIMIT),
    shows("/week/enter/{what}", Needs::Everybody(Thing::EditCalendar), week::enter::show),
    takes("/week/enter/{what}", Needs::Everybody(Thing::EditCalendar), week::enter::send, FORM_LIMIT),
    shows("/week/import", Needs::Everybody(Thing::EditCalendar), week::files::import),
    takes("/week/import", Needs::Everybody(Thing::EditCalendar), week::files::take, SESSION_LIMIT),
    shows("/week/feed/{squad}", Needs::Everybody(Thing::Calendar), week::files::squad_feed),
    shows("/people/{id}/calendar", Needs::Swimmer(Thing::Roster), week::files::person_feed),
    shows("/week/table.csv", Needs::Everybody(Thing::Calendar), week::files::table),
    shows("/week/week.json", Needs::Everybody(Thing::Calendar), week::files::week_json),
    shows("/year", Needs::Everybody(Thing::Calendar), year::show),
    // The rules.
    shows("/rules", Needs::Everybody(Thing::Protocol), rules::show),
    shows("/rules/sources", Needs::Everybody(Thing::Protocol), rules::sources),
    shows("/rules/exercises", Needs::Everybody(Thing::Protocol), rules::exercises::list),
    shows("/rules/exercises/{exercise}", Needs::Everybody(Thing::Protocol), rules::exercises::one),
    shows("/rules/{code}", Needs::Everybody(Thing::Protocol), rules::one),
    // The door.
    shows("/first", Needs::Nothing, door::first::show),
    apart("/first", Needs::Nothing, door::first::send, FORM_LIMIT),
    shows("/sign-in", Needs::Nothing, door::sign_in::show),
    apart("/sign-in", Needs::Nothing, door::sign_in::send, FORM_LIMIT),
    takes("/sign-out", Needs::Account, door::sign_in::out, FORM_LIMIT),
    shows("/invited", Needs::Nothing, door::code::show),
    apart("/invited", Needs::Nothing, door::code::send, FORM_LIMIT),
    shows("/pair", Needs::Nothing, door::devices::ask),
    takes("/pair", Needs::Nothing, door::devices::take, FORM_LIMIT),
    shows("/install", Needs::Nothing, door::install::show),
    shows("/install/cuffwright.crt", Needs::Nothing, door::install::certificate),
    shows("/me", Needs::Account, door::me::show),
    apart("/me/password", Needs::Account, door::me::password, FORM_LIMIT),
    takes("/me/sign-out-everywhere", Needs::Account, door::me::out_everywhere, FORM_LIMIT),
    shows("/me/audit", Needs::Account, privacy::audit::own),
    shows("/accounts", Needs::Everybody(Thing::Accounts), door::accounts::show),
    shows("/accounts/new", Needs::Everybody(Thing::ManageAccounts), door::accounts::new),
    takes("/accounts/new", Needs::Everybody(Thing::ManageAccounts), door::accounts::send, FORM_LIMIT),
    shows("/accounts/{account}", Needs::Everybody(Thing::Accounts), door::account::show),
    takes(
        "/accounts/{account}/{act}",
        Needs::Everybody(Thing::ManageAccounts),
        door::account::send,
        FORM_LIMIT,
    ),
    shows("/devices", Needs::Everybody(Thing::EndDevice), door::devices::show),
    takes("/devices/pair", Needs::Everybody(Thing::PairDevice), door::devices::pair, FORM_LIMIT),
    takes("/devices/{device}/end", Needs::Everybody(Thing::EndDevice), door::devices::end, FORM_LIMIT),
    // One person's own data.
    shows("/people/{id}/consent", Needs::Swimmer(Thing::Consent), privacy::consent::show),
    takes(
        "/people/{id}/consent/withdraw",
        Needs::Swimmer(Thing::WithdrawConsent),
        privacy::consent::withdraw,
        FORM_LIMIT,
    ),
    takes("/people/{id}/archive", Needs::Swimmer(Thing::Archive), privacy::archive::send, FORM_LIMIT),
    shows("/people/{id}/erase", Needs::Swimmer(Thing::Erase), privacy::erase::show),
    takes("/people/{id}/erase", Needs::Swimmer(Thing::Erase), privacy::erase::send, FORM_LIMIT),
    shows("/people/{id}/audit", Needs::Swimmer(Thing::AuditOfRecord), privacy::audit::of_record),
    shows("/audit", Needs::Everybody(Thing::Audit), privacy::audit::all),
    shows("/retention", Needs::Everybody(Thing::SetRetention), privacy::retention::show),
    takes("/retention", Needs::Everybody(Thing::SetRetention), privacy::retention::send, FORM_LIMIT),
    takes("/see-as", Needs::Demo, see_as::send, FORM_LIMIT),
    stands("/assets/{name}", Needs::Nothing, Method::Get, || get(assets::serve)),
];

/// The whole site.
pub fn router(site: Site) -> Router {
    let mut router = Router::new();
    for route in ROUTES {
        router = router.route(route.path, run::method_router(route, &site));
    }
    router
        .fallback(|| async { WebError::missing() })
        .method_not_allowed_fallback(|| async { WebError::new(Kind::Method) })
        .layer(DefaultBodyLimit::max(FILE_LIMIT))
        .layer(from_fn_with_state(site.clone(), only_us))
        .layer(from_fn(caught))
        .layer(map_response(respond::guard))
        .with_state(site)
}

/// Whether somebody may open a page that is read: for links, so that none leads to a shut door.
pub fn may_open(who: &Principal, path: &str) -> bool {
    let found = ROUTES.iter().find(|route| route.method() == Method::Get && route.path == path);
    found.is_some_and(|route| match route.needs {
        Needs::Account => !matches!(who.via, Via::Device(_)),
        needs => needs.reaches(who.role) != Reach::Nothing,
    })
}
