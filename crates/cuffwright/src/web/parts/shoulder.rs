//! Availability by shape and word, and the two shoulders of one swimmer on one line.
//!
//! The shapes are floats in five states, so that they differ on a grey print: whole, half, dashed, barred, crossed.

use maud::{Markup, html};
use trade::gate::Availability;
use trade::side::Side;

use crate::web::words::{Value, say, text};

const EVERY: [Availability; 5] = [
    Availability::Full,
    Availability::Limited,
    Availability::NotYet,
    Availability::OutToday,
    Availability::OutReferred,
];

/// The word of an availability.
pub fn availability_word(availability: Availability) -> String {
    text(&format!("availability-{}", availability.word()))
}

/// Mark and word.
pub fn availability(availability: Availability) -> Markup {
    availability_as(availability, &availability_word(availability))
}

/// The mark with a word of one's own: for readers who are told less.
pub fn availability_as(availability: Availability, word: &str) -> Markup {
    html! {
        span class={ "avail avail-" (availability.word()) } {
            (avail_mark(availability))
            " " span.avail-word { (word) }
        }
    }
}

/// The mark alone; the word must stand beside it.
fn avail_mark(availability: Availability) -> Markup {
    html! {
        svg.avail-mark viewBox="0 0 22 26" width="22" height="26" aria-hidden="true" focusable="false" { (shape(availability)) }
    }
}

/// One float on a 22 by 26 field.
fn shape(availability: Availability) -> Markup {
    html! {
        @match availability {
            Availability::Full => {
                rect.avail-solid x="3" y="2" width="16" height="22" rx="4" {}
                path.avail-groove d="M8.5 6v14M13.5 6v14" {}
            }
            Availability::Limited => {
                rect.avail-rim x="3" y="2" width="16" height="22" rx="4" {}
                path.avail-solid d="M3 13h16v7a4 4 0 0 1-4 4H7a4 4 0 0 1-4-4Z" {}
            }
            Availability::NotYet => { rect.avail-rim.avail-dashed x="3" y="2" width="16" height="22" rx="4" {} }
            Availability::OutToday => {
                rect.avail-rim x="3" y="2" width="16" height="22" rx="4" {}
                path.avail-stroke d="M0 13h22" {}
            }
            Availability::OutReferred => {
                rect.avail-solid x="3" y="2" width="16" height="22" rx="4" {}
                path.avail-cross d="M7 8.5l8 9M15 8.5l-8 9" {}
            }
        }
    }
}

/// What the marks say.
pub fn availability_key() -> Markup {
    html! {
        details.avail-key {
            summary { (text("availability-key")) }
            dl {
                @for one in EVERY {
                    dt { (availability(one)) }
                    dd { (text(&format!("availability-{}-means", one.word()))) }
                }
            }
        }
    }
}

/// One shoulder on a line of the swimmers' list.
#[derive(Debug, Clone, PartialEq)]
pub struct ShoulderState {
    /// What it may do.
    pub availability: Availability,
    /// The weightiest reason in a few words; empty when there is none the reader may see.
    pub because: String,
    /// When to look again, in words.
    pub review: Option<String>,
}

/// One swimmer on the list.
#[derive(Debug, Clone, PartialEq)]
pub struct PairLine<'a> {
    /// The swimmer's name.
    pub name: &'a str,
    /// Address of the swimmer's page.
    pub href: &'a str,
    /// What tells two swimmers of one name apart: group and year of birth, in words.
    pub tells_apart: &'a str,
    /// Left shoulder.
    pub left: &'a ShoulderState,
    /// Right shoulder.
    pub right: &'a ShoulderState,
}

/// The swimmers' list: name, then both shoulders, left on the left, hung on one cable.
pub fn pair_list(label: &str, lines: &[PairLine<'_>]) -> Markup {
    html! {
        ul.pairs aria-label=(label) {
            @for line in lines {
                li.pair-line {
                    div.pair-who {
                        a href=(line.href) { (line.name) }
                        p.quiet { (line.tells_apart) }
                    }
                    div.pair {
                        (pair_side(Side::Left, line.left))
                        (pair_side(Side::Right, line.right))
                    }
                }
            }
        }
    }
}

fn pair_side(side: Side, state: &ShoulderState) -> Markup {
    html! {
        div class={ "pair-side pair-" (side.word()) } {
            p.pair-state {
                span.pair-name { (text(&format!("shoulder-{}-short", side.word()))) }
                " " (availability(state.availability))
            }
            @if !state.because.is_empty() || state.review.is_some() {
                p.pair-because {
                    (state.because)
                    @if let Some(review) = &state.review {
                        " " span.pair-review { (say("availability-review", &[("date", Value::Words(review))])) }
                    }
                }
            }
        }
    }
}

/// Head of one shoulder on the swimmer's own page.
pub fn shoulder_head(side: Side, state: &ShoulderState) -> Markup {
    html! {
        div class={ "shoulder-head shoulder-" (state.availability.word()) } {
            h2 { (text(&format!("shoulder-{}", side.word()))) }
            p.shoulder-state { (availability(state.availability)) }
            @if !state.because.is_empty() { p.pair-because { (state.because) } }
            @if let Some(review) = &state.review {
                p.pair-review { (say("availability-review", &[("date", Value::Words(review))])) }
            }
        }
    }
}

/// Advice about the water: a person's words, or who is to decide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Water<'a> {
    /// What a person wrote.
    Written(&'a str),
    /// Nobody has decided; this person is to be asked.
    Undecided(&'a str),
}

/// The water line: the one place where blue stands.
pub fn water(advice: Water<'_>) -> Markup {
    html! {
        p.water {
            svg.water-mark viewBox="0 0 36 12" width="36" height="12" aria-hidden="true" focusable="false" {
                path d="M1 8q4.25-6 8.5 0t8.5 0t8.5 0t8.5 0" {}
            }
            " " b { (text("water-label")) } " "
            @match advice {
                Water::Written(words) => span { (words) },
                Water::Undecided(ask) => span.water-open { (say("water-undecided", &[("name", Value::Words(ask))])) },
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_availability_differs_in_shape_and_in_word() {
        for (index, one) in EVERY.into_iter().enumerate() {
            assert!(!availability(one).into_string().contains('‹'), "{one:?}");
            for other in &EVERY[..index] {
                assert_ne!(shape(one).into_string(), shape(*other).into_string(), "{one:?} {other:?}");
                assert_ne!(availability_word(one), availability_word(*other));
            }
        }
    }

    #[test]
    fn the_left_shoulder_stands_first_and_a_name_is_escaped() {
        let state = |availability, because: &str| ShoulderState {
            availability,
            because: because.to_owned(),
            review: None,
        };
        let (left, right) = (state(Availability::Full, ""), state(Availability::OutToday, "pain 2"));
        let line = PairLine { name: "A <b>", href: "/people/1", tells_apart: "", left: &left, right: &right };
        let list = pair_list("Swimmers", &[line]).into_string();
        assert!(list.find("pair-left") < list.find("pair-right"));
        assert!(list.contains("A &lt;b&gt;"));
        assert!(list.contains("out today") && list.contains("full"));
    }

    #[test]
    fn water_nobody_decided_names_whom_to_ask() {
        assert!(water(Water::Undecided("Odalys")).into_string().contains("not decided, ask Odalys"));
    }
}
