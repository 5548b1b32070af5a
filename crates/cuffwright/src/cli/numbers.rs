//! `cuffwright numbers`: statistics of a plain table, without a store.

use std::path::PathBuf;

use app::numbers::covariates::Choice;
use app::numbers::grid::Grid;
use app::numbers::{self, Block, censored, chart, icc, mixed, rate, survival};
use clap::{Subcommand, ValueEnum};
use serde_json::{Map, Value};
use stats::censored::Family;
use stats::level::Level;
use stats::mixed::Method;
use stats::survival::Limits;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::page::Page;
use super::words::word;

/// The largest table.
const TABLE_FILE: AtMost = AtMost(64);

/// Statistics of a plain table: reliability, set times, seasons, rates, charts. Needs no store.
///
/// Columns are found by their heads, in any case and spelling; options name them where the heads do not. A row with a
/// blank cell is left out and counted. docs/numbers.md describes every table and every field, with examples.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
Ends with 0 when there is an answer, with 1 when the data carry none (the reason is said, and stands in JSON as reason), \
with 2 when the table cannot be read.")]
pub(super) struct Args {
    #[command(subcommand)]
    kind: Kind,
}

#[derive(Debug, Subcommand)]
enum Kind {
    Icc(IccArgs),
    Survival(SurvivalArgs),
    Censored(CensoredArgs),
    Mixed(MixedArgs),
    Rate(RateArgs),
    Chart(ChartArgs),
}

/// What every question is asked of.
#[derive(Debug, clap::Args)]
struct Common {
    /// The table: CSV with comma, semicolon or tab, or XLSX; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Level of intervals.
    #[arg(long, value_name = "LEVEL", default_value = "0.95", value_parser = level)]
    level: Level,
}

/// How far a measurement can be trusted: six intraclass correlations, its error, the smallest change beyond it.
///
/// Wide: a column for each rater or trial, a row for each person. Long: subject, rater, value.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.icc/1 with says, n, k, left_out, layout, raters, mean_squares, icc (form, other_name, \
estimate, low, high, f, df1, df2, p), variance, sem and mdc (agreement, consistency), limits_of_agreement.")]
struct IccArgs {
    #[command(flatten)]
    common: Common,
    /// The column of those who were measured.
    #[arg(long, value_name = "COLUMN")]
    subject: Option<String>,
    /// The column of raters or trials, in a long table.
    #[arg(long, value_name = "COLUMN")]
    rater: Option<String>,
    /// The column of values, in a long table.
    #[arg(long, value_name = "COLUMN")]
    value: Option<String>,
    /// A column that is not a rating; may be repeated.
    #[arg(long, value_name = "COLUMN", value_delimiter = ',')]
    ignore: Vec<String>,
}

/// How long form is held: the Kaplan-Meier curve, its median and mean, groups compared.
///
/// Columns: seconds, event (1 form lost, 0 lasted at least so long), optional group.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.survival/1 with says, n, events, censored, left_out, unseen, median, median_low, \
median_high, restricted_mean (until, estimate, se), longest, curve (time, at_risk, events, survival, se, low, high), \
groups (the same for each), log_rank (chi_square, df, p, groups).")]
struct SurvivalArgs {
    #[command(flatten)]
    common: Common,
    /// The column of times.
    #[arg(long, value_name = "COLUMN")]
    time: Option<String>,
    /// The column that says whether form was lost.
    #[arg(long, value_name = "COLUMN")]
    event: Option<String>,
    /// The column of groups to compare.
    #[arg(long, value_name = "COLUMN")]
    group: Option<String>,
    /// How limits are laid round the curve.
    #[arg(long, value_enum, default_value_t = LimitsWord::LogLog)]
    limits: LimitsWord,
    /// Up to which time the mean is taken; the longest when left out.
    #[arg(long, value_name = "TIME")]
    until: Option<f64>,
}

/// Set times explained by covariates, caps censored, with a value of each group's own.
///
/// Columns: seconds, event (1 form lost, 0 lasted at least so long), optional group; every other column explains.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.censored/1 with says, family, n, events, censored, groups, left_out, unseen, estimates \
(name, estimate, se, low, high, z, p, time_ratio), scale, log_scale, log_scale_se, log_likelihood, aic, converged, \
convergence, group_sd, group_sd_se, group_sd_on_boundary, group_values, and ignoring_groups (the model without them, \
with robust_se).")]
struct CensoredArgs {
    #[command(flatten)]
    common: Common,
    /// The column of times.
    #[arg(long, value_name = "COLUMN")]
    time: Option<String>,
    /// The column that says whether form was lost.
    #[arg(long, value_name = "COLUMN")]
    event: Option<String>,
    /// The column of groups with a value of their own.
    #[arg(long, value_name = "COLUMN")]
    group: Option<String>,
    /// Fits no value of each group's own.
    #[arg(long)]
    no_groups: bool,
    /// Form of the error; only log-normal and normal can have groups.
    #[arg(long, value_enum, default_value_t = FamilyWord::LogNormal)]
    family: FamilyWord,
    /// Which side of the time is known where the event did not come.
    #[arg(long, value_enum, default_value_t = Side::Right)]
    censoring: Side,
    #[command(flatten)]
    explain: Explain,
}

/// Repeated measurements of many people: a linear mixed model.
///
/// Columns: value, group; every other column explains.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.mixed/1 with says, method, n, groups, left_out, estimates (name, estimate, se, low, \
high, t, p), variance (intercept, slope, covariance, correlation, residual, and their sd), log_likelihood, criterion, \
deviance, aic, converged, singular, convergence, group_values (group, n, intercept, slope).")]
struct MixedArgs {
    #[command(flatten)]
    common: Common,
    /// The column of values.
    #[arg(long, value_name = "COLUMN")]
    value: Option<String>,
    /// The column of groups.
    #[arg(long, value_name = "COLUMN")]
    group: Option<String>,
    /// The covariate whose slope may differ between groups.
    #[arg(long, value_name = "COLUMN")]
    slope: Option<String>,
    /// Restricted maximum likelihood, which is also what is done when nothing is said.
    #[arg(long, conflicts_with = "ml")]
    reml: bool,
    /// Maximum likelihood.
    #[arg(long)]
    ml: bool,
    #[command(flatten)]
    explain: Explain,
}

/// Events over exposure with exact limits, rates against each other; or events of so many people.
///
/// Columns: events, exposure, optional group; or events, people, optional group. Rows of one group are added up.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.rate/1 with says, events, exposure, per, rate, low, high, count_low, count_high, \
mid_p_low, mid_p_high, byar_low, byar_high, rates (the same by group), ratios (group, reference, ratio, low, high, \
mid_p_low, mid_p_high, wald_low, wald_high, p), ratio (where there are two groups), smallest_reduction_shown; for \
people: share, low, high (Wilson), corrected, exact, shares.")]
struct RateArgs {
    #[command(flatten)]
    common: Common,
    /// Per how much exposure.
    #[arg(long, value_name = "AMOUNT", default_value_t = 1000.0)]
    per: f64,
    /// The column of events.
    #[arg(long, value_name = "COLUMN")]
    events: Option<String>,
    /// The column of exposure.
    #[arg(long, value_name = "COLUMN")]
    exposure: Option<String>,
    /// The column of people, for shares.
    #[arg(long, value_name = "COLUMN", conflicts_with = "exposure")]
    people: Option<String>,
    /// The column of groups.
    #[arg(long, value_name = "COLUMN")]
    group: Option<String>,
    /// The group that others are held against.
    #[arg(long, value_name = "GROUP")]
    reference: Option<String>,
}

/// One line or many over time: a self-starting cumulative sum, with the rate of false alarms of all together.
///
/// Columns: value, optional series, optional order; without an order the rows stand in theirs.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.numbers.chart/1 with says, method, k, h, series_count, n, series (series, n, learning, \
first_signal: at, direction, change_after, level, before; signal_open; points: n, value, mean_before, sd_before, t, u, \
c_plus, c_minus, n_plus, n_minus, signal), false_alarms (series, readings, run_length, chance_each, expected, \
chance_any, per_round).")]
struct ChartArgs {
    #[command(flatten)]
    common: Common,
    /// The column of readings.
    #[arg(long, value_name = "COLUMN")]
    value: Option<String>,
    /// The column that says which line a reading belongs to.
    #[arg(long, value_name = "COLUMN")]
    series: Option<String>,
    /// The column that puts readings in order.
    #[arg(long, value_name = "COLUMN")]
    order: Option<String>,
    /// Slack, in standard deviations.
    #[arg(long, value_name = "K", default_value_t = 0.5)]
    k: f64,
    /// Limit, in standard deviations; from the run length when left out.
    #[arg(long, value_name = "H")]
    h: Option<f64>,
    /// Readings to a false alarm, on average, that the limit is made for.
    #[arg(long, value_name = "READINGS", default_value_t = 370.4, alias = "arl0")]
    run_length: f64,
    /// A known level; needs --sigma.
    #[arg(long, value_name = "LEVEL", allow_hyphen_values = true)]
    target: Option<f64>,
    /// A known spread; needs --target.
    #[arg(long, value_name = "SPREAD")]
    sigma: Option<f64>,
    /// The most that one reading may add, in standard deviations.
    #[arg(long, value_name = "U")]
    winsorise: Option<f64>,
    /// Stops learning while a signal is open.
    #[arg(long)]
    freeze: bool,
    /// Readings before a line says anything.
    #[arg(long, value_name = "READINGS", default_value_t = 2)]
    learning: usize,
    /// Readings of a season, for the rate of false alarms.
    #[arg(long, value_name = "READINGS", default_value_t = 52)]
    season: usize,
}

/// Which columns explain.
#[derive(Debug, clap::Args)]
struct Explain {
    /// Only these columns explain; may be repeated, or separated by commas.
    #[arg(long, value_name = "COLUMN", value_delimiter = ',', conflicts_with = "no_covariates")]
    covariates: Vec<String>,
    /// This column does not explain; may be repeated, or separated by commas.
    #[arg(long, value_name = "COLUMN", value_delimiter = ',')]
    ignore: Vec<String>,
    /// No column explains.
    #[arg(long)]
    no_covariates: bool,
}

impl Explain {
    fn choice(&self) -> Choice {
        Choice { only: self.covariates.clone(), ignore: self.ignore.clone(), none: self.no_covariates }
    }
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum LimitsWord {
    Plain,
    Log,
    LogLog,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum FamilyWord {
    #[value(alias = "lognormal")]
    LogNormal,
    Weibull,
    Exponential,
    #[value(alias = "loglogistic")]
    LogLogistic,
    #[value(alias = "gaussian", alias = "tobit")]
    Normal,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Side {
    /// It lasted at least so long.
    Right,
    /// It is at most so much.
    Left,
}

/// A level as a share or in percent.
fn level(text: &str) -> Result<Level, String> {
    let plain = text.trim().trim_end_matches('%').trim().replace(',', ".");
    let share = plain.parse::<f64>().ok().map(|value| if 1.0 < value { value / 100.0 } else { value });
    share.and_then(|share| Level::new(share).ok()).ok_or_else(|| word("numbers-not-a-level"))
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let (common, shape) = match &args.kind {
        Kind::Icc(args) => (&args.common, "cuffwright.numbers.icc/1"),
        Kind::Survival(args) => (&args.common, "cuffwright.numbers.survival/1"),
        Kind::Censored(args) => (&args.common, "cuffwright.numbers.censored/1"),
        Kind::Mixed(args) => (&args.common, "cuffwright.numbers.mixed/1"),
        Kind::Rate(args) => (&args.common, "cuffwright.numbers.rate/1"),
        Kind::Chart(args) => (&args.common, "cuffwright.numbers.chart/1"),
    };
    let grid = Grid::read(&input::bytes(&common.file, TABLE_FILE)?, &input::name_of(&common.file))?;
    let found = ask(&args.kind, &grid, common.level)?;
    let exit = if found.answered { Exit::Well } else { Exit::Problems };
    if context.json {
        let mut json = Map::new();
        json.insert("shape".to_owned(), Value::String(shape.to_owned()));
        json.extend(found.json);
        return Ok(Answer::json(exit, &json));
    }
    let mut page = Page::default();
    for block in &found.blocks {
        page.gap();
        match block {
            Block::Says(text) => page.paragraph("", text),
            Block::Table(rows) => page.table(2, rows),
        }
    }
    Ok(Answer::page(exit, page))
}

fn ask(kind: &Kind, grid: &Grid, level: Level) -> Result<numbers::Answer, Failure> {
    let found = match kind {
        Kind::Icc(args) => icc::answer(
            grid,
            &icc::Options {
                level,
                subject: args.subject.clone(),
                rater: args.rater.clone(),
                value: args.value.clone(),
                ignore: args.ignore.clone(),
            },
        ),
        Kind::Survival(args) => survival::answer(
            grid,
            &survival::Options {
                level,
                time: args.time.clone(),
                event: args.event.clone(),
                group: args.group.clone(),
                limits: match args.limits {
                    LimitsWord::Plain => Limits::Plain,
                    LimitsWord::Log => Limits::Log,
                    LimitsWord::LogLog => Limits::LogLog,
                },
                until: args.until,
            },
        ),
        Kind::Censored(args) => censored::answer(
            grid,
            &censored::Options {
                level,
                time: args.time.clone(),
                event: args.event.clone(),
                group: args.group.clone(),
                no_groups: args.no_groups,
                family: match args.family {
                    FamilyWord::LogNormal => Family::LogNormal,
                    FamilyWord::Weibull => Family::Weibull,
                    FamilyWord::Exponential => Family::Exponential,
                    FamilyWord::LogLogistic => Family::LogLogistic,
                    FamilyWord::Normal => Family::Normal,
                },
                left: args.censoring == Side::Left,
                choice: args.explain.choice(),
            },
        ),
        Kind::Mixed(args) => mixed::answer(
            grid,
            &mixed::Options {
                level,
                value: args.value.clone(),
                group: args.group.clone(),
                slope: args.slope.clone(),
                method: if args.ml && !args.reml { Method::MaximumLikelihood } else { Method::Restricted },
                choice: args.explain.choice(),
            },
        ),
        Kind::Rate(args) => rate::answer(
            grid,
            &rate::Options {
                level,
                per: args.per,
                events: args.events.clone(),
                exposure: args.exposure.clone(),
                people: args.people.clone(),
                group: args.group.clone(),
                reference: args.reference.clone(),
            },
        ),
        Kind::Chart(args) => chart::answer(
            grid,
            &chart::Options {
                value: args.value.clone(),
                series: args.series.clone(),
                order: args.order.clone(),
                k: args.k,
                h: args.h,
                run_length: args.run_length,
                target: args.target,
                sigma: args.sigma,
                winsorise: args.winsorise,
                freeze: args.freeze,
                learning: args.learning,
                season: args.season,
            },
        ),
    };
    Ok(found?)
}
