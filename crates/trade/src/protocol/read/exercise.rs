//! Reading an exercise. A field that is wrong is reported and replaced for the moment, so that one mistake does not
//! hide the next; a protocol with any problem is never handed out.

use std::ops::Range;

use quantity::HoldTime;

use super::figure::figures;
use super::lists::{Known, MARK, SOURCE, Seen, evidence};
use super::problem::{
    LADDER_EMPTY, LADDER_ON_PLAIN, PAIN_AS_FAULT, Report, TRACK_ORDER, UNKNOWN_NAME, nearest,
};
use super::rung::{ladder, tags, tempo};
use super::safety::{self, Places};
use super::table::{Table, number_within, one_of, wrong_type};
use crate::name::{ExerciseId, FaultCode, RungId};
use crate::protocol::{
    Arms, Counting, Evidence, EvidenceNote, Exercise, Fault, Group, HypermobileRule, Loads, Parameters, Rung,
    Tempo,
};

const KEYS: &[&str] = &[
    "id",
    "name",
    "group",
    "arms",
    "loads",
    "tags",
    "tempo",
    "own_cap_s",
    "counting",
    "ladder",
    "faults",
    "only_with_finding",
    "hypermobile",
    "growth_top",
    "purpose",
    "kit",
    "set_up",
    "movement",
    "errors",
    "cautions",
    "plain_dose",
    "evidence",
    "figure",
];

/// Reads every exercise.
pub(super) fn read(
    root: &Table<'_>,
    known: &Known,
    faults: &[Fault],
    parameters: Option<&Parameters>,
    report: &mut Report<'_>,
) -> Vec<Exercise> {
    let mut seen = Seen::default();
    let mut exercises = Vec::new();
    for table in root.tables("exercise", "id", KEYS, report) {
        let (exercise, places) = one(&table, known, faults, report);
        seen.take("exercise", exercise.id.as_str(), &places.exercise, report);
        safety::check(&exercise, &places, parameters, report);
        exercises.push(exercise);
    }
    exercises
}

fn one(table: &Table<'_>, known: &Known, faults: &[Fault], report: &mut Report<'_>) -> (Exercise, Places) {
    let (id, at) = table.id("id", report);
    let counting = match table.optional_text("counting", report) {
        Some((word, at)) => one_of("counting", &word, at, &Counting::ALL, Counting::word, report),
        None => None,
    };
    let counting = counting.unwrap_or(Counting::Timed);
    let place = |key: &str| table.find(key).map_or_else(|| table.at.clone(), |value| value.span());
    let rungs = rungs(table, &id, counting, &at, report);
    let (ladder, rungs_at): (Vec<Rung>, Vec<Range<usize>>) = rungs.into_iter().unzip();
    let plain_dose = match counting {
        Counting::Plain => Some(table.text("plain_dose", report)),
        Counting::Timed => table.optional_text("plain_dose", report).map(|(dose, _)| dose),
    };
    let exercise = Exercise {
        name: table.text("name", report),
        group: table.word("group", &Group::ALL, Group::word, report).unwrap_or(Group::Trunk),
        arms: table.word("arms", &Arms::ALL, Arms::word, report).unwrap_or(Arms::Midline),
        loads: table.word("loads", &Loads::ALL, Loads::word, report).unwrap_or(Loads::BothShoulders),
        tags: tags(table, report),
        tempo: table.need("tempo", report).and_then(|value| tempo(value, &id, report)).unwrap_or(Tempo::Hold),
        own_cap: table
            .find("own_cap_s")
            .and_then(|value| number_within("own_cap_s", value, (10.0, 120.0), report))
            .map(HoldTime::from_seconds),
        counting,
        faults: fault_codes(table, &id, faults, report),
        only_with_finding: table.flag("only_with_finding", report).unwrap_or(false),
        hypermobile: hypermobile(table, &id, &ladder, report),
        growth_top: rung_named(table, "growth_top", &ladder, report).map(|(rung, ..)| rung),
        figures: figures(&id, table, &ladder, report),
        ladder,
        purpose: table.text("purpose", report),
        kit: table.text("kit", report),
        set_up: table.text("set_up", report),
        movement: table.text("movement", report),
        errors: table.text("errors", report),
        cautions: table.texts("cautions", true, report).into_iter().map(|(text, _)| text).collect(),
        plain_dose,
        evidence: notes(table, known, report),
        id: ExerciseId::new(&id),
    };
    let places = Places {
        exercise: at,
        loads: place("loads"),
        tempo: place("tempo"),
        own_cap: place("own_cap_s"),
        rungs: rungs_at,
    };
    (exercise, places)
}

/// Timed exercises climb a ladder; plain ones have none.
fn rungs(
    table: &Table<'_>,
    id: &str,
    counting: Counting,
    at: &Range<usize>,
    report: &mut Report<'_>,
) -> Vec<(Rung, Range<usize>)> {
    let value = table.find("ladder");
    let items = value.and_then(|value| value.get_ref().as_array()).map(|list| list.len());
    let rungs = value.map(|value| ladder(id, value, report)).unwrap_or_default();
    let place = || value.map_or_else(|| at.clone(), |value| value.span());
    match (counting, items) {
        // A ladder that is not a list has been reported as that, and so have rungs that cannot be read.
        (Counting::Timed, None) if value.is_some() => {}
        (Counting::Timed, None | Some(0)) => report.add(&LADDER_EMPTY, place(), [id.to_owned()]),
        (Counting::Plain, Some(1..)) => report.add(&LADDER_ON_PLAIN, place(), [id.to_owned()]),
        (Counting::Timed, Some(1..)) | (Counting::Plain, None | Some(0)) => {}
    }
    rungs
}

fn fault_codes(table: &Table<'_>, id: &str, faults: &[Fault], report: &mut Report<'_>) -> Vec<FaultCode> {
    let mut seen = Seen::default();
    let needed = table.find("counting").and_then(|value| value.get_ref().as_str()) != Some("plain");
    let mut codes = Vec::new();
    for (code, at) in table.texts("faults", needed, report) {
        if code == safety::PAIN_CODE {
            report.add(&PAIN_AS_FAULT, at, [id.to_owned()]);
            continue;
        }
        if !faults.iter().any(|fault| fault.code.as_str() == code) {
            let near = nearest(&code, faults.iter().map(|fault| fault.code.as_str()));
            report.add(&UNKNOWN_NAME, at, ["fault".to_owned(), code, near]);
            continue;
        }
        seen.take("fault", &code, &at, report);
        codes.push(FaultCode::new(&code));
    }
    codes
}

fn hypermobile(table: &Table<'_>, id: &str, ladder: &[Rung], report: &mut Report<'_>) -> HypermobileRule {
    let Some(value) = table.find("hypermobile") else { return HypermobileRule::default() };
    let keys = &["left_out", "start", "top", "tempo", "note"];
    let Some(rule) = Table::open(value, "hypermobile", None, keys, report) else {
        return HypermobileRule::default();
    };
    let mut rung = |key: &str| rung_named(&rule, key, ladder, report);
    let (start, top) = (rung("start"), rung("top"));
    if let (Some((start, from, at)), Some((top, to, _))) = (&start, &top)
        && from > to
    {
        report.add(&TRACK_ORDER, at.clone(), [id.to_owned(), start.to_string(), top.to_string()]);
    }
    HypermobileRule {
        left_out: rule.flag("left_out", report).unwrap_or(false),
        start: start.map(|(rung, ..)| rung),
        top: top.map(|(rung, ..)| rung),
        tempo: rule.find("tempo").and_then(|value| tempo(value, id, report)),
        note: rule.optional_text("note", report).map(|(note, _)| note),
    }
}

/// A rung named by one key, with its place in the ladder and in the file.
fn rung_named(
    table: &Table<'_>,
    key: &str,
    ladder: &[Rung],
    report: &mut Report<'_>,
) -> Option<(RungId, usize, Range<usize>)> {
    let (name, at) = table.optional_text(key, report)?;
    let found = ladder.iter().position(|rung| rung.id.as_str() == name);
    if found.is_none() {
        let near = nearest(&name, ladder.iter().map(|rung| rung.id.as_str()));
        report.add(&UNKNOWN_NAME, at.clone(), ["rung".to_owned(), name.clone(), near]);
    }
    found.map(|place| (RungId::new(&name), place, at))
}

fn notes(table: &Table<'_>, known: &Known, report: &mut Report<'_>) -> Vec<EvidenceNote> {
    let Some(value) = table.need("evidence", report) else { return Vec::new() };
    let Some(list) = value.get_ref().as_array() else {
        wrong_type("evidence", "tables", value, report);
        return Vec::new();
    };
    let mut notes = Vec::new();
    for item in list.iter() {
        let Some(note) = Table::open(item, "evidence", None, &["text", MARK, SOURCE], report) else {
            continue;
        };
        let text = note.text("text", report);
        let evidence = evidence(&note, known, report).unwrap_or(Evidence::CommonPractice);
        notes.push(EvidenceNote { text, evidence });
    }
    notes
}
