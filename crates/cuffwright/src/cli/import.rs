//! `cuffwright import` and `cuffwright log add`: a club's own files, all or nothing, after a dry run if wanted.
//!
//! - `preview`: what a file says and would change, as JSON and for a terminal.

mod preview;

use std::path::{Path, PathBuf};

use app::bring_in::{Incoming, NoPreview};
use app::facts::ContextWord;
use app::import::{DateOrder, FileProblem, Kind};
use clap::ValueEnum;

use super::Context;
use super::answer::Answer;
use super::clock;
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::open::{self, StoreArgs};

use preview::Shape;

/// The largest file: as large as the import itself takes.
const LIST_FILE: AtMost = AtMost(20);

/// Brings in a club's own list: roster, screening values, kit or set times, from CSV or XLSX.
///
/// All of it or nothing: one bad row leaves the record as it was, and the same file again adds nothing. --dry-run
/// shows every problem with row, column, value and a suggestion, and every correction, and stores nothing.
#[derive(Debug, clap::Args)]
#[command(after_long_help = HELP)]
pub(super) struct Args {
    /// The file; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// What the file is a list of; its headers decide when left out.
    #[arg(long, value_enum)]
    kind: Option<KindWord>,
    #[command(flatten)]
    how: HowArgs,
}

/// Logs the set times of a session from a list: the same as import with --kind sets.
#[derive(Debug, clap::Args)]
#[command(after_long_help = HELP)]
pub(super) struct SetsArgs {
    /// The list of set times; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    how: HowArgs,
}

const HELP: &str = "\
Ends with 0 when the file was stored or could be, with 1 when a dry run found problems, with 2 when an import was \
refused for them.

JSON: shape cuffwright.import/1 with file, kind, dry_run, ready, stored, counts (rows, added, unchanged, corrected, \
blocking, to_confirm, notes), problems (row, column, value, weight: blocks, ask or note, code, says, suggestion), \
corrections (rows, kind, fields: field, before, after) and rows (row, about, outcome).";

/// What an import needs besides the file.
#[derive(Debug, clap::Args)]
struct HowArgs {
    #[command(flatten)]
    store: StoreArgs,
    /// Who brings the file in: the name that stands in the record.
    #[arg(long, value_name = "NAME", required_unless_present = "dry_run")]
    by: Option<String>,
    /// Shows what would happen and stores nothing.
    #[arg(long)]
    dry_run: bool,
    /// Order of day and month, where the file does not settle it.
    #[arg(long, value_enum)]
    dates: Option<DatesWord>,
    /// Whether sessions were after practice, rested or at home, where the file does not say.
    #[arg(long, value_enum)]
    context: Option<WhereWord>,
    /// Every unusual value is meant.
    #[arg(long)]
    accept_unusual: bool,
}

/// What a file is a list of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum KindWord {
    Roster,
    Screening,
    Kit,
    Sets,
}

/// Order of day and month.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum DatesWord {
    /// 31.12.2026.
    DayFirst,
    /// 12/31/2026.
    MonthFirst,
}

/// Where sessions took place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum WhereWord {
    AfterPractice,
    Rested,
    Home,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let kind = args.kind.map(|kind| match kind {
        KindWord::Roster => Kind::Roster,
        KindWord::Screening => Kind::Screening,
        KindWord::Kit => Kind::Kit,
        KindWord::Sets => Kind::Sets,
    });
    bring_in(&args.file, kind, &args.how, context)
}

/// `log add`.
pub(super) fn run_sets(args: &SetsArgs, context: Context) -> Result<Answer, Failure> {
    bring_in(&args.file, Some(Kind::Sets), &args.how, context)
}

fn bring_in(path: &Path, kind: Option<Kind>, how: &HowArgs, context: Context) -> Result<Answer, Failure> {
    let bytes = input::bytes(path, LIST_FILE)?;
    let name =
        path.file_name().map_or_else(|| input::name_of(path), |name| name.to_string_lossy().into_owned());
    let mut desk = how.store.open()?;
    let moment = clock::moment(&desk, context)?;
    let file = Incoming {
        bytes: &bytes,
        name: &name,
        kind,
        dates: how.dates.map(|order| match order {
            DatesWord::DayFirst => DateOrder::DayFirst,
            DatesWord::MonthFirst => DateOrder::MonthFirst,
        }),
        context: how.context.map(|place| match place {
            WhereWord::AfterPractice => ContextWord::AfterPractice,
            WhereWord::Rested => ContextWord::Rested,
            WhereWord::Home => ContextWord::Home,
        }),
        accept_unusual: how.accept_unusual,
    };
    let preview = desk.preview_import(moment.today, &file).map_err(|trouble| match trouble {
        NoPreview::File(problem) => unreadable(&problem),
        NoPreview::Record(error) => Failure::from(error),
    })?;
    let stored = preview.is_ready() && !how.dry_run;
    if stored {
        let author = open::author(how.by.as_deref().unwrap_or_default());
        desk.import(&moment, &author, &preview, &name)?;
    }
    let exit = match (preview.is_ready(), how.dry_run) {
        (true, _) => Exit::Well,
        (false, true) => Exit::Problems,
        (false, false) => Exit::Input,
    };
    let shape = Shape::of(&name, &preview, how.dry_run, stored);
    if context.json {
        return Ok(Answer::json(exit, &shape));
    }
    let refusal = (!preview.is_ready() && !how.dry_run)
        .then(|| Failure::new(exit, "error-import-not-ready", &[]).hint("cli-import-blocked-hint"));
    Ok(Answer { refusal, ..Answer::page(exit, shape.page()) })
}

/// A file that is no table, or of which nobody can tell what it lists.
fn unreadable(problem: &FileProblem) -> Failure {
    let failure = Failure::new(Exit::Input, problem.says.id, &problem.says.args);
    problem
        .suggestions
        .iter()
        .fold(failure, |failure, suggestion| failure.hint_with(suggestion.id, &suggestion.args))
}
