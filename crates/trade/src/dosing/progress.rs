//! Progression of one line: what its own record asks for, before the other arm and the whole session are heard.

use super::case::Case;
use super::judge::{Blank, Judgement, Shortfall};
use super::pattern;
use super::standing::{Lapse, Standing};
use super::step::{Next, next_step};
use super::{Action, Count, Proposal};
use crate::history::Move;
use crate::name::RungId;
use crate::rule::dose_rules as codes;
use crate::trace::{Arg, Class, Line};

/// The proposal for a line that is being timed. `need` is the number of qualifying sessions it needs.
pub fn progress(case: &Case<'_>, standing: &Standing, rung: &RungId, need: u8) -> Proposal {
    let count = Count { have: standing.count.min(need), need };
    let stay = |action: Action, mut trace: Vec<Line>| {
        trace.extend(case.bounds.narrowed_by.iter().cloned());
        case.proposal(action, Some(rung.clone()), Some(dose_here(case, rung)), count, trace)
    };
    if let Some(locked) = case.exercise.rung(rung).and_then(|now| case.rung_locked(now)) {
        return below_a_locked_rung(case, rung, count, locked);
    }
    if let Some(first) = pattern::step_too_big(case.parameters(), standing) {
        return step_down(case, rung, count, first);
    }
    if standing.earned.is_some() {
        return earned(case, standing, rung, count);
    }
    if 0 < count.have {
        let mut trace = vec![counted_line(standing, count)];
        trace.extend(case.bounds.careful.iter().cloned());
        return stay(Action::Hold, trace);
    }
    if let Some(fall) = pattern::fall(case.parameters(), standing) {
        let line = Line::new(codes::P10, "progress-fall", Class::Dose)
            .with("before", Arg::Time(fall.before))
            .with("now", Arg::Time(fall.now))
            .with("share", Arg::Share(fall.share));
        let mut proposal = stay(Action::Hold, vec![line.clone()]);
        proposal.alone.push(line);
        return proposal;
    }
    if let Some((since, best)) = pattern::plateau(case.parameters(), standing) {
        let line = Line::new(codes::P9, "progress-plateau", Class::Dose)
            .with("since", Arg::Date(since))
            .with("best", Arg::Time(best))
            .with("sessions", Arg::Count(i64::from(case.parameters().plateau_sessions)));
        let mut proposal = stay(Action::Switch, vec![line.clone()]);
        proposal.alone.push(line);
        return proposal;
    }
    let mut trace = vec![latest_line(case, standing, need)];
    if let Some((day, why)) = standing.lapsed
        && why != Lapse::FellShort
    {
        trace.push(lapsed_line(day, why));
    }
    stay(Action::Stay, trace)
}

/// The rung for this session: the swimmer's own, or lower where the calendar asks for it.
fn dose_here(case: &Case<'_>, rung: &RungId) -> super::Dose {
    case.dose(Some(case.lower(rung, case.bounds.rungs_lower)))
}

fn below_a_locked_rung(case: &Case<'_>, rung: &RungId, count: Count, locked: Line) -> Proposal {
    match case.allowed_at_or_below(rung) {
        Some((lower, _)) => {
            case.proposal(Action::Down, Some(rung.clone()), Some(case.dose(Some(lower))), count, vec![locked])
        }
        None => case.nothing(Action::LeaveOut, Some(rung.clone()), vec![locked]),
    }
}

fn step_down(case: &Case<'_>, rung: &RungId, count: Count, first: quantity::HoldTime) -> Proposal {
    let parameters = case.parameters();
    let lower = case.lower(rung, 1);
    let line = Line::new(codes::P8, "progress-step-too-big", Class::Dose)
        .with("first", Arg::Time(first))
        .with("least", Arg::Time(parameters.step_too_big))
        .with("sessions", Arg::Count(i64::from(parameters.step_too_big_sessions)))
        .with("from", case.named(rung))
        .with("to", case.named(&lower));
    let count = Count { have: 0, ..count };
    if lower == *rung {
        let line = Line { says: "progress-too-big-lowest", ..line };
        return case.nothing(Action::Ask, Some(rung.clone()), vec![line]);
    }
    case.proposal(Action::Down, Some(rung.clone()), Some(case.dose(Some(lower))), count, vec![line])
}

fn earned(case: &Case<'_>, standing: &Standing, rung: &RungId, count: Count) -> Proposal {
    let day = standing.earned.expect("the caller saw an earned step");
    let stay = |action: Action, trace: Vec<Line>| {
        case.proposal(action, Some(rung.clone()), Some(dose_here(case, rung)), count, trace)
    };
    let why_earned = Line::new(codes::P5, "progress-earned", Class::Dose)
        .with("date", Arg::Date(day))
        .with("rung", case.named(rung))
        .with("sets", Arg::Count(i64::from(case.parameters().sets)))
        .with("cap", Arg::Time(case.exercise.cap(case.parameters())))
        .with("need", Arg::Count(i64::from(count.need)));
    // Pain outranks the calendar in the telling, though either is enough.
    if let Some((until, line)) = &case.gate.no_up_before
        && case.gate.on < *until
    {
        let hold =
            Line::new(codes::P11, "progress-no-up-after-pain", Class::Dose).with("until", Arg::Date(*until));
        return stay(Action::Hold, vec![hold, line.clone(), why_earned]);
    }
    if !case.bounds.no_up.is_empty() {
        let held = Line::new(codes::P18, "progress-held", Class::Dose)
            .with("date", Arg::Date(day))
            .with("weeks", Arg::Count(i64::from(case.parameters().held_up_valid_weeks)));
        let mut trace = vec![Line::new(codes::P15, "progress-no-up-now", Class::Dose)];
        trace.extend(case.bounds.no_up.iter().cloned());
        trace.push(held);
        trace.push(why_earned);
        return stay(Action::Hold, trace);
    }
    match next_step(case, rung) {
        Next::Up(next) => step(case, standing, rung, &next, Action::Up, count, why_earned),
        Next::Switch(next) => step(case, standing, rung, &next, Action::Switch, count, why_earned),
        Next::Ceiling(line) => {
            let mut proposal = stay(Action::Hold, vec![line, why_earned]);
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
    trace.extend(case.bounds.narrowed_by.iter().cloned());
    let mut proposal =
        case.proposal(action, Some(rung.clone()), Some(case.dose(Some(next.clone()))), count, trace);
    if !standing.has_stepped {
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
            Shortfall::HandClock { set: number, time, tolerance } => {
                set(line(codes::P4, "progress-hand-clock"), *number)
                    .with("time", Arg::Time(*time))
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
