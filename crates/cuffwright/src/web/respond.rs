//! How an answer leaves: HTML with headers that deny everything a page here does not need.
//!
//! `same-origin` as the referrer policy, because with none at all a browser hides from us, too, which page a form
//! comes from.
//!
//! A page holds health data of minors, so no browser, proxy or other site may keep, frame or learn from it.
//! Scripts, frames, fonts and outside connections are not allowed at all; add one by a line here, with its reason.

use axum::body::Body;
use axum::http::header::{self, HeaderName};
use axum::http::{HeaderValue, Response as HttpResponse, StatusCode};
use axum::response::Response;
use maud::Markup;

/// What a page may load. `img-src` is there for the mark beside the title and nothing else.
pub const CONTENT_POLICY: &str = "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; \
                                  frame-ancestors 'none'; base-uri 'none'";

const GUARDS: [(HeaderName, &str); 7] = [
    (header::CONTENT_SECURITY_POLICY, CONTENT_POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "same-origin"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    (HeaderName::from_static("permissions-policy"), "camera=(), microphone=(), geolocation=(), usb=()"),
    (header::CACHE_CONTROL, "no-store"),
];

/// A page that is there.
pub fn page(body: Markup) -> Response {
    page_with(StatusCode::OK, body)
}

/// A page with a status of its own.
pub fn page_with(status: StatusCode, body: Markup) -> Response {
    let mut response = HttpResponse::new(Body::from(body.into_string()));
    *response.status_mut() = status;
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("text/html; charset=utf-8"));
    guard_now(response)
}

/// After a form: go and read what now stands there, so that a reload never sends the form again.
///
/// `to` is a path on this site. Anything else would let a link send a reader elsewhere, and leads to the first page.
pub fn see(to: &str) -> Response {
    let local = to.starts_with('/') && !to.starts_with("//") && !to.contains(['\\', '\r', '\n']);
    let target = HeaderValue::from_str(to).ok().filter(|_| local);
    let mut response = HttpResponse::new(Body::empty());
    *response.status_mut() = StatusCode::SEE_OTHER;
    let location = target.unwrap_or_else(|| HeaderValue::from_static("/due"));
    response.headers_mut().insert(header::LOCATION, location);
    guard_now(response)
}

/// Layer for the whole router (`axum::middleware::map_response`): answers that the framework makes by itself
/// leave with the same guards as ours.
pub async fn guard(response: Response) -> Response {
    guard_now(response)
}

fn guard_now(mut response: Response) -> Response {
    for (name, value) in GUARDS {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_leaves_with_every_guard() {
        let response = page(maud::html! { p { "x" } });
        let headers = response.headers();
        assert_eq!(headers[header::CONTENT_TYPE], "text/html; charset=utf-8");
        assert_eq!(headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert_eq!(headers[header::REFERRER_POLICY], "same-origin");
        assert_eq!(headers[header::CACHE_CONTROL], "no-store");
        let policy = headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        for part in ["default-src 'none'", "style-src 'self'", "form-action 'self'", "frame-ancestors 'none'"]
        {
            assert!(policy.split("; ").any(|held| held == part), "{part} in {policy}");
        }
        assert!(policy.contains("base-uri 'none'"));
        assert!(!policy.contains("unsafe"), "{policy}");
        assert!(!policy.contains("script"), "no script is allowed: {policy}");
    }

    #[tokio::test]
    async fn the_guard_keeps_what_an_answer_already_says() {
        let mut kept = HttpResponse::new(Body::empty());
        kept.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("public, max-age=9"));
        let guarded = guard(kept).await;
        assert_eq!(guarded.headers()[header::CACHE_CONTROL], "public, max-age=9");
        assert_eq!(guarded.headers()[header::CONTENT_SECURITY_POLICY], CONTENT_POLICY);
    }

    #[test]
    fn a_form_leads_on_within_this_site_only() {
        let cases = [
            ("/people/7?done=1", "/people/7?done=1"),
            ("//elsewhere.example/", "/due"),
            ("https://elsewhere.example/", "/due"),
            ("/\\elsewhere.example", "/due"),
            ("/a\r\nset-cookie: x", "/due"),
            ("", "/due"),
        ];
        for (to, location) in cases {
            let response = see(to);
            assert_eq!(response.status(), StatusCode::SEE_OTHER);
            assert_eq!(response.headers()[header::LOCATION], location, "{to:?}");
        }
    }
}
