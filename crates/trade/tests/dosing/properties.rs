//! What holds for any record: who is held gets nothing, limits hold, left is like right, order does not matter.

use proptest::prelude::*;
use trade::dosing::{Action, Proposal};
use trade::gate::Gate;
use trade::history::*;
use trade::protocol::{Load, Tag};
use trade::side::{Side, WorkingSide};

use crate::build::*;
use crate::records::record;

fn is_step(proposal: &Proposal) -> bool {
    let moves = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()) != proposal.from.as_ref();
    matches!(proposal.action, Action::Up | Action::Switch) && moves
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn a_shoulder_that_is_not_cleared_never_gets_a_dose(history in record()) {
        let (gate, plan) = judged(protocol(), &history);
        for proposal in &plan.proposals {
            let exercise = protocol().exercise(&proposal.exercise).expect("known");
            for shoulder in loaded(exercise, proposal.side) {
                if gate.shoulder(shoulder).blocks() {
                    prop_assert!(proposal.dose.is_none(), "{:?} {:?}", proposal, gate.holds);
                }
            }
        }
    }

    #[test]
    fn signed_and_fixed_limits_are_never_exceeded(history in record()) {
        let (gate, plan) = judged(protocol(), &history);
        let age = history.swimmer.age_on(ON);
        for proposal in &plan.proposals {
            let Some(dose) = &proposal.dose else { continue };
            let exercise = protocol().exercise(&proposal.exercise).expect("known");
            let rung = dose.rung.as_ref().map(|rung| exercise.rung(rung).expect("on the ladder"));
            prop_assert!(1 <= dose.sets && dose.sets <= protocol().parameters.sets);
            prop_assert!(dose.cap <= exercise.cap(&protocol().parameters));
            if let Some(Load::Weight(mass)) = rung.map(|rung| rung.load) {
                prop_assert!(mass.in_kilograms() <= 2.2);
                prop_assert!(exercise.id.as_str() != "SC-3" || 15 <= age || mass.in_kilograms() <= 1.0);
            }
            prop_assert!(rung.and_then(|rung| rung.from_age).is_none_or(|from| i16::from(from) <= age));
            let shoulders = loaded(exercise, proposal.side);
            let concerned = |limit: &&trade::gate::ActiveLimit| match limit.side {
                None => !shoulders.is_empty(),
                Some(side) => shoulders.contains(&side),
            };
            for limit in gate.limits.iter().filter(concerned) {
                prop_assert!(limit.sets.is_none_or(|most| dose.sets <= most));
                prop_assert!(limit.cap.is_none_or(|longest| dose.cap <= longest));
                prop_assert!(!limit.locked_exercises.contains(&exercise.id));
                let tags = exercise.tags.iter().chain(rung.into_iter().flat_map(|rung| &rung.tags));
                for tag in tags {
                    prop_assert!(!limit.locked_tags.contains(tag), "{:?}", proposal);
                }
            }
            let ninety = rung.is_some_and(|rung| rung.tags.contains(&Tag::NinetyNinety));
            let careful = gate.tracks.growth.is_some() || gate.tracks.hypermobile.is_some();
            prop_assert!(!(ninety && careful));
        }
    }

    #[test]
    fn a_step_up_is_never_given_within_the_days_after_pain(history in record()) {
        let (gate, plan) = judged(protocol(), &history);
        if let Some((until, _)) = &gate.no_up_before && ON < *until {
            for proposal in &plan.proposals {
                prop_assert!(!is_step(proposal), "{:?}", proposal);
            }
        }
    }

    #[test]
    fn a_step_is_one_rung_and_both_arms_stay_within_one(history in record()) {
        let (_, plan) = judged(protocol(), &history);
        for proposal in plan.proposals.iter().filter(|proposal| is_step(proposal)) {
            let exercise = protocol().exercise(&proposal.exercise).expect("known");
            let place = |proposal: &Proposal| {
                let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.clone()).or_else(|| proposal.from.clone());
                rung.and_then(|rung| exercise.place_of(&rung))
            };
            let from = proposal.from.as_ref().and_then(|rung| exercise.place_of(rung));
            prop_assert_eq!(place(proposal), from.map(|from| from + 1));
            if proposal.side.shoulder().is_some() {
                let other = line(&plan, exercise.id.as_str(), proposal.side.mirrored());
                let theirs = other.from.as_ref().and_then(|rung| exercise.place_of(rung));
                prop_assert!(place(proposal) <= theirs.map(|place| place + 1), "{:?} {:?}", proposal, other);
            }
        }
    }

    #[test]
    fn at_most_two_exercises_step_up_together(history in record()) {
        let shipped = trade::protocol::read::shipped();
        let (_, plan) = judged(shipped, &history);
        let stepping: std::collections::BTreeSet<_> =
            plan.proposals.iter().filter(|proposal| is_step(proposal)).map(|proposal| &proposal.exercise).collect();
        prop_assert!(stepping.len() <= 2);
    }

    #[test]
    fn nothing_is_timed_before_it_is_signed_off(history in record()) {
        let (_, plan) = judged(protocol(), &history);
        for proposal in &plan.proposals {
            let signed = history.sign_offs.iter().any(|sign| sign.exercise == proposal.exercise);
            prop_assert!(signed || proposal.dose.as_ref().is_none_or(|dose| !dose.timed));
        }
    }

    #[test]
    fn every_proposal_says_why(history in record()) {
        let (_, plan) = judged(protocol(), &history);
        for proposal in &plan.proposals {
            prop_assert!(!proposal.trace.is_empty());
            prop_assert!(proposal.action != Action::Up || proposal.dose.is_some());
        }
    }

    #[test]
    fn left_is_like_right(history in record()) {
        let (gate, plan) = judged(protocol(), &history);
        let (other_gate, other_plan) = judged(protocol(), &mirrored(&history));
        prop_assert_eq!(told(&gate, &plan.proposals, false), told(&other_gate, &other_plan.proposals, true));
    }

    #[test]
    fn the_order_of_rows_does_not_matter(history in record()) {
        let (_, plan) = judged(protocol(), &history);
        let (_, turned) = judged(protocol(), &backwards(history));
        prop_assert_eq!(plan, turned);
    }

    #[test]
    fn planning_twice_says_the_same(history in record()) {
        prop_assert_eq!(judged(protocol(), &history), judged(protocol(), &history));
    }

    #[test]
    fn far_away_days_do_not_break_anything(history in record(), shift in prop::sample::select(vec![-3_000_000_i64, -400_000, 400_000, 2_800_000])) {
        let mut history = history;
        let far = |date: jiff::civil::Date| date.saturating_add(jiff::ToSpan::days(shift));
        for session in history.sessions.iter_mut().step_by(2) {
            session.date = far(session.date);
        }
        for pain in history.pains.iter_mut().step_by(2) {
            pain.date = far(pain.date);
        }
        for absence in &mut history.absences {
            absence.from = far(absence.from);
        }
        for meet in &mut history.calendar.meets {
            meet.date = far(meet.date);
        }
        for letter in &mut history.clearances {
            letter.date = far(letter.date);
        }
        let (_, plan) = judged(protocol(), &history);
        prop_assert!(!plan.proposals.is_empty());
    }
}

/// What is told of each line, with sides turned over where asked.
fn told(gate: &Gate, proposals: &[Proposal], turn: bool) -> Vec<String> {
    let mut lines: Vec<String> = proposals
        .iter()
        .map(|proposal| {
            let side = if turn { proposal.side.mirrored() } else { proposal.side };
            let mut codes: Vec<&str> = proposal.trace.iter().map(|line| line.rule.0).collect();
            codes.sort_unstable();
            let Proposal { exercise, action, from, dose, count, .. } = proposal;
            format!("{exercise} {side:?} {action:?} {from:?} {dose:?} {count:?} {codes:?}")
        })
        .collect();
    lines.sort();
    for side in Side::BOTH {
        let shown = if turn { side.other() } else { side };
        lines.push(format!("{:?}", gate.shoulder(shown)));
    }
    lines
}

fn other(side: &mut Option<Side>) {
    *side = side.map(Side::other);
}

fn mirrored(history: &History) -> History {
    let mut history = history.clone();
    for report in &mut history.pains {
        std::mem::swap(&mut report.left, &mut report.right);
        other(&mut report.sign_side);
    }
    history.clearances.iter_mut().for_each(|letter| other(&mut letter.side));
    history.limits.iter_mut().for_each(|limit| other(&mut limit.side));
    history.reopenings.iter_mut().for_each(|opened| other(&mut opened.side));
    let turn = |side: &mut WorkingSide| *side = side.mirrored();
    history.placements.iter_mut().for_each(|placement| turn(&mut placement.side));
    for session in &mut history.sessions {
        session.blocks.iter_mut().for_each(|block| turn(&mut block.side));
    }
    history
}

fn backwards(mut history: History) -> History {
    history.sign_offs.reverse();
    history.taught.reverse();
    history.pains.reverse();
    history.absences.reverse();
    history.clearances.reverse();
    history.limits.reverse();
    history.reopenings.reverse();
    history.placements.reverse();
    history.sessions.reverse();
    history.sessions.iter_mut().for_each(|session| session.blocks.reverse());
    history.calendar.periods.reverse();
    history.calendar.meets.reverse();
    history
}
