//! Before progression: teaching, the way back after an injury or an absence, and the calibration set.

use jiff::civil::Date;

use super::case::{Case, Given};
use super::own::week_back;
use super::progress::{own_way_down, too_heavy_at_the_bottom};
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
/// Rungs below the one before an injury.
const AFTER_INJURY: usize = 2;

/// The proposal of an early stage, where the line is in one. `need` is the number of qualifying sessions it needs.
pub fn early(case: &Case<'_>, standing: &Standing, need: u8) -> Option<Proposal> {
    if case.exercise.counting == Counting::Plain {
        return Some(plain(case));
    }
    if let Some(nothing) = clinicians_plan(case, standing)
        .or_else(|| injured_without_letter(case, standing))
        .or_else(|| too_heavy_at_the_bottom(case, standing))
    {
        return Some(nothing);
    }
    let back = match way_back(case, standing) {
        Some(Ok(back)) => Some(back),
        Some(Err(nothing)) => return Some(nothing),
        None => None,
    };
    if let Some(line) = still_taught(case, standing) {
        return Some(teach(case, standing, back, line, need));
    }
    match back {
        Some(back) if back.from_the_start => {
            Some(calibrate(case, standing, &back.to, (back.trace, back.locked), need))
        }
        Some(back) => Some(restart(case, standing, back, need)),
        None => calibration(case, standing, need),
    }
}

fn plain(case: &Case<'_>) -> Proposal {
    let line = Line::new(codes::D1, "dose-plain", Class::Dose);
    let dose = Dose { timed: false, ..case.dose(None) };
    case.proposal(Action::Stay, None, Some(dose), Count { have: 0, need: 0 }, vec![line])
}

fn no_count(case: &Case<'_>, need: u8) -> Count {
    Count { have: 0, need: case.need(false).max(need) }
}

/// After a dislocation or an operation the tool keeps the clinician's plan; it writes none.
fn clinicians_plan(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let reentry = case.gate.tracks.reentry.as_ref()?;
    let shoulders = case.shoulders();
    let concerns = !shoulders.is_empty() && reentry.side.is_none_or(|injured| shoulders.contains(&injured));
    (concerns && reentry.by_clinicians_plan).then(|| {
        let mut trace = vec![Line::new(codes::B7, "return-by-clinicians-plan", Class::Dose)];
        trace.extend(reentry.open_conditions.iter().cloned());
        case.nothing(Action::Ask, standing.rung.clone(), trace)
    })
}

fn injured_without_letter(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let days = case.injured_days.filter(|_| case.gate.tracks.reentry.is_none())?;
    (!case.shoulders().is_empty()).then(|| {
        let line = Line::new(codes::B5, "return-needs-letter", Class::Dose)
            .with("days", Arg::Count(i64::from(days)));
        case.nothing(Action::Ask, standing.rung.clone(), vec![line])
    })
}

/// The injured shoulder itself comes back by its letter, which says how; the absence table teaches nothing again.
fn is_back_by_letter(case: &Case<'_>, standing: &Standing) -> bool {
    case.gate.tracks.reentry.as_ref().is_some_and(|reentry| {
        case.on_the_way
            && standing.last_session.is_none_or(|day| day < reentry.since)
            && reentry.side.is_none_or(|injured| case.shoulders().contains(&injured))
    })
}

/// Where a line begins again.
struct Back {
    to: RungId,
    trace: Vec<Line>,
    locked: Option<Line>,
    /// Like a newcomer, with a calibration set.
    from_the_start: bool,
}

/// The way back that this line has before it; the more cautious one where an injury and an absence both ask.
fn way_back(case: &Case<'_>, standing: &Standing) -> Option<Result<Back, Proposal>> {
    let rung = standing.rung.as_ref()?;
    // Once a person has decided where to begin again, the same reason must not take another rung.
    let mut by = 0;
    let mut trace = Vec::new();
    // A line that has not been placed yet begins with a calibration set after a way back as well.
    let begun = standing.sessions.is_empty() && standing.arrived_by == Some(Move::Start);
    let mut from_the_start = begun || standing.is_calibrating();
    let mut as_new = false;
    let mut asked = false;
    if let Some(reentry) = case.gate.tracks.reentry.as_ref().filter(|_| case.on_the_way)
        && standing.last_session.is_none_or(|day| day < reentry.since)
    {
        let confirmed = standing.moved.is_some_and(|(day, _)| reentry.since <= day);
        by = if confirmed { 0 } else { AFTER_INJURY };
        asked = true;
        let week = week_back(case.history, reentry, case.gate.on);
        trace.push(
            Line::new(codes::B6, "return-two-lower", Class::Dose)
                .with("week", Arg::Count(i64::from(week)))
                .with("from", case.named(rung)),
        );
        trace.extend(reentry.open_conditions.iter().cloned());
    }
    if let Some((gap, answer)) = case.gap.as_ref().filter(|(_, answer)| !answer.is_nothing()) {
        let down = answer.down;
        let says = match (answer.as_new, down) {
            (true, _) => "absence-as-new",
            (false, 0) => "absence-same-rung",
            (false, _) => "absence-rungs-down",
        };
        let line = Line::new(answer.rule, says, Class::Dose)
            .with("days", Arg::Count(i64::from(gap.days)))
            .with("from", case.named(rung));
        trace.insert(if asked && down <= by { trace.len() } else { 0 }, line);
        by = by.max(down);
        from_the_start |= answer.as_new;
        as_new = answer.as_new;
        asked = true;
    }
    if !asked {
        return None;
    }
    let short = too_short(case, standing);
    if let Some(line) = short.or_else(|| own_way_down(case, standing, rung)) {
        trace.push(line);
        by = by.max(1);
    }
    let mut wanted = case.lower(rung, by.max(case.bounds.rungs_lower));
    if as_new
        && let Some(start) = start_rung(case)
        && case.exercise.place_of(&start) < case.exercise.place_of(&wanted)
    {
        wanted = start;
    }
    Some(match case.open_at_or_below(&wanted) {
        Given::Rung(to, locked) => {
            let says_where = ["return-two-lower", "absence-same-rung", "absence-rungs-down"];
            for line in trace.iter_mut().filter(|line| says_where.contains(&line.says)) {
                line.args.push(("to", case.named(&to)));
            }
            trace.extend(case.bounds.narrowed_by.iter().cloned());
            Ok(Back { to, trace, locked, from_the_start })
        }
        Given::Nothing(locked) => Err(case.all_locked(Some(rung.clone()), locked)),
    })
}

fn restart(case: &Case<'_>, standing: &Standing, back: Back, need: u8) -> Proposal {
    let mut trace = back.trace;
    trace.extend(back.locked);
    let dose = case.dose(Some(back.to));
    case.proposal(Action::Restart, standing.rung.clone(), Some(dose), no_count(case, need), trace)
}

fn start_rung(case: &Case<'_>) -> Option<RungId> {
    let row = row_for(case.protocol, &case.history.swimmer, case.gate.on)?;
    rung_for(row, case.exercise, case.gate.tracks.hypermobile.is_some())
}

/// Why the line is taught, untimed: until taught twice and signed off; again after eight weeks away from it, after an
/// absence that starts it over, and once more after a shorter one.
fn still_taught(case: &Case<'_>, standing: &Standing) -> Option<Line> {
    let on = case.gate.on;
    let exercise = &case.exercise.id;
    let answer = case.gap.as_ref();
    let started_over = answer.filter(|(_, answer)| answer.as_new).map(|(gap, _)| gap.last);
    let practised = |day: &Date| *day < on;
    let of_this = case.history.taught.iter().filter(|taught| taught.exercise == *exercise);
    let last_taught = of_this.map(|taught| taught.date).filter(practised).max();
    let forgotten =
        standing.last_session.max(last_taught).filter(|last| TEACH_AGAIN_DAYS < days_between(*last, on));
    let anew = started_over.max(forgotten);
    let counts = |day: Date| day <= on && anew.is_none_or(|last| last < day);
    let signed = case.history.sign_offs.iter().any(|sign| sign.exercise == *exercise && counts(sign.date));
    let taught_since = |since: Option<Date>| {
        let taught = case.history.taught.iter().filter(|taught| taught.exercise == *exercise);
        taught.filter(|taught| taught.date < on && since.is_none_or(|since| since < taught.date)).count()
    };
    let taught = taught_since(anew);
    let wanted = usize::from(case.parameters().teaching_sessions);
    let has_timed = standing.timed_ever != 0 && anew.is_none();
    let reteach = answer.filter(|(gap, answer)| {
        answer.reteach && !is_back_by_letter(case, standing) && taught_since(Some(gap.last)) == 0
    });
    let line = if forgotten.is_some() && !signed {
        Line::new(codes::T3, "teach-again", Class::Dose)
    } else if !signed {
        Line::new(codes::T1, "teach-not-signed-off", Class::Dose)
    } else if !has_timed && taught < wanted {
        Line::new(codes::T2, "teach-first-sessions", Class::Dose)
    } else if let Some((_, answer)) = reteach {
        Line::new(answer.rule, "absence-teach-once", Class::Dose)
    } else {
        return None;
    };
    Some(
        line.with("taught", Arg::Count(i64::try_from(taught).unwrap_or(i64::MAX)))
            .with("wanted", Arg::Count(i64::try_from(wanted).unwrap_or(i64::MAX))),
    )
}

fn teach(case: &Case<'_>, standing: &Standing, back: Option<Back>, line: Line, need: u8) -> Proposal {
    let from = standing.rung.clone();
    let (to, mut trace, locked) = match back {
        Some(back) => (back.to, back.trace, back.locked),
        None => {
            let Some(rung) = from.clone().or_else(|| start_rung(case)) else { return no_start(case) };
            match case.given(&rung, 0) {
                Given::Rung(to, locked) => (to, Vec::new(), locked),
                Given::Nothing(locked) => return case.all_locked(from, locked),
            }
        }
    };
    // A way back speaks first: it says why the exercise is taught again.
    trace.insert(trace.len().min(1), line);
    trace.extend(locked);
    let dose = case.teaching_dose(Some(to));
    case.proposal(Action::Teach, from, Some(dose), no_count(case, need), trace)
}

fn no_start(case: &Case<'_>) -> Proposal {
    let age = i64::from(case.history.swimmer.age_on(case.gate.on));
    let line = Line::new(codes::D5, "start-not-written", Class::Dose).with("age", Arg::Count(age));
    case.nothing(Action::Ask, None, vec![line])
}

fn calibrate(
    case: &Case<'_>,
    standing: &Standing,
    to: &RungId,
    (why, locked): (Vec<Line>, Option<Line>),
    need: u8,
) -> Proposal {
    let [shortest, longest] = case.parameters().calibration_seconds;
    let dose = case.calibration_dose(Some(to.clone()));
    let mut trace = vec![
        Line::new(codes::D5, "start-calibrate", Class::Dose)
            .with("rung", case.named(to))
            .with("shortest", Arg::Time(shortest.min(dose.cap)))
            .with("longest", Arg::Time(longest.min(dose.cap))),
    ];
    trace.extend(why);
    trace.extend(locked);
    let mut proposal =
        case.proposal(Action::Calibrate, standing.rung.clone(), Some(dose), no_count(case, need), trace);
    proposal.alone.push(Line::new(codes::P16, "alone-first-step", Class::Dose));
    proposal
}

/// The first timed set, and what it says.
fn calibration(case: &Case<'_>, standing: &Standing, need: u8) -> Option<Proposal> {
    let narrowed = || case.bounds.narrowed_by.clone();
    let begin = |rung: &RungId| match case.given(rung, 0) {
        Given::Rung(to, locked) => calibrate(case, standing, &to, (narrowed(), locked), need),
        Given::Nothing(locked) => case.all_locked(standing.rung.clone(), locked),
    };
    let Some(rung) = &standing.rung else {
        return Some(start_rung(case).map_or_else(|| no_start(case), |start| begin(&start)));
    };
    if standing.sessions.is_empty() && standing.arrived_by == Some(Move::Start) {
        return Some(begin(rung));
    }
    if !standing.is_calibrating() {
        return None;
    }
    let latest = standing.latest()?;
    // A set that was cut off, or that nobody saw reach its cap, says nothing: once more.
    let Some(first) = latest.first.filter(|_| latest.first_speaks) else { return Some(begin(rung)) };
    if let Some(line) = too_short(case, standing).filter(|_| case.lower(rung, 1) != *rung) {
        return Some(match case.given(rung, 1) {
            Given::Rung(lower, locked) => {
                let mut trace = vec![line];
                trace.extend(locked);
                let dose = case.calibration_dose(Some(lower));
                case.proposal(Action::Down, Some(rung.clone()), Some(dose), no_count(case, need), trace)
            }
            Given::Nothing(locked) => case.all_locked(Some(rung.clone()), locked),
        });
    }
    Some(match case.given(rung, 0) {
        Given::Rung(to, locked) => {
            let mut trace = vec![calibrated(case, "calibration-placed", first)];
            trace.extend(locked);
            trace.extend(narrowed());
            let dose = case.dose(Some(to));
            case.proposal(Action::Stay, Some(rung.clone()), Some(dose), no_count(case, need), trace)
        }
        Given::Nothing(locked) => case.all_locked(Some(rung.clone()), locked),
    })
}

/// The calibration set ended before its time.
fn too_short(case: &Case<'_>, standing: &Standing) -> Option<Line> {
    let latest = standing.latest().filter(|latest| latest.first_speaks && latest.first_fell_short)?;
    let shortest = case.parameters().calibration_seconds[0];
    let first = latest.first.filter(|first| *first < shortest && standing.is_calibrating())?;
    Some(calibrated(case, "calibration-one-lower", first))
}

fn calibrated(case: &Case<'_>, says: &'static str, first: quantity::HoldTime) -> Line {
    let [shortest, longest] = case.parameters().calibration_seconds;
    Line::new(codes::D6, says, Class::Dose)
        .with("time", Arg::Time(first))
        .with("shortest", Arg::Time(shortest))
        .with("longest", Arg::Time(longest))
}
