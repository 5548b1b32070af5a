//! Progression of one line: what its own record asks for, before the other arm and the whole session are heard.

use super::case::{Case, Given};
use super::judge::{Blank, Judged, Judgement, Shortfall};
use super::pattern;
use super::standing::{Lapse, Standing};
use super::step::{Next, next_step};
use super::{Action, Count, Proposal};
use crate::history::{Clock, Move, PainReport, PainWhen};
use crate::name::RungId;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// The proposal for a line that is being timed. `need` is the number of qualifying sessions it needs.
pub fn progress(case: &Case<'_>, standing: &Standing, rung: &RungId, need: u8) -> Proposal {
    let count = Count { have: standing.count.min(need), need };
    if let Some(locked) = case.exercise.rung(rung).and_then(|now| case.rung_locked(now)) {
        return down(case, rung, 0, count, locked);
    }
    if let Some(line) = too_big(case, standing, rung) {
        return down(case, rung, 1, Count { have: 0, ..count }, line);
    }
    if let Some(line) = pain_on_the_way(case, standing, rung) {
        let mut proposal = down(case, rung, 1, count, line.clone());
        proposal.alone.push(line);
        return proposal;
    }
    if let Some(fall) = pattern::fall(case.parameters(), standing) {
        let line = Line::new(codes::P10, "progress-fall", Class::Dose)
            .with("before", Arg::Time(fall.before))
            .with("now", Arg::Time(fall.now))
            .with("share", Arg::Share(fall.share));
        let mut proposal = stay(case, rung, Action::Hold, count, vec![line.clone()]);
        proposal.alone.push(line);
        return proposal;
    }
    if standing.earned.is_some() {
        return earned(case, standing, rung, count);
    }
    if 0 < count.have {
        let mut trace = vec![counted_line(standing, count)];
        let qualified = |judged: &Judged| judged.judgement == Judgement::Qualified;
        if !standing.latest().is_some_and(qualified) {
            trace.push(latest_line(case, standing, need));
        }
        trace.extend(no_up_now(case));
        trace.extend(case.bounds.careful.iter().cloned());
        return stay(case, rung, Action::Hold, count, trace);
    }
    let held = no_up_now(case);
    if let (Some((since, best)), true) = (pattern::plateau(case.parameters(), standing), held.is_empty()) {
        let line = Line::new(codes::P9, "progress-plateau", Class::Dose)
            .with("since", Arg::Date(since))
            .with("best", Arg::Time(best))
            .with("sessions", Arg::Count(i64::from(case.parameters().plateau_sessions)));
        let mut proposal = stay(case, rung, Action::Switch, count, vec![line.clone()]);
        proposal.alone.push(line);
        return proposal;
    }
    let action = if held.is_empty() { Action::Stay } else { Action::Hold };
    let mut trace = vec![latest_line(case, standing, need)];
    trace.extend(held);
    if let Some((day, why)) = standing.lapsed
        && why != Lapse::FellShort
    {
        trace.push(lapsed_line(day, why));
    }
    stay(case, rung, action, count, trace)
}

/// The swimmer's own rung, or a lower one where the calendar, the first session back or a lock asks for it.
fn stay(case: &Case<'_>, rung: &RungId, action: Action, count: Count, mut trace: Vec<Line>) -> Proposal {
    // Reasons that already stand as "no step up now" are not said twice.
    for line in &case.bounds.narrowed_by {
        if !trace.contains(line) {
            trace.push(line.clone());
        }
    }
    match case.given(rung, 0) {
        Given::Rung(given, locked) => {
            trace.extend(locked);
            case.proposal(action, Some(rung.clone()), Some(case.dose(Some(given))), count, trace)
        }
        Given::Nothing(locked) => case.all_locked(Some(rung.clone()), locked),
    }
}

fn down(case: &Case<'_>, rung: &RungId, by: usize, count: Count, why: Line) -> Proposal {
    match case.given(rung, by) {
        Given::Rung(lower, locked) => {
            let mut trace = vec![why];
            trace.extend(locked.filter(|line| !trace.contains(line)));
            trace.extend(case.bounds.narrowed_by.iter().cloned());
            let action = if lower == *rung { Action::Hold } else { Action::Down };
            case.proposal(action, Some(rung.clone()), Some(case.dose(Some(lower))), count, trace)
        }
        Given::Nothing(locked) => case.all_locked(Some(rung.clone()), locked),
    }
}

/// First sets of this rung ended too early too often.
fn too_big(case: &Case<'_>, standing: &Standing, rung: &RungId) -> Option<Line> {
    let parameters = case.parameters();
    let first = pattern::step_too_big(parameters, standing)?;
    Some(
        Line::new(codes::P8, "progress-step-too-big", Class::Dose)
            .with("first", Arg::Time(first))
            .with("least", Arg::Time(parameters.step_too_big))
            .with("sessions", Arg::Count(i64::from(parameters.step_too_big_sessions)))
            .with("from", case.named(rung))
            .with("to", case.named(&case.lower(rung, 1))),
    )
}

/// The lowest rung is too heavy: nothing is given before a person has said what comes before it.
pub fn too_heavy_at_the_bottom(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let rung = standing.rung.as_ref().filter(|rung| case.lower(rung, 1) == **rung)?;
    let line = Line { says: "progress-too-big-lowest", ..too_big(case, standing, rung)? };
    Some(case.nothing(Action::Ask, Some(rung.clone()), vec![line]))
}

/// The line's own record asks for one rung less, whatever else does.
pub fn own_way_down(case: &Case<'_>, standing: &Standing, rung: &RungId) -> Option<Line> {
    too_big(case, standing, rung).or_else(|| pain_on_the_way(case, standing, rung))
}

/// On the way back after an injury, 3 and more at any time, or 2 and more the next morning, is one step back. It is
/// answered once the swimmer stands on another rung.
fn pain_on_the_way(case: &Case<'_>, standing: &Standing, rung: &RungId) -> Option<Line> {
    let reentry = case.gate.tracks.reentry.as_ref().filter(|_| case.on_the_way)?;
    let on = case.gate.on;
    let tells = |report: &&PainReport| {
        let least = if report.when == PainWhen::NextMorning { 2 } else { 3 };
        reentry.since <= report.date
            && report.date <= on
            && report.worst().is_some_and(|worst| least <= worst.get())
    };
    let day = case.history.pains.iter().filter(tells).map(|report| report.date).max()?;
    standing.arrived.is_none_or(|arrived| arrived <= day).then(|| {
        Line::new(codes::B10, "return-step-back", Class::Dose)
            .with("date", Arg::Date(day))
            .with("from", case.named(rung))
    })
}

/// Why nothing may step up now, pain first; empty when it may.
fn no_up_now(case: &Case<'_>) -> Vec<Line> {
    let mut trace = Vec::new();
    if let Some((until, line)) = &case.gate.no_up_before
        && case.gate.on < *until
    {
        let hold =
            Line::new(codes::P11, "progress-no-up-after-pain", Class::Dose).with("until", Arg::Date(*until));
        trace.extend([hold, line.clone()]);
    }
    if !case.bounds.no_up.is_empty() {
        trace.push(Line::new(codes::P15, "progress-no-up-now", Class::Dose));
        trace.extend(case.bounds.no_up.iter().cloned());
    }
    trace
}

fn earned(case: &Case<'_>, standing: &Standing, rung: &RungId, count: Count) -> Proposal {
    let day = standing.earned.expect("the caller saw an earned step");
    let why_earned = Line::new(codes::P5, "progress-earned", Class::Dose)
        .with("date", Arg::Date(day))
        .with("rung", case.named(rung))
        .with("sets", Arg::Count(i64::from(case.parameters().sets)))
        .with("cap", Arg::Time(case.exercise.cap(case.parameters())))
        .with("need", Arg::Count(i64::from(count.need)));
    let mut held = no_up_now(case);
    if !held.is_empty() {
        held.push(
            Line::new(codes::P18, "progress-held", Class::Dose)
                .with("date", Arg::Date(day))
                .with("weeks", Arg::Count(i64::from(case.parameters().held_up_valid_weeks))),
        );
        held.push(why_earned);
        return stay(case, rung, Action::Hold, count, held);
    }
    match next_step(case, rung) {
        Next::Up(next) => step(case, standing, rung, &next, Action::Up, count, why_earned),
        Next::Switch(next) => step(case, standing, rung, &next, Action::Switch, count, why_earned),
        Next::Ceiling(line) => {
            let mut proposal = stay(case, rung, Action::Hold, count, vec![line, why_earned]);
            if let Some(dose) = &mut proposal.dose {
                dose.sets = dose.sets.min(2);
            }
            proposal
        }
    }
}

fn step(
    case: &Case<'_>,
    standing: &Standing,
    rung: &RungId,
    next: &RungId,
    action: Action,
    count: Count,
    why: Line,
) -> Proposal {
    let says = if action == Action::Up { "progress-up" } else { "progress-switch" };
    let code = if action == Action::Up { codes::P6 } else { codes::P14 };
    let line = Line::new(code, says, Class::Dose).with("from", case.named(rung)).with("to", case.named(next));
    let mut trace = vec![why, line, Line::new(codes::P7, "progress-start-over", Class::Dose)];
    if action == Action::Switch {
        trace.push(Line::new(codes::T2, "teach-new-variant", Class::Dose));
    }
    trace.extend(case.bounds.narrowed_by.iter().cloned());
    let mut proposal =
        case.proposal(action, Some(rung.clone()), Some(case.dose(Some(next.clone()))), count, trace);
    if standing.rose.is_none() {
        proposal.alone.push(Line::new(codes::P16, "alone-first-step", Class::Dose));
    }
    proposal
}

fn counted_line(standing: &Standing, count: Count) -> Line {
    let latest = standing.latest().map(|judged| judged.date);
    let line = Line::new(codes::P5, "progress-counted", Class::Dose)
        .with("have", Arg::Count(i64::from(count.have)))
        .with("need", Arg::Count(i64::from(count.need)));
    match latest {
        Some(day) => line.with("date", Arg::Date(day)),
        None => line,
    }
}

fn lapsed_line(day: jiff::civil::Date, why: Lapse) -> Line {
    let says = match why {
        Lapse::Weeks => "progress-lapsed-weeks",
        Lapse::Gap => "progress-lapsed-gap",
        Lapse::Pain => "progress-lapsed-pain",
        Lapse::FellShort => "progress-lapsed-short",
    };
    Line::new(codes::P18, says, Class::Dose).with("date", Arg::Date(day))
}

/// Why the latest session of this line does not bring a step.
fn latest_line(case: &Case<'_>, standing: &Standing, need: u8) -> Line {
    let Some(judged) = standing.latest() else {
        let says =
            if standing.arrived_by == Some(Move::Up) { "progress-new-rung" } else { "progress-no-session" };
        return Line::new(codes::P7, says, Class::Dose);
    };
    let parameters = case.parameters();
    let line = |rule, says| Line::new(rule, says, Class::Dose).with("date", Arg::Date(judged.date));
    let set = |line: Line, set: u8| line.with("set", Arg::Count(i64::from(set)));
    match &judged.judgement {
        Judgement::Qualified => {
            line(codes::P5, "progress-qualified").with("need", Arg::Count(i64::from(need)))
        }
        Judgement::Short(shortfall) => match shortfall {
            Shortfall::Form { set: number, time, fault } => set(line(codes::P4, "progress-form"), *number)
                .with("time", Arg::Time(*time))
                .with("fault", Arg::Fault(fault.clone()))
                .with("cap", Arg::Time(case.exercise.cap(parameters)))
                .with("sets", Arg::Count(i64::from(parameters.sets))),
            Shortfall::ChoseToStop { set: number, time } => {
                set(line(codes::P4, "progress-chose-to-stop"), *number).with("time", Arg::Time(*time))
            }
            Shortfall::PainEnded { set: number, time } => {
                set(line(codes::P11, "progress-pain-ended"), *number).with("time", Arg::Time(*time))
            }
            // The number itself is a health detail: the dose line says only that pain was spoken.
            Shortfall::PainSpoken { .. } => line(codes::P11, "progress-pain-spoken"),
            Shortfall::ClockShort { set: number, time, clock, tolerance } => {
                let says = match clock {
                    Clock::Hand => "progress-hand-clock",
                    Clock::Device => "progress-device-clock",
                };
                set(line(codes::P4, says), *number)
                    .with("time", Arg::Time(*time))
                    .with("cap", Arg::Time(case.exercise.cap(parameters)))
                    .with("tolerance", Arg::Time(*tolerance))
            }
            Shortfall::FaultLeft { set: number, fault } => {
                set(line(codes::P4, "progress-fault-left"), *number).with("fault", Arg::Fault(fault.clone()))
            }
            Shortfall::MissingSets { done, wanted } => line(codes::P4, "progress-missing-sets")
                .with("done", Arg::Count(i64::from(*done)))
                .with("wanted", Arg::Count(i64::from(*wanted))),
            Shortfall::OtherRung { planned, used } => line(codes::P4, "progress-other-rung")
                .with("planned", case.named(planned))
                .with("used", case.named(used)),
        },
        Judgement::Neutral(blank) => match blank {
            Blank::Incomplete { set: number } => set(line(codes::P12, "progress-incomplete"), *number),
            Blank::Unseen { set: number } => set(line(codes::P4, "progress-unseen"), *number),
            Blank::PainNotRecorded => line(codes::P4, "progress-pain-not-recorded"),
            Blank::PlannedShort => line(codes::P4, "progress-planned-short"),
            Blank::Home => line(codes::P15, "progress-home"),
            Blank::BeforeWater => line(codes::P15, "progress-before-water"),
        },
    }
}
