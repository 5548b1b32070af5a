//! What an address asks of whoever opens it. Every row of the route table names one of these; a row without one does
//! not compile.

use app::desk::Desk;
use app::entry::{permit::recording, problem::denied};
use app::error::AppError;
use door::permit::{About, Denied, Reach, Thing, reach};
use door::principal::{Principal, Via};
use door::role::Role;
use jiff::civil::Date;
use store::SubjectId;

use crate::web::pages::record;

/// What an address asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Needs {
    /// Nothing: the door itself, and files without a word about anybody.
    Nothing,
    /// The demo, where there is no door.
    Demo,
    /// Somebody who is known: an account or a paired device.
    Known,
    /// Somebody with an account of their own; no device.
    Account,
    /// The thing, about everybody.
    Everybody(Thing),
    /// The thing about somebody at least, one's own record included: the page shows what the role's own type holds.
    Some(Thing),
    /// The thing, about the swimmer `{id}` of the address.
    Swimmer(Thing),
    /// What recording by the sheet `{sheet}` takes, about the swimmer `{id}`.
    Sheet,
}

/// Reading whatever the practitioner reads: reasons and health words of everybody.
pub const CLINICAL: Needs = Needs::Everybody(Thing::Health);
/// Running a session: owner, practitioner, supervisor and every paired device.
pub const DECK: Needs = Needs::Everybody(Thing::RecordSession);

/// Why an address stays shut.
#[derive(Debug)]
pub enum Shut {
    /// Nobody is known: sign in first.
    SignIn,
    /// Known, and not allowed; or the swimmer is not there.
    No(AppError),
    /// Nothing stands there for anybody.
    Missing,
}

/// What the address names.
#[derive(Debug, Clone, Copy)]
pub struct Named<'a> {
    /// The swimmer, as written.
    pub id: &'a str,
    /// The sheet, as written.
    pub sheet: &'a str,
    /// True in the demo.
    pub demo: bool,
}

impl Needs {
    /// The thing it asks for, where it is one.
    pub const fn thing(self) -> Option<Thing> {
        match self {
            Needs::Everybody(thing) | Needs::Some(thing) | Needs::Swimmer(thing) => Some(thing),
            Needs::Nothing | Needs::Demo | Needs::Known | Needs::Account | Needs::Sheet => None,
        }
    }

    /// How far a role with an account gets: for the page of addresses, the navigation and the matrix of tests.
    pub fn reaches(self, role: Role) -> Reach {
        match self {
            Needs::Nothing | Needs::Known | Needs::Account => Reach::All,
            Needs::Demo => Reach::Nothing,
            Needs::Everybody(thing) => match reach(role, thing) {
                Reach::All => Reach::All,
                _ => Reach::Nothing,
            },
            Needs::Some(thing) | Needs::Swimmer(thing) => reach(role, thing),
            Needs::Sheet => {
                let each = record::SHEETS.iter().map(|sheet| reach(role, recording(sheet.kind)));
                each.max().unwrap_or(Reach::Nothing)
            }
        }
    }

    /// Whether whoever asks may open it. What was asked for comes back, for the audit.
    pub fn judge(self, desk: &Desk, who: Option<&Principal>, named: Named<'_>, on: Date) -> Result<(), Shut> {
        match self {
            Needs::Nothing => return Ok(()),
            Needs::Demo if named.demo => return Ok(()),
            Needs::Demo => return Err(Shut::Missing),
            _ => {}
        }
        let who = who.ok_or(Shut::SignIn)?;
        match self {
            Needs::Nothing | Needs::Demo | Needs::Known => Ok(()),
            Needs::Account if matches!(who.via, Via::Device(_)) => Err(Shut::No(denied(Denied::Role))),
            Needs::Account => Ok(()),
            Needs::Everybody(thing) => desk.may(who, thing, About::Everybody, on).map_err(Shut::No),
            Needs::Some(thing) if reach(who.role, thing) == Reach::Nothing => {
                Err(Shut::No(denied(Denied::Role)))
            }
            Needs::Some(_) => Ok(()),
            Needs::Swimmer(thing) => about(desk, who, thing, named.id, on),
            Needs::Sheet => {
                let sheet = record::sheet(named.sheet).ok_or(Shut::Missing)?;
                about(desk, who, recording(sheet.kind), named.id, on)
            }
        }
    }
}

/// One swimmer. Whoever sees only their own gets one answer for a record that is not there and one that is not theirs.
fn about(desk: &Desk, who: &Principal, thing: Thing, id: &str, on: Date) -> Result<(), Shut> {
    if reach(who.role, thing) == Reach::Nothing {
        return Err(Shut::No(denied(Denied::Role)));
    }
    let subject: Option<SubjectId> = id.parse().ok();
    let own = subject.is_some_and(|subject| who.bound.contains_key(&app::entry::subject_of(subject)));
    if who.role.is_bound() && !own {
        return Err(Shut::No(denied(Denied::NotYours)));
    }
    let subject = subject.ok_or(Shut::Missing)?;
    // The club's own facts are not a swimmer.
    desk.person(subject).map_err(Shut::No)?;
    desk.may_about(who, thing, subject, on).map_err(Shut::No)
}

/// What is seen of swimmers on a page that asks for a thing; none where it is about no swimmer. Looking at it is
/// written down.
pub const fn seen_by_opening(thing: Thing) -> Option<Thing> {
    match thing {
        Thing::Roster
        | Thing::Personal
        | Thing::Availability
        | Thing::WaterAdvice
        | Thing::Attendance
        | Thing::Card
        | Thing::Today
        | Thing::Emergency
        | Thing::Pain
        | Thing::Health
        | Thing::Screening
        | Thing::History
        | Thing::Letters
        | Thing::Notes
        | Thing::Consent
        | Thing::AuditOfRecord => Some(thing),
        // Whoever is about to do one of these reads what it is done with.
        Thing::RecordSession => Some(Thing::Card),
        Thing::Decide => Some(Thing::Health),
        _ => None,
    }
}
