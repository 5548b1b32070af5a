//! What the day allows: sets, cap and steps up, narrowed by every reason that applies.
//!
//! Reasons only ever narrow. The order in which they are added cannot matter: sets and cap are minima, and a
//! step up needs every reason to be silent.

use quantity::HoldTime;

use crate::trace::Line;

/// The room that is left for a dose.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bounds {
    /// Most sets, if anything narrows them.
    pub sets: Option<u8>,
    /// Longest set, if anything narrows it.
    pub cap: Option<HoldTime>,
    /// Rungs below the swimmer's own for this session only.
    pub rungs_lower: usize,
    /// Why the dose is narrowed.
    pub narrowed_by: Vec<Line>,
    /// Why no step up may be given.
    pub no_up: Vec<Line>,
    /// Why the careful count applies.
    pub careful: Vec<Line>,
    /// Why a person must confirm each step by itself.
    pub alone: Vec<Line>,
    /// Why nothing loaded is given at all.
    pub nothing_loaded: Vec<Line>,
}

impl Bounds {
    /// At most so many sets.
    pub fn at_most_sets(&mut self, sets: u8) {
        self.sets = Some(self.sets.map_or(sets, |now| now.min(sets)));
    }

    /// No set longer than this.
    pub fn at_most(&mut self, cap: HoldTime) {
        self.cap = Some(self.cap.map_or(cap, |now| now.min(cap)));
    }

    /// Takes over every reason of another.
    pub fn narrow_by(&mut self, other: &Bounds) {
        if let Some(sets) = other.sets {
            self.at_most_sets(sets);
        }
        if let Some(cap) = other.cap {
            self.at_most(cap);
        }
        self.rungs_lower = self.rungs_lower.max(other.rungs_lower);
        self.narrowed_by.extend(other.narrowed_by.iter().cloned());
        self.no_up.extend(other.no_up.iter().cloned());
        self.careful.extend(other.careful.iter().cloned());
        self.alone.extend(other.alone.iter().cloned());
        self.nothing_loaded.extend(other.nothing_loaded.iter().cloned());
    }
}
