//! What comes after a rung: one up, something harder that is not heavier, or nothing.

use super::case::Case;
use crate::name::RungId;
use crate::rule::dose_rules as codes;
use crate::trace::{Class, Line};

/// The next step of a ladder.
pub enum Next {
    /// One rung up.
    Up(RungId),
    /// Harder, not heavier.
    Switch(RungId),
    /// The ladder ends here for this swimmer, with the reason.
    Ceiling(Line),
}

/// The step after this rung, for this swimmer.
pub fn next_step(case: &Case<'_>, rung: &RungId) -> Next {
    let ladder = &case.exercise.ladder;
    let Some(next) = case.exercise.place_of(rung).and_then(|place| ladder.get(place + 1)) else {
        return Next::Ceiling(
            Line::new(codes::P14, "step-top-of-ladder", Class::Dose).with("rung", case.named(rung)),
        );
    };
    match case.rung_locked(next) {
        Some(line) => Next::Ceiling(line),
        None if next.not_heavier => Next::Switch(next.id.clone()),
        None => Next::Up(next.id.clone()),
    }
}
