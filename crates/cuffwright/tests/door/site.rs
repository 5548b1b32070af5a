//! A small club behind its door, somebody of every role inside, and what a browser would send.

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use app::desk::Desk;
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use cuffwright::web::routes;
use cuffwright::web::site::way::Way;
use cuffwright::web::site::{Entry, Site};
use door::code::Purpose;
use door::role::Role;
use door::token::Token;
use tower::ServiceExt;

use crate::build::*;
use crate::canaries::mark;

pub(crate) const PORT: u16 = 4000;
pub(crate) const HOST: &str = "127.0.0.1:4000";

/// An answer, read.
pub(crate) struct Answered {
    pub(crate) status: StatusCode,
    pub(crate) headers: HeaderMap,
    pub(crate) body: String,
}

impl Answered {
    pub(crate) fn location(&self) -> &str {
        self.headers.get(header::LOCATION).and_then(|to| to.to_str().ok()).unwrap_or_default()
    }

    /// The value of the cookie of this name that the answer sets.
    pub(crate) fn cookie(&self, name: &str) -> Option<String> {
        let begins = format!("{name}=");
        self.headers
            .get_all(header::SET_COOKIE)
            .iter()
            .filter_map(|line| line.to_str().ok())
            .find_map(|line| line.strip_prefix(&begins))
            .map(|rest| rest.split(';').next().unwrap_or_default().to_owned())
    }
}

/// Whoever asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Asker {
    Stranger,
    As(Role),
    Device,
}

impl Asker {
    pub(crate) fn all() -> Vec<Asker> {
        let roles = Role::ALL.into_iter().map(Asker::As);
        roles.chain([Asker::Stranger, Asker::Device]).collect()
    }

    /// What somebody of this kind carries.
    pub(crate) fn token(self) -> Option<Token> {
        match self {
            Asker::Stranger => None,
            Asker::Device => Some(token(77)),
            Asker::As(role) => Some(token(100 + number(role))),
        }
    }
}

fn number(role: Role) -> u8 {
    let place = Role::ALL.iter().position(|listed| *listed == role).unwrap();
    u8::try_from(place + 1).unwrap()
}

/// A site to ask, with a clock that is moved by hand.
pub(crate) struct Club {
    router: Router,
    pub(crate) site: Site,
    minutes: Arc<AtomicI64>,
}

impl Club {
    /// Over a desk.
    pub(crate) fn over(desk: Desk) -> Self {
        let minutes = Arc::new(AtomicI64::new(0));
        let clock = Arc::clone(&minutes);
        let now = Arc::new(move || at(clock.load(Ordering::Relaxed)));
        let site = Site::with(desk, Entry::Accounts, now, None, PORT);
        Self { router: routes::router(site.clone()), site, minutes }
    }

    /// A club where nobody has an account yet.
    pub(crate) fn new_file() -> Self {
        Self::over(empty_desk())
    }

    /// One person of every role and a paired device; the record of the first swimmer carries a mark in every field.
    pub(crate) fn peopled() -> Self {
        let (mut desk, owner) = desk();
        mark(&mut desk, swimmer(1));
        for role in Role::ALL {
            if role == Role::Owner {
                // The owner's session is made as after an invitation, so that it has a token we know.
                let code = new_code(1, Purpose::Invitation);
                desk.invite_again(&at(0), &owner, door::principal::AccountId(id(1)), &code).unwrap();
                let typed =
                    app::entry::code::Typed { login: "olga", code: &code.code.shown(), from: lan(99) };
                desk.take_code(&at(0), Purpose::Invitation, &typed, &HASH, token(101)).unwrap();
            } else {
                let_in(&mut desk, &owner, u128::from(number(role)), &new_account(role, role.word()));
            }
        }
        let code = new_code(50, Purpose::Pairing);
        desk.open_pairing(&at(0), &owner, &code).unwrap();
        desk.pair(&at(0), &code.code.shown(), "blue phone", lan(7), (id(70), &token(77))).unwrap();
        Self::over(desk)
    }

    /// So many minutes later.
    pub(crate) fn later(&self, minutes: i64) {
        self.minutes.fetch_add(minutes, Ordering::Relaxed);
    }

    pub(crate) async fn ask(&self, request: Request<Body>) -> Answered {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let (parts, body) = response.into_parts();
        let bytes = to_bytes(body, usize::MAX).await.unwrap();
        let body = String::from_utf8_lossy(&bytes).into_owned();
        Answered { status: parts.status, headers: parts.headers, body }
    }

    pub(crate) async fn get(&self, path: &str, who: Asker) -> Answered {
        self.get_with(path, &cookie(who)).await
    }

    pub(crate) async fn get_with(&self, path: &str, cookie: &str) -> Answered {
        let request = Request::get(path).header("host", HOST).header("cookie", cookie);
        self.ask(request.body(Body::empty()).unwrap()).await
    }

    /// Sends a form with this session's word, as our own page would.
    pub(crate) async fn post(&self, path: &str, who: Asker, pairs: &[(&str, &str)]) -> Answered {
        let word = who.token().map(|token| token.form_word()).unwrap_or_default();
        self.post_with(path, &cookie(who), &word, pairs, None).await
    }

    /// Sends a form with this cookie and word, from the laptop or from elsewhere on the network.
    pub(crate) async fn post_with(
        &self,
        path: &str,
        cookie: &str,
        word: &str,
        pairs: &[(&str, &str)],
        from: Option<u8>,
    ) -> Answered {
        let mut all = vec![("token", word)];
        all.extend_from_slice(pairs);
        let body = form_urlencoded::Serializer::new(String::new()).extend_pairs(all).finish();
        let mut request = Request::post(path)
            .header("host", HOST)
            .header("cookie", cookie)
            .header("sec-fetch-site", "same-origin")
            .header("content-type", "application/x-www-form-urlencoded")
            .body(Body::from(body))
            .unwrap();
        if let Some(last) = from {
            request.extensions_mut().insert(Way { peer: lan(last), ..Way::laptop(PORT) });
        }
        self.ask(request).await
    }
}

pub(crate) fn cookie(who: Asker) -> String {
    match (who, who.token()) {
        (Asker::Device, Some(token)) => format!("cuffwright-deck={}", token.reveal()),
        (_, Some(token)) => format!("cuffwright={}", token.reveal()),
        (_, None) => String::new(),
    }
}
