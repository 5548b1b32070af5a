//! The same as the pages of swimmers, as JSON: one shape a role, made of the role's own type.

use app::desk::Desk;
use axum::body::Body;
use axum::http::{HeaderValue, header};
use axum::response::Response;
use serde_json::{Value, json};

use crate::web::error::WebError;
use crate::web::site::visit::{Answer, Visit};

/// Everybody whom the asker may see.
pub fn all(desk: &Desk, visit: &Visit) -> Answer {
    let views = desk.views_for(visit.who()?, visit.today())?;
    json_of(&json!({ "shape": "cuffwright.views/1", "day": visit.today().to_string(), "views": views }))
}

/// One swimmer.
pub fn one(desk: &Desk, visit: &Visit) -> Answer {
    let view = desk.view_for(visit.who()?, visit.subject()?, visit.today())?;
    json_of(&json!({ "shape": "cuffwright.view/1", "day": visit.today().to_string(), "view": view }))
}

/// An answer in JSON.
pub fn json_of(value: &Value) -> Answer {
    let bytes = serde_json::to_vec(value).map_err(|_| WebError::defect("json"))?;
    let mut response = Response::new(Body::from(bytes));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("application/json"));
    Ok(response)
}
