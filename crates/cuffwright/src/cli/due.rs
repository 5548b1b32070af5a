//! `cuffwright due`: what must be closed by a recorded fact, the most overdue first.

use app::wire::answer::DueWord;
use jiff::civil::Date;
use serde::Serialize;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::sheet;
use super::words::{self, say, word};
use super::{clock, find};

/// Lists what must be closed by a recorded fact: what, for whom, by whom, by when.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.due/1 with on and due: id, name, kind (which kind of fact closes it), by, owner, side, code, \
words, ground, source; the earliest first.")]
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
    due: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    id: String,
    name: String,
    #[serde(flatten)]
    due: DueWord,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let mut due = Vec::new();
    for person in find::swimmers(&desk, args.name.as_deref(), on)? {
        let (id, name) = (person.subject.to_string(), &person.read.swimmer.name);
        let answer = sheet::answer_for(&desk, person, on);
        due.extend(answer.due.into_iter().map(|due| Item { id: id.clone(), name: name.clone(), due }));
    }
    // Stable: within a day the order of the squad and of the rules stays.
    due.sort_by(|one, other| one.due.by.cmp(&other.due.by));
    let day = app::text::day(on);
    let on = on.to_string();
    if context.json {
        return Ok(Answer::json(Exit::Well, &Shape { shape: "cuffwright.due/1", on, due }));
    }
    let mut page = Page::default();
    page.line(&say("cli-due-on", &[("day", day), ("number", due.len().to_string())]));
    page.gap();
    let mut rows = vec![
        ["cli-head-by", "cli-head-late", "cli-head-owner", "cli-head-name", "cli-head-code", "cli-head-what"]
            .map(word)
            .to_vec(),
    ];
    for item in &due {
        let mut row = sheet::due_row(&item.due, &on);
        row.insert(3, item.name.clone());
        rows.push(row);
    }
    if !due.is_empty() {
        page.table(2, &rows);
    }
    Ok(Answer::page(Exit::Well, page))
}
