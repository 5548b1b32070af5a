//! Rungs in even steps for one swimmer, none smaller than its error.
//!
//! A rung is whatever the caller names it by, with what it loads. Only the error of the kit counts here: lengths of
//! the body and the way it is held are the same on every rung and cancel in the step from one to the next.

mod even;

use quantity::{Force, Share, Torque};

use crate::spread::{NORMAL_95, WithError, root_sum_square};

/// What the rungs of one ladder may be compared by: one kind a ladder, so a torque never meets a hand force.
pub trait Load: Copy {
    /// The load in its canonical unit.
    fn amount(self) -> f64;
}

impl Load for Torque {
    fn amount(self) -> f64 {
        self.newton_metres()
    }
}

impl Load for Force {
    fn amount(self) -> f64 {
        self.newtons()
    }
}

impl Load for Share {
    fn amount(self) -> f64 {
        self.fraction()
    }
}

/// One usable band, weight or position, and what it asks of this swimmer.
#[derive(Debug, Clone, PartialEq)]
pub struct Rung<K, Q> {
    /// What the caller calls it.
    pub key: K,
    /// Peak torque, or for push-ups the force or share at the hands, with the error of the kit alone.
    pub load: WithError<Q>,
}

/// How large a step should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepTarget {
    /// The smallest step worth taking, as a part of the load before it.
    pub low: Share,
    /// The largest step that is not named as too large.
    pub high: Share,
}

impl StepTarget {
    /// 20 to 30 %: common practice.
    pub const USUAL: Self = Self { low: Share::from_fraction(0.20), high: Share::from_fraction(0.30) };
}

/// A rung of the ladder, with the rungs that cannot be told apart from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing<K, Q> {
    /// The rung.
    pub rung: Rung<K, Q>,
    /// Others whose load lies within the combined error: the same rung by another name.
    pub same: Vec<Rung<K, Q>>,
}

/// From one rung to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Growth of the load as a part of the lower rung, with its error.
    pub size: WithError<Share>,
    /// What is to be said of it.
    pub fit: StepFit,
}

/// How a step compares with the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepFit {
    /// Larger than its error, smaller than the target: fine, but slow.
    Small,
    /// Within the target.
    Within,
    /// Larger than the target: name it, the kit has a gap here.
    TooLarge,
}

/// An ordered ladder.
#[derive(Debug, Clone, PartialEq)]
pub struct Ladder<K, Q> {
    /// From light to heavy.
    pub rungs: Vec<Standing<K, Q>>,
    /// One fewer than there are rungs.
    pub steps: Vec<Step>,
    /// Distinct rungs left out because they would make the steps uneven; each can serve as an intermediate.
    pub spare: Vec<Standing<K, Q>>,
}

/// Why no ladder can be made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LadderRefusal<Q> {
    /// No rungs at all.
    Empty,
    /// A load that is not positive, or an error that is negative; rungs are counted from 0.
    Load {
        /// Which rung.
        rung: usize,
        /// What was given.
        load: WithError<Q>,
    },
    /// A target that is not positive or upside down.
    Target(StepTarget),
}

/// Makes the most even ladder that the rungs allow, from the lightest to the heaviest.
///
/// Rungs within their combined error (95 %) of the last kept one are the same rung. Among the distinct rungs those are
/// chosen whose steps lie closest to the middle of the target, squared on a log scale; every step exceeds its error.
pub fn ladder<K: Clone, Q: Load>(
    rungs: &[Rung<K, Q>],
    target: &StepTarget,
) -> Result<Ladder<K, Q>, Vec<LadderRefusal<Q>>> {
    let refusals = refusals(rungs, target);
    if !refusals.is_empty() {
        return Err(refusals);
    }
    let distinct = distinct(rungs);
    let loads: Vec<f64> = distinct.iter().map(|standing| standing.rung.load.value.amount()).collect();
    let aim = 0.5 * (target.low.fraction().ln_1p() + target.high.fraction().ln_1p());
    let apart = |from: usize, to: usize| differ(&distinct[from].rung.load, &distinct[to].rung.load);
    let chosen = even::most_even(&loads, apart, aim);
    let (mut kept, mut spare) = (Vec::new(), Vec::new());
    for (index, standing) in distinct.into_iter().enumerate() {
        if chosen.contains(&index) { kept.push(standing) } else { spare.push(standing) }
    }
    let steps = kept.windows(2).map(|pair| step(&pair[0].rung.load, &pair[1].rung.load, target)).collect();
    Ok(Ladder { rungs: kept, steps, spare })
}

/// Whether two loads differ by more than their combined error, 95 times in 100.
pub fn differ<Q: Load>(one: &WithError<Q>, other: &WithError<Q>) -> bool {
    let apart = (one.value.amount() - other.value.amount()).abs();
    NORMAL_95 * root_sum_square([one.sd, other.sd].map(Load::amount)) < apart
}

fn refusals<K, Q: Load>(rungs: &[Rung<K, Q>], target: &StepTarget) -> Vec<LadderRefusal<Q>> {
    let mut found = Vec::new();
    if rungs.is_empty() {
        found.push(LadderRefusal::Empty);
    }
    for (index, rung) in rungs.iter().enumerate() {
        if rung.load.value.amount() <= 0.0 || rung.load.sd.amount() < 0.0 {
            found.push(LadderRefusal::Load { rung: index, load: rung.load });
        }
    }
    if !(0.0 < target.low.fraction() && target.low <= target.high) {
        found.push(LadderRefusal::Target(*target));
    }
    found
}

fn distinct<K: Clone, Q: Load>(rungs: &[Rung<K, Q>]) -> Vec<Standing<K, Q>> {
    let mut order: Vec<&Rung<K, Q>> = rungs.iter().collect();
    order.sort_by(|one, other| one.load.value.amount().total_cmp(&other.load.value.amount()));
    let mut distinct: Vec<Standing<K, Q>> = Vec::new();
    for rung in order {
        match distinct.last_mut() {
            Some(last) if !differ(&last.rung.load, &rung.load) => last.same.push(rung.clone()),
            _ => distinct.push(Standing { rung: rung.clone(), same: Vec::new() }),
        }
    }
    distinct
}

fn step<Q: Load>(lower: &WithError<Q>, upper: &WithError<Q>, target: &StepTarget) -> Step {
    let [low, high] = [lower, upper].map(|load| load.value.amount());
    let ratio = high / low;
    let sd = root_sum_square([upper.sd.amount() / low, ratio * lower.sd.amount() / low]);
    let size = Share::from_fraction(ratio - 1.0);
    let fit = if size < target.low {
        StepFit::Small
    } else if size <= target.high {
        StepFit::Within
    } else {
        StepFit::TooLarge
    };
    Step { size: WithError { value: size, sd: Share::from_fraction(sd) }, fit }
}
