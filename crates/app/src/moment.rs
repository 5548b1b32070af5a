//! The time as a value. The clock itself is read at the edge and nowhere else.

use jiff::Timestamp;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;

/// One instant, with the civil day it falls on in the club's zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moment {
    /// Milliseconds since the Unix epoch, for new ids.
    pub unix_millis: u64,
    /// The instant as text, for the record.
    pub stamp: String,
    /// The civil day in the club's zone.
    pub today: Date,
    /// The civil time of day in the club's zone.
    pub time: Time,
}

impl Moment {
    /// An instant as the club's zone sees it.
    pub fn of(instant: Timestamp, zone: &TimeZone) -> Self {
        let local = zone.to_datetime(instant);
        Self {
            unix_millis: u64::try_from(instant.as_millisecond()).unwrap_or(0),
            stamp: instant.to_string(),
            today: local.date(),
            time: local.time(),
        }
    }

    /// The same instant on another civil day: the demo's day stands still while its clock runs.
    pub fn on_day(self, today: Date) -> Self {
        Self { today, ..self }
    }
}
