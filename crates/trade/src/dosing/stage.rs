//! Before progression: the way back after an injury or an absence, teaching, and the calibration set.

use jiff::civil::Date;

use super::case::Case;
use super::standing::Standing;
use super::start::{row_for, rung_for};
use super::{Action, Count, Dose, Proposal};
use crate::history::{Move, days_between};
use crate::name::RungId;
use crate::protocol::Counting;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// Away for this many days means the exercise is taught again; common practice (eight weeks).
const TEACH_AGAIN_DAYS: i32 = 56;

/// The proposal of an early stage, where the line is in one.
pub fn early(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    if case.exercise.counting == Counting::Plain {
        return Some(plain(case));
    }
    clinicians_plan(case, standing)
        .or_else(|| injured_without_letter(case, standing))
        .or_else(|| back_from_injury(case, standing))
        .or_else(|| back_from_absence(case, standing))
        .or_else(|| teaching(case, standing))
        .or_else(|| calibration(case, standing))
}

fn plain(case: &Case<'_>) -> Proposal {
    let line = Line::new(codes::D1, "dose-plain", Class::Dose);
    let dose = Dose { timed: false, ..case.dose(None) };
    case.proposal(Action::Stay, None, Some(dose), Count { have: 0, need: 0 }, vec![line])
}

fn no_count(case: &Case<'_>) -> Count {
    Count { have: 0, need: case.need(true) }
}

/// After a dislocation or an operation the tool keeps the clinician's plan; it writes none.
fn clinicians_plan(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let reentry = case.gate.tracks.reentry.as_ref()?;
    let concerns = reentry.by_clinicians_plan && !case.shoulders().is_empty();
    concerns.then(|| {
        let mut trace = vec![Line::new(codes::B7, "return-by-clinicians-plan", Class::Dose)];
        trace.extend(reentry.open_conditions.iter().cloned());
        case.nothing(Action::Ask, standing.rung.clone(), trace)
    })
}

fn injured_without_letter(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let (gap, _) = case.gap.as_ref()?;
    let injured = gap.column == super::absence::Column::Injured && case.gate.tracks.reentry.is_none();
    (injured && !case.shoulders().is_empty()).then(|| {
        let line = Line::new(codes::B5, "return-needs-letter", Class::Dose)
            .with("days", Arg::Count(i64::from(gap.days)));
        case.nothing(Action::Ask, standing.rung.clone(), vec![line])
    })
}

/// Weeks one and two: two rungs lower, 2 x 45 s; week three: 2 x 60 s; from week four the careful count.
fn back_from_injury(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let reentry = case.gate.tracks.reentry.as_ref()?;
    let rung = standing.rung.as_ref()?;
    let before_letter = standing.last_session.is_none_or(|day| day < reentry.since)
        && standing.arrived_by != Some(Move::Restart);
    if case.shoulders().is_empty() || !before_letter {
        return None;
    }
    let lower = case.lower(rung, 2);
    let (given, locked) = case.allowed_at_or_below(&lower)?;
    let mut trace = vec![
        Line::new(codes::B6, "return-two-lower", Class::Dose)
            .with("week", Arg::Count(i64::from(reentry.week)))
            .with("from", case.named(rung))
            .with("to", case.named(&given)),
    ];
    trace.extend(locked);
    trace.extend(reentry.open_conditions.iter().cloned());
    trace.extend(case.bounds.narrowed_by.iter().cloned());
    Some(case.proposal(
        Action::Restart,
        Some(rung.clone()),
        Some(case.dose(Some(given))),
        no_count(case),
        trace,
    ))
}

fn back_from_absence(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let (gap, answer) = case.gap.as_ref()?;
    let rung = standing.rung.as_ref()?;
    let changes_anything = answer.down != 0 || answer.sets.is_some() || answer.as_new || answer.reteach;
    if !changes_anything {
        return None;
    }
    let mut trace = case.bounds.narrowed_by.clone();
    if answer.as_new {
        let line = Line::new(answer.rule, "absence-as-new", Class::Dose)
            .with("days", Arg::Count(i64::from(gap.days)));
        trace.insert(0, line);
        let to = start_rung(case).unwrap_or_else(|| rung.clone());
        let (given, locked) = case.allowed_at_or_below(&to)?;
        trace.extend(locked);
        let dose = case.teaching_dose(Some(given));
        return Some(case.proposal(Action::Teach, Some(rung.clone()), Some(dose), no_count(case), trace));
    }
    // Once a person has confirmed the way down for this gap, the open gap must not take another rung.
    let confirmed =
        standing.arrived_by == Some(Move::Restart) && standing.arrived.is_some_and(|day| gap.last < day);
    let down = if confirmed { 0 } else { answer.down };
    let lower = case.lower(rung, down);
    let (given, locked) = case.allowed_at_or_below(&lower)?;
    let says = if down == 0 { "absence-same-rung" } else { "absence-rungs-down" };
    let line = Line::new(answer.rule, says, Class::Dose)
        .with("days", Arg::Count(i64::from(gap.days)))
        .with("down", Arg::Count(i64::try_from(down).unwrap_or(i64::MAX)))
        .with("from", case.named(rung))
        .with("to", case.named(&given));
    trace.insert(0, line);
    trace.extend(locked);
    let dose = case.dose(Some(given));
    Some(case.proposal(Action::Restart, Some(rung.clone()), Some(dose), no_count(case), trace))
}

fn start_rung(case: &Case<'_>) -> Option<RungId> {
    let row = row_for(case.protocol, &case.history.swimmer, case.gate.on)?;
    rung_for(row, case.exercise, case.gate.tracks.hypermobile.is_some())
}

/// Untimed until taught twice and signed off; again after eight weeks away.
fn teaching(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let on = case.gate.on;
    let exercise = &case.exercise.id;
    let forgotten_before: Option<Date> =
        standing.last_session.filter(|last| TEACH_AGAIN_DAYS < days_between(*last, on));
    let counts = |day: Date| day <= on && forgotten_before.is_none_or(|last| last < day);
    let signed = case.history.sign_offs.iter().any(|sign| sign.exercise == *exercise && counts(sign.date));
    let taught = case
        .history
        .taught
        .iter()
        .filter(|taught| taught.exercise == *exercise && taught.date < on && counts(taught.date))
        .count();
    let wanted = usize::from(case.parameters().teaching_sessions);
    let has_timed = standing.timed_ever != 0 && forgotten_before.is_none();
    let line = if forgotten_before.is_some() && !signed {
        Line::new(codes::T3, "teach-again", Class::Dose)
    } else if !signed {
        Line::new(codes::T1, "teach-not-signed-off", Class::Dose)
    } else if !has_timed && taught < wanted {
        Line::new(codes::T2, "teach-first-sessions", Class::Dose)
    } else {
        return None;
    };
    let line = line
        .with("taught", Arg::Count(i64::try_from(taught).unwrap_or(i64::MAX)))
        .with("wanted", Arg::Count(i64::try_from(wanted).unwrap_or(i64::MAX)));
    let rung = match &standing.rung {
        Some(rung) => Some(rung.clone()),
        None => match start_rung(case) {
            Some(rung) => Some(rung),
            None => return Some(no_start(case)),
        },
    };
    let given = rung.and_then(|rung| case.allowed_at_or_below(&rung).map(|(given, _)| given));
    let dose = case.teaching_dose(given);
    Some(case.proposal(Action::Teach, standing.rung.clone(), Some(dose), no_count(case), vec![line]))
}

fn no_start(case: &Case<'_>) -> Proposal {
    let age = i64::from(case.history.swimmer.age_on(case.gate.on));
    let line = Line::new(codes::D5, "start-not-written", Class::Dose).with("age", Arg::Count(age));
    case.nothing(Action::Ask, None, vec![line])
}

/// The first timed set, and what it says.
fn calibration(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let parameters = case.parameters();
    let [shortest, longest] = parameters.calibration_seconds;
    let Some(rung) = &standing.rung else {
        let Some(start) = start_rung(case) else { return Some(no_start(case)) };
        let (given, locked) = case.allowed_at_or_below(&start)?;
        let mut trace = vec![
            Line::new(codes::D5, "start-calibrate", Class::Dose)
                .with("rung", case.named(&given))
                .with("shortest", Arg::Time(shortest))
                .with("longest", Arg::Time(longest)),
        ];
        trace.extend(locked);
        trace.extend(case.bounds.narrowed_by.iter().cloned());
        let mut proposal = case.proposal(
            Action::Calibrate,
            None,
            Some(case.calibration_dose(Some(given))),
            no_count(case),
            trace,
        );
        proposal.alone.push(Line::new(codes::P16, "alone-first-step", Class::Dose));
        return Some(proposal);
    };
    if standing.timed_ever == 0 {
        let line = Line::new(codes::D5, "start-calibrate", Class::Dose)
            .with("rung", case.named(rung))
            .with("shortest", Arg::Time(shortest))
            .with("longest", Arg::Time(longest));
        let dose = case.calibration_dose(Some(rung.clone()));
        return Some(case.proposal(
            Action::Calibrate,
            Some(rung.clone()),
            Some(dose),
            no_count(case),
            vec![line],
        ));
    }
    if !standing.is_calibrating() {
        return None;
    }
    let first = standing.latest().and_then(|judged| judged.first)?;
    let short = first < shortest && standing.latest().is_some_and(|judged| judged.first_fell_short);
    let lower = case.lower(rung, 1);
    let line = |says| {
        Line::new(codes::D6, says, Class::Dose)
            .with("time", Arg::Time(first))
            .with("shortest", Arg::Time(shortest))
            .with("longest", Arg::Time(longest))
    };
    if short && lower != *rung {
        let dose = case.calibration_dose(Some(lower));
        let trace = vec![line("calibration-one-lower")];
        return Some(case.proposal(Action::Down, Some(rung.clone()), Some(dose), no_count(case), trace));
    }
    let mut trace = vec![line("calibration-placed")];
    trace.extend(case.bounds.narrowed_by.iter().cloned());
    let dose = case.dose(Some(rung.clone()));
    Some(case.proposal(Action::Stay, Some(rung.clone()), Some(dose), no_count(case), trace))
}
