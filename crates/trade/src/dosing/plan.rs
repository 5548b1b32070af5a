//! One swimmer's next session: every line of every exercise, then what only the whole session can decide.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::absence::{bounds_after, current_gap, past_gap, table};
use super::arms::{Arm, together};
use super::bounds::Bounds;
use super::case::Case;
use super::standing::{Standing, standing_of};
use super::start::sides_of;
use super::{Action, Plan, Proposal, offer, progress, season, stage};
use crate::gate::Gate;
use crate::history::{Experience, History, Move};
use crate::name::ExerciseId;
use crate::protocol::{Parameters, Protocol, Rung};
use crate::rule::dose_rules as codes;
use crate::side::WorkingSide;
use crate::trace::{Arg, Class, Line};

/// Sets on the growth hold and for beginners.
const FEWER_SETS: u8 = 2;
/// Weeks of the way back: two at 2 x 45 s, the third at 2 x 60 s, steps up from the fourth on.
const RETURN_CAPS: [(u16, f64); 2] = [(2, 45.0), (3, 60.0)];

/// Proposes the next session. `history` is in order, and `gate` is the gate's answer for the same record and day.
pub fn plan(protocol: &Protocol, history: &History, gate: &Gate) -> Plan {
    let parameters = &protocol.parameters;
    let on = gate.on;
    let gap = current_gap(history, on).map(|gap| (gap, table(parameters, &gap)));
    let bounds = bounds_of_day(parameters, history, gate);
    let mut proposals = Vec::new();
    let mut earned: Vec<(ExerciseId, Date)> = Vec::new();
    for exercise in &protocol.exercises {
        let case = |side: WorkingSide| Case { protocol, history, gate, bounds: &bounds, gap, exercise, side };
        let mut arms: Vec<Arm> = sides_of(exercise).iter().map(|side| arm(&case(*side))).collect();
        if let [left, right] = arms.as_mut_slice() {
            together(parameters, exercise, left, right);
        }
        for Arm { standing, proposal, .. } in arms {
            if let (Some(day), Action::Up | Action::Switch) = (standing.earned, proposal.action) {
                earned.push((exercise.id.clone(), day));
            }
            proposals.push(proposal);
        }
    }
    hold_surplus_steps(parameters, &mut proposals, earned);
    Plan { on, proposals }
}

/// Why one rung may not be given to this swimmer on this day, if it may not: age, track, a signed limit.
pub fn locked(
    protocol: &Protocol,
    history: &History,
    gate: &Gate,
    exercise: &ExerciseId,
    side: WorkingSide,
    rung: &Rung,
) -> Option<Line> {
    let exercise = protocol.exercise(exercise)?;
    let bounds = Bounds::default();
    Case { protocol, history, gate, bounds: &bounds, gap: None, exercise, side }.rung_locked(rung)
}

/// What one line's own record asks for.
fn arm(case: &Case<'_>) -> Arm {
    // A restart needs the careful count, but whether one is on record is known only from the standing itself.
    let first =
        standing_of(case.parameters(), case.exercise, case.side, case.history, case.gate, case.need(false));
    let restarted = first.arrived_by == Some(Move::Restart);
    let need = case.need(restarted);
    let standing = if restarted {
        standing_of(case.parameters(), case.exercise, case.side, case.history, case.gate, need)
    } else {
        first
    };
    let proposal = offer::withheld(case, standing.rung.as_ref())
        .or_else(|| unknown_rung(case, &standing))
        .or_else(|| stage::early(case, &standing))
        .unwrap_or_else(|| match &standing.rung {
            Some(rung) => {
                let mut proposal = progress::progress(case, &standing, rung, need);
                confirm_alone(&standing, &mut proposal);
                proposal
            }
            None => {
                case.nothing(Action::Ask, None, vec![Line::new(codes::D5, "start-not-written", Class::Dose)])
            }
        });
    Arm { side: case.side, standing, proposal }
}

/// The record names a rung that this protocol does not have: a person must say which one is meant.
fn unknown_rung(case: &Case<'_>, standing: &Standing) -> Option<Proposal> {
    let rung = standing.rung.as_ref()?;
    case.exercise.place_of(rung).is_none().then(|| {
        let line =
            Line::new(codes::D7, "rung-unknown", Class::Dose).with("name", Arg::Verbatim(rung.to_string()));
        case.nothing(Action::Ask, Some(rung.clone()), vec![line])
    })
}

fn confirm_alone(standing: &Standing, proposal: &mut Proposal) {
    if standing.rests_on_unseen() {
        proposal.alone.push(Line::new(codes::P16, "alone-unseen", Class::Dose));
    }
}

/// Calendar, absence and tracks, in one.
fn bounds_of_day(parameters: &Parameters, history: &History, gate: &Gate) -> Bounds {
    let mut bounds = season::bounds_on(parameters, &history.calendar, gate.on);
    let open = current_gap(history, gate.on);
    if let Some(gap) = &open {
        bounds.narrow_by(&bounds_after(parameters, gap, gate.on));
    }
    if let Some(gap) = past_gap(parameters, history, gate.on) {
        bounds.narrow_by(&bounds_after(parameters, &gap, gate.on));
    }
    tracks(parameters, history, gate, &mut bounds);
    bounds
}

fn tracks(parameters: &Parameters, history: &History, gate: &Gate, bounds: &mut Bounds) {
    let tracks = &gate.tracks;
    if let Some(line) = &tracks.youth {
        bounds.careful.push(line.clone());
        bounds.alone.push(line.clone());
    }
    if let Some(line) = &tracks.hypermobile {
        bounds.careful.push(line.clone());
        bounds.alone.push(line.clone());
    }
    if let Some(line) = &tracks.newcomer {
        bounds.careful.push(line.clone());
        if history.swimmer.experience == Experience::Beginner {
            bounds.at_most_sets(FEWER_SETS);
            bounds.narrowed_by.push(Line::new(codes::P2, "sets-beginner", Class::Dose));
        }
    }
    if let Some(growth) = &tracks.growth {
        bounds.careful.push(growth.line.clone());
        bounds.alone.push(growth.line.clone());
        let early = growth.week <= u16::from(parameters.growth_no_up_weeks);
        if early || !growth.pain_free {
            let line = Line::new(codes::W9, "growth-reduced", Class::Dose)
                .with("week", Arg::Count(i64::from(growth.week)))
                .with("weeks", Arg::Count(i64::from(parameters.growth_no_up_weeks)));
            bounds.at_most_sets(FEWER_SETS);
            bounds.at_most(parameters.growth_cap);
            bounds.no_up.push(line.clone());
            bounds.narrowed_by.push(line);
        }
    }
    if let Some(reentry) = &tracks.reentry {
        let line = Line::new(codes::B6, "return-week", Class::Dose)
            .with("week", Arg::Count(i64::from(reentry.week)));
        bounds.careful.push(line.clone());
        bounds.alone.push(line.clone());
        if let Some((_, cap)) = RETURN_CAPS.iter().find(|(last, _)| reentry.week <= *last) {
            bounds.at_most_sets(FEWER_SETS);
            bounds.at_most(quantity::HoldTime::from_seconds(*cap));
            bounds.no_up.push(line.clone());
            bounds.narrowed_by.push(line);
        }
    }
    if let Some((until, line)) = &gate.no_up_before
        && gate.on < *until
    {
        bounds.alone.push(line.clone());
    }
}

/// At most so many exercises step up together; the longest earned goes first, then protocol order.
fn hold_surplus_steps(
    parameters: &Parameters,
    proposals: &mut [Proposal],
    mut earned: Vec<(ExerciseId, Date)>,
) {
    let order = |id: &ExerciseId| proposals.iter().position(|proposal| proposal.exercise == *id);
    earned.sort_by_key(|(id, day)| (*day, order(id)));
    let mut chosen: Vec<ExerciseId> = Vec::new();
    for (id, _) in earned {
        if !chosen.contains(&id) && chosen.len() < usize::from(parameters.max_ups_per_session) {
            chosen.push(id);
        }
    }
    for proposal in proposals {
        let moves = proposal.dose.as_ref().is_some_and(|dose| dose.rung != proposal.from);
        let is_step = matches!(proposal.action, Action::Up | Action::Switch) && moves;
        if is_step && !chosen.contains(&proposal.exercise) {
            proposal.action = Action::Hold;
            if let Some(dose) = &mut proposal.dose {
                dose.rung.clone_from(&proposal.from);
            }
            let line = Line::new(codes::P6, "progress-enough-steps", Class::Dose)
                .with("most", Arg::Count(i64::from(parameters.max_ups_per_session)));
            proposal.trace.insert(0, line);
        }
    }
}

/// The most telling proposals first: what is out or stopped, then questions, then moves, then the rest.
pub fn by_weight(proposals: &mut [Proposal]) {
    proposals.sort_by_key(|proposal| Reverse(weight(proposal.action)));
}

const fn weight(action: Action) -> u8 {
    match action {
        Action::Out => 9,
        Action::Stop => 8,
        Action::Ask => 7,
        Action::Restart => 6,
        Action::Down => 5,
        Action::Switch => 4,
        Action::Up => 3,
        Action::Calibrate | Action::Teach => 2,
        Action::Hold => 1,
        Action::Stay | Action::LeaveOut => 0,
    }
}
