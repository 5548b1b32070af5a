//! A site over the demo club or over nothing, and what a browser would send.

use std::sync::{Arc, OnceLock};

use app::demo::{self, Case, DemoClub};
use app::desk::{Author, Desk};
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use cuffwright::web::routes;
use cuffwright::web::site::Site;
use store::{NewFact, Store, SubjectId};
use tower::ServiceExt;
use trade::protocol::shipped;

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

    /// What stands inside the element with this id, up to the next element with an id.
    pub(crate) fn has_id(&self, id: &str) -> bool {
        self.body.contains(&format!(" id=\"{id}\""))
    }
}

/// A site to ask.
pub(crate) struct Asked {
    router: Router,
    site: Site,
}

pub(crate) fn author() -> Author {
    Author { name: demo::PRACTITIONER.to_owned(), device: "test".to_owned() }
}

pub(crate) fn site_of(desk: Desk) -> Asked {
    let banner = Some("Demo club, invented.".to_owned());
    let site = Site::new(desk, author(), Arc::new(demo::morning), banner, PORT);
    Asked { router: routes::router(site.clone()), site }
}

/// The season is played once; every test gets a store of its own with it.
fn club() -> &'static DemoClub {
    static CLUB: OnceLock<DemoClub> = OnceLock::new();
    CLUB.get_or_init(|| DemoClub::new(demo::SEED, shipped()))
}

pub(crate) fn demo_site() -> Asked {
    let mut desk = Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap();
    desk.append(&demo::morning(), club().facts.clone()).unwrap();
    site_of(desk)
}

/// The club with one of its swimmers: enough for a test of one, and made in no time.
pub(crate) fn site_with(case: Case) -> Asked {
    let subject = swimmer(case);
    let is_needed = |fact: &&NewFact| fact.subject == subject || fact.subject == SubjectId::CLUB;
    let facts = club().facts.iter().filter(is_needed).cloned().collect();
    let mut desk = Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap();
    desk.append(&demo::morning(), facts).unwrap();
    site_of(desk)
}

/// One demo site for all tests that only read.
pub(crate) fn read_site() -> &'static Asked {
    static READ: OnceLock<Asked> = OnceLock::new();
    READ.get_or_init(demo_site)
}

pub(crate) fn empty_site() -> Asked {
    site_of(Desk::new(Store::in_memory().unwrap(), shipped().clone()).unwrap())
}

/// The first swimmer of a case in the demo club.
pub(crate) fn swimmer(case: Case) -> SubjectId {
    club().subject(case).expect("the demo club has this case")
}

impl Asked {
    pub(crate) fn site(&self) -> &Site {
        &self.site
    }

    pub(crate) async fn ask(&self, request: Request<Body>) -> Answered {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let (parts, body) = response.into_parts();
        let bytes = to_bytes(body, usize::MAX).await.unwrap();
        let body = String::from_utf8(bytes.to_vec()).unwrap();
        Answered { status: parts.status, headers: parts.headers, body }
    }

    pub(crate) async fn get(&self, path: &str) -> Answered {
        self.ask(Request::get(path).header("host", HOST).body(Body::empty()).unwrap()).await
    }

    /// Sends a form as our own page would, sealed.
    pub(crate) async fn post(&self, path: &str, pairs: &[(&str, &str)]) -> Answered {
        let token = self.site.token().to_owned();
        let mut all = vec![("token", token.as_str())];
        all.extend_from_slice(pairs);
        self.post_raw(path, &all, &[("sec-fetch-site", "same-origin")]).await
    }

    pub(crate) async fn post_raw(
        &self,
        path: &str,
        pairs: &[(&str, &str)],
        headers: &[(&str, &str)],
    ) -> Answered {
        let body = form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish();
        let mut request = Request::post(path)
            .header("host", HOST)
            .header("content-type", "application/x-www-form-urlencoded");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        self.ask(request.body(Body::from(body)).unwrap()).await
    }

    /// Sends a table beside the fields of a form.
    pub(crate) async fn post_file(&self, path: &str, pairs: &[(&str, &str)], table: &str) -> Answered {
        let mut body = String::new();
        for (field, value) in [("token", self.site.token())].iter().chain(pairs) {
            body.push_str(&format!(
                "--XX\r\nContent-Disposition: form-data; name=\"{field}\"\r\n\r\n{value}\r\n"
            ));
        }
        body.push_str(&format!(
            "--XX\r\nContent-Disposition: form-data; name=\"file\"; filename=\"t.csv\"\r\n\r\n{table}\r\n--XX--\r\n"
        ));
        let request = Request::post(path)
            .header("host", HOST)
            .header("sec-fetch-site", "same-origin")
            .header("content-type", "multipart/form-data; boundary=XX")
            .body(Body::from(body))
            .unwrap();
        self.ask(request).await
    }

    /// Sends a file as the import page would.
    pub(crate) async fn send_file(&self, name: &str, bytes: &[u8], kind: &str) -> Answered {
        let mut body = Vec::new();
        for (field, value) in [("token", self.site.token()), ("kind", kind), ("dates", "")] {
            body.extend_from_slice(
                format!("--XX\r\nContent-Disposition: form-data; name=\"{field}\"\r\n\r\n{value}\r\n")
                    .as_bytes(),
            );
        }
        body.extend_from_slice(
            format!("--XX\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\r\n")
                .as_bytes(),
        );
        body.extend_from_slice(bytes);
        body.extend_from_slice(b"\r\n--XX--\r\n");
        let request = Request::post("/import")
            .header("host", HOST)
            .header("sec-fetch-site", "same-origin")
            .header("content-type", "multipart/form-data; boundary=XX")
            .body(Body::from(body))
            .unwrap();
        self.ask(request).await
    }
}
