//! The squad's flags: what was found, what it is for, and where it comes from. A list, not a ranking of children:
//! the heaviest kind of flag first, then by name.

use app::desk::Desk;
use app::screening::sheet::{Flag, Level, Watched, watch_list};
use maud::{Markup, html};

use super::HERE;
use crate::web::layout::Frame;
use crate::web::pages::shared::{href, name, reason, tells_apart};
use crate::web::parts::notice::empty;
use crate::web::parts::why::why;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The list.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let day = visit.day();
    let list = watch_list(desk, day);
    let (title, lede) = (text("watch-title"), text("watch-lede"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let (screened, squad) = list.screened;
    let count = |n: usize| Value::Count(i64::try_from(n).unwrap_or(i64::MAX));
    let below = list.all.len().saturating_sub(list.above);
    let body = html! {
        p { (say("watch-screened", &[("n", count(screened)), ("of", count(squad))])) " " (text("watch-no-score")) }
        dl.flag-key {
            @for level in Level::ALL { dt { (level_word(level)) } dd { (text(&format!("flag-{}-means", level.word()))) } }
        }
        @if list.all.is_empty() { (empty(&text("watch-nobody"), Some((&text("screening-title"), "/screening")))) }
        ol.watch { @for watched in list.all.iter().take(list.above) { (one(desk, watched)) } }
        @if 0 < below {
            details.past-part {
                summary { (say("watch-below", &[("n", count(below))])) }
                p.quiet { (text("watch-fold")) }
                ol.watch { @for watched in list.all.iter().skip(list.above) { (one(desk, watched)) } }
            }
        }
    };
    visit.page(desk, frame, body)
}

fn level_word(level: Level) -> String {
    text(&format!("flag-{}", level.word()))
}

fn one(desk: &Desk, watched: &Watched<'_>) -> Markup {
    html! {
        li {
            h2 { a href={ (href(watched.person)) "/screening" } { (name(watched.person)) } }
            p.quiet { (tells_apart(watched.person)) }
            (flags(desk, &watched.flags))
        }
    }
}

/// Flags of one swimmer, each with its ground.
pub fn flags(desk: &Desk, flags: &[Flag]) -> Markup {
    html! {
        ul.flags {
            @for flag in flags {
                li class={ "flag flag-" (flag.level.word()) } {
                    b.flag-word { (level_word(flag.level)) }
                    (why(&[reason(desk, &flag.line)]))
                }
            }
        }
    }
}
