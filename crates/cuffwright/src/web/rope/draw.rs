//! A rope as inline SVG. Shapes carry the end; roles give the colour.

use maud::{Markup, html};

use super::geometry::{CABLE, Geometry, HEIGHT, Heading, MARK, TALL};
use super::{Rope, RopeEnd};
use crate::web::words::{Value, say, text};

/// The drawing with its name and description.
pub(super) fn svg(rope: &Rope, geometry: &Geometry) -> Markup {
    let name = say("rope-set-name", &[("number", Value::Count(i64::from(rope.number)))]);
    html! {
        svg.rope-line viewBox=(view_box(geometry)) role="img" focusable="false" {
            title { (name) }
            desc { (description(rope, geometry)) }
            (shapes(rope, geometry))
        }
    }
}

/// The drawing alone, where the words beside it already say everything.
pub(super) fn silent(rope: &Rope, geometry: &Geometry) -> Markup {
    html! {
        svg.rope-line viewBox=(view_box(geometry)) aria-hidden="true" focusable="false" { (shapes(rope, geometry)) }
    }
}

fn view_box(geometry: &Geometry) -> String {
    format!("0 0 {} {}", unit(geometry.width), unit(HEIGHT))
}

/// What a person would see.
fn description(rope: &Rope, geometry: &Geometry) -> String {
    let floats = geometry.floats.len() as i64;
    let drawn = match rope.end {
        RopeEnd::CapUnseen => say("rope-drawn-unseen", &[("floats", Value::Count(floats))]),
        _ => {
            let held: f64 = geometry
                .floats
                .iter()
                .filter(|float| 0.0 < float.width)
                .map(|float| float.filled / float.width)
                .sum();
            let held = format!("{:.1}", (held * 10.0).floor() / 10.0);
            let held = held.trim_end_matches(".0");
            say("rope-drawn-held", &[("floats", Value::Count(floats)), ("held", Value::Words(held))])
        }
    };
    format!("{drawn} {}", text(&format!("rope-mark-{}", rope.end.word())))
}

fn shapes(rope: &Rope, geometry: &Geometry) -> Markup {
    let top = CABLE - TALL / 2.0;
    let unseen = rope.end == RopeEnd::CapUnseen;
    let hollow = if unseen { "rope-float rope-dashed" } else { "rope-float" };
    html! {
        path.rope-cable d=(format!("M{} {}H{}", unit(geometry.cable_from), unit(CABLE), unit(geometry.wall_at))) {}
        @for float in &geometry.floats {
            rect class=(hollow) x=(unit(float.x)) y=(unit(top)) width=(unit(float.width)) height=(unit(TALL)) rx="3" {}
            @if !unseen && 0.05 < float.filled {
                rect.rope-filled x=(unit(float.filled_x)) y=(unit(top)) width=(unit(float.filled)) height=(unit(TALL)) rx=(if float.filled < float.width { "1" } else { "3" }) {}
                @if 7.0 < float.filled { path.rope-rib d=(rib(float.filled_x, float.filled)) {} }
            }
        }
        (wall(rope, geometry))
        @if !matches!(rope.end, RopeEnd::CapSeen | RopeEnd::CapUnseen) { (end_mark(rope, geometry)) }
    }
}

/// The two grooves of a float.
fn rib(x: f64, width: f64) -> String {
    let (from, to) = (CABLE - TALL / 2.0 + 3.0, CABLE + TALL / 2.0 - 3.0);
    let groove = |share: f64| format!("M{} {}V{}", unit(x + width * share), unit(from), unit(to));
    format!("{}{}", groove(0.36), groove(0.64))
}

/// The wall at the end of the cap: solid and watched by an eye when the cap was seen.
fn wall(rope: &Rope, geometry: &Geometry) -> Markup {
    let class = match rope.end {
        RopeEnd::CapSeen => "rope-wall rope-reached",
        RopeEnd::CapUnseen => "rope-wall rope-dashed",
        _ => "rope-wall",
    };
    let x = geometry.wall_at;
    html! {
        path class=(class) d=(format!("M{} {}V{}", unit(x), unit(CABLE - TALL / 2.0 - 1.0), unit(CABLE + TALL / 2.0 + 1.0))) {}
        @if rope.end == RopeEnd::CapSeen {
            @let x = eye_at(geometry);
            path.rope-eye d=(format!("M{} {m}Q{} {} {} {m}Q{} {} {} {m}Z", unit(x - 8.0), unit(x), unit(MARK - 9.0), unit(x + 8.0), unit(x), unit(MARK + 9.0), unit(x - 8.0), m = unit(MARK))) {}
            circle.rope-pupil cx=(unit(x)) cy=(unit(MARK)) r="2.2" {}
        }
    }
}

/// The eye stands over the wall but inside the drawing.
fn eye_at(geometry: &Geometry) -> f64 {
    geometry.wall_at.clamp(9.0, geometry.width - 9.0)
}

/// The mark where a set ended before its cap, on a line that cuts the rope at the moment itself.
fn end_mark(rope: &Rope, geometry: &Geometry) -> Markup {
    let x = geometry.held_at.clamp(7.0, geometry.width - 7.0);
    let y = MARK;
    let outward = match geometry.heading {
        Heading::Rightward => 1.0,
        Heading::Leftward => -1.0,
    };
    let at = |points: &[(f64, f64)]| -> String {
        let spelled: Vec<String> =
            points.iter().map(|(dx, dy)| format!("{} {}", unit(x + dx * outward), unit(y + dy))).collect();
        format!("M{}", spelled.join("L"))
    };
    html! {
        path.rope-cut d=(format!("M{x} {}V{}", unit(y + 4.0), unit(CABLE + TALL / 2.0 + 2.0), x = unit(geometry.held_at))) {}
        @match rope.end {
            RopeEnd::Form(_) => { path.rope-mark.rope-open d=(at(&[(-6.0, -4.5), (0.0, 4.0), (6.0, -4.5)])) {} }
            RopeEnd::ChoseToStop => { path.rope-mark.rope-open d=(at(&[(-4.8, -4.8), (4.8, -4.8), (4.8, 4.8), (-4.8, 4.8)]) + "Z") {} }
            RopeEnd::Pain => {
                path.rope-mark.rope-solid d=(at(&[(-2.7, -6.5), (2.7, -6.5), (6.5, -2.7), (6.5, 2.7), (2.7, 6.5), (-2.7, 6.5), (-6.5, 2.7), (-6.5, -2.7)]) + "Z") {}
            }
            RopeEnd::Kit => {
                path.rope-mark.rope-open d=(format!("M{} {y}A5.5 5.5 0 1 1 {} {y}", unit(x + 2.8), unit(x - 2.8), y = unit(y - 4.7))) {}
            }
            RopeEnd::CalledAway => {
                path.rope-mark.rope-open d=(at(&[(-6.0, 0.0), (5.5, 0.0)]) + &at(&[(1.0, -4.5), (5.5, 0.0), (1.0, 4.5)])) {}
            }
            RopeEnd::CapSeen | RopeEnd::CapUnseen => {}
        }
    }
}

/// A coordinate, short: two decimals are finer than any screen.
fn unit(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
