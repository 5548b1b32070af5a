//! The clock: read here and nowhere else on the command line.

use app::desk::Desk;
use app::facts::ClubFact;
use app::moment::Moment;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::Context;
use super::exit::Exit;
use super::failure::Failure;

/// Now, on the civil day of the club's zone.
pub(crate) fn moment(desk: &Desk, context: Context) -> Result<Moment, Failure> {
    Ok(moment_in(&zone(&club(desk)?.zone)?, context))
}

/// The club on record, without which nobody knows which day it is there.
pub(crate) fn club(desk: &Desk) -> Result<&ClubFact, Failure> {
    let about = desk.club().about.as_ref();
    about.ok_or_else(|| Failure::new(Exit::NotFound, "cli-no-club", &[]).hint("cli-no-club-hint"))
}

/// Now, on the civil day of a zone.
pub(crate) fn moment_in(zone: &TimeZone, context: Context) -> Moment {
    let moment = Moment::of(Timestamp::now(), zone);
    match context.today {
        Some(today) => moment.on_day(today),
        None => moment,
    }
}

/// The day asked about: the one given, or today in the club's zone.
pub(crate) fn day(desk: &Desk, context: Context, on: Option<Date>) -> Result<Date, Failure> {
    match on.or(context.today) {
        Some(day) => Ok(day),
        None => Ok(moment(desk, context)?.today),
    }
}

/// A zone by its IANA name.
pub(crate) fn zone(name: &str) -> Result<TimeZone, Failure> {
    TimeZone::get(name).map_err(|_| {
        Failure::new(Exit::Input, "cli-no-zone", &[("zone", name.to_owned())]).hint("cli-no-zone-hint")
    })
}
