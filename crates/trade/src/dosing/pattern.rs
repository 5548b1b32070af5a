//! Patterns over several sessions of one line: a step that was too big, a fall, a plateau, arms that drift apart.

use jiff::civil::Date;
use quantity::HoldTime;

use super::judge::Judged;
use super::standing::Standing;
use crate::history::Context;
use crate::protocol::Parameters;

/// The first set on a new rung was too short too often: the latest such time.
///
/// A rung is new until as many sessions as the rule asks for have had a first set long enough; after that a
/// short set is a fall, which asks a question instead. That reading is common practice. It holds whichever way the
/// swimmer came to the rung: two short first sets say that it is too heavy now.
pub fn step_too_big(parameters: &Parameters, standing: &Standing) -> Option<HoldTime> {
    let wanted = usize::from(parameters.step_too_big_sessions);
    let mut long = 0;
    let mut short = 0;
    let mut latest = None;
    let told = |judged: &&Judged| judged.counts && judged.planned == judged.used && !judged.is_calibration;
    for judged in standing.sessions.iter().filter(told) {
        let Some(first) = judged.first else { continue };
        if parameters.step_too_big <= first {
            long += 1;
            latest = None;
        } else if judged.first_fell_short {
            short += 1;
            latest = Some(first);
        }
        // A first set that was cut off from outside says nothing either way.
        if wanted <= long {
            return None;
        }
    }
    latest.filter(|_| wanted <= short)
}

/// A fall of total time at the same rung and in the same context.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fall {
    /// What the swimmer used to hold in all: the median of up to three sessions before the fall.
    pub before: HoldTime,
    /// The latest total.
    pub now: HoldTime,
    /// The fall as a share of what was held before.
    pub share: f64,
}

/// Every one of the last sessions lies more than the allowed share below what was held before them.
pub fn fall(parameters: &Parameters, standing: &Standing) -> Option<Fall> {
    let totals: Vec<HoldTime> = standing.comparable_totals().into_iter().map(|(_, total)| total).collect();
    let recent = usize::from(parameters.fall_sessions);
    if recent == 0 || totals.len() <= recent {
        return None;
    }
    let (earlier, latest) = totals.split_at(totals.len() - recent);
    let before = median(&earlier[earlier.len().saturating_sub(3)..])?;
    let share_lost = |total: &HoldTime| total.ratio_to(before).map(|left| 1.0 - left);
    let all_below =
        latest.iter().all(|total| share_lost(total).is_some_and(|lost| parameters.fall_share < lost));
    let now = *latest.last()?;
    all_below.then(|| Fall { before, now, share: share_lost(&now).unwrap_or(0.0) })
}

fn median(times: &[HoldTime]) -> Option<HoldTime> {
    let mut sorted = times.to_vec();
    sorted.sort_by(HoldTime::total_cmp);
    let middle = sorted.len() / 2;
    match sorted.len() {
        0 => None,
        odd if odd % 2 == 1 => Some(sorted[middle]),
        _ => Some(HoldTime::from_seconds((sorted[middle - 1] + sorted[middle]).seconds() / 2.0)),
    }
}

/// No gain for as many sessions as the rule asks for: the best total so far and since when it stands.
pub fn plateau(parameters: &Parameters, standing: &Standing) -> Option<(Date, HoldTime)> {
    let totals = standing.comparable_totals();
    let wanted = usize::from(parameters.plateau_sessions);
    let mut best: Option<(usize, Date, HoldTime)> = None;
    for (index, (date, total)) in totals.iter().enumerate() {
        if best.is_none_or(|(_, _, held)| held < *total) {
            best = Some((index, *date, *total));
        }
    }
    let (index, date, total) = best?;
    (0 < wanted && wanted <= totals.len() - index).then_some((date, total))
}

/// How far the two arms of a one-arm exercise lie apart, when they do in enough sessions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Apart {
    /// Longer mean set time in the latest session.
    pub longer: HoldTime,
    /// Shorter mean set time in the latest session.
    pub shorter: HoldTime,
    /// True when the left arm is the longer one.
    pub left_is_longer: bool,
}

/// The arms differed by more than the share *and* the seconds of the rule in each of the last sessions both did.
pub fn arms_apart(parameters: &Parameters, left: &Standing, right: &Standing) -> Option<Apart> {
    if left.rung != right.rung {
        return None;
    }
    let mut pairs: Vec<(HoldTime, HoldTime)> = Vec::new();
    for judged in &left.sessions {
        if let Some(other) = right.sessions.iter().find(|other| same_session(judged, other))
            && let (Some(left), Some(right)) = (judged.comparable_total, other.comparable_total)
        {
            let sets = f64::from(parameters.sets.max(1));
            pairs.push((
                HoldTime::from_seconds(left.seconds() / sets),
                HoldTime::from_seconds(right.seconds() / sets),
            ));
        }
    }
    let wanted = usize::from(parameters.side_diff_time_sessions);
    if wanted == 0 || pairs.len() < wanted {
        return None;
    }
    let latest = &pairs[pairs.len() - wanted..];
    let left_is_longer = latest[0].1 < latest[0].0;
    let all_apart = latest.iter().all(|(left, right)| {
        let (longer, shorter) = if left_is_longer { (*left, *right) } else { (*right, *left) };
        let gap = longer - shorter;
        parameters.side_diff_time <= gap
            && gap.ratio_to(longer).is_some_and(|share| parameters.side_diff_time_share <= share)
    });
    let (left, right) = *latest.last()?;
    all_apart.then(|| Apart { longer: left.max(right), shorter: left.min(right), left_is_longer })
}

fn same_session(one: &Judged, other: &Judged) -> bool {
    (one.date, one.context) == (other.date, other.context) && one.context != Context::Home
}
