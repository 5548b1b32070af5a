//! Whom to ask, on the day's page: the reason, what to ask, and how many lie below the fold.

use app::asking::{Asking, FOLD, Whom, whom_to_ask};
use app::desk::Desk;
use maud::{Markup, html};

use super::record::in_place;
use super::record::take::Setting;
use super::shared::{href, name, reason, side_word};
use crate::web::parts::why::why;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// How many there are, for the head of the day.
pub fn count(asking: &Asking<'_>) -> Markup {
    let n = asking.whom.len();
    html! { @if 0 < n { li { a href="#ask" { b { (n) } " " (text("ask-title")) } } } }
}

/// The list.
pub fn section(desk: &Desk, visit: &Visit, asking: &Asking<'_>) -> Markup {
    let below = asking.below();
    html! {
        section.asking id="ask" aria-labelledby="ask-heading" {
            h2 id="ask-heading" { (text("ask-title")) }
            p.quiet { (text("ask-lede")) @if let Some(chance) = app::signals::words::by_chance(&asking.charts) { " " (chance) } }
            @if asking.whom.is_empty() { p { (text("ask-nobody")) } }
            ol.ask-list { @for (index, whom) in asking.whom.iter().take(FOLD).enumerate() { (one(desk, visit, whom, index)) } }
            @if 0 < below {
                details.past-part {
                    summary { (say("ask-below", &[("n", Value::Count(i64::try_from(below).unwrap_or(i64::MAX)))])) }
                    ol.ask-list { @for (index, whom) in asking.whom.iter().enumerate().skip(FOLD) { (one(desk, visit, whom, index)) } }
                }
            }
        }
    }
}

/// Whom to ask today.
pub fn today<'a>(desk: &'a Desk, visit: &Visit) -> Asking<'a> {
    whom_to_ask(desk, visit.today())
}

fn one(desk: &Desk, visit: &Visit, whom: &Whom<'_>, index: usize) -> Markup {
    let setting = Setting { desk, person: whom.person, visit };
    html! {
        li {
            p.ask-who { a href=(href(whom.person)) { (name(whom.person)) } }
            @for (place, ask) in whom.asks.iter().enumerate() {
                div.ask-one {
                    (why(&[reason(desk, &ask.line)]))
                    p.ask-what { b { (text("ask-word")) } " "
                        @if let Some(side) = ask.side { (side_word(Some(side))) ": " }
                        (text(&format!("ask-{}", ask.reason.word()))) }
                    details.due-here {
                        summary.button.button-plain aria-label=(say("ask-talked-of", &[("name", Value::Words(&name(whom.person)))])) { (text("ask-talked")) }
                        (in_place(&setting, "talk", &format!("ask{index}-{place}"), &["date", "by"], &[("about", ask.line.rule.0)], "/due"))
                    }
                }
            }
        }
    }
}
