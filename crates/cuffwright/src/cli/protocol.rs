//! `cuffwright protocol`: check a club's file, show what is in force, print its hash.

use std::path::PathBuf;

use clap::Subcommand;
use serde::Serialize;
use trade::protocol::{Evidence, Protocol, read};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::page::Page;
use super::words::{say, word};
use super::{input, open};

/// Checks and shows protocols: the one file that holds every number.
#[derive(Debug, clap::Args)]
#[command(arg_required_else_help = true)]
pub(super) struct Args {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Lists every problem of a protocol file as FILE:LINE:COLUMN with a hint; ends with 1 if there is one.
    #[command(after_long_help = "\
JSON: shape cuffwright.protocol-check/1 with file, sound, protocol (name, revision, hash; null when refused) and \
problems: line, column, code, says, hint.")]
    Check {
        /// The protocol file; `-` for standard input.
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Shows a protocol: every number with what a club may set and its mark of evidence, every exercise with its
    /// ladder.
    #[command(after_long_help = "\
JSON: shape cuffwright.protocol/1 with name, title, revision, hash, parameters (key, label, value, allowed, mark, \
source), exercises (id, name, group, arms, loads, rungs), faults (code, name) and sources (key, citation).")]
    Show {
        /// The protocol file, instead of the one that is built in.
        #[arg(long, value_name = "FILE")]
        protocol: Option<PathBuf>,
    },
    /// Prints the hash by which decisions name the protocol.
    #[command(after_long_help = "JSON: shape cuffwright.protocol-hash/1 with name, revision, hash.")]
    Hash {
        /// The protocol file, instead of the one that is built in.
        #[arg(long, value_name = "FILE")]
        protocol: Option<PathBuf>,
    },
}

#[derive(Serialize)]
struct Checked {
    shape: &'static str,
    file: String,
    sound: bool,
    protocol: Option<Named>,
    problems: Vec<Found>,
}

#[derive(Serialize)]
struct Named {
    name: String,
    revision: String,
    hash: String,
}

#[derive(Serialize)]
struct Found {
    line: usize,
    column: usize,
    code: &'static str,
    says: String,
    hint: String,
}

#[derive(Serialize)]
struct Hash {
    shape: &'static str,
    #[serde(flatten)]
    named: Named,
}

#[derive(Serialize)]
struct Shown<'p> {
    shape: &'static str,
    #[serde(flatten)]
    named: Named,
    title: &'p str,
    parameters: Vec<ParameterWord>,
    exercises: Vec<ExerciseWord<'p>>,
    faults: Vec<FaultWord<'p>>,
    sources: Vec<SourceWord<'p>>,
}

/// One number of the protocol with the ground it stands on.
#[derive(Debug, Serialize)]
pub(super) struct ParameterWord {
    pub(super) key: &'static str,
    pub(super) label: &'static str,
    pub(super) value: String,
    pub(super) allowed: String,
    pub(super) mark: &'static str,
    pub(super) source: Option<String>,
}

#[derive(Serialize)]
struct ExerciseWord<'p> {
    id: &'p str,
    name: &'p str,
    group: &'static str,
    arms: &'static str,
    loads: &'static str,
    rungs: Vec<RungWord<'p>>,
}

#[derive(Serialize)]
struct RungWord<'p> {
    id: &'p str,
    name: &'p str,
    not_heavier: bool,
    from_age: Option<u8>,
}

#[derive(Serialize)]
struct FaultWord<'p> {
    code: &'p str,
    name: &'p str,
}

#[derive(Serialize)]
struct SourceWord<'p> {
    key: &'p str,
    citation: &'p str,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    match &args.command {
        Command::Check { file } => check(file, context),
        Command::Show { protocol } => {
            let protocol = open::protocol(protocol.as_deref())?;
            let shown = shown(&protocol);
            Ok(if context.json {
                Answer::json(Exit::Well, &shown)
            } else {
                Answer::page(Exit::Well, shown.page())
            })
        }
        Command::Hash { protocol } => {
            let named = named(&open::protocol(protocol.as_deref())?);
            if context.json {
                return Ok(Answer::json(Exit::Well, &Hash { shape: "cuffwright.protocol-hash/1", named }));
            }
            let mut page = Page::default();
            page.line(&named.hash);
            Ok(Answer::page(Exit::Well, page))
        }
    }
}

fn check(file: &std::path::Path, context: Context) -> Result<Answer, Failure> {
    let bytes = input::bytes(file, open::PROTOCOL_FILE)?;
    let name = input::name_of(file);
    let (protocol, problems) = match read::read_bytes(&bytes) {
        Ok(protocol) => (Some(named(&protocol)), Vec::new()),
        Err(problems) => (None, problems),
    };
    let problems: Vec<Found> = problems
        .iter()
        .map(|problem| Found {
            line: problem.line,
            column: problem.column,
            code: problem.says,
            says: say(problem.says, &problem.args),
            hint: say(problem.hint, &problem.args),
        })
        .collect();
    let exit = if problems.is_empty() { Exit::Well } else { Exit::Problems };
    if context.json {
        let sound = problems.is_empty();
        let shape = Checked { shape: "cuffwright.protocol-check/1", file: name, sound, protocol, problems };
        return Ok(Answer::json(exit, &shape));
    }
    let mut page = Page::default();
    for found in &problems {
        // One line a problem and one a hint, never wrapped, so that editors and scripts can follow them.
        page.line(&format!("{name}:{}:{}: {}", found.line, found.column, found.says));
        page.line(&format!("  {}", say("cli-hint", &[("hint", found.hint.clone())])));
    }
    match protocol {
        Some(Named { name: protocol, revision, hash }) => {
            let values = [("file", name), ("protocol", protocol), ("revision", revision), ("hash", hash)];
            page.line(&say("cli-protocol-sound", &values));
        }
        None => {
            page.gap();
            page.line(&say(
                "cli-protocol-problems",
                &[("number", problems.len().to_string()), ("file", name)],
            ));
        }
    }
    Ok(Answer::page(exit, page))
}

fn named(protocol: &Protocol) -> Named {
    Named { name: protocol.name.clone(), revision: protocol.revision.clone(), hash: protocol.hash.clone() }
}

/// Every parameter as it stands in a protocol.
pub(super) fn parameters(protocol: &Protocol) -> Vec<ParameterWord> {
    protocol
        .parameters
        .listed
        .iter()
        .map(|listed| ParameterWord {
            key: listed.key,
            label: listed.label,
            value: listed.value.clone(),
            allowed: listed.allowed.clone(),
            mark: listed.evidence.mark(),
            source: citation(protocol, &listed.evidence),
        })
        .collect()
}

/// The reference behind a mark, where there is one.
pub(super) fn citation(protocol: &Protocol, evidence: &Evidence) -> Option<String> {
    match evidence {
        Evidence::Published(key) => {
            Some(protocol.source(key).map_or_else(|| key.to_string(), |source| source.citation.clone()))
        }
        _ => None,
    }
}

fn shown(protocol: &Protocol) -> Shown<'_> {
    let exercises = protocol.exercises.iter().map(|exercise| ExerciseWord {
        id: exercise.id.as_str(),
        name: &exercise.name,
        group: exercise.group.word(),
        arms: exercise.arms.word(),
        loads: exercise.loads.word(),
        rungs: exercise
            .ladder
            .iter()
            .map(|rung| RungWord {
                id: rung.id.as_str(),
                name: &rung.name,
                not_heavier: rung.not_heavier,
                from_age: rung.from_age,
            })
            .collect(),
    });
    let faults = protocol.faults.iter();
    let sources = protocol.sources.iter();
    Shown {
        shape: "cuffwright.protocol/1",
        named: named(protocol),
        title: &protocol.title,
        parameters: parameters(protocol),
        exercises: exercises.collect(),
        faults: faults.map(|fault| FaultWord { code: fault.code.as_str(), name: &fault.name }).collect(),
        sources: sources
            .map(|source| SourceWord { key: source.key.as_str(), citation: &source.citation })
            .collect(),
    }
}

impl Shown<'_> {
    fn page(&self) -> Page {
        let mut page = Page::default();
        page.line(self.title);
        page.line(&format!("{} {}", self.named.name, self.named.revision));
        page.line(&self.named.hash);
        page.heading(&word("cli-title-parameters"));
        let rows: Vec<Vec<String>> = self
            .parameters
            .iter()
            .map(|row| {
                let values = [("allowed", row.allowed.clone()), ("label", row.label.to_owned())];
                vec![
                    row.key.to_owned(),
                    row.value.clone(),
                    row.mark.to_owned(),
                    say("cli-parameter", &values),
                ]
            })
            .collect();
        page.table(2, &rows);
        page.heading(&word("cli-title-exercises"));
        for exercise in &self.exercises {
            page.paragraph(&format!("  {:<5} ", exercise.id), exercise.name);
            let rungs: Vec<&str> = exercise.rungs.iter().map(|rung| rung.id).collect();
            if !rungs.is_empty() {
                page.paragraph("        ", &rungs.join(", "));
            }
        }
        page.heading(&word("cli-title-faults"));
        let faults: Vec<Vec<String>> =
            self.faults.iter().map(|fault| vec![fault.code.to_owned(), fault.name.to_owned()]).collect();
        page.table(2, &faults);
        page.heading(&word("cli-title-sources"));
        let sources: Vec<Vec<String>> = self
            .sources
            .iter()
            .map(|source| vec![source.key.to_owned(), source.citation.to_owned()])
            .collect();
        page.table(2, &sources);
        page
    }
}
