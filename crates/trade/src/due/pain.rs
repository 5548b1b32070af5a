//! What pain, signs and referrals leave open.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::{Due, Kind, Owner};
use crate::gate::moments::{self, Moment};
use crate::gate::papers::OF_AGE;
use crate::gate::record::{Record, days_after};
use crate::gate::{Availability, Gate, Hold, PainEvent, pain, signs, water};
use crate::history::{PainReport, Urgency};
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Days within which an urgent and any other referral is answered: common practice.
const ANSWER_DAYS: (u16, u16) = (1, 7);
/// Days within which a talk is had: common practice.
const TALK_DAYS: u16 = 7;

pub(super) fn list(record: &Record<'_>, gate: &Gate, next_practice: Option<Date>, open: &mut Vec<Due>) {
    let moments = moments::of(record);
    for event in &gate.pain_events {
        follow_ups(record, event, open);
    }
    guardian(record, &moments, open);
    write_referral(record, gate, open);
    referral_answers(record, open);
    for (side, line) in &gate.proposed_ends {
        open.push(Due {
            kind: Kind::ConfirmEnd,
            owner: Owner::Practitioner,
            by: record.on,
            side: *side,
            line: Line { says: "due-confirm-end", ..line.clone() },
        });
    }
    settle_water(record, gate, next_practice, open);
    talks(record, open);
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

/// A shoulder where there was one; none for both.
fn only(event: &PainEvent) -> Option<Side> {
    let mut sides = event.sides.iter();
    match (sides.next(), sides.next()) {
        (Some(side), None) => Some(*side),
        _ => None,
    }
}

/// Asked again the next morning and after seven days: closed by an answer for every shoulder that hurt.
fn follow_ups(record: &Record<'_>, event: &PainEvent, open: &mut Vec<Due>) {
    let is_answered_from = |day: Date| {
        let answers = |report: &PainReport| event.sides.iter().all(|side| report.of(*side).is_some());
        record.pains.iter().filter(|report| day <= report.date).any(|report| answers(report))
    };
    for (kind, days, says) in
        [(Kind::NextMorning, 1, "due-next-morning"), (Kind::SevenDays, 7, "due-seven-days")]
    {
        let by = days_after(event.date, days);
        if !is_answered_from(by) {
            open.push(Due {
                kind,
                owner: Owner::Practitioner,
                by,
                side: only(event),
                line: line(codes::E12, says).with("date", Arg::Date(event.date)),
            });
        }
    }
}

/// A minor's guardian hears on the same day of a pain event, of an urgent sign, and of one-sided pain twice in the
/// window. Closed by a record that the guardian was told on that day or later.
fn guardian(record: &Record<'_>, moments: &[Moment], open: &mut Vec<Due>) {
    if OF_AGE <= record.age() {
        return;
    }
    let mut reasons: BTreeMap<Date, &'static str> = BTreeMap::new();
    for (_, second) in pain::twice(record, moments) {
        reasons.insert(second, "due-guardian-twice");
    }
    // A follow-up that still hurts as much is news for the guardian too, so the moments count, not the events alone.
    for moment in moments.iter().filter(|moment| moment.is_event(record.parameters())) {
        reasons.insert(moment.date, "due-guardian-event");
    }
    let has_urgent_sign =
        |report: &PainReport| report.signs.iter().any(|sign| Urgency::Talk < sign.urgency());
    for report in record.pains.iter().filter(|report| has_urgent_sign(report)) {
        reasons.insert(report.date, "due-guardian-sign");
    }
    let last_told = record.guardian_told.iter().map(|told| told.date).max();
    for (date, says) in reasons.into_iter().filter(|(date, _)| last_told.is_none_or(|told| told < *date)) {
        open.push(Due {
            kind: Kind::TellGuardian,
            owner: Owner::Practitioner,
            by: date,
            side: None,
            line: line(codes::E13, says).with("date", Arg::Date(date)),
        });
    }
}

/// One letter a shoulder, as urgent as its most urgent reason; closed by a referral opened since the newest reason.
fn write_referral(record: &Record<'_>, gate: &Gate, open: &mut Vec<Due>) {
    for side in [None, Some(Side::Left), Some(Side::Right)] {
        let needs_letter = |hold: &&Hold| {
            hold.availability == Availability::OutReferred
                && hold.side == side
                && !is_written_elsewhere(hold)
                && !has_referral(record, side, hold.since)
        };
        let reasons: Vec<&Hold> = gate.holds.iter().filter(needs_letter).collect();
        let deadline = |hold: &&Hold| hold.review.unwrap_or(record.on);
        let Some(first) = reasons.iter().min_by_key(|hold| (deadline(hold), std::cmp::Reverse(hold.urgency)))
        else {
            continue;
        };
        open.push(Due {
            kind: Kind::WriteReferral,
            owner: Owner::Practitioner,
            by: deadline(first),
            side,
            line: Line { says: "due-write-referral", args: Vec::new(), ..first.line.clone() }
                .with("since", Arg::Date(first.since))
                .with("urgency", Arg::Word(urgency_word(first.urgency)))
                .with("reasons", Arg::Count(i64::try_from(reasons.len()).unwrap_or(i64::MAX))),
        });
    }
}

/// A referral is its own letter, and the person is held for an emergency by the shoulder's own reason.
fn is_written_elsewhere(hold: &Hold) -> bool {
    [codes::G11, codes::U2].contains(&hold.line.rule)
}

fn urgency_word(urgency: Option<Urgency>) -> String {
    let word = match urgency {
        Some(Urgency::Emergency) => "emergency",
        Some(Urgency::SameDay) => "same-day",
        Some(Urgency::WithinAWeek) => "within-a-week",
        Some(Urgency::Talk) | None => "talk",
    };
    format!("urgency-{word}")
}

/// A referral of the person covers both shoulders; one of a shoulder covers neither the other nor the person.
fn has_referral(record: &Record<'_>, side: Option<Side>, since: Date) -> bool {
    record
        .referrals
        .iter()
        .any(|referral| since <= referral.opened && (referral.side.is_none() || referral.side == side))
}

fn referral_answers(record: &Record<'_>, open: &mut Vec<Due>) {
    for referral in &record.referrals {
        let is_answered = referral.answered.is_some_and(|day| day <= record.on);
        if is_answered || record.is_cleared(referral.side, referral.opened) {
            continue;
        }
        let days = if Urgency::SameDay <= referral.urgency { ANSWER_DAYS.0 } else { ANSWER_DAYS.1 };
        open.push(Due {
            kind: Kind::ReferralAnswer,
            owner: Owner::Practitioner,
            by: days_after(referral.opened, days),
            side: referral.side,
            line: line(codes::G11, "due-referral-answer").with("opened", Arg::Date(referral.opened)),
        });
    }
}

/// Who is out of dryland is not thereby out of the water, nor in it: a person says which, before the next practice.
fn settle_water(record: &Record<'_>, gate: &Gate, next_practice: Option<Date>, open: &mut Vec<Due>) {
    let out = gate.holds.iter().filter(|hold| Availability::OutToday <= hold.availability);
    let Some(newest) = out.map(|hold| hold.since).max() else { return };
    if record.water_advice.iter().all(|advice| advice.date < newest) {
        open.push(Due {
            kind: Kind::Water,
            owner: Owner::Practitioner,
            by: next_practice.map_or(record.on, |practice| practice.max(record.on)),
            side: None,
            line: Line::new(codes::M2, "due-water", Class::Availability),
        });
    }
}

fn talks(record: &Record<'_>, open: &mut Vec<Due>) {
    let talk = |since: Date, line: Line| Due {
        kind: Kind::Talk,
        owner: Owner::Practitioner,
        by: days_after(since, TALK_DAYS),
        side: None,
        line,
    };
    open.extend(
        signs::open_talks(record).into_iter().map(|(sign, since)| talk(since, signs::talk_line(sign, since))),
    );
    open.extend(water::jump(record).map(|(since, line)| talk(since, line)));
}
