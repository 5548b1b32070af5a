//! Every exercise of the shipped protocol on one page, to be looked at: `cargo run -p picture --example exercises > page.html`.

#![allow(clippy::print_stdout, reason = "the page is the output")]

use app::drawn::{drawn, somebody};
use maud::{DOCTYPE, html};
use picture::Ink;
use picture::figure::{Shown, arc, moving, strip};
use trade::side::Side;

fn main() {
    // A protocol file may be given, so that a drawing can be tried without building anything.
    let given = std::env::args().nth(1).map(|path| {
        let text = std::fs::read_to_string(path).expect("the protocol file opens");
        trade::protocol::read(&text).expect("the protocol reads")
    });
    let protocol = given.as_ref().unwrap_or_else(|| trade::protocol::shipped());
    let body = somebody();
    let page = html! {
        (DOCTYPE)
        title { "Exercises" }
        style { "body{font:16px sans-serif;background:#fff}svg{height:15rem;border:1px solid #ddd}section{margin:1rem}" }
        @for exercise in &protocol.exercises {
            @for script in &exercise.figures {
                section {
                    @let side = if exercise.id.as_str() == "RC-2" { Side::Left } else { Side::Right };
                    @let drawing = drawn(exercise, script, &body, Some(side));
                    @let frames = drawing.way_out(9);
                    h2 { (exercise.id) " " (exercise.name) " "
                        @if !drawing.is_sound(&frames) { b { "UNSOUND " } }
                        small { @for rung in &script.rungs { (rung) " " }
                            @for frame in &frames { (format!("{:.1} ", drawing.motion.miss(&body, frame).metres() * 1e3)) }
                            @for frame in [&frames[0], &frames[frames.len()-1]] { @for wrong in mechanics::figure::outside_range(&frame.pose) { (format!("{wrong:?}")) } }
                        }
                    }
                    @let shown = Shown { stature: body.person.stature, frames: &frames, scene: &drawing.scene, beat: drawing.beat, name: &exercise.name, description: &exercise.movement, ink: Ink::Own };
                    (strip(&shown, 3, &["start", "middle", "turn"]))
                    (arc(&shown, &[]))
                    (moving(&shown))
                }
            }
        }
    };
    println!("{}", page.into_string());
}
