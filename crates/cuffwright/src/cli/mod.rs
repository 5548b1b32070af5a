//! The command line: one file a command, and an edge that owns the clock, the files and the exit code.
//!
//! A command reads, asks the layers below, and returns an [`answer::Answer`] or a [`failure::Failure`]. Only this
//! module writes to the terminal, once, when everything is decided: nothing is half-said.
//!
//! In reading order:
//! - [`exit`], [`answer`], [`failure`], [`page`], [`sheet`]: how a command ends and what it says.
//! - [`clock`], [`input`], [`open`], [`find`], [`words`]: what a command starts from.
//! - one module a command, and [`mod@reference`], which writes the page of all of them.

mod account;
mod answer;
mod ask;
mod backup;
mod band;
mod clock;
mod confirm;
mod cut;
mod demo;
mod dose;
mod due;
mod exit;
mod explain;
mod failure;
mod fatigue;
mod find;
mod fit;
mod gate;
mod import;
mod init;
mod input;
mod ladder;
mod log;
mod numbers;
mod open;
mod overrule;
mod page;
mod propose;
mod protocol;
pub mod reference;
mod replay;
mod review;
mod rota;
mod screening;
mod serve;
mod sheet;
mod torque;
mod track;
mod verify;
mod week;
mod words;

use std::ffi::OsString;
use std::io::{ErrorKind, Write};
use std::panic;
use std::process::ExitCode;

use clap::error::ErrorKind as Usage;
use clap::{ColorChoice, Parser, Subcommand};
use jiff::civil::Date;

use answer::Answer;
use exit::Exit;
use failure::Failure;

/// Keeps a swim squad's shoulders in work: who may take part, what to do next session, and why.
///
/// May help; not shown to prevent injury in swimmers. For uninjured shoulders only: pain stops the set. This is
/// decision support that keeps a log, not a diagnosis; local rules and licensed practice come first.
#[derive(Debug, Parser)]
#[command(
    name = "cuffwright",
    version,
    color = ColorChoice::Never,
    term_width = 100,
    disable_help_subcommand = true,
    arg_required_else_help = true,
    after_long_help = AFTER
)]
struct Cli {
    /// Answers in JSON, in the shape that the command names.
    #[arg(long, global = true)]
    json: bool,
    /// Takes another day for today: for tests and rehearsals.
    #[arg(long, global = true, hide = true, value_name = "DATE", value_parser = words::day)]
    today: Option<Date>,
    #[command(subcommand)]
    command: Command,
}

const AFTER: &str = "\
Exit codes: 0 all is well; 1 what was asked about has problems; 2 the input or the command cannot be used; \
3 what was asked for is not there; 4 refused, because it contradicts the record or a rule that nobody may \
override; 5 a file or an address could not be used; 70 a defect of this program.

Every answer in JSON names its shape and version, for instance \"shape\": \"cuffwright.dose/1\". Within a version \
fields are added, never renamed or taken away. With --json a failure is JSON too, on standard output: shape \
cuffwright.failure/1 with kind, exit, message, hints and problems, each with path and says.

Days are written 2026-03-09. A swimmer is named by the beginning of a name, the club's number or the id; where \
several fit, all are listed and nothing is done.";

#[derive(Debug, Subcommand)]
enum Command {
    Demo(demo::Args),
    Init(init::Args),
    Import(import::Args),
    Serve(serve::Args),
    Gate(gate::Args),
    Dose(dose::Args),
    Due(due::Args),
    Ask(ask::Args),
    Screening(screening::Args),
    Review(review::Args),
    Confirm(confirm::Args),
    Override(overrule::Args),
    Log(log::Args),
    Backup(backup::Args),
    Track(track::Args),
    Propose(propose::Args),
    Week(week::Args),
    Rota(rota::Args),
    Fit(fit::Args),
    Protocol(protocol::Args),
    Explain(explain::Args),
    Numbers(numbers::Args),
    Account(account::Args),
    Band(band::Args),
    Torque(torque::Args),
    Fatigue(fatigue::Args),
    Ladder(ladder::Args),
    Cut(cut::Args),
}

/// What every command is told besides its own arguments.
#[derive(Debug, Clone, Copy)]
struct Context {
    json: bool,
    today: Option<Date>,
}

/// Runs the command line of this process.
pub fn run() -> ExitCode {
    let arguments: Vec<OsString> = std::env::args_os().collect();
    let json = arguments.iter().any(|argument| argument == "--json");
    // The hook stays silent: what a user reads of a defect is said below, without the program's inner parts.
    panic::set_hook(Box::new(|_| {}));
    let outcome = panic::catch_unwind(|| answer_to(&arguments)).unwrap_or_else(|cause| {
        let detail = cause
            .downcast_ref::<String>()
            .map(String::as_str)
            .or_else(|| cause.downcast_ref::<&str>().copied())
            .unwrap_or("no detail");
        Err(Failure::new(Exit::Defect, "cli-defect", &[("detail", detail.to_owned())])
            .hint("cli-defect-hint"))
    });
    let exit = match outcome {
        Ok(answer) => {
            let exit = write(&mut std::io::stdout().lock(), &answer.text, answer.exit);
            match &answer.refusal {
                Some(refusal) => write(&mut std::io::stderr().lock(), &refusal.to_text(), exit),
                None => exit,
            }
        }
        Err(failure) if json => write(&mut std::io::stdout().lock(), &failure.to_json(), failure.exit),
        Err(failure) => write(&mut std::io::stderr().lock(), &failure.to_text(), failure.exit),
    };
    exit.into()
}

fn answer_to(arguments: &[OsString]) -> Result<Answer, Failure> {
    let cli = match Cli::try_parse_from(arguments) {
        Ok(cli) => cli,
        Err(said) if matches!(said.kind(), Usage::DisplayHelp | Usage::DisplayVersion) => {
            return Ok(Answer { exit: Exit::Well, text: said.to_string(), refusal: None });
        }
        Err(said) => return Err(Failure::usage(&said)),
    };
    let context = Context { json: cli.json, today: cli.today };
    match cli.command {
        Command::Demo(args) => demo::run(&args, context),
        Command::Serve(args) => serve::run(&args, context),
        Command::Init(args) => init::run(&args, context),
        Command::Import(args) => import::run(&args, context),
        Command::Gate(args) => gate::run(&args, context),
        Command::Dose(args) => dose::run(&args, context),
        Command::Due(args) => due::run(&args, context),
        Command::Ask(args) => ask::run(&args, context),
        Command::Screening(args) => screening::run(&args, context),
        Command::Review(args) => review::run(&args, context),
        Command::Confirm(args) => confirm::run(&args, context),
        Command::Override(args) => overrule::run(&args, context),
        Command::Log(args) => log::run(&args, context),
        Command::Backup(args) => backup::run(&args, context),
        Command::Track(args) => track::run(&args, context),
        Command::Propose(args) => propose::run(&args, context),
        Command::Week(args) => week::run(&args, context),
        Command::Rota(args) => rota::run(&args, context),
        Command::Fit(args) => fit::run(&args, context),
        Command::Protocol(args) => protocol::run(&args, context),
        Command::Explain(args) => explain::run(&args, context),
        Command::Numbers(args) => numbers::run(&args, context),
        Command::Account(args) => account::run(&args, context),
        Command::Band(args) => band::run(&args, context),
        Command::Torque(args) => torque::run(&args, context),
        Command::Fatigue(args) => fatigue::run(&args, context),
        Command::Ladder(args) => ladder::run(&args, context),
        Command::Cut(args) => cut::run(&args, context),
    }
}

/// Writes everything at once. A reader that has gone away (`| head`) is no failure; a full disk is.
fn write(to: &mut impl Write, text: &str, exit: Exit) -> Exit {
    match to.write_all(text.as_bytes()).and_then(|()| to.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            let failure = Failure::new(Exit::Storage, "cli-no-output", &[("detail", error.to_string())]);
            // Where not even this can be said, the exit code still says it.
            std::io::stderr().write_all(failure.to_text().as_bytes()).ok();
            Exit::Storage
        }
        _ => exit,
    }
}
