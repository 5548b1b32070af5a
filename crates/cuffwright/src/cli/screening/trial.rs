//! `cuffwright screening trial`: the club's own trial of a test, from a table.

use std::path::PathBuf;

use app::desk::Draft;
use app::facts::TrialFact;
use app::screening::trial::{measure, of, read};
use jiff::civil::Date;
use serde::Serialize;
use store::SubjectId;
use trade::screening::error::{FEWEST_OWN, smallest_change};

use crate::cli::Context;
use crate::cli::answer::Answer;
use crate::cli::clock;
use crate::cli::exit::Exit;
use crate::cli::failure::Failure;
use crate::cli::input::{self, AtMost};
use crate::cli::open::{ByArgs, StoreArgs};
use crate::cli::page::Page;
use crate::cli::words::{self, say, word};
use crate::web::pages::screening::trial::in_range_units;

/// The largest table of a trial.
const TABLE: AtMost = AtMost(4);

/// Brings in the club's own trial of a test: the same people, tested twice or more.
///
/// The table has a heading line and a line a person or arm, with columns named `trial 1`, `trial 2`, or `test`,
/// `retest`. Its error is used before any printed one from five people on.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.screening-trial/1 with measure, date, people, trials, sem, smallest_change (both null without \
spread), used (false under five people) and recorded (false with --dry-run).")]
pub(super) struct Args {
    /// The table; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Which measure, by its key or its name, for instance er_force.
    #[arg(long, value_name = "MEASURE")]
    measure: String,
    /// The day on which it was finished; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    date: Option<Date>,
    /// Who tested, and how far apart.
    #[arg(long, value_name = "WORDS", default_value = "")]
    how: String,
    /// Only says what the table comes to; records nothing.
    #[arg(long)]
    dry_run: bool,
    #[command(flatten)]
    store: StoreArgs,
    #[command(flatten)]
    by: ByArgs,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    measure: &'static str,
    date: String,
    people: usize,
    trials: usize,
    sem: Option<f64>,
    smallest_change: Option<f64>,
    used: bool,
    recorded: bool,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let Some(measure) = measure(&args.measure) else {
        let known: Vec<&str> =
            trade::screening::measure::MEASURES.iter().map(|measure| measure.key).collect();
        return Err(Failure::new(Exit::NotFound, "cli-no-measure", &[("wanted", args.measure.clone())])
            .hint_with("cli-known", &[("known", known.join(", "))]));
    };
    let written = input::text(&args.file, TABLE)?;
    let rows = read(&written)?;
    let mut desk = args.store.open()?;
    let today = clock::day(&desk, context, None)?;
    let date = args.date.unwrap_or(today);
    if today < date {
        return Err(Failure::new(Exit::Input, "cli-trial-future", &[("day", date.to_string())]));
    }
    let fact = TrialFact {
        date,
        measure: measure.key.to_owned(),
        rows: in_range_units(&desk, measure.key, rows),
        how: args.how.trim().to_owned(),
    };
    fact.check().map_err(app::error::AppError::problems)?;
    let error = of(&fact);
    if !args.dry_run {
        let moment = clock::moment(&desk, context)?;
        desk.record(&moment, &args.by.author(), SubjectId::CLUB, &[Draft::new(&fact)])?;
    }
    let (people, trials) = (fact.rows.len(), fact.rows.first().map_or(0, Vec::len));
    let shape = Shape {
        shape: "cuffwright.screening-trial/1",
        measure: measure.key,
        date: date.to_string(),
        people,
        trials,
        sem: error.as_ref().map(|error| error.sem),
        smallest_change: error.as_ref().map(|error| smallest_change(error.sem)),
        used: error.is_some() && FEWEST_OWN <= people,
        recorded: !args.dry_run,
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let number =
        |value: Option<f64>| value.map_or_else(|| word("trial-no-error"), |value| format!("{value:.2}"));
    let mut page = Page::default();
    page.paragraph(
        "",
        &say(
            "cli-trial-sum",
            &[
                ("measure", word(&format!("measure-{}", measure.key))),
                ("people", people.to_string()),
                ("trials", trials.to_string()),
                ("sem", number(shape.sem)),
                ("smallest", number(shape.smallest_change)),
            ],
        ),
    );
    if !shape.used {
        page.paragraph("", &word("trial-too-few"));
    }
    page.line(&word(if shape.recorded { "cli-trial-recorded" } else { "cli-trial-dry" }));
    Ok(Answer::page(Exit::Well, page))
}
