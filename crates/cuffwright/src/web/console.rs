//! The live console's files: plain ES modules, served as they are written.
//!
//! They stand under a path with the digest of all of them, so that their relative imports always meet their own
//! version and a browser may keep them for a year. That does what an import map would do, and needs no exception for
//! an inline script in the content policy.

use std::sync::OnceLock;

use axum::extract::Path;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};

use super::assets::{Asset, href};
use super::error::WebError;

/// Every module, by name.
pub const MODULES: &[(&str, &str)] = &[
    ("after.js", include_str!("../../assets/deck/after.js")),
    ("app.js", include_str!("../../assets/deck/app.js")),
    ("ask.js", include_str!("../../assets/deck/ask.js")),
    ("awake.js", include_str!("../../assets/deck/awake.js")),
    ("beat.js", include_str!("../../assets/deck/beat.js")),
    ("before.js", include_str!("../../assets/deck/before.js")),
    ("clock.js", include_str!("../../assets/deck/clock.js")),
    ("dom.js", include_str!("../../assets/deck/dom.js")),
    ("emergency.js", include_str!("../../assets/deck/emergency.js")),
    ("ids.js", include_str!("../../assets/deck/ids.js")),
    ("kit.js", include_str!("../../assets/deck/kit.js")),
    ("live.js", include_str!("../../assets/deck/live.js")),
    ("main.js", include_str!("../../assets/deck/main.js")),
    ("numbers.js", include_str!("../../assets/deck/numbers.js")),
    ("outbox.js", include_str!("../../assets/deck/outbox.js")),
    ("pain.js", include_str!("../../assets/deck/pain.js")),
    ("place.js", include_str!("../../assets/deck/place.js")),
    ("plan.js", include_str!("../../assets/deck/plan.js")),
    ("rope.js", include_str!("../../assets/deck/rope.js")),
    ("session.js", include_str!("../../assets/deck/session.js")),
    ("sheet.js", include_str!("../../assets/deck/sheet.js")),
    ("shelf.js", include_str!("../../assets/deck/shelf.js")),
    ("state.js", include_str!("../../assets/deck/state.js")),
    ("status.js", include_str!("../../assets/deck/status.js")),
    ("wall.js", include_str!("../../assets/deck/wall.js")),
    ("watch.js", include_str!("../../assets/deck/watch.js")),
    ("words.js", include_str!("../../assets/deck/words.js")),
];

const WORKER: &str = include_str!("../../assets/deck/worker.js");

/// What the console's pages may load: their own modules, their own data, and nothing inline.
pub const CONSOLE_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; \
                                  connect-src 'self'; worker-src 'self'; form-action 'self'; \
                                  frame-ancestors 'none'; base-uri 'none'";

/// Digest over every module.
fn version() -> &'static str {
    static VERSION: OnceLock<String> = OnceLock::new();
    VERSION.get_or_init(|| {
        let mut hash = Sha256::new();
        for (name, body) in MODULES {
            hash.update(name.as_bytes());
            hash.update(body.as_bytes());
        }
        hash.finalize().iter().take(6).map(|byte| format!("{byte:02x}")).collect()
    })
}

/// Address of a module.
pub fn module(name: &str) -> String {
    format!("/deck/app/{}/{name}", version())
}

/// Route handler for `/deck/app/{version}/{name}`.
pub async fn serve(Path((asked, name)): Path<(String, String)>) -> Response {
    let found = MODULES.iter().find(|(known, _)| *known == name).filter(|_| asked == version());
    match found {
        None => WebError::missing().into_response(),
        Some((_, body)) => script(body, "public, max-age=31536000, immutable"),
    }
}

/// Route handler for the service worker: it stands above what it serves, and is asked for anew each time.
pub async fn worker() -> Response {
    let mut files: Vec<String> = MODULES.iter().map(|(name, _)| module(name)).collect();
    files.extend([href(Asset::Style), href(Asset::Mark)]);
    let shell = serde_json::json!({ "version": format!("{}-{}", version(), env!("CARGO_PKG_VERSION")), "files": files });
    script(&WORKER.replace("self.__SHELL", &shell.to_string()), "no-cache")
}

fn script(body: &str, keep: &'static str) -> Response {
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static("text/javascript; charset=utf-8")),
        (header::CACHE_CONTROL, HeaderValue::from_static(keep)),
        // A worker fetches by its own policy, not by that of the page which started it.
        (header::CONTENT_SECURITY_POLICY, HeaderValue::from_static("default-src 'none'; connect-src 'self'")),
    ];
    (StatusCode::OK, headers, body.to_owned()).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_console_stays_under_150_kilobytes_in_all() {
        let all: usize = MODULES.iter().map(|(_, body)| body.len()).sum::<usize>() + WORKER.len();
        assert!(all < 150_000, "{all} bytes");
    }

    #[test]
    fn every_import_is_served() {
        for (name, body) in MODULES {
            for line in body.lines().filter(|line| line.starts_with("import ")) {
                let from =
                    line.rsplit("\"./").next().and_then(|rest| rest.split('"').next()).unwrap_or_default();
                assert!(MODULES.iter().any(|(known, _)| *known == from), "{name} imports {from}");
            }
        }
    }

    #[test]
    fn every_sentence_of_the_console_is_in_the_catalogue() {
        let texts = app::text::Texts::english();
        for (name, body) in MODULES {
            for piece in body.split("text(\"").skip(1) {
                let id = piece.split('"').next().unwrap_or_default();
                assert!(texts.has(&format!("deckui-{id}")), "{name} says {id}");
            }
            assert!(!body.contains("innerHTML"), "{name} reads text as markup");
        }
    }

    #[tokio::test]
    async fn another_version_is_not_served_under_this_one() {
        let path = module("main.js");
        let version = path.split('/').nth(3).unwrap_or_default().to_owned();
        assert_eq!(serve(Path((version, "main.js".into()))).await.status(), StatusCode::OK);
        assert_eq!(serve(Path(("0".into(), "main.js".into()))).await.status(), StatusCode::NOT_FOUND);
        assert_eq!(worker().await.headers()[header::CACHE_CONTROL], "no-cache");
    }
}
