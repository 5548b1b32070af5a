//! `cuffwright ask`: whom to ask this week, about what, and how many lie below the fold.

use app::asking::{FOLD, response, whom_to_ask};
use app::wire::answer::Reason;
use jiff::civil::Date;
use serde::Serialize;
use trade::side::Side;

use super::Context;
use super::answer::Answer;
use super::clock;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::sheet::{Who, wording};
use super::words::{self, say, word};

/// Lists whom to ask this week, with the reason and the question. A prompt to talk, never a verdict.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.ask/1 with on, squad, above (how many of the list stand above the fold), below, answered (how \
many gave a weekly check this week), charts (kept, learning, readings, by_chance: how many would speak by chance \
alone in a season; null without charts) and swimmers in order: id, name, squad, unreadable, contested, reasons (kind, \
side, seen, question, code, words, ground, source).")]
pub(super) struct Args {
    #[command(flatten)]
    store: StoreArgs,
    /// The day asked about; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
    /// Everybody, also below the fold.
    #[arg(long)]
    all: bool,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    on: String,
    squad: usize,
    above: usize,
    below: usize,
    answered: usize,
    charts: Option<Charts>,
    swimmers: Vec<Swimmer>,
}

/// Charts kept, and how many would speak by chance alone in a season.
#[derive(Serialize)]
struct Charts {
    kept: usize,
    learning: usize,
    readings: usize,
    by_chance: f64,
}

#[derive(Serialize)]
struct Swimmer {
    #[serde(flatten)]
    who: Who,
    reasons: Vec<Asked>,
}

#[derive(Serialize)]
struct Asked {
    kind: &'static str,
    side: Option<&'static str>,
    seen: String,
    question: String,
    #[serde(flatten)]
    reason: Reason,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let asking = whom_to_ask(&desk, on);
    let wording = wording(&desk);
    let swimmers: Vec<Swimmer> = asking
        .whom
        .iter()
        .map(|whom| Swimmer {
            who: Who::of(whom.person),
            reasons: whom
                .asks
                .iter()
                .map(|ask| Asked {
                    kind: ask.reason.word(),
                    side: ask.side.map(Side::word),
                    seen: ask.seen.to_string(),
                    question: word(&format!("ask-{}", ask.reason.word())),
                    reason: wording.reason(&ask.line),
                })
                .collect(),
        })
        .collect();
    let charts = asking.charts.by_chance.map(|alarms| Charts {
        kept: alarms.series,
        learning: asking.charts.learning,
        readings: alarms.readings,
        by_chance: alarms.expected,
    });
    let by_chance = app::signals::words::by_chance(&asking.charts);
    let (squad, below) = (asking.squad, asking.below());
    let answered = response(&desk, on).answered;
    if context.json {
        let above = swimmers.len().min(FOLD);
        let shape = Shape {
            shape: "cuffwright.ask/1",
            on: on.to_string(),
            squad,
            above,
            below,
            answered,
            charts,
            swimmers,
        };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say(
        "cli-ask-on",
        &[("day", app::text::day(on)), ("number", swimmers.len().to_string()), ("squad", squad.to_string())],
    ));
    page.paragraph("", &word("ask-lede"));
    if let Some(by_chance) = &by_chance {
        page.paragraph("", by_chance);
    }
    let shown = if args.all { swimmers.len() } else { FOLD };
    for swimmer in swimmers.iter().take(shown) {
        swimmer.who.print(&mut page);
        for asked in &swimmer.reasons {
            page.paragraph("  ", &format!("{} ({})", asked.reason.words, asked.reason.code));
            page.paragraph("    ", &format!("{} {}", word("ask-word"), asked.question));
        }
    }
    if !args.all && 0 < below {
        page.gap();
        page.line(&say("cli-ask-below", &[("number", below.to_string())]));
    }
    Ok(Answer::page(Exit::Well, page))
}
