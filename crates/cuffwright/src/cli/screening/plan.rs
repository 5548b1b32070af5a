//! `cuffwright screening plan`: stations times minutes, the arithmetic shown, the slowest station named.

use serde::Serialize;
use trade::screening::measure::Station;
use trade::screening::plan::{PlanError, Stand, shared, throughput};

use crate::cli::Context;
use crate::cli::answer::Answer;
use crate::cli::exit::Exit;
use crate::cli::failure::Failure;
use crate::cli::page::Page;
use crate::cli::words::{say, word};

/// Says how long a screening day takes and which station holds it up.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.screening-plan/1 with swimmers, minutes_per_swimmer, minutes (everybody moves on when done), \
whistle_minutes (equal slots: (swimmers + stations - 1) x slot), slot_minutes, bottleneck, \
minutes_with_one_more (one more tester at the bottleneck) and stations: name, minutes, testers, minutes_per_slot.")]
pub(super) struct Args {
    /// Swimmers to be tested.
    #[arg(long, value_name = "NUMBER")]
    swimmers: u32,
    /// Testers; neighbouring stations are shared among fewer. One a station when left out.
    #[arg(long, value_name = "NUMBER", conflicts_with = "station")]
    testers: Option<usize>,
    /// A station of one's own as NAME=MINUTES or NAME=MINUTESxTESTERS; may be repeated, and replaces the usual ones.
    #[arg(long, value_name = "NAME=MINUTES", value_parser = stand)]
    station: Vec<Stand>,
}

fn stand(text: &str) -> Result<Stand, String> {
    let wrong = || word("cli-not-a-station");
    let (name, rest) = text.split_once('=').ok_or_else(wrong)?;
    let (minutes, testers) = rest.split_once(['x', 'X', '×']).unwrap_or((rest, "1"));
    let minutes: f64 = minutes.trim().replace(',', ".").parse().map_err(|_| wrong())?;
    let testers: u16 = testers.trim().parse().map_err(|_| wrong())?;
    if name.trim().is_empty() || !minutes.is_finite() || minutes <= 0.0 || testers == 0 {
        return Err(wrong());
    }
    Ok(Stand { name: name.trim().to_owned(), minutes, testers })
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    swimmers: u32,
    minutes_per_swimmer: f64,
    minutes: f64,
    whistle_minutes: f64,
    slot_minutes: f64,
    bottleneck: String,
    minutes_with_one_more: f64,
    stations: Vec<StationShape>,
}

#[derive(Serialize)]
struct StationShape {
    name: String,
    minutes: f64,
    testers: u16,
    minutes_per_slot: f64,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let usual: Vec<Stand> = Station::ALL
        .iter()
        .map(|station| Stand {
            name: word(&format!("station-{}", station.word())),
            minutes: station.minutes(),
            testers: 1,
        })
        .collect();
    let stands = match (args.station.is_empty(), args.testers) {
        (false, _) => args.station.clone(),
        (true, Some(testers)) => {
            if testers == 0 {
                return Err(Failure::new(Exit::Input, "cli-plan-nothing", &[]));
            }
            shared(&usual, testers)
        }
        (true, None) => usual,
    };
    let planned = throughput(args.swimmers, &stands).map_err(|error| {
        let says = match error {
            PlanError::TooMany => "cli-plan-too-many",
            PlanError::Nothing | PlanError::Stand(_) => "cli-plan-nothing",
        };
        Failure::new(Exit::Input, says, &[])
    })?;
    let stations: Vec<StationShape> = stands
        .iter()
        .map(|stand| StationShape {
            name: stand.name.clone(),
            minutes: stand.minutes,
            testers: stand.testers,
            minutes_per_slot: stand.minutes / f64::from(stand.testers),
        })
        .collect();
    let bottleneck = stands[planned.bottleneck].name.clone();
    if context.json {
        let shape = Shape {
            shape: "cuffwright.screening-plan/1",
            swimmers: planned.swimmers,
            minutes_per_swimmer: planned.per_swimmer,
            minutes: planned.flowing,
            whistle_minutes: planned.whistle,
            slot_minutes: planned.slot,
            bottleneck,
            minutes_with_one_more: planned.with_one_more,
            stations,
        };
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let number = |value: f64| format!("{}", (value * 10.0).round() / 10.0);
    let mut page = Page::default();
    let n = planned.swimmers.to_string();
    page.line(&say(
        "cli-plan-sum",
        &[("n", n.clone()), ("minutes", number(planned.flowing)), ("station", bottleneck.clone())],
    ));
    page.gap();
    let mut rows = vec![["col-station", "col-minutes", "cli-head-testers"].map(word).to_vec()];
    rows.extend(
        stations
            .iter()
            .map(|station| vec![station.name.clone(), number(station.minutes), station.testers.to_string()]),
    );
    page.table(2, &rows);
    page.gap();
    let alone = stands.iter().all(|stand| stand.testers == 1);
    if alone {
        page.paragraph(
            "  ",
            &say(
                "plan-flowing",
                &[
                    ("sum", number(planned.per_swimmer)),
                    ("rest", (planned.swimmers - 1).to_string()),
                    ("slot", number(planned.slot)),
                    ("total", number(planned.flowing)),
                ],
            ),
        );
    }
    let waves = u64::from(planned.swimmers) + stands.len() as u64 - 1;
    page.paragraph(
        "  ",
        &say(
            "cli-plan-whistle",
            &[
                ("n", n),
                ("s", stands.len().to_string()),
                ("waves", waves.to_string()),
                ("slot", number(planned.slot)),
                ("total", number(planned.whistle)),
            ],
        ),
    );
    page.paragraph(
        "  ",
        &say("cli-plan-more", &[("station", bottleneck), ("total", number(planned.with_one_more))]),
    );
    page.paragraph("  ", &word("plan-order"));
    Ok(Answer::page(Exit::Well, page))
}
