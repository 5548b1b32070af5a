//! What a newcomer sees: nothing stands here yet, and what to do about it.

use app::desk::Desk;
use maud::html;

use crate::web::layout::{Frame, Here};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

/// The page of an empty store.
pub fn show(desk: &Desk, visit: &Visit, here: Here) -> Answer {
    let has_club = desk.club().about.is_some();
    let (title, lede) = (text("first-title"), text("first-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        ol.first id="first-steps" {
            @if !has_club {
                li {
                    h2 { (text("first-club")) }
                    p { (text("first-club-how")) }
                    p { a.button href="/club" { (text("first-club-do")) } }
                }
            }
            li {
                h2 { (text("first-roster")) }
                p { (text("first-roster-how")) }
                p { a class=(if has_club { "button" } else { "button button-plain" }) href="/import" { (text("first-roster-do")) } }
            }
            li {
                h2 { (text("first-screening")) }
                p { (text("first-screening-how")) }
            }
            li {
                h2 { (text("first-session")) }
                p { (text("first-session-how")) }
            }
        }
        p { (text("first-demo")) " " code { "cuffwright demo" } }
        p { a href="/rules" { (text("first-rules")) } }
    };
    visit.page(desk, frame, body)
}
