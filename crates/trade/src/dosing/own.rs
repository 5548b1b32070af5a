//! What narrows one line of sets beyond what the day narrows for everybody: an absence that this line has not come
//! back from, the first session after having been out, and the weeks after an injury.

use jiff::civil::Date;
use quantity::HoldTime;

use super::absence::{Return, Since, bounds_after};
use super::bounds::Bounds;
use super::gap::{Column, Gap};
use super::standing::Standing;
use crate::gate::Reentry;
use crate::history::{AbsenceReason, History, Move, days_between};
use crate::protocol::Parameters;
use crate::rule::dose_rules as codes;
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Sets of the first weeks back, and of the first session after having been out.
const FEWER_SETS: u8 = 2;
/// Days into a gap within which a decision may still be about the time before it.
const SOON_DAYS: u8 = 7;
/// Weeks of the way back: two at 2 x 45 s, the third at 2 x 60 s, steps up from the fourth on. That the second
/// stage lasts one week is a reading: the trade names weeks one and two, and no step up before week four.
const RETURN_CAPS: [(u16, f64); 2] = [(2, 45.0), (3, 60.0)];

/// Every gap of the swimmer with the table's answer, oldest first; the last one is open.
pub type Gaps = [(Gap, Return)];

/// The gaps this line has to come back from: the open one, and those that other exercises have ended but this line
/// has not.
pub fn waiting(gaps: &Gaps, standing: &Standing) -> Vec<(Gap, Return)> {
    // Who never stood on this ladder has nothing to come back to on it.
    let Some((open, past)) = gaps.split_last().filter(|_| standing.rung.is_some()) else {
        return Vec::new();
    };
    let trained_since = |gap: &Gap| standing.last_session.is_some_and(|day| gap.last < day);
    past.iter()
        .filter(|(gap, answer)| answer.is_restart() && !trained_since(gap))
        .chain([open])
        .filter(|(gap, answer)| !answer.is_nothing() || gap.column == Column::Injured)
        .copied()
        .collect()
}

/// One answer for all of them: the gap that asks for most speaks, and nothing that another asks for is lost. Rungs
/// that a person has already decided about are not taken again.
pub fn together(waiting: &[(Gap, Return)], standing: &Standing) -> Option<(Gap, Return)> {
    let (gap, mut answer) =
        *waiting.iter().max_by_key(|(gap, answer)| (answer.weight(), gap.column, gap.days))?;
    answer.down = 0;
    for (other, more) in waiting {
        let down = if is_answered(other, standing) { 0 } else { more.down };
        answer.down = answer.down.max(down);
        answer.reteach |= more.reteach;
        answer.as_new |= more.as_new;
    }
    Some((gap, answer))
}

/// A person has already decided where this line begins again after a gap. A step confirmed just before the swimmer
/// went away is no such decision.
fn is_answered(gap: &Gap, standing: &Standing) -> bool {
    standing.moved.is_some_and(|(day, because)| {
        gap.last < day
            && (matches!(because, Move::Restart | Move::Start)
                || i32::from(SOON_DAYS) < days_between(gap.last, day))
    })
}

/// A restart that this line has not stepped up from since.
pub fn is_restarted(gaps: &Gaps, standing: &Standing) -> bool {
    standing.arrived_by == Some(Move::Restart)
        || gaps
            .iter()
            .any(|(gap, answer)| answer.is_restart() && standing.rose.is_none_or(|rose| rose < gap.back))
}

/// The after-effects of gaps that have ended, and the first session after the one that is open.
pub fn after_gaps(gaps: &Gaps, on: Date) -> Bounds {
    let mut bounds = Bounds::default();
    for (gap, answer) in gaps {
        let since = if gap.back == on { Since::First } else { Since::Later };
        bounds.narrow_by(&bounds_after(gap, answer, on, since));
    }
    bounds
}

/// Narrows one line whose first session after a gap is still to come although other exercises have begun again.
pub fn first_after(waiting: &[(Gap, Return)], on: Date) -> Bounds {
    let mut bounds = Bounds::default();
    for (gap, answer) in waiting.iter().filter(|(gap, _)| gap.back != on) {
        bounds.narrow_by(&bounds_after(gap, answer, on, Since::First));
    }
    bounds
}

/// The first session after having been out: two sets, one rung lower, nothing steps up. "Out" ends by a person's
/// reopening, or by a letter that found no injury.
pub fn after_out(history: &History, standing: &Standing, shoulders: &[Side], on: Date) -> Bounds {
    let mut bounds = Bounds::default();
    let concerns =
        |side: Option<Side>| !shoulders.is_empty() && side.is_none_or(|side| shoulders.contains(&side));
    let reopened = history
        .reopenings
        .iter()
        .filter(|opened| opened.date <= on && concerns(opened.side))
        .map(|opened| opened.date);
    let last = standing.last_session;
    let was_out = |day: Date| {
        let since = |date: Date| last.is_none_or(|last| last <= date) && date <= day;
        let hurt = |report: &crate::history::PainReport| {
            since(report.date)
                && (!report.signs.is_empty() || report.worst().is_some_and(|worst| 0 < worst.get()))
        };
        history.pains.iter().any(hurt) || history.referrals.iter().any(|referral| since(referral.opened))
    };
    let lettered = history
        .clearances
        .iter()
        .filter(|letter| {
            letter.date <= on && letter.injury.is_none() && concerns(letter.side) && was_out(letter.date)
        })
        .map(|letter| letter.date);
    let Some(back) = reopened.chain(lettered).max() else { return bounds };
    if last.is_none_or(|last| last < back) {
        let line = Line::new(codes::B9, "back-from-out", Class::Dose).with("date", Arg::Date(back));
        bounds.at_most_sets(FEWER_SETS);
        bounds.rungs_lower = 1;
        bounds.no_up.push(line.clone());
        bounds.narrowed_by.push(line);
    }
    bounds
}

/// The way back after an injury concerns a line that loads the injured shoulder, and every line where the swimmer was
/// away injured. It ends for a line with its first step up.
pub fn is_on_the_way(history: &History, reentry: &Reentry, standing: &Standing, shoulders: &[Side]) -> bool {
    let away = || {
        history.absences.iter().any(|gone| gone.reason == AbsenceReason::Injury && gone.from <= reentry.since)
    };
    let loaded = reentry.side.is_none_or(|side| shoulders.contains(&side));
    !shoulders.is_empty() && (loaded || away()) && standing.rose.is_none_or(|rose| rose < reentry.since)
}

/// The week of the way back on one day, counted from the first loaded session since the letter.
pub fn week_back(history: &History, reentry: &Reentry, on: Date) -> u16 {
    let first = history
        .sessions
        .iter()
        .filter(|session| !session.blocks.is_empty() && reentry.since <= session.date)
        .map(|session| session.date)
        .find(|day| *day <= on);
    first.map_or(1, |first| u16::try_from(days_between(first, on) / 7 + 1).unwrap_or(u16::MAX))
}

/// Narrows one line on the way back after an injury.
pub fn after_injury(history: &History, reentry: &Reentry, on: Date) -> Bounds {
    let mut bounds = Bounds::default();
    let week = week_back(history, reentry, on);
    let line = Line::new(codes::B6, "return-week", Class::Dose).with("week", Arg::Count(i64::from(week)));
    bounds.careful.push(line.clone());
    bounds.alone.push(line.clone());
    if let Some((_, cap)) = RETURN_CAPS.iter().find(|(last, _)| week <= *last) {
        bounds.at_most_sets(FEWER_SETS);
        bounds.at_most(HoldTime::from_seconds(*cap));
        bounds.no_up.push(line.clone());
        bounds.narrowed_by.push(line);
    }
    bounds
}

/// The first weeks of the growth hold, when nothing steps up.
pub fn is_early_growth(parameters: &Parameters, growth: &crate::gate::GrowthHold) -> bool {
    growth.week <= u16::from(parameters.growth_no_up_weeks) || !growth.pain_free
}
