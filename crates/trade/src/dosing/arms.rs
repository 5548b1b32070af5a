//! The two lines of a one-arm exercise: both must qualify, the weaker arm gates.

use super::pattern;
use super::standing::Standing;
use super::{Action, Proposal};
use crate::protocol::{Exercise, Parameters};
use crate::rule::dose_rules as codes;
use crate::side::{Side, WorkingSide};
use crate::trace::{Arg, Class, Line};

/// One line of sets with its record and its proposal so far.
pub struct Arm {
    /// Which side.
    pub side: WorkingSide,
    /// Its record.
    pub standing: Standing,
    /// What its own record asks for.
    pub proposal: Proposal,
}

/// Lets the arms speak to each other. The result does not depend on which is left and which is right.
pub fn together(parameters: &Parameters, exercise: &Exercise, left: &mut Arm, right: &mut Arm) {
    let apart = pattern::arms_apart(parameters, &left.standing, &right.standing);
    let steps = [is_step(&left.proposal), is_step(&right.proposal)];
    let places = [place(exercise, left), place(exercise, right)];
    let earned = [left.standing.earned.is_some(), right.standing.earned.is_some()];
    let may = |me: usize, other: usize| -> bool {
        match (places[me], places[other]) {
            (Some(mine), Some(theirs)) if mine < theirs => true,
            (Some(mine), Some(theirs)) if mine == theirs => steps[other] || earned[other],
            // Ahead already: only together with the other arm, and never more than one rung above it.
            (Some(mine), Some(theirs)) => steps[other] && mine - theirs <= 1,
            _ => false,
        }
    };
    let allowed = [may(0, 1), may(1, 0)];
    for (index, arm) in [&mut *left, &mut *right].into_iter().enumerate() {
        if steps[index] && !allowed[index] {
            hold_for_the_other(exercise, arm);
        }
    }
    if let Some(apart) = apart {
        let line = Line::new(codes::C9, "arms-apart", Class::Dose)
            .with("longer", Arg::Time(apart.longer))
            .with("shorter", Arg::Time(apart.shorter))
            .with("side", Arg::Shoulder(if apart.left_is_longer { Side::Right } else { Side::Left }))
            .with("sessions", Arg::Count(i64::from(parameters.side_diff_time_sessions)));
        for arm in [left, right] {
            hold_and_ask(exercise, arm, &line);
        }
    }
}

fn is_step(proposal: &Proposal) -> bool {
    // A switch for a plateau stays on its rung and needs no other arm.
    let moves = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()) != proposal.from.as_ref();
    matches!(proposal.action, Action::Up | Action::Switch) && moves
}

fn place(exercise: &Exercise, arm: &Arm) -> Option<usize> {
    arm.standing.rung.as_ref().and_then(|rung| exercise.place_of(rung))
}

fn stay_on_rung(arm: &mut Arm) {
    if let Some(dose) = &mut arm.proposal.dose {
        dose.rung.clone_from(&arm.proposal.from);
    }
}

fn hold_for_the_other(exercise: &Exercise, arm: &mut Arm) {
    stay_on_rung(arm);
    arm.proposal.action = Action::Hold;
    let line = Line::new(codes::P13, "arms-both-must-qualify", Class::Dose)
        .with("side", Arg::Working(arm.side.mirrored()))
        .with("exercise", Arg::Exercise(exercise.id.clone()));
    arm.proposal.trace.retain(|line| ![codes::P6, codes::P7, codes::P14, codes::T2].contains(&line.rule));
    arm.proposal.trace.insert(0, line);
}

/// A wide difference is a question to a person; steps up wait for the answer.
fn hold_and_ask(exercise: &Exercise, arm: &mut Arm, line: &Line) {
    if is_step(&arm.proposal) {
        hold_for_the_other(exercise, arm);
    }
    if arm.proposal.action == Action::Stay {
        arm.proposal.action = Action::Hold;
    }
    if arm.proposal.dose.is_some() {
        arm.proposal.trace.insert(0, line.clone());
        arm.proposal.alone.push(line.clone());
    }
}
