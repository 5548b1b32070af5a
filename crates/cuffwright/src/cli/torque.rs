//! `cuffwright torque`: what a described exercise asks of the shoulder through its movement.

use std::path::{Path, PathBuf};

use app::facts::Problem;
use app::load::movement::{self, Described};
use app::load::torque::{self, Answer as Said};
use picture::plot::{Axis, Mark, Plot, Role};
use quantity::Angle;

use super::Context;
use super::answer::Answer;
use super::band::{figures, refusal};
use super::exit::Exit;
use super::failure::Failure;
use super::input::{self, AtMost};
use super::page::Page;
use super::words::{say, word};

/// The largest description.
const DESCRIPTION_FILE: AtMost = AtMost(1);

/// Works out what an exercise asks of the shoulder: torque through the movement, peak, mean, impulse, share of strength.
///
/// FILE is a description in TOML: geometry, band or weight, body, strength; a dash reads standard input. docs/loads.md
/// has an example of every geometry. Nothing is stored.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
Geometries: two-hand-rotation, anchored-rotation (external or internal by where the anchor is), row, hand-raise \
(scaption and other raises), ball-circles, push-up (wall, bench, knees, floor, feet raised).

JSON: shape cuffwright.torque/1 with geometry, sign, tempo_s, curve (angle_deg, torque_nm, and with a band span_m, \
stretch, pull_n, strand_force_n), at (the same at the angles asked for), peak (angle_deg, torque_nm, sd_nm, sd_kit_nm, \
sd_body_nm, interval_95_nm), mean_nm, work_j, band_energy_gain_j, impulse_nms, stretch, share_of_strength (share, sd, \
interval_95, strength_nm, strength_is, endurance_s), hand_load for a push-up, body (what, value, sd, from), cautions.")]
pub(super) struct Args {
    /// The description; `-` for standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Also at these angles, degrees.
    #[arg(long, value_name = "DEGREES", value_delimiter = ',', allow_hyphen_values = true)]
    at: Vec<f64>,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let text = input::text(&args.file, DESCRIPTION_FILE)?;
    let refused = |problems: Vec<Problem>| refusal(&input::name_of(&args.file), &problems);
    let folder = args.file.parent().map(Path::to_path_buf).unwrap_or_default();
    let mut described: Described = movement::read(&text, &|path| beside(&folder, path)).map_err(refused)?;
    described.at.extend(args.at.iter().filter_map(|angle| Angle::try_from_degrees(*angle).ok()));
    let said = torque::answer(&described).map_err(refused)?;
    if context.json {
        return Ok(Answer::json(Exit::Well, &said));
    }
    Ok(Answer::page(Exit::Well, page_of(&said)))
}

/// A file that a description names, from the description's own folder.
pub(super) fn beside(folder: &Path, path: &Path) -> Result<String, Problem> {
    input::text(&folder.join(path), AtMost(4))
        .map_err(|failure| Problem::at("", "load-unreadable").with("detail", failure.in_one_line()))
}

fn page_of(said: &Said) -> Page {
    let mut page = Page::default();
    let f = figures;
    let tempo = said.tempo_s.map(|part| format!("{part}")).join("/");
    page.line(&say("cli-torque-head", &[("geometry", said.geometry.to_owned()), ("tempo", tempo)]));
    if let Some(hands) = &said.hand_load {
        page.paragraph(
            "",
            &say(
                "cli-torque-hands",
                &[
                    ("share", format!("{:.0}", 100.0 * hands.share_of_body_weight)),
                    ("sd", format!("{:.0}", 100.0 * hands.sd)),
                    ("each", f(hands.each_hand_n)),
                    ("foundation", hands.foundation.to_owned()),
                ],
            ),
        );
    }
    if let Some(peak) = &said.peak {
        page.line(&say(
            "cli-torque-peak",
            &[
                ("torque", f(peak.torque_nm)),
                ("angle", format!("{:.0}", peak.angle_deg)),
                ("low", f(peak.interval_95_nm[0])),
                ("high", f(peak.interval_95_nm[1])),
                ("kit", f(peak.sd_kit_nm)),
                ("body", f(peak.sd_body_nm)),
            ],
        ));
    }
    if let (Some(mean), Some(work), Some(impulse)) = (said.mean_nm, said.work_j, said.impulse_nms) {
        page.line(&say("cli-torque-mean", &[("mean", f(mean)), ("work", f(work)), ("impulse", f(impulse))]));
    }
    if let Some([low, high]) = said.stretch {
        page.line(&say("cli-torque-stretch", &[("low", f(low)), ("high", f(high))]));
    }
    if let Some(share) = &said.share_of_strength {
        let percent = |value: f64| format!("{:.0}", 100.0 * value);
        page.paragraph(
            "",
            &say(
                "cli-torque-share",
                &[
                    ("share", percent(share.share)),
                    ("is", share.strength_is.to_owned()),
                    ("strength", f(share.strength_nm)),
                    ("low", percent(share.interval_95[0])),
                    ("high", percent(share.interval_95[1])),
                ],
            ),
        );
        if let Some(lasts) = &share.endurance_s {
            let whole = |value: f64| format!("{value:.0}");
            page.paragraph(
                "",
                &say(
                    "cli-torque-endurance",
                    &[
                        ("seconds", whole(lasts.expected)),
                        ("low", whole(lasts.low)),
                        ("high", whole(lasts.high)),
                    ],
                ),
            );
        }
    }
    for caution in &said.cautions {
        page.paragraph("", &say("cli-caution", &[("caution", (*caution).to_owned())]));
    }
    if !said.at.is_empty() {
        page.heading(&word("cli-torque-at"));
        let rows: Vec<Vec<String>> =
            said.at.iter().map(|at| vec![format!("{}", at.angle_deg), f(at.torque_nm)]).collect();
        page.table(2, &rows);
    }
    if !said.curve.is_empty() {
        let title = word("cli-torque-plot");
        page.heading(&title);
        let (x, y) = (word("cli-torque-x"), word("cli-torque-y"));
        let points = said.curve.iter().map(|at| (at.angle_deg, at.torque_nm)).collect();
        let plot = Plot {
            name: &title,
            description: "",
            x: Axis::of(&x),
            y: Axis::of(&y),
            marks: vec![Mark::Line { name: "", role: Role::First, points }],
        };
        for line in picture::plot::text(&plot, 72, 16).lines() {
            page.line(line);
        }
    }
    page
}
