//! The embedded files: one style sheet made of its component sheets, and the mark.
//!
//! An address carries the digest of what it serves, so a browser may keep a file for a year and still never
//! shows an old look with a new page.

use std::sync::OnceLock;

use axum::extract::Path;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};

use super::error::WebError;

/// The component sheets in the order in which they apply: values, roles, components, paper.
pub const SHEETS: &[(&str, &str)] = &[
    ("values", include_str!("../../assets/css/values.css")),
    ("roles", include_str!("../../assets/css/roles.css")),
    ("base", include_str!("../../assets/css/base.css")),
    ("shell", include_str!("../../assets/css/shell.css")),
    ("figure", include_str!("../../assets/css/figure.css")),
    ("plot", include_str!("../../assets/css/plot.css")),
    ("rope", include_str!("../../assets/css/rope.css")),
    ("people", include_str!("../../assets/css/people.css")),
    ("why", include_str!("../../assets/css/why.css")),
    ("due", include_str!("../../assets/css/due.css")),
    ("tables", include_str!("../../assets/css/tables.css")),
    ("forms", include_str!("../../assets/css/forms.css")),
    ("asks", include_str!("../../assets/css/asks.css")),
    ("pages", include_str!("../../assets/css/pages.css")),
    ("door", include_str!("../../assets/css/door.css")),
    ("screening", include_str!("../../assets/css/screening.css")),
    ("season", include_str!("../../assets/css/season.css")),
    ("deck", include_str!("../../assets/css/deck.css")),
    ("week", include_str!("../../assets/css/week.css")),
    ("print", include_str!("../../assets/css/print.css")),
];

const MARK: &str = include_str!("../../assets/mark.svg");

/// Which file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asset {
    /// The style sheet.
    Style,
    /// The mark, shown by the browser beside the title.
    Mark,
}

struct Embedded {
    asset: Asset,
    name: String,
    kind: &'static str,
    body: String,
}

/// Address of a file, digest included.
pub fn href(asset: Asset) -> String {
    let found = embedded().iter().find(|file| file.asset == asset);
    found.map(|file| format!("/assets/{}", file.name)).unwrap_or_default()
}

/// Route handler for `/assets/{name}`.
pub async fn serve(Path(name): Path<String>) -> Response {
    let Some(file) = embedded().iter().find(|file| file.name == name) else {
        return WebError::missing().into_response();
    };
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static(file.kind)),
        (header::CACHE_CONTROL, HeaderValue::from_static("public, max-age=31536000, immutable")),
    ];
    (StatusCode::OK, headers, file.body.as_str()).into_response()
}

fn embedded() -> &'static [Embedded; 2] {
    static FILES: OnceLock<[Embedded; 2]> = OnceLock::new();
    FILES.get_or_init(|| {
        let style = SHEETS.iter().map(|(_, css)| *css).collect::<Vec<_>>().join("\n");
        [
            Embedded {
                asset: Asset::Style,
                name: named("cuffwright", "css", &style),
                kind: "text/css; charset=utf-8",
                body: style,
            },
            Embedded {
                asset: Asset::Mark,
                name: named("mark", "svg", MARK),
                kind: "image/svg+xml",
                body: MARK.to_owned(),
            },
        ]
    })
}

fn named(stem: &str, extension: &str, body: &str) -> String {
    let digest = Sha256::digest(body.as_bytes());
    let short: String = digest.iter().take(6).map(|byte| format!("{byte:02x}")).collect();
    format!("{stem}.{short}.{extension}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_follows_the_content() {
        assert_ne!(named("a", "css", "x{}"), named("a", "css", "y{}"));
        assert_eq!(named("a", "css", "x{}"), named("a", "css", "x{}"));
        assert!(href(Asset::Style).starts_with("/assets/cuffwright."));
    }

    #[tokio::test]
    async fn a_file_may_be_kept_for_a_year_and_an_old_address_is_not_found() {
        let name = href(Asset::Style).trim_start_matches("/assets/").to_owned();
        let found = serve(Path(name)).await;
        assert_eq!(found.status(), StatusCode::OK);
        assert_eq!(found.headers()[header::CONTENT_TYPE], "text/css; charset=utf-8");
        assert!(found.headers()[header::CACHE_CONTROL].to_str().unwrap().contains("immutable"));
        let old = serve(Path("cuffwright.000000000000.css".to_owned())).await;
        assert_eq!(old.status(), StatusCode::NOT_FOUND);
        assert_eq!(old.headers()[header::CACHE_CONTROL], "no-store");
    }
}
