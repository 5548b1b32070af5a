//! Wear of a piece: drift against its first calibration, age, inspection, and the rule that withdraws it.

use quantity::Share;

use super::fit::Fit;
use super::law::Stretch;
use crate::spread::{NORMAL_95, WithError, root_sum_square};

/// What has happened to a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
    /// Repetitions pulled since the first calibration, or nothing when nobody counted.
    pub repetitions: Option<u32>,
    /// Months since it was first used, or nothing when not recorded.
    pub months: Option<u32>,
    /// What the last inspection found, or nothing when there was none.
    pub inspection: Option<Inspection>,
    /// Change of force since the first calibration, or nothing without two calibrations.
    pub drift: Option<Drift>,
}

/// What a look at the piece found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Inspection {
    /// Days since it was done.
    pub days_ago: u32,
    /// A nick, a crack or a hole.
    pub nick: bool,
    /// Whitening or stickiness.
    pub whitened_or_sticky: bool,
}

/// Change of force at one stretch: now over first, less one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// The change; negative when the band got softer.
    pub change: WithError<Share>,
    /// Where the two laws were compared.
    pub at: Stretch,
}

/// Numbers of the rule, which the club may set. The usual ones are common practice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WearRule {
    /// Change of force, either way, from which a piece is withdrawn.
    pub largest_drift: Share,
    /// Months of squad use after which a piece is replaced whatever it looks like.
    pub longest_months: u32,
    /// Repetitions after which it is measured again.
    pub repetitions_to_recheck: u32,
    /// Days after which it is inspected again.
    pub days_between_inspections: u32,
}

impl WearRule {
    /// 15 %, six months, 500 repetitions, four weeks.
    pub const USUAL: Self = Self {
        largest_drift: Share::from_fraction(0.15),
        longest_months: 6,
        repetitions_to_recheck: 500,
        days_between_inspections: 28,
    };
}

/// One thing the rule found, with its numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// Damage that nobody argues with.
    Damaged(Inspection),
    /// Force has moved too far.
    Drifted {
        /// By how much.
        drift: Drift,
        /// What is allowed.
        limit: Share,
    },
    /// Too old.
    Old {
        /// Months in use.
        months: u32,
        /// What is allowed.
        limit: u32,
    },
    /// Pulled so often that it must be measured again.
    Pulled {
        /// Repetitions so far.
        repetitions: u32,
        /// When to measure again.
        limit: u32,
    },
    /// Not looked at for too long.
    InspectionOverdue {
        /// Days since the last.
        days_ago: u32,
        /// What is allowed.
        limit: u32,
    },
}

/// What is not recorded and keeps the rule from answering.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// No inspection on record.
    Inspection,
    /// Not known when it was first used.
    Months,
    /// Nobody counts its repetitions.
    Repetitions,
    /// Never calibrated twice.
    Drift,
}

/// What the rule says of a piece. The order is from mild to severe.
#[derive(Debug, Clone, PartialEq)]
pub enum WearVerdict {
    /// Nothing speaks against using it.
    InUse,
    /// Something is not recorded; nothing recorded speaks against it.
    CannotTell(Vec<Unknown>),
    /// Measure or look at it before the next session.
    Recheck(Vec<Finding>),
    /// Take it out of use.
    Withdrawn(Vec<Finding>),
}

/// Applies the rule to what is on record. Another finding never makes the verdict milder.
pub fn wear(service: &Service, rule: &WearRule) -> WearVerdict {
    let withdraw = reasons_to_withdraw(service, rule);
    if !withdraw.is_empty() {
        return WearVerdict::Withdrawn(withdraw);
    }
    let recheck = reasons_to_recheck(service, rule);
    if !recheck.is_empty() {
        return WearVerdict::Recheck(recheck);
    }
    let missing: Vec<Unknown> = [
        service.inspection.is_none().then_some(Unknown::Inspection),
        service.months.is_none().then_some(Unknown::Months),
        service.repetitions.is_none().then_some(Unknown::Repetitions),
        service.drift.is_none().then_some(Unknown::Drift),
    ]
    .into_iter()
    .flatten()
    .collect();
    if missing.is_empty() { WearVerdict::InUse } else { WearVerdict::CannotTell(missing) }
}

fn reasons_to_withdraw(service: &Service, rule: &WearRule) -> Vec<Finding> {
    let mut found = Vec::new();
    if let Some(inspection) = service.inspection
        && (inspection.nick || inspection.whitened_or_sticky)
    {
        found.push(Finding::Damaged(inspection));
    }
    if let Some(drift) = service.drift
        && rule.largest_drift.fraction() <= drift.change.value.fraction().abs()
    {
        found.push(Finding::Drifted { drift, limit: rule.largest_drift });
    }
    if let Some(months) = service.months
        && rule.longest_months <= months
    {
        found.push(Finding::Old { months, limit: rule.longest_months });
    }
    found
}

fn reasons_to_recheck(service: &Service, rule: &WearRule) -> Vec<Finding> {
    let mut found = Vec::new();
    if let Some(repetitions) = service.repetitions
        && rule.repetitions_to_recheck <= repetitions
    {
        found.push(Finding::Pulled { repetitions, limit: rule.repetitions_to_recheck });
    }
    if let Some(Inspection { days_ago, .. }) = service.inspection
        && rule.days_between_inspections < days_ago
    {
        found.push(Finding::InspectionOverdue { days_ago, limit: rule.days_between_inspections });
    }
    // A drift that its own error could carry past the limit is measured again rather than trusted.
    if let Some(drift) = service.drift {
        let furthest = drift.change.value.fraction().abs() + NORMAL_95 * drift.change.sd.fraction();
        if rule.largest_drift.fraction() <= furthest {
            found.push(Finding::Drifted { drift, limit: rule.largest_drift });
        }
    }
    found
}

/// Drift between two calibrations of one piece at a stretch; nothing where the first pulled with nothing.
pub fn drift(first: &Fit, now: &Fit, at: Stretch) -> Option<Drift> {
    let (before, after) = (first.predict(at), now.predict(at));
    let ratio = after.curve.value.ratio_to(before.curve.value)?;
    let parts = [before.curve.relative()?, after.curve.relative()?];
    Some(Drift {
        change: WithError {
            value: Share::from_fraction(ratio - 1.0),
            sd: Share::from_fraction(ratio * root_sum_square(parts)),
        },
        at,
    })
}
