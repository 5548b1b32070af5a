//! The one place that knows which solver is behind the integer program.
//!
//! By default a solver in pure Rust, which builds everywhere. The feature `highs` puts a larger one in its place; that one
//! needs cmake and a C++ compiler, and answers with values a hair off whole numbers, which the caller rounds.

use good_lp::solvers::{ResolutionError, Solution, SolutionStatus, SolverModel, WithTimeLimit};
use good_lp::variable::UnsolvedProblem;
use good_lp::{Constraint, Variable};

/// What the solver found.
pub(super) struct Found {
    /// Values of the variables asked about, in their order.
    pub(super) values: Vec<f64>,
    /// True when nothing better exists.
    pub(super) is_proven: bool,
    /// Nothing is better than this, where the solver says so.
    pub(super) bound: Option<f64>,
}

/// Why there is nothing.
pub(super) enum Nothing {
    /// No assignment keeps every row.
    Impossible,
    /// Time was up, or the solver gave up.
    Unknown,
}

/// Solves within so many seconds.
pub(super) fn run(
    problem: UnsolvedProblem,
    rows: Vec<Constraint>,
    asked: &[Variable],
    seconds: f64,
) -> Result<Found, Nothing> {
    #[cfg(not(feature = "highs"))]
    let mut model = problem.using(good_lp::microlp).with_time_limit(seconds);
    #[cfg(feature = "highs")]
    let mut model = problem.using(good_lp::highs).with_time_limit(seconds);
    for row in rows {
        model.add_constraint(row);
    }
    let solution = model.solve().map_err(|error| match error {
        ResolutionError::Infeasible => Nothing::Impossible,
        _ => Nothing::Unknown,
    })?;
    let values = asked.iter().map(|variable| solution.value(*variable)).collect();
    let is_proven = matches!(solution.status(), SolutionStatus::Optimal);
    #[cfg(not(feature = "highs"))]
    let bound = solution.into_inner().stats().best_bound;
    #[cfg(feature = "highs")]
    let bound = None;
    Ok(Found { values, is_proven, bound })
}
