//! `cuffwright week`: a week described in a file, planned without a store; or the club's own.

use std::path::{Path, PathBuf};

use app::week::act::{Standing, standing};
use app::week::described::{BrokenWord, SessionWord, TimeWord, WeekAnswer, run as answer, stored_answer};
use app::week::stored::monday_of;
use jiff::civil::Date;
use store::SubjectId;

use super::Context;
use super::answer::Answer;
use super::clock;
use super::exit::Exit;
use super::failure::{Failure, Trouble};
use super::input::{self, AtMost};
use super::open::{self, StoreArgs};
use super::page::Page;
use super::words::{say, word};

/// The largest described week.
const WEEK_FILE: AtMost = AtMost(4);
/// Most refused times that a page lists; JSON has them all.
const REFUSED_LISTED: usize = 40;

/// Plans a described week: dryland around the water, by the trade's rules, or the clash that makes it impossible.
///
/// FILE is TOML: groups, practices, deck hours, supervisors, meets, school, other loads, closures, known sessions and
/// wishes. docs/week.md describes it with examples. That needs no store; a dash reads standard input. With --store the
/// club's own week is read instead, and --confirm records the plan or the repair that is proposed.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.week/1 with outcome (plan, clash, out-of-time), feasible, proven, points, at_most, gap, plan, \
preferences, reduced, clash (smallest, requirements with words, relaxing_helps, buys and plan), repair (broken, kept, \
moves) when known sessions are described, requests (allowed, reasons, offers), refused (every time a group cannot \
have, and why) and notes. The exit code is 1 for a clash.")]
pub(super) struct Args {
    /// The week; `-` for standard input.
    #[arg(value_name = "FILE", conflicts_with = "store")]
    file: Option<PathBuf>,
    /// Reads the club's own week out of its record instead.
    #[arg(long, value_name = "FILE")]
    store: Option<PathBuf>,
    /// A day of the week that is meant; this week when left out.
    #[arg(long, value_name = "DATE", requires = "store", value_parser = super::words::day)]
    of: Option<Date>,
    /// Records the proposed plan or repair.
    #[arg(long, requires = "store")]
    confirm: bool,
    /// Who confirms: the name that stands in the record.
    #[arg(long, value_name = "NAME", requires = "confirm")]
    by: Option<String>,
    /// Writes the squad's calendar (iCalendar) instead.
    #[arg(long, value_name = "SQUAD", requires = "store", conflicts_with = "confirm")]
    feed: Option<String>,
    /// Longest search. The answer then says what might still be gained.
    #[arg(long, value_name = "SECONDS", default_value_t = 30, value_parser = clap::value_parser!(u32).range(1..=3600))]
    seconds: u32,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    match (&args.file, &args.store) {
        (Some(file), _) => described(file, args.seconds, context),
        (None, Some(store)) => stored(store, args, context),
        (None, None) => Err(Failure::new(Exit::Input, "cli-week-which", &[]).hint("cli-week-which-hint")),
    }
}

/// The club's own week.
fn stored(store: &Path, args: &Args, context: Context) -> Result<Answer, Failure> {
    let mut desk = StoreArgs::of(store).open()?;
    let moment = clock::moment(&desk, context)?;
    let monday = monday_of(args.of.unwrap_or(moment.today));
    if let Some(squad) = &args.feed {
        let stamp = moment.stamp.parse().unwrap_or(jiff::Timestamp::UNIX_EPOCH);
        let text = desk.squad_feed(squad, stamp)?;
        return Ok(Answer { exit: Exit::Well, text, refusal: None });
    }
    let week = desk.week_of(monday)?;
    if args.confirm {
        let by = args.by.as_deref().map(str::trim).filter(|by| !by.is_empty());
        let by = by.ok_or_else(|| Failure::new(Exit::Input, "cli-week-confirm-by", &[]))?;
        let drafts = match standing(&week) {
            Standing::Broken(_) => desk.confirm_repair(monday, &week.digest)?,
            Standing::Unplanned(_) => desk.adopt_plan(monday, &week.digest)?,
            Standing::Sound | Standing::OutOfTime => Vec::new(),
        };
        if drafts.is_empty() {
            return Err(Failure::new(Exit::Refused, "cli-week-nothing-to-confirm", &[]));
        }
        desk.record(&moment, &open::author(by), SubjectId::CLUB, &drafts)?;
        let mut page = Page::default();
        page.line(&say("cli-week-confirmed", &[("number", drafts.len().to_string())]));
        return Ok(Answer::page(Exit::Well, page));
    }
    finish(&stored_answer(&week), context)
}

/// A week described in a file.
fn described(file: &Path, seconds: u32, context: Context) -> Result<Answer, Failure> {
    let text = input::text(file, WEEK_FILE)?;
    let answer = answer(&text, f64::from(seconds)).map_err(|problems| {
        let file = input::name_of(file);
        let mut failure = Failure::new(Exit::Input, "cli-week-refused", &[("file", file.clone())]);
        let mut hints = Vec::new();
        for problem in &problems {
            let hint = say(problem.hint, &problem.args);
            if !hints.contains(&hint) && hints.len() < 8 {
                failure = failure.hint_with(problem.hint, &problem.args);
                hints.push(hint);
            }
        }
        let troubles = problems
            .iter()
            .map(|problem| Trouble {
                path: format!("{file}:{}:{}", problem.line, problem.column),
                says: say(problem.says, &problem.args),
            })
            .collect();
        failure.list(troubles)
    })?;
    finish(&answer, context)
}

fn finish(answer: &WeekAnswer, context: Context) -> Result<Answer, Failure> {
    let exit = if answer.outcome == "clash" { Exit::Problems } else { Exit::Well };
    if context.json {
        return Ok(Answer::json(exit, answer));
    }
    Ok(Answer::page(exit, page_of(answer)))
}

fn page_of(answer: &WeekAnswer) -> Page {
    let mut page = Page::default();
    let days = [("from", answer.from.clone()), ("to", answer.to.clone()), ("zone", answer.zone.clone())];
    page.line(&say("cli-week-of", &days));
    for note in &answer.notes {
        page.paragraph("  ", note);
    }
    outcome(&mut page, answer);
    if !answer.plan.is_empty() {
        page.heading(&word("cli-week-plan"));
        let rows: Vec<Vec<String>> = answer.plan.iter().map(session_row).collect();
        page.table(2, &rows);
    }
    for (title, rows) in [
        (
            "cli-week-preferences",
            answer
                .preferences
                .iter()
                .map(|one| vec![one.points.to_string(), one.sessions.to_string(), one.words.clone()])
                .collect::<Vec<_>>(),
        ),
        (
            "cli-week-reduced",
            answer
                .reduced
                .iter()
                .map(|one| {
                    vec![one.group.clone(), format!("{} / {}", one.planned, one.usual), one.words.clone()]
                })
                .collect(),
        ),
    ] {
        if !rows.is_empty() {
            page.heading(&word(title));
            page.table(2, &rows);
        }
    }
    if let Some(repair) = &answer.repair {
        page.heading(&word("cli-week-broken"));
        for one in &repair.broken {
            reason(&mut page, one);
        }
        page.heading(&say(
            "cli-week-moves",
            &[("kept", repair.kept.to_string()), ("moves", repair.moves.len().to_string())],
        ));
        let place = |at: &Option<TimeWord>, none: &str| at.as_ref().map_or_else(|| word(none), time);
        let rows: Vec<Vec<String>> = repair
            .moves
            .iter()
            .map(|one| {
                vec![one.group.clone(), place(&one.from, "cli-week-new"), place(&one.to, "cli-week-out")]
            })
            .collect();
        page.table(2, &rows);
    }
    for one in &answer.requests {
        page.heading(&say(
            if one.allowed { "cli-week-granted" } else { "cli-week-not-granted" },
            &[("group", one.group.clone()), ("time", time(&one.at))],
        ));
        for why in &one.reasons {
            reason(&mut page, why);
        }
        for (at, offer) in one.offers.iter().enumerate() {
            page.paragraph(&format!("  {}. ", at + 1), &format!("{}: {}", time(&offer.at), offer.words));
        }
        for remark in &one.remarks {
            page.paragraph("  ", remark);
        }
    }
    refused(&mut page, answer);
    page
}

fn outcome(page: &mut Page, answer: &WeekAnswer) {
    page.gap();
    let gap = answer.gap.map_or_else(String::new, |gap| format!("{:.1} %", gap * 100.0));
    let values =
        [("points", answer.points.map_or_else(String::new, |points| points.to_string())), ("gap", gap)];
    match (answer.outcome, answer.proven) {
        ("plan", true) => page.line(&say("cli-week-proven", &values)),
        ("plan", false) if answer.gap.is_some() => page.line(&say("cli-week-gap", &values)),
        ("plan", false) => page.line(&say("cli-week-no-bound", &values)),
        ("clash", _) => {}
        _ => page.line(&word("cli-week-out-of-time")),
    }
    if let Some(clash) = &answer.clash {
        page.line(&word(if clash.smallest { "cli-week-clash" } else { "cli-week-clash-maybe-smaller" }));
        for member in &clash.requirements {
            page.paragraph("  - ", &member.what.words);
            page.paragraph("      ", &member.buys);
        }
    }
}

fn session_row(session: &SessionWord) -> Vec<String> {
    let note = session.overruled.as_ref().map_or_else(String::new, |own| {
        say("cli-week-overruled", &[("by", own.by.clone()), ("reason", own.reason.clone())])
    });
    vec![time(&session.at), session.group.clone(), note]
}

fn time(at: &TimeWord) -> String {
    format!("{} {}-{} {}", at.day, at.from, at.to, at.place)
}

fn reason(page: &mut Page, one: &BrokenWord) {
    page.paragraph("  - ", &one.what.words);
    page.paragraph("      ", &format!("{} ({})", one.why, one.sessions.join("; ")));
}

fn refused(page: &mut Page, answer: &WeekAnswer) {
    if answer.refused.is_empty() {
        return;
    }
    page.heading(&word("cli-week-refused-times"));
    let rows: Vec<Vec<String>> = answer
        .refused
        .iter()
        .take(REFUSED_LISTED)
        .map(|one| {
            let why: Vec<&str> = one.reasons.iter().map(|reason| reason.why.as_str()).collect();
            vec![one.group.clone(), time(&one.at), why.join(" ")]
        })
        .collect();
    page.table(2, &rows);
    let more = answer.refused.len().saturating_sub(REFUSED_LISTED);
    if 0 < more {
        page.paragraph("  ", &say("cli-week-refused-more", &[("more", more.to_string())]));
    }
}
