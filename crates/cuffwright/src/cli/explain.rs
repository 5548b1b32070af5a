//! `cuffwright explain`: what stands behind a code.
//!
//! - `entry`: an explanation, whatever it is of, as one shape.
//! - `rules`: rules and warning signs.
//! - `protocol_parts`: exercises, rungs, faults, parameters and references.

mod entry;
mod protocol_parts;
mod rules;

use std::path::PathBuf;

use serde::Serialize;
use trade::history::Sign;
use trade::protocol::Protocol;
use trade::rule::catalogue;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open;
use super::page::Page;
use super::words::{say, word};

use entry::Entry;

/// Explains a code: what it checks, why it matters, when it does not apply, an example, its numbers, its ground.
///
/// CODE is a rule (P4), a fault (F06), an exercise (RC-1), a rung (RC-1/b16), a parameter (cap_s), a warning sign
/// (night-pain) or the key of a reference. Without a code, all are listed.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.explain/1 with kind (rule, fault, exercise, rung, parameter, sign, source), code, name, parts \
(part, words), parameters (key, label, value, allowed, mark, source) and evidence (words, mark, source). Without a \
code: shape cuffwright.codes/1 with codes: kind, code, name.")]
pub(super) struct Args {
    /// The code.
    #[arg(value_name = "CODE")]
    code: Option<String>,
    /// The protocol in force, instead of the one that is built in.
    #[arg(long, value_name = "FILE")]
    protocol: Option<PathBuf>,
}

#[derive(Serialize)]
struct Codes {
    shape: &'static str,
    codes: Vec<Code>,
}

/// One code with what it names.
#[derive(Serialize)]
struct Code {
    kind: &'static str,
    code: String,
    name: String,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let protocol = open::protocol(args.protocol.as_deref())?;
    let Some(code) = &args.code else { return Ok(list(&protocol, context)) };
    let code = code.trim();
    let entry = find(&protocol, code).ok_or_else(|| unknown(&protocol, code))?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &entry));
    }
    Ok(Answer::page(Exit::Well, entry.page()))
}

fn find(protocol: &Protocol, code: &str) -> Option<Entry> {
    rules::rule(protocol, code)
        .or_else(|| protocol_parts::fault(protocol, code))
        .or_else(|| protocol_parts::exercise(protocol, code))
        .or_else(|| protocol_parts::rung(protocol, code))
        .or_else(|| protocol_parts::parameter(protocol, code))
        .or_else(|| rules::sign(protocol, code))
        .or_else(|| protocol_parts::source(protocol, code))
}

/// Everything that can be explained, family by family.
fn codes(protocol: &Protocol) -> Vec<Code> {
    let code = |kind, code: &str, name: &str| Code { kind, code: code.to_owned(), name: name.to_owned() };
    let rules = catalogue::all().map(|rule| code("rule", rule.code.0, rule.name));
    let faults = protocol.faults.iter().map(|fault| code("fault", fault.code.as_str(), &fault.name));
    let exercises = protocol.exercises.iter().flat_map(|exercise| {
        let id = &exercise.id;
        let rungs = exercise.ladder.iter();
        std::iter::once(code("exercise", id.as_str(), &exercise.name))
            .chain(rungs.map(move |rung| code("rung", &format!("{id}/{}", rung.id), &rung.name)))
    });
    let parameters =
        protocol.parameters.listed.iter().map(|listed| code("parameter", listed.key, listed.label));
    let signs =
        Sign::ALL.into_iter().map(|sign| code("sign", sign.word(), &word(&format!("sign-{}", sign.word()))));
    let sources = protocol.sources.iter().map(|source| code("source", source.key.as_str(), &source.citation));
    rules.chain(faults).chain(exercises).chain(parameters).chain(signs).chain(sources).collect()
}

fn list(protocol: &Protocol, context: Context) -> Answer {
    let codes = codes(protocol);
    if context.json {
        return Answer::json(Exit::Well, &Codes { shape: "cuffwright.codes/1", codes });
    }
    let mut page = Page::default();
    for family in codes.chunk_by(|one, other| family(one.kind) == family(other.kind)) {
        page.heading(&word(title_of(family)));
        let rows: Vec<Vec<String>> =
            family.iter().map(|code| vec![code.code.clone(), code.name.clone()]).collect();
        page.table(2, &rows);
    }
    Answer::page(Exit::Well, page)
}

/// Exercises and their rungs are listed together.
fn family(kind: &'static str) -> &'static str {
    if kind == "rung" { "exercise" } else { kind }
}

fn title_of(codes: &[Code]) -> &'static str {
    match codes.first().map_or("rule", |code| family(code.kind)) {
        "fault" => "cli-codes-fault",
        "exercise" => "cli-codes-exercise",
        "parameter" => "cli-codes-parameter",
        "sign" => "cli-codes-sign",
        "source" => "cli-codes-source",
        _ => "cli-codes-rule",
    }
}

/// No such code; the nearest ones are named.
fn unknown(protocol: &Protocol, wanted: &str) -> Failure {
    let lower = wanted.to_lowercase();
    let mut near: Vec<(usize, String)> = codes(protocol)
        .into_iter()
        .map(|code| (strsim::damerau_levenshtein(&lower, &code.code.to_lowercase()), code.code))
        .filter(|(distance, code)| *distance <= 1.max(code.chars().count() / 4))
        .collect();
    near.sort();
    let near: Vec<String> = near.into_iter().take(5).map(|(_, code)| code).collect();
    let failure = Failure::new(Exit::NotFound, "cli-no-code", &[("code", wanted.to_owned())]);
    if near.is_empty() {
        failure.hint("cli-no-code-hint")
    } else {
        failure.hint_with("cli-near", &[("near", near.join(", "))])
    }
}

/// A sentence that two kinds of entry share.
fn level_words(level: usize, of: usize) -> String {
    say("cli-level", &[("level", level.to_string()), ("of", of.to_string())])
}
