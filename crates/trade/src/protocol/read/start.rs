//! Reading the start table: where a newcomer's calibration set begins.

use std::ops::Range;

use quantity::HoldTime;
use toml::Spanned;
use toml::de::DeValue;

use super::lists::{Known, MARK, SOURCE, Seen, evidence};
use super::problem::{NOT_ASCENDING, Report, START_MISSING, START_PLAIN, UNKNOWN_NAME, WRONG_COUNT, nearest};
use super::table::{Table, number_within, text, whole, wrong_type};
use crate::name::{ExerciseId, RungId};
use crate::protocol::{Counting, Evidence, Exercise, Start, StartGroup};

const KEYS: &[&str] = &["group", "sets", "seconds", "sessions_a_week", "rungs", MARK, SOURCE];

/// Reads the table; every group must have a row, so that no newcomer is without a start.
pub(super) fn read(
    root: &Table<'_>,
    known: &Known,
    exercises: &[Exercise],
    report: &mut Report<'_>,
) -> Vec<Start> {
    let mut seen = Seen::default();
    let mut starts = Vec::new();
    let mut named = Vec::new();
    for table in root.tables("start", "group", KEYS, report) {
        let group = table.word("group", &StartGroup::ALL, StartGroup::word, report);
        let at = table.find("group").map_or_else(|| table.at.clone(), |value| value.span());
        let sets = table.need("sets", report).and_then(|value| whole("sets", value, (1, 3), report));
        let seconds = pair(&table, "seconds", report, |value, report| {
            number_within("seconds", value, (10.0, 120.0), report)
        });
        let sessions = pair(&table, "sessions_a_week", report, |value, report| {
            whole("sessions_a_week", value, (1, 4), report)
        });
        let rungs = rungs(&table, exercises, report);
        let evidence = evidence(&table, known, report).unwrap_or(Evidence::CommonPractice);
        let Some(group) = group else { continue };
        seen.take("group", group.word(), &at, report);
        named.push(group);
        let (Some(sets), Some(seconds), Some(sessions)) = (sets, seconds, sessions) else { continue };
        starts.push(Start {
            group,
            sets,
            seconds: (HoldTime::from_seconds(seconds.0), HoldTime::from_seconds(seconds.1)),
            sessions_a_week: sessions,
            rungs,
            evidence,
        });
    }
    if root.find("start").is_some() {
        let missing = StartGroup::ALL.into_iter().filter(|group| !named.contains(group));
        for group in missing {
            report.add(&START_MISSING, start_of_table(root), [group.word().to_owned()]);
        }
    }
    starts
}

fn start_of_table(root: &Table<'_>) -> Range<usize> {
    root.find("start").map_or(0..0, |value| value.span())
}

/// Two numbers, lowest and highest.
fn pair<T: PartialOrd>(
    table: &Table<'_>,
    key: &str,
    report: &mut Report<'_>,
    mut read: impl FnMut(&Spanned<DeValue<'_>>, &mut Report<'_>) -> Option<T>,
) -> Option<(T, T)> {
    let value = table.need(key, report)?;
    let Some(list) = value.get_ref().as_array() else {
        wrong_type(key, "numbers", value, report);
        return None;
    };
    let mut numbers: Vec<Option<T>> = list.iter().map(|item| read(item, report)).collect();
    if numbers.len() != 2 {
        report.add(&WRONG_COUNT, value.span(), [key.to_owned(), "2".to_owned(), numbers.len().to_string()]);
        return None;
    }
    let (high, low) = (numbers.pop()??, numbers.pop()??);
    if low > high {
        report.add(&NOT_ASCENDING, value.span(), [key.to_owned()]);
        return None;
    }
    Some((low, high))
}

fn rungs(table: &Table<'_>, exercises: &[Exercise], report: &mut Report<'_>) -> Vec<(ExerciseId, RungId)> {
    let Some(value) = table.need("rungs", report) else { return Vec::new() };
    let Some(list) = value.get_ref().as_table() else {
        wrong_type("rungs", "table", value, report);
        return Vec::new();
    };
    let mut rungs = Vec::new();
    for (key, value) in list {
        let name = key.get_ref().as_ref();
        let Some(exercise) = exercises.iter().find(|exercise| exercise.id.as_str() == name) else {
            let near = nearest(name, exercises.iter().map(|exercise| exercise.id.as_str()));
            report.add(&UNKNOWN_NAME, key.span(), ["exercise".to_owned(), name.to_owned(), near]);
            continue;
        };
        if exercise.counting == Counting::Plain {
            report.add(&START_PLAIN, key.span(), [name.to_owned()]);
            continue;
        }
        let Some((rung, at)) = text(name, value, &table.within, report) else { continue };
        if exercise.rung(&RungId::new(&rung)).is_none() {
            let near = nearest(&rung, exercise.ladder.iter().map(|rung| rung.id.as_str()));
            report.add(&UNKNOWN_NAME, at, ["rung".to_owned(), format!("{name} {rung}"), near]);
            continue;
        }
        rungs.push((exercise.id.clone(), RungId::new(&rung)));
    }
    rungs
}
