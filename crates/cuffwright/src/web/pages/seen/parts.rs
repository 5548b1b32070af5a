//! What lists and single pages of a role both draw.

use app::wire::answer::{ProposalWord, Reason};
use maud::{Markup, html};
use trade::gate::Availability;
use trade::rule::{Ground, catalogue};

use crate::web::parts::shoulder::availability_as;
use crate::web::parts::why;
use crate::web::words::{Value, say, text};

/// Mark and word of `full`, `limited`, `not yet`, `out`.
pub fn shown(word: &str) -> Markup {
    let (mark, id) = match word {
        "full" => (Availability::Full, "shown-full"),
        "limited" => (Availability::Limited, "shown-limited"),
        "not yet" => (Availability::NotYet, "shown-not-yet"),
        _ => (Availability::OutToday, "shown-out"),
    };
    availability_as(mark, &text(id))
}

/// A day as a person reads it, from the date a view holds.
pub fn day(written: &str) -> String {
    written.parse().map_or_else(|_| written.to_owned(), app::text::day)
}

/// How often and when last.
pub fn attended(days: &[String]) -> String {
    let last = days.last().map(|last| day(last)).unwrap_or_default();
    say("seen-attended", &[("n", Value::Count(days.len() as i64)), ("last", Value::Words(&last))])
}

/// One line of the card: what to do, and why as far as it concerns the reader.
pub fn card_line(name: &str, line: &ProposalWord) -> Markup {
    html! {
        li.card-line {
            h3 { (name) @if line.side != "both" && line.side != "midline" { ", " (text(if line.side == "left" { "side-left" } else { "side-right" })) } }
            @match &line.dose {
                None => { p { (text(&format!("action-{}", line.action))) } }
                Some(dose) => {
                    p.card-dose {
                        @if let Some(rung) = &dose.rung { b { (rung.name) } " " }
                        (say("seen-dose", &[
                            ("sets", Value::Count(i64::from(dose.sets))),
                            ("cap", Value::Words(&format!("{}", dose.cap_s))),
                            ("rest", Value::Words(&format!("{}", dose.rest_s))),
                            ("tempo", Value::Words(&dose.tempo)),
                        ]))
                    }
                }
            }
            @if let Some(cue) = &line.cue { p { (cue) } }
            (reasons(&line.reasons))
        }
    }
}

/// Why, folded away: only lines that the reader's type holds.
pub fn reasons(reasons: &[Reason]) -> Markup {
    let told: Vec<why::Reason> = reasons
        .iter()
        .map(|reason| why::Reason {
            code: reason.code.clone(),
            sentence: reason.words.clone(),
            source: reason.source.to_owned(),
            ground: catalogue::all()
                .find(|rule| rule.code.0 == reason.code)
                .map_or(Ground::CommonPractice, |rule| rule.ground),
        })
        .collect();
    why::why(&told)
}
