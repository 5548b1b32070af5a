//! A set drawn as a lane rope: one float for each 10 s of cap, filled as far as form held.
//!
//! - `geometry`: where floats, end mark and wall stand; plain numbers, tested apart from any markup.
//! - `draw`: the same as inline SVG. Colour comes from CSS roles and never carries meaning alone.
//!
//! A rope never stands without its words: whoever cannot see it, or prints it in grey, reads the same facts.

mod draw;
mod geometry;

use maud::{Markup, html};
use quantity::HoldTime;
use trade::history::{End, Set, Watched};
use trade::name::FaultCode;
use trade::side::Side;

use super::words::{Value, say, text};

pub use geometry::{Float, Geometry, Heading};

/// How a set ended, as a rope shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RopeEnd {
    /// Still live at the cap, and somebody looked.
    CapSeen,
    /// Counted as reaching the cap, but nobody looked: proves nothing.
    CapUnseen,
    /// A named fault.
    Form(String),
    /// The swimmer chose to stop.
    ChoseToStop,
    /// Pain.
    Pain,
    /// Band, anchor or ball.
    Kit,
    /// Called away.
    CalledAway,
}

impl RopeEnd {
    const fn word(&self) -> &'static str {
        match self {
            RopeEnd::CapSeen => "cap-seen",
            RopeEnd::CapUnseen => "cap-unseen",
            RopeEnd::Form(_) => "form",
            RopeEnd::ChoseToStop => "chose",
            RopeEnd::Pain => "pain",
            RopeEnd::Kit => "kit",
            RopeEnd::CalledAway => "called",
        }
    }

    fn in_words(&self) -> String {
        let id = format!("rope-end-{}", self.word());
        match self {
            RopeEnd::Form(fault) => say(&id, &[("fault", Value::Words(fault))]),
            _ => text(&id),
        }
    }
}

/// One set, ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Rope {
    /// Which set, counted from one.
    pub number: u8,
    /// How long form held.
    pub held: HoldTime,
    /// Cap in force.
    pub cap: HoldTime,
    /// How it ended.
    pub end: RopeEnd,
    /// A fault that was cued and still there when the cap came.
    pub fault_left: Option<String>,
}

impl Rope {
    /// Takes a set from the record; `fault` says a fault code in words.
    pub fn of(set: &Set, fault: impl Fn(&FaultCode) -> String) -> Self {
        let end = match (&set.end, set.watched) {
            (End::Cap, Watched::Seen) => RopeEnd::CapSeen,
            (End::Cap, Watched::Unseen) => RopeEnd::CapUnseen,
            (End::Form(code), _) => RopeEnd::Form(fault(code)),
            (End::ChoseToStop, _) => RopeEnd::ChoseToStop,
            (End::Pain, _) => RopeEnd::Pain,
            (End::Kit, _) => RopeEnd::Kit,
            (End::Left, _) => RopeEnd::CalledAway,
        };
        let fault_left = set.fault_left.as_ref().map(fault);
        Self { number: set.number, held: set.time, cap: set.cap, end, fault_left }
    }
}

/// The sets of one exercise on one side in one session, drawn under each other like lanes.
#[derive(Debug, Clone, PartialEq)]
pub struct Ropes<'a> {
    /// Whose shoulder and which exercise and day, for those who hear the page: see [`ropes_label`].
    pub label: &'a str,
    /// The sets, in order.
    pub sets: &'a [Rope],
    /// The longest cap on the page; every rope is drawn to this scale, so that a shorter cap shows as a shorter rope.
    pub scale: HoldTime,
    /// Which way the ropes run.
    pub heading: Heading,
}

/// Names a row of ropes.
pub fn ropes_label(shoulder: &str, exercise: &str, when: &str) -> String {
    let values = [
        ("shoulder", Value::Words(shoulder)),
        ("exercise", Value::Words(exercise)),
        ("when", Value::Words(when)),
    ];
    say("rope-sets", &values)
}

/// Draws one row of sets.
pub fn ropes(row: &Ropes<'_>) -> Markup {
    html! {
        ol class={ "ropes ropes-" (row.heading.word()) } aria-label=(row.label) {
            @for set in row.sets { li { (one(set, row.scale, row.heading)) } }
            @if row.sets.is_empty() { li.quiet { (text("rope-none")) } }
        }
    }
}

/// One band across the swimmer: the same thing for both shoulders, at one height.
#[derive(Debug, Clone)]
pub enum Band {
    /// Side by side on every screen: heads and ropes.
    Together(Markup, Markup),
    /// Side by side where there is room, under each other on a phone: proposals and forms.
    Apart(Markup, Markup),
    /// Side by side and small: earlier sessions.
    Earlier(Markup, Markup),
    /// One thing for both: a heading, or an exercise that both arms do together.
    Across(Markup),
}

/// Draws both shoulders as they hang on the swimmer: left on the left and running outwards from the middle.
///
/// `of` names whose they are. Bands come in reading order; within a band the left shoulder is read first.
pub fn both_shoulders(of: &str, bands: &[Band]) -> Markup {
    html! {
        section.span aria-label=(say("shoulders-of", &[("name", Value::Words(of))])) {
            @for band in bands {
                @match band {
                    Band::Together(left, right) => (pair("together", left, right)),
                    Band::Apart(left, right) => (pair("apart", left, right)),
                    Band::Earlier(left, right) => (pair("earlier", left, right)),
                    Band::Across(middle) => div.span-across { (middle) },
                }
            }
        }
    }
}

fn pair(kind: &str, left: &Markup, right: &Markup) -> Markup {
    html! {
        div class={ "span-band span-" (kind) } {
            @for (side, inside) in [(Side::Left, left), (Side::Right, right)] {
                div class={ "span-side span-" (side.word()) } { (inside) }
            }
        }
    }
}

fn one(rope: &Rope, scale: HoldTime, heading: Heading) -> Markup {
    let geometry = Geometry::of(rope.held, rope.cap, scale, heading);
    html! {
        div class={ "rope rope-" (rope.end.word()) } {
            (draw::svg(rope, &geometry))
            p.rope-words { (words(rope, scale)) }
        }
    }
}

/// The text twin: the same facts in words.
fn words(rope: &Rope, scale: HoldTime) -> Markup {
    html! {
        b.rope-time { (say("rope-held", &[("seconds", Value::Words(&seconds(rope.held)))])) }
        @if rope.cap < scale {
            " " span.rope-cap { (say("rope-short-cap", &[("cap", Value::Words(&seconds(rope.cap)))])) }
        }
        " " span.rope-end { (rope.end.in_words()) }
        @if let Some(fault) = &rope.fault_left {
            " " span.rope-fault { (say("rope-fault-left", &[("fault", Value::Words(fault))])) }
        }
    }
}

/// Seconds as a person writes them: whole where they are whole, else one decimal. Never rounded up, because
/// 119.96 s is not the 120 s that a step asks for.
pub fn seconds(time: HoldTime) -> String {
    let tenths = (time.seconds() * 10.0 + 1e-6).floor() / 10.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0}") } else { format!("{tenths:.1}") }
}

/// How to read a rope: every end with its mark and its word.
pub fn key() -> Markup {
    let cap = HoldTime::from_seconds(40.0);
    let held = HoldTime::from_seconds(25.0);
    let ends = [
        (RopeEnd::CapSeen, cap),
        (RopeEnd::CapUnseen, cap),
        (RopeEnd::Form("…".to_owned()), held),
        (RopeEnd::ChoseToStop, held),
        (RopeEnd::Pain, held),
        (RopeEnd::Kit, held),
        (RopeEnd::CalledAway, held),
    ];
    html! {
        details.rope-key {
            summary { (text("rope-key")) }
            p { (text("rope-key-floats")) }
            ul {
                @for (end, held) in ends {
                    @let rope = Rope { number: 1, held, cap, end, fault_left: None };
                    li class={ "rope rope-" (rope.end.word()) } {
                        (draw::silent(&rope, &Geometry::of(held, cap, cap, Heading::Rightward)))
                        span.rope-end { (rope.end.in_words()) }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests;
