//! What to expect of each line next time.

use jiff::civil::Date;
use stats::level::Level;
use stats::set_time::next::{Coming, Session, session};
use trade::name::RungId;

use super::gather::{Explains, Gathered, LineKey, USUAL_REST, level_of, weeks_since};
use super::model::Model;
use crate::desk::Desk;

/// What to expect of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// Whose, and what.
    pub line: LineKey,
    /// The rung proposed.
    pub rung: RungId,
    /// Seconds of the cap.
    pub cap: f64,
    /// Set by set, and the chance that all reach the cap.
    pub session: Session,
    /// Sets of this line that it rests on; none: the squad's spread stands in.
    pub rests_on: usize,
}

/// Expectations for every timed dose proposed for a day, at 80 % ranges: what will lie inside four times of five.
pub fn next(desk: &Desk, on: Date, gathered: &Gathered, model: &Model) -> Vec<Next> {
    let level = Level::new(0.8).unwrap_or(Level::USUAL);
    let mut all = Vec::new();
    for person in desk.squad_on(on) {
        for proposal in &desk.assess(person, on).plan.proposals {
            let Some(dose) = proposal.dose.as_ref().filter(|dose| dose.timed) else { continue };
            let Some(rung) = dose.rung.clone() else { continue };
            let line =
                LineKey { subject: person.subject, exercise: proposal.exercise.clone(), side: proposal.side };
            let since =
                gathered.rungs.get(&line).filter(|(last, _)| *last == rung).map_or(on, |(_, since)| *since);
            let cap = dose.cap.seconds();
            let rest = (dose.rest.seconds() / USUAL_REST).ln();
            let sets: Vec<Coming> = (0..dose.sets)
                .map(|before| {
                    let explains = Explains {
                        sets_before: f64::from(before),
                        rest: if 0 < before && rest.is_finite() { rest } else { 0.0 },
                        level: level_of(desk.protocol(), &line.exercise, &rung),
                        weeks_on_rung: weeks_since(since, on),
                        rested: 0.0,
                    };
                    Coming { covariates: model.covariates(&explains), cap }
                })
                .collect();
            let own = model.own(&line);
            if let Ok(session) = session(&model.fit, own, &sets, level) {
                let rests_on = model.own.get(&line).map_or(0, |value| value.rows);
                all.push(Next { line, rung, cap, session, rests_on });
            }
        }
    }
    all
}
