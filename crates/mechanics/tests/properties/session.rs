//! What a session asks: the cap ends a set, order and rest matter the way they should.

use mechanics::endurance::Joint;
use mechanics::fatigue::{
    LoadRefusal, Muscle, Repetitions, Segment, Session, SessionRefusal, SetPlan, State,
};
use quantity::{Share, Time};

fn part(load: f64, seconds: f64) -> Segment {
    Segment { load: Share::from_fraction(load), lasts: Time::from_seconds(seconds) }
}

fn set(load: f64, cap: Option<f64>, rest: f64) -> SetPlan {
    SetPlan {
        work: Repetitions { count: 20, each: vec![part(load, 2.0), part(load / 2.0, 2.0)] },
        cap: cap.map(Time::from_seconds),
        rest: Time::from_seconds(rest),
    }
}

fn shoulder() -> Muscle {
    Muscle::of(Joint::Shoulder)
}

#[test]
fn a_session_is_its_plan_of_loads() {
    let session = Session { sets: vec![set(0.4, Some(59.0), 30.0), set(0.3, None, 45.0)] };
    let sets = session.run(&shoulder(), State::RESTED).expect("a plain session");
    let plan = shoulder().work(State::RESTED, &session.segments().expect("plain")).expect("a plain plan");
    assert_eq!(sets[1].after_rest, plan.marks.last().expect("a last mark").state);
    assert_eq!(sets[0].lasted, Time::from_seconds(59.0));
    assert_eq!(sets[1].lasted, Time::from_seconds(80.0));
}

#[test]
fn a_cap_and_a_rest_leave_more_behind() {
    let after = |cap: Option<f64>, rest: f64| {
        let session = Session { sets: vec![set(0.4, cap, rest), set(0.4, cap, rest)] };
        session.run(&shoulder(), State::RESTED).expect("a plain session")[1].after_work.capacity()
    };
    assert!(after(None, 30.0) < after(Some(60.0), 30.0));
    assert!(after(Some(60.0), 30.0) < after(Some(60.0), 60.0));
}

#[test]
fn a_load_beyond_reach_says_when_the_muscle_fell_short() {
    let session = Session { sets: vec![set(0.9, None, 30.0)] };
    let after = session.run(&shoulder(), State::RESTED).expect("a plain session")[0];
    let short = after.fell_short_after.expect("nobody does this for 80 s");
    assert!(Time::from_seconds(5.0) < short && short < after.lasted, "{short:?}");
}

#[test]
fn nonsense_is_refused_with_its_numbers() {
    let run = |set: SetPlan| Session { sets: vec![set] }.run(&shoulder(), State::RESTED);
    let rest = Time::from_seconds(-1.0);
    assert_eq!(run(SetPlan { rest, ..set(0.4, None, 0.0) }), Err(SessionRefusal::Time(rest)));
    let heavy = LoadRefusal::Load { segment: 0, load: Share::from_fraction(1.2) };
    assert_eq!(run(set(1.2, None, 0.0)), Err(SessionRefusal::Load(heavy)));
    let many = Repetitions { count: 5000, each: vec![part(0.2, 1.0)] };
    assert_eq!(run(SetPlan { work: many, ..set(0.4, None, 0.0) }), Err(SessionRefusal::Repetitions(5000)));
    let hours = shoulder().work(State::RESTED, &[part(0.0, 7200.0)]);
    assert!(matches!(hours, Err(LoadRefusal::TooLong(_))), "the model says nothing about hours");
}
