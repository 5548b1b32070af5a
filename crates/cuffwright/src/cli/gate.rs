//! `cuffwright gate`: who may take part, and why not.

use app::wire::answer::{
    Answer as Said, AvailabilityWords, HoldWord, LimitWord, Reason, StopWord, TrackWord,
};
use jiff::civil::Date;
use serde::Serialize;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::sheet::{self, Who};
use super::words::{self, say, word};
use super::{clock, find};

/// Says who may take part on a day: each shoulder's availability, what holds it back and what ends that.
///
/// Without a name the whole squad is listed. Nobody is cleared here: a hold ends by the fact that it names.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.gate/1 with on and swimmers: id, name, squad, unreadable, contested, availability (person, \
left, right), questions_answered, urgency, urgency_words, holds (side, availability, ends_by, urgency, since, \
review, code, words, ground, source), stop_today, proposed_ends, no_up_before, limits, tracks, notes.")]
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
    availability: AvailabilityWords,
    questions_answered: bool,
    urgency: Option<&'static str>,
    urgency_words: Option<String>,
    holds: Vec<HoldWord>,
    stop_today: StopWord,
    proposed_ends: Vec<Reason>,
    no_up_before: Option<String>,
    limits: Vec<LimitWord>,
    tracks: Vec<TrackWord>,
    notes: Vec<Reason>,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let answers: Vec<(Who, Said)> = find::swimmers(&desk, args.name.as_deref(), on)?
        .into_iter()
        .map(|person| (Who::of(person), sheet::answer_for(&desk, person, on)))
        .collect();
    if context.json {
        let swimmers = answers.into_iter().map(|(who, said)| Swimmer::of(who, said)).collect();
        let shape = Shape { shape: "cuffwright.gate/1", on: on.to_string(), swimmers };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say("cli-gate-on", &[("day", app::text::day(on)), ("number", answers.len().to_string())]));
    match (args.name.is_some(), answers.as_slice()) {
        (true, [(who, said)]) => {
            who.print(&mut page);
            sheet::gate(&mut page, said);
        }
        (_, []) => page.line(&word("cli-nobody")),
        _ => squad(&mut page, &answers),
    }
    Ok(Answer::page(Exit::Well, page))
}

/// One line a swimmer, with the codes that hold.
fn squad(page: &mut Page, answers: &[(Who, Said)]) {
    let mut rows = vec![
        ["cli-head-name", "cli-head-left", "cli-head-right", "cli-head-again", "cli-head-why"]
            .map(word)
            .to_vec(),
    ];
    for (who, said) in answers {
        let mut codes: Vec<&str> = Vec::new();
        for hold in &said.holds {
            if !codes.contains(&hold.reason.code.as_str()) {
                codes.push(&hold.reason.code);
            }
        }
        let again = said.holds.iter().filter_map(|hold| hold.review.clone()).min().unwrap_or_default();
        let mut why = codes.join(" ");
        if who.unreadable + who.contested > 0 {
            why.push_str(&format!(" {}", word("cli-to-settle")));
        }
        rows.push(vec![
            who.name.clone(),
            sheet::shown(said.availability.left),
            sheet::shown(said.availability.right),
            again,
            why,
        ]);
    }
    page.gap();
    page.table(2, &rows);
    page.gap();
    let open = answers.iter().filter(|(_, said)| !said.questions_answered).count();
    if open > 0 {
        page.paragraph("", &say("cli-questions-of", &[("number", open.to_string())]));
    }
    page.paragraph("", &word("cli-gate-more"));
}

impl Swimmer {
    fn of(who: Who, said: Said) -> Self {
        Self {
            who,
            availability: said.availability,
            questions_answered: said.questions_answered,
            urgency: said.urgency,
            urgency_words: said.urgency_words,
            holds: said.holds,
            stop_today: said.stop_today,
            proposed_ends: said.proposed_ends,
            no_up_before: said.no_up_before,
            limits: said.limits,
            tracks: said.tracks,
            notes: said.notes,
        }
    }
}
