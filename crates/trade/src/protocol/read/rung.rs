//! Reading a ladder, and the tempo of an exercise or a rung.

use std::collections::BTreeSet;
use std::ops::Range;

use quantity::{Force, HoldTime, Mass};
use toml::Spanned;
use toml::de::DeValue;

use super::lists::Seen;
use super::problem::{BAD_TEMPO, RUNG_LOAD, Report, UNKNOWN_WORD};
use super::table::{Table, number_within, one_of, text, wrong_type};
use crate::name::RungId;
use crate::protocol::{Load, Rung, Tag, Tempo};

/// Keys of a rung.
const KEYS: &[&str] = &[
    "id",
    "name",
    "band_n",
    "band_lbf",
    "weight_kg",
    "weight_lb",
    "load",
    "not_heavier",
    "tempo",
    "tags",
    "from_age",
];

/// Keys that say what resists; a rung has exactly one.
const LOADS: &[&str] = &["band_n", "band_lbf", "weight_kg", "weight_lb", "load"];

/// Longest phase of a repetition that is still a repetition, in seconds.
const LONGEST_PHASE: f64 = 10.0;

/// Reads the rungs of one exercise with their places.
pub(super) fn ladder(
    exercise: &str,
    value: &Spanned<DeValue<'_>>,
    report: &mut Report<'_>,
) -> Vec<(Rung, Range<usize>)> {
    let Some(list) = value.get_ref().as_array() else {
        wrong_type("ladder", "tables", value, report);
        return Vec::new();
    };
    let mut seen = Seen::default();
    let mut rungs = Vec::new();
    for item in list.iter() {
        let Some(table) = Table::open(item, "ladder", Some("id"), KEYS, report) else { continue };
        let (id, at) = table.id("id", report);
        seen.take("rung", &id, &at, report);
        let load = load(exercise, &table, report);
        let rung = Rung {
            id: RungId::new(&id),
            name: table.text("name", report),
            load: load.unwrap_or(Load::Position),
            not_heavier: table.flag("not_heavier", report).unwrap_or(false),
            tempo: table.find("tempo").and_then(|value| tempo(value, &table.within, report)),
            tags: tags(&table, report),
            from_age: table.whole("from_age", (6, 99), report),
        };
        rungs.push((rung, at));
    }
    rungs
}

/// Reads the tags of an exercise or a rung.
pub(super) fn tags(table: &Table<'_>, report: &mut Report<'_>) -> BTreeSet<Tag> {
    table
        .texts("tags", false, report)
        .into_iter()
        .filter_map(|(word, at)| one_of("tags", &word, at, &Tag::ALL, Tag::word, report))
        .collect()
}

/// What resists: one key of [`LOADS`]. Pounds are turned into the stored unit here and nowhere else.
fn load(exercise: &str, table: &Table<'_>, report: &mut Report<'_>) -> Option<Load> {
    let given: Vec<_> = LOADS.iter().filter_map(|key| table.find(key).map(|value| (*key, value))).collect();
    let &[(key, value)] = given.as_slice() else {
        let place = format!("{exercise} {}", table.within);
        let found = if given.is_empty() { "none" } else { "several" };
        report.add(&RUNG_LOAD, table.at.clone(), [place, found.to_owned()]);
        return None;
    };
    // The widest limits only catch slips; what is safe is checked against the protocol's own limits.
    let amount = |high: f64, report: &mut Report<'_>| number_within(key, value, (0.01, high), report);
    match key {
        "band_n" => amount(1000.0, report).map(|force| Load::Band(Force::from_newtons(force))),
        "band_lbf" => amount(220.0, report).map(|force| Load::Band(Force::from_pounds_force(force))),
        "weight_kg" => amount(30.0, report).map(|mass| Load::Weight(Mass::from_kilograms(mass))),
        "weight_lb" => amount(66.0, report).map(|mass| Load::Weight(Mass::from_pounds(mass))),
        _ => {
            let (word, at) = text(key, value, &table.within, report)?;
            match word.as_str() {
                "unloaded" => Some(Load::Unloaded),
                "position" => Some(Load::Position),
                _ => {
                    let near = super::problem::nearest(&word, ["unloaded", "position"]);
                    let values = [key.to_owned(), word, near, "unloaded, position".to_owned()];
                    report.add(&UNKNOWN_WORD, at, values);
                    None
                }
            }
        }
    }
}

/// Reads a tempo: `2/0/2` (seconds out, held, back), `hold`, or `circles 15` (seconds between changes of direction).
pub(super) fn tempo(value: &Spanned<DeValue<'_>>, within: &str, report: &mut Report<'_>) -> Option<Tempo> {
    let (word, at) = text("tempo", value, within, report)?;
    let tempo = parse_tempo(&word);
    if tempo.is_none() {
        report.add(&BAD_TEMPO, at, [word]);
    }
    tempo
}

fn parse_tempo(word: &str) -> Option<Tempo> {
    let seconds = |text: &str, longest: f64| {
        let seconds: f64 = text.parse().ok()?;
        (0.0..=longest).contains(&seconds).then_some(seconds)
    };
    if word == "hold" {
        return Some(Tempo::Hold);
    }
    if let Some(every) = word.strip_prefix("circles ") {
        return Some(Tempo::Circles { reverse_every: HoldTime::from_seconds(seconds(every, 120.0)?) });
    }
    let phases: Vec<f64> =
        word.split('/').map(|phase| seconds(phase, LONGEST_PHASE)).collect::<Option<_>>()?;
    match phases.as_slice() {
        &[out, hold, back] if out > 0.0 && back > 0.0 => Some(Tempo::Beat { out, hold, back }),
        _ => None,
    }
}
