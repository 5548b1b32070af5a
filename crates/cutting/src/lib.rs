//! Which few loops to cut: the choice that gives most swimmers a rung to stand on and a next one, with fewest loops.
//!
//! Knows no swimmer, band or torque: a candidate is a number with the roll it is cut from, a need is a set of candidates
//! any one of which meets it. Exact optimisation by a solver library; where time runs out, the gap is shown.
//!
//! - [`Question`], [`cut`], [`Cut`]: the question, the search, the answer with its proof.
//! - [`mod@stock`]: how many of each chosen loop the busiest session takes.
//!
//! The solver is pure Rust; the feature `highs` swaps in a faster one that needs a C++ compiler.

mod greedy;
mod solve;
mod stock;

pub use solve::cut;
pub use stock::{Wave, stock};

/// One loop that could be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Candidate {
    /// The roll it comes from.
    pub roll: usize,
}

/// Something a swimmer needs: any one of these candidates will do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// Candidates that meet it, by their place in the question.
    pub met_by: Vec<usize>,
    /// How much it counts; at least one.
    pub weight: u32,
}

/// What is to be chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Everything that could be cut.
    pub candidates: Vec<Candidate>,
    /// Everything that is needed.
    pub needs: Vec<Need>,
    /// Most lengths that may be cut from one roll; none for as many as help.
    pub most_per_roll: Option<usize>,
    /// Most lengths in all.
    pub most_in_all: Option<usize>,
}

/// Why a question cannot be answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// A need names a candidate that is not there. Needs are counted from 0.
    NoSuchCandidate {
        /// Which need.
        need: usize,
        /// What it names.
        candidate: usize,
    },
    /// More candidates or needs than this is meant for.
    TooLarge,
}

/// What to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Candidates to cut, in order.
    pub chosen: Vec<usize>,
    /// For every need whether it is met.
    pub met: Vec<bool>,
    /// Weight of the needs that are met.
    pub met_weight: u64,
    /// No choice at all could meet more than this.
    pub most_possible: u64,
    /// No choice that meets as much has fewer loops than this.
    pub fewest_possible: usize,
    /// Whether the choice is proven to be the best.
    pub proof: Proof,
}

/// How sure it is that nothing better exists.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Proof {
    /// Proven: nothing meets more, and nothing with fewer loops meets as much.
    Proven,
    /// Time ran out; the best possible value lies at most this far above what was found, as a part of it.
    Gap(f64),
}

/// Largest question: beyond it a club has mistaken something.
pub(crate) const MOST_CANDIDATES: usize = 2_000;
pub(crate) const MOST_NEEDS: usize = 20_000;

impl Question {
    pub(crate) fn check(&self) -> Result<(), Refusal> {
        if MOST_CANDIDATES < self.candidates.len() || MOST_NEEDS < self.needs.len() {
            return Err(Refusal::TooLarge);
        }
        for (need, wanted) in self.needs.iter().enumerate() {
            if let Some(candidate) = wanted.met_by.iter().find(|at| self.candidates.len() <= **at) {
                return Err(Refusal::NoSuchCandidate { need, candidate: *candidate });
            }
        }
        Ok(())
    }

    /// Whether each need is met by a choice, and their weight together.
    pub(crate) fn met(&self, chosen: &[usize]) -> (Vec<bool>, u64) {
        let met: Vec<bool> =
            self.needs.iter().map(|need| need.met_by.iter().any(|at| chosen.contains(at))).collect();
        let weight = self
            .needs
            .iter()
            .zip(&met)
            .filter(|(_, met)| **met)
            .map(|(need, _)| u64::from(need.weight))
            .sum();
        (met, weight)
    }

    /// Whether a choice keeps to the limits of every roll and in all.
    pub fn allows(&self, chosen: &[usize]) -> bool {
        let in_all = self.most_in_all.is_none_or(|most| chosen.len() <= most);
        let of_roll = |roll: usize| chosen.iter().filter(|at| self.candidates[**at].roll == roll).count();
        let per_roll = self
            .most_per_roll
            .is_none_or(|most| chosen.iter().all(|at| of_roll(self.candidates[*at].roll) <= most));
        in_all && per_roll
    }
}
