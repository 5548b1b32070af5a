//! The first page: the day for whoever answers for it, the swimmers for everybody else.

use app::desk::Desk;
use door::permit::{About, Thing, may};
use door::role::Role;

use super::due;
use super::shared::encoded;
use crate::web::respond;
use crate::web::routes::may_open;
use crate::web::site::visit::{Answer, Visit};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let who = visit.who()?;
    match may(who, Thing::Health, About::Everybody, visit.today()) {
        Ok(()) => due::show(desk, visit),
        Err(_) => {
            let place = match who.role {
                // Whoever runs the session begins on deck, where there is one.
                Role::Supervisor if may_open(who, "/deck") => "/deck",
                _ => "/people",
            };
            let done =
                visit.query.some("done").map_or_else(String::new, |word| format!("?done={}", encoded(word)));
            Ok(respond::see(&format!("{place}{done}")))
        }
    }
}
