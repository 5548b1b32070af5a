//! A person confirms or overrides a proposal. Proposal and decision are both kept, with what they rested on.
//!
//! An override may hold back or choose another rung; it never reaches past the gate, a signed limit, a fixed safety
//! limit, or what the day leaves room for.

use jiff::civil::Date;
use quantity::HoldTime;
use store::{FactId, SubjectId};
use trade::dosing::{Action, Proposal};
use trade::history::days_between;
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use crate::desk::{Author, Desk, Draft, Person};
use crate::error::{AppError, ErrorKind};
use crate::facts::{DecisionFact, MoveWord, Verdict};
use crate::moment::Moment;
use crate::review::{goes_together, needs_a_decision, sets_on_record};
use crate::wire::answer::{ENGINE, digest_of};

/// Which line of which swimmer, on which day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineRef {
    /// Swimmer.
    pub subject: SubjectId,
    /// Exercise.
    pub exercise: ExerciseId,
    /// Side.
    pub side: WorkingSide,
    /// The day the dose is for.
    pub on: Date,
}

/// What a person says to a proposal.
#[derive(Debug, Clone, PartialEq)]
pub enum Say {
    /// Yes, to the proposal that was read: its action and rung, so that a changed one is not confirmed unseen.
    Confirm {
        /// The action that was read.
        action: Action,
        /// The rung that was read.
        rung: Option<RungId>,
    },
    /// No: this instead, with a reason.
    Override {
        /// Rung; none gives nothing.
        rung: Option<RungId>,
        /// Sets, if fewer.
        sets: Option<u8>,
        /// Cap, if shorter.
        cap: Option<HoldTime>,
        /// Why.
        reason: String,
    },
}

impl Desk {
    /// Decides one line.
    pub fn decide(
        &mut self,
        moment: &Moment,
        author: &Author,
        line: &LineRef,
        say: &Say,
    ) -> Result<FactId, AppError> {
        check_day(moment, line.on)?;
        let decision = self.decision(author, line, say)?;
        let ids = self.record(moment, author, line.subject, &[Draft::new(&decision)])?;
        Ok(ids[0])
    }

    /// Confirms several lines at once: all of them or none, and none that must be confirmed by itself.
    pub fn confirm_together(
        &mut self,
        moment: &Moment,
        author: &Author,
        lines: &[(LineRef, Say)],
    ) -> Result<usize, AppError> {
        let mut drafts: Vec<(SubjectId, Draft)> = Vec::new();
        for (line, say) in lines {
            check_day(moment, line.on)?;
            let person = self.person(line.subject)?;
            let proposal = self.proposal(person, line)?;
            if !goes_together(&proposal) {
                return Err(AppError::new(ErrorKind::Refused, "error-alone")
                    .with("name", &person.read.swimmer.name)
                    .with("exercise", &line.exercise)
                    .with("side", line.side.word()));
            }
            drafts.push((line.subject, Draft::new(&self.decision(author, line, say)?)));
        }
        self.record_many(moment, author, &drafts)?;
        Ok(drafts.len())
    }

    fn proposal(&self, person: &Person, line: &LineRef) -> Result<Proposal, AppError> {
        self.assess(person, line.on)
            .plan
            .proposals
            .iter()
            .find(|proposal| proposal.exercise == line.exercise && proposal.side == line.side)
            .cloned()
            .ok_or_else(|| {
                AppError::new(ErrorKind::NotFound, "error-no-proposal")
                    .with("exercise", &line.exercise)
                    .with("side", line.side.word())
                    .hint("error-no-proposal-hint")
            })
    }

    fn decision(&self, author: &Author, line: &LineRef, say: &Say) -> Result<DecisionFact, AppError> {
        if author.name.trim().is_empty() {
            return Err(AppError::new(ErrorKind::Input, "error-blank-author"));
        }
        let person = self.person(line.subject)?;
        let proposal = self.proposal(person, line)?;
        let proposed_rung = proposal.dose.as_ref().and_then(|dose| dose.rung.clone());
        let mut decision = DecisionFact {
            date: line.on,
            exercise: line.exercise.to_string(),
            side: line.side.into(),
            proposed: proposal.action.word().to_owned(),
            proposed_rung: proposed_rung.as_ref().map(ToString::to_string),
            codes: proposal.trace.iter().map(|line| line.rule.to_string()).collect(),
            verdict: Verdict::Confirmed,
            rung: proposed_rung.as_ref().map(ToString::to_string),
            sets: proposal.dose.as_ref().map(|dose| dose.sets),
            cap_s: proposal.dose.as_ref().map(|dose| dose.cap.seconds()),
            because: needs_a_decision(&proposal).then(|| move_of(proposal.action)).flatten(),
            reason: None,
            by: author.name.clone(),
            sets_on_record: sets_on_record(person, &line.exercise, line.side),
            protocol: self.protocol().hash.clone(),
            engine: ENGINE.to_owned(),
            inputs: digest_of(&person.read.history),
        };
        match say {
            Say::Confirm { action, rung } => {
                if proposal.action != *action || proposed_rung != *rung {
                    let now = self.texts().word(&format!("action-{}", proposal.action.word()));
                    return Err(AppError::new(ErrorKind::Refused, "error-moved-on")
                        .with("now", now)
                        .hint("error-moved-on-hint"));
                }
            }
            Say::Override { rung, sets, cap, reason } => {
                if reason.trim().is_empty() {
                    return Err(AppError::new(ErrorKind::Input, "error-override-reason"));
                }
                self.check_override(person, line, &proposal, rung.as_ref(), *sets, *cap)?;
                decision.verdict = Verdict::Overridden;
                decision.reason = Some(reason.trim().to_owned());
                decision.because = (*rung != proposal.from && rung.is_some()).then_some(MoveWord::Override);
                decision.rung = rung.as_ref().map(ToString::to_string);
                let dose = proposal.dose.as_ref();
                decision.sets = rung.as_ref().and(sets.or(dose.map(|dose| dose.sets)));
                decision.cap_s = rung.as_ref().and(cap.or(dose.map(|dose| dose.cap))).map(HoldTime::seconds);
            }
        }
        Ok(decision)
    }

    fn check_override(
        &self,
        person: &Person,
        line: &LineRef,
        proposal: &Proposal,
        rung: Option<&RungId>,
        sets: Option<u8>,
        cap: Option<HoldTime>,
    ) -> Result<(), AppError> {
        // Giving nothing is always allowed.
        let Some(rung) = rung else { return Ok(()) };
        let exercise = &line.exercise;
        let blocked =
            matches!(proposal.action, Action::Out | Action::Stop | Action::LeaveOut | Action::Teach)
                || (proposal.action == Action::Ask && proposal.dose.is_none() && proposal.from.is_none());
        if blocked {
            return Err(AppError::new(ErrorKind::Refused, "error-override-blocked")
                .with("exercise", exercise)
                .hint("error-override-blocked-hint"));
        }
        let known = self.protocol().exercise(exercise).and_then(|exercise| exercise.rung(rung));
        let Some(known) = known else {
            return Err(AppError::new(ErrorKind::Input, "error-override-rung")
                .with("exercise", exercise)
                .with("rung", rung));
        };
        let assessment = self.assess(person, line.on);
        if let Some(why) = trade::dosing::plan::locked(
            self.protocol(),
            &person.read.history,
            &assessment.gate,
            exercise,
            line.side,
            known,
        ) {
            return Err(AppError::new(ErrorKind::Refused, "error-override-locked")
                .with("why", self.texts().line(&why, self.reader())));
        }
        let most = proposal
            .dose
            .as_ref()
            .map_or((self.protocol().parameters.sets, self.protocol().parameters.cap), |dose| {
                (dose.sets, dose.cap)
            });
        if sets.is_some_and(|sets| most.0 < sets || sets == 0) || cap.is_some_and(|cap| most.1 < cap) {
            return Err(AppError::new(ErrorKind::Refused, "error-override-dose")
                .with("sets", most.0)
                .with("cap", crate::text::seconds(most.1)));
        }
        Ok(())
    }
}

/// How far from today a decision may be dated. A decision dated for next year would sit on the ladder until then.
const DECISION_DAYS: i32 = 28;

fn check_day(moment: &Moment, on: Date) -> Result<(), AppError> {
    if days_between(moment.today, on).abs() <= DECISION_DAYS {
        return Ok(());
    }
    Err(AppError::new(ErrorKind::Input, "error-decision-day")
        .with("date", crate::text::day(on))
        .with("days", DECISION_DAYS)
        .hint("error-decision-day-hint"))
}

/// Why a swimmer comes to a rung when this action is confirmed.
pub(crate) const fn move_of(action: Action) -> Option<MoveWord> {
    match action {
        Action::Up => Some(MoveWord::Up),
        Action::Down => Some(MoveWord::Down),
        Action::Switch => Some(MoveWord::Switch),
        Action::Restart => Some(MoveWord::Restart),
        Action::Calibrate => Some(MoveWord::Start),
        _ => None,
    }
}
