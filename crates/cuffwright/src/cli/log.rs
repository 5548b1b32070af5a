//! `cuffwright log`: the log of facts itself.

use clap::Subcommand;

use super::Context;
use super::answer::Answer;
use super::failure::Failure;
use super::{import, replay, verify};

/// Looks after the log of facts itself.
#[derive(Debug, clap::Args)]
#[command(arg_required_else_help = true)]
pub(super) struct Args {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Add(import::SetsArgs),
    Verify(verify::Args),
    Replay(replay::Args),
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    match &args.command {
        Command::Add(args) => import::run_sets(args, context),
        Command::Verify(args) => verify::run(args, context),
        Command::Replay(args) => replay::run(args, context),
    }
}
