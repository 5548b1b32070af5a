//! `cuffwright dose`: what to do next session, and why.

use app::wire::answer::{AvailabilityWords, ENGINE, ProposalWord, ProtocolName};
use jiff::civil::Date;
use serde::Serialize;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::sheet::{self, Standing, Who};
use super::words::{self, say, word};
use super::{clock, find};

/// Says what each swimmer should do next session: rung, sets, cap, rest, tempo, and the reason in words.
///
/// These are proposals. One that changes what a swimmer does waits for a person: see review, confirm, override.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.dose/1 with on, engine, protocol and swimmers: id, name, squad, unreadable, contested, \
availability, questions_answered, proposals (as in cuffwright.answer/1).")]
pub(super) struct Args {
    /// Name, club number or id of one swimmer; the squad when left out.
    #[arg(value_name = "NAME")]
    name: Option<String>,
    #[command(flatten)]
    store: StoreArgs,
    /// The day of the session; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
    /// Only this exercise; may be repeated.
    #[arg(long, value_name = "EXERCISE")]
    exercise: Vec<String>,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    on: String,
    engine: &'static str,
    protocol: ProtocolName,
    swimmers: Vec<Swimmer>,
}

#[derive(Serialize)]
struct Swimmer {
    #[serde(flatten)]
    who: Who,
    availability: AvailabilityWords,
    questions_answered: bool,
    proposals: Vec<ProposalWord>,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let mut only = Vec::new();
    for wanted in &args.exercise {
        only.push(find::exercise(&desk, wanted)?.id.to_string());
    }
    let mut answers = Vec::new();
    for person in find::swimmers(&desk, args.name.as_deref(), on)? {
        let mut said = sheet::answer_for(&desk, person, on);
        said.proposals.retain(|proposal| only.is_empty() || only.contains(&proposal.exercise));
        answers.push((Who::of(person), said));
    }
    if context.json {
        let swimmers = answers
            .into_iter()
            .map(|(who, said)| Swimmer {
                who,
                availability: said.availability,
                questions_answered: said.questions_answered,
                proposals: said.proposals,
            })
            .collect();
        let protocol = desk.protocol();
        let protocol = ProtocolName {
            name: protocol.name.clone(),
            revision: protocol.revision.clone(),
            hash: protocol.hash.clone(),
        };
        let shape =
            Shape { shape: "cuffwright.dose/1", on: on.to_string(), engine: ENGINE, protocol, swimmers };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say("cli-dose-on", &[("day", app::text::day(on)), ("number", answers.len().to_string())]));
    if answers.is_empty() {
        page.line(&word("cli-nobody"));
    }
    for (who, said) in &answers {
        who.print(&mut page);
        sheet::availability(&mut page, said);
        if args.name.is_some() {
            sheet::proposals(&mut page, &said.proposals);
        } else {
            squad_lines(&mut page, &said.proposals);
        }
    }
    page.gap();
    page.paragraph("", &word("cli-cautions"));
    Ok(Answer::page(Exit::Well, page))
}

/// What is given, a line each with its first reason; what is taught in one paragraph; the rest is only counted.
fn squad_lines(page: &mut Page, proposals: &[ProposalWord]) {
    let of = |standing: Standing| {
        proposals.iter().filter(move |proposal| sheet::standing_of(proposal) == standing)
    };
    let rows: Vec<Vec<String>> = of(Standing::Told)
        .map(|proposal| {
            let dose = proposal.dose.as_ref().map_or_else(|| word("cli-nothing-given"), sheet::dose_words);
            let action = word(&format!("action-{}", proposal.action));
            vec![
                proposal.exercise.clone(),
                word(&format!("side-{}", proposal.side)),
                proposal.codes.first().cloned().unwrap_or_default(),
                format!("{action}: {dose}"),
            ]
        })
        .collect();
    page.table(2, &rows);
    let taught: Vec<String> = of(Standing::Taught).map(sheet::line_words).collect();
    if !taught.is_empty() {
        page.paragraph("  ", &say("cli-taught-lines", &[("lines", taught.join(", "))]));
    }
    let withheld = of(Standing::NotGiven).count();
    if withheld > 0 {
        page.paragraph("  ", &say("cli-withheld", &[("number", withheld.to_string())]));
    }
}
