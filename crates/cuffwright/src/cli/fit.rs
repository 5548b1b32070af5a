//! `cuffwright fit`: what fits into the minutes on deck, and what to do when it does not.

use app::week::fit::{FitAnswer, run as answer};
use schedule::fit::{Arms, Exercise, Session};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::page::Page;
use super::words::{say, word};

/// Says whether a session fits into a slot, with the minutes of every alternative.
///
/// Exercises are counted by how the arms share them. The answer is the trade's arithmetic: sets, rests and change-overs
/// beside what a slot leaves after check, warm-up, mobility and clearing.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.fit/1 with usable_seconds, fits, options (way, words, seconds, clock, fits, never_qualify) and \
warnings. The exit code is 1 when the session does not fit as asked.")]
pub(super) struct Args {
    /// Minutes of the slot.
    #[arg(long, value_name = "MINUTES", value_parser = clap::value_parser!(u32).range(1..=240))]
    minutes: u32,
    /// Exercises in which both arms work at once.
    #[arg(long, value_name = "NUMBER", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=12))]
    two_arm: u32,
    /// Exercises in which the arms take turns.
    #[arg(long, value_name = "NUMBER", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=12))]
    one_arm: u32,
    /// Longest set, seconds: the longest current set time of the group.
    #[arg(long, value_name = "SECONDS", default_value_t = 120, value_parser = clap::value_parser!(u32).range(5..=120))]
    cap: u32,
    /// Sets.
    #[arg(long, value_name = "NUMBER", default_value_t = 3, value_parser = clap::value_parser!(u32).range(1..=3))]
    sets: u32,
    /// Rest between sets, seconds.
    #[arg(long, value_name = "SECONDS", default_value_t = 30, value_parser = clap::value_parser!(u32).range(20..=90))]
    rest: u32,
    /// Minutes of the slot that are not work.
    #[arg(long, value_name = "MINUTES", default_value_t = 19, value_parser = clap::value_parser!(u32).range(0..=60))]
    overhead: u32,
    /// Swimmers.
    #[arg(long, value_name = "NUMBER", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=500))]
    swimmers: u32,
    /// Adults on deck.
    #[arg(long, value_name = "NUMBER", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=20))]
    adults: u32,
    /// The group is under 13 or in teaching, which asks for the closer supervision.
    #[arg(long)]
    young: bool,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let parameters = &super::open::protocol(None)?.parameters;
    let exercise = |arms: Arms, at: u32| Exercise {
        name: say(
            if arms == Arms::Both { "fit-two-arm" } else { "fit-one-arm" },
            &[("number", (at + 1).to_string())],
        ),
        arms,
        external_rotation: false,
        two_arm_set_up: arms != Arms::Both,
    };
    let exercises: Vec<Exercise> = (0..args.one_arm)
        .map(|at| exercise(Arms::Alternating, at))
        .chain((0..args.two_arm).map(|at| exercise(Arms::Both, at)))
        .collect();
    if exercises.is_empty() {
        return Err(Failure::new(Exit::Input, "cli-fit-nothing", &[]).hint("cli-fit-nothing-hint"));
    }
    let session = Session {
        slot_min: args.minutes,
        overhead_min: args.overhead,
        exercises,
        sets: args.sets,
        cap: args.cap,
        full_cap: 120,
        rest: args.rest,
        swimmers: args.swimmers,
        adults: args.adults,
        ratio: u32::from(parameters.supervise_ratio[usize::from(!args.young)]),
    };
    let answer = answer(&session);
    let exit = if answer.fits { Exit::Well } else { Exit::Problems };
    if context.json {
        return Ok(Answer::json(exit, &answer));
    }
    Ok(Answer::page(exit, page_of(&answer)))
}

fn page_of(answer: &FitAnswer) -> Page {
    let mut page = Page::default();
    page.line(&say("fit-usable", &[("clock", answer.usable.clone())]));
    page.gap();
    let rows: Vec<Vec<String>> = answer
        .options
        .iter()
        .map(|option| {
            let fits = word(if option.fits { "fit-yes" } else { "fit-no" });
            let never = if option.never_qualify.is_empty() {
                String::new()
            } else {
                say("fit-never-qualify", &[("list", option.never_qualify.join(", "))])
            };
            vec![option.words.clone(), option.clock.clone(), fits, never]
        })
        .collect();
    page.table(2, &rows);
    for warning in &answer.warnings {
        page.gap();
        page.paragraph("", warning);
    }
    page
}
