//! Lines of sets whose course is written beforehand, so that each awkward case stands where it is told to stand.
//!
//! Everything else is left to chance. A scripted swimmer's other lines never fill the last set, so that no other
//! step competes with the one the case is about.

use jiff::civil::{Date, date};
use trade::side::WorkingSide;

use super::cast::{Case, Member};
use super::days::DAY;

/// How a scripted set goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum How {
    /// Form goes at about these seconds, a little later from session to session.
    Gaining([f64; 3]),
    /// Form goes at about these seconds, never later than before.
    Flat([f64; 3]),
    /// Every set reaches its cap, seen.
    Full,
    /// Every set reaches its cap; nobody looked at the last one.
    Unseen,
    /// Every set reaches its cap, save at this rung.
    FullBelow(&'static str),
    /// The rung is too heavy: form goes almost at once.
    Short,
    /// The set of this number ends for pain after these seconds.
    Pain(u8, f64),
}

/// One line of sets over some days.
struct Script {
    exercise: &'static str,
    side: Option<WorkingSide>,
    days: (Date, Date),
    how: How,
}

const fn on(exercise: &'static str, from: Date, to: Date, how: How) -> Script {
    Script { exercise, side: None, days: (from, to), how }
}

/// From a day up to the demo's day.
const fn from(exercise: &'static str, from: Date, how: How) -> Script {
    on(exercise, from, DAY, how)
}

const fn all_season(exercise: &'static str, how: How) -> Script {
    on(exercise, Date::MIN, DAY, how)
}

const fn right(exercise: &'static str, days: (Date, Date), how: How) -> Script {
    Script { exercise, side: Some(WorkingSide::Right), days, how }
}

const MONDAY: Date = date(2026, 11, 23);
const FRIDAY: Date = date(2026, 11, 20);
const WEDNESDAY: Date = date(2026, 11, 18);
const USUAL: [f64; 3] = [66.0, 55.0, 46.0];

/// The first script of a case that covers a set speaks.
static SCRIPTS: &[(Case, &[Script])] = &[
    (
        Case::ScaptionLimit,
        &[on("RC-3", Date::MIN, date(2026, 11, 22), How::FullBelow("w220")), from("RC-3", MONDAY, How::Full)],
    ),
    (
        Case::Plateau,
        &[
            on("SC-2", Date::MIN, date(2026, 10, 14), How::Gaining(USUAL)),
            from("SC-2", date(2026, 10, 15), How::Flat([71.0, 60.0, 51.0])),
        ],
    ),
    (
        Case::FallingTimes,
        &[
            from("RC-1", FRIDAY, How::Flat([50.0, 41.0, 34.0])),
            from("SC-1", WEDNESDAY, How::Flat([48.0, 42.0, 33.0])),
            all_season("RC-1", How::Gaining(USUAL)),
            all_season("SC-1", How::Gaining(USUAL)),
        ],
    ),
    (
        Case::RungTooBig,
        &[
            from("RC-1", FRIDAY, How::Short),
            on("RC-1", WEDNESDAY, WEDNESDAY, How::Full),
            all_season("RC-1", How::Gaining(USUAL)),
        ],
    ),
    (
        Case::UnseenCaps,
        &[
            from("RC-1", MONDAY, How::Unseen),
            from("SC-1", MONDAY, How::Unseen),
            all_season("RC-1", How::Gaining(USUAL)),
            all_season("SC-1", How::Gaining(USUAL)),
        ],
    ),
    (
        Case::HeldStep,
        &[
            from("SC-1", date(2026, 10, 30), How::Full),
            all_season("SC-1", How::Gaining(USUAL)),
            all_season("RC-1", How::Gaining(USUAL)),
        ],
    ),
    (
        Case::WeakArm,
        &[
            right("RC-1", (date(2026, 11, 16), DAY), How::Full),
            right("RC-1", (Date::MIN, DAY), How::Gaining([93.0, 85.0, 79.0])),
            all_season("RC-1", How::Gaining([88.0, 80.0, 76.0])),
        ],
    ),
    (
        Case::PainOnMonday,
        &[from("RC-3", MONDAY, How::Pain(2, 47.3)), all_season("RC-3", How::Gaining(USUAL))],
    ),
    (
        Case::SecondPainEvent,
        &[
            on("SC-2", date(2026, 11, 11), date(2026, 11, 11), How::Pain(2, 38.4)),
            right("RC-1", (FRIDAY, FRIDAY), How::Pain(1, 52.9)),
            all_season("SC-2", How::Gaining(USUAL)),
        ],
    ),
    (Case::Adult, STRONG),
    (Case::LatexAllergy, STRONG),
    (Case::WaterJump, STRONG),
    (Case::Beginner, &[from("SC-1", WEDNESDAY, How::Full), all_season("SC-1", How::Gaining(USUAL))]),
];

/// Two full sessions early on, so that the step earned on Monday is not the first.
const STRONG: &[Script] = &[
    on("RC-1", date(2026, 9, 28), date(2026, 9, 30), How::Full),
    on("SC-1", date(2026, 9, 28), date(2026, 9, 30), How::Full),
    from("RC-1", MONDAY, How::Full),
    from("SC-1", MONDAY, How::Full),
];

/// Whether and how a set is written beforehand.
pub(super) fn how(member: &Member, exercise: &str, side: WorkingSide, day: Date) -> Option<How> {
    SCRIPTS
        .iter()
        .filter(|(case, _)| *case == member.case)
        .flat_map(|(_, scripts)| scripts.iter())
        .find(|script| {
            script.exercise == exercise
                && script.side.is_none_or(|only| only == side)
                && script.days.0 <= day
                && day <= script.days.1
        })
        .map(|script| script.how)
}

/// The swimmer's other lines never fill the last set, no session is missed by chance, and nothing aches.
pub(super) fn is_steady(case: Case) -> bool {
    matches!(
        case,
        Case::ScaptionLimit
            | Case::Plateau
            | Case::FallingTimes
            | Case::RungTooBig
            | Case::UnseenCaps
            | Case::HeldStep
            | Case::WeakArm
            | Case::PainOnMonday
            | Case::SecondPainEvent
            | Case::Beginner
    )
}

/// Gains faster than most, so that the last week brings steps that may be accepted together.
pub(super) fn is_strong(case: Case) -> bool {
    matches!(case, Case::Adult | Case::LatexAllergy | Case::WaterJump)
}

/// Days on which a swimmer is away for a reason that the story tells.
pub(super) fn is_away(case: Case, day: Date) -> bool {
    let within = |from: Date, to: Date| from <= day && day <= to;
    match case {
        Case::Absence => within(date(2026, 11, 3), date(2026, 11, 24)),
        Case::HeldStep => within(date(2026, 11, 7), date(2026, 11, 19)) || day == MONDAY,
        Case::WaterJump => within(date(2026, 10, 5), date(2026, 10, 10)),
        _ => false,
    }
}
