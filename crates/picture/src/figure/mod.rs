//! An exercise drawn from its frames: a slender body with the working arm strong, what it rests on, band and weight.
//!
//! - `camera`: from the room to the page. `shape`: round things and the skin over them. `body`, `around`: what is drawn
//!   of the body, and of everything beside it.
//! - [`strip`], [`arc`], [`moving`]: the three drawings.
//!
//! The moving drawing runs by itself and has no switch: put it where a reader opens and closes it, and show the strip
//! to those who asked their system for less motion. No script and no style attribute is used.

mod around;
mod body;
mod camera;
mod draw;
mod shape;

use mechanics::figure::{Beat, Frame, Scene};
use quantity::Length;

use crate::Ink;

pub use draw::{STYLE, arc, moving, strip};

/// What is drawn, and the words that go with it.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'a> {
    /// Whose body.
    pub stature: Length,
    /// Frames of the way out in even time, start and turn included (for a circle: once round).
    pub frames: &'a [Frame],
    /// What is seen beside the body.
    pub scene: &'a Scene,
    /// Beat of a repetition; nothing for a hold.
    pub beat: Option<Beat>,
    /// Name of the drawing: exercise and side.
    pub name: &'a str,
    /// What a person would see, in a sentence or two.
    pub description: &'a str,
    /// Where colours come from.
    pub ink: Ink,
}

/// Something to watch for at a point of the hand's path.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Part of the way out, 0 at the start and 1 at the turn.
    pub part: f64,
    /// A short sign, such as "1" or "F06", that the words beside the drawing explain.
    pub sign: String,
}
