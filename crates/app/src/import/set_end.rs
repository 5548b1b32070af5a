//! Why a set ended, and whether that fits its time.

use super::cells::Line;
use super::choices;
use super::columns::Col;
use super::grid::Column;
use super::people::Known;
use super::problem::{Problem, Said};
use super::set_cell::{self, SetCell};
use super::words::{nearest, squashed};
use crate::facts::{ClockWord, EndWord, SetWord};

/// Largest difference between the time and the cap of a set that reached it; as the facts themselves allow.
const CAP_SLACK: [(ClockWord, f64); 2] = [(ClockWord::Device, 1.0), (ClockWord::Hand, 2.0)];

/// Why the set ended, from the cell and the columns beside it.
pub(super) fn outcome(
    line: &mut Line<'_>,
    column: &Column,
    cell: SetCell,
    known: &Known<'_>,
) -> Option<SetWord> {
    let number = column.heading.number;
    let side = column.heading.side;
    let end_words = ["cap", "form", "stop", "pain", "kit", "out"];
    let end_column = line.beside(Col::End, side, number);
    let said_end = match end_column {
        Some(end_column) => {
            let code = line.cell(end_column).and_then(|cell| set_cell::fault_code(&cell.shown()));
            match code {
                Some(code) if cell.fault.as_ref().is_some_and(|fault| *fault != code) => {
                    line.push_at(
                        column,
                        Problem::new("import-set-two-ends").suggest(Said::new("import-try-set-cell")),
                    );
                    return None;
                }
                Some(code) => return ended(line, column, SetCell { fault: Some(code), ..cell }, None, known),
                None => line.choice_at(end_column, choices::END, &end_words),
            }
        }
        None => None,
    };
    let mut cell = cell;
    if let Some(fault_column) = line.beside(Col::Fault, side, number)
        && let Some(text) =
            line.cell(fault_column).map(super::Cell::shown).filter(|text| !choices::is_dash(text))
    {
        let code = set_cell::fault_code(&text).or_else(|| {
            known
                .exercises
                .faults
                .iter()
                .find(|fault| squashed(&fault.name) == squashed(&text))
                .map(|f| f.code.to_string())
        });
        match code {
            Some(code) => cell.fault = cell.fault.or(Some(code)),
            None => {
                let near = nearest(&text, known.exercises.faults.iter().map(|fault| fault.name.as_str()));
                let suggestion = if near.is_empty() {
                    Said::new("import-try-fault")
                } else {
                    Said::new("import-try-fault-near").with("near", near.join(", "))
                };
                let problem = Problem::new("import-fault-unknown").with("fault", &text).suggest(suggestion);
                line.push_at(fault_column, problem);
                return None;
            }
        }
    }
    if let Some(seen_column) = line
        .column_with(Col::Seen, side, number)
        .or_else(|| line.column_with(Col::Seen, None, number))
        .or_else(|| line.column_with(Col::Seen, None, None))
    {
        cell.seen = cell.seen.or(line.yes_no_at(seen_column));
    }
    ended(line, column, cell, said_end, known)
}

/// Settles the end of a set. Silence is not a cap, and an unseen cap is written as one.
fn ended(
    line: &mut Line<'_>,
    column: &Column,
    cell: SetCell,
    said_end: Option<EndWord>,
    known: &Known<'_>,
) -> Option<SetWord> {
    if let (Some(one), Some(other)) = (cell.end, said_end)
        && one != other
    {
        line.push_at(column, Problem::new("import-set-two-ends").suggest(Said::new("import-try-set-cell")));
        return None;
    }
    let listed = |code: &str| known.exercises.faults.iter().find(|fault| fault.code.as_str() == code);
    // F20 is how the trade's sheets write pain; it is never a fault of form.
    let is_pain_code =
        |code: &str| code == "F20" && listed(code).is_none_or(|fault| squashed(&fault.name).contains("pain"));
    let mut fault = cell.fault;
    let mut end = cell.end.or(said_end);
    if fault.as_deref().is_some_and(is_pain_code) {
        fault = None;
        end = Some(EndWord::Pain);
    }
    if let Some(code) = &fault
        && listed(code).is_none()
    {
        let codes: Vec<&str> = known.exercises.faults.iter().map(|fault| fault.code.as_str()).collect();
        let problem = Problem::new("import-fault-unknown")
            .with("fault", code)
            .suggest(Said::new("import-try-one-of").with("words", codes.join(", ")));
        line.push_at(column, problem);
        return None;
    }
    let mut word = SetWord {
        seconds: cell.seconds,
        end: EndWord::Form,
        fault: None,
        cap_s: None,
        seen: None,
        rest_before_s: None,
        clock: ClockWord::Hand,
        fault_left: None,
    };
    match (end, fault) {
        (None, None) => {
            line.push_at(column, Problem::new("import-set-no-end").suggest(Said::new("import-try-set-cell")));
            return None;
        }
        (Some(EndWord::Form), None) => {
            line.push_at(
                column,
                Problem::new("import-form-without-fault").suggest(Said::new("import-try-set-cell")),
            );
            return None;
        }
        (None | Some(EndWord::Form), Some(code)) => word.fault = Some(code),
        (Some(EndWord::Cap), fault) => {
            word.end = EndWord::Cap;
            word.fault_left = fault;
            if cell.seen.is_none() {
                line.push_at(
                    column,
                    Problem::note("import-note-cap-unseen").suggest(Said::new("import-try-seen")),
                );
            }
            word.seen = Some(cell.seen.unwrap_or(false));
        }
        (Some(end), None) => word.end = end,
        (Some(_), Some(_)) => {
            line.push_at(
                column,
                Problem::new("import-set-two-ends").suggest(Said::new("import-try-set-cell")),
            );
            return None;
        }
    }
    Some(word)
}

/// A set that is said to have reached the cap must have lasted as long, and none may last longer.
pub(super) fn cap_fits(line: &mut Line<'_>, column: &Column, word: &SetWord, cap: f64) -> bool {
    let slack = CAP_SLACK.iter().find(|(clock, _)| *clock == word.clock).map_or(0.0, |(_, slack)| *slack);
    let off = word.seconds - cap;
    let problem = if word.end == EndWord::Cap && slack < off.abs() {
        Problem::new("import-cap-contradicts-time")
    } else if word.end != EndWord::Cap && slack < off {
        Problem::ask("import-set-beyond-cap")
    } else {
        return true;
    };
    let blocks = problem.weight == super::Weight::Blocks;
    let problem =
        problem.with("seconds", word.seconds).with("cap", cap).suggest(Said::new("import-try-cap-column"));
    line.push_at(column, problem);
    !blocks
}
