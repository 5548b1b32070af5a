//! `cuffwright ladder`: the kit's rungs for one described swimmer, in even steps.

#![allow(
    rustdoc::broken_intra_doc_links,
    reason = "double brackets are TOML tables in the words of the help"
)]

use std::path::{Path, PathBuf};

use app::facts::Problem;
use app::load::ladder::{self, Answer as Said, OneRung};

use super::Context;
use super::answer::Answer;
use super::band::{figures, refusal};
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::page::Page;
use super::torque::beside;
use super::words::{say, word};

/// The largest description.
const DESCRIPTION_FILE: AtMost = AtMost(1);

/// Makes a ladder for one swimmer: what each length of each roll, or each weight, asks of this body, in even steps.
///
/// FILE is the description of an exercise (see torque) with [[roll]] tables, or weights_kg, and a [target] step; a dash
/// reads standard input. Two rungs nearer than their combined error are one rung. Nothing is stored.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
A rung is offered only if this body's largest stretch stays inside the calibrated range and at most 200 % longer.

JSON: shape cuffwright.ladder/1 with geometry, target_pct, rungs and spare (name, roll, rest_m, weight_kg, torque_nm, \
sd_kit_nm, sd_nm, stretch, share_of_strength, same_as), steps (from, to, size_pct, sd_pct, fit: small, within or \
too-large), not_offered (name, why, by_stretch).")]
pub(super) struct Args {
    /// The description; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let text = input::text(&args.file, DESCRIPTION_FILE)?;
    let refused = |problems: Vec<Problem>| refusal(&input::name_of(&args.file), &problems);
    let folder = args.file.parent().map(Path::to_path_buf).unwrap_or_default();
    let asked = ladder::read(&text, &|path| beside(&folder, path)).map_err(refused)?;
    let said = ladder::answer(&asked).map_err(refused)?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &said));
    }
    Ok(Answer::page(Exit::Well, page_of(&said)))
}

fn page_of(said: &Said) -> Page {
    let mut page = Page::default();
    let [low, high] = said.target_pct;
    page.line(&say(
        "cli-ladder-head",
        &[
            ("geometry", said.geometry.to_owned()),
            ("n", said.rungs.len().to_string()),
            ("low", figures(low)),
            ("high", figures(high)),
        ],
    ));
    page.heading(&word("cli-ladder-columns"));
    let mut rows = Vec::new();
    for (index, rung) in said.rungs.iter().enumerate() {
        if let Some(step) = index.checked_sub(1).and_then(|before| said.steps.get(before)) {
            let values = [
                ("size", format!("{:.0}", step.size_pct)),
                ("sd", format!("{:.0}", step.sd_pct)),
                ("fit", step.fit.to_owned()),
            ];
            rows.push(vec![String::new(), String::new(), String::new(), say("cli-ladder-step", &values)]);
        }
        rows.push(row(rung));
    }
    page.table(2, &rows);
    if !said.spare.is_empty() {
        page.heading(&word("cli-ladder-spare"));
        page.table(2, &said.spare.iter().map(row).collect::<Vec<_>>());
    }
    if !said.not_offered.is_empty() {
        page.heading(&word("cli-ladder-not-offered"));
        let rows: Vec<Vec<String>> = said
            .not_offered
            .iter()
            .map(|one| {
                let why: Vec<String> =
                    one.why.iter().map(|why| say("cli-ladder-why", &[("why", (*why).to_owned())])).collect();
                vec![one.name.clone(), why.join(" ")]
            })
            .collect();
        page.table(2, &rows);
    }
    page
}

fn row(rung: &OneRung) -> Vec<String> {
    let share = rung.share_of_strength.map_or_else(String::new, |share| format!("{:.0} %", 100.0 * share));
    let same = if rung.same_as.is_empty() {
        share
    } else {
        let same = say("cli-ladder-same", &[("others", rung.same_as.join("; "))]);
        if share.is_empty() { same } else { format!("{share}, {same}") }
    };
    vec![rung.name.clone(), figures(rung.torque_nm), format!("± {}", figures(rung.sd_kit_nm)), same]
}
