//! Pain as it was spoken: every time a number above zero was said, or a set or a test ended because it hurt.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use quantity::Pain;

use super::record::Record;
use crate::history::{End, Outcome, PainKind, PainReport, PainWhen};
use crate::name::ExerciseId;
use crate::protocol::{Loads, Parameters};
use crate::side::{Side, WorkingSide};

/// Pain from which it counts at any time, whatever its kind; fixed.
pub(crate) const EVENT_FROM: u8 = 3;
/// Pain from which somebody licensed must look; fixed.
pub(crate) const REFER_FROM: u8 = 5;
/// Pain from which somebody licensed must look the same day; fixed.
pub(crate) const SAME_DAY_FROM: u8 = 7;

/// One time it hurt.
#[derive(Debug, Clone)]
pub(crate) struct Moment {
    pub(crate) date: Date,
    pub(crate) when: PainWhen,
    /// Shoulders that hurt, with their number where one was spoken.
    pub(crate) sides: BTreeMap<Side, Option<Pain>>,
    /// Muscle ache on both sides, and both were answered.
    pub(crate) is_ache: bool,
    /// A set or a test ended because of it.
    pub(crate) ended: Option<Ended>,
}

/// What ended because it hurt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Ended {
    Set(ExerciseId),
    Test,
}

impl Moment {
    /// Highest number spoken.
    pub(crate) fn worst(&self) -> Option<Pain> {
        self.sides.values().copied().flatten().max()
    }

    /// It ended something and nobody wrote a number: read with caution.
    pub(crate) fn is_unnumbered(&self) -> bool {
        self.worst().is_none()
    }

    pub(crate) fn reaches(&self, number: u8) -> bool {
        self.worst().is_some_and(|worst| number <= worst.get())
    }

    /// Where the moment stands in time.
    pub(crate) fn place(&self) -> (Date, u8) {
        (self.date, self.when.order())
    }

    /// They were training again, or about to.
    pub(crate) fn is_at_training(&self) -> bool {
        matches!(self.when, PainWhen::Before | PainWhen::During(_))
    }

    /// A pain event: a set or test ended for it, one-sided or joint pain during a set, or 3 and more at any time.
    pub(crate) fn is_event(&self, parameters: &Parameters) -> bool {
        let during = matches!(self.when, PainWhen::During(_));
        self.ended.is_some()
            || self.reaches(EVENT_FROM)
            || (during && !self.is_ache && self.reaches(parameters.pain_during_stop_joint.get()))
    }
}

/// Ache is only ache when both shoulders were answered and both ache; on one side it is one-sided.
pub(crate) fn is_ache(report: &PainReport) -> bool {
    let aches = |side| report.of(side).is_some_and(|pain| Pain::NONE < pain);
    report.kind == PainKind::Ache && aches(Side::Left) && aches(Side::Right)
}

/// Every moment of pain, in order of time.
pub(crate) fn of(record: &Record<'_>) -> Vec<Moment> {
    let mut moments: Vec<Moment> = record.pains.iter().filter_map(|report| spoken(report)).collect();
    ended_sets(record, &mut moments);
    ended_tests(record, &mut moments);
    moments.sort_by_cached_key(|moment| (moment.place(), format!("{moment:?}")));
    moments
}

fn spoken(report: &PainReport) -> Option<Moment> {
    let sides: BTreeMap<Side, Option<Pain>> = Side::BOTH
        .into_iter()
        .filter_map(|side| Some((side, Some(report.of(side).filter(|pain| Pain::NONE < *pain)?))))
        .collect();
    (!sides.is_empty()).then(|| Moment {
        date: report.date,
        when: report.when.clone(),
        sides,
        is_ache: is_ache(report),
        ended: None,
    })
}

/// Sets that ended for pain. Where a number was spoken during that exercise on that day it is the set's number.
fn ended_sets(record: &Record<'_>, moments: &mut Vec<Moment>) {
    for session in &record.sessions {
        for block in session.blocks.iter().filter(|block| block.sets.iter().any(|set| set.end == End::Pain)) {
            let sides = hurting(record, &block.exercise, block.side);
            let mut has_number = false;
            for moment in moments.iter_mut().filter(|moment| moment.date == session.date) {
                let PainWhen::During(named) = &moment.when else { continue };
                let is_this_exercise = named.as_ref().is_none_or(|named| *named == block.exercise);
                let is_spoken_here =
                    moment.sides.iter().any(|(side, number)| number.is_some() && sides.contains(side));
                if is_this_exercise && is_spoken_here {
                    moment.ended = Some(Ended::Set(block.exercise.clone()));
                    has_number = true;
                }
            }
            if !has_number {
                moments.push(Moment {
                    date: session.date,
                    when: PainWhen::During(Some(block.exercise.clone())),
                    sides: sides.into_iter().map(|side| (side, None)).collect(),
                    is_ache: false,
                    ended: Some(Ended::Set(block.exercise.clone())),
                });
            }
        }
    }
}

/// The shoulders a set may have hurt: the working one, and both where the exercise loads both or nobody knows.
fn hurting(record: &Record<'_>, exercise: &ExerciseId, side: WorkingSide) -> BTreeSet<Side> {
    let loads_both =
        record.protocol.exercise(exercise).is_some_and(|exercise| exercise.loads == Loads::BothShoulders);
    match side.shoulder() {
        Some(side) if !loads_both => BTreeSet::from([side]),
        _ => BTreeSet::from(Side::BOTH),
    }
}

/// Screening tests that were stopped because they hurt. A number spoken beside it is a moment of its own and does not
/// make this one milder: a test is stopped at 3 and more.
fn ended_tests(record: &Record<'_>, moments: &mut Vec<Moment>) {
    for screening in &record.screenings {
        let mut sides = BTreeMap::new();
        for finding in screening.findings.iter().filter(|finding| finding.outcome == Outcome::NotDonePain) {
            let concerned = finding.side.map_or(Side::BOTH.to_vec(), |side| vec![side]);
            sides.extend(concerned.into_iter().map(|side| (side, None)));
        }
        if !sides.is_empty() {
            moments.push(Moment {
                date: screening.date,
                when: PainWhen::Other,
                sides,
                is_ache: false,
                ended: Some(Ended::Test),
            });
        }
    }
}
