//! Consent, intake questions and screening: without them nobody takes part yet.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::record::{Record, birthday, days_after, months_after};
use super::{Availability, EndsBy, Gate, Hold};
use crate::history::{Consent, ConsentItem, InjuryKind, Intake, Urgency};
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Age from which a person consents for themselves; fixed.
pub(crate) const OF_AGE: i16 = 18;

/// What a "yes" at intake is answered by: kind of injury, code, sentence, and the question it reads.
type EverQuestion = (InjuryKind, RuleCode, &'static str, fn(&Intake) -> Option<bool>);

const EVER: [EverQuestion; 2] = [
    (InjuryKind::Dislocation, codes::G6, "gate-dislocation-ever", |intake| intake.dislocation_or_slipping),
    (InjuryKind::Operation, codes::G7, "gate-operation-ever", |intake| intake.operation),
];

pub(super) fn judge(record: &Record<'_>, gate: &mut Gate) {
    consent(record, gate);
    intake(record, gate);
    ever(record, gate);
    watch(record, gate);
    if record.screenings.is_empty() {
        gate.holds.push(not_yet(line(codes::G8, "gate-screening-missing"), record.on));
    }
    gate.questions_answered = record.pains.iter().any(|report| {
        report.date == record.on && report.when == crate::history::PainWhen::Before && report.is_complete()
    });
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

fn not_yet(line: Line, since: Date) -> Hold {
    Hold {
        availability: Availability::NotYet,
        side: None,
        line,
        since,
        review: None,
        ends_by: EndsBy::Record,
        urgency: None,
    }
}

/// How the consent stands.
pub(crate) enum Standing {
    /// Nothing that counts has been signed.
    NeverSigned,
    /// Only a guardian signed, and the swimmer has come of age on this day.
    OwnNeeded { from: Date },
    /// Taken back on this day.
    Withdrawn { on: Date },
    /// Signed, with the last day it holds and those of the three needed items that were not granted.
    Signed { signed: Date, last_day: Date, missing: Vec<ConsentItem> },
}

/// Signed by the swimmer, not by a guardian.
fn is_own(consent: &Consent) -> bool {
    consent.relation.trim().eq_ignore_ascii_case("self")
}

/// Reads the consents. The newest signature of whoever may sign replaces older ones as a whole; papers of one day
/// are read together, and an item counts only when all of them grant it. Before 18 the swimmer's own signature is
/// the child's agreement and replaces nobody's. It holds up to and including the same day so many months later.
pub(crate) fn standing(record: &Record<'_>) -> Standing {
    let of_age = OF_AGE <= record.age();
    let counting: Vec<&Consent> =
        record.consents.iter().copied().filter(|consent| is_own(consent) == of_age).collect();
    let Some(signed) = counting.iter().map(|consent| consent.signed).max() else {
        return if of_age && !record.consents.is_empty() {
            Standing::OwnNeeded { from: birthday(record.swimmer, OF_AGE) }
        } else {
            Standing::NeverSigned
        };
    };
    // A child who takes back its own agreement stops the programme as much as a guardian does.
    let heard = record.consents.iter().filter(|consent| !of_age || is_own(consent));
    let taken_back = heard
        .filter_map(|consent| {
            let day = consent.withdrawn?;
            let replaced = consent.signed < signed && day <= signed;
            (day <= record.on && !replaced).then_some(day)
        })
        .max();
    if let Some(day) = taken_back {
        return Standing::Withdrawn { on: day };
    }
    let newest: Vec<&Consent> = counting.into_iter().filter(|consent| consent.signed == signed).collect();
    let granted: BTreeSet<ConsentItem> = ConsentItem::NEEDED
        .into_iter()
        .filter(|item| newest.iter().all(|consent| consent.granted.contains(item)))
        .collect();
    Standing::Signed {
        signed,
        last_day: months_after(signed, record.parameters().consent_valid_months),
        missing: ConsentItem::NEEDED.into_iter().filter(|item| !granted.contains(item)).collect(),
    }
}

fn consent(record: &Record<'_>, gate: &mut Gate) {
    let before = gate.holds.len();
    match standing(record) {
        Standing::NeverSigned => gate.holds.push(not_yet(line(codes::G1, "gate-consent-never"), record.on)),
        Standing::OwnNeeded { from } => {
            gate.holds.push(not_yet(line(codes::G4, "gate-consent-own").with("from", Arg::Date(from)), from))
        }
        Standing::Withdrawn { on } => gate
            .holds
            .push(not_yet(line(codes::G3, "gate-consent-withdrawn").with("withdrawn", Arg::Date(on)), on)),
        Standing::Signed { signed, last_day, missing } => {
            for item in missing {
                let line = line(codes::G1, "gate-consent-item")
                    .with("item", Arg::Word(format!("consent-item-{}", item.word())))
                    .with("signed", Arg::Date(signed));
                gate.holds.push(not_yet(line, signed));
            }
            if last_day < record.on {
                let line = line(codes::G2, "gate-consent-expired")
                    .with("signed", Arg::Date(signed))
                    .with("ended", Arg::Date(last_day));
                gate.holds.push(not_yet(line, days_after(last_day, 1)));
            }
        }
    }
    if before < gate.holds.len() && record.parameters().join_without_consent {
        gate.notes.push(line(codes::G2, "gate-join-without-record"));
    }
}

fn intake(record: &Record<'_>, gate: &mut Gate) {
    for question in open_questions(record) {
        let line = line(codes::G5, "gate-intake-open")
            .with("question", Arg::Word(format!("intake-question-{question}")));
        gate.holds.push(not_yet(line, record.on));
    }
}

/// The intake questions without an answer in the newest intake, by their word.
pub(crate) fn open_questions(record: &Record<'_>) -> Vec<&'static str> {
    let newest = record.intakes.iter().map(|intake| intake.date).max();
    let asked: Vec<&&Intake> = record.intakes.iter().filter(|intake| Some(intake.date) == newest).collect();
    let answered = |question: fn(&Intake) -> bool| asked.iter().any(|intake| question(intake));
    [
        ("pain-12-months", answered(|intake| intake.shoulder_pain_12_months.is_some())),
        ("dislocation-or-slipping", answered(|intake| intake.dislocation_or_slipping.is_some())),
        ("operation", answered(|intake| intake.operation.is_some())),
        ("signs", answered(|intake| intake.signs_asked)),
    ]
    .into_iter()
    .filter_map(|(word, is_answered)| (!is_answered).then_some(word))
    .collect()
}

/// "Ever" cannot be taken back by a later "no": only a letter answers it. One that names the injury answers the
/// question as a whole, since the question named no shoulder; any other letter answers for the shoulder it covers.
fn ever(record: &Record<'_>, gate: &mut Gate) {
    for (injury, code, says, answer) in EVER {
        // A letter covers every yes before it, so the newest yes is the one that stays open longest.
        let newest =
            record.intakes.iter().filter(|intake| answer(intake) == Some(true)).map(|yes| yes.date).max();
        let Some(since) = newest.filter(|since| !record.has_letter_about(injury, *since)) else { continue };
        if let Some(side) = record.open_scope(since) {
            gate.holds.push(referred(
                Line::new(code, says, Class::Health).with("asked", Arg::Date(since)),
                side,
                since,
            ));
        }
    }
}

fn referred(line: Line, side: Option<Side>, since: Date) -> Hold {
    Hold {
        availability: Availability::OutReferred,
        side,
        line,
        since,
        review: Some(days_after(since, 7)),
        ends_by: EndsBy::Clinician,
        urgency: Some(Urgency::WithinAWeek),
    }
}

/// Pain in the year before intake holds nobody back: it says whom to watch, for the year it speaks of.
fn watch(record: &Record<'_>, gate: &mut Gate) {
    let told = record
        .intakes
        .iter()
        .filter(|intake| intake.shoulder_pain_12_months == Some(true))
        .map(|intake| intake.date)
        .max();
    if let Some(asked) = told.filter(|asked| record.on <= months_after(*asked, 12)) {
        gate.notes.push(line(codes::C6, "gate-watch-pain-history").with("asked", Arg::Date(asked)));
    }
}
