//! The beat of a prepared session as a sound file.

use app::deck::track::{Part, flac, samples, session as tones, wav};
use app::desk::Desk;
use axum::http::{HeaderValue, header};
use axum::response::Response;
use trade::protocol::Arms;

use super::session;
use crate::web::error::{Kind, WebError};
use crate::web::site::visit::{Answer, Visit};

/// The file, by the kind in the address.
pub fn file(desk: &Desk, visit: &Visit) -> Answer {
    let session = session(desk, visit)?;
    let parts: Vec<Part> = session
        .exercises
        .iter()
        .filter_map(|planned| {
            let exercise = desk.protocol().exercise(&trade::name::ExerciseId::new(&planned.exercise))?;
            let is_one_arm = exercise.arms == Arms::One;
            Some(Part { tempo: exercise.tempo, is_one_arm, cap_s: planned.cap_s, sets: planned.sets })
        })
        .collect();
    let (cues, seconds) = tones(&parts, desk.protocol().parameters.rest.seconds());
    let made = samples(&cues, seconds);
    let failed = |_| WebError::new(Kind::Storage);
    let (bytes, kind, name) = match visit.param("kind") {
        "beat.wav" => (wav(&made).map_err(failed)?, "audio/wav", "attachment; filename=\"beat.wav\""),
        "beat.flac" => (flac(&made).map_err(failed)?, "audio/flac", "attachment; filename=\"beat.flac\""),
        _ => return Err(WebError::missing()),
    };
    let mut response = Response::new(axum::body::Body::from(bytes));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    response.headers_mut().insert(header::CONTENT_DISPOSITION, HeaderValue::from_static(name));
    Ok(response)
}
