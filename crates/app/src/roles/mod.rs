//! What each role is shown of a swimmer, as a type of its own.
//!
//! A coach's type has no field that could hold a health word; a supervisor's has doses and no notes. Pages, JSON and
//! files are made from these types, so that nothing can be forgotten to be left out. How far each role reaches is the
//! permission table's to say; which type it gets is said here.
//!
//! - [`coach`], [`supervisor`], [`own`] (swimmer and guardian), [`admin`], [`practitioner`]: the types.
//! - [`lines`]: which lines of a trace a role may read.

pub mod admin;
pub mod coach;
pub mod lines;
pub mod own;
pub mod practitioner;
pub mod supervisor;

pub use admin::AdminView;
pub use coach::CoachView;
pub use own::{GuardianView, OwnRecord, SwimmerView};
pub use practitioner::PractitionerView;
pub use supervisor::SupervisorView;

use door::permit::{Thing, may};
use door::principal::Principal;
use door::role::Role;
use jiff::civil::Date;
use serde::Serialize;
use store::SubjectId;

use crate::desk::{Desk, Person};
use crate::entry::problem::denied;
use crate::entry::subject_of;
use crate::error::AppError;
use crate::facts::Kind;

/// One swimmer as one role sees them.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "seen_by", rename_all = "kebab-case")]
pub enum View {
    /// By the owner or a practitioner.
    Practitioner(Box<PractitionerView>),
    /// By whoever runs the session.
    Supervisor(Box<SupervisorView>),
    /// By the head coach.
    Coach(Box<CoachView>),
    /// By the club's administrator.
    Admin(Box<AdminView>),
    /// By the swimmer.
    Swimmer(Box<SwimmerView>),
    /// By a guardian.
    Guardian(Box<GuardianView>),
}

/// What seeing a stored fact of a kind takes.
pub const fn seeing(kind: Kind) -> Thing {
    match kind {
        Kind::Swimmer => Thing::Personal,
        Kind::Consent => Thing::Consent,
        Kind::Intake | Kind::Growth | Kind::ArmLengths | Kind::Illness | Kind::Absence => Thing::History,
        Kind::Screening | Kind::Trial => Thing::Screening,
        // What a device wrote down holds pain numbers beside everything else.
        Kind::Pain | Kind::DeckEntry | Kind::WeeklyCheck => Thing::Pain,
        Kind::Incident => Thing::Notes,
        Kind::Ban | Kind::Referral | Kind::Clearance | Kind::Limit => Thing::Letters,
        Kind::Reopening | Kind::GuardianTold => Thing::Health,
        Kind::WaterAdvice => Thing::WaterAdvice,
        Kind::Talk => Thing::Notes,
        Kind::Taught
        | Kind::SignOff
        | Kind::Session
        | Kind::Set
        | Kind::Decision
        | Kind::WaterWeek
        | Kind::WaterSession
        | Kind::HomeSheet => Thing::Card,
        Kind::Club
        | Kind::Practice
        | Kind::Season
        | Kind::Period
        | Kind::Meet
        | Kind::DeckSession
        | Kind::DeckPlace => Thing::Calendar,
        Kind::SquadPlan
        | Kind::DeckHours
        | Kind::Supervisor
        | Kind::OtherTime
        | Kind::Closure
        | Kind::Holiday
        | Kind::PracticeChange
        | Kind::Dryland => Thing::Calendar,
        Kind::KitPiece | Kind::Inspection | Kind::Calibration => Thing::Kit,
    }
}

impl Desk {
    /// One swimmer as this person may see them.
    pub fn view_for(&self, who: &Principal, subject: SubjectId, on: Date) -> Result<View, AppError> {
        // The same answer for a record that is not there and one that is not theirs.
        let person = self.person(subject);
        if who.role.is_bound() && !who.bound.contains_key(&subject_of(subject)) {
            return Err(denied(door::permit::Denied::NotYours));
        }
        self.view(who, person?, on)
    }

    /// Everybody whom this person may see, by name: the squad of that day, or one's own.
    pub fn views_for(&self, who: &Principal, on: Date) -> Result<Vec<View>, AppError> {
        let mut people: Vec<&Person> = if who.role.is_bound() {
            self.people().filter(|person| who.bound.contains_key(&subject_of(person.subject))).collect()
        } else {
            self.squad_on(on).collect()
        };
        people.sort_by(|one, other| {
            (&one.read.swimmer.name, one.subject).cmp(&(&other.read.swimmer.name, other.subject))
        });
        let mut views = Vec::new();
        for person in people {
            match self.view(who, person, on) {
                Ok(view) => views.push(view),
                // A ward who has come of age since is no longer listed.
                Err(error) if crate::entry::problem::is_denial(&error) => {}
                Err(error) => return Err(error),
            }
        }
        Ok(views)
    }

    fn view(&self, who: &Principal, person: &Person, on: Date) -> Result<View, AppError> {
        let about = self.about(person.subject, on)?;
        may(who, Thing::Roster, about, on).map_err(denied)?;
        Ok(match who.role {
            Role::Owner | Role::Practitioner => {
                View::Practitioner(Box::new(PractitionerView::of(self, person, on)?))
            }
            Role::Supervisor => View::Supervisor(Box::new(SupervisorView::of(self, person, on))),
            Role::HeadCoach => View::Coach(Box::new(CoachView::of(self, person, on))),
            Role::Administrator => View::Admin(Box::new(AdminView::of(self, person)?)),
            Role::Swimmer => {
                View::Swimmer(Box::new(SwimmerView { own: OwnRecord::of(self, who, person, on)? }))
            }
            Role::Guardian => {
                View::Guardian(Box::new(GuardianView { ward: OwnRecord::of(self, who, person, on)? }))
            }
        })
    }
}

/// What the swimmer is called.
pub(crate) fn called(person: &Person) -> String {
    let swimmer = &person.read.swimmer;
    swimmer.goes_by.clone().unwrap_or_else(|| swimmer.name.clone())
}

/// Days on which the swimmer was at dryland, within so many days before and on a day.
pub(crate) fn attended(person: &Person, on: Date, days: i32) -> Vec<String> {
    let mut attended: Vec<Date> = person
        .read
        .history
        .sessions
        .iter()
        .map(|session| session.date)
        .filter(|date| (0..days).contains(&trade::history::days_between(*date, on)))
        .collect();
    attended.dedup();
    attended.iter().map(ToString::to_string).collect()
}

/// What was decided about the water, by the newest advice up to a day; before that, whom to ask.
pub(crate) fn water(desk: &Desk, person: &Person, on: Date) -> String {
    let newest = person.read.history.water_advice.iter().rfind(|advice| advice.date <= on);
    match newest {
        Some(advice) => advice.advice.clone(),
        None => {
            let name = desk.club().about.as_ref().map_or("", |about| about.practitioner.as_str());
            desk.texts().say("role-water-ask", &[("name", name.to_owned())])
        }
    }
}
