//! Which exercise and which rung a row means: by id, by name, by place in the ladder, or by what it pulls or weighs.

use quantity::Mass;
use quantity::reading::{self, DecimalMark, Dimension, Unit};
use trade::protocol::{Exercise, Load, Rung};

use super::people::Exercises;
use super::problem::{Problem, Said};
use super::words::{nearest, short, squashed};

/// The exercise whose weights have a fixed upper limit.
const SCAPTION: &str = "RC-3";

/// Largest difference between what was written and a rung, as a share; ladders step by far more.
const CLOSE: f64 = 0.04;

/// Finds an exercise by id or name.
pub(super) fn exercise<'a>(known: &Exercises<'a>, text: &str) -> Result<&'a Exercise, Problem> {
    let wanted = squashed(text);
    let by_id = known.exercises.iter().find(|exercise| squashed(exercise.id.as_str()) == wanted);
    let mut by_name = known.exercises.iter().filter(|exercise| squashed(&exercise.name) == wanted);
    if let Some(exercise) = by_id {
        return Ok(exercise);
    }
    match (by_name.next(), by_name.next()) {
        (Some(exercise), None) => return Ok(exercise),
        (Some(_), Some(_)) => {
            return Err(Problem::new("import-exercise-two").suggest(Said::new("import-try-exercise-id")));
        }
        (None, _) => {}
    }
    let names = known.exercises.iter().flat_map(|exercise| [exercise.id.as_str(), exercise.name.as_str()]);
    let near = nearest(text, names);
    let all: Vec<&str> = known.exercises.iter().map(|exercise| exercise.id.as_str()).collect();
    let suggestion = if near.is_empty() {
        Said::new("import-try-one-of").with("words", all.join(", "))
    } else {
        Said::new("import-try-nearest").with("names", near.join(", "))
    };
    Err(Problem::new("import-exercise-unknown").with("exercise", text).suggest(suggestion))
}

/// Finds a rung by id, name, or what resists; a bare number is refused, because it may be a level or a load.
pub(super) fn by_text<'a>(
    known: &Exercises<'_>,
    exercise: &'a Exercise,
    text: &str,
) -> Result<&'a Rung, Problem> {
    let wanted = squashed(text);
    let named = exercise
        .ladder
        .iter()
        .find(|rung| squashed(rung.id.as_str()) == wanted || squashed(&rung.name) == wanted);
    if let Some(rung) = named {
        return Ok(rung);
    }
    if let Some(level) = wanted.strip_prefix("level").and_then(|level| level.parse::<u16>().ok()) {
        return by_level(exercise, level);
    }
    let mark = if text.contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    let has = |wanted: fn(&Load) -> bool| exercise.ladder.iter().any(|rung| wanted(&rung.load));
    if has(|load| matches!(load, Load::Band(_)))
        && let Ok(read) = reading::quantity(text, Dimension::Force, None, Some(mark))
    {
        return by_load(known, exercise, read.value, read.half_last_place, read.unit);
    }
    if let Ok(read) = reading::quantity(text, Dimension::Mass, None, Some(mark)) {
        return by_load(known, exercise, read.value, read.half_last_place, read.unit);
    }
    if reading::number(text, Some(mark)).is_ok() {
        return Err(Problem::new("import-rung-bare-number").suggest(Said::new("import-try-rung-unit")));
    }
    Err(not_on_ladder(exercise, None))
}

/// Finds a rung by its place, the easiest being level 1.
pub(super) fn by_level(exercise: &Exercise, level: u16) -> Result<&Rung, Problem> {
    usize::from(level)
        .checked_sub(1)
        .and_then(|place| exercise.ladder.get(place))
        .ok_or_else(|| Problem::new("import-level-not-there").with("levels", exercise.ladder.len()))
}

/// Finds the rung that resists as much as was written, to the last place written. `value` in newtons or kilograms.
pub(super) fn by_load<'a>(
    known: &Exercises<'_>,
    exercise: &'a Exercise,
    value: f64,
    half_last_place: f64,
    unit: Unit,
) -> Result<&'a Rung, Problem> {
    let is_mass = unit.dimension() == Dimension::Mass;
    let limit = known.scaption_limit.in_kilograms();
    if is_mass && exercise.id.as_str() == SCAPTION && limit + 1e-9 < value {
        return Err(Problem::new("import-scaption-too-heavy")
            .with("limit", short(unit.from_canonical(limit)))
            .with("unit", unit.symbol())
            .with("limit_kg", short(limit)));
    }
    let loads = |rung: &Rung| match (rung.load, is_mass) {
        (Load::Band(force), false) => Some(force.in_newtons()),
        (Load::Weight(mass), true) => Some(mass.in_kilograms()),
        (Load::Unloaded, _) => Some(0.0),
        _ => None,
    };
    let slack = half_last_place.min(CLOSE * value.abs()).max(1e-9) * (1.0 + 1e-9);
    let fits = |rung: &&Rung| loads(rung).is_some_and(|load| (load - value).abs() <= slack);
    // Harder ways of lifting the same weight are no answer to "how heavy": the first rung of that weight is.
    let mut fitting: Vec<&Rung> = exercise.ladder.iter().filter(fits).collect();
    fitting.sort_by(|a, b| {
        let gap = |rung: &Rung| loads(rung).map_or(f64::INFINITY, |load| (load - value).abs());
        gap(a).total_cmp(&gap(b))
    });
    match fitting.as_slice() {
        [] => Err(not_on_ladder(exercise, Some(unit))),
        [rung] => Ok(rung),
        [first, second, ..] if loads(first) == loads(second) => {
            if second.not_heavier {
                Ok(first)
            } else {
                Err(Problem::new("import-rung-two").suggest(Said::new("import-try-rung-id").with(
                    "rungs",
                    fitting.iter().map(|rung| rung.id.as_str()).collect::<Vec<_>>().join(", "),
                )))
            }
        }
        [first, ..] => Ok(first),
    }
}

/// No such rung; lists the ladder in the unit that was written.
fn not_on_ladder(exercise: &Exercise, unit: Option<Unit>) -> Problem {
    let shown = |rung: &Rung| {
        let load = match (rung.load, unit) {
            (Load::Band(force), Some(unit)) if unit.dimension() == Dimension::Force => {
                Some((force.in_newtons(), unit))
            }
            (Load::Weight(mass), Some(unit)) if unit.dimension() == Dimension::Mass => Some((kg(mass), unit)),
            _ => None,
        };
        match load {
            Some((value, unit)) => {
                format!("{} ({} {})", rung.id, short(unit.from_canonical(value)), unit.symbol())
            }
            None => rung.id.to_string(),
        }
    };
    let ladder: Vec<String> = exercise.ladder.iter().map(shown).collect();
    Problem::new("import-rung-unknown")
        .with("exercise", exercise.id.as_str())
        .suggest(Said::new("import-try-one-of").with("words", ladder.join(", ")))
}

fn kg(mass: Mass) -> f64 {
    mass.in_kilograms()
}
