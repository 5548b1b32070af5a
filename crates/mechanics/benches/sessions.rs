//! How long simulating sessions takes. Run by hand: `cargo bench -p mechanics`.
//!
//! The aim: 10,000 sessions of three sets of fifteen repetitions in under a second on one core.

use divan::{Bencher, black_box};
use mechanics::endurance::Joint;
use mechanics::fatigue::{Muscle, Repetitions, Segment, Session, SetPlan, State};
use quantity::{Share, Time};

fn main() {
    divan::main();
}

fn three_sets() -> Session {
    let part =
        |load, seconds| Segment { load: Share::from_fraction(load), lasts: Time::from_seconds(seconds) };
    let set = SetPlan {
        work: Repetitions { count: 15, each: vec![part(0.35, 2.0), part(0.15, 1.0)] },
        cap: Some(Time::from_seconds(60.0)),
        rest: Time::from_seconds(45.0),
    };
    Session { sets: vec![set.clone(), set.clone(), set] }
}

#[divan::bench(sample_count = 5)]
fn ten_thousand_sessions(bencher: Bencher) {
    let (session, muscle) = (three_sets(), Muscle::of(Joint::Shoulder));
    bencher.bench_local(|| {
        for _ in 0..10_000 {
            black_box(black_box(&session).run(&muscle, State::RESTED).expect("a plain session"));
        }
    });
}

#[divan::bench]
fn one_endurance_time(bencher: Bencher) {
    let muscle = Muscle::of(Joint::Shoulder);
    bencher.bench_local(|| muscle.endurance(State::RESTED, black_box(Share::from_fraction(0.3))));
}
