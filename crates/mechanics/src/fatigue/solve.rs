//! Steps through a plan of constant loads, from event to event; no time is cut into small steps.

use quantity::{HoldTime, Share, Time};

use super::curve::{StartsAt, TwoRates};
use super::muscle::Muscle;

/// How the whole muscle is divided; what is neither active nor fatigued rests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    pub(super) active: f64,
    pub(super) fatigued: f64,
}

/// A stretch of a plan with one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Load as a share of strength; none at all is rest.
    pub load: Share,
    /// How long it lasts.
    pub lasts: Time,
}

/// The state at one moment of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Since the start of the plan.
    pub at: Time,
    /// The state then.
    pub state: State,
}

/// A plan worked through: good for comparing plans within a session, and for nothing beyond it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trajectory {
    /// The start and the end of every segment.
    pub marks: Vec<Mark>,
    /// First moment at which the muscle could no longer give the load asked for, if there was one.
    pub failed_at: Option<Time>,
}

/// Why a load plan cannot be worked through. Segments are counted from 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LoadRefusal {
    /// A load below nothing or above the whole strength.
    Load {
        /// Which segment.
        segment: usize,
        /// What was asked.
        load: Share,
    },
    /// A segment that lasts less than nothing.
    Lasts {
        /// Which segment.
        segment: usize,
        /// What was asked.
        lasts: Time,
    },
    /// A plan that goes on for more than an hour, where the model says nothing.
    TooLong(Time),
}

/// The longest plan the model is asked about.
const LONGEST_S: f64 = 3600.0;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Region {
    Driving,
    Limited,
    Releasing,
}

impl State {
    /// Nothing active, nothing fatigued.
    pub const RESTED: Self = Self { active: 0.0, fatigued: 0.0 };

    /// A state given by its parts; nothing when they are negative or together more than the whole.
    pub fn new(active: Share, fatigued: Share) -> Option<Self> {
        let (active, fatigued) = (active.fraction(), fatigued.fraction());
        (0.0 <= active && 0.0 <= fatigued && active + fatigued <= 1.0).then_some(Self { active, fatigued })
    }

    /// The part that works.
    pub fn active(&self) -> Share {
        Share::from_fraction(self.active)
    }

    /// The part that is tired.
    pub fn fatigued(&self) -> Share {
        Share::from_fraction(self.fatigued)
    }

    /// The part that waits.
    pub fn resting(&self) -> Share {
        Share::from_fraction(1.0 - self.active - self.fatigued)
    }

    /// What the muscle could give now, as a share of its rested strength.
    pub fn capacity(&self) -> Share {
        Share::from_fraction(1.0 - self.fatigued)
    }
}

impl Muscle {
    /// Works through a plan from a state, and says when the muscle first fell short.
    ///
    /// After falling short the load is still asked for and the muscle gives what it can, as a person would.
    pub fn work(&self, start: State, plan: &[Segment]) -> Result<Trajectory, LoadRefusal> {
        check(plan)?;
        let mut marks = Vec::with_capacity(plan.len() + 1);
        let (mut state, mut now, mut failed_at) = (start, 0.0, None);
        marks.push(Mark { at: Time::ZERO, state });
        for segment in plan {
            let (end, failed) = self.advance(state, segment.load.fraction(), segment.lasts.seconds());
            failed_at = failed_at.or_else(|| failed.map(|after| Time::from_seconds(now + after)));
            state = end;
            now += segment.lasts.seconds();
            marks.push(Mark { at: Time::from_seconds(now), state });
        }
        Ok(Trajectory { marks, failed_at })
    }

    /// How long a load can be held from a state; nothing when it could be held for the whole hour the model is asked
    /// about, or when the load is no share of a whole.
    pub fn endurance(&self, start: State, load: Share) -> Option<HoldTime> {
        let plan = [Segment { load, lasts: Time::from_seconds(LONGEST_S) }];
        let failed_at = self.work(start, &plan).ok()?.failed_at?;
        Some(HoldTime::from_seconds(failed_at.seconds()))
    }

    /// The state after one constant load, and how long into it the muscle first fell short.
    pub(super) fn advance(&self, start: State, target: f64, lasts: f64) -> (State, Option<f64>) {
        let recovery = if target == 0.0 { self.recovery * self.at_rest } else { self.recovery };
        let (mut state, mut done, mut failed) = (start, 0.0, None);
        let mut region = self.region(state, target, recovery);
        // A region is left at most a few times in one segment; the bound only guards against rounding at a boundary.
        for _ in 0..64 {
            if region == Region::Limited && failed.is_none() {
                failed = Some(done);
            }
            let start = (state.active, state.fatigued);
            let curves = match region {
                Region::Driving => TwoRates::controlled(self, self.drive, recovery, target, start),
                Region::Limited => TwoRates::limited(self, recovery, start),
                Region::Releasing => TwoRates::controlled(self, self.release, recovery, target, start),
            };
            let left = lasts - done;
            let exit = self.exit(region, &curves, &state, target, left);
            let step = exit.unwrap_or(left);
            state = State { active: curves.active.at(step), fatigued: curves.fatigued.at(step) };
            done += step;
            if exit.is_none() || lasts <= done {
                return (state, failed);
            }
            // Land exactly on the boundary that was reached, so that rounding cannot put us back.
            (state, region) = match region {
                Region::Driving => (State { fatigued: 1.0 - target, ..state }, Region::Limited),
                Region::Limited => (State { fatigued: 1.0 - target, ..state }, Region::Driving),
                Region::Releasing => {
                    let landed = State { active: target, ..state };
                    (landed, self.below_target(landed, target, recovery))
                }
            };
        }
        (state, failed)
    }

    fn region(&self, state: State, target: f64, recovery: f64) -> Region {
        if target <= state.active { Region::Releasing } else { self.below_target(state, target, recovery) }
    }

    /// The boundary between the two regions below the target is fatigue = 1 - target, the moment at which what is
    /// left just equals what is asked. On it, the direction of fatigue decides.
    fn below_target(&self, state: State, target: f64, recovery: f64) -> Region {
        let room = 1.0 - target - state.fatigued;
        let falling = self.fatigue * state.active <= recovery * state.fatigued;
        if 0.0 < room || (room == 0.0 && falling && 0.0 < state.fatigued) {
            Region::Driving
        } else {
            Region::Limited
        }
    }

    fn exit(&self, region: Region, curves: &TwoRates, state: &State, target: f64, left: f64) -> Option<f64> {
        match region {
            Region::Driving | Region::Limited => curves.fatigued.first_reach(
                1.0 - target,
                left,
                if state.fatigued == 1.0 - target { StartsAt::TheLevel } else { StartsAt::AwayFromIt },
            ),
            Region::Releasing if target == 0.0 => None,
            Region::Releasing => {
                // Exactly at the target the release ends at once: fatigue keeps pulling the active part down.
                if state.active == target {
                    return Some(0.0);
                }
                let quick = self.release + self.fatigue;
                let settled = self.release * target / quick;
                let after = ((state.active - settled) / (target - settled)).ln() / quick;
                (after < left).then_some(after)
            }
        }
    }
}

fn check(plan: &[Segment]) -> Result<(), LoadRefusal> {
    let mut whole = 0.0;
    for (segment, Segment { load, lasts }) in plan.iter().enumerate() {
        if !(0.0..=1.0).contains(&load.fraction()) {
            return Err(LoadRefusal::Load { segment, load: *load });
        }
        if lasts.seconds() < 0.0 {
            return Err(LoadRefusal::Lasts { segment, lasts: *lasts });
        }
        whole += lasts.seconds().min(2.0 * LONGEST_S);
        if LONGEST_S < whole {
            return Err(LoadRefusal::TooLong(Time::from_seconds(whole)));
        }
    }
    Ok(())
}
