//! The pain table: what a number holds back, what stops on the day, and for how long nothing steps up.
//!
//! Stricter than rehabilitation on purpose: the people here are uninjured, often children, and trained in a group.

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::Pain;

use super::moments::{EVENT_FROM, Ended, Moment, REFER_FROM, SAME_DAY_FROM};
use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate, Hold, PainEvent};
use crate::history::{PainWhen, Urgency};
use crate::protocol::Parameters;
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Days without steps up after joint or one-sided pain of 1-2 the next morning: common practice.
const NO_UP_AFTER_MORNING_DAYS: u16 = 7;

pub(super) fn judge(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    for side in Side::BOTH {
        one_sided(record, moments, side, gate);
        without_number(record, moments, side, gate);
        high(record, moments, side, gate);
    }
    middling(record, moments, gate);
    for moment in moments.iter().filter(|moment| moment.date == record.on) {
        stop_today(record.parameters(), moment, gate);
    }
    gate.no_up_before = no_up_before(record, moments);
    gate.pain_events = events(record, moments);
    notes(record, moments, gate);
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

/// Pain from which the whole person is out of shoulder dryland. A message, a talk or an answer after a session is
/// read like the morning or like the question before a session, whichever is stricter.
fn out_from(when: &PainWhen, parameters: &Parameters) -> u8 {
    match when {
        PainWhen::Before => parameters.pain_pre_out.get(),
        PainWhen::During(_) | PainWhen::NextMorning => EVENT_FROM,
        PainWhen::After | PainWhen::FollowUp | PainWhen::Other => {
            parameters.pain_pre_out.get().min(EVENT_FROM)
        }
    }
}

/// A person has reopened this shoulder since. On the day of the pain itself a reopening only answers what was said
/// before a session and below 3: the order of two records of one day is not known, and in doubt the pain came later.
fn is_reopened(record: &Record<'_>, moment: &Moment, side: Side) -> bool {
    let is_mild_and_early =
        matches!(moment.when, PainWhen::Before | PainWhen::NextMorning) && !moment.reaches(EVENT_FROM);
    let by_person = record.reopenings.iter().any(|reopening| {
        let is_after = moment.date < reopening.date || (moment.date == reopening.date && is_mild_and_early);
        is_after && reopening.side.is_none_or(|reopened| reopened == side)
    });
    // A licensed letter is stronger than a reopening, once it is younger than the pain.
    by_person || record.is_cleared(Some(side), days_after(moment.date, 1))
}

fn out_today(line: Line, side: Option<Side>, open: &[&Moment]) -> Option<Hold> {
    let (first, last) = (open.first()?, open.last()?);
    Some(Hold {
        availability: Availability::OutToday,
        side,
        line,
        since: first.date,
        review: Some(days_after(last.date, 1)),
        ends_by: EndsBy::Practitioner,
        urgency: None,
    })
}

fn worst_on(open: &[&Moment], side: Side) -> Pain {
    open.iter().filter_map(|moment| *moment.sides.get(&side)?).max().unwrap_or(Pain::NONE)
}

/// One-sided or joint pain of 1-2 outside a set: that shoulder is out today, unless a signed limit covers it.
fn one_sided(record: &Record<'_>, moments: &[Moment], side: Side, gate: &mut Gate) {
    let is_concerned = |moment: &&Moment| {
        !moment.is_ache
            && !matches!(moment.when, PainWhen::During(_) | PainWhen::NextMorning)
            && !moment.reaches(out_from(&moment.when, record.parameters()))
            && moment.sides.get(&side).is_some_and(Option::is_some)
            && !is_reopened(record, moment, side)
    };
    let concerned: Vec<&Moment> = moments.iter().filter(is_concerned).collect();
    let (covered, open): (Vec<&Moment>, Vec<&Moment>) = concerned.into_iter().partition(|moment| {
        let pain = moment.sides.get(&side).copied().flatten().unwrap_or(Pain::NONE);
        record.limit_allows(side, pain, moment.date) || record.limit_allows(side, pain, record.on)
    });
    if let Some(last) = covered.last().filter(|moment| moment.date == record.on) {
        let line = line(codes::E14, "gate-pain-covered")
            .with("pain", Arg::Pain(worst_on(&[last], side)))
            .with("side", Arg::Shoulder(side));
        gate.notes.push(line);
    }
    if let Some(last) = open.last() {
        let line = line(codes::E1, "gate-pain-one-sided")
            .with("pain", Arg::Pain(worst_on(&open, side)))
            .with("side", Arg::Shoulder(side))
            .with("last", Arg::Date(last.date));
        gate.holds.extend(out_today(line, Some(side), &open));
    }
}

/// 3 and more at any time: the whole person is out of shoulder dryland.
fn middling(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    let open: Vec<&Moment> = moments
        .iter()
        .filter(|moment| moment.reaches(out_from(&moment.when, record.parameters())))
        .filter(|moment| !moment.sides.keys().all(|side| is_reopened(record, moment, *side)))
        .collect();
    if let (Some(worst), Some(last)) = (open.iter().filter_map(|moment| moment.worst()).max(), open.last()) {
        let line = line(codes::E4, "gate-pain-out")
            .with("pain", Arg::Pain(worst))
            .with("last", Arg::Date(last.date));
        gate.holds.extend(out_today(line, None, &open));
    }
}

/// 5 and more: only a clinician ends it.
fn high(record: &Record<'_>, moments: &[Moment], side: Side, gate: &mut Gate) {
    let number = |moment: &Moment| moment.sides.get(&side).copied().flatten().map_or(0, Pain::get);
    let open: Vec<&Moment> = moments
        .iter()
        .filter(|moment| REFER_FROM <= number(moment) && !record.is_cleared(Some(side), moment.date))
        .collect();
    let Some(first) = open.first() else { return };
    let worst = worst_on(&open, side);
    let (urgency, days) =
        if SAME_DAY_FROM <= worst.get() { (Urgency::SameDay, 1) } else { (Urgency::WithinAWeek, 7) };
    gate.holds.push(Hold {
        availability: Availability::OutReferred,
        side: Some(side),
        line: line(codes::E5, "gate-pain-high")
            .with("pain", Arg::Pain(worst))
            .with("side", Arg::Shoulder(side))
            .with("first", Arg::Date(first.date)),
        since: first.date,
        review: Some(days_after(first.date, days)),
        ends_by: EndsBy::Clinician,
        urgency: Some(urgency),
    });
}

/// Ended for pain, and nobody wrote how much: out until a number or a person says otherwise.
fn without_number(record: &Record<'_>, moments: &[Moment], side: Side, gate: &mut Gate) {
    let open: Vec<&Moment> = moments
        .iter()
        .filter(|moment| moment.is_unnumbered() && moment.sides.contains_key(&side))
        .filter(|moment| !is_reopened(record, moment, side))
        .collect();
    if let Some(last) = open.last() {
        let says = match last.ended {
            Some(Ended::Test) => "gate-test-ended-for-pain",
            _ => "gate-set-ended-for-pain",
        };
        let mut line =
            line(codes::E6, says).with("side", Arg::Shoulder(side)).with("last", Arg::Date(last.date));
        if let Some(Ended::Set(exercise)) = &last.ended {
            line = line.with("exercise", Arg::Exercise(exercise.clone()));
        }
        gate.holds.extend(out_today(line, Some(side), &open));
    }
}

fn stop_today(parameters: &Parameters, moment: &Moment, gate: &mut Gate) {
    let stop = &mut gate.stop_today;
    stop.session |= moment.reaches(REFER_FROM);
    stop.all_shoulder |= moment.reaches(out_from(&moment.when, parameters)) || moment.is_unnumbered();
    if let Some(Ended::Set(exercise)) = &moment.ended {
        stop.exercises.insert(exercise.clone());
    }
    if let PainWhen::During(named) = &moment.when {
        let stops = !moment.is_ache && moment.reaches(parameters.pain_during_stop_joint.get());
        match named {
            Some(exercise) if stops => {
                stop.exercises.insert(exercise.clone());
            }
            None if stops && moment.ended.is_none() => stop.all_shoulder = true,
            _ => {}
        }
    }
}

/// The first day on which a step up may be given again, as far as pain decides it; the latest reason wins.
fn no_up_before(record: &Record<'_>, moments: &[Moment]) -> Option<(Date, Line)> {
    let parameters = record.parameters();
    moments
        .iter()
        .map(|moment| {
            let is_event = moment.is_event(parameters);
            let (days, weight, says, code) = if is_event {
                (parameters.no_up_after_pain_days, 3, "gate-no-up-event", codes::E9)
            } else if moment.is_ache {
                (1, 0, "gate-no-up-ache", codes::E2)
            } else if moment.when == PainWhen::NextMorning {
                (NO_UP_AFTER_MORNING_DAYS, 1, "gate-no-up-morning", codes::E10)
            } else {
                (parameters.no_up_after_pain_days, 2, "gate-no-up-one-sided", codes::E9)
            };
            (days_after(moment.date, days), weight, moment.date, says, code)
        })
        .filter(|(until, ..)| record.on < *until)
        .max()
        .map(|(until, _, date, says, code)| {
            (until, line(code, says).with("date", Arg::Date(date)).with("until", Arg::Date(until)))
        })
}

/// Pain events, oldest first. Answers to follow-ups belong to the event they follow; a new one begins on a later
/// day, after a pain-free answer or when they were training again.
fn events(record: &Record<'_>, moments: &[Moment]) -> Vec<PainEvent> {
    let mut events: Vec<PainEvent> = Vec::new();
    let mut began = None;
    for moment in moments.iter().filter(|moment| moment.is_event(record.parameters())) {
        let is_new = match began {
            None => true,
            Some((date, _)) if moment.date == date => false,
            Some(place) => moment.is_at_training() || is_pain_free_between(record, place, moment.place()),
        };
        let sides: BTreeSet<Side> = moment.sides.keys().copied().collect();
        match events.last_mut() {
            Some(event) if !is_new => {
                event.sides.extend(sides);
                event.worst = event.worst.max(moment.worst());
            }
            _ => {
                began = Some(moment.place());
                events.push(PainEvent { date: moment.date, sides, worst: moment.worst() });
            }
        }
    }
    events
}

/// Days of pain events, follow-ups included, in order.
pub(super) fn days_of_events(record: &Record<'_>, moments: &[Moment]) -> Vec<Date> {
    moments.iter().filter(|moment| moment.is_event(record.parameters())).map(|moment| moment.date).collect()
}

/// Somebody said "no pain" after the one and before the other; half an answer is enough to say that a new pain is new.
pub(super) fn is_pain_free_between(record: &Record<'_>, after: (Date, u8), before: (Date, u8)) -> bool {
    record.pains.iter().any(|report| {
        let place = (report.date, report.when.order());
        let mild = report.worst().is_some_and(|worst| {
            worst == Pain::NONE || (worst.get() <= 1 && super::moments::is_ache(report))
        });
        after < place && place < before && mild
    })
}

fn notes(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    for moment in moments.iter().filter(|moment| moment.date == record.on && moment.is_ache) {
        if let Some(pain) = moment.worst().filter(|worst| worst.get() < EVENT_FROM) {
            gate.notes.push(line(codes::E2, "gate-ache-both-sides").with("pain", Arg::Pain(pain)));
        }
    }
    let stops_from = record.parameters().pain_during_stop_joint.get();
    for moment in moments.iter().filter(|moment| moment.date == record.on && !moment.reaches(EVENT_FROM)) {
        let PainWhen::During(Some(exercise)) = &moment.when else { continue };
        let stops = !moment.is_ache && moment.reaches(stops_from);
        if let Some(pain) = moment.worst().filter(|_| stops) {
            let line = line(codes::E3, "gate-pain-in-set")
                .with("pain", Arg::Pain(pain))
                .with("exercise", Arg::Exercise(exercise.clone()));
            gate.notes.push(line);
        }
    }
    let window = record.parameters().repeat_event_window_days;
    let latest = twice(record, moments).pop().filter(|(_, second)| record.on <= days_after(*second, window));
    if let Some((first, second)) = latest {
        gate.notes.push(
            line(codes::E13, "gate-pain-twice")
                .with("first", Arg::Date(first))
                .with("second", Arg::Date(second)),
        );
    }
}

/// Pairs of neighbouring days with one-sided or joint pain below 3, no further apart than the window.
pub(crate) fn twice(record: &Record<'_>, moments: &[Moment]) -> Vec<(Date, Date)> {
    let mut days: Vec<Date> = moments
        .iter()
        .filter(|moment| !moment.is_ache && !moment.is_unnumbered() && !moment.reaches(EVENT_FROM))
        .map(|moment| moment.date)
        .collect();
    days.dedup();
    days.windows(2)
        .filter_map(|pair| {
            let &[first, second] = pair else { return None };
            let window = record.parameters().repeat_event_window_days;
            (second <= days_after(first, window)).then_some((first, second))
        })
        .collect()
}
