//! Two pain-free days: a rule may propose to end "out today"; a person confirms it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::Pain;

use super::moments::{Moment, is_ache};
use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate};
use crate::history::{PainReport, Urgency};
use crate::rule::gate_rules as codes;
use crate::trace::{Arg, Class, Line};

pub(super) fn propose(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    let Some((first, last)) = pain_free_days(record, moments) else { return };
    let is_referred = |side| {
        gate.holds.iter().any(|hold| {
            hold.availability == Availability::OutReferred && (hold.side.is_none() || hold.side == side)
        })
    };
    let mut sides: Vec<_> = gate
        .holds
        .iter()
        .filter(|hold| hold.availability == Availability::OutToday && hold.ends_by == EndsBy::Practitioner)
        .map(|hold| hold.side)
        .filter(|side| !is_referred(*side))
        .collect();
    sides.sort();
    sides.dedup();
    for side in sides {
        let line = Line::new(codes::E11, "gate-pain-free-days", Class::Health)
            .with("first", Arg::Date(first))
            .with("last", Arg::Date(last));
        gate.proposed_ends.push((side, line));
    }
}

fn has_urgent_sign(report: &PainReport) -> bool {
    report.signs.iter().any(|sign| Urgency::Talk < sign.urgency())
}

/// Both shoulders answered, nothing above zero but an ache of 1 on both sides, and no sign.
fn is_pain_free(report: &PainReport) -> bool {
    let is_mild =
        report.worst().is_some_and(|worst| worst == Pain::NONE || (worst.get() <= 1 && is_ache(report)));
    report.is_complete() && is_mild && !has_urgent_sign(report)
}

/// First and last of the consecutive answered days since it last hurt, when there are enough of them. A day
/// without an answer breaks the row: silence is not a zero.
fn pain_free_days(record: &Record<'_>, moments: &[Moment]) -> Option<(Date, Date)> {
    let mild_ache = |moment: &&Moment| moment.is_ache && !moment.reaches(2) && moment.ended.is_none();
    let hurt = moments.iter().filter(|moment| !mild_ache(moment)).map(|moment| moment.date);
    let signs = record.pains.iter().filter(|report| has_urgent_sign(report)).map(|report| report.date);
    let last_sore = hurt.chain(signs).max()?;
    let mut days: BTreeMap<Date, bool> = BTreeMap::new();
    for report in record.pains.iter().filter(|report| last_sore < report.date) {
        *days.entry(report.date).or_default() |= is_pain_free(report);
    }
    let needed = usize::from(record.parameters().pain_free_days.max(1));
    let mut row: Vec<Date> = Vec::new();
    for day in days.into_iter().filter_map(|(day, is_free)| is_free.then_some(day)) {
        if row.last().is_some_and(|last| days_after(*last, 1) != day) {
            row.clear();
        }
        row.push(day);
        if needed <= row.len() {
            return Some((row[0], day));
        }
    }
    None
}
