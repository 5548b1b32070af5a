//! `cuffwright screening values`: what was measured, what follows, and the flags, each with its ground.

use app::screening::sheet::{Flag, sheet};
use app::wire::answer::Reason;
use jiff::civil::Date;
use serde::Serialize;
use trade::history::Outcome;
use trade::screening::derived::Derived;
use trade::side::Side;

use crate::cli::Context;
use crate::cli::answer::Answer;
use crate::cli::exit::Exit;
use crate::cli::failure::Failure;
use crate::cli::open::StoreArgs;
use crate::cli::page::Page;
use crate::cli::sheet::{Who, wording};
use crate::cli::words::{self, say, word};
use crate::cli::{clock, find};
use crate::web::pages::screening::values::{gap_words, value_words};

/// Says what a screening measured and what follows from it. No score, no prediction.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.screening-values/1 with on and swimmers: id, name, squad, unreadable, contested, day (null \
when nothing was measured), measured (key, side, value or without), derived (name, side, value, unit, missing, \
reasons: code, words, ground, source) and flags (level, side, reason).")]
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
    day: Option<String>,
    measured: Vec<Measured>,
    derived: Vec<Worked>,
    flags: Vec<FlagShape>,
}

#[derive(Serialize)]
struct Measured {
    key: String,
    side: Option<&'static str>,
    value: Option<f64>,
    without: Option<String>,
}

#[derive(Serialize)]
struct Worked {
    name: &'static str,
    side: Option<&'static str>,
    value: Option<f64>,
    unit: Option<&'static str>,
    missing: Vec<String>,
    reasons: Vec<Reason>,
    #[serde(skip)]
    words: String,
}

#[derive(Serialize)]
struct FlagShape {
    level: &'static str,
    side: Option<&'static str>,
    reason: Reason,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let wording = wording(&desk);
    let mut swimmers = Vec::new();
    for person in find::swimmers(&desk, args.name.as_deref(), on)? {
        let flag = |flag: &Flag| FlagShape {
            level: flag.level.word(),
            side: flag.side.map(Side::word),
            reason: wording.reason(&flag.line),
        };
        let who = Who::of(person);
        let Some(sheet) = sheet(&desk, person, on, None) else {
            swimmers.push(Swimmer {
                who,
                day: None,
                measured: Vec::new(),
                derived: Vec::new(),
                flags: app::screening::sheet::flags(&desk, person, on).iter().map(flag).collect(),
            });
            continue;
        };
        let measured = sheet.day.entries.iter().map(|entry| {
            let (value, without) = match &entry.finding.outcome {
                Outcome::Measured(value) => (Some(*value), None),
                Outcome::NotTested(reason) => (None, Some(format!("not tested: {reason}"))),
                Outcome::Refused => (None, Some("refused".to_owned())),
                Outcome::NotDonePain => (None, Some("pain".to_owned())),
            };
            Measured {
                key: entry.finding.key.clone(),
                side: entry.finding.side.map(Side::word),
                value,
                without,
            }
        });
        let derived = sheet.derived.iter().map(|derived| match derived {
            Derived::Known(value) => Worked {
                name: value.name,
                side: value.side.map(Side::word),
                value: Some(value.value),
                unit: Some(value.unit),
                missing: Vec::new(),
                reasons: std::iter::once(&value.line)
                    .chain(&value.beside)
                    .map(|line| wording.reason(line))
                    .collect(),
                words: value_words(value),
            },
            Derived::Missing(gap) => Worked {
                name: gap.name,
                side: gap.side.map(Side::word),
                value: None,
                unit: None,
                missing: gap
                    .missing
                    .iter()
                    .map(|(key, side)| {
                        side.map_or_else(|| (*key).to_owned(), |side| format!("{key}/{}", side.word()))
                    })
                    .collect(),
                reasons: Vec::new(),
                words: gap_words(gap),
            },
        });
        swimmers.push(Swimmer {
            who,
            day: Some(sheet.day.date.to_string()),
            measured: measured.collect(),
            derived: derived.collect(),
            flags: sheet.flags.iter().map(flag).collect(),
        });
    }
    if context.json {
        let shape = Shape { shape: "cuffwright.screening-values/1", on: on.to_string(), swimmers };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say("cli-values-on", &[("day", app::text::day(on)), ("number", swimmers.len().to_string())]));
    for swimmer in &swimmers {
        swimmer.who.print(&mut page);
        match &swimmer.day {
            None => page.paragraph("  ", &word("values-nothing")),
            Some(day) => page.paragraph("  ", &say("cli-values-day", &[("day", day.clone())])),
        }
        for flag in &swimmer.flags {
            let level = word(&format!("flag-{}", flag.level));
            page.paragraph("  ! ", &format!("{level}: {} ({})", flag.reason.words, flag.reason.code));
        }
        if args.name.is_some() {
            let rows: Vec<Vec<String>> =
                swimmer.derived.iter().map(|worked| vec![word(worked.name), worked.words.clone()]).collect();
            page.table(2, &rows);
        }
    }
    page.gap();
    page.paragraph("", &word("watch-no-score"));
    Ok(Answer::page(Exit::Well, page))
}
