//! An exercise drawn, or its card of words; a plot with its table.
//!
//! The still pictures stand open. The moving one lies behind a button: it starts when it is opened and stops when it is
//! closed, and whoever asked their system for less motion is not offered it.

use app::drawn::{drawn, somebody};
use maud::{Markup, html};
use mechanics::body::Body;
use picture::Ink;
use picture::figure::{Shown, moving, strip};
use picture::plot::{Plot, Twin, svg};
use trade::name::RungId;
use trade::protocol::Exercise;
use trade::side::Side;

use crate::web::words::{Value, say, text};

/// Frames of a way out: enough for a smooth path of the hand.
const FRAMES: u32 = 9;

/// An exercise on one rung and side, on somebody's own body or on anybody's.
pub fn figure(exercise: &Exercise, rung: Option<&RungId>, side: Option<Side>, body: Option<&Body>) -> Markup {
    let Some(script) = exercise.figure(rung) else { return card(exercise) };
    let anybody = somebody();
    let body = body.unwrap_or(&anybody);
    let drawing = drawn(exercise, script, body, side);
    let frames = drawing.way_out(FRAMES);
    if !drawing.is_sound(&frames) {
        return card(exercise);
    }
    let side = text(match drawing.side {
        Some(Side::Left) => "figure-left",
        Some(Side::Right) => "figure-right",
        None => "figure-both",
    });
    let name =
        say("figure-name", &[("exercise", Value::Words(&exercise.name)), ("side", Value::Words(&side))]);
    let shown = Shown {
        stature: body.person.stature,
        frames: &frames,
        scene: &drawing.scene,
        beat: drawing.beat,
        name: &name,
        description: &exercise.movement,
        ink: Ink::Roles,
    };
    let still = drawing.beat.is_none();
    html! {
        figure.figure-shown {
            (strip(&shown, 3, &[]))
            figcaption { @if !still { (text("figure-poses")) " " } (side) }
            @if !still {
                details.figure-moves {
                    summary { (text("figure-move")) }
                    (moving(&shown))
                }
            }
        }
    }
}

/// What an exercise without a drawing gets.
fn card(exercise: &Exercise) -> Markup {
    html! {
        div.figure-card { p { b { (text("exercise-set-up")) } " " (exercise.set_up) } p { b { (text("exercise-movement")) } " " (exercise.movement) } }
    }
}

/// A plot with the table that says the same.
pub fn plotted(plot: &Plot<'_>, decimals: (usize, usize)) -> Markup {
    let twin = Twin::of(plot, decimals, 25);
    html! {
        figure.plot-shown {
            (svg(plot, Ink::Roles))
            details { summary { (text("plot-table")) } div.table-frame tabindex="0" { (twin.html()) } }
        }
    }
}
