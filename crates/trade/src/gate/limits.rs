//! What others have said: signed limits, bans, fever, open referrals, an injury without a letter.

use jiff::civil::Date;

use super::record::{Record, days_after};
use super::{ActiveLimit, Availability, EndsBy, Gate, Hold};
use crate::history::{AbsenceReason, InjuryKind, Limit, Urgency};
use crate::rule::{RuleCode, gate_rules as codes};
use crate::trace::{Arg, Class, Line};

/// Days without symptoms after a fever before loaded work: 48 hours, common practice.
const SYMPTOM_FREE_DAYS: u16 = 2;

pub(super) fn judge(record: &Record<'_>, gate: &mut Gate) {
    for limit in record.limits.iter().filter(|limit| record.on <= limit.until) {
        let is_licensed = limit.clinician.is_licensed_on(limit.signed);
        if !is_licensed {
            let line = line(codes::G12, "gate-limit-unlicensed")
                .with("name", Arg::Verbatim(limit.clinician.name.clone()))
                .with("signed", Arg::Date(limit.signed));
            gate.notes.push(line);
        }
        gate.limits.push(active(limit, is_licensed));
    }
    bans(record, gate);
    fever(record, gate);
    referrals(record, gate);
    injury_without_letter(record, gate);
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

/// A limit whose signer was not licensed still restricts, which is the careful reading, but permits nothing.
fn active(limit: &Limit, is_licensed: bool) -> ActiveLimit {
    ActiveLimit {
        side: limit.side,
        until: limit.until,
        clinician: limit.clinician.clone(),
        locked_tags: limit.locked_tags.clone(),
        locked_exercises: limit.locked_exercises.clone(),
        sets: limit.sets,
        cap: limit.cap,
        allows_pain_up_to: limit.allows_pain_up_to.filter(|_| is_licensed),
    }
}

fn out_today(line: Line, since: Date, back: Option<Date>) -> Hold {
    Hold {
        availability: Availability::OutToday,
        side: None,
        line,
        since,
        review: back,
        ends_by: if back.is_some() { EndsBy::Date } else { EndsBy::Record },
        urgency: None,
    }
}

fn bans(record: &Record<'_>, gate: &mut Gate) {
    for ban in record.bans.iter().filter(|ban| ban.until.is_none_or(|until| record.on <= until)) {
        let line = match ban.until {
            Some(until) => line(codes::G9, "gate-ban-until").with("until", Arg::Date(until)),
            None => line(codes::G9, "gate-ban-open"),
        };
        let line = line.with("by", Arg::Verbatim(ban.by.clone())).with("from", Arg::Date(ban.from));
        gate.holds.push(out_today(line, ban.from, ban.until.map(|until| days_after(until, 1))));
    }
}

fn fever(record: &Record<'_>, gate: &mut Gate) {
    for illness in record.illnesses.iter().filter(|illness| illness.fever) {
        // A day without symptoms that has not come yet is a hope, not a fact.
        match illness.symptom_free_from.filter(|day| *day <= record.on) {
            None => {
                let line = line(codes::G10, "gate-fever").with("from", Arg::Date(illness.from));
                gate.holds.push(out_today(line, illness.from, None));
            }
            Some(free) => {
                let back = days_after(free, SYMPTOM_FREE_DAYS);
                if record.on < back {
                    let line = line(codes::G10, "gate-fever-wait")
                        .with("free", Arg::Date(free))
                        .with("back", Arg::Date(back));
                    gate.holds.push(out_today(line, illness.from, Some(back)));
                }
            }
        }
    }
}

fn by_clinician(line: Line, hold: (Option<crate::side::Side>, Date), urgency: Urgency, review: Date) -> Hold {
    let (side, since) = hold;
    Hold {
        availability: Availability::OutReferred,
        side,
        line,
        since,
        review: Some(review),
        ends_by: EndsBy::Clinician,
        urgency: Some(urgency),
    }
}

fn referrals(record: &Record<'_>, gate: &mut Gate) {
    for referral in &record.referrals {
        let is_answered = referral.answered.is_some_and(|day| day <= record.on);
        if is_answered || record.is_cleared(referral.side, referral.opened) {
            continue;
        }
        let line = line(codes::G11, "gate-referral-open").with("opened", Arg::Date(referral.opened));
        let review = days_after(referral.opened, 7);
        gate.holds.push(by_clinician(line, (referral.side, referral.opened), referral.urgency, review));
    }
}

/// Away injured, and no licensed letter since it began: a report of what the doctor said is not a letter.
fn injury_without_letter(record: &Record<'_>, gate: &mut Gate) {
    for absence in record.absences.iter().filter(|absence| absence.reason == AbsenceReason::Injury) {
        let names_injury = [InjuryKind::Dislocation, InjuryKind::Operation, InjuryKind::Other]
            .into_iter()
            .any(|kind| record.has_letter_about(kind, absence.from));
        if names_injury {
            continue;
        }
        if let Some(side) = record.open_scope(absence.from) {
            let line = line(codes::B1, "gate-injury-without-letter").with("from", Arg::Date(absence.from));
            let review = days_after(absence.from, 7);
            gate.holds.push(by_clinician(line, (side, absence.from), Urgency::WithinAWeek, review));
        }
    }
}
