//! `cuffwright cut list`: which few loops to cut for a squad.

#![allow(
    rustdoc::broken_intra_doc_links,
    reason = "double brackets are TOML tables in the words of the help"
)]

use std::path::{Path, PathBuf};

use app::facts::Problem;
use app::load::squad::{self, Answer as Said, Given};

use super::Context;
use super::answer::Answer;
use super::band::{figures, refusal};
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::page::Page;
use super::torque::beside;
use super::words::{say, word};

/// The largest squad file.
const SQUAD_FILE: AtMost = AtMost(4);

/// Cutting loops from rolls.
#[derive(Debug, clap::Args)]
pub(super) struct Args {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, clap::Subcommand)]
enum What {
    List(List),
}

/// Chooses the fewest loops that give most swimmers a rung to stand on, one above and one below.
///
/// FILE describes an exercise (see torque) with [[roll]] tables and a [[swimmer]] table for everybody: a body, and what
/// they pull now; a dash reads standard input. The choice is exact, or the gap is shown. Nothing is stored.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
The file may bound the choice by most_per_roll and most_in_all, and the search by seconds (10). pieces are those of \
the busiest session, times spare_factor (1.2). A rung to stand on lies within 10 % of what is pulled now; the next one \
and the one below lie a [target] step away (20 to 30 %).

JSON: shape cuffwright.cut-list/1 with cut (name, roll, rest_m, pieces, now_for), swimmers (name, now_nm, now, next, \
below, each with name, torque_nm, change_pct), with_next, n_swimmers, n_candidates, proof (proven or gap), gap, needs \
(met, meetable, met_weight, best_weight, all), target_pct.")]
struct List {
    /// The squad; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let What::List(args) = &args.what;
    let text = input::text(&args.file, SQUAD_FILE)?;
    let refused = |problems: Vec<Problem>| refusal(&input::name_of(&args.file), &problems);
    let folder = args.file.parent().map(Path::to_path_buf).unwrap_or_default();
    let asked = squad::read(&text, &|path| beside(&folder, path)).map_err(refused)?;
    let said = squad::answer(&asked).map_err(refused)?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &said));
    }
    Ok(Answer::page(Exit::Well, page_of(&said)))
}

fn page_of(said: &Said) -> Page {
    let mut page = Page::default();
    let count = |n: usize| n.to_string();
    page.paragraph(
        "",
        &say(
            "cli-cut-head",
            &[
                ("n", count(said.cut.len())),
                ("of", count(said.n_candidates)),
                ("next", count(said.with_next)),
                ("swimmers", count(said.n_swimmers)),
            ],
        ),
    );
    page.line(&say(
        "cli-cut-proof",
        &[("proof", said.proof.to_owned()), ("gap", format!("{:.1}", 100.0 * said.gap))],
    ));
    page.heading(&word("cli-cut-columns"));
    let rows: Vec<Vec<String>> = said
        .cut
        .iter()
        .map(|cut| vec![cut.name.clone(), cut.pieces.to_string(), cut.now_for.to_string()])
        .collect();
    page.table(2, &rows);
    page.heading(&word("cli-cut-swimmers"));
    let given = |given: &Option<Given>| {
        given.as_ref().map_or_else(
            || word("cli-cut-none"),
            |given| format!("{} ({} N m, {:+.0} %)", given.name, figures(given.torque_nm), given.change_pct),
        )
    };
    let rows: Vec<Vec<String>> = said
        .swimmers
        .iter()
        .map(|one| {
            vec![one.name.clone(), figures(one.now_nm), given(&one.below), given(&one.now), given(&one.next)]
        })
        .collect();
    page.table(2, &rows);
    page.gap();
    page.paragraph("", &word("cli-cut-safety"));
    page
}
