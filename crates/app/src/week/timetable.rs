//! The timetable as it stands on record: every entry with the id of its fact, so that it can be corrected.

use store::{FactId, SubjectId};
use trade::history::{Calendar, Excluded, Meet, Session};

use crate::facts::{
    ClosureFact, DeckHoursFact, DrylandFact, HolidayFact, Kind, MeetFact, OtherTimeFact, PracticeChangeFact,
    PracticeFact, Problem, SquadPlanFact, SupervisorFact, read_json,
};
use crate::history::LiveFact;

/// One entry with the fact it stands in.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept<T> {
    /// Id of the fact.
    pub id: FactId,
    /// What it says.
    pub fact: T,
}

/// Everything of the timetable.
#[derive(Debug, Clone, Default)]
pub struct Timetable {
    /// What squads want.
    pub plans: Vec<Kept<SquadPlanFact>>,
    /// Weekly practices.
    pub practices: Vec<Kept<PracticeFact>>,
    /// What differs from them.
    pub changes: Vec<Kept<PracticeChangeFact>>,
    /// When places are ours.
    pub deck: Vec<Kept<DeckHoursFact>>,
    /// Who supervises.
    pub supervisors: Vec<Kept<SupervisorFact>>,
    /// School and other loads.
    pub others: Vec<Kept<OtherTimeFact>>,
    /// Closed places.
    pub closures: Vec<Kept<ClosureFact>>,
    /// Holidays and exams.
    pub holidays: Vec<Kept<HolidayFact>>,
    /// Meets.
    pub meets: Vec<Kept<MeetFact>>,
    /// Dryland sessions, cancelled ones too.
    pub dryland: Vec<Kept<DrylandFact>>,
}

impl Timetable {
    /// Takes one fact of the club; other kinds are not its business.
    pub(crate) fn take(&mut self, live: &LiveFact) -> Result<(), Problem> {
        let Ok(id) = live.id.parse::<FactId>() else { return Ok(()) };
        macro_rules! keep {
            ($list:ident) => {
                read_json(&live.payload).map(|fact| self.$list.push(Kept { id, fact }))
            };
        }
        match live.kind {
            Kind::SquadPlan => keep!(plans),
            // These two are read by the desk as well, which reports what cannot be read.
            Kind::Practice => keep!(practices).or(Ok(())),
            Kind::Meet => keep!(meets).or(Ok(())),
            Kind::PracticeChange => keep!(changes),
            Kind::DeckHours => keep!(deck),
            Kind::Supervisor => keep!(supervisors),
            Kind::OtherTime => keep!(others),
            Kind::Closure => keep!(closures),
            Kind::Holiday => keep!(holidays),
            Kind::Dryland => keep!(dryland),
            _ => Ok(()),
        }
    }

    /// Puts every list in an order that does not depend on the order of arrival.
    pub(crate) fn in_order(&mut self) {
        self.plans.sort_by(|one, other| (&one.fact.squad, one.id).cmp(&(&other.fact.squad, other.id)));
        self.practices.sort_by_key(|kept| (kept.fact.weekday, kept.fact.from, kept.id));
        self.changes.sort_by_key(|kept| (kept.fact.date, kept.id));
        self.deck.sort_by(|one, other| (&one.fact.place, one.id).cmp(&(&other.fact.place, other.id)));
        self.supervisors.sort_by(|one, other| (&one.fact.name, one.id).cmp(&(&other.fact.name, other.id)));
        self.others.sort_by_key(|kept| kept.id);
        self.closures.sort_by_key(|kept| (kept.fact.from, kept.id));
        self.holidays.sort_by_key(|kept| (kept.fact.from, kept.id));
        self.meets.sort_by_key(|kept| (kept.fact.date, kept.id));
        self.dryland.sort_by_key(|kept| (kept.fact.date, kept.fact.from, kept.id));
    }

    /// Leaves a swimmer the meets they swim, at the grade that holds for them.
    pub(crate) fn own_meets(&self, calendar: &mut Calendar, squad: &str, subject: SubjectId) {
        let is_plain = |kept: &Kept<MeetFact>| kept.fact.squads.is_empty() && kept.fact.swimmers.is_empty();
        if self.meets.iter().all(is_plain) {
            return;
        }
        let subject = subject.to_string();
        calendar.meets = self
            .meets
            .iter()
            .filter_map(|kept| {
                let grade = kept.fact.grade_for(squad, &subject)?;
                Some(Meet { date: kept.fact.date, grade: grade.to_trade() })
            })
            .collect();
        calendar.in_order();
    }

    /// Excludes from progression what a swimmer did in a session that stood before water by a named override, whoever
    /// wrote the sets down.
    pub(crate) fn exclude_overruled(&self, sessions: &mut [Session], squad: &str) {
        for kept in self.dryland.iter().filter(|kept| kept.fact.squad == squad && !kept.fact.cancelled) {
            let Some(own) = &kept.fact.overruled else { continue };
            for session in sessions.iter_mut().filter(|session| session.date == kept.fact.date) {
                session.excluded.get_or_insert_with(|| Excluded::BeforeWaterOverride(own.reason.clone()));
            }
        }
    }

    /// A dryland session by its name in calendars.
    pub fn dryland_called(&self, uid: &str) -> Option<&Kept<DrylandFact>> {
        self.dryland.iter().find(|kept| kept.fact.uid == uid)
    }
}
