//! Sets of repetitions with rests, and what a session leaves of the muscle after each.

use quantity::{Share, Time};

use super::muscle::Muscle;
use super::solve::{LoadRefusal, Segment, State};

/// One repetition repeated: its loads in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Repetitions {
    /// How often.
    pub count: u32,
    /// The loads of one repetition.
    pub each: Vec<Segment>,
}

/// One set and the rest after it.
#[derive(Debug, Clone, PartialEq)]
pub struct SetPlan {
    /// What is done.
    pub work: Repetitions,
    /// The longest the set may last; work beyond it is not done.
    pub cap: Option<Time>,
    /// Rest after the set.
    pub rest: Time,
}

/// Sets in order; another order is another session.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// The sets.
    pub sets: Vec<SetPlan>,
}

/// What one set did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AfterSet {
    /// State when the set ended.
    pub after_work: State,
    /// State when its rest ended.
    pub after_rest: State,
    /// How long the set lasted, cap included.
    pub lasted: Time,
    /// How long into the set the muscle first fell short of the load, if it did.
    pub fell_short_after: Option<Time>,
}

/// Why a session cannot be worked through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SessionRefusal {
    /// One of its loads cannot.
    Load(LoadRefusal),
    /// A repetition that takes no time but is repeated, or more repetitions than anybody does.
    Repetitions(u32),
    /// A rest or a cap below nothing.
    Time(Time),
}

/// More than this is a slip of the keyboard.
const MOST_REPETITIONS: u32 = 1000;

impl Session {
    /// Works through the session from a state. Capacity after a set is what a coach would call "what is left".
    ///
    /// The state is that of one muscle group, so exercises that share it fatigue each other in the order given.
    pub fn run(&self, muscle: &Muscle, start: State) -> Result<Vec<AfterSet>, SessionRefusal> {
        let mut state = start;
        self.sets
            .iter()
            .map(|set| {
                let after = set.run(muscle, state)?;
                state = after.after_rest;
                Ok(after)
            })
            .collect()
    }

    /// The session as one plan of constant loads.
    pub fn segments(&self) -> Result<Vec<Segment>, SessionRefusal> {
        let mut all = Vec::new();
        for set in &self.sets {
            all.extend(set.capped()?);
            all.push(Segment { load: Share::NONE, lasts: set.rest });
        }
        Ok(all)
    }
}

impl SetPlan {
    fn run(&self, muscle: &Muscle, start: State) -> Result<AfterSet, SessionRefusal> {
        let work = muscle.work(start, &self.capped()?).map_err(SessionRefusal::Load)?;
        let last = work.marks.last().copied().ok_or(SessionRefusal::Repetitions(self.work.count))?;
        let rest = [Segment { load: Share::NONE, lasts: self.rest }];
        let rested = muscle.work(last.state, &rest).map_err(SessionRefusal::Load)?;
        Ok(AfterSet {
            after_work: last.state,
            after_rest: rested.marks.last().map_or(last.state, |mark| mark.state),
            lasted: last.at,
            fell_short_after: work.failed_at,
        })
    }

    /// The loads of the set, cut off at the cap.
    fn capped(&self) -> Result<Vec<Segment>, SessionRefusal> {
        if MOST_REPETITIONS < self.work.count {
            return Err(SessionRefusal::Repetitions(self.work.count));
        }
        for time in self.cap.into_iter().chain([self.rest]) {
            if time < Time::ZERO {
                return Err(SessionRefusal::Time(time));
            }
        }
        let mut left = self.cap.map_or(f64::INFINITY, Time::seconds);
        let mut segments = Vec::new();
        for _ in 0..self.work.count {
            for segment in &self.work.each {
                let lasts = segment.lasts.seconds().min(left);
                if 0.0 < left {
                    segments.push(Segment { load: segment.load, lasts: Time::from_seconds(lasts) });
                }
                left -= lasts;
            }
        }
        Ok(segments)
    }
}
