//! `cuffwright override`: a person decides otherwise, with a reason. Proposal and decision are both kept.

use app::decide::{LineRef, Say};
use jiff::civil::Date;
use quantity::HoldTime;
use trade::side::WorkingSide;

use super::Context;
use super::answer::Answer;
use super::clock;
use super::confirm::{Line, Recorded};
use super::exit::Exit;
use super::failure::Failure;
use super::find;
use super::open::{ByArgs, StoreArgs};
use super::words;

/// Gives something else than proposed, or nothing, with a reason.
///
/// Never reaches past the gate, a signed limit, a fixed safety limit, or what the day leaves room for: a hold ends by
/// the fact that it names.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.recorded/1, as for confirm.")]
pub(super) struct Args {
    /// Name, club number or id of the swimmer.
    #[arg(value_name = "NAME")]
    name: String,
    /// Exercise, for instance RC-1.
    #[arg(value_name = "EXERCISE")]
    exercise: String,
    /// left, right, both or midline.
    #[arg(value_name = "SIDE", value_parser = words::side)]
    side: WorkingSide,
    /// The rung that is given instead.
    #[arg(long, value_name = "RUNG", required_unless_present = "nothing", conflicts_with = "nothing")]
    rung: Option<String>,
    /// Gives nothing.
    #[arg(long, conflicts_with_all = ["sets", "cap"])]
    nothing: bool,
    /// Fewer sets than proposed.
    #[arg(long, value_name = "NUMBER")]
    sets: Option<u8>,
    /// A shorter cap than proposed, in seconds.
    #[arg(long, value_name = "SECONDS")]
    cap: Option<f64>,
    /// Why, in words; kept with the decision.
    #[arg(long, value_name = "WORDS")]
    reason: String,
    #[command(flatten)]
    by: ByArgs,
    #[command(flatten)]
    store: StoreArgs,
    /// The day the dose is for; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let cap = args.cap.map(cap).transpose()?;
    let mut desk = args.store.open()?;
    let moment = clock::moment(&desk, context)?;
    let on = args.on.unwrap_or(moment.today);
    let person = find::swimmer(&desk, &args.name)?;
    let (subject, name) = (person.subject, person.read.swimmer.name.clone());
    let exercise = find::exercise(&desk, &args.exercise)?;
    let rung = args.rung.as_deref().map(|rung| find::rung(exercise, rung)).transpose()?;
    let line = LineRef { subject, exercise: exercise.id.clone(), side: args.side, on };
    let author = args.by.author();
    let recorded = Line {
        id: subject.to_string(),
        name,
        exercise: line.exercise.to_string(),
        side: line.side.word(),
        action: if rung.is_some() { "override" } else { "nothing" },
        rung: rung.as_ref().map(ToString::to_string),
    };
    let say = Say::Override { rung, sets: args.sets, cap, reason: args.reason.clone() };
    desk.decide(&moment, &author, &line, &say)?;
    Ok(Recorded::new("overridden", on, &author.name, vec![recorded]).answer(context))
}

fn cap(seconds: f64) -> Result<HoldTime, Failure> {
    match HoldTime::try_from_seconds(seconds) {
        Ok(cap) if HoldTime::ZERO < cap => Ok(cap),
        _ => Err(Failure::new(Exit::Input, "cli-not-seconds", &[])),
    }
}
