//! `cuffwright confirm`: a person says yes to one proposal, or to all that may go together.

use app::decide::{LineRef, Say};
use app::desk::Desk;
use app::review::Waiting;
use jiff::civil::Date;
use serde::Serialize;
use trade::dosing::Action;
use trade::side::WorkingSide;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::{ByArgs, StoreArgs};
use super::page::Page;
use super::words::{self, say, word};
use super::{clock, find, review};

/// Confirms one proposal as it was read, or with a mark from review all that may go together.
///
/// ACTION and RUNG are what you read. If the record has moved on since, nothing is confirmed.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.recorded/1 with on, by, verdict and lines: id, name, exercise, side, action, rung.")]
pub(super) struct Args {
    /// Name, club number or id of the swimmer.
    #[arg(value_name = "NAME", required_unless_present = "together")]
    name: Option<String>,
    /// Exercise, for instance RC-1.
    #[arg(value_name = "EXERCISE", required_unless_present = "together")]
    exercise: Option<String>,
    /// left, right, both or midline.
    #[arg(value_name = "SIDE", required_unless_present = "together", value_parser = words::side)]
    side: Option<WorkingSide>,
    /// The action that was read, for instance up.
    #[arg(value_name = "ACTION", required_unless_present = "together", value_parser = words::action)]
    action: Option<Action>,
    /// The rung that was read; left out where the proposal has none.
    #[arg(value_name = "RUNG")]
    rung: Option<String>,
    /// Confirms everything that may go together: the mark that review printed.
    #[arg(long, value_name = "MARK", conflicts_with_all = ["name", "exercise", "side", "action", "rung"])]
    together: Option<String>,
    #[command(flatten)]
    by: ByArgs,
    #[command(flatten)]
    store: StoreArgs,
    /// The day the dose is for; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
}

/// What was put on record.
#[derive(Serialize)]
pub(super) struct Recorded {
    shape: &'static str,
    on: String,
    by: String,
    verdict: &'static str,
    lines: Vec<Line>,
}

/// One line of it.
#[derive(Serialize)]
pub(super) struct Line {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) exercise: String,
    pub(super) side: &'static str,
    pub(super) action: &'static str,
    pub(super) rung: Option<String>,
}

impl Recorded {
    /// What was put on record, by whom, for which day.
    pub(super) fn new(verdict: &'static str, on: Date, by: &str, lines: Vec<Line>) -> Self {
        Self { shape: "cuffwright.recorded/1", on: on.to_string(), by: by.to_owned(), verdict, lines }
    }

    /// As an answer.
    pub(super) fn answer(&self, context: Context) -> Answer {
        if context.json {
            return Answer::json(Exit::Well, self);
        }
        let mut page = Page::default();
        let says = match self.verdict {
            "confirmed" => "cli-recorded-confirmed",
            _ => "cli-recorded-overridden",
        };
        for line in &self.lines {
            let rung = line.rung.as_ref().map_or_else(String::new, |rung| format!(" {rung}"));
            let what = format!("{}{rung}", word(&format!("action-{}", line.action)));
            page.paragraph(
                "",
                &say(
                    says,
                    &[
                        ("name", line.name.clone()),
                        ("exercise", line.exercise.clone()),
                        ("side", word(&format!("side-{}", line.side))),
                        ("what", what),
                        ("day", self.on.clone()),
                        ("by", self.by.clone()),
                    ],
                ),
            );
        }
        Answer::page(Exit::Well, page)
    }
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let mut desk = args.store.open()?;
    let moment = clock::moment(&desk, context)?;
    let on = args.on.unwrap_or(moment.today);
    let author = args.by.author();
    let lines = match &args.together {
        Some(mark) => together(&desk, mark, on)?,
        None => vec![one(&desk, args, on)?],
    };
    let recorded = lines.iter().map(|(line, say)| described(&desk, line, say)).collect::<Result<_, _>>()?;
    match lines.as_slice() {
        [(line, say)] if args.together.is_none() => {
            desk.decide(&moment, &author, line, say)?;
        }
        _ => {
            desk.confirm_together(&moment, &author, &lines)?;
        }
    }
    Ok(Recorded::new("confirmed", on, &author.name, recorded).answer(context))
}

fn one(desk: &Desk, args: &Args, on: Date) -> Result<(LineRef, Say), Failure> {
    let (Some(name), Some(exercise), Some(side), Some(action)) =
        (&args.name, &args.exercise, args.side, args.action)
    else {
        // The parser of the command line has asked for all four.
        return Err(Failure::new(Exit::Input, "cli-confirm-what", &[]));
    };
    let subject = find::swimmer(desk, name)?.subject;
    let exercise = find::exercise(desk, exercise)?;
    let rung = args.rung.as_deref().map(|rung| find::rung(exercise, rung)).transpose()?;
    Ok((LineRef { subject, exercise: exercise.id.clone(), side, on }, Say::Confirm { action, rung }))
}

/// Everything that may go together, if the queue is still the one that was read.
fn together(desk: &Desk, mark: &str, on: Date) -> Result<Vec<(LineRef, Say)>, Failure> {
    let queue = review::queue(desk, None, on)?;
    let lines: Vec<(LineRef, Say)> =
        queue.iter().filter(|waiting| waiting.may_go_together()).map(|waiting| yes_to(waiting, on)).collect();
    if lines.is_empty() {
        return Err(
            Failure::new(Exit::NotFound, "cli-nothing-together", &[]).hint("cli-nothing-together-hint")
        );
    }
    if !mark.trim().eq_ignore_ascii_case(&review::mark_of(&queue, on)) {
        return Err(Failure::new(Exit::Refused, "cli-other-mark", &[]).hint("cli-other-mark-hint"));
    }
    Ok(lines)
}

fn yes_to(waiting: &Waiting, on: Date) -> (LineRef, Say) {
    let proposal = &waiting.proposal;
    let line =
        LineRef { subject: waiting.subject, exercise: proposal.exercise.clone(), side: proposal.side, on };
    let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.clone());
    (line, Say::Confirm { action: proposal.action, rung })
}

fn described(desk: &Desk, line: &LineRef, say: &Say) -> Result<Line, Failure> {
    let person = desk.person(line.subject)?;
    let (action, rung) = match say {
        Say::Confirm { action, rung } => (action.word(), rung),
        Say::Override { rung, .. } => ("override", rung),
    };
    Ok(Line {
        id: line.subject.to_string(),
        name: person.read.swimmer.name.clone(),
        exercise: line.exercise.to_string(),
        side: line.side.word(),
        action,
        rung: rung.as_ref().map(ToString::to_string),
    })
}
