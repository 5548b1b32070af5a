//! `cuffwright screening`: how long a day takes, one swimmer's values, what a re-test changed, the club's own trials.
//!
//! - [`plan`], [`values`], [`retest`], [`trial`]: one file a command.

mod plan;
mod retest;
mod trial;
mod values;

use clap::Subcommand;

use super::Context;
use super::answer::Answer;
use super::failure::Failure;

/// Plans a screening day, and says what a screening and a re-test show, each number with its ground.
#[derive(Debug, clap::Args)]
#[command(arg_required_else_help = true)]
pub(super) struct Args {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Plan(plan::Args),
    Values(values::Args),
    Retest(retest::Args),
    Trial(trial::Args),
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    match &args.command {
        Command::Plan(args) => plan::run(args, context),
        Command::Values(args) => values::run(args, context),
        Command::Retest(args) => retest::run(args, context),
        Command::Trial(args) => trial::run(args, context),
    }
}
