//! A form as it arrived: names and values in order, files apart. Nothing is dropped, so a form can come back whole.

use std::time::Duration;

use axum::body::to_bytes;
use axum::extract::{FromRequest, Multipart, Request};
use axum::http::header;

use crate::web::error::{Kind, WebError};

/// Longest wait for a body.
const PATIENCE: Duration = Duration::from_secs(30);

/// A file that came with a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SentFile {
    /// Its name on the sender's disk.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// A form as it arrived.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sent {
    pairs: Vec<(String, String)>,
    /// The file, where the form has one and it was chosen.
    pub file: Option<SentFile>,
}

impl Sent {
    /// From a query or a body written like one.
    pub fn read(text: &[u8]) -> Self {
        let pairs = form_urlencoded::parse(text).map(|(name, value)| (name.into_owned(), value.into_owned()));
        Self { pairs: pairs.collect(), file: None }
    }

    /// From names and values.
    pub fn of(pairs: &[(&str, &str)]) -> Self {
        let pairs = pairs.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        Self { pairs, file: None }
    }

    /// The first value under a name, without blanks around it; empty when there is none.
    pub fn one(&self, name: &str) -> &str {
        self.pairs.iter().find(|(known, _)| known == name).map_or("", |(_, value)| value.trim())
    }

    /// The same, none when empty.
    pub fn some(&self, name: &str) -> Option<&str> {
        Some(self.one(name)).filter(|value| !value.is_empty())
    }

    /// Every value under a name.
    pub fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        self.pairs.iter().filter(move |(known, _)| known == name).map(|(_, value)| value.trim())
    }

    /// True when this value was sent under this name.
    pub fn has(&self, name: &str, value: &str) -> bool {
        self.all(name).any(|sent| sent == value)
    }

    /// Every pair.
    pub fn pairs(&self) -> &[(String, String)] {
        &self.pairs
    }

    /// The same with one more pair.
    pub fn with(mut self, name: &str, value: &str) -> Self {
        self.pairs.push((name.to_owned(), value.to_owned()));
        self
    }
}

/// Takes the body of a request, at most `limit` bytes of it and not for ever.
pub async fn take(request: Request, limit: usize) -> Result<Sent, WebError> {
    let declared = request.headers().get(header::CONTENT_LENGTH);
    let declared = declared.and_then(|value| value.to_str().ok()).and_then(|text| text.parse::<usize>().ok());
    if declared.is_some_and(|length| limit < length) {
        return Err(WebError::new(Kind::Large));
    }
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok());
    let is_parts = kind.is_some_and(|kind| kind.starts_with("multipart/form-data"));
    let reading = async { if is_parts { parts(request, limit).await } else { plain(request, limit).await } };
    tokio::time::timeout(PATIENCE, reading).await.unwrap_or_else(|_| Err(WebError::new(Kind::Slow)))
}

async fn plain(request: Request, limit: usize) -> Result<Sent, WebError> {
    let bytes = to_bytes(request.into_body(), limit).await.map_err(|_| WebError::new(Kind::Large))?;
    Ok(Sent::read(&bytes))
}

async fn parts(request: Request, limit: usize) -> Result<Sent, WebError> {
    // The limit on the whole body stands as a layer on the route; here each part is counted again.
    let broken = |_| WebError::new(Kind::Input);
    let mut parts = Multipart::from_request(request, &()).await.map_err(|_| WebError::new(Kind::Input))?;
    let mut sent = Sent::default();
    let mut taken = 0_usize;
    while let Some(part) = parts.next_field().await.map_err(broken)? {
        let name = part.name().unwrap_or_default().to_owned();
        let file_name = part.file_name().map(str::to_owned);
        let bytes = part.bytes().await.map_err(|error| {
            let is_large = error.status() == axum::http::StatusCode::PAYLOAD_TOO_LARGE;
            WebError::new(if is_large { Kind::Large } else { Kind::Input })
        })?;
        taken = taken.saturating_add(bytes.len());
        if limit < taken {
            return Err(WebError::new(Kind::Large));
        }
        match file_name {
            Some(file_name) if !file_name.is_empty() => {
                sent.file = Some(SentFile { name: file_name, bytes: bytes.to_vec() });
            }
            Some(_) => {}
            None => {
                let text = String::from_utf8(bytes.to_vec()).map_err(|_| WebError::new(Kind::Input))?;
                sent.pairs.push((name, text));
            }
        }
    }
    Ok(sent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_may_repeat_and_values_lose_blanks_around() {
        let sent = Sent::read(b"sign=a&sign=b&name=+Ana%20Orr+&empty=");
        assert_eq!(sent.all("sign").collect::<Vec<_>>(), ["a", "b"]);
        assert_eq!(sent.one("name"), "Ana Orr");
        assert_eq!(sent.some("empty"), None);
        assert!(sent.has("sign", "b") && !sent.has("sign", "c"));
    }

    #[tokio::test]
    async fn a_body_over_the_limit_is_not_taken() {
        let request = Request::new(axum::body::Body::from("a=".to_owned() + &"x".repeat(100)));
        assert_eq!(take(request, 50).await.unwrap_err().kind, Kind::Large);
        let request = Request::new(axum::body::Body::from("a=1"));
        assert_eq!(take(request, 50).await.unwrap().one("a"), "1");
    }
}
