//! Reading the names in a history file: exercises, sides, rungs and faults, every problem with its place.

use quantity::Mass;
use trade::history;
use trade::name::{ExerciseId, RungId};
use trade::protocol::{Arms, Exercise, Load, Protocol, Rung};
use trade::side::WorkingSide;

use super::propose::BlockWord;
use crate::facts::{Problem, SetWord, WorkingSideWord};

/// A rung as a file names it: by name, by level counted from one, by the weight in each hand, or by the band's force
/// at double length.
#[derive(Clone, Copy, Default)]
pub(super) struct Named<'a> {
    pub(super) rung: Option<&'a str>,
    pub(super) level: Option<usize>,
    pub(super) weight_kg: Option<f64>,
    pub(super) band_n: Option<f64>,
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9
}

/// Collects every problem of a file instead of stopping at the first.
pub(super) struct Reading<'a> {
    /// Protocol that names exercises, rungs and faults.
    pub(super) protocol: &'a Protocol,
    /// What was found so far.
    pub(super) problems: Vec<Problem>,
}

impl<'a> Reading<'a> {
    pub(super) fn list<T, U>(
        &mut self,
        path: &str,
        items: &[T],
        convert: impl Fn(&T) -> Result<U, Vec<Problem>>,
    ) -> Vec<U> {
        let mut converted = Vec::new();
        for (index, item) in items.iter().enumerate() {
            match convert(item) {
                Ok(value) => converted.push(value),
                Err(problems) => {
                    let outer = format!("{path}[{index}]");
                    self.problems.extend(problems.into_iter().map(|problem| problem.under(&outer)));
                }
            }
        }
        converted
    }

    pub(super) fn exercise(&mut self, path: &str, id: &str) -> Option<&'a Exercise> {
        let found = self.protocol.exercise(&ExerciseId::new(id));
        if found.is_none() {
            self.problems.push(Problem::at(path, "fact-unknown-exercise").with("word", id));
        }
        found
    }

    pub(super) fn side(
        &mut self,
        path: &str,
        exercise: &Exercise,
        word: Option<WorkingSideWord>,
    ) -> Option<WorkingSide> {
        let (expected, only) = match exercise.arms {
            Arms::One => ("left / right", None),
            Arms::Both => ("both", Some(WorkingSide::Both)),
            Arms::Midline => ("midline", Some(WorkingSide::Midline)),
        };
        let side: Option<WorkingSide> = word.map(Into::into).or(only);
        let fits = side.is_some_and(|side| match only {
            Some(only) => side == only,
            None => side.shoulder().is_some(),
        });
        if fits {
            return side;
        }
        self.problems.push(
            Problem::at(format!("{path}.side"), "fact-wrong-side")
                .with("exercise", &exercise.id)
                .with("expected", expected),
        );
        None
    }

    /// The rung that was named, in exactly one of the four ways.
    pub(super) fn rung(&mut self, path: &str, exercise: &Exercise, named: Named<'_>) -> Option<RungId> {
        self.rung_of(path, exercise, named).map_err(|problem| self.problems.push(problem)).ok()
    }

    fn rung_of(&self, path: &str, exercise: &Exercise, named: Named<'_>) -> Result<RungId, Problem> {
        let unknown = |word: String| {
            let rungs: Vec<&str> = exercise.ladder.iter().map(|rung| rung.id.as_str()).collect();
            Problem::at(path, "fact-unknown-rung")
                .with("exercise", &exercise.id)
                .with("word", word)
                .with("rungs", rungs.join(", "))
        };
        let found =
            |rung: Option<&Rung>, word: String| rung.map(|rung| rung.id.clone()).ok_or_else(|| unknown(word));
        match named {
            Named { rung: Some(name), level: None, weight_kg: None, band_n: None } => {
                found(exercise.rung(&RungId::new(name)), name.to_owned())
            }
            Named { rung: None, level: Some(level), weight_kg: None, band_n: None } => {
                let place = level.checked_sub(1).and_then(|place| exercise.ladder.get(place));
                found(place, format!("level {level}"))
            }
            Named { rung: None, level: None, weight_kg: Some(kg), band_n: None } => {
                let limit = self.protocol.parameters.scaption_limit;
                if limit.in_kilograms() < kg {
                    let pounds = |kg: f64| format!("{:.2}", Mass::from_kilograms(kg).pounds());
                    return Err(Problem::at(format!("{path}.weight_kg"), "contract-over-limit")
                        .with("kg", kg)
                        .with("lb", pounds(kg))
                        .with("limit", limit.in_kilograms())
                        .with("limit_lb", pounds(limit.in_kilograms())));
                }
                let fits = |rung: &&Rung| match rung.load {
                    Load::Weight(mass) => same(mass.in_kilograms(), kg),
                    Load::Unloaded => kg == 0.0 && rung.tempo.is_none(),
                    _ => false,
                };
                found(self.steps(exercise).find(fits), format!("{kg} kg"))
            }
            Named { rung: None, level: None, weight_kg: None, band_n: Some(newtons) } => {
                let fits = |rung: &&Rung| matches!(rung.load, Load::Band(force) if same(force.in_newtons(), newtons));
                found(self.steps(exercise).find(fits), format!("{newtons} N"))
            }
            _ => Err(Problem::at(path, "contract-one-rung")),
        }
    }

    /// The rungs that are steps of load; variants that are harder without more load go by their names.
    fn steps<'e>(&self, exercise: &'e Exercise) -> impl Iterator<Item = &'e Rung> + use<'e> {
        exercise.ladder.iter().filter(|rung| !rung.not_heavier)
    }

    fn fault(&mut self, path: &str, code: Option<&str>) {
        if let Some(code) = code
            && self.protocol.fault(&trade::name::FaultCode::new(code)).is_none()
        {
            self.problems.push(Problem::at(path, "fact-unknown-fault").with("word", code));
        }
    }

    pub(super) fn block(&mut self, path: &str, word: &BlockWord) -> Option<history::Block> {
        let exercise = self.exercise(&format!("{path}.exercise"), &word.exercise)?;
        let side = self.side(path, exercise, word.side);
        let planned = self.rung(path, exercise, word.named());
        let used = match &word.used {
            Some(used) => {
                self.rung(&format!("{path}.used"), exercise, Named { rung: Some(used), ..Named::default() })
            }
            None => planned.clone(),
        };
        if word.sets.is_empty() {
            self.problems.push(Problem::at(format!("{path}.sets"), "contract-no-sets"));
        }
        let cap = exercise.cap(&self.protocol.parameters);
        let mut sets = Vec::new();
        for (index, set) in word.sets.iter().enumerate() {
            let outer = format!("{path}.sets[{index}]");
            self.fault(&format!("{outer}.fault"), set.fault.as_deref());
            self.fault(&format!("{outer}.fault_left"), set.fault_left.as_deref());
            let set = SetWord { seen: set.seen.or(word.seen), ..set.clone() };
            match set.to_trade(u8::try_from(index + 1).unwrap_or(u8::MAX), cap) {
                Ok(set) => sets.push(set),
                Err(problems) => {
                    self.problems.extend(problems.into_iter().map(|problem| problem.under(&outer)));
                }
            }
        }
        Some(history::Block {
            exercise: exercise.id.clone(),
            side: side?,
            planned: planned?,
            used: used?,
            prescribed_sets: word.prescribed_sets.unwrap_or(self.protocol.parameters.sets),
            sets,
        })
    }
}
