//! One session of one swimmer: the gate and the plan are asked, a person decides, and the sets are done.

use jiff::civil::{Date, Weekday, date};
use trade::dosing::{Action, Dose, Plan, Proposal, plan};
use trade::gate::gate;
use trade::history::History;
use trade::name::ExerciseId;
use trade::side::WorkingSide;

use super::cast::{Case, Member, Squad};
use super::days::{DAY, Half};
use super::diary::{Diary, Hand};
use super::script::{How, how, is_away, is_steady};
use super::sets::{Body, Line};
use super::story::{self, QUIET_FROM};
use crate::decide::move_of;
use crate::facts::{
    ContextWord, DecisionFact, EndWord, ExperienceWord, MoveWord, SessionFact, SetFact, SignOffFact,
    TaughtFact, Verdict,
};
use crate::review::needs_a_decision;
use crate::wire::answer::{ENGINE, digest_of};

/// Reasons for which a practitioner keeps a swimmer where they are.
const REASONS: [&str; 4] = [
    "Exams this week: one more session on the same rung.",
    "Form in the last set was only just good enough; see it once more.",
    "The next band is being measured; stay until Friday.",
    "Tired after the weekend; step up next time.",
];
const FILM_FIRST: &str = "Film the movement before changing the variant.";
/// Chances of a missed session and of an override.
const MISSES: f64 = 0.08;
const OVERRIDES: f64 = 0.10;

/// Between these days a session may be missed by chance: not in the first weeks, which the strong need for their
/// first step, nor in the last, which the cases need.
const MAY_MISS_FROM: Date = date(2026, 10, 5);
const ALL_COME_FROM: Date = date(2026, 10, 30);

/// What one swimmer carries from session to session.
pub(super) struct Attendance {
    missed_last: bool,
}

impl Attendance {
    pub(super) const fn new() -> Self {
        Self { missed_last: false }
    }

    /// Nobody misses two in a row by chance: a longer absence is a story of its own.
    fn comes(&mut self, diary: &mut Diary<'_>, member: &Member, day: Date) -> bool {
        let by_chance = !is_steady(member.case)
            && MAY_MISS_FROM <= day
            && day < ALL_COME_FROM
            && !self.missed_last
            && diary.random.happens(MISSES);
        self.missed_last = by_chance;
        !by_chance && !is_away(member.case, day)
    }
}

/// The half of the programme that a squad does on a day; juniors come twice a week.
fn half_on(squad: Squad, day: Date) -> Option<Half> {
    let is_friday = day.weekday() == Weekday::Friday;
    if day == DAY || (squad == Squad::Juniors && is_friday) { None } else { Half::on(day) }
}

/// Holds the session of a day, if there is one and the swimmer comes and may.
pub(super) fn hold(
    diary: &mut Diary<'_>,
    member: &Member,
    body: &mut Body,
    attendance: &mut Attendance,
    day: Date,
) {
    let Some(half) = half_on(member.squad, day) else { return };
    let begun = member.programme_started().is_some_and(|started| started <= day);
    if !begun || !attendance.comes(diary, member, day) {
        return;
    }
    let morning = ask(diary, day);
    let lines = of_half(&morning, half);
    if lines.iter().all(|proposal| proposal.dose.is_none()) {
        return;
    }
    diary.at(day, 12 * 60 + 10);
    let mut doses = decide_all(diary, member, day, &lines);
    diary.settle();

    diary.at(day, member.squad.dryland_from());
    let answer = story::before(diary, member, day);
    let hurts = answer.left.max(answer.right).is_some_and(|number| 0 < number);
    diary.write(Hand::Deck, &answer);
    diary.settle();
    if hurts {
        // What was said a minute ago counts before anything is lifted.
        let now = ask(diary, day);
        doses = of_half(&now, half).iter().filter_map(given).collect();
    }
    if doses.is_empty() {
        return;
    }
    train(diary, member, body, day, &doses);
    diary.settle();
}

fn ask(diary: &Diary<'_>, day: Date) -> Plan {
    let answer = gate(diary.protocol, &diary.history, day);
    plan(diary.protocol, &diary.history, &answer)
}

fn of_half(plan: &Plan, half: Half) -> Vec<Proposal> {
    let exercises = half.exercises();
    plan.proposals
        .iter()
        .filter(|proposal| exercises.contains(&proposal.exercise.as_str()))
        .cloned()
        .collect()
}

/// One line of the session with what it is given.
struct Given {
    exercise: ExerciseId,
    side: WorkingSide,
    teach: bool,
    dose: Dose,
}

fn given(proposal: &Proposal) -> Option<Given> {
    Some(Given {
        exercise: proposal.exercise.clone(),
        side: proposal.side,
        teach: proposal.action == Action::Teach,
        dose: proposal.dose.clone().filter(|_| proposal.action != Action::Ask)?,
    })
}

fn decide_all(diary: &mut Diary<'_>, member: &Member, day: Date, lines: &[Proposal]) -> Vec<Given> {
    let mut inputs = None;
    let mut doses = Vec::new();
    for proposal in lines {
        let Some(mut line) = given(proposal) else { continue };
        if needs_a_decision(proposal) {
            let inputs = inputs.get_or_insert_with(|| digest_of(&diary.history)).clone();
            let decision = decision(diary, member, day, proposal, inputs);
            line.dose.rung = decision.rung.as_deref().map(trade::name::RungId::new);
            diary.write(Hand::Practitioner, &decision);
            diary.wait(20);
        }
        doses.push(line);
    }
    doses
}

fn decision(
    diary: &mut Diary<'_>,
    member: &Member,
    day: Date,
    proposal: &Proposal,
    inputs: String,
) -> DecisionFact {
    let rung = proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()).map(ToString::to_string);
    let mut decision = DecisionFact {
        date: day,
        exercise: proposal.exercise.to_string(),
        side: proposal.side.into(),
        proposed: proposal.action.word().to_owned(),
        proposed_rung: rung.clone(),
        codes: proposal.trace.iter().map(|line| line.rule.to_string()).collect(),
        verdict: Verdict::Confirmed,
        rung,
        sets: proposal.dose.as_ref().map(|dose| dose.sets),
        cap_s: proposal.dose.as_ref().map(|dose| dose.cap.seconds()),
        because: move_of(proposal.action),
        reason: None,
        by: Hand::Practitioner.name().to_owned(),
        sets_on_record: sets_so_far(&diary.history, &proposal.exercise, proposal.side),
        protocol: diary.protocol.hash.clone(),
        engine: ENGINE.to_owned(),
        inputs,
    };
    let may_differ = proposal.action == Action::Up && !is_steady(member.case) && day < QUIET_FROM;
    // The plateau is looked at on film first, so that it still waits on the demo's day.
    let waits = proposal.action == Action::Switch && member.case == Case::Plateau;
    if waits || may_differ && diary.random.happens(OVERRIDES) {
        let reason = if waits { FILM_FIRST } else { *diary.random.pick(&REASONS) };
        decision.verdict = Verdict::Overridden;
        decision.reason = Some(reason.to_owned());
        decision.rung = proposal.from.as_ref().map(ToString::to_string);
        decision.because = None;
    } else if let Some((rung, reason)) = head_start(member, proposal) {
        decision.verdict = Verdict::Overridden;
        decision.reason = Some(reason.to_owned());
        decision.rung = Some(rung.to_owned());
        decision.because = Some(MoveWord::Override);
    }
    decision
}

/// One start that a person set higher than the table: the swimmer's sheet of last season says so.
fn head_start(member: &Member, proposal: &Proposal) -> Option<(&'static str, &'static str)> {
    let concerned = member.case == Case::ScaptionLimit
        && proposal.action == Action::Calibrate
        && proposal.exercise.as_str() == "RC-3";
    concerned.then_some(("w125", "Ended last season at 1.25 kg on paper, with good form."))
}

fn sets_so_far(history: &History, exercise: &ExerciseId, side: WorkingSide) -> usize {
    history
        .sessions
        .iter()
        .flat_map(|session| &session.blocks)
        .filter(|block| block.exercise == *exercise && block.side == side)
        .map(|block| block.sets.len())
        .sum()
}

fn train(diary: &mut Diary<'_>, member: &Member, body: &mut Body, day: Date, doses: &[Given]) {
    let right_before = member.squad == Squad::Juniors && day == date(2026, 10, 21);
    let effort = 3.0 + 5.0 * diary.random.share();
    let session = SessionFact {
        date: day,
        number: 1,
        context: ContextWord::AfterPractice,
        before_water_override: right_before
            .then(|| "The pool opened an hour late; bands only, agreed with the practitioner.".to_owned()),
        last_practice_effort: Some(whole(effort)),
    };
    diary.write(Hand::Deck, &session);
    body.new_session(&mut diary.random);
    let mut stopped: Option<&ExerciseId> = None;
    let mut shown: Option<&ExerciseId> = None;
    for line in doses {
        if stopped == Some(&line.exercise) {
            continue;
        }
        if line.teach {
            // Both arms of an exercise are taught at once.
            if shown != Some(&line.exercise) {
                teach(diary, member, day, &line.exercise);
            }
            shown = Some(&line.exercise);
        } else if line.dose.timed && work(diary, member, body, day, line) == Hurt::Stops {
            stopped = Some(&line.exercise);
            if member.case == Case::PainOnMonday {
                break;
            }
        }
    }
}

fn teach(diary: &mut Diary<'_>, member: &Member, day: Date, exercise: &ExerciseId) {
    let before = diary.history.taught.iter().filter(|fact| fact.exercise == *exercise).count();
    diary.wait(110);
    diary.write(Hand::Deck, &TaughtFact { date: day, exercise: exercise.to_string() });
    let wanted = usize::from(diary.protocol.parameters.teaching_sessions);
    // A beginner is shown the first band exercise once more than the rest.
    let patient = member.experience() == ExperienceWord::Beginner && exercise.as_str() == "RC-1";
    if wanted + usize::from(patient) <= before + 1 {
        let by = Hand::Deck.name().to_owned();
        diary.write(Hand::Deck, &SignOffFact { date: day, exercise: exercise.to_string(), by });
    }
}

#[derive(PartialEq, Eq)]
enum Hurt {
    No,
    Stops,
}

fn work(diary: &mut Diary<'_>, member: &Member, body: &mut Body, day: Date, given: &Given) -> Hurt {
    let Some(exercise) = diary.protocol.exercise(&given.exercise) else { return Hurt::No };
    let Some(rung) = given.dose.rung.clone() else { return Hurt::No };
    let line = Line {
        exercise,
        side: given.side,
        place: exercise.place_of(&rung).unwrap_or(0),
        full: exercise.cap(&diary.protocol.parameters),
        day,
        steady: is_steady(member.case),
    };
    for number in 1..=given.dose.sets {
        let written = how(member, exercise.id.as_str(), given.side, day).map(|how| match how {
            How::FullBelow(top) if rung.as_str() == top => How::Gaining([95.0, 88.0, 80.0]),
            How::FullBelow(_) => How::Full,
            other => other,
        });
        let mut set = body.set(&mut diary.random, &line, &given.dose, number, written);
        if 1 < number {
            let rest = given.dose.rest.seconds() + diary.random.between(-2.0, 6.0).round();
            set.rest_before_s = Some(rest);
            diary.wait(u32::try_from(whole(rest)).unwrap_or(30));
        }
        diary.wait(u32::try_from(whole(set.seconds)).unwrap_or(60));
        let end = set.end;
        diary.write(
            Hand::Deck,
            &SetFact {
                date: day,
                session: 1,
                exercise: exercise.id.to_string(),
                side: given.side.into(),
                planned: rung.to_string(),
                used: rung.to_string(),
                prescribed_sets: given.dose.sets,
                number,
                set,
            },
        );
        match end {
            EndWord::Pain => {
                let report = story::during(member.case, day, exercise.id.as_str());
                diary.write(Hand::Deck, &report);
                return Hurt::Stops;
            }
            EndWord::Kit | EndWord::Left => break,
            EndWord::Cap | EndWord::Form | EndWord::ChoseToStop => {}
        }
    }
    Hurt::No
}

/// A small non-negative number without its fraction.
pub(super) fn whole(value: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "a few hundred at most, and never not a number")]
    let whole = value.round() as i64;
    whole
}
