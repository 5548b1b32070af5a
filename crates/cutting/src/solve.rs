//! The exact search: a choice is a set of nought-or-one variables, a need is met when one of its candidates is chosen.

use good_lp::solvers::SolutionStatus;
use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, WithTimeLimit, variable};

use crate::greedy::greedy;
use crate::{Cut, Need, Proof, Question, Refusal};

/// Chooses what to cut within a time limit in seconds.
///
/// First as much weight of needs as possible, then as few loops as possible: one objective in which a unit of weight
/// counts more than all loops together. Needs that the same candidates meet are put together, and candidates that
/// another one of the same roll covers in full are left out, which changes no optimum.
pub fn cut(question: &Question, seconds: f64) -> Result<Cut, Refusal> {
    question.check()?;
    let started = greedy(question);
    let merged = merged(question);
    let useful = useful(question, &merged);
    if useful.is_empty() {
        return Ok(answer(question, Vec::new(), Bound::Proven));
    }
    let (chosen, bound) = search(question, &merged, &useful, &started, seconds.clamp(0.05, 3600.0));
    // A solver that found nothing, or less than the quick choice, never makes the answer worse.
    let better = |one: &[usize], other: &[usize]| {
        let value = |chosen: &[usize]| (question.met(chosen).1, std::cmp::Reverse(chosen.len()));
        value(other) < value(one)
    };
    let chosen = match chosen {
        Some(found) if question.allows(&found) && !better(&started, &found) => found,
        _ => started,
    };
    Ok(answer(question, pruned(question, chosen), bound))
}

/// What the search knows of the best possible value.
#[derive(Debug, Clone, Copy)]
enum Bound {
    /// What was found is the best.
    Proven,
    /// Nothing is above this.
    Value(f64),
}

/// Needs with their distinct sets of candidates, weights added up; needs that nothing meets are left out.
fn merged(question: &Question) -> Vec<Need> {
    let mut sets = std::collections::BTreeMap::<Vec<usize>, u32>::new();
    for need in &question.needs {
        let mut met_by = need.met_by.clone();
        met_by.sort_unstable();
        met_by.dedup();
        if !met_by.is_empty() {
            let weight = sets.entry(met_by).or_default();
            *weight = weight.saturating_add(need.weight.max(1));
        }
    }
    sets.into_iter().map(|(met_by, weight)| Need { met_by, weight }).collect()
}

/// Candidates that no other of the same roll replaces in full.
fn useful(question: &Question, needs: &[Need]) -> Vec<usize> {
    let meets: Vec<Vec<usize>> = (0..question.candidates.len())
        .map(|at| (0..needs.len()).filter(|need| needs[*need].met_by.contains(&at)).collect())
        .collect();
    let within = |one: &[usize], other: &[usize]| one.iter().all(|need| other.contains(need));
    (0..question.candidates.len())
        .filter(|one| {
            let replaced = (0..question.candidates.len()).any(|other| {
                let same_roll = question.candidates[*one].roll == question.candidates[other].roll;
                let equal = meets[*one] == meets[other];
                other != *one && same_roll && within(&meets[*one], &meets[other]) && (!equal || other < *one)
            });
            !meets[*one].is_empty() && !replaced
        })
        .collect()
}

fn search(
    question: &Question,
    needs: &[Need],
    useful: &[usize],
    started: &[usize],
    seconds: f64,
) -> (Option<Vec<usize>>, Bound) {
    // A unit of weight counts more than every loop together.
    let unit = useful.len() as f64 + 1.0;
    let solved = |relaxed: bool, seconds: f64| {
        let mut variables = ProblemVariables::new();
        let choose: Vec<Variable> = useful
            .iter()
            .map(|at| {
                let one = variable().min(0).max(1);
                let one = if relaxed { one } else { one.integer().initial(f64::from(started.contains(at))) };
                variables.add(one)
            })
            .collect();
        let met: Vec<Variable> = needs
            .iter()
            .map(|need| {
                let began = need.met_by.iter().any(|at| started.contains(at));
                let one = variable().min(0).max(1);
                variables.add(if relaxed { one } else { one.initial(f64::from(began)) })
            })
            .collect();
        let weight: Expression =
            needs.iter().zip(&met).map(|(need, met)| f64::from(need.weight) * unit * *met).sum();
        let loops: Expression = choose.iter().map(|choose| 1.0 * *choose).sum();
        let mut model = variables.maximise(weight - loops.clone()).using(solver).with_time_limit(seconds);
        for (need, met) in needs.iter().zip(&met) {
            let any: Expression = useful
                .iter()
                .zip(&choose)
                .filter(|(at, _)| need.met_by.contains(at))
                .map(|(_, choose)| 1.0 * *choose)
                .sum();
            model.add_constraint((1.0 * *met - any).leq(0));
        }
        if let Some(most) = question.most_per_roll {
            let mut rolls: Vec<usize> = useful.iter().map(|at| question.candidates[*at].roll).collect();
            rolls.sort_unstable();
            rolls.dedup();
            for roll in rolls {
                let of_roll: Expression = useful
                    .iter()
                    .zip(&choose)
                    .filter(|(at, _)| question.candidates[**at].roll == roll)
                    .map(|(_, choose)| 1.0 * *choose)
                    .sum();
                model.add_constraint(of_roll.leq(most as f64));
            }
        }
        if let Some(most) = question.most_in_all {
            model.add_constraint(loops.leq(most as f64));
        }
        model.solve().ok().map(|solution| {
            let chosen: Vec<usize> = useful
                .iter()
                .zip(&choose)
                .filter(|(_, x)| 0.5 < solution.value(**x))
                .map(|(at, _)| *at)
                .collect();
            let value: f64 = needs
                .iter()
                .zip(&met)
                .map(|(need, met)| f64::from(need.weight) * unit * solution.value(*met))
                .sum::<f64>()
                - choose.iter().map(|x| solution.value(*x)).sum::<f64>();
            (chosen, value, solution.status())
        })
    };
    match solved(false, seconds) {
        Some((chosen, _, SolutionStatus::Optimal)) => (Some(chosen), Bound::Proven),
        other => {
            // Out of time: the same question without "whole loops only" bounds what could still be found.
            let relaxed = solved(true, seconds).map(|(_, value, _)| value / unit);
            let all: f64 = needs.iter().map(|need| f64::from(need.weight)).sum();
            (other.map(|(chosen, ..)| chosen), Bound::Value(relaxed.unwrap_or(all)))
        }
    }
}

#[cfg(not(feature = "highs"))]
use good_lp::solvers::microlp::microlp as solver;

#[cfg(feature = "highs")]
use good_lp::solvers::highs::highs as solver;

/// Leaves out what meets nothing that the others do not meet.
fn pruned(question: &Question, mut chosen: Vec<usize>) -> Vec<usize> {
    let (_, whole) = question.met(&chosen);
    let mut index = 0;
    while index < chosen.len() {
        let mut without = chosen.clone();
        without.remove(index);
        if question.met(&without).1 == whole { chosen = without } else { index += 1 }
    }
    chosen.sort_unstable();
    chosen
}

fn answer(question: &Question, chosen: Vec<usize>, bound: Bound) -> Cut {
    let (met, met_weight) = question.met(&chosen);
    let (most_possible, fewest_possible, proof) = match bound {
        Bound::Proven => (met_weight, chosen.len(), Proof::Proven),
        Bound::Value(value) => {
            // The bound mixes weight and loops; rounded up to whole weight it bounds the weight alone.
            let most = (value + 1e-6).ceil().max(met_weight as f64);
            let gap = (value - (met_weight as f64 - chosen.len() as f64 * 1e-3)).max(0.0)
                / (met_weight as f64).max(1.0);
            (most as u64, usize::from(!chosen.is_empty()), Proof::Gap(gap))
        }
    };
    Cut { chosen, met, met_weight, most_possible, fewest_possible, proof }
}
