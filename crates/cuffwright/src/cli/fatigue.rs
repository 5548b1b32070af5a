//! `cuffwright fatigue`: a plan of loads, what is left of the muscle, and when it first falls short.

use std::path::PathBuf;

use app::facts::Problem;
use app::load::fatigue::{self, Answer as Said, Asked, Seconds};
use mechanics::fatigue::Muscle;
use picture::plot::{Axis, Mark, Plot, Role};
use quantity::Time;

use super::Context;
use super::answer::Answer;
use super::band::{figures, refusal};
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::page::Page;
use super::words::{say, word};

/// The largest plan.
const PLAN_FILE: AtMost = AtMost(4);

/// Works a plan of loads through the three-compartment model: trajectory, and when the muscle first falls short.
///
/// FILE is a table with the columns seconds and load_share (or load_pct). Seconds say how long each load lasts; where
/// they begin with 0 and rise from row to row they say when each load begins, and the last goes on until the muscle
/// falls short or the hour is over. A load of 0 is rest. Within one session only: nothing is said about hours.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
The model is that of Xia and Frey Law (2008) with recovery at rest (Looft 2018), solved in closed form with exact \
events. Rates of the joints are those of Frey-Law, Looft and Heitsman (2012).

JSON: shape cuffwright.fatigue/1 with muscle (name, fatigue_per_s, recovery_per_s, rest_factor), seconds_mean, plan \
(from_s, to_s, load_share, capacity_after), failed_at_s (null when it never fell short), failed, endless_share, \
trajectory and at_end (at_s, load_share, active, fatigued, resting, capacity), validity.")]
pub(super) struct Args {
    /// The plan; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Muscle group: shoulder, elbow, grip, trunk, knee, ankle or general.
    #[arg(long, value_name = "JOINT", default_value = "shoulder")]
    muscle: String,
    /// Fatigue rate F, per second, instead of the joint's.
    #[arg(long, value_name = "RATE", allow_hyphen_values = true)]
    fatigue_rate: Option<f64>,
    /// Recovery rate R, per second, instead of the joint's.
    #[arg(long, value_name = "RATE", allow_hyphen_values = true)]
    recovery_rate: Option<f64>,
    /// Factor r on recovery at rest, instead of the joint's; 1 is the model of 2008.
    #[arg(long, value_name = "FACTOR", allow_hyphen_values = true)]
    rest_factor: Option<f64>,
    /// What the column of seconds says, where the numbers do not tell.
    #[arg(long, value_enum, value_name = "WHAT")]
    seconds: Option<SecondsWord>,
    /// Seconds between points of the trajectory.
    #[arg(long, value_name = "SECONDS")]
    every: Option<f64>,
}

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum SecondsWord {
    /// How long each load lasts.
    Last,
    /// When each load begins.
    Start,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let file = input::name_of(&args.file);
    let refused = |problems: Vec<Problem>| refusal(&file, &problems);
    let asked = asked(args).map_err(|problem| refused(vec![problem]))?;
    let text = input::text(&args.file, PLAN_FILE)?;
    let (plan, meant) = fatigue::read(&text, asked.seconds).map_err(refused)?;
    let said = fatigue::work(&plan, meant, &asked).map_err(refused)?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &said));
    }
    Ok(Answer::page(Exit::Well, page_of(&said)))
}

fn asked(args: &Args) -> Result<Asked, Problem> {
    let word = args.muscle.trim().to_lowercase();
    let joint = fatigue::joint(&word).ok_or_else(|| {
        Problem::at("--muscle", "load-muscle")
            .with("word", args.muscle.clone())
            .with("known", "shoulder, elbow, grip, trunk, knee, ankle, general")
    })?;
    let (f, r, rest) = fatigue::rates(joint);
    let own = args.fatigue_rate.is_some() || args.recovery_rate.is_some() || args.rest_factor.is_some();
    let rates =
        (args.fatigue_rate.unwrap_or(f), args.recovery_rate.unwrap_or(r), args.rest_factor.unwrap_or(rest));
    let muscle = if own {
        Muscle::new(rates.0, rates.1, rates.2).map_err(|_| Problem::at("", "load-rates"))?
    } else {
        Muscle::of(joint)
    };
    let every = match args.every {
        Some(every) if (0.01..=3600.0).contains(&every) => Some(Time::from_seconds(every)),
        Some(_) => return Err(Problem::at("--every", "load-every")),
        None => None,
    };
    let seconds = args.seconds.map(|word| match word {
        SecondsWord::Last => Seconds::Last,
        SecondsWord::Start => Seconds::Start,
    });
    Ok(Asked { muscle, name: word, rates, seconds, every })
}

fn page_of(said: &Said) -> Page {
    let mut page = Page::default();
    let percent = |value: f64| format!("{:.0}", 100.0 * value);
    let muscle = &said.muscle;
    page.line(&say(
        "cli-fatigue-head",
        &[
            ("name", muscle.name.clone()),
            ("f", muscle.fatigue_per_s.to_string()),
            ("r", muscle.recovery_per_s.to_string()),
            ("rest", muscle.rest_factor.to_string()),
        ],
    ));
    page.line(&match said.failed_at_s {
        Some(seconds) => say("cli-fatigue-failed", &[("seconds", format!("{seconds:.1}"))]),
        None => word("cli-fatigue-never"),
    });
    page.line(&say("cli-fatigue-endless", &[("share", format!("{:.1}", 100.0 * said.endless_share))]));
    page.heading(&word("cli-fatigue-columns"));
    let rows: Vec<Vec<String>> = said
        .plan
        .iter()
        .take(60)
        .map(|part| {
            vec![
                figures(part.from_s),
                figures(part.to_s),
                percent(part.load_share),
                percent(part.capacity_after),
            ]
        })
        .collect();
    page.table(2, &rows);
    let title = word("cli-fatigue-plot");
    page.heading(&title);
    let (x, y) = (word("cli-fatigue-x"), word("cli-fatigue-y"));
    let points =
        |of: fn(&fatigue::Moment) -> f64| said.trajectory.iter().map(|at| (at.at_s, of(at))).collect();
    let plot = Plot {
        name: &title,
        description: "",
        x: Axis::of(&x),
        y: Axis { to: Some(1.0), ..Axis::from_nought(&y) },
        marks: vec![
            Mark::Line { name: "", role: Role::First, points: points(|at| at.capacity) },
            Mark::Steps { name: "", role: Role::Second, points: points(|at| at.load_share) },
        ],
    };
    for line in picture::plot::text(&plot, 72, 14).lines() {
        page.line(line);
    }
    page.gap();
    page.paragraph("", &word("cli-fatigue-valid"));
    page
}
