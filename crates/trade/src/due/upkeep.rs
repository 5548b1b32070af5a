//! What runs out or was never done: papers, limits, growth, re-tests.

use jiff::civil::Date;

use super::{Due, Kind, Owner};
use crate::gate::Gate;
use crate::gate::papers::{self, OF_AGE, Standing};
use crate::gate::record::{Record, birthday, days_after, months_after};
use crate::history::Screening;
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Days before the end of a limit at which it is listed.
const LIMIT_AHEAD_DAYS: u16 = 14;
/// Days before the end of a consent at which it is listed.
const CONSENT_AHEAD_DAYS: u16 = 30;
/// Days from joining within which a late joiner is screened: common practice.
const LATE_JOINER_DAYS: u16 = 14;
/// Ages at which growth is measured: common practice.
const MEASURED_AGES: std::ops::RangeInclusive<i16> = 9..=17;
/// Months after the last measurement from which, and by which, the next is due: common practice.
const MEASURE_MONTHS: (u8, u8) = (3, 4);
/// Days into a growth hold at which it is measured again: common practice.
const HOLD_MEASURE_DAYS: u16 = 42;
/// Days after which a weaker arm is tested again: common practice.
const WEAK_ARM_DAYS: u16 = 42;

pub(super) fn list(record: &Record<'_>, gate: &Gate, open: &mut Vec<Due>) {
    consent(record, open);
    intake(record, open);
    limits(record, gate, open);
    growth(record, gate, open);
    screening(record, gate, open);
}

fn entry(kind: Kind, owner: Owner, by: Date, line: Line) -> Due {
    Due { kind, owner, by, side: None, line }
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

/// A consent that was taken back is not chased: taking back is an answer.
fn consent(record: &Record<'_>, open: &mut Vec<Due>) {
    let mut push = |by, line| open.push(entry(Kind::Consent, Owner::Administrator, by, line));
    let soon = days_after(record.on, CONSENT_AHEAD_DAYS);
    match papers::standing(record) {
        Standing::Withdrawn { .. } => return,
        Standing::NeverSigned => push(record.on, line(codes::G1, "due-consent-never")),
        Standing::OwnNeeded { from } => {
            push(from, line(codes::G4, "due-consent-own").with("from", Arg::Date(from)));
        }
        Standing::Signed { last_day, missing, .. } => {
            for item in missing {
                let item = Arg::Word(format!("consent-item-{}", item.word()));
                push(record.on, line(codes::G1, "due-consent-item").with("item", item));
            }
            if last_day < record.on {
                push(last_day, line(codes::G2, "due-consent-expired").with("ended", Arg::Date(last_day)));
            } else if last_day <= soon {
                push(last_day, line(codes::G2, "due-consent-ends").with("last", Arg::Date(last_day)));
            }
        }
    }
    let of_age = birthday(record.swimmer, OF_AGE);
    let has_own = record.consents.iter().any(|consent| consent.relation.trim().eq_ignore_ascii_case("self"));
    if record.on < of_age && of_age <= soon && !has_own {
        push(of_age, line(codes::G4, "due-consent-own").with("from", Arg::Date(of_age)));
    }
}

fn intake(record: &Record<'_>, open: &mut Vec<Due>) {
    let questions = papers::open_questions(record);
    if record.intakes.is_empty() {
        open.push(entry(Kind::Intake, Owner::Practitioner, record.on, line(codes::G5, "due-intake-never")));
        return;
    }
    for question in questions {
        let question = Arg::Word(format!("intake-question-{question}"));
        let line = line(codes::G5, "due-intake-question").with("question", question);
        open.push(entry(Kind::Intake, Owner::Practitioner, record.on, line));
    }
}

/// Closed by a longer limit for the same shoulder, or by the day it ends.
fn limits(record: &Record<'_>, gate: &Gate, open: &mut Vec<Due>) {
    let soon = days_after(record.on, LIMIT_AHEAD_DAYS);
    for limit in gate.limits.iter().filter(|limit| limit.until <= soon) {
        let is_followed = gate
            .limits
            .iter()
            .any(|other| limit.until < other.until && (other.side.is_none() || other.side == limit.side));
        if is_followed {
            continue;
        }
        open.push(Due {
            kind: Kind::LimitEnds,
            owner: Owner::Clinician,
            by: limit.until,
            side: limit.side,
            line: line(codes::G12, "due-limit-ends")
                .with("until", Arg::Date(limit.until))
                .with("name", Arg::Verbatim(limit.clinician.name.clone())),
        });
    }
}

fn growth(record: &Record<'_>, gate: &Gate, open: &mut Vec<Due>) {
    if !MEASURED_AGES.contains(&record.age()) {
        return;
    }
    let Some(last) = record.growth.iter().map(|measure| measure.date).max() else {
        open.push(entry(Kind::Growth, Owner::Practitioner, record.on, line(codes::W5, "due-growth-never")));
        return;
    };
    let in_hold = gate
        .tracks
        .growth
        .as_ref()
        .filter(|hold| last <= hold.since)
        .map(|hold| days_after(hold.since, HOLD_MEASURE_DAYS));
    let (from, by) = (months_after(last, MEASURE_MONTHS.0), months_after(last, MEASURE_MONTHS.1));
    match in_hold {
        Some(again) if again < by => {
            let line = line(codes::W5, "due-growth-hold").with("last", Arg::Date(last));
            open.push(entry(Kind::Growth, Owner::Practitioner, again, line));
        }
        _ if from <= record.on => {
            let line = line(codes::W5, "due-growth").with("last", Arg::Date(last));
            open.push(entry(Kind::Growth, Owner::Practitioner, by, line));
        }
        _ => {}
    }
}

/// First screening, re-test, and an earlier one where one arm was weaker.
fn screening(record: &Record<'_>, gate: &Gate, open: &mut Vec<Due>) {
    let Some(last) = record.newest_screenings().map(|screening: &Screening| screening.date).next() else {
        let joined = record.swimmer.programme_started.filter(|started| *started <= record.on);
        let by = joined.map_or(record.on, |started| days_after(started, LATE_JOINER_DAYS));
        open.push(entry(Kind::Screening, Owner::Practitioner, by, line(codes::G8, "due-screening-never")));
        return;
    };
    let [from, by] = record.parameters().retest_weeks.map(|weeks| days_after(last, u16::from(weeks) * 7));
    let strength_test = record.newest_screenings().find(|screening| {
        Side::BOTH.iter().all(|side| screening.measured("er_force", Some(*side)).is_some())
    });
    let again =
        strength_test.filter(|_| gate.weaker_arm.is_some()).map(|test| days_after(test.date, WEAK_ARM_DAYS));
    if let (Some(again), Some(test)) = (again.filter(|again| *again < by), strength_test) {
        open.push(Due {
            kind: Kind::Retest,
            owner: Owner::Practitioner,
            by: again,
            side: gate.weaker_arm,
            line: line(codes::C3, "due-retest-weaker-arm").with("last", Arg::Date(test.date)),
        });
    } else if from <= record.on {
        open.push(entry(
            Kind::Retest,
            Owner::Practitioner,
            by,
            line(codes::C8, "due-retest").with("last", Arg::Date(last)),
        ));
    }
}
