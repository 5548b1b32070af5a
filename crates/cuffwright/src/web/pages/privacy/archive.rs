//! One person's whole record as a file. Asked for by a form: handing it out is an act, and is written down.

use app::desk::Desk;
use axum::body::Body;
use axum::http::{HeaderValue, header};
use axum::response::Response;

use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};

/// The file. Its name says nothing of whose it is, since names of files end up in lists.
pub fn send(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    let archive = desk.archive_of(&visit.moment, visit.who()?, visit.subject()?)?;
    let mut response = Response::new(Body::from(archive.to_zip()?));
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/zip"));
    let name = format!("attachment; filename=\"record-{}.zip\"", visit.today());
    if let Ok(name) = HeaderValue::from_str(&name) {
        headers.insert(header::CONTENT_DISPOSITION, name);
    }
    Ok(response)
}
