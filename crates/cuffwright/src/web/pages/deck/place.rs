//! Where sessions are held: what stands on the emergency card of every device.

use app::desk::Desk;
use app::facts::DeckPlaceFact;
use maud::html;

use super::BELOW;
use crate::web::layout::Frame;
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

fn asked() -> Vec<Ask> {
    vec![
        Ask::new("number", "deck-place-number", Control::Line).needed(),
        Ask::new("address", "deck-place-address", Control::Line).needed(),
        Ask::new("entrance", "deck-place-entrance", Control::Line),
        Ask::new("defibrillator", "deck-place-defibrillator", Control::Line),
    ]
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let place = desk.deck_place();
    let given = Sent::of(&[
        ("number", &place.number),
        ("address", &place.address),
        ("entrance", &place.entrance),
        ("defibrillator", &place.defibrillator),
    ]);
    let (title, lede) = (text("deck-place-title"), text("deck-place-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: BELOW, ..Frame::default() };
    let body = html! {
        form.record method="post" action="/deck/place" {
            (visit.seals())
            (asks("", &asked(), &given, &[]))
            (submit(&text("record-submit")))
        }
    };
    visit.page(desk, frame, body)
}

/// Stores it.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let place = DeckPlaceFact {
        number: sent.one("number").to_owned(),
        address: sent.one("address").to_owned(),
        entrance: sent.one("entrance").to_owned(),
        defibrillator: sent.one("defibrillator").to_owned(),
    };
    desk.record_deck_place(&visit.moment, &visit.author(), &place)?;
    Ok(respond::see("/deck?done=deck-place"))
}
