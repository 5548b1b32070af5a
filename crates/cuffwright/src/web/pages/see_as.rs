//! In the demo: takes as whom it shall be seen.

use app::desk::Desk;
use door::role::Role;

use crate::web::error::WebError;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::site::way::Cookie;

/// Takes the choice.
pub fn send(_: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let role = Role::from_word(sent.one("role")).ok_or_else(WebError::missing)?;
    let mut response = respond::see("/");
    match role {
        Role::Owner => Cookie::SeeAs.clear(&mut response, visit.way.secure),
        role => Cookie::SeeAs.set(&mut response, role.word(), visit.way.secure),
    }
    Ok(response)
}
