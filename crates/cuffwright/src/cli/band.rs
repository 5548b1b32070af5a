//! `cuffwright band fit`: readings of a luggage scale to a force law.

use std::path::PathBuf;

use app::facts::Problem;
use app::load::band::{self, Answer as Said, Asked};
use picture::plot::{Axis, Mark, Plot, Role};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::{Failure, troubles};
use super::input::{self, AtMost};
use super::page::Page;
use super::words::{say, word};

/// The largest file of readings.
const READINGS_FILE: AtMost = AtMost(4);

/// Measured bands.
#[derive(Debug, clap::Args)]
pub(super) struct Args {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, clap::Subcommand)]
enum What {
    Fit(Fit),
}

/// Fits a force law to readings of a scale at several lengths: constants, errors, range, residuals, predictions.
///
/// FILE is a table with a column for length and one for force, each with its unit in the head (length_m, length_cm,
/// length_in; force_n, force_kg, force_lb); a dash reads standard input. At least four readings. Pull the band ten times
/// first, wait a minute, read going up. Nothing is stored.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
The law is that of Mooney and Rivlin for one strand, F = a (l - 1/l^2) + b (1 - 1/l^3), fitted by least squares with \
neither constant below zero. Use predictions, never a constant alone: the two are nearly collinear.

JSON: shape cuffwright.band-fit/1 with law, formula, rest_m, n_readings, constants (a_n, b_n), standard_errors, \
covariance_n2, correlation, held_at_zero, residual_sd_n, root_mean_square_n, degrees_of_freedom, range (length_m, \
stretch, elongation_pct), readings (line, length_m, stretch, force_n, fitted_n, residual_n), residuals_n, \
force_at_double_n, and predictions (stretch, elongation_pct, length_m, force_n, curve_sd_n, new_reading_sd_n, \
interval_95_n, in_use_sd_n, reach, outside_by).")]
struct Fit {
    /// The readings; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Rest length between the marks: metres, or with a unit (30cm, 12in).
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    rest: String,
    /// Predicts at these stretches (length over rest length) instead of evenly through the readings.
    #[arg(long, value_name = "STRETCH", value_delimiter = ',', allow_hyphen_values = true)]
    at: Vec<f64>,
    /// Fits the first constant alone, to see what the second one buys.
    #[arg(long)]
    one_term: bool,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let What::Fit(args) = &args.what;
    let refused = |problems: Vec<Problem>| refusal(&input::name_of(&args.file), &problems);
    let rest = band::length(&args.rest)
        .map_err(|problem| refused(vec![Problem { path: "--rest".to_owned(), ..problem }]))?;
    let asked = Asked { one_term: args.one_term, at: args.at.clone(), ..Asked::of(rest) };
    let text = input::text(&args.file, READINGS_FILE)?;
    let said = band::read(&text, &asked).map_err(refused)?.answer(&asked);
    if context.json {
        return Ok(Answer::json(Exit::Well, &said));
    }
    Ok(Answer::page(Exit::Well, page_of(&said)))
}

/// A file that cannot be worked out, with every problem.
pub(super) fn refusal(file: &str, problems: &[Problem]) -> Failure {
    let values = [("file", file.to_owned()), ("number", problems.len().to_string())];
    Failure::new(Exit::Input, "cli-load-refused", &values)
        .hint("cli-load-refused-hint")
        .list(troubles(problems))
}

/// Significant figures enough to read, not more than the errors carry.
pub(super) fn figures(value: f64) -> String {
    let size = value.abs();
    match size {
        _ if size >= 100.0 => format!("{value:.0}"),
        _ if size >= 10.0 => format!("{value:.1}"),
        _ if size >= 0.1 || size == 0.0 => format!("{value:.2}"),
        _ => format!("{value:.4}"),
    }
}

fn page_of(said: &Said) -> Page {
    let mut page = Page::default();
    let f = figures;
    page.paragraph(
        "",
        &say(
            "cli-band-head",
            &[
                ("rest", format!("{:.3}", said.rest_m)),
                ("n", said.n_readings.to_string()),
                ("low", format!("{:.0}", said.range.elongation_pct[0])),
                ("high", format!("{:.0}", said.range.elongation_pct[1])),
            ],
        ),
    );
    let correlation = said.correlation.map_or_else(|| "none".to_owned(), |value| format!("{value:.2}"));
    page.paragraph(
        "",
        &say(
            "cli-band-law",
            &[
                ("a", f(said.constants.a_n)),
                ("asd", f(said.standard_errors.a_n)),
                ("b", f(said.constants.b_n)),
                ("bsd", f(said.standard_errors.b_n)),
                ("correlation", correlation),
            ],
        ),
    );
    if said.held_at_zero.a || (said.held_at_zero.b && said.law == "mooney-rivlin") {
        page.line(&word("cli-band-held"));
    }
    page.line(&say("cli-band-residual", &[("sd", f(said.residual_sd_n))]));
    let double = &said.force_at_double_n;
    page.line(&say("cli-band-double", &[("force", f(double.force_n)), ("sd", f(double.in_use_sd_n))]));
    page.heading(&word("cli-band-columns"));
    let rows: Vec<Vec<String>> = said
        .predictions
        .iter()
        .map(|at| {
            vec![
                format!("{:.0}", at.elongation_pct),
                f(at.force_n),
                f(at.curve_sd_n),
                format!("{} – {}", f(at.interval_95_n[0]), f(at.interval_95_n[1])),
                if at.reach == "above" { word("cli-band-above") } else { String::new() },
            ]
        })
        .collect();
    page.table(2, &rows);
    page.heading(&word("cli-band-readings"));
    let rows: Vec<Vec<String>> = said
        .readings
        .iter()
        .map(|at| {
            vec![
                at.line.to_string(),
                format!("{:.3}", at.length_m),
                f(at.force_n),
                format!("{:+.2}", at.residual_n),
            ]
        })
        .collect();
    page.table(2, &rows);
    let title = word("cli-band-plot");
    page.heading(&title);
    let plot = Plot {
        name: &title,
        description: "",
        x: Axis::of("l"),
        y: Axis::from_nought("N"),
        marks: vec![
            Mark::Line {
                name: "",
                role: Role::First,
                points: said.predictions.iter().map(|at| (at.stretch, at.force_n)).collect(),
            },
            Mark::Points {
                name: "",
                role: Role::First,
                points: said.readings.iter().map(|at| (at.stretch, at.force_n)).collect(),
            },
        ],
    };
    for line in picture::plot::text(&plot, 72, 14).lines() {
        page.line(line);
    }
    page
}
