//! What a person does with the week: adopt a plan, confirm a repair, ask for a time, overrule by name, take one out.
//!
//! Each gives the facts to be recorded, and is refused when the week has changed since it was read. A session keeps its
//! name in calendars through every change, and each change counts.

use jiff::civil::{Date, Time};
use schedule::time::Span;
use schedule::week::audit::{Session, breaches};
use schedule::week::plan::{Answer, plan};
use schedule::week::repair::{Repair, repair};
use schedule::week::request::{Reply, Request, answer, answer_instead};
use schedule::week::{Placed, Slot};

use super::stored::StoredWeek;
use super::timetable::Kept;
use crate::desk::{Desk, Draft};
use crate::error::{AppError, ErrorKind};
use crate::facts::{DrylandFact, OverruledWord};
use crate::text::Texts;

/// Longest search behind a page, seconds.
const PAGE_SECONDS: f64 = 8.0;

/// What the planner says of a stored week.
#[derive(Debug, Clone)]
pub enum Standing {
    /// Nobody knows of any session yet; this would be the plan, or the clash.
    Unplanned(Answer),
    /// Everything people know of still holds.
    Sound,
    /// Something no longer holds; this is the least change.
    Broken(Box<Repair>),
    /// Time ran out.
    OutOfTime,
}

/// How a stored week stands.
pub fn standing(stored: &StoredWeek) -> Standing {
    let week = &stored.week;
    if week.known.is_empty() {
        return Standing::Unplanned(plan(week, PAGE_SECONDS));
    }
    let known: Vec<Session> = week.known.iter().map(Session::from).collect();
    if breaches(week, &known).is_empty() {
        return Standing::Sound;
    }
    repair(week, PAGE_SECONDS).map_or(Standing::OutOfTime, |repair| Standing::Broken(Box::new(repair)))
}

/// A wish of somebody, by the names a form carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wish {
    /// Squad.
    pub squad: String,
    /// Place.
    pub place: String,
    /// Day.
    pub date: Date,
    /// Start.
    pub from: Time,
    /// End.
    pub to: Time,
}

impl StoredWeek {
    /// A wish as the planner reads it.
    pub fn request(&self, wish: &Wish) -> Result<Request, AppError> {
        let unknown = |what: &str| AppError::new(ErrorKind::Input, "week-unknown-name").with("name", what);
        let group = self.week.groups.iter().position(|group| group.name == wish.squad);
        let place = self.week.places.iter().position(|place| place.name == wish.place);
        let (from, to) = (wish.date.to_datetime(wish.from), wish.date.to_datetime(wish.to));
        let span = Span::new(&self.week.zone, from, to).map_err(|_| {
            AppError::new(ErrorKind::Input, "week-end-before-start")
                .with("from", wish.from)
                .with("to", wish.to)
        })?;
        Ok(Request {
            group: group.ok_or_else(|| unknown(&wish.squad))?,
            place: place.ok_or_else(|| unknown(&wish.place))?,
            span,
        })
    }

    /// What is said to a wish. `instead` names the session that is to move; without it one of the same day moves.
    pub fn reply(&self, wish: &Wish, instead: Option<&str>) -> Result<(Request, Reply), AppError> {
        let request = self.request(wish)?;
        let reply = match instead {
            None => answer(&self.week, &request),
            Some(uid) => {
                let at =
                    self.known.iter().position(|kept| kept.fact.uid == uid && kept.fact.squad == wish.squad);
                let at = at.ok_or_else(|| AppError::new(ErrorKind::NotFound, "week-no-session"))?;
                answer_instead(&self.week, &request, Some(at))
            }
        };
        Ok((request, reply))
    }
}

fn stale() -> AppError {
    AppError::new(ErrorKind::Refused, "week-stale").hint("week-stale-hint")
}

fn text(name: &str) -> String {
    Texts::english().word(name)
}

impl Desk {
    /// Adopts the plan of a week of which nobody knows a session yet.
    pub fn adopt_plan(&self, monday: Date, seen: &str) -> Result<Vec<Draft>, AppError> {
        let stored = self.week_of(monday)?;
        if stored.digest != seen {
            return Err(stale());
        }
        let Standing::Unplanned(Answer::Plan(plan)) = standing(&stored) else { return Err(stale()) };
        plan.sessions.iter().map(|placed| self.new_session(&stored, *placed)).collect()
    }

    fn new_session(&self, stored: &StoredWeek, placed: Placed) -> Result<Draft, AppError> {
        let slot = stored.week.slots[placed.slot];
        let squad = stored.week.groups[placed.group].name.clone();
        let uid = self.fresh_uid(&squad, slot.span.day())?;
        let fact = session_at(
            stored,
            &slot,
            DrylandFact {
                uid,
                sequence: 0,
                squad,
                place: String::new(),
                date: slot.span.day(),
                from: Time::midnight(),
                to: Time::midnight(),
                cancelled: false,
                overruled: None,
            },
        );
        Ok(Draft::new(&fact))
    }

    /// A name that no session has had: taken ones stay taken, also after a session was cancelled.
    fn fresh_uid(&self, squad: &str, day: Date) -> Result<String, AppError> {
        let plain: String = squad
            .to_lowercase()
            .chars()
            .map(|letter| if letter.is_alphanumeric() { letter } else { '-' })
            .collect();
        let first = format!("dryland-{plain}-{day}");
        let table = &self.club().timetable;
        std::iter::once(first.clone())
            .chain((2..100).map(|number| format!("{first}-{number}")))
            .find(|uid| table.dryland_called(uid).is_none())
            .ok_or_else(|| AppError::new(ErrorKind::Refused, "week-too-many-changes"))
    }

    /// Confirms the repair of a week.
    pub fn confirm_repair(&self, monday: Date, seen: &str) -> Result<Vec<Draft>, AppError> {
        let stored = self.week_of(monday)?;
        if stored.digest != seen {
            return Err(stale());
        }
        let Standing::Broken(repair) = standing(&stored) else { return Err(stale()) };
        let mut drafts = Vec::new();
        for change in &repair.moves {
            let draft = match (change.from, change.to) {
                (Some(from), to) => {
                    let kept = &stored.known[from];
                    let mut fact = next_of(kept);
                    match to {
                        Some(slot) => fact = session_at(&stored, &stored.week.slots[slot], fact),
                        None => fact.cancelled = true,
                    }
                    Draft::new(&fact).correcting(kept.id, &text("week-reason-repair"))
                }
                (None, Some(slot)) => self.new_session(&stored, Placed { group: change.group, slot })?,
                (None, None) => continue,
            };
            drafts.push(draft);
        }
        Ok(drafts)
    }

    /// Sets or moves a session to a wished time, which must be allowed, or be overruled by name with a reason.
    ///
    /// The session that it stands instead of moves; otherwise a new one is set.
    pub fn grant(
        &self,
        monday: Date,
        wish: &Wish,
        instead: Option<&str>,
        overruled: Option<OverruledWord>,
    ) -> Result<Draft, AppError> {
        let stored = self.week_of(monday)?;
        let (request, reply) = stored.reply(wish, instead)?;
        let overruled = match (reply.is_granted(), reply.can_be_overruled, overruled) {
            (true, _, _) => None,
            (false, true, Some(own)) => Some(own),
            (false, _, _) => {
                return Err(
                    AppError::new(ErrorKind::Refused, "week-not-granted").hint("week-not-granted-hint")
                );
            }
        };
        let slot = Slot { place: request.place, span: request.span, in_window: true, exact: false };
        Ok(match reply.instead_of.and_then(|at| stored.known.get(at)).cloned() {
            Some(kept) => {
                let mut fact = session_at(&stored, &slot, next_of(&kept));
                fact.overruled = overruled;
                Draft::new(&fact).correcting(kept.id, &text("week-reason-wish"))
            }
            None => Draft::new(&session_at(
                &stored,
                &slot,
                DrylandFact {
                    uid: self.fresh_uid(&wish.squad, wish.date)?,
                    sequence: 0,
                    squad: wish.squad.clone(),
                    place: wish.place.clone(),
                    date: wish.date,
                    from: wish.from,
                    to: wish.to,
                    cancelled: false,
                    overruled,
                },
            )),
        })
    }

    /// Takes a session out: it stays in the calendars as cancelled.
    pub fn cancel_session(&self, uid: &str) -> Result<Draft, AppError> {
        let kept = self.club().timetable.dryland_called(uid).filter(|kept| !kept.fact.cancelled).cloned();
        let kept = kept.ok_or_else(|| AppError::new(ErrorKind::NotFound, "week-no-session"))?;
        let fact = DrylandFact { cancelled: true, ..next_of(&kept) };
        Ok(Draft::new(&fact).correcting(kept.id, &text("week-reason-cancelled")))
    }
}

/// The same session, one change later.
fn next_of(kept: &Kept<DrylandFact>) -> DrylandFact {
    DrylandFact { sequence: kept.fact.sequence.saturating_add(1), overruled: None, ..kept.fact.clone() }
}

/// A session put into a slot.
fn session_at(stored: &StoredWeek, slot: &Slot, fact: DrylandFact) -> DrylandFact {
    let (start, end) = (slot.span.start.civil(), slot.span.end.civil());
    DrylandFact {
        place: stored.week.places[slot.place].name.clone(),
        date: start.date(),
        from: start.time(),
        to: end.time(),
        ..fact
    }
}
