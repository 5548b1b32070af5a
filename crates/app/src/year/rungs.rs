//! Steps gained over a season: where each line stood at its first session and at its last.

use std::collections::{BTreeMap, BTreeSet};

use stats::lack::Lack;
use stats::level::Level;
use stats::rates::share::Share;
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use super::{Figure, Stretch};
use crate::desk::Desk;

/// Steps gained.
#[derive(Debug, Clone, PartialEq)]
pub struct Rungs {
    /// Lines with more than one session.
    pub lines: usize,
    /// Swimmers.
    pub people: usize,
    /// Lines that stood higher at the end, of all.
    pub higher: Share,
    /// Lines that stood lower.
    pub lower: usize,
    /// Steps, up less down, for each line on average.
    pub mean: f64,
    /// The step that half of the lines reached at least.
    pub median: i64,
}

/// Steps gained in a stretch.
pub fn rungs(desk: &Desk, stretch: Stretch) -> Figure<Rungs> {
    let (mut gains, mut people): (Vec<i64>, BTreeSet<store::SubjectId>) = Default::default();
    for person in desk.people() {
        let mut lines: BTreeMap<(&ExerciseId, WorkingSide), Vec<&RungId>> = BTreeMap::new();
        for session in person.read.history.sessions.iter().filter(|session| stretch.holds(session.date)) {
            for block in &session.blocks {
                lines.entry((&block.exercise, block.side)).or_default().push(&block.used);
            }
        }
        for ((exercise, _), used) in lines {
            let Some(exercise) = desk.protocol().exercise(exercise) else { continue };
            let places: Vec<i64> = used
                .iter()
                .filter_map(|rung| exercise.place_of(rung))
                .filter_map(|place| i64::try_from(place).ok())
                .collect();
            if let [first, .., last] = places.as_slice() {
                gains.push(last - first);
                people.insert(person.subject);
            }
        }
    }
    gains.sort_unstable();
    let lines = gains.len();
    let found = if lines == 0 {
        Err(Lack::Empty)
    } else {
        let higher = gains.iter().filter(|gain| 0 < **gain).count();
        Share::new(higher as u64, lines as u64, Level::USUAL).map(|higher| Rungs {
            lines,
            people: people.len(),
            higher,
            lower: gains.iter().filter(|gain| **gain < 0).count(),
            mean: gains.iter().sum::<i64>() as f64 / lines as f64,
            median: gains[(lines - 1) / 2],
        })
    };
    Figure::of(people.len(), found)
}
