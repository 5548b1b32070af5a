//! One swimmer's next session: every line of every exercise, then what only the whole session can decide.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::absence::table;
use super::arms::{Arm, together};
use super::bounds::Bounds;
use super::case::Case;
use super::gap::gaps;
use super::own::{self, Gaps};
use super::standing::{Lines, Standing, count, lines_of, loaded_days, standing_of};
use super::start::sides_of;
use super::{Action, Plan, Proposal, offer, progress, season, stage};
use crate::gate::Gate;
use crate::history::{Experience, History};
use crate::name::ExerciseId;
use crate::protocol::{Exercise, Parameters, Protocol, Rung};
use crate::rule::dose_rules as codes;
use crate::side::WorkingSide;
use crate::trace::{Arg, Class, Line};

/// Sets on the growth hold and for beginners.
const FEWER_SETS: u8 = 2;

/// Proposes the next session. `history` is in order, and `gate` is the gate's answer for the same record and day.
pub fn plan(protocol: &Protocol, history: &History, gate: &Gate) -> Plan {
    let parameters = &protocol.parameters;
    let on = gate.on;
    let gaps: Vec<_> =
        gaps(parameters, history, on).into_iter().map(|gap| (gap, table(parameters, &gap))).collect();
    let day = Day {
        protocol,
        history,
        gate,
        bounds: bounds_of_day(parameters, history, gate, &gaps),
        gaps,
        lines: lines_of(history, on),
        loaded: loaded_days(history),
    };
    let mut proposals = Vec::new();
    let mut earned: Vec<(ExerciseId, Date)> = Vec::new();
    for exercise in &protocol.exercises {
        let mut arms: Vec<Arm> = sides_of(exercise).iter().map(|side| day.arm(exercise, *side)).collect();
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
    Case {
        protocol,
        history,
        gate,
        bounds: &bounds,
        gap: None,
        injured_days: None,
        on_the_way: false,
        exercise,
        side,
    }
    .rung_locked(rung)
}

/// What is the same for every line of one swimmer on one day.
struct Day<'a> {
    protocol: &'a Protocol,
    history: &'a History,
    gate: &'a Gate,
    bounds: Bounds,
    gaps: Vec<(super::gap::Gap, super::absence::Return)>,
    lines: Lines<'a>,
    loaded: Vec<Date>,
}

impl Day<'_> {
    /// What one line's own record asks for.
    fn arm(&self, exercise: &Exercise, side: WorkingSide) -> Arm {
        let Day { protocol, history, gate, gaps, .. } = self;
        let parameters = &protocol.parameters;
        let mut standing = standing_of(parameters, exercise, side, history, &self.lines, gate.on);
        let waiting = own::waiting(gaps, &standing);
        let outer = Case {
            protocol,
            history,
            gate,
            bounds: &self.bounds,
            gap: own::together(&waiting, &standing),
            injured_days: waiting
                .iter()
                .filter(|(gap, _)| gap.column == super::gap::Column::Injured)
                .map(|(gap, _)| gap.days)
                .max(),
            on_the_way: false,
            exercise,
            side,
        };
        let shoulders = outer.shoulders();
        let mut bounds = self.bounds.clone();
        bounds.narrow_by(&own::first_after(&waiting, gate.on));
        bounds.narrow_by(&own::after_out(history, &standing, shoulders, gate.on));
        let reentry = gate.tracks.reentry.as_ref();
        let on_the_way = reentry.filter(|reentry| own::is_on_the_way(history, reentry, &standing, shoulders));
        if let Some(reentry) = on_the_way {
            bounds.narrow_by(&own::after_injury(history, reentry, gate.on));
        }
        let case = Case { bounds: &bounds, on_the_way: on_the_way.is_some(), ..outer };
        let need = case.need(own::is_restarted(gaps, &standing));
        let held_on = |day: Date| self.is_held_on(day);
        count(parameters, &self.loaded, gate, need, held_on, &mut standing);
        let proposal = self.proposal(&case, &standing, need);
        Arm { side, standing, proposal }
    }

    fn proposal(&self, case: &Case<'_>, standing: &Standing, need: u8) -> Proposal {
        let mut proposal = offer::withheld(case, standing.rung.as_ref())
            .or_else(|| unknown_rung(case, standing))
            .or_else(|| stage::early(case, standing, need))
            .unwrap_or_else(|| match &standing.rung {
                Some(rung) => {
                    let mut proposal = progress::progress(case, standing, rung, need);
                    confirm_alone(standing, &mut proposal);
                    proposal
                }
                None => {
                    let line = Line::new(codes::D5, "start-not-written", Class::Dose);
                    case.nothing(Action::Ask, None, vec![line])
                }
            });
        if proposal.dose.is_some() {
            proposal.trace.extend(kept_small(case));
        }
        proposal
    }

    /// The calendar, the growth hold or a return forbade steps up on that day.
    fn is_held_on(&self, day: Date) -> bool {
        let parameters = &self.protocol.parameters;
        let growing = self.gate.tracks.growth.as_ref().is_some_and(|growth| {
            let weeks = i64::from(parameters.growth_no_up_weeks);
            growth.since <= day && day < growth.since.saturating_add(jiff::ToSpan::weeks(weeks))
        });
        let returning = || {
            self.gaps.iter().any(|(gap, answer)| {
                let lasts = jiff::ToSpan::days(i64::from(answer.lasts_days));
                answer.no_up && (gap.back == day || (gap.back < day && day < gap.back.saturating_add(lasts)))
            })
        };
        growing || returning() || !season::bounds_on(parameters, &self.history.calendar, day).no_up.is_empty()
    }
}

/// On the hypermobile track each dose says how the movement stays small.
fn kept_small(case: &Case<'_>) -> Option<Line> {
    case.gate.tracks.hypermobile.as_ref()?;
    let note = case.exercise.hypermobile.note.clone()?;
    Some(Line::new(codes::L3, "track-kept-small", Class::Dose).with("note", Arg::Verbatim(note)))
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
fn bounds_of_day(parameters: &Parameters, history: &History, gate: &Gate, gaps: &Gaps) -> Bounds {
    let mut bounds = season::bounds_on(parameters, &history.calendar, gate.on);
    bounds.narrow_by(&own::after_gaps(gaps, gate.on));
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
        if own::is_early_growth(parameters, growth) {
            let line = Line::new(codes::W9, "growth-reduced", Class::Dose)
                .with("week", Arg::Count(i64::from(growth.week)))
                .with("weeks", Arg::Count(i64::from(parameters.growth_no_up_weeks)));
            bounds.at_most_sets(FEWER_SETS);
            bounds.at_most(parameters.growth_cap);
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
            proposal.trace.retain(|line| ![codes::P6, codes::P7, codes::P14, codes::T2].contains(&line.rule));
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
