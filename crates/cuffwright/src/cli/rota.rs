//! `cuffwright rota`: groups over stations from a table of minutes, answered without a store.

use std::path::PathBuf;
use std::time::{Duration, Instant};

use app::week::rota::{self, Number, RotaAnswer};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::{Failure, Trouble};
use super::input::{self, AtMost};
use super::page::Page;
use super::words::{say, word};

/// The largest table.
const TABLE: AtMost = AtMost(2);

/// Finds the shortest rota: each group once at each of its stations, one group at a station at a time.
///
/// FILE is a table with a delimiter: the first line names the stations after a first cell of its own, each further line
/// is a group and its minutes at each station; zero or a dash where it does not go. Needs no store; a dash reads
/// standard input.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.rota/1 with minutes, proven, at_least, gap, method, groups, stations, visits (group, station, \
start, end) and starts (group, then station). All times are minutes from the start. Minutes may be written 4, 4.5 or \
4:30. A kit table has the columns kit, pieces, and a column for each station with what a group needs there.")]
pub(super) struct Args {
    /// The table of minutes; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Minutes between two stays, for the group that moves and the station that is set up.
    #[arg(long, value_name = "MINUTES", default_value_t = 0.0, value_parser = minutes)]
    change: f64,
    /// Kit that stations share, as a table.
    #[arg(long, value_name = "FILE")]
    kit: Option<PathBuf>,
    /// Longest search. The answer then says what might still be saved.
    #[arg(long, value_name = "SECONDS", default_value_t = 60, value_parser = clap::value_parser!(u64).range(1..=3600))]
    seconds: u64,
}

fn minutes(text: &str) -> Result<f64, String> {
    let minutes: Option<f64> = text.parse().ok();
    minutes.filter(|minutes| (0.0..=60.0).contains(minutes)).ok_or_else(|| word("cli-not-minutes"))
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let began = Instant::now();
    let limit = Duration::from_secs(args.seconds);
    let table = rota::read(&input::text(&args.file, TABLE)?).map_err(|found| refused(&args.file, &found))?;
    let kit = match &args.kit {
        Some(file) => {
            rota::read_kit(&input::text(file, TABLE)?, &table).map_err(|found| refused(file, &found))?
        }
        None => Vec::new(),
    };
    let answer = rota::run(&table, args.change, kit, &mut || limit <= began.elapsed())
        .map_err(|found| refused(&args.file, &found))?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &answer));
    }
    Ok(Answer::page(Exit::Well, page_of(&answer)))
}

fn refused(file: &std::path::Path, problems: &[app::facts::Problem]) -> Failure {
    let name = input::name_of(file);
    let hint = problems
        .iter()
        .map(|problem| format!("{}-hint", problem.says))
        .find(|hint| app::text::Texts::english().has(hint))
        .unwrap_or_else(|| "rota-empty-hint".to_owned());
    let troubles = problems
        .iter()
        .map(|problem| Trouble {
            path: if problem.path.is_empty() { String::new() } else { format!("{name}:{}", problem.path) },
            says: say(problem.says, &problem.args),
        })
        .collect();
    Failure::new(Exit::Input, "cli-rota-refused", &[("file", name)]).hint(&hint).list(troubles)
}

fn page_of(answer: &RotaAnswer) -> Page {
    let mut page = Page::default();
    let values = [("minutes", answer.minutes.to_string()), ("least", answer.at_least.to_string())];
    let says = if answer.proven { "cli-rota-proven" } else { "cli-rota-gap" };
    page.line(&say(says, &values));
    page.gap();
    let mut rows = vec![vec![word("cli-rota-group")]];
    rows[0].extend(answer.stations.iter().cloned());
    rows[0].push(String::new());
    let end = |start: &Number, group: &str, station: &str| {
        answer
            .visits
            .iter()
            .find(|visit| visit.group == group && visit.station == station)
            .map_or_else(String::new, |visit| format!("{start}-{}", visit.end))
    };
    for group in &answer.groups {
        let mut row = vec![group.clone()];
        for station in &answer.stations {
            let start = answer.starts.get(group).and_then(|starts| starts.get(station));
            row.push(start.map_or_else(|| "-".to_owned(), |start| end(start, group, station)));
        }
        row.push(String::new());
        rows.push(row);
    }
    page.table(2, &rows);
    page
}
