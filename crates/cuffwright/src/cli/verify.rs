//! `cuffwright log verify`: is the log whole, and can everything in it be read?

use app::history::Unreadable;
use serde::Serialize;
use store::{ChainFault, ChainVerdict};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::words::{say, word};

/// Checks the record file: its pages, its audit chain, and whether every fact can be read.
///
/// Ends with 1 if something is broken or unreadable. What waits for a person (facts that contradict each other,
/// refused facts) is counted, and is no fault of the log.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.log-verify/1 with whole, pages (ok, or what the check found), chain (whole, entries, head, \
erased, fault), state (the digest of what holds), facts, tombstones, erasures, documents, conflicts, \
waiting_corrections, open_refusals, unreadable (fact, kind, problems).")]
pub(super) struct Args {
    #[command(flatten)]
    store: StoreArgs,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    whole: bool,
    pages: String,
    chain: Chain,
    state: String,
    facts: u64,
    tombstones: u64,
    erasures: u64,
    documents: u64,
    conflicts: usize,
    waiting_corrections: usize,
    open_refusals: u64,
    unreadable: Vec<Broken>,
}

#[derive(Serialize)]
struct Chain {
    whole: bool,
    entries: u64,
    head: Option<String>,
    erased: u64,
    fault: Option<&'static str>,
}

#[derive(Serialize)]
struct Broken {
    fact: String,
    kind: &'static str,
    problems: Vec<String>,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let desk = args.store.open()?;
    let store = desk.store();
    let failed = |error| Failure::store(&args.store.store, error);
    let pages = match store.integrity_check() {
        Ok(()) => "ok".to_owned(),
        Err(store::Error::Corrupt { detail }) => detail,
        Err(error) => return Err(failed(error)),
    };
    let chain = Chain::of(store.verify_chain().map_err(failed)?);
    let counts = store.counts().map_err(failed)?;
    let unreadable: Vec<Broken> = desk
        .club()
        .unreadable
        .iter()
        .chain(desk.people().flat_map(|person| &person.read.unreadable))
        .map(Broken::of)
        .collect();
    let shape = Shape {
        shape: "cuffwright.log-verify/1",
        whole: pages == "ok" && chain.whole && unreadable.is_empty(),
        pages,
        chain,
        state: store.digest_of_state().map_err(failed)?.to_string(),
        facts: counts.facts,
        tombstones: counts.tombstones,
        erasures: counts.erasures,
        documents: counts.documents,
        conflicts: store.conflicts().map_err(failed)?.len(),
        waiting_corrections: store.waiting_corrections().map_err(failed)?.len(),
        open_refusals: counts.open_refusals,
        unreadable,
    };
    let exit = if shape.whole { Exit::Well } else { Exit::Problems };
    Ok(if context.json { Answer::json(exit, &shape) } else { Answer::page(exit, shape.page()) })
}

impl Chain {
    fn of(verdict: ChainVerdict) -> Self {
        match verdict {
            ChainVerdict::Whole { head, erased } => Self {
                whole: true,
                entries: head.entries,
                head: Some(head.hash.to_string()),
                erased,
                fault: None,
            },
            ChainVerdict::Broken { entry, fault } => {
                Self { whole: false, entries: entry, head: None, erased: 0, fault: Some(fault_word(fault)) }
            }
        }
    }
}

const fn fault_word(fault: ChainFault) -> &'static str {
    match fault {
        ChainFault::Link => "link",
        ChainFault::Missing => "missing",
        ChainFault::Content => "content",
        ChainFault::Unchained => "unchained",
    }
}

/// The sentence for a fault.
fn fault_name(fault: Option<&str>) -> &'static str {
    match fault {
        Some("missing") => "cli-chain-missing",
        Some("content") => "cli-chain-content",
        Some("unchained") => "cli-chain-unchained",
        _ => "cli-chain-link",
    }
}

impl Broken {
    fn of(unreadable: &Unreadable) -> Self {
        let problems = unreadable
            .problems
            .iter()
            .map(|problem| {
                let says = say(problem.says, &problem.args);
                if problem.path.is_empty() { says } else { format!("{}: {says}", problem.path) }
            })
            .collect();
        Self { fact: unreadable.id.clone(), kind: unreadable.kind.word(), problems }
    }
}

impl Shape {
    fn page(&self) -> Page {
        let mut page = Page::default();
        page.line(&word(if self.whole { "cli-log-whole" } else { "cli-log-broken" }));
        page.gap();
        let chain = match (&self.chain.head, self.chain.fault) {
            (Some(head), _) => say(
                "cli-chain-whole",
                &[
                    ("entries", self.chain.entries.to_string()),
                    ("erased", self.chain.erased.to_string()),
                    ("head", head.clone()),
                ],
            ),
            (None, fault) => say(
                "cli-chain-broken",
                &[("entry", self.chain.entries.to_string()), ("fault", word(fault_name(fault)))],
            ),
        };
        let row = |name: &str, value: String| vec![word(name), value];
        page.table(
            2,
            &[
                row("cli-log-pages", self.pages.clone()),
                row("cli-log-chain", chain),
                row("cli-log-state", self.state.clone()),
                row("cli-log-facts", self.facts.to_string()),
                row("cli-log-tombstones", self.tombstones.to_string()),
                row("cli-log-erasures", self.erasures.to_string()),
                row("cli-log-documents", self.documents.to_string()),
                row("cli-log-conflicts", self.conflicts.to_string()),
                row("cli-log-waiting", self.waiting_corrections.to_string()),
                row("cli-log-refusals", self.open_refusals.to_string()),
                row("cli-log-unreadable", self.unreadable.len().to_string()),
            ],
        );
        for broken in &self.unreadable {
            page.paragraph(
                "  ! ",
                &format!("{} ({}): {}", broken.fact, broken.kind, broken.problems.join(" ")),
            );
        }
        page
    }
}
