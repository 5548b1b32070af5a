//! Pain that comes back or stays: a second event within the window, and 3 or more that nobody has called gone.

use jiff::civil::Date;
use quantity::Pain;

use super::moments::{EVENT_FROM, Moment};
use super::pain::is_pain_free_between;
use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate, Hold};
use crate::history::{PainReport, Urgency};
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Days after which pain of 3 and more that has not been called gone is seen by somebody licensed; fixed.
const STAYING_DAYS: u16 = 7;

pub(super) fn judge(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    let events: Vec<&Moment> = moments.iter().filter(|moment| moment.is_event(record.parameters())).collect();
    for side in Side::BOTH {
        gate.holds.extend(second_event(record, &events, side));
        gate.holds.extend(staying(record, moments, side));
    }
}

fn referred(code: RuleCode, says: &'static str, side: Side, first: Date, since: Date) -> Hold {
    Hold {
        availability: Availability::OutReferred,
        side: Some(side),
        line: Line::new(code, says, Class::Health)
            .with("side", Arg::Shoulder(side))
            .with("first", Arg::Date(first))
            .with("since", Arg::Date(since)),
        since,
        review: Some(days_after(since, 7)),
        ends_by: EndsBy::Clinician,
        urgency: Some(Urgency::WithinAWeek),
    }
}

/// Judged pair by pair, not event by event, so that one more report can only add a reason and never merge one away.
/// Both shoulders of a pair are held: who hurts twice in two weeks is looked at as a whole.
fn second_event(record: &Record<'_>, events: &[&Moment], side: Side) -> Option<Hold> {
    let window = record.parameters().repeat_event_window_days;
    events.iter().enumerate().find_map(|(index, second)| {
        let first = events[..index].iter().rev().find(|first| {
            first.date < second.date
                && second.date <= days_after(first.date, window)
                && (first.sides.contains_key(&side) || second.sides.contains_key(&side))
                && (second.is_at_training() || is_pain_free_between(record, first.place(), second.place()))
        })?;
        let is_open = !record.is_cleared(Some(side), second.date);
        is_open.then(|| referred(codes::E7, "gate-pain-second-event", side, first.date, second.date))
    })
}

/// Only a whole "no pain, left and right" on a later day, with nothing else the matter, says that it has gone;
/// silence does not.
fn staying(record: &Record<'_>, moments: &[Moment], side: Side) -> Option<Hold> {
    let is_well = |report: &PainReport| {
        report.is_complete() && report.worst() == Some(Pain::NONE) && report.signs.is_empty()
    };
    let is_gone_after = |day: Date| record.pains.iter().any(|report| day < report.date && is_well(report));
    moments.iter().find_map(|moment| {
        let number = moment.sides.get(&side).copied().flatten()?;
        let overdue = days_after(moment.date, STAYING_DAYS);
        let is_open = EVENT_FROM <= number.get()
            && overdue < record.on
            && !is_gone_after(moment.date)
            && !record.is_cleared(Some(side), moment.date);
        is_open.then(|| referred(codes::E8, "gate-pain-staying", side, moment.date, days_after(overdue, 1)))
    })
}
