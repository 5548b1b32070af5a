//! Whom to ask: each pattern with the case that makes it and the case beside it that does not.

use quantity::HoldTime;
use trade::ask::{Ask, Reason, asks};
use trade::dosing::plan;
use trade::due::{Kind, due};
use trade::gate::gate;
use trade::history::*;
use trade::name::{ExerciseId, RungId};
use trade::rule::screening_rules as codes;
use trade::side::WorkingSide;
use trade::weekly::Answers;

use crate::build::*;

fn asked(history: &History) -> Vec<Ask> {
    let history = history.clone().in_order();
    let (protocol, history) = (protocol(), history);
    let gate = gate(&protocol, &history, TODAY);
    let plan = plan(&protocol, &history, &gate);
    asks(&history, &gate, &plan, TODAY)
}

fn reasons(history: &History) -> Vec<Reason> {
    asked(history).iter().map(|ask| ask.reason).collect()
}

fn answers(options: [u8; 4]) -> Option<Answers> {
    let [taking_part, less, performance, symptoms] = options;
    Some(Answers {
        taking_part,
        less_training: Some(less),
        performance: Some(performance),
        symptoms: Some(symptoms),
    })
}

fn check(days: i64, left: [u8; 4], right: [u8; 4]) -> WeeklyCheck {
    WeeklyCheck { date: ago(days), left: answers(left), right: answers(right) }
}

const WELL: [u8; 4] = [0, 0, 0, 0];
const SMALL: [u8; 4] = [1, 0, 0, 1];
const SUBSTANTIAL: [u8; 4] = [1, 2, 1, 1];

#[test]
fn a_substantial_problem_asks_for_contact_within_two_days_and_a_better_week_does_not_close_it() {
    let mut history = fit(16, Sex::Female);
    history.weekly_checks = vec![check(8, WELL, SUBSTANTIAL)];
    let found = asked(&history);
    assert_eq!(
        (found[0].reason, found[0].side, found[0].line.rule),
        (Reason::Substantial, Some(RIGHT), codes::Q1)
    );
    let open = |history: &History| -> Vec<_> {
        due(&protocol(), &history.clone().in_order(), TODAY, None)
            .into_iter()
            .filter(|due| due.kind == Kind::Talk && due.line.rule == codes::Q1)
            .map(|due| (due.by, due.side))
            .collect()
    };
    assert_eq!(open(&history), [(ago(6), Some(RIGHT))]);
    history.weekly_checks.push(check(1, WELL, WELL));
    assert_eq!(open(&history), [(ago(6), Some(RIGHT))]);
    history.weekly_checks = vec![check(28, WELL, SUBSTANTIAL)];
    assert!(open(&history).is_empty(), "after four weeks it is history");
}

#[test]
fn a_problem_that_stays_or_grows_asks_and_a_gap_is_no_zero() {
    for (checks, asks) in [
        (vec![check(8, SMALL, WELL), check(1, SMALL, WELL)], true),
        (vec![check(8, WELL, WELL), check(1, SMALL, WELL)], true),
        (vec![check(8, SMALL, WELL), check(1, WELL, WELL)], false),
        (vec![check(1, SMALL, WELL)], false),
        (vec![check(30, SMALL, WELL), check(1, SMALL, WELL)], false),
        (vec![check(8, SMALL, WELL), WeeklyCheck { date: ago(1), left: None, right: answers(WELL) }], false),
    ] {
        let mut history = fit(16, Sex::Female);
        history.weekly_checks = checks.clone();
        assert_eq!(reasons(&history).contains(&Reason::StaysOrGrows), asks, "{checks:?}");
    }
}

fn sets(seconds: [f64; 3], end: End) -> Vec<Set> {
    seconds
        .iter()
        .zip(1..)
        .map(|(seconds, number)| Set {
            number,
            time: HoldTime::from_seconds(*seconds),
            cap: HoldTime::from_seconds(120.0),
            rest_before: None,
            end: end.clone(),
            watched: Watched::Seen,
            clock: Clock::Device,
            fault_left: None,
        })
        .collect()
}

fn block(side: WorkingSide, sets: Vec<Set>) -> Block {
    Block {
        exercise: ExerciseId::new("RC-1"),
        side,
        planned: RungId::new("b16"),
        used: RungId::new("b16"),
        prescribed_sets: 3,
        sets,
    }
}

fn session(days: i64, blocks: Vec<Block>) -> Session {
    Session { date: ago(days), number: 1, context: Context::AfterPractice, excluded: None, blocks }
}

fn form() -> End {
    End::Form(trade::name::FaultCode::new("F06"))
}

#[test]
fn an_arm_that_is_left_out_or_stopped_by_choice_twice_asks() {
    let both = |left: Vec<Set>, right: Vec<Set>| {
        vec![block(WorkingSide::Left, left), block(WorkingSide::Right, right)]
    };
    let usual = || sets([60.0, 55.0, 50.0], form());
    let chose = || sets([30.0, 25.0, 20.0], End::ChoseToStop);
    let only_left = || vec![block(WorkingSide::Left, usual())];
    for (sessions, asks) in [
        (vec![session(9, both(usual(), chose())), session(2, only_left())], Some(RIGHT)),
        (vec![session(9, both(chose(), usual())), session(2, both(chose(), usual()))], Some(LEFT)),
        (vec![session(2, only_left())], None),
        (vec![session(30, only_left()), session(2, only_left())], None),
        (vec![session(9, both(usual(), chose())), session(2, both(chose(), usual()))], None),
        (vec![session(9, both(chose(), chose())), session(2, both(chose(), chose()))], None),
    ] {
        let mut history = fit(16, Sex::Female);
        history.sessions = sessions;
        let found = asked(&history);
        let side = found.iter().find(|ask| ask.reason == Reason::OneArm).and_then(|ask| ask.side);
        assert_eq!(side, asks, "{:?}", history.sessions.len());
    }
}

#[test]
fn an_arm_that_is_known_to_hurt_is_not_asked_about_twice() {
    let mut history = fit(16, Sex::Female);
    let usual = || sets([60.0, 55.0, 50.0], form());
    history.sessions = vec![
        session(9, vec![block(WorkingSide::Left, usual())]),
        session(2, vec![block(WorkingSide::Left, usual())]),
    ];
    assert!(reasons(&history).contains(&Reason::OneArm));
    history.pains = vec![joint(ago(12), PainWhen::After, 0, 4)];
    assert!(!reasons(&history).contains(&Reason::OneArm));
}

/// Four sessions at one level, then two that fell by a third, with an answer about pain at each.
fn fallen(pain: i64, answers: usize) -> History {
    let mut history = fit(16, Sex::Female);
    history.sign_offs.push(SignOff { date: ago(150), exercise: ExerciseId::new("RC-1"), by: "T".to_owned() });
    for (index, (days, seconds)) in
        [(24, 90.0), (20, 92.0), (16, 91.0), (12, 90.0), (8, 58.0), (4, 57.0)].into_iter().enumerate()
    {
        let held = || sets([seconds, seconds - 5.0, seconds - 10.0], form());
        history
            .sessions
            .push(session(days, vec![block(WorkingSide::Left, held()), block(WorkingSide::Right, held())]));
        if index < answers {
            let number = if index == 2 { pain } else { 0 };
            history.pains.push(joint(ago(days), PainWhen::Before, number, 0));
        }
    }
    history
}

#[test]
fn zeros_with_falling_times_ask_and_one_honest_number_does_not() {
    assert!(reasons(&fallen(0, 6)).contains(&Reason::HiddenPain));
    assert!(!reasons(&fallen(1, 6)).contains(&Reason::HiddenPain), "somebody who says one is heard");
    assert!(!reasons(&fallen(0, 3)).contains(&Reason::HiddenPain), "three answers are no pattern");
}

#[test]
fn the_weightiest_reason_stands_first_and_the_order_of_facts_does_not_matter() {
    let mut history = fallen(0, 6);
    history.weekly_checks = vec![check(8, WELL, SMALL), check(1, SUBSTANTIAL, SMALL)];
    let found = reasons(&history);
    assert!(found.is_sorted(), "{found:?}");
    assert_eq!(found[0], Reason::Substantial);
    history.weekly_checks.reverse();
    history.sessions.reverse();
    history.pains.reverse();
    assert_eq!(reasons(&history), found);
}
