//! The bag that a device takes along, and the outbox that it hands over: JSON, for the console alone.

use std::sync::Arc;

use app::deck::settle::Ack;
use app::desk::Desk;
use axum::Extension;
use axum::extract::Request;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use door::permit::Thing;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::figure::figure;
use super::session;
use crate::web::error::{Kind, WebError};
use crate::web::pages::deck::prepare;
use crate::web::respond;
use crate::web::site::run::{SESSION_LIMIT, apart};
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Most entries in one hand-over.
const MOST: usize = 500;

/// A hand-over, and an outbox that was saved as a file.
#[derive(Deserialize)]
struct Handed {
    entries: Vec<Box<RawValue>>,
}

#[derive(Serialize)]
struct Acknowledged {
    acks: Vec<Ack>,
    /// The server's clock, milliseconds, for the device's estimate of its own offset.
    server_ms: u64,
}

/// The bag of a session.
pub fn bag(desk: &Desk, visit: &Visit) -> Answer {
    let session = session(desk, visit)?;
    let stamp = (visit.moment.stamp.as_str(), visit.moment.unix_millis);
    let mut bag = desk.deck_bag(&session, "", stamp);
    bag.may_decide = visit.may(Thing::Decide);
    for run in &mut bag.exercises {
        let exercise = desk.protocol().exercise(&trade::name::ExerciseId::new(&run.id));
        let drawn = exercise.and_then(|exercise| figure(exercise, None, picture::Ink::Roles));
        run.figure = drawn.map(maud::Markup::into_string).unwrap_or_default();
    }
    Ok(json(StatusCode::OK, &bag))
}

/// Takes a hand-over.
///
/// It carries no form word: an outbox outlives the start of the server that a word belongs to. What keeps another
/// site's page out is the guard (its origin is named by the browser) and the content type, which no form can send.
pub async fn outbox(Extension(visit): Extension<Arc<Visit>>, request: Request) -> Response {
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
    let is_json = kind.is_some_and(|kind| kind.starts_with("application/json"));
    let body = axum::body::to_bytes(request.into_body(), SESSION_LIMIT).await;
    apart(move || {
        let taken = match body {
            Ok(bytes) if is_json => taken(&visit, &bytes),
            Ok(_) => Err(WebError::new(Kind::Input)),
            Err(_) => Err(WebError::new(Kind::Large)),
        };
        taken.unwrap_or_else(|error| error.answer(&visit.site.desk(), &visit))
    })
    .await
}

fn taken(visit: &Visit, bytes: &[u8]) -> Answer {
    let handed: Handed = serde_json::from_slice(bytes).map_err(|_| WebError::new(Kind::Input))?;
    let acks = take(&mut visit.site.desk(), visit, &handed)?;
    Ok(json(StatusCode::OK, &Acknowledged { acks, server_ms: visit.moment.unix_millis }))
}

fn take(desk: &mut Desk, visit: &Visit, handed: &Handed) -> Result<Vec<Ack>, WebError> {
    let texts: Vec<String> = handed.entries.iter().take(MOST).map(|entry| entry.get().to_owned()).collect();
    let acks = desk.receive(&visit.moment, &visit.author(), &texts)?;
    desk.changed(&visit.moment, visit.who()?, Thing::RecordSession, &[])?;
    Ok(acks)
}

/// Takes an outbox that a device saved as a file.
pub fn hand_in(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let handed: Option<Handed> = sent.file.as_ref().and_then(|file| serde_json::from_slice(&file.bytes).ok());
    let Some(handed) = handed else {
        return prepare::told(desk, visit, &text("deck-hand-in-wrong"), false);
    };
    let mut acks = Vec::new();
    for some in handed.entries.chunks(MOST) {
        let some = Handed { entries: some.to_vec() };
        acks.extend(take(desk, visit, &some)?);
    }
    let count = |words: &[&str]| {
        Value::Count(
            i64::try_from(acks.iter().filter(|ack| words.contains(&ack.outcome)).count()).unwrap_or(0),
        )
    };
    let says = say(
        "deck-hand-in-done",
        &[
            ("n", Value::Count(i64::try_from(acks.len()).unwrap_or(0))),
            ("added", count(&["added"])),
            ("already", count(&["already", "erased"])),
            ("refused", count(&["refused", "invalid"])),
        ],
    );
    prepare::told(desk, visit, &says, true)
}

fn json(status: StatusCode, value: &impl Serialize) -> Response {
    let body = serde_json::to_string(value).expect("a wire shape can always be written as JSON");
    let mut response = respond::page_with(status, maud::PreEscaped(body));
    response
        .headers_mut()
        .insert(header::CONTENT_TYPE, HeaderValue::from_static("application/json; charset=utf-8"));
    response
}
