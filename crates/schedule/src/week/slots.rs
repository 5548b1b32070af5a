//! Candidates: where and when a session could be, out of deck windows and the ends of practices.
//!
//! From each window a session of every length in use may start at the window's start, then back to back, or every so
//! many minutes where the window says so, and right after each practice that ends inside it. Right after a practice is
//! a candidate even outside the windows: nobody is put there, but a clash can say what a wider window would buy.

use jiff::ToSpan;
use jiff::civil::DateTime;

use super::{Slot, Week};
use crate::time::{Span, Stamp};

/// Most candidates of one week.
pub const MOST_SLOTS: usize = 2_000;

/// Adds candidates for every window; `every` is the step in minutes, or back to back.
pub fn from_windows(week: &mut Week, every: &[Option<i64>]) {
    let lengths = lengths(week);
    let windows = week.windows.clone();
    for (at, window) in windows.iter().enumerate() {
        for minutes in &lengths {
            let step = every.get(at).copied().flatten().unwrap_or(*minutes).max(5);
            let mut start = window.span.start.civil();
            while let Some(span) = stretch(week, start, *minutes).filter(|span| window.span.covers(*span)) {
                add(week, window.place, span);
                start = start.saturating_add(step.minutes());
            }
            let ends: Vec<Stamp> = week.water.iter().map(|water| water.span.end).collect();
            for end in ends {
                let span = stretch(week, end.civil(), *minutes).filter(|span| window.span.covers(*span));
                if let Some(span) = span {
                    add(week, window.place, span);
                }
            }
        }
    }
}

/// Adds the time right after each practice of the days to plan, at every place, in a window or not.
pub fn after_practices(week: &mut Week) {
    let ends: Vec<(Stamp, Vec<i64>)> = week
        .water
        .iter()
        .map(|water| {
            let mut lengths: Vec<i64> =
                water.groups.iter().map(|group| week.groups[*group].minutes).collect();
            lengths.sort_unstable();
            lengths.dedup();
            (water.span.end, lengths)
        })
        .collect();
    for (end, lengths) in ends {
        for minutes in lengths {
            for place in 0..week.places.len() {
                if let Some(span) = stretch(week, end.civil(), minutes) {
                    add(week, place, span);
                }
            }
        }
    }
}

/// Adds every known session as a candidate, so that it can be kept.
pub fn from_known(week: &mut Week) {
    for known in week.known.clone() {
        if week.slot_at(known.place, known.span).is_none() {
            let in_window = week.in_window(known.place, known.span);
            week.slots.push(Slot { place: known.place, span: known.span, in_window, exact: false });
        }
    }
}

/// Adds one candidate of the days to plan, once.
pub fn add(week: &mut Week, place: usize, span: Span) {
    let is_ours = week.first <= span.day() && span.day() <= week.last;
    if is_ours && week.slots.len() < MOST_SLOTS && week.slot_at(place, span).is_none() {
        let in_window = week.in_window(place, span);
        week.slots.push(Slot { place, span, in_window, exact: true });
    }
}

/// A stretch of so many minutes on the clock, within one day.
pub fn stretch(week: &Week, start: DateTime, minutes: i64) -> Option<Span> {
    let end = start.checked_add(minutes.minutes()).ok()?;
    if end.date() != start.date() {
        return None;
    }
    Span::new(&week.zone, start, end).ok()
}

fn lengths(week: &Week) -> Vec<i64> {
    let mut lengths: Vec<i64> = week.groups.iter().map(|group| group.minutes).collect();
    lengths.sort_unstable();
    lengths.dedup();
    lengths
}
