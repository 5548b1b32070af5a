//! The drawing of an exercise for the console and for a page that stands alone: the start faint, the turn strong, and
//! the path of the hand.

use app::drawn::{drawn, somebody};
use maud::Markup;
use picture::Ink;
use picture::figure::{Shown, arc};
use trade::protocol::Exercise;
use trade::side::Side;

/// Poses from start to turn.
const POSES: u32 = 9;

/// The drawing; none where the protocol has no movement for it, or the movement cannot be drawn soundly.
pub fn figure(exercise: &Exercise, side: Option<Side>, ink: Ink) -> Option<Markup> {
    let script = exercise.figure(None)?;
    let drawn = drawn(exercise, script, &somebody(), side);
    let frames = drawn.way_out(POSES);
    if !drawn.is_sound(&frames) {
        return None;
    }
    let shown = Shown {
        stature: drawn.body.person.stature,
        frames: &frames,
        scene: &drawn.scene,
        beat: drawn.beat,
        name: &exercise.name,
        description: &exercise.movement,
        ink,
    };
    Some(arc(&shown, &[]))
}
