//! May this person do that; and recording in somebody's name.

use door::permit::{About, Thing, may};
use door::principal::Principal;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use store::{FactId, SubjectId};

use super::audit::Act;
use super::{audit, author_of, problem, subject_of};
use crate::desk::{Desk, Draft};
use crate::error::AppError;
use crate::facts::Kind;
use crate::moment::Moment;

/// What recording a kind of fact takes.
pub const fn recording(kind: Kind) -> Thing {
    match kind {
        Kind::Swimmer => Thing::EditRoster,
        Kind::Consent => Thing::RecordConsent,
        Kind::Intake | Kind::Screening | Kind::Growth | Kind::ArmLengths => Thing::Examine,
        Kind::Trial => Thing::Examine,
        // A swimmer answers for himself, as with pain; the same holds for what he swam.
        Kind::Pain | Kind::WeeklyCheck | Kind::WaterSession => Thing::ReportPain,
        Kind::Illness
        | Kind::Absence
        | Kind::Ban
        | Kind::Reopening
        | Kind::WaterAdvice
        | Kind::GuardianTold
        | Kind::Talk
        | Kind::WaterWeek => Thing::Settle,
        Kind::Referral | Kind::Clearance | Kind::Limit => Thing::FileLetter,
        Kind::Taught
        | Kind::SignOff
        | Kind::Session
        | Kind::Set
        | Kind::DeckSession
        | Kind::DeckEntry
        | Kind::Incident
        | Kind::HomeSheet => Thing::RecordSession,
        Kind::Decision => Thing::Decide,
        Kind::Club | Kind::Practice | Kind::Season | Kind::Period | Kind::Meet | Kind::DeckPlace => {
            Thing::EditCalendar
        }
        Kind::SquadPlan
        | Kind::DeckHours
        | Kind::Supervisor
        | Kind::OtherTime
        | Kind::Closure
        | Kind::Holiday
        | Kind::PracticeChange
        | Kind::Dryland => Thing::EditCalendar,
        Kind::KitPiece | Kind::Inspection | Kind::Calibration => Thing::EditKit,
    }
}

/// What recording this draft takes: a letter under one's own licence is signed, any other is filed.
fn taken_by(who: &Principal, draft: &Draft) -> Thing {
    let thing = recording(draft.kind);
    if thing != Thing::FileLetter {
        return thing;
    }
    let payload: serde_json::Value = serde_json::from_str(&draft.payload).unwrap_or_default();
    let signed_by = payload["clinician"]["licence"].as_str().map(str::trim);
    match &who.licence {
        Some(own) if signed_by == Some(own.number.trim()) => Thing::SignLetter,
        _ => thing,
    }
}

impl Desk {
    /// The question about one swimmer on one day. The club itself is everybody.
    pub fn about(&self, subject: SubjectId, on: Date) -> Result<About, AppError> {
        if subject == SubjectId::CLUB {
            return Ok(About::Everybody);
        }
        let age = self.person(subject)?.read.history.swimmer.age_on(on);
        Ok(About::Person { subject: subject_of(subject), age })
    }

    /// May this person see or do this? The permission table says.
    pub fn may(&self, who: &Principal, thing: Thing, about: About, on: Date) -> Result<(), AppError> {
        may(who, thing, about, on).map_err(problem::denied)
    }

    /// The same about one swimmer.
    pub fn may_about(
        &self,
        who: &Principal,
        thing: Thing,
        subject: SubjectId,
        on: Date,
    ) -> Result<(), AppError> {
        self.may(who, thing, self.about(subject, on)?, on)
    }

    /// Records facts about one subject in somebody's name: only what they may record, and with a row in the audit for
    /// each. A correction takes what its kind takes, and may only be made by whoever sees what it replaces.
    pub fn record_as(
        &mut self,
        moment: &Moment,
        who: &Principal,
        subject: SubjectId,
        drafts: &[Draft],
    ) -> Result<Vec<FactId>, AppError> {
        let drafts: Vec<(SubjectId, Draft)> = drafts.iter().map(|draft| (subject, draft.clone())).collect();
        self.record_all_as(moment, who, &drafts)
    }

    /// The same about several subjects: all of it or nothing.
    pub fn record_all_as(
        &mut self,
        moment: &Moment,
        who: &Principal,
        drafts: &[(SubjectId, Draft)],
    ) -> Result<Vec<FactId>, AppError> {
        for (subject, draft) in drafts {
            // A subject without a record yet is somebody being entered: nobody's own.
            let about = match self.person(*subject) {
                Ok(_) => self.about(*subject, moment.today)?,
                Err(_) => About::Everybody,
            };
            self.may(who, taken_by(who, draft), about, moment.today)?;
            if draft.corrects.is_some() && who.role.is_bound() {
                return Err(problem::denied(door::permit::Denied::Role));
            }
        }
        let ids = self.record_many(moment, &author_of(who), drafts)?;
        let entries: Vec<audit::Entry> = drafts
            .iter()
            .zip(&ids)
            .map(|((subject, draft), id)| {
                let entry = audit::by(moment, who, Act::Changed, Some(taken_by(who, draft))).item(id.uuid());
                if *subject == SubjectId::CLUB { entry } else { entry.about(*subject) }
            })
            .collect();
        self.store_mut()
            .at_door(|door| entries.into_iter().try_for_each(|entry| door.audit(&entry.into())))?;
        Ok(ids)
    }

    /// The club's time zone; universal time where none is on record or it is unknown.
    pub fn zone(&self) -> TimeZone {
        let name = self.club().about.as_ref().map(|about| about.zone.as_str());
        name.and_then(|name| TimeZone::get(name).ok()).unwrap_or(TimeZone::UTC)
    }
}
