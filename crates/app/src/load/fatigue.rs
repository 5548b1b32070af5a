//! A plan of loads through the three-compartment model: what is left of the muscle, and when it first falls short.
//!
//! Within a session only. Nothing here may be read as recovery over hours.

use mechanics::endurance::Joint;
use mechanics::fatigue::{Muscle, Segment, State};
use quantity::reading::{Dimension, Unit};
use quantity::{Share, Time};
use serde::Serialize;

use super::columns::{self, Kind, Wanted};
use super::refusals;
use crate::facts::Problem;

/// Name and version of the answer.
pub const SHAPE: &str = "cuffwright.fatigue/1";

const COLUMNS: &[Wanted] = &[
    Wanted {
        key: "seconds",
        words: &[
            "seconds",
            "second",
            "secs",
            "duration",
            "durations",
            "lasts",
            "start",
            "starts",
            "time",
            "t",
            "dt",
        ],
        kind: Kind::Of(Dimension::Time),
        bare: Some(Unit::Second),
    },
    Wanted {
        key: "load_share",
        words: &["load", "loads", "share", "intensity", "effort", "tl"],
        kind: Kind::Share,
        bare: None,
    },
];

/// What the column of seconds says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seconds {
    /// How long each load lasts.
    Last,
    /// When each load begins; the last goes on until the muscle falls short, or to the end of the hour.
    Start,
}

/// How a plan is asked about.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Rates of the muscle.
    pub muscle: Muscle,
    /// What the muscle is called.
    pub name: String,
    /// Its rates, per second, and the factor at rest.
    pub rates: (f64, f64, f64),
    /// What the column of seconds says; told from the numbers when absent.
    pub seconds: Option<Seconds>,
    /// Seconds between points of the trajectory; about 200 points when absent.
    pub every: Option<Time>,
}

/// Finds a joint by its word.
pub fn joint(word: &str) -> Option<Joint> {
    Some(match word {
        "shoulder" => Joint::Shoulder,
        "elbow" => Joint::Elbow,
        "grip" | "hand" => Joint::Grip,
        "trunk" | "back" => Joint::Trunk,
        "knee" => Joint::Knee,
        "ankle" => Joint::Ankle,
        "general" | "default" => Joint::General,
        _ => return None,
    })
}

/// The published rates of a joint: fatigue and recovery per second, and the factor at rest.
pub const fn rates(joint: Joint) -> (f64, f64, f64) {
    match joint {
        Joint::Ankle => (0.005_89, 0.000_58, 15.0),
        Joint::Knee => (0.015, 0.001_49, 15.0),
        Joint::Trunk => (0.007_55, 0.000_75, 15.0),
        Joint::Shoulder => (0.018_2, 0.001_68, 15.0),
        Joint::Elbow => (0.009_12, 0.000_94, 15.0),
        Joint::Grip => (0.009_8, 0.000_64, 30.0),
        Joint::General => (0.009_7, 0.000_91, 15.0),
    }
}

/// The longest plan, seconds.
const HOUR: f64 = 3600.0;

/// Reads a plan: loads in order, each with how long it lasts. The second value says whether the last load is open.
pub fn read(text: &str, seconds: Option<Seconds>) -> Result<(Vec<Segment>, Seconds), Vec<Problem>> {
    let rows = columns::read(text, COLUMNS, &[0, 1])?;
    let pairs: Vec<(u64, f64, f64)> =
        rows.iter().filter_map(|row| Some((row.line, row.values[0]?, row.values[1]?))).collect();
    if pairs.is_empty() {
        return Err(vec![Problem::at("", "load-empty")]);
    }
    let mut problems: Vec<Problem> = Vec::new();
    for (line, at, load) in &pairs {
        if !(0.0..=1.0).contains(load) {
            problems.push(refusals::share(*line, *load));
        }
        if *at < 0.0 {
            problems.push(
                Problem::at(format!("line {line}"), "load-negative-time").with("seconds", format!("{at}")),
            );
        }
    }
    let rising = pairs.windows(2).all(|pair| pair[0].1 < pair[1].1);
    let meant = seconds.unwrap_or(if pairs[0].1 == 0.0 && rising { Seconds::Start } else { Seconds::Last });
    if meant == Seconds::Start && !rising {
        problems.push(Problem::at("", "load-starts-not-rising"));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let segment = |load: f64, lasts: f64| Segment {
        load: Share::from_fraction(load),
        lasts: Time::from_seconds(lasts),
    };
    let mut plan: Vec<Segment> = Vec::new();
    match meant {
        Seconds::Last => plan.extend(pairs.iter().map(|(_, lasts, load)| segment(*load, *lasts))),
        Seconds::Start => {
            // Before the first load there is rest.
            if 0.0 < pairs[0].1 {
                plan.push(segment(0.0, pairs[0].1));
            }
            plan.extend(pairs.windows(2).map(|pair| segment(pair[0].2, pair[1].1 - pair[0].1)));
            let (_, begins, load) = pairs[pairs.len() - 1];
            plan.push(segment(load, (HOUR - begins).max(0.0)));
        }
    }
    let whole: f64 = plan.iter().map(|segment| segment.lasts.seconds()).sum();
    if HOUR < whole - 1e-6 {
        return Err(vec![
            Problem::at("", "load-longer-than-hour").with("minutes", format!("{:.0}", whole / 60.0)),
        ]);
    }
    Ok((plan, meant))
}

/// The answer in JSON.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// Name and version.
    pub shape: &'static str,
    /// Rates used.
    pub muscle: MuscleUsed,
    /// Whether seconds were read as `last` or `start`.
    pub seconds_mean: &'static str,
    /// Loads in order.
    pub plan: Vec<Part>,
    /// When the muscle first fell short of the load, seconds from the start; absent when it never did.
    pub failed_at_s: Option<f64>,
    /// Whether it fell short.
    pub failed: bool,
    /// The load that could be held without end, as a share of strength.
    pub endless_share: f64,
    /// States in time order, boundaries and the moment of falling short included.
    pub trajectory: Vec<Moment>,
    /// State at the end.
    pub at_end: Moment,
    /// What the model is good for.
    pub validity: &'static str,
}

/// Rates of the muscle.
#[derive(Debug, Serialize)]
pub struct MuscleUsed {
    /// Which.
    pub name: String,
    /// Fatigue per second.
    pub fatigue_per_s: f64,
    /// Recovery per second.
    pub recovery_per_s: f64,
    /// Factor on recovery at rest.
    pub rest_factor: f64,
}

/// One load of the plan.
#[derive(Debug, Serialize)]
pub struct Part {
    /// From, seconds.
    pub from_s: f64,
    /// To, seconds.
    pub to_s: f64,
    /// Share of strength.
    pub load_share: f64,
    /// What is left of the muscle at its end, as a share of rested strength.
    pub capacity_after: f64,
}

/// The muscle at one moment.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Moment {
    /// Since the start, seconds.
    pub at_s: f64,
    /// Load asked for, as a share of strength.
    pub load_share: f64,
    /// Part that works.
    pub active: f64,
    /// Part that is tired.
    pub fatigued: f64,
    /// Part that waits.
    pub resting: f64,
    /// What could be given: one less the tired part.
    pub capacity: f64,
}

/// Works a plan through.
pub fn work(plan: &[Segment], meant: Seconds, asked: &Asked) -> Result<Answer, Vec<Problem>> {
    let muscle = &asked.muscle;
    let refused = |refusal: &mechanics::fatigue::LoadRefusal| vec![refusals::plan(refusal)];
    let first = muscle.work(State::RESTED, plan).map_err(|refusal| refused(&refusal))?;
    // An open end stops where the muscle falls short: after that nobody goes on.
    let mut plan = plan.to_vec();
    if let (Seconds::Start, Some(failed)) = (meant, first.failed_at) {
        let before: f64 = plan[..plan.len() - 1].iter().map(|segment| segment.lasts.seconds()).sum();
        if let Some(last) = plan.last_mut()
            && before < failed.seconds()
        {
            last.lasts = Time::from_seconds(failed.seconds() - before);
        }
    }
    let whole: f64 = plan.iter().map(|segment| segment.lasts.seconds()).sum();
    let every =
        asked.every.map_or_else(|| round_step(whole / 200.0), Time::seconds).max(whole / 20_000.0).max(1e-3);
    let (fine, loads) = cut_at(&plan, every, first.failed_at);
    let worked = muscle.work(State::RESTED, &fine).map_err(|refusal| refused(&refusal))?;
    let trajectory: Vec<Moment> = worked
        .marks
        .iter()
        .enumerate()
        .map(|(index, mark)| {
            let load = loads.get(index.min(loads.len().saturating_sub(1))).copied().unwrap_or(0.0);
            moment(mark.at.seconds(), load, &mark.state)
        })
        .collect();
    let parts = muscle.work(State::RESTED, &plan).map_err(|refusal| refused(&refusal))?;
    let (fatigue, recovery, rest) = asked.rates;
    let at_end = trajectory.last().copied().unwrap_or_else(|| moment(0.0, 0.0, &State::RESTED));
    Ok(Answer {
        shape: SHAPE,
        muscle: MuscleUsed {
            name: asked.name.clone(),
            fatigue_per_s: fatigue,
            recovery_per_s: recovery,
            rest_factor: rest,
        },
        seconds_mean: match meant {
            Seconds::Last => "last",
            Seconds::Start => "start",
        },
        plan: plan
            .iter()
            .zip(parts.marks.windows(2))
            .map(|(segment, marks)| Part {
                from_s: marks[0].at.seconds(),
                to_s: marks[1].at.seconds(),
                load_share: segment.load.fraction(),
                capacity_after: marks[1].state.capacity().fraction(),
            })
            .collect(),
        failed_at_s: first.failed_at.map(Time::seconds),
        failed: first.failed_at.is_some(),
        endless_share: muscle.endless_share().fraction(),
        trajectory,
        at_end,
        validity: "static loads on one joint of an adult, seconds to tens of minutes; repetitions and adolescents by \
                   analogy; never hours or days, never to clear anybody",
    })
}

fn moment(at: f64, load: f64, state: &State) -> Moment {
    Moment {
        at_s: at,
        load_share: load,
        active: state.active().fraction(),
        fatigued: state.fatigued().fraction(),
        resting: state.resting().fraction(),
        capacity: state.capacity().fraction(),
    }
}

/// A step of one, two or five times a power of ten, at least as long as asked.
fn round_step(least: f64) -> f64 {
    if !(0.0 < least && least.is_finite()) {
        return 1.0;
    }
    let power = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|step| least <= *step).unwrap_or(least)
}

/// The plan cut into pieces at whole steps of time and at one moment more; the loads of all pieces beside it.
fn cut_at(plan: &[Segment], every: f64, also: Option<Time>) -> (Vec<Segment>, Vec<f64>) {
    let mut fine = Vec::new();
    let mut loads = Vec::new();
    let mut from = 0.0;
    for segment in plan {
        let to = from + segment.lasts.seconds();
        let mut cuts: Vec<f64> = Vec::new();
        let mut step = (from / every).floor() + 1.0;
        while step * every < to - 1e-9 {
            if from + 1e-9 < step * every {
                cuts.push(step * every);
            }
            step += 1.0;
        }
        cuts.extend(also.map(Time::seconds).filter(|at| from + 1e-9 < *at && *at < to - 1e-9));
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        cuts.push(to);
        let mut at = from;
        for cut in cuts {
            fine.push(Segment { load: segment.load, lasts: Time::from_seconds(cut - at) });
            loads.push(segment.load.fraction());
            at = cut;
        }
        from = to;
    }
    (fine, loads)
}
