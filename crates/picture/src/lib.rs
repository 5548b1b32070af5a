//! Plots and the moving figure as SVG, each with a name, a description and a twin in words or numbers.
//!
//! Knows no swimmer, no page and no sentence: whoever asks hands in the words. Colour comes from classes, so that one
//! style sheet serves day, night and paper; [`Ink::Own`] carries its own style where no sheet can follow.
//!
//! - [`figure`]: an exercise drawn from its kinematic frames: a strip, one picture with the path of the hand, a moving one.
//! - [`plot`]: lines, bands, points, steps, bars and rules on two axes; as SVG, as a table, as text for a terminal.

mod number;

pub mod figure;
pub mod plot;

/// Where the colours of a drawing come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// From the page's style sheet, by class: for pages, where the content policy forbids styles inside.
    Roles,
    /// From a style inside the drawing, black on white: for files and paper.
    Own,
}
