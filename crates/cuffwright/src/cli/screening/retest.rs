//! `cuffwright screening retest`: up, down or cannot tell, with the error used.

use app::screening::retest::retest;
use jiff::civil::Date;
use serde::Serialize;
use trade::screening::error::Origin;
use trade::side::Side;

use crate::cli::Context;
use crate::cli::answer::Answer;
use crate::cli::exit::Exit;
use crate::cli::failure::Failure;
use crate::cli::open::StoreArgs;
use crate::cli::page::Page;
use crate::cli::sheet::Who;
use crate::cli::words::{self, say, word};
use crate::cli::{clock, find};

/// Compares each measure with the test before it: up or down only beyond the error of the test.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.screening-retest/1 with on and swimmers: id, name, squad, unreadable, contested, changes (key, \
side, unit, before, before_day, now, now_day, difference, low, high, smallest, word: up, down or cannot-tell, \
other_tester, error: from own, published or none, sem, n, source).")]
pub(super) struct Args {
    /// Name, club number or id of one swimmer; the squad when left out.
    #[arg(value_name = "NAME")]
    name: Option<String>,
    #[command(flatten)]
    store: StoreArgs,
    /// The day asked about; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    on: String,
    swimmers: Vec<Swimmer>,
}

#[derive(Serialize)]
struct Swimmer {
    #[serde(flatten)]
    who: Who,
    changes: Vec<ChangeShape>,
}

#[derive(Serialize)]
struct ChangeShape {
    key: &'static str,
    side: Option<&'static str>,
    unit: &'static str,
    before: f64,
    before_day: String,
    now: f64,
    now_day: String,
    difference: f64,
    low: Option<f64>,
    high: Option<f64>,
    smallest: Option<f64>,
    word: &'static str,
    other_tester: bool,
    error: ErrorShape,
}

#[derive(Serialize)]
struct ErrorShape {
    from: &'static str,
    sem: Option<f64>,
    n: Option<usize>,
    source: Option<String>,
}

impl ErrorShape {
    fn of(origin: Option<&Origin>, level: f64) -> Self {
        let sem = origin.map(|origin| origin.sem(level));
        match origin {
            None => Self { from: "none", sem, n: None, source: None },
            Some(Origin::Own(trial)) => {
                Self { from: "own", sem, n: Some(trial.n), source: Some(trial.date.to_string()) }
            }
            Some(Origin::Published(published)) => Self {
                from: "published",
                sem,
                n: Some(usize::from(published.n)),
                source: Some(published.source.to_owned()),
            },
        }
    }
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let mut swimmers = Vec::new();
    for person in find::swimmers(&desk, args.name.as_deref(), on)? {
        let changes = retest(&desk, person, on).into_iter().map(|row| ChangeShape {
            key: row.measure.key,
            side: row.side.map(Side::word),
            unit: quantity::Range::of(row.measure.key).map_or("", |range| range.unit),
            before: row.before.value,
            before_day: row.before.date.to_string(),
            now: row.now.value,
            now_day: row.now.date.to_string(),
            difference: row.change.difference,
            low: row.change.low,
            high: row.change.high,
            smallest: row.change.smallest,
            word: row.change.word.word(),
            other_tester: row.other_tester(),
            error: ErrorShape::of(row.error.as_ref(), (row.before.value + row.now.value) / 2.0),
        });
        swimmers.push(Swimmer { who: Who::of(person), changes: changes.collect() });
    }
    if context.json {
        let shape = Shape { shape: "cuffwright.screening-retest/1", on: on.to_string(), swimmers };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say("cli-retest-on", &[("day", app::text::day(on)), ("number", swimmers.len().to_string())]));
    for swimmer in &swimmers {
        swimmer.who.print(&mut page);
        if swimmer.changes.is_empty() {
            page.paragraph("  ", &word("retest-nothing"));
            continue;
        }
        let number = |value: f64| format!("{}", (value * 100.0).round() / 100.0);
        let rows: Vec<Vec<String>> = swimmer
            .changes
            .iter()
            .map(|change| {
                let side = change.side.map_or_else(String::new, |side| word(&format!("side-{side}")));
                let interval = match (change.low, change.high) {
                    (Some(low), Some(high)) => {
                        say("retest-interval", &[("low", number(low)), ("high", number(high))])
                    }
                    _ => word("cli-no-error"),
                };
                vec![
                    word(&format!("measure-{}", change.key)),
                    side,
                    format!("{} → {} {}", number(change.before), number(change.now), change.unit),
                    interval,
                    word(&format!("change-{}", change.word)),
                ]
            })
            .collect();
        page.table(2, &rows);
    }
    page.gap();
    page.paragraph("", &word("retest-growth"));
    Ok(Answer::page(Exit::Well, page))
}
