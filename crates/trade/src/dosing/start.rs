//! Where a newcomer's calibration set begins. The set decides afterwards, not the table.

use crate::history::{Experience, Sex, Swimmer};
use crate::name::RungId;
use crate::protocol::{Exercise, Protocol, Start, StartGroup};
use crate::side::WorkingSide;

use jiff::civil::Date;

/// The row of the start table for one swimmer; none under nine, for whom no start is written.
///
/// Where sex is not stated the lower of the two rows is used. Beginners of fifteen and more begin like trained
/// swimmers of 12 to 14: a reading of this project, common practice.
pub fn group_of(swimmer: &Swimmer, on: Date) -> Option<StartGroup> {
    let age = swimmer.age_on(on);
    let beginner = swimmer.experience == Experience::Beginner;
    match age {
        ..=8 => None,
        9..=11 => Some(StartGroup::Child),
        12..=13 if beginner => Some(StartGroup::Beginner),
        14 if beginner => Some(StartGroup::Beginner),
        12..=14 => Some(StartGroup::Trained),
        15..=39 if beginner => Some(StartGroup::Trained),
        15..=18 => Some(if swimmer.sex == Sex::Male { StartGroup::Boy } else { StartGroup::Girl }),
        19..=39 => Some(if swimmer.sex == Sex::Male { StartGroup::Man } else { StartGroup::Woman }),
        _ => Some(StartGroup::Masters),
    }
}

/// The start row of one swimmer.
pub fn row_for<'a>(protocol: &'a Protocol, swimmer: &Swimmer, on: Date) -> Option<&'a Start> {
    let group = group_of(swimmer, on)?;
    protocol.starts.iter().find(|start| start.group == group)
}

/// The rung at which one exercise begins: the table's, else the easiest; the hypermobile track may begin lower.
pub fn rung_for(row: &Start, exercise: &Exercise, is_hypermobile: bool) -> Option<RungId> {
    let from_table = row.rungs.iter().find(|(id, _)| *id == exercise.id).map(|(_, rung)| rung.clone());
    let rung = from_table.or_else(|| exercise.ladder.first().map(|rung| rung.id.clone()))?;
    if !is_hypermobile {
        return Some(rung);
    }
    let track = exercise.hypermobile.start.clone();
    match (exercise.place_of(&rung), track.as_ref().and_then(|track| exercise.place_of(track))) {
        (Some(table), Some(place)) if place < table => track,
        _ => Some(rung),
    }
}

/// The lines of sets an exercise has.
pub fn sides_of(exercise: &Exercise) -> &'static [WorkingSide] {
    use crate::protocol::Arms;
    match exercise.arms {
        Arms::One => &[WorkingSide::Left, WorkingSide::Right],
        Arms::Both => &[WorkingSide::Both],
        Arms::Midline => &[WorkingSide::Midline],
    }
}
