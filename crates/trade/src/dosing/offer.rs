//! Whether an exercise is given to this swimmer at all today, before anything is dosed.

use super::case::Case;
use super::{Action, Proposal};
use crate::name::RungId;
use crate::protocol::{Counting, Loads};
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// The proposal that gives nothing, where something stands in the way; the most cautious reason speaks.
pub fn withheld(case: &Case<'_>, from: Option<&RungId>) -> Option<Proposal> {
    let from = from.cloned();
    out(case)
        .or_else(|| stopped(case))
        .map(|(action, trace)| case.nothing(action, from.clone(), trace))
        .or_else(|| left_out(case).map(|trace| case.nothing(Action::LeaveOut, from, trace)))
}

/// The gate holds the person, or one of the shoulders that this line loads.
fn out(case: &Case<'_>) -> Option<(Action, Vec<Line>)> {
    let shoulders = case.shoulders();
    let spares_this_line = |hold: &crate::gate::Hold| {
        // "Out of shoulder dryland" says nothing about legs and trunk; a referral or missing papers do.
        shoulders.is_empty()
            && hold.availability == crate::gate::Availability::OutToday
            && hold.line.class == Class::Health
            && hold.urgency.is_none()
            && hold.line.rule.0.starts_with('E')
    };
    let concerns = |hold: &&crate::gate::Hold| {
        hold.availability.blocks()
            && match hold.side {
                None => !spares_this_line(hold),
                Some(side) => shoulders.contains(&side),
            }
    };
    let mut holds: Vec<_> = case.gate.holds.iter().filter(concerns).collect();
    if holds.is_empty() {
        return None;
    }
    // Worst first; the gate has already put holds of one kind in a fixed order.
    holds.sort_by_key(|hold| std::cmp::Reverse((hold.availability, hold.urgency)));
    let supporting =
        case.exercise.loads == Loads::BothShoulders && holds.iter().all(|hold| hold.side.is_some());
    let mut trace: Vec<Line> = holds.iter().map(|hold| hold.line.clone()).collect();
    if supporting {
        trace.push(Line::new(codes::D2, "offer-support-arm", Class::Dose));
    }
    Some((Action::Out, trace))
}

/// Stopped on the day itself.
fn stopped(case: &Case<'_>) -> Option<(Action, Vec<Line>)> {
    let stop = &case.gate.stop_today;
    let loads_a_shoulder = !case.shoulders().is_empty();
    let says = if stop.session {
        "stop-session"
    } else if stop.all_shoulder && loads_a_shoulder {
        "stop-all-shoulder"
    } else if stop.exercises.contains(&case.exercise.id) {
        "stop-exercise"
    } else {
        return None;
    };
    Some((Action::Stop, vec![Line::new(codes::D3, says, Class::Dose)]))
}

fn left_out(case: &Case<'_>) -> Option<Vec<Line>> {
    let exercise = case.exercise;
    if let Some(limit) = case.limits().find(|limit| limit.locked_exercises.contains(&exercise.id)) {
        let line = Line::new(codes::B8, "limit-locks-exercise", Class::Dose)
            .with("exercise", Arg::Exercise(exercise.id.clone()))
            .with("until", Arg::Date(limit.until));
        return Some(vec![line]);
    }
    if let Some(limit) = case.limits().find(|limit| limit.sets == Some(0)) {
        let line = Line::new(codes::B8, "limit-no-sets", Class::Dose).with("until", Arg::Date(limit.until));
        return Some(vec![line]);
    }
    if let Some(locked) = exercise.ladder.first().and_then(|_| {
        let all_locked: Option<Vec<Line>> =
            exercise.ladder.iter().map(|rung| case.rung_locked(rung)).collect();
        all_locked.and_then(|lines| lines.into_iter().next())
    }) {
        return Some(vec![locked]);
    }
    if exercise.ladder.is_empty()
        && let Some((tag, limit)) = case.limits().find_map(|limit| {
            exercise.tags.iter().find(|tag| limit.locked_tags.contains(tag)).map(|tag| (tag, limit))
        })
    {
        let line = Line::new(codes::B8, "limit-locks-tag", Class::Dose)
            .with("tag", Arg::Word(format!("tag-{}", tag.word())))
            .with("until", Arg::Date(limit.until));
        return Some(vec![line]);
    }
    if let Some(line) = &case.gate.tracks.hypermobile
        && exercise.hypermobile.left_out
    {
        return Some(vec![line.clone()]);
    }
    if let Some((_, line)) = case.gate.left_out.iter().find(|(id, _)| *id == exercise.id) {
        return Some(vec![line.clone()]);
    }
    if exercise.only_with_finding && !case.gate.with_finding.contains(&exercise.id) {
        return Some(vec![Line::new(codes::D4, "offer-only-with-finding", Class::Dose)]);
    }
    let is_loaded = exercise.counting == Counting::Timed && !case.shoulders().is_empty();
    if is_loaded && !case.bounds.nothing_loaded.is_empty() {
        return Some(case.bounds.nothing_loaded.clone());
    }
    None
}
