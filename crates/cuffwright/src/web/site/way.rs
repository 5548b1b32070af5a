//! The way a request came in, and the cookies on it.
//!
//! The laptop's own browser comes over loopback and plain HTTP; everything from the club's network comes encrypted.
//! A cookie of the encrypted way carries the prefix that browsers reserve for it, so that no other page, no other
//! host and no plain connection can plant one.

use std::net::{IpAddr, Ipv4Addr};

use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::Response;
use door::session::{DEVICE, Lifetime};
use door::token::Token;

/// The way a request came in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// Encrypted.
    pub secure: bool,
    /// From which address.
    pub peer: IpAddr,
    /// The port it came in by.
    pub port: u16,
}

impl Way {
    /// Over this machine's own address, by one port.
    pub const fn laptop(port: u16) -> Self {
        Self { secure: false, peer: IpAddr::V4(Ipv4Addr::LOCALHOST), port }
    }

    /// How addresses of this way begin.
    pub const fn scheme(self) -> &'static str {
        if self.secure { "https" } else { "http" }
    }
}

/// A cookie of ours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cookie {
    /// A person who signed in, or a visitor who is about to.
    Session,
    /// A paired deck device.
    Device,
    /// In the demo: as whom to see it.
    SeeAs,
}

impl Cookie {
    /// Its name on this way.
    pub const fn name(self, secure: bool) -> &'static str {
        match (self, secure) {
            (Cookie::Session, true) => "__Host-cuffwright",
            (Cookie::Session, false) => "cuffwright",
            (Cookie::Device, true) => "__Host-cuffwright-deck",
            (Cookie::Device, false) => "cuffwright-deck",
            (Cookie::SeeAs, _) => "cuffwright-see-as",
        }
    }

    /// What the request carries under it. Twice the same name is nobody's doing of ours: none.
    pub fn read(self, headers: &HeaderMap, secure: bool) -> Option<String> {
        let name = self.name(secure);
        let all = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
        let mut found = all
            .flat_map(|line| line.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .filter(|(known, _)| *known == name)
            .map(|(_, value)| value.to_owned());
        let first = found.next();
        if found.next().is_some() { None } else { first }
    }

    /// The token that the request carries under it.
    pub fn token(self, headers: &HeaderMap, secure: bool) -> Option<Token> {
        self.read(headers, secure).and_then(|text| Token::read(&text))
    }

    /// Sends it along.
    pub fn set(self, response: &mut Response, value: &str, secure: bool) {
        let lasts = match self {
            Cookie::Device => Some(DEVICE),
            Cookie::Session | Cookie::SeeAs => None,
        };
        self.put(response, value, lasts, secure);
    }

    /// Takes it back.
    pub fn clear(self, response: &mut Response, secure: bool) {
        let gone = Lifetime { idle: door::stamp::Span(0), absolute: door::stamp::Span(0) };
        self.put(response, "", Some(gone), secure);
    }

    fn put(self, response: &mut Response, value: &str, lasts: Option<Lifetime>, secure: bool) {
        let age = lasts.map_or_else(String::new, |lasts| format!("; Max-Age={}", lasts.absolute.0 / 1000));
        let only = if secure { "; Secure" } else { "" };
        let line = format!("{}={value}; Path=/; HttpOnly; SameSite=Lax{only}{age}", self.name(secure));
        if let Ok(line) = HeaderValue::from_str(&line) {
            response.headers_mut().append(header::SET_COOKIE, line);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::body::Body;

    fn headers(lines: &[&str]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for line in lines {
            headers.append(header::COOKIE, line.parse().unwrap());
        }
        headers
    }

    #[test]
    fn one_cookie_is_read_and_two_of_a_name_are_none() {
        let read = |lines: &[&str], secure| Cookie::Session.read(&headers(lines), secure);
        assert_eq!(read(&["a=1; cuffwright=x; b=2"], false).as_deref(), Some("x"));
        assert_eq!(read(&["cuffwright=x"], true), None, "the plain one is no good on the encrypted way");
        assert_eq!(read(&["__Host-cuffwright=y"], true).as_deref(), Some("y"));
        assert_eq!(read(&["cuffwright=x; cuffwright=y"], false), None);
        assert_eq!(read(&["cuffwright=x", "cuffwright=y"], false), None);
        assert_eq!(read(&[], false), None);
    }

    #[test]
    fn a_cookie_is_for_us_alone_and_encrypted_where_the_way_is() {
        let line = |cookie: Cookie, secure| {
            let mut response = Response::new(Body::empty());
            cookie.set(&mut response, "v", secure);
            response.headers()[header::SET_COOKIE].to_str().unwrap().to_owned()
        };
        assert_eq!(
            line(Cookie::Session, true),
            "__Host-cuffwright=v; Path=/; HttpOnly; SameSite=Lax; Secure"
        );
        assert_eq!(line(Cookie::Session, false), "cuffwright=v; Path=/; HttpOnly; SameSite=Lax");
        assert!(line(Cookie::Device, true).ends_with("; Secure; Max-Age=25920000"), "300 days");
        let mut response = Response::new(Body::empty());
        Cookie::Session.clear(&mut response, true);
        let cleared = response.headers()[header::SET_COOKIE].to_str().unwrap();
        assert!(cleared.starts_with("__Host-cuffwright=;") && cleared.ends_with("Max-Age=0"), "{cleared}");
    }
}
