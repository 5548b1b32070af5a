//! `cuffwright init`: a new record file for a club.

use std::path::PathBuf;

use app::desk::{Desk, Draft};
use app::facts::ClubFact;
use serde::Serialize;
use store::{Store, SubjectId};

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::page::Page;
use super::words::{UnitsWord, say};
use super::{clock, open};

/// Makes a new record file for a club. A file that is there already is never touched.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.init/1 with store, club, zone, practitioner.")]
pub(super) struct Args {
    /// The file to make.
    #[arg(long, value_name = "FILE")]
    store: PathBuf,
    /// The club's name.
    #[arg(long, value_name = "NAME")]
    club: String,
    /// The club's time zone by its IANA name, for instance Europe/Vienna: a session's day comes from it.
    #[arg(long, value_name = "ZONE")]
    zone: String,
    /// The practitioner who answers for the squad.
    #[arg(long, value_name = "NAME")]
    practitioner: String,
    /// How to reach the practitioner.
    #[arg(long, value_name = "NUMBER", default_value = "")]
    phone: String,
    /// Units in which the club reads and writes.
    #[arg(long, value_enum, default_value_t = UnitsWord::Metric)]
    units: UnitsWord,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    store: String,
    club: String,
    zone: String,
    practitioner: String,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let zone = clock::zone(&args.zone)?;
    for (option, text) in [("--club", &args.club), ("--practitioner", &args.practitioner)] {
        if text.trim().is_empty() {
            return Err(Failure::new(Exit::Input, "cli-blank", &[("option", option.to_owned())]));
        }
    }
    let about = ClubFact {
        name: args.club.trim().to_owned(),
        // The zone's own spelling, whatever the case in which it was typed.
        zone: zone.iana_name().unwrap_or(&args.zone).to_owned(),
        units: args.units.into(),
        practitioner: args.practitioner.trim().to_owned(),
        practitioner_phone: args.phone.trim().to_owned(),
        daily_practices: false,
    };
    let failed = |error| Failure::store(&args.store, error);
    // Built in memory and copied when it is whole: no failure leaves a store without its club.
    let mut desk = Desk::new(Store::in_memory().map_err(failed)?, open::protocol(None)?)?;
    let moment = clock::moment_in(&zone, context);
    desk.record(&moment, &open::author(&about.practitioner), SubjectId::CLUB, &[Draft::new(&about)])?;
    desk.store().backup_to(&args.store).map_err(failed)?;
    let shape = Shape {
        shape: "cuffwright.init/1",
        store: args.store.display().to_string(),
        club: about.name,
        zone: about.zone,
        practitioner: about.practitioner,
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    let next = say("cli-made-next", &[("store", shape.store.clone())]);
    page.paragraph(
        "",
        &say("cli-made", &[("store", shape.store), ("club", shape.club), ("zone", shape.zone)]),
    );
    page.paragraph("", &next);
    Ok(Answer::page(Exit::Well, page))
}
