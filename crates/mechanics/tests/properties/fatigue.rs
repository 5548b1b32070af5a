//! Properties of the fatigue model, and the exact solution against an independent adaptive integrator.

use mechanics::endurance::Joint;
use mechanics::fatigue::{Muscle, Segment, State};
use ode_solvers::dop_shared::OutputType;
use ode_solvers::dop853::Dop853;
use ode_solvers::{System, Vector2};
use proptest::prelude::*;
use quantity::{Share, Time};

const SHOULDER: (f64, f64, f64) = (0.0182, 0.00168, 15.0);

fn segment(load: f64, seconds: f64) -> Segment {
    Segment { load: Share::from_fraction(load), lasts: Time::from_seconds(seconds) }
}

fn parts(state: State) -> [f64; 3] {
    [state.active(), state.fatigued(), state.resting()].map(Share::fraction)
}

fn end(muscle: &Muscle, start: State, plan: &[Segment]) -> State {
    muscle.work(start, plan).expect("a plain plan").marks.last().expect("a last mark").state
}

prop_compose! {
    fn any_state()(active in 0.0_f64..1.0, fatigued in 0.0_f64..1.0) -> State {
        let over = (active + fatigued).max(1.0);
        // A hair inside the whole, so that rounding of the sum cannot push it out.
        let part = |value: f64| Share::from_fraction(value / over * (1.0 - 1e-12));
        State::new(part(active), part(fatigued)).expect("parts of a whole")
    }
}

prop_compose! {
    fn any_muscle()(fatigue in 0.001_f64..0.1, ratio in 5.0_f64..20.0, rest in 1.0_f64..30.0) -> Muscle {
        Muscle::new(fatigue, fatigue / ratio, rest).expect("inside the limits")
    }
}

prop_compose! {
    fn any_plan()(plan in prop::collection::vec((prop_oneof![Just(0.0), 0.0_f64..=1.0], 0.01_f64..60.0), 1..12))
        -> Vec<Segment>
    {
        plan.into_iter().map(|(load, lasts)| segment(load, lasts)).collect()
    }
}

proptest! {
    #[test]
    fn the_three_parts_stay_a_whole(muscle in any_muscle(), start in any_state(), plan in any_plan()) {
        for mark in muscle.work(start, &plan).expect("a plain plan").marks {
            let parts = parts(mark.state);
            prop_assert!((parts.iter().sum::<f64>() - 1.0).abs() <= 1e-12);
            prop_assert!(parts.iter().all(|part| -1e-12 <= *part), "{parts:?}");
        }
    }

    #[test]
    fn splitting_a_segment_changes_nothing(
        muscle in any_muscle(), start in any_state(), load in 0.0_f64..=1.0,
        pieces in prop::collection::vec(0.01_f64..40.0, 2..8)
    ) {
        let whole = muscle.work(start, &[segment(load, pieces.iter().sum())]).expect("a plain plan");
        let plan: Vec<Segment> = pieces.iter().map(|lasts| segment(load, *lasts)).collect();
        let split = muscle.work(start, &plan).expect("a plain plan");
        let ends = [&whole, &split].map(|work| parts(work.marks.last().expect("a last mark").state));
        for (one, other) in ends[0].iter().zip(ends[1]) {
            prop_assert!((one - other).abs() <= 1e-12, "{ends:?}");
        }
        match (whole.failed_at, split.failed_at) {
            (Some(one), Some(other)) => prop_assert!((one.seconds() - other.seconds()).abs() <= 1e-9),
            (one, other) => prop_assert_eq!(one, other),
        }
    }

    #[test]
    fn a_heavier_load_never_lasts_longer(muscle in any_muscle(), light in 0.15_f64..0.9, more in 0.001_f64..0.1) {
        let lasts = |load: f64| muscle.endurance(State::RESTED, Share::from_fraction(load));
        if let (Some(light), heavy) = (lasts(light), lasts(light + more)) {
            prop_assert!(heavy.is_some_and(|heavy| heavy < light));
        }
    }

    #[test]
    fn what_can_be_held_without_end_is_held(muscle in any_muscle()) {
        // At the exact share the fatigue only ever approaches its limit, and rounding decides; so a hair below and above.
        let near = |part: f64| Share::from_fraction(muscle.endless_share().fraction() * part);
        prop_assert_eq!(muscle.endurance(State::RESTED, near(1.0 - 1e-9)), None);
        let quick = Muscle::new(0.1, 0.01, 1.0).expect("inside the limits");
        let above = Share::from_fraction(quick.endless_share().fraction() * 1.001);
        prop_assert!(quick.endurance(State::RESTED, above).is_some());
    }

    #[test]
    fn failure_is_the_moment_when_capacity_meets_the_load(muscle in any_muscle(), load in 0.3_f64..0.95) {
        let Some(time) = muscle.endurance(State::RESTED, Share::from_fraction(load)) else { return Ok(()) };
        let at = end(&muscle, State::RESTED, &[segment(load, time.seconds())]);
        prop_assert!((at.capacity().fraction() - load).abs() <= 1e-12);
    }

    #[test]
    fn a_longer_rest_never_leaves_less(muscle in any_muscle(), start in any_state(), rest in 0.0_f64..300.0) {
        // The last active fibres tire as they let go, so the first second is left out.
        let capacity = |seconds| end(&muscle, start, &[segment(0.0, seconds)]).capacity();
        prop_assert!(capacity(5.0 + rest).fraction() <= capacity(5.0 + rest + 1.0).fraction() + 1e-12);
    }
}

/// The model as a right-hand side, written from the equations of the papers and sharing nothing with the solution.
struct Equations {
    fatigue: f64,
    recovery: f64,
    target: f64,
}

impl System<f64, Vector2<f64>> for Equations {
    fn system(&self, _: f64, y: &Vector2<f64>, dy: &mut Vector2<f64>) {
        let (active, fatigued) = (y[0], y[1]);
        let resting = 1.0 - active - fatigued;
        let wanted = self.target - active;
        let drive = if wanted <= 0.0 || wanted < resting { 10.0 * wanted } else { 10.0 * resting };
        dy[0] = drive - self.fatigue * active;
        dy[1] = self.fatigue * active - self.recovery * fatigued;
    }
}

/// Integrates one load in short stretches, so that a step of the integrator never bridges a kink by much.
fn integrate(
    state: (f64, f64),
    load: f64,
    seconds: f64,
    (fatigue, recovery, rest): (f64, f64, f64),
) -> (f64, f64) {
    let equations = || Equations {
        fatigue,
        recovery: if load == 0.0 { recovery * rest } else { recovery },
        target: load,
    };
    let n_stretches = (seconds / 0.25).ceil();
    let mut y = Vector2::new(state.0, state.1);
    for _ in 0..n_stretches as u32 {
        let step = seconds / n_stretches;
        let mut stepper = Dop853::new(equations(), 0.0, step, step, y, 1e-12, 1e-14);
        // The dense output of this integrator cannot be trusted at the end of so short a span; its own steps can.
        stepper.set_output(OutputType::Sparse);
        stepper.integrate().expect("a tame system");
        y = *stepper.y_out().last().expect("an end");
    }
    (y[0], y[1])
}

fn largest_difference(muscle: &Muscle, rates: (f64, f64, f64), plan: &[Segment]) -> f64 {
    let exact = muscle.work(State::RESTED, plan).expect("a plain plan");
    let mut state = (0.0, 0.0);
    let mut largest = 0.0_f64;
    for (segment, mark) in plan.iter().zip(&exact.marks[1..]) {
        state = integrate(state, segment.load.fraction(), segment.lasts.seconds(), rates);
        let [active, fatigued, _] = parts(mark.state);
        largest = largest.max((state.0 - active).abs()).max((state.1 - fatigued).abs());
    }
    largest
}

#[test]
fn the_exact_solution_agrees_with_an_adaptive_integrator_to_1e_8() {
    let set = || (0..15).flat_map(|_| [segment(0.35, 2.0), segment(0.15, 1.0)]);
    let session: Vec<Segment> = (0..3).flat_map(|_| set().chain([segment(0.0, 45.0)])).collect();
    // Through every region and every boundary: fail, step down out of the limited region, recover, fail again.
    let rough = [(0.5, 90.0), (0.2, 40.0), (0.0, 20.0), (0.9, 15.0), (0.05, 30.0), (0.7, 60.0), (0.1, 200.0)];
    let rough: Vec<Segment> = rough.map(|(load, lasts)| segment(load, lasts)).to_vec();
    for plan in [session, rough] {
        let difference = largest_difference(&Muscle::of(Joint::Shoulder), SHOULDER, &plan);
        assert!(difference <= 1e-8, "{difference:e}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_plan_agrees_with_the_integrator(
        rates in (0.005_f64..0.05, 5.0_f64..15.0, 1.0_f64..30.0),
        plan in prop::collection::vec((prop_oneof![Just(0.0), 0.02_f64..0.98], 0.5_f64..20.0), 1..6)
    ) {
        let rates = (rates.0, rates.0 / rates.1, rates.2);
        let muscle = Muscle::new(rates.0, rates.1, rates.2).expect("inside the limits");
        let plan: Vec<Segment> = plan.into_iter().map(|(load, lasts)| segment(load, lasts)).collect();
        let difference = largest_difference(&muscle, rates, &plan);
        prop_assert!(difference <= 1e-8, "{difference:e}");
    }
}
