//! `cuffwright backup`: a checked copy of the record file.

use std::path::PathBuf;

use serde::Serialize;
use store::{Open, Store};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::page::Page;
use super::words::say;

/// Copies the record file, whole and checked, to a new file. A file that is there already is never overwritten.
///
/// Prints the head of the audit chain: kept elsewhere, it tells later whether the record before it was altered. A copy
/// made before the erasure of a person still holds that person.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.backup/1 with to, facts, chain_entries, chain_head.")]
pub(super) struct Args {
    /// The club's record file.
    #[arg(long, value_name = "FILE")]
    store: PathBuf,
    /// The file to make.
    #[arg(value_name = "TO")]
    to: PathBuf,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    to: String,
    facts: u64,
    chain_entries: u64,
    chain_head: String,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let failed = |error| Failure::store(&args.store, error);
    let store = Store::open(&args.store, Open { create: false }).map_err(failed)?;
    let (counts, head) = (store.counts().map_err(failed)?, store.chain_head().map_err(failed)?);
    store.backup_to(&args.to).map_err(|error| Failure::store(&args.to, error))?;
    let shape = Shape {
        shape: "cuffwright.backup/1",
        to: args.to.display().to_string(),
        facts: counts.facts,
        chain_entries: head.entries,
        chain_head: head.hash.to_string(),
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.paragraph("", &say("cli-backed-up", &[("to", shape.to), ("facts", shape.facts.to_string())]));
    let values = [("head", shape.chain_head), ("entries", shape.chain_entries.to_string())];
    page.paragraph("", &say("cli-chain-head", &values));
    Ok(Answer::page(Exit::Well, page))
}
