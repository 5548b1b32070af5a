//! The blank weekly check on paper.

use app::desk::Desk;
use maud::{Markup, html};
use trade::side::Side;

use super::HERE;
use super::check::QUESTIONS;
use crate::web::layout::Frame;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

/// The form.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let (title, lede) = (text("paper-weekly-title"), text("paper-weekly-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    visit.page(desk, frame, html! { p.paper-how { (text("paper-print")) } (sheet()) })
}

fn sheet() -> Markup {
    html! {
        section.paper-sheet {
            h2 { (text("paper-weekly-heading")) }
            div.paper-head { p.paper-line.paper-wide { (text("paper-name")) } p.paper-line { (text("paper-date")) } }
            p.paper-rule { (text("paper-weekly-rule")) }
            table.paper-table.paper-check {
                thead { tr { th scope="col" { (text("col-question")) } @for side in Side::BOTH { th scope="col" { (text(&format!("shoulder-{}", side.word()))) } } } }
                tbody {
                    @for (question, answers) in QUESTIONS {
                        tr {
                            th scope="row" { (text(question)) }
                            @for _ in Side::BOTH {
                                td { ul { @for answer in answers { li { span.paper-box {} " " (text(answer)) } } } }
                            }
                        }
                    }
                    tr {
                        th scope="row" { (text("paper-worst-pain")) }
                        @for _ in Side::BOTH { td { span.paper-box {} " " (text("paper-of-ten")) } }
                    }
                }
            }
            p.paper-line.paper-wide { (text("paper-water")) }
        }
    }
}
