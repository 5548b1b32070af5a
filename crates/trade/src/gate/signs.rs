//! Warning signs by how soon somebody licensed must look. The tool logs, shows and locks; it names no cause.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate, Hold};
use crate::history::{PainWhen, Sign, Urgency};
use crate::rule::gate_rules as codes;
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// A sign as far as no letter covers it: where, and since when.
type Open = BTreeMap<(Sign, Option<Side>), Date>;

pub(super) fn judge(record: &Record<'_>, gate: &mut Gate) {
    let open = open_signs(record);
    for ((sign, side), since) in &open {
        gate.holds.push(hold(*sign, *side, *since));
    }
    // A shoulder with an emergency sign is nobody's reason to train the other one.
    let emergency =
        open.iter().filter(|((sign, side), _)| sign.urgency() == Urgency::Emergency && side.is_some());
    if let Some(since) = emergency.map(|(_, since)| *since).min() {
        gate.holds.push(referred(
            Line::new(codes::U2, "gate-emergency-person", Class::Health).with("since", Arg::Date(since)),
            None,
            since,
            Urgency::Emergency,
        ));
    }
    gate.stop_today.session |= record.pains.iter().any(|report| {
        report.date == record.on && report.signs.iter().any(|sign| Urgency::Talk < sign.urgency())
    });
    for (sign, since) in open_talks(record) {
        gate.notes.push(talk_line(sign, since));
    }
}

/// The sentence for a sign that asks for a talk.
pub(crate) fn talk_line(sign: Sign, since: Date) -> Line {
    let says = if sign == Sign::UnderEating { "gate-sign-talk-private" } else { "gate-sign-talk" };
    Line::new(codes::U5, says, Class::Health).with("sign", word(sign)).with("since", Arg::Date(since))
}

fn word(sign: Sign) -> Arg {
    Arg::Word(format!("sign-{}", sign.word()))
}

fn open_signs(record: &Record<'_>) -> Open {
    let mut open = Open::new();
    let mut note = |sign: Sign, side: Option<Side>, since: Date| {
        let entry = open.entry((sign, side)).or_insert(since);
        *entry = since.min(*entry);
    };
    for report in &record.pains {
        for sign in report.signs.iter().copied().filter(|sign| Urgency::Talk < sign.urgency()) {
            if sign.is_of_the_whole_person() {
                if !record.is_cleared(None, report.date) {
                    note(sign, None, report.date);
                }
                continue;
            }
            // Without a side it holds both shoulders, each until a letter covers it.
            let concerned = report.sign_side.map_or(Side::BOTH.to_vec(), |side| vec![side]);
            for side in concerned.into_iter().filter(|side| !record.is_cleared(Some(*side), report.date)) {
                note(sign, Some(side), report.date);
            }
        }
    }
    // At intake nobody has been looked at yet: a yes holds the person until letters cover both shoulders.
    for intake in &record.intakes {
        for sign in intake.signs.iter().copied().filter(|sign| Urgency::Talk < sign.urgency()) {
            let scope = if sign.is_of_the_whole_person() {
                (!record.is_cleared(None, intake.date)).then_some(None)
            } else {
                record.open_scope(intake.date)
            };
            if let Some(side) = scope {
                note(sign, side, intake.date);
            }
        }
    }
    open
}

fn hold(sign: Sign, side: Option<Side>, since: Date) -> Hold {
    let urgency = sign.urgency();
    let (code, says) = match urgency {
        Urgency::Emergency => (codes::U1, "gate-sign-emergency"),
        Urgency::SameDay => (codes::U3, "gate-sign-same-day"),
        Urgency::WithinAWeek | Urgency::Talk => (codes::U4, "gate-sign-within-a-week"),
    };
    let line = Line::new(code, says, Class::Health).with("sign", word(sign)).with("since", Arg::Date(since));
    referred(line, side, since, urgency)
}

fn referred(line: Line, side: Option<Side>, since: Date, urgency: Urgency) -> Hold {
    let days = match urgency {
        Urgency::Emergency => 0,
        Urgency::SameDay => 1,
        Urgency::WithinAWeek | Urgency::Talk => 7,
    };
    Hold {
        availability: Availability::OutReferred,
        side,
        line,
        since,
        review: Some(days_after(since, days)),
        ends_by: EndsBy::Clinician,
        urgency: Some(urgency),
    }
}

/// Signs that ask for a talk and have not been followed up since, each with the last day it was reported.
pub(crate) fn open_talks(record: &Record<'_>) -> BTreeMap<Sign, Date> {
    let is_talk = |sign: &Sign| sign.urgency() == Urgency::Talk;
    let reported =
        record.pains.iter().flat_map(|report| report.signs.iter().map(|sign| (*sign, report.date)));
    let asked = record.intakes.iter().flat_map(|intake| intake.signs.iter().map(|sign| (*sign, intake.date)));
    let mut talks: BTreeMap<Sign, Date> = BTreeMap::new();
    for (sign, date) in reported.chain(asked).filter(|(sign, _)| is_talk(sign)) {
        let latest = talks.entry(sign).or_insert(date);
        *latest = date.max(*latest);
    }
    let last_follow_up = record
        .pains
        .iter()
        .filter(|report| report.when == PainWhen::FollowUp)
        .map(|report| report.date)
        .max();
    talks.retain(|_, date| last_follow_up.is_none_or(|followed| followed <= *date));
    talks
}
