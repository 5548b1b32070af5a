//! `cuffwright propose`: one swimmer's history from a file, answered without a store.

use std::path::PathBuf;

use app::facts::Units;
use app::wire::answer::Answer as Said;
use app::wire::run;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::{Failure, troubles};
use super::input::{self, AtMost};
use super::page::Page;
use super::words::{UnitsWord, say, word};
use super::{open, sheet};

/// The largest history file.
const HISTORY_FILE: AtMost = AtMost(16);

/// Answers one swimmer's history from a file: availability, what is due, the next session, and why.
///
/// Needs no store, so that a story can be tried out. FILE is JSON of the shape cuffwright.history/1; a dash reads
/// standard input. Every problem of the file is listed with its place.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.answer/1 with on, age, protocol, inputs (a digest of the record as it was read), tracks, \
availability (person, left, right), questions_answered, urgency, holds, stop_today, proposed_ends, no_up_before, \
limits, notes, due, and proposals: exercise, side, action, rungs_moved, from, dose, codes, reasons (code, words, \
ground, source), confirm_alone.")]
pub(super) struct Args {
    /// The history; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// The protocol in force, instead of the one that is built in.
    #[arg(long, value_name = "FILE")]
    protocol: Option<PathBuf>,
    /// Units of the answer.
    #[arg(long, value_enum, default_value_t = UnitsWord::Metric)]
    units: UnitsWord,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let protocol = open::protocol(args.protocol.as_deref())?;
    let text = input::text(&args.file, HISTORY_FILE)?;
    let answer = run::propose(&protocol, &text, Units::from(args.units)).map_err(|problems| {
        let values = [("file", input::name_of(&args.file)), ("number", problems.len().to_string())];
        Failure::new(Exit::Input, "cli-history-refused", &values)
            .hint("cli-history-refused-hint")
            .list(troubles(&problems))
    })?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &answer));
    }
    Ok(Answer::page(Exit::Well, page_of(&answer)))
}

fn page_of(answer: &Said) -> Page {
    let mut page = Page::default();
    let values = [
        ("day", answer.on.clone()),
        ("age", answer.age.to_string()),
        ("protocol", format!("{} {}", answer.protocol.name, answer.protocol.revision)),
    ];
    page.line(&say("cli-answer-for", &values));
    page.heading(&word("cli-title-gate"));
    sheet::gate(&mut page, answer);
    if !answer.due.is_empty() {
        page.heading(&word("cli-title-due"));
        let rows: Vec<Vec<String>> = answer.due.iter().map(|due| sheet::due_row(due, &answer.on)).collect();
        page.table(2, &rows);
    }
    page.heading(&word("cli-title-dose"));
    sheet::proposals(&mut page, &answer.proposals);
    page
}
