//! Did one session qualify? The reason a set ended decides, not its seconds.

use jiff::civil::Date;
use quantity::{HoldTime, Pain};

use super::season;
use crate::gate::moments::is_ache;
use crate::history::{Block, Clock, Context, End, History, PainWhen, Session, Set, Watched};
use crate::name::{FaultCode, RungId};
use crate::protocol::{Exercise, Parameters};

/// How far a device's seconds may lie below the cap of a set that is said to have reached it.
const DEVICE_ROUNDING: HoldTime = HoldTime::from_seconds(0.5);

/// What one session says about one line of sets.
#[derive(Debug, Clone, PartialEq)]
pub enum Judgement {
    /// Every set was held to the protocol's cap, seen, clean and without pain.
    Qualified,
    /// It did not qualify, and says why.
    Short(Shortfall),
    /// Nothing can be concluded: neither good nor bad.
    Neutral(Blank),
}

/// Why a session did not qualify.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub enum Shortfall {
    /// A set ended by form loss.
    Form { set: u8, time: HoldTime, fault: FaultCode },
    /// The swimmer chose to stop.
    ChoseToStop { set: u8, time: HoldTime },
    /// A set ended for pain.
    PainEnded { set: u8, time: HoldTime },
    /// Pain was spoken around the session; an ache of both sides is no pain event.
    PainSpoken { is_ache: bool },
    /// A clock stopped short of the cap by more than its tolerance although the record says "cap".
    ClockShort { set: u8, time: HoldTime, clock: Clock, tolerance: HoldTime },
    /// A cued fault was still there at the cap.
    FaultLeft { set: u8, fault: FaultCode },
    /// Fewer sets were done than prescribed.
    MissingSets { done: u8, wanted: u8 },
    /// Another rung was used than prescribed.
    OtherRung { planned: RungId, used: RungId },
}

/// Why nothing can be concluded.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub enum Blank {
    /// A set ended for kit or because the swimmer was called away.
    Incomplete { set: u8 },
    /// A cap that nobody saw.
    Unseen { set: u8 },
    /// Pain was not asked, or not answered for both shoulders.
    PainNotRecorded,
    /// The plan itself asked for fewer sets or a shorter cap.
    PlannedShort,
    /// Done at home.
    Home,
    /// Done right before the water on an override.
    BeforeWater,
}

/// One session of one line, judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// Civil day.
    pub date: Date,
    /// Context: only like is compared with like.
    pub context: Context,
    /// What it says.
    pub judgement: Judgement,
    /// First set.
    pub first: Option<HoldTime>,
    /// The first set ended by form loss, by pain, or because the swimmer chose to.
    pub first_fell_short: bool,
    /// The first set says how long form holds: it ended by form loss or by choice, or a seen cap stopped it.
    pub first_speaks: bool,
    /// Counts towards moves on the ladder: not at home, nor right before the water.
    pub counts: bool,
    /// Total of all sets, where every set ran under the full cap and none was cut off from outside or by pain.
    pub comparable_total: Option<HoldTime>,
    /// The rung prescribed.
    pub planned: RungId,
    /// The rung really used.
    pub used: RungId,
    /// Under a cap no longer than a calibration set's.
    pub is_calibration: bool,
}

/// Judges the sets of one line in one session.
pub fn judge(
    parameters: &Parameters,
    exercise: &Exercise,
    history: &History,
    session: &Session,
    block: &Block,
) -> Judged {
    let cap = exercise.cap(parameters);
    let counts = session.excluded.is_none() && (session.context != Context::Home || parameters.home_counts);
    let counts_for_totals = counts
        && block
            .sets
            .iter()
            .all(|set| cap <= set.cap && !matches!(set.end, End::Kit | End::Left | End::Pain))
        && usize::from(parameters.sets) <= block.sets.len()
        && block.planned == block.used;
    let first = block.sets.first();
    Judged {
        date: session.date,
        context: session.context,
        judgement: judgement(parameters, cap, history, session, block),
        first: first.map(|set| set.time),
        first_fell_short: first
            .is_some_and(|set| matches!(set.end, End::Form(_) | End::ChoseToStop | End::Pain)),
        first_speaks: first.is_some_and(|set| match set.end {
            End::Form(_) | End::ChoseToStop => true,
            End::Cap => set.watched == Watched::Seen,
            End::Pain | End::Kit | End::Left => false,
        }),
        counts,
        comparable_total: counts_for_totals.then(|| block.total()),
        planned: block.planned.clone(),
        used: block.used.clone(),
        is_calibration: block.sets.len() == 1
            && block.sets.iter().all(|set| set.cap <= parameters.calibration_seconds[1] && set.cap < cap),
    }
}

fn judgement(
    parameters: &Parameters,
    cap: HoldTime,
    history: &History,
    session: &Session,
    block: &Block,
) -> Judgement {
    // Pain speaks first: no circumstance of the session makes it silent.
    if let Some(set) = block.sets.iter().find(|set| set.end == End::Pain) {
        return Judgement::Short(Shortfall::PainEnded { set: set.number, time: set.time });
    }
    let spoken = pain_around(history, session.date);
    if let Some(is_ache) = spoken.is_ache {
        return Judgement::Short(Shortfall::PainSpoken { is_ache });
    }
    if session.excluded.is_some() {
        return Judgement::Neutral(Blank::BeforeWater);
    }
    if session.context == Context::Home && !parameters.home_counts {
        return Judgement::Neutral(Blank::Home);
    }
    if let Some(set) = block.sets.iter().find(|set| matches!(set.end, End::Kit | End::Left)) {
        return Judgement::Neutral(Blank::Incomplete { set: set.number });
    }
    if block.planned != block.used {
        return Judgement::Short(Shortfall::OtherRung {
            planned: block.planned.clone(),
            used: block.used.clone(),
        });
    }
    let done = u8::try_from(block.sets.len()).unwrap_or(u8::MAX);
    // In a camp or a taper fewer sets are the plan, whatever the record says was prescribed.
    let by_calendar = season::most_sets(parameters, &history.calendar, session.date);
    let prescribed = by_calendar.map_or(block.prescribed_sets, |sets| sets.min(block.prescribed_sets));
    let fewer_planned = prescribed < parameters.sets && done < parameters.sets;
    if fewer_planned || block.sets.iter().any(|set| set.cap < cap) {
        return Judgement::Neutral(Blank::PlannedShort);
    }
    if let Some(shortfall) = block.sets.iter().find_map(|set| shortfall_of(parameters, cap, set)) {
        return Judgement::Short(shortfall);
    }
    if done < parameters.sets {
        return Judgement::Short(Shortfall::MissingSets { done, wanted: parameters.sets });
    }
    if let Some(set) = block.sets.iter().find(|set| set.watched == Watched::Unseen) {
        return Judgement::Neutral(Blank::Unseen { set: set.number });
    }
    if !spoken.is_complete {
        return Judgement::Neutral(Blank::PainNotRecorded);
    }
    Judgement::Qualified
}

fn shortfall_of(parameters: &Parameters, cap: HoldTime, set: &Set) -> Option<Shortfall> {
    match &set.end {
        End::Form(fault) => Some(Shortfall::Form { set: set.number, time: set.time, fault: fault.clone() }),
        End::ChoseToStop => Some(Shortfall::ChoseToStop { set: set.number, time: set.time }),
        End::Cap => {
            if let Some(fault) = &set.fault_left {
                return Some(Shortfall::FaultLeft { set: set.number, fault: fault.clone() });
            }
            // Half a second is rounding of a device; a hand-held clock has the protocol's tolerance.
            let tolerance = match set.clock {
                Clock::Device => DEVICE_ROUNDING,
                Clock::Hand => parameters.tolerance,
            };
            (set.time + tolerance < cap).then_some(Shortfall::ClockShort {
                set: set.number,
                time: set.time,
                clock: set.clock,
                tolerance,
            })
        }
        End::Pain | End::Kit | End::Left => None,
    }
}

struct Spoken {
    /// Pain was spoken; true where all of it was an ache of both sides.
    is_ache: Option<bool>,
    is_complete: bool,
}

/// The pain spoken at a session of one day, and whether both shoulders were answered at least once.
fn pain_around(history: &History, day: Date) -> Spoken {
    let start = history.pains.partition_point(|report| report.date < day);
    let reports = history.pains[start..].iter().take_while(|report| report.date == day).filter(|report| {
        matches!(report.when, PainWhen::Before | PainWhen::During(_) | PainWhen::After | PainWhen::Other)
    });
    let mut spoken = Spoken { is_ache: None, is_complete: false };
    for report in reports {
        if report.worst().is_some_and(|worst| Pain::NONE < worst) {
            spoken.is_ache = Some(spoken.is_ache.unwrap_or(true) && is_ache(report));
        }
        spoken.is_complete |= report.is_complete();
    }
    spoken
}
