//! The deck: preparing a session, the console that runs it, and what came of it.
//!
//! - [`prepare`]: what is planned, and whether the time is enough.
//! - [`shell`]: the pages that the console's scripts fill.
//! - [`wire`]: the bag that a device takes along, and the outbox that it hands over.
//! - [`record`]: what came of it, and what needs a person.
//! - [`mod@figure`]: the drawings of an exercise.
//! - [`place`]: what stands on the emergency card.
//! - [`home`] and [`track`]: pages for home and their codes; the beat as a sound file.

pub mod figure;
pub mod home;
pub mod place;
pub mod prepare;
pub mod record;
pub mod shell;
pub mod track;
pub mod wire;

use app::desk::Desk;
use app::facts::DeckSessionFact;

use crate::web::error::WebError;
use crate::web::layout::{Here, Place, Spot};
use crate::web::site::visit::Visit;

const HERE: Here = Here::At(Place::Deck, Spot::Deck);
const BELOW: Here = Here::Below(Place::Deck, Spot::Deck);

/// The session in the address.
fn session(desk: &Desk, visit: &Visit) -> Result<DeckSessionFact, WebError> {
    desk.deck_session(visit.param("session")).ok_or_else(WebError::missing)
}

/// Minutes and seconds.
fn clock(seconds: f64) -> String {
    let whole = seconds.round() as u64;
    format!("{}:{:02}", whole / 60, whole % 60)
}
