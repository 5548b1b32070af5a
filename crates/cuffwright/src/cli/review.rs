//! `cuffwright review`: what waits for a person, exceptions first.

use app::desk::Desk;
use app::review::Waiting;
use app::wire::answer::ProposalWord;
use jiff::civil::Date;
use serde::Serialize;
use store::Digest;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::sheet;
use super::words::{self, say, word};
use super::{clock, find};

/// Lists the proposals that wait for a person, those that must be confirmed by themselves first.
///
/// Every line ends with the words that confirm it. What may be accepted together has one mark: it stands for exactly
/// these proposals, so that nothing is confirmed that was not read.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.review/1 with on, mark (null when nothing may go together), together (how many may) and \
waiting: id, name, together, and the proposal as in cuffwright.answer/1.")]
pub(super) struct Args {
    /// Name, club number or id of one swimmer; the squad when left out.
    #[arg(value_name = "NAME")]
    name: Option<String>,
    #[command(flatten)]
    store: StoreArgs,
    /// The day the doses are for; today when left out.
    #[arg(long, value_name = "DATE", value_parser = words::day)]
    on: Option<Date>,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    on: String,
    mark: Option<String>,
    together: usize,
    waiting: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    id: String,
    name: String,
    together: bool,
    #[serde(flatten)]
    proposal: ProposalWord,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let on = clock::day(&desk, context, args.on)?;
    let queue = queue(&desk, args.name.as_deref(), on)?;
    let together = queue.iter().filter(|waiting| waiting.may_go_together()).count();
    let mark = (together > 0).then(|| mark_of(&queue, on));
    let wording = sheet::wording(&desk);
    let waiting: Vec<Item> = queue
        .iter()
        .map(|waiting| Item {
            id: waiting.subject.to_string(),
            name: waiting.name.clone(),
            together: waiting.may_go_together(),
            proposal: wording.proposal(&waiting.proposal),
        })
        .collect();
    if context.json {
        let shape = Shape { shape: "cuffwright.review/1", on: on.to_string(), mark, together, waiting };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.line(&say("cli-review-on", &[("day", app::text::day(on)), ("number", waiting.len().to_string())]));
    for item in &waiting {
        page.heading(&item.name);
        sheet::proposal_block(&mut page, &item.proposal);
        page.paragraph("       ", &say("cli-to-confirm", &[("words", confirming_words(item))]));
    }
    if let Some(mark) = mark {
        page.gap();
        page.paragraph("", &say("cli-together", &[("number", together.to_string()), ("mark", mark)]));
    }
    if waiting.is_empty() {
        page.line(&word("cli-nothing-waits"));
    }
    Ok(Answer::page(Exit::Well, page))
}

/// What waits, for one swimmer or all.
pub(super) fn queue(desk: &Desk, name: Option<&str>, on: Date) -> Result<Vec<Waiting>, Failure> {
    let mut queue = desk.review_on(on);
    if let Some(name) = name {
        let subject = find::swimmer(desk, name)?.subject;
        queue.retain(|waiting| waiting.subject == subject);
    }
    Ok(queue)
}

/// A mark of everything that may go together: another queue has another mark.
pub(super) fn mark_of(queue: &[Waiting], on: Date) -> String {
    let lines: Vec<String> = queue
        .iter()
        .filter(|waiting| waiting.may_go_together())
        .map(|waiting| {
            let proposal = &waiting.proposal;
            let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref());
            let dose =
                proposal.dose.as_ref().map(|dose| (dose.sets, dose.cap.seconds(), dose.rest.seconds()));
            format!(
                "{} {} {} {} {rung:?} {dose:?}",
                waiting.subject,
                proposal.exercise,
                proposal.side.word(),
                proposal.action.word()
            )
        })
        .collect();
    let mut mark = Digest::of_text(&format!("{on}\n{}", lines.join("\n"))).to_string();
    mark.truncate(10);
    mark
}

/// The arguments of `confirm` that say yes to exactly this.
fn confirming_words(item: &Item) -> String {
    let proposal = &item.proposal;
    let mut words = vec![
        "confirm".to_owned(),
        format!("\"{}\"", item.name.replace('"', "")),
        proposal.exercise.clone(),
        proposal.side.to_owned(),
        proposal.action.to_owned(),
    ];
    let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref());
    words.extend(rung.map(|rung| rung.rung.clone()));
    words.join(" ")
}
