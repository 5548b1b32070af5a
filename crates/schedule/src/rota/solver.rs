//! The proof by constraint solver: is there a rota of this length or not?
//!
//! Each question fixes the horizon, which makes the no-overlap constraints strong; the answers close in on the
//! shortest length from both sides. A rota read backwards is a rota too, so one visit may be held to the first half.

use pumpkin_conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_core::Solver;
use pumpkin_core::results::{ProblemSolution, SatisfactionResult};
use pumpkin_core::termination::TerminationCondition;
use pumpkin_core::variables::DomainId;
use pumpkin_propagators::disjunctive::ArgDisjunctiveTask;

use super::{Method, Rota, Timetable, Visit, need};

/// What one question came to.
enum Found {
    /// A rota of at most that length.
    Rota(Vec<Visit>),
    /// There is none.
    None,
    /// Time was up first.
    Unknown,
}

struct Stop<'a>(&'a mut dyn FnMut() -> bool);

impl TerminationCondition for Stop<'_> {
    fn should_stop(&mut self) -> bool {
        (self.0)()
    }
}

/// Shortens `best` and raises its lower bound until they meet or time is up.
pub(super) fn improve(rota: &Rota, best: &mut Timetable, at_least: u32, stop: &mut dyn FnMut() -> bool) {
    best.at_least = at_least;
    best.method = Method::Solver;
    // Most rotas reach the lower bound itself, so that is asked first; then the middle of what is left.
    let mut ask = at_least;
    while best.at_least < best.length && !stop() {
        match within(rota, ask, stop) {
            Found::Rota(visits) => {
                best.length = visits.iter().map(|visit| visit.end).max().unwrap_or(0);
                best.visits = visits;
            }
            Found::None => best.at_least = ask + 1,
            Found::Unknown => return,
        }
        ask = best.at_least + (best.length.saturating_sub(best.at_least)) / 2;
        if best.length <= ask {
            ask = best.length.saturating_sub(1);
        }
    }
}

fn within(rota: &Rota, horizon: u32, stop: &mut dyn FnMut() -> bool) -> Found {
    let mut solver = Solver::default();
    let visits: Vec<(usize, usize, u32)> = rota.visits().collect();
    let longest = visits.iter().enumerate().max_by_key(|(_, (_, _, stay))| *stay).map(|(at, _)| at);
    let mut starts: Vec<DomainId> = Vec::new();
    for (at, (_, _, stay)) in visits.iter().enumerate() {
        let Some(mut last) = horizon.checked_sub(*stay) else { return Found::None };
        if longest == Some(at) {
            last /= 2;
        }
        starts.push(solver.new_bounded_integer(0, whole(last)));
    }
    if !post(rota, &mut solver, &visits, &starts) {
        return Found::None;
    }
    let mut brancher = solver.default_brancher();
    let mut resolver = ResolutionResolver::default();
    match solver.satisfy(&mut brancher, &mut Stop(stop), &mut resolver) {
        SatisfactionResult::Satisfiable(found) => {
            let solution = found.solution();
            let visits = visits
                .iter()
                .zip(&starts)
                .map(|((group, station, stay), start)| {
                    let start = u32::try_from(solution.get_integer_value(*start)).unwrap_or(0);
                    Visit { group: *group, station: *station, start, end: start + stay }
                })
                .collect();
            Found::Rota(visits)
        }
        SatisfactionResult::Unsatisfiable(..) => Found::None,
        SatisfactionResult::Unknown(..) => Found::Unknown,
    }
}

/// Posts every constraint; false when the solver sees at once that they cannot hold.
fn post(rota: &Rota, solver: &mut Solver, visits: &[(usize, usize, u32)], starts: &[DomainId]) -> bool {
    let together = |belongs: &dyn Fn(&(usize, usize, u32)) -> bool| -> Vec<ArgDisjunctiveTask<DomainId>> {
        visits
            .iter()
            .zip(starts)
            .filter(|(visit, _)| belongs(visit))
            .map(|((_, _, stay), start)| ArgDisjunctiveTask {
                start_time: *start,
                processing_time: whole(stay + rota.change),
            })
            .collect()
    };
    let by_group = (0..rota.stays.len()).map(|one| together(&|(group, _, _)| *group == one));
    let by_station = (0..rota.n_stations()).map(|one| together(&|(_, station, _)| *station == one));
    for tasks in by_group.chain(by_station).filter(|tasks| 1 < tasks.len()) {
        let tag = solver.new_constraint_tag();
        solver.add_constraint(pumpkin_constraints::disjunctive_strict(tasks, tag)).post();
    }
    for shared in &rota.kit {
        let used: Vec<(DomainId, i32, i32)> = visits
            .iter()
            .zip(starts)
            .map(|((_, station, stay), start)| (*start, whole(*stay), whole(need(shared, *station))))
            .filter(|(_, _, pieces)| *pieces != 0)
            .collect();
        if used.is_empty() {
            continue;
        }
        let tag = solver.new_constraint_tag();
        let constraint = pumpkin_constraints::cumulative(
            used.iter().map(|(start, _, _)| *start).collect::<Vec<_>>(),
            used.iter().map(|(_, stay, _)| *stay).collect::<Vec<_>>(),
            used.iter().map(|(_, _, pieces)| *pieces).collect::<Vec<_>>(),
            whole(shared.pieces),
            tag,
        );
        solver.add_constraint(constraint).post();
    }
    !solver.is_inconsistent()
}

fn whole(value: u32) -> i32 {
    i32::try_from(value).unwrap_or(i32::MAX)
}
