//! The three-compartment model against trajectories worked independently.
//!
//! Sources: Xia & Frey Law 2008, J Biomech 41:3046-3052; rates Frey-Law, Looft & Heitsman 2012, J Biomech 45:1803-1808;
//! rest factor Looft, Herkert & Frey-Law 2018, J Biomech 77:16-25. The worked values agreed with an adaptive integrator
//! of order 8 to 2e-11.

use mechanics::endurance::Joint;
use mechanics::fatigue::{Muscle, Segment, State, Trajectory};
use quantity::{Share, Time};

use crate::references::{check, check_optional, number, table};

fn segment(load: f64, seconds: f64) -> Segment {
    Segment { load: Share::from_fraction(load), lasts: Time::from_seconds(seconds) }
}

fn shoulder(rest_factor: f64) -> Muscle {
    Muscle::of(Joint::Shoulder).with_rest_factor(rest_factor).expect("a plausible factor")
}

fn work(muscle: &Muscle, plan: &[Segment]) -> Trajectory {
    muscle.work(State::RESTED, plan).expect("a plain plan")
}

/// States (active, fatigued) at the given times, one after another.
fn states(trajectory: &Trajectory, times: &[f64]) -> Vec<f64> {
    times
        .iter()
        .flat_map(|time| {
            let mark = trajectory
                .marks
                .iter()
                .find(|mark| (mark.at.seconds() - time).abs() < 1e-9)
                .unwrap_or_else(|| panic!("no segment ends at {time}"));
            [mark.state.active().fraction(), mark.state.fatigued().fraction()]
        })
        .collect()
}

/// One load held through all these times.
fn held(load: f64, times: &[f64]) -> Vec<Segment> {
    let mut before = 0.0;
    times
        .iter()
        .map(|time| {
            let part = segment(load, time - before);
            before = *time;
            part
        })
        .collect()
}

fn alternating(load: f64, on: f64, off: f64, until: f64) -> Vec<Segment> {
    let n_cycles = (until / (on + off)).round() as usize;
    (0..n_cycles).flat_map(|_| [segment(load, on), segment(0.0, off)]).collect()
}

fn session() -> Vec<Segment> {
    let set = || (0..15).flat_map(|_| [segment(0.35, 2.0), segment(0.15, 1.0)]);
    (0..3).flat_map(|_| set().chain([segment(0.0, 45.0)])).collect()
}

#[test]
fn the_rates_in_use_are_the_published_ones() {
    let joints = [
        ("ankle", Joint::Ankle),
        ("knee", Joint::Knee),
        ("trunk", Joint::Trunk),
        ("shoulder", Joint::Shoulder),
        ("elbow", Joint::Elbow),
        ("grip", Joint::Grip),
        ("default", Joint::General),
    ];
    for row in table("xia-frey-law-2008", "parameters.csv") {
        let (_, joint) = joints.iter().find(|(name, _)| *name == row["joint"]).expect("every row is in use");
        let rates = (number(&row, "fatigue_per_s"), number(&row, "recovery_per_s"));
        let rest = table("looft-2018", "rest-multiplier.csv");
        let factor =
            rest.iter().find(|rest| rest["joint"] == row["joint"]).map_or(15.0, |rest| number(rest, "r"));
        assert_eq!(Muscle::of(*joint), Muscle::new(rates.0, rates.1, factor).expect("published rates"));
    }
}

#[test]
fn loads_that_can_be_held_without_end() {
    for (id, joint) in [
        ("3cc.asymptote.ankle", Joint::Ankle),
        ("3cc.asymptote.knee", Joint::Knee),
        ("3cc.asymptote.trunk", Joint::Trunk),
        ("3cc.asymptote.shoulder", Joint::Shoulder),
        ("3cc.asymptote.elbow", Joint::Elbow),
        ("3cc.asymptote.grip", Joint::Grip),
        ("3cc.asymptote.default", Joint::General),
    ] {
        let muscle = Muscle::of(joint);
        check(id, &[muscle.endless_share().fraction(), muscle.endless_share_roughly().fraction()]);
    }
}

#[test]
fn endurance_times_in_closed_form() {
    for (id, joint) in
        [("3cc.ET.shoulder", Joint::Shoulder), ("3cc.ET.elbow", Joint::Elbow), ("3cc.ET.trunk", Joint::Trunk)]
    {
        let times: Vec<f64> = (1..=9)
            .map(|tenth| {
                let load = Share::from_fraction(f64::from(tenth) / 10.0);
                Muscle::of(joint).endurance(State::RESTED, load).expect("it fails within the hour").seconds()
            })
            .collect();
        check(id, &times);
    }
}

#[test]
fn a_load_held_past_failure() {
    let times = [0.1, 1.0, 10.0, 60.0, 120.0, 300.0];
    for (trajectory, endurance, load) in
        [("3cc.trajectory.0.3", "3cc.sustained.0.3", 0.3), ("3cc.trajectory.0.5", "3cc.sustained.0.5", 0.5)]
    {
        check(trajectory, &states(&work(&shoulder(15.0), &held(load, &times)), &times));
        // One segment and six must fail at the same moment; the third value is their difference.
        let whole = work(&shoulder(15.0), &[segment(load, 300.0)]).failed_at.expect("it fails").seconds();
        let split = work(&shoulder(15.0), &held(load, &times)).failed_at.expect("it fails").seconds();
        check(endurance, &[whole, split, (whole - split).abs()]);
    }
}

#[test]
fn a_second_on_a_second_off() {
    let times = [1.0, 2.0, 60.0, 120.0, 300.0, 600.0];
    let plan = alternating(0.5, 1.0, 1.0, 600.0);
    let rested = work(&shoulder(15.0), &plan);
    check("3ccr.1on1off.50", &states(&rested, &times));
    assert_eq!(rested.failed_at, None);
    check("3cc.1on1off.50.r1", &[work(&shoulder(1.0), &plan).failed_at.expect("it fails").seconds()]);
    let plateau = shoulder(15.0)
        .plateau(Share::from_fraction(0.5), Share::from_fraction(0.5))
        .expect("shares of a whole")
        .fraction();
    check("3ccr.average.1on1off.50", &[plateau]);
    // The rough plateau is good to two per cent, as its documentation says.
    let end = rested.marks.last().expect("a last mark").state.fatigued().fraction();
    assert!((plateau / end - 1.0).abs() < 0.02);
}

#[test]
fn half_the_time_at_half_strength_in_ten_second_cycles() {
    let plan = alternating(0.5, 5.0, 5.0, 1200.0);
    for (id, rest_factor) in [
        ("3ccr.50pct_50duty_10s.r1", 1.0),
        ("3ccr.50pct_50duty_10s.r15", 15.0),
        ("3ccr.50pct_50duty_10s.r30", 30.0),
    ] {
        check_optional(id, &[work(&shoulder(rest_factor), &plan).failed_at.map(Time::seconds)]);
    }
}

#[test]
fn three_sets_of_fifteen() {
    let times = [45.0, 90.0, 135.0, 180.0, 225.0, 270.0];
    let rested = work(&shoulder(15.0), &session());
    check("3ccr.session.3x15", &states(&rested, &times));
    check("3cc.session.3x15.r1", &states(&work(&shoulder(1.0), &session()), &times));
    let capacity = [45.0, 135.0, 225.0].map(|time| 1.0 - states(&rested, &[time])[1]);
    check("3cc.capacity_after_set", &capacity);
}

#[test]
fn a_step_down() {
    let plan = [segment(0.5, 30.0), segment(0.2, 0.1), segment(0.2, 0.9), segment(0.2, 29.0)];
    check("3cc.stepdown", &states(&work(&shoulder(15.0), &plan), &[30.0, 30.1, 31.0, 60.0]));
}

#[test]
fn pure_rest() {
    for (id, rest_factor) in [("3ccr.rest.r1", 1.0), ("3ccr.rest.r15", 15.0)] {
        let start = State::new(Share::NONE, Share::from_fraction(0.5)).expect("half is tired");
        let plan = [segment(0.0, 60.0), segment(0.0, 540.0)];
        let rest = shoulder(rest_factor).work(start, &plan).expect("a plain plan");
        check(id, &[1, 2].map(|mark| rest.marks[mark].state.fatigued().fraction()));
    }
}

#[test]
fn the_reserve_limited_region() {
    let muscle = shoulder(15.0);
    let (quick, slow) = muscle.exhaustion_times();
    check("3cc.region2.eigen", &[-1.0 / quick.seconds(), -1.0 / slow.seconds()]);
    let (active, fatigued) = muscle.exhausted();
    check("3cc.region2.equilibrium", &[active.fraction(), fatigued.fraction()]);
}
