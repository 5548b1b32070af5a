//! The first page: the day for whoever answers for it, the swimmers for everybody else.

use app::desk::Desk;
use door::permit::{About, Thing, may};

use super::due;
use crate::web::respond;
use crate::web::site::visit::{Answer, Visit};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    match may(visit.who()?, Thing::Health, About::Everybody, visit.today()) {
        Ok(()) => due::show(desk, visit),
        Err(_) => Ok(respond::see("/people")),
    }
}
