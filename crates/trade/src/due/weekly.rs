//! Contact within two days of a substantial problem in the weekly check. A later check that says less does not close
//! it: a talk does.

use jiff::civil::Date;

use super::{Due, Kind, Owner};
use crate::ask::{CONTACT_DAYS, substantial};
use crate::gate::record::days_after;
use crate::history::History;
use crate::side::Side;

pub(super) fn list(history: &History, on: Date, open: &mut Vec<Due>) {
    for side in Side::BOTH {
        if let Some((date, line)) = substantial(history, side, on) {
            open.push(Due {
                kind: Kind::Talk,
                owner: Owner::Practitioner,
                by: days_after(date, CONTACT_DAYS),
                side: Some(side),
                line,
            });
        }
    }
}
