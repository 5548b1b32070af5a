//! Who may ask: only under a name of ours, and for a form only our own page.
//!
//! A page elsewhere can make a browser send requests here. Three things keep it out: the name it asked under must
//! be ours (so that a foreign name which now points to this machine is refused), the browser must say that a form
//! comes from our own page, and the form must carry the token of this start.

use axum::extract::{Request, State};
use axum::http::{HeaderMap, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::Site;
use super::run::way_of;
use super::way::Way;
use crate::web::error::{Kind, WebError};

/// Layer for the whole router.
pub async fn only_us(State(site): State<Site>, request: Request, next: Next) -> Response {
    let way = way_of(&site, &request);
    let ours = names(way, &site.hosts());
    if !is_ours(request.headers(), request.uri().authority().map(|name| name.as_str()), &ours) {
        return WebError::new(Kind::Elsewhere).into_response();
    }
    let reads = matches!(*request.method(), Method::GET | Method::HEAD | Method::OPTIONS);
    if !reads && !comes_from_us(request.headers(), &ours, way.scheme()) {
        return WebError::new(Kind::Foreign).into_response();
    }
    next.run(request).await
}

/// Every name under which this way reaches us: this machine's own on the plain one, the laptop's on the encrypted one.
fn names(way: Way, hosts: &[String]) -> Vec<String> {
    let port = way.port;
    let own = ["127.0.0.1", "localhost", "[::1]"].map(str::to_owned);
    let more = hosts.iter().filter(|_| way.secure).cloned();
    let usual = way.secure && port == 443;
    own.into_iter().chain(more).map(|host| if usual { host } else { format!("{host}:{port}") }).collect()
}

fn is_ours(headers: &HeaderMap, in_line: Option<&str>, ours: &[String]) -> bool {
    let known = |name: &str| ours.iter().any(|ours| ours.eq_ignore_ascii_case(name));
    let mut named = headers.get_all(header::HOST).iter();
    let (host, second) = (named.next().and_then(|host| host.to_str().ok()), named.next());
    host.is_some_and(known) && second.is_none() && in_line.is_none_or(known)
}

/// A browser says where a form comes from in one of two headers or in both; each that is there must say "here".
fn comes_from_us(headers: &HeaderMap, ours: &[String], scheme: &str) -> bool {
    let value = |name: &str| headers.get(name).map(|value| value.to_str().unwrap_or("?"));
    let (site, origin) = (value("sec-fetch-site"), value("origin"));
    let host = value("host").unwrap_or_default();
    let says_here = site.is_none_or(|site| site == "same-origin")
        && origin.is_none_or(|origin| origin.eq_ignore_ascii_case(&format!("{scheme}://{host}")));
    let is_known = ours.iter().any(|name| name.eq_ignore_ascii_case(host));
    (site.is_some() || origin.is_some()) && says_here && is_known
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &str)]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for (name, value) in pairs {
            headers.append(*name, value.parse().unwrap());
        }
        headers
    }

    fn plain() -> Vec<String> {
        names(Way::laptop(4000), &["laptop.local".to_owned()])
    }

    #[test]
    fn the_encrypted_way_has_the_laptops_names_and_the_plain_one_has_not() {
        let secure = Way { secure: true, ..Way::laptop(4000) };
        let ours = names(secure, &["laptop.local".to_owned(), "192.168.1.7".to_owned()]);
        let asked = |host: &str| is_ours(&headers(&[("host", host)]), None, &ours);
        assert!(asked("laptop.local:4000") && asked("192.168.1.7:4000") && asked("LAPTOP.local:4000"));
        assert!(!asked("laptop.local") && !asked("192.168.1.8:4000") && !asked("x.laptop.local:4000"));
        assert!(!is_ours(&headers(&[("host", "laptop.local:4000")]), None, &plain()));
        let usual = names(Way { port: 443, ..secure }, &["club.example".to_owned()]);
        assert!(is_ours(&headers(&[("host", "club.example")]), None, &usual));
        let form = [("host", "laptop.local:4000"), ("origin", "http://laptop.local:4000")];
        assert!(!comes_from_us(&headers(&form), &ours, "https"), "a plain page is another page");
    }

    #[test]
    fn only_loopback_names_with_our_port_are_ours() {
        for (host, ours) in [
            ("127.0.0.1:4000", true),
            ("localhost:4000", true),
            ("LOCALHOST:4000", true),
            ("[::1]:4000", true),
            ("127.0.0.1:4001", false),
            ("127.0.0.1", false),
            ("rebound.example:4000", false),
            ("localhost.rebound.example:4000", false),
            ("", false),
        ] {
            assert_eq!(is_ours(&headers(&[("host", host)]), None, &plain()), ours, "{host}");
        }
        assert!(!is_ours(&headers(&[]), None, &plain()), "no name at all");
        let two = headers(&[("host", "localhost:4000"), ("host", "x.example")]);
        assert!(!is_ours(&two, None, &plain()), "two names");
        assert!(!is_ours(&headers(&[("host", "localhost:4000")]), Some("x.example"), &plain()));
    }

    #[test]
    fn a_form_must_come_from_our_own_page() {
        let host = ("host", "localhost:4000");
        for (more, ours) in [
            (vec![("sec-fetch-site", "same-origin")], true),
            (vec![("origin", "http://localhost:4000")], true),
            (vec![("sec-fetch-site", "same-origin"), ("origin", "http://localhost:4000")], true),
            (vec![], false),
            (vec![("sec-fetch-site", "cross-site")], false),
            (vec![("sec-fetch-site", "same-site")], false),
            (vec![("sec-fetch-site", "none")], false),
            (vec![("origin", "null")], false),
            (vec![("origin", "http://localhost:4001")], false),
            (vec![("origin", "http://127.0.0.1:4000")], false),
            (vec![("sec-fetch-site", "same-origin"), ("origin", "https://x.example")], false),
        ] {
            let mut all = vec![host];
            all.extend(more.clone());
            assert_eq!(comes_from_us(&headers(&all), &plain(), "http"), ours, "{more:?}");
        }
    }
}
