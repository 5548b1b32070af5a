//! Whom to ask this week, about what, and how many lie below the fold.
//!
//! The list goes by the heaviest kind of reason, then by the day it was seen, then by name. There is no score in it,
//! and nobody's reasons are added up. A signal is a prompt to talk.

use jiff::civil::Date;
use trade::ask::{Ask, Reason, asks};
use trade::history::{History, days_between};
use trade::load::monday;
use trade::rule::screening_rules::{Q5, Q7};
use trade::trace::{Arg, Class, Line};

use crate::desk::{Desk, Person};
use crate::signals::{Signals, What, signals};

/// Swimmers above the fold: what one person can ask in a week beside everything else; common practice.
pub const FOLD: usize = 8;
/// Days without a weekly check after which silence itself is asked about.
const SILENT_DAYS: i32 = 21;
/// Days for which a talk about a pattern holds.
const TALK_DAYS: i32 = 7;
/// Share of the squad that must have answered in that time; where nobody answers, nobody is silent.
const HEARD_SHARE: f64 = 1.0 / 3.0;
/// Share of a squad's answers in a week below which its numbers are not shown: common practice.
pub const SHOWN_FROM: f64 = 0.7;

/// One swimmer to ask.
pub struct Whom<'a> {
    /// Who.
    pub person: &'a Person,
    /// What was seen, the heaviest first.
    pub asks: Vec<Ask>,
}

/// The list of one day.
pub struct Asking<'a> {
    /// Everybody there is something to ask, in order.
    pub whom: Vec<Whom<'a>>,
    /// Swimmers of the squad.
    pub squad: usize,
    /// The charts behind "own line that moved", with how many would speak by chance alone.
    pub charts: Signals,
}

impl Asking<'_> {
    /// How many lie below the fold.
    pub fn below(&self) -> usize {
        self.whom.len().saturating_sub(FOLD)
    }
}

/// Whom to ask on a day.
pub fn whom_to_ask(desk: &Desk, on: Date) -> Asking<'_> {
    let squad: Vec<&Person> = desk.squad_on(on).collect();
    let heard = |person: &&&Person| {
        last_check(&person.read.history, on).is_some_and(|date| days_between(date, on) < SILENT_DAYS)
    };
    let is_asked =
        !squad.is_empty() && HEARD_SHARE <= squad.iter().filter(heard).count() as f64 / squad.len() as f64;
    let charts = signals(desk, on);
    let mut whom: Vec<Whom<'_>> = squad
        .iter()
        .map(|person| {
            let assessment = desk.assess(person, on);
            let mut asks = asks(&person.read.history, &assessment.gate, &assessment.plan, on);
            let own = charts.signals.iter().filter(|signal| signal.subject == person.subject);
            asks.extend(own.filter_map(|signal| drift(&signal.what)));
            asks.retain(|ask| !has_talked(person, ask, on));
            if is_asked {
                asks.extend(silence(person, on));
            }
            asks.sort_by_key(|ask| ask.reason);
            Whom { person, asks }
        })
        .filter(|whom| !whom.asks.is_empty())
        .collect();
    whom.sort_by_cached_key(|whom| {
        let first = whom.asks.first().map(|ask| (ask.reason, std::cmp::Reverse(ask.seen)));
        (first, crate::views::people::folded(&whom.person.read.swimmer.name), whom.person.subject)
    });
    Asking { whom, squad: squad.len(), charts }
}

/// What a chart says. Its patterns of zeros and of one arm are asked about by the rules of their own, Q3 and Q4.
fn drift(what: &What) -> Option<Ask> {
    let (side, seen, line) = match what {
        What::TimesFell { exercise, side, sessions, before, since, from } => {
            let line = Line::new(Q7, "ask-saw-times-moved", Class::Health)
                .with("exercise", Arg::Exercise(exercise.clone()))
                .with("side", Arg::Working(*side))
                .with("sessions", Arg::Count(i64::try_from(*sessions).unwrap_or(i64::MAX)))
                .with("before", Arg::Number(*before, 0))
                .with("since", Arg::Number(*since, 0))
                .with("date", Arg::Date(*from));
            (side.shoulder(), *from, line)
        }
        What::WaterMoved { before, since, from, .. } => {
            let line = Line::new(Q7, "ask-saw-water-moved", Class::Health)
                .with("before", Arg::Number(*before, 0))
                .with("since", Arg::Number(*since, 0))
                .with("date", Arg::Date(*from));
            (None, *from, line)
        }
        What::ZerosWithFallingTimes { .. } | What::OneArmLeftOut { .. } => return None,
    };
    Some(Ask { reason: Reason::Drift, side, seen, line })
}

fn last_check(history: &History, on: Date) -> Option<Date> {
    history.weekly_checks.iter().map(|check| check.date).filter(|date| *date <= on).max()
}

/// A talk about the same rule since it was seen, or within the last week: what was asked then need not be asked again.
fn has_talked(person: &Person, ask: &Ask, on: Date) -> bool {
    person.read.talks.iter().any(|talk| {
        let is_fresh = ask.seen <= talk.date || days_between(talk.date, on) <= TALK_DAYS;
        talk.about == ask.line.rule.0 && talk.date <= on && is_fresh
    })
}

/// Somebody who used to answer has gone quiet.
fn silence(person: &Person, on: Date) -> Option<Ask> {
    let history = &person.read.history;
    let last = last_check(history, on)?;
    let away =
        history.absences.iter().any(|absence| absence.from <= on && absence.to.is_none_or(|to| last <= to));
    (SILENT_DAYS <= days_between(last, on) && !away).then(|| Ask {
        reason: Reason::Silence,
        side: None,
        seen: last,
        line: Line::new(Q5, "ask-saw-silence", Class::Health).with("date", Arg::Date(last)),
    })
}

/// How a week of checks was answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Response {
    /// Monday of the week.
    pub from: Date,
    /// Swimmers who answered.
    pub answered: usize,
    /// Swimmers of the squad.
    pub squad: usize,
    /// Swimmers with some problem; none while too few answered for the number to mean anything.
    pub problem: Option<usize>,
    /// Swimmers with a substantial one.
    pub substantial: Option<usize>,
}

/// The response of the week of a day.
pub fn response(desk: &Desk, on: Date) -> Response {
    let from = monday(on);
    let (mut answered, mut squad, mut problem, mut substantial) = (0, 0, 0, 0);
    for person in desk.squad_on(on) {
        squad += 1;
        let newest = person
            .read
            .history
            .weekly_checks
            .iter()
            .rev()
            .find(|check| from <= check.date && check.date <= on);
        let Some(check) = newest else { continue };
        answered += 1;
        let scores = [check.left, check.right].map(|answers| answers.and_then(|answers| answers.score()));
        problem += usize::from(scores.iter().flatten().any(|score| score.problem));
        substantial += usize::from(scores.iter().flatten().any(|score| score.substantial));
    }
    let is_enough = 0 < squad && SHOWN_FROM <= answered as f64 / squad as f64;
    Response {
        from,
        answered,
        squad,
        problem: is_enough.then_some(problem),
        substantial: is_enough.then_some(substantial),
    }
}
