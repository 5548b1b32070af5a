//! A row of past set times: one set, or all sets of one exercise and side, in one session.

use jiff::civil::Date;
use serde_json::json;
use trade::protocol::{Arms, Counting, Exercise, Rung};
use trade::side::{Side, WorkingSide};

use super::cells::Line;
use super::columns::Col;
use super::gather::{Draft, Given};
use super::grid::Column;
use super::people::{Known, People};
use super::plan::Subject;
use super::problem::{Problem, Said};
use super::set_cell::{self, SetCell};
use super::set_end::{cap_fits, outcome};
use super::words::squashed;
use super::{Options, choices, key, pain_cell, rungs, screening};
use crate::facts::{ClockWord, Kind, SetFact, SetWord, WorkingSideWord};

/// What is the same for every set of a row.
struct Common<'a> {
    subject: store::SubjectId,
    whom: Subject,
    date: Date,
    session: u8,
    exercise: &'a Exercise,
    used: &'a Rung,
    planned: &'a Rung,
    prescribed: Option<u8>,
}

/// Reads a row.
pub(super) fn read(line: &mut Line<'_>, known: &Known<'_>, people: &People<'_>, options: &Options) -> Given {
    let (about, whom) = screening::whom(line, people);
    let date = line.past_day(Col::Date);
    if date.is_none() && !line.is_blocked() {
        line.push_in(Col::Date, Problem::new("import-date-missing"));
    }
    let session = line.whole(Col::Session, 1, 9).map_or(1, |number| number as u8);
    let exercise = exercise(line, known);
    let used = exercise.and_then(|exercise| rung(line, known, exercise));
    let planned = match (exercise, line.text(Col::PlannedRung)) {
        (Some(exercise), Some(text)) => {
            found(line, Col::PlannedRung, rungs::by_text(&known.exercises, exercise, &text))
        }
        _ => used,
    };
    let prescribed = line.whole(Col::PrescribedSets, 1, 20).map(|sets| sets as u8);
    let sets = sets(line, exercise, known);
    let effort = line.whole(Col::Effort, 0, 10);
    let context = line.choice(Col::Context, choices::CONTEXT, &["after practice", "rested", "home"]);
    let context = context.or(options.context);
    if context.is_none() && line.has(Col::Context) && !line.is_blocked() {
        line.push_in(
            Col::Context,
            Problem::new("import-context-blank").suggest(Said::new("import-try-context")),
        );
    }
    let mut drafts = Vec::new();
    if let (Some(whom), Some(date)) = (whom, date)
        && let Some(subject) = whom.id()
    {
        drafts.extend(pains(line, whom, subject, date, session));
        if let Some(context) = context {
            let mut payload = json!({ "date": date, "number": session, "context": context });
            if let (Some(effort), Some(fields)) = (effort, payload.as_object_mut()) {
                fields.insert("last_practice_effort".to_owned(), json!(effort));
            }
            drafts.push(Draft {
                key: format!("{}/{subject}/{date}/{session}", Kind::Session.word()),
                subject: whom,
                kind: Kind::Session,
                payload,
            });
        }
        if let (Some(exercise), Some(used), Some(planned)) = (exercise, used, planned) {
            let common = Common { subject, whom, date, session, exercise, used, planned, prescribed };
            let usual =
                known.exercises.sets.max(sets.iter().map(|(_, number, _)| *number).max().unwrap_or(1));
            drafts.extend(sets.iter().filter_map(|set| common.draft(set, usual)));
        }
    } else {
        // The pain cells are read in any case, so that every problem of the row is named at once.
        let nobody = Subject::Club;
        pains(line, nobody, store::SubjectId::CLUB, options.today, session);
    }
    Given { about, drafts }
}

impl Common<'_> {
    fn draft(&self, (side, number, set): &(WorkingSide, u8, SetWord), usual: u8) -> Option<Draft> {
        let fact = SetFact {
            date: self.date,
            session: self.session,
            exercise: self.exercise.id.to_string(),
            side: WorkingSideWord::from(*side),
            planned: self.planned.id.to_string(),
            used: self.used.id.to_string(),
            prescribed_sets: self.prescribed.unwrap_or(usual),
            number: *number,
            set: set.clone(),
        };
        let payload = serde_json::to_value(fact).ok()?;
        let key = key::natural_key(Kind::Set, self.subject, &payload)?;
        Some(Draft { key, subject: self.whom, kind: Kind::Set, payload })
    }
}

/// Puts a problem at its column, or passes the value on.
fn found<T>(line: &mut Line<'_>, col: Col, result: Result<T, Problem>) -> Option<T> {
    match result {
        Ok(value) => Some(value),
        Err(problem) => {
            line.push_in(col, problem);
            None
        }
    }
}

fn exercise<'a>(line: &mut Line<'_>, known: &Known<'a>) -> Option<&'a Exercise> {
    let Some(text) = line.text(Col::Exercise) else {
        line.push_in(Col::Exercise, Problem::new("import-exercise-missing"));
        return None;
    };
    let exercise = found(line, Col::Exercise, rungs::exercise(&known.exercises, &text))?;
    if exercise.counting == Counting::Plain {
        let problem = Problem::new("import-exercise-not-timed").with("exercise", exercise.id.as_str());
        line.push_in(Col::Exercise, problem);
        return None;
    }
    Some(exercise)
}

/// The rung used, from whichever columns the file has; where several are filled they must agree.
fn rung<'a>(line: &mut Line<'_>, known: &Known<'a>, exercise: &'a Exercise) -> Option<&'a Rung> {
    let exercises = &known.exercises;
    let mut named: Vec<(Col, &'a Rung)> = Vec::new();
    if let Some(text) = line.text(Col::Rung).filter(|text| !choices::is_dash(text)) {
        named.push((Col::Rung, found(line, Col::Rung, rungs::by_text(exercises, exercise, &text))?));
    }
    if let Some(level) = line.whole(Col::Level, 1, 99) {
        named.push((Col::Level, found(line, Col::Level, rungs::by_level(exercise, level))?));
    }
    for col in [Col::Force, Col::Weight] {
        let Some(column) = line.column_with(col, None, None) else { continue };
        let Some(load) = line.quantity_at(column) else { continue };
        let rung = rungs::by_load(exercises, exercise, load.value, load.half_last_place, load.unit);
        named.push((col, found(line, col, rung)?));
    }
    match named.as_slice() {
        [] => {
            if !line.is_blocked() {
                let ladder: Vec<&str> = exercise.ladder.iter().map(|rung| rung.id.as_str()).collect();
                let problem = Problem::new("import-rung-missing")
                    .with("exercise", exercise.id.as_str())
                    .suggest(Said::new("import-try-one-of").with("words", ladder.join(", ")));
                line.push_in(Col::Rung, problem);
            }
            None
        }
        [(_, first), rest @ ..] => {
            if let Some((col, other)) = rest.iter().find(|(_, rung)| rung.id != first.id) {
                let problem =
                    Problem::new("import-rungs-contradict").with("one", &first.id).with("other", &other.id);
                line.push_in(*col, problem);
                return None;
            }
            Some(first)
        }
    }
}

/// Every set of the row, with its side and number.
fn sets(
    line: &mut Line<'_>,
    exercise: Option<&Exercise>,
    known: &Known<'_>,
) -> Vec<(WorkingSide, u8, SetWord)> {
    let row_side = line.choice(Col::WorkingSide, choices::SIDE, &["left", "right", "both", "midline"]);
    let row_number = line.whole(Col::SetNumber, 1, 20).map(|number| number as u8);
    let cap = line.measured(Col::Cap, "set_time").map(|cap| cap.value);
    let rest = line.measured(Col::Rest, "set_time").map(|rest| rest.value);
    let clock =
        line.choice(Col::ClockKind, choices::CLOCK, &["stopwatch", "device"]).unwrap_or(ClockWord::Hand);
    let mut sets = Vec::new();
    let columns = line.columns().iter().filter(|column| column.heading.spec.col == Col::SetTime);
    let several = columns.clone().count() > 1;
    let mut filled = 0;
    for column in columns {
        let Some(cell) = set_in(line, column) else { continue };
        filled += 1;
        let number = match (column.heading.number, row_number) {
            (Some(number), _) => number,
            (None, Some(number)) => number,
            (None, None) if several || line.has(Col::SetNumber) => {
                line.push_at(column, Problem::new("import-set-number-missing"));
                continue;
            }
            (None, None) => 1,
        };
        let side = exercise.and_then(|exercise| side(line, exercise, row_side, column));
        let Some(word) = outcome(line, column, cell, known) else { continue };
        let word = SetWord { cap_s: cap, clock, rest_before_s: rest.filter(|_| !several), ..word };
        let usual =
            exercise.map_or(known.exercises.cap, |exercise| exercise.own_cap.unwrap_or(known.exercises.cap));
        if !cap_fits(line, column, &word, cap.unwrap_or(usual.seconds())) {
            continue;
        }
        if let Some(side) = side {
            sets.push((side, number, word));
        }
    }
    if filled == 0 && !line.is_blocked() {
        line.push(Problem::note("import-note-no-sets"));
    }
    sets
}

/// The cell as a set.
fn set_in(line: &mut Line<'_>, column: &Column) -> Option<SetCell> {
    let cell = line.cell(column)?;
    let shown = cell.shown();
    if choices::is_dash(&shown) || ["notdone", "x"].contains(&squashed(&shown).as_str()) {
        return None;
    }
    let range = quantity::Range::of("set_time").expect("set times stand in the range table");
    // A bare time goes through the same judgement as every measured value.
    let bare = match cell {
        super::Cell::Text(text) => text.chars().all(|c| c.is_ascii_digit() || matches!(c, ',' | '.' | ':')),
        _ => true,
    };
    let parsed = if bare {
        let measured = line.measured_at(column, range.key)?;
        SetCell { seconds: measured.value, ..SetCell::default() }
    } else {
        match set_cell::parse(&shown) {
            Ok(parsed) => parsed,
            Err(problem) => {
                line.push_at(column, problem);
                return None;
            }
        }
    };
    if !bare {
        let problem = match range.judge(parsed.seconds) {
            quantity::Judgement::Plausible => None,
            quantity::Judgement::Ask => Some((Problem::ask("import-value-unusual"), range.plausible)),
            quantity::Judgement::Refuse => Some((Problem::new("import-value-impossible"), range.hard)),
        };
        if let Some((problem, (low, high))) = problem {
            let refused = problem.weight == super::Weight::Blocks;
            let problem = problem
                .with("label", range.label)
                .with("low", low)
                .with("high", high)
                .with("unit", range.unit);
            line.push_at(column, problem);
            if refused {
                return None;
            }
        }
    }
    Some(parsed)
}

/// The side the set worked: from its header, else from the row, else from the exercise where that leaves no choice.
fn side(
    line: &mut Line<'_>,
    exercise: &Exercise,
    row: Option<WorkingSideWord>,
    column: &Column,
) -> Option<WorkingSide> {
    let said = column.heading.side.map(WorkingSide::from).or(row.map(WorkingSide::from));
    let wanted: &[WorkingSide] = match exercise.arms {
        Arms::One => &[WorkingSide::Left, WorkingSide::Right],
        Arms::Both => &[WorkingSide::Both],
        Arms::Midline => &[WorkingSide::Midline],
    };
    match (said, exercise.arms) {
        (Some(side), _) if wanted.contains(&side) => Some(side),
        (None, Arms::Both) => Some(WorkingSide::Both),
        (None, Arms::Midline) => Some(WorkingSide::Midline),
        (said, _) => {
            let id = if said.is_some() { "import-side-does-not-fit" } else { "import-side-missing" };
            let words: Vec<&str> = wanted.iter().map(|side| side.word()).collect();
            let problem = Problem::new(id)
                .with("exercise", exercise.id.as_str())
                .suggest(Said::new("import-try-one-of").with("words", words.join(", ")));
            line.push_in(Col::WorkingSide, problem);
            None
        }
    }
}

/// Pain before and after the session. A blank is not answered; it never becomes a zero.
fn pains(
    line: &mut Line<'_>,
    whom: Subject,
    subject: store::SubjectId,
    date: Date,
    session: u8,
) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for (col, when) in [(Col::PainBefore, "before"), (Col::PainAfter, "after")] {
        let mut left = None;
        let mut right = None;
        for column in line.columns().iter().filter(|column| column.heading.spec.col == col) {
            let Some(shown) = line.cell(column).map(super::Cell::shown) else { continue };
            if choices::is_dash(&shown) {
                continue;
            }
            let read = match column.heading.side {
                None => pain_cell::parse(&shown),
                Some(side) => match pain_cell::whole(shown.trim()) {
                    Some(number @ 0..=10) => Ok(match side {
                        Side::Left => pain_cell::Spoken { left: Some(number), right: None },
                        Side::Right => pain_cell::Spoken { left: None, right: Some(number) },
                    }),
                    Some(_) => Err(pain_cell::Unclear::OffTheScale),
                    None => Err(pain_cell::Unclear::Unreadable),
                },
            };
            match read {
                Ok(spoken) => {
                    left = left.max(spoken.left);
                    right = right.max(spoken.right);
                }
                Err(unclear) => {
                    let problem = match unclear {
                        pain_cell::Unclear::WhichSide => Problem::new("import-pain-which-side"),
                        pain_cell::Unclear::OffTheScale => Problem::new("import-pain-off-scale"),
                        pain_cell::Unclear::Unreadable => Problem::new("import-pain-unreadable"),
                    };
                    line.push_at(column, problem.suggest(Said::new("import-try-pain-cell")));
                }
            }
        }
        if left.is_some() || right.is_some() {
            drafts.push(Draft {
                key: key::pain_key(subject, date, session, when),
                subject: whom,
                kind: Kind::Pain,
                payload: json!({ "date": date, "when": when, "left": left, "right": right }),
            });
        }
    }
    drafts
}
