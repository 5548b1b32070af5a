//! The club's own week: facts become the question that the planner answers.

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;
use schedule::settings::Settings;
use schedule::time::Span;
use schedule::week::slots::{after_practices, from_known, from_windows};
use schedule::week::{
    Busy, Camp, Closure, Grade, Group, Known, Load, Meet, Override, Place, Supervisor, Water, Week, Window,
};
use sha2::{Digest, Sha256};

use super::timetable::Kept;
use crate::desk::Desk;
use crate::error::{AppError, ErrorKind};
use crate::facts::{DrylandFact, GradeWord, OtherTimeFact};

/// The club's week, with what a page needs beside it.
#[derive(Debug, Clone)]
pub struct StoredWeek {
    /// The question.
    pub week: Week,
    /// Sessions people know of, in the order of `week.known`.
    pub known: Vec<Kept<DrylandFact>>,
    /// Practices that fall out on a day, with the reason.
    pub fallen_out: Vec<FallenOut>,
    /// Entries that could not be placed because clocks jump over their time.
    pub skipped: Vec<String>,
    /// Single swimmers who carry another load near a session of their squad: they sit that session out.
    pub sit_out: Vec<SitOut>,
    /// Changes when anything that matters here changes: a confirmation of what was read is refused otherwise.
    pub digest: String,
}

/// A practice that falls out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FallenOut {
    /// Squad.
    pub squad: String,
    /// When it would have been.
    pub at: (DateTime, DateTime),
    /// Why.
    pub why: String,
}

/// A swimmer who sits a session out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SitOut {
    /// Subject id.
    pub swimmer: String,
    /// The session's name in calendars.
    pub uid: String,
    /// The other load.
    pub what: String,
}

/// Monday of the week of a day.
pub fn monday_of(day: Date) -> Date {
    schedule::year::monday_of(day)
}

impl Desk {
    /// The club's zone.
    pub fn club_zone(&self) -> Result<TimeZone, AppError> {
        let no_club = || AppError::new(ErrorKind::Refused, "week-no-club").hint("week-no-club-hint");
        let about = self.club().about.as_ref().ok_or_else(no_club)?;
        TimeZone::get(&about.zone).map_err(|_| no_club())
    }

    /// Squads that practise, are planned for or have swimmers, by name.
    pub fn squads(&self, on: Date) -> Vec<String> {
        let table = &self.club().timetable;
        let mut squads: Vec<String> = table
            .plans
            .iter()
            .map(|kept| kept.fact.squad.clone())
            .chain(table.practices.iter().map(|kept| kept.fact.squad.clone()))
            .chain(self.squad_on(on).map(|person| person.read.swimmer.squad.clone()))
            .filter(|squad| !squad.trim().is_empty())
            .collect();
        squads.sort();
        squads.dedup();
        squads
    }

    /// The thresholds of the timetable, from the protocol in force.
    pub fn week_settings(&self) -> Settings {
        let own = &self.protocol().parameters;
        Settings {
            pre_water_gap_h: own.pre_water_gap_h,
            free_days: own.free_days_between_loaded,
            min_hours_between: own.min_hours_between_loaded,
            meet_gap_ab_h: own.meet_gap_ab_h,
            meet_gap_c_h: own.meet_gap_c_h,
            sessions_week: own.sessions_week[0],
            ratio: own.supervise_ratio.map(u32::from),
            ..Settings::default()
        }
    }

    /// The week that begins on a Monday.
    pub fn week_of(&self, monday: Date) -> Result<StoredWeek, AppError> {
        let zone = self.club_zone()?;
        let mut week = Week::new(zone, monday, monday.saturating_add(6.days()));
        week.settings = self.week_settings();
        let squads = self.squads(monday);
        let mut build = Build { desk: self, squads, skipped: Vec::new(), fallen_out: Vec::new() };
        build.groups(&mut week);
        build.places(&mut week);
        build.water(&mut week);
        build.others(&mut week);
        let known = build.sessions(&mut week);
        from_windows(&mut week, &[]);
        after_practices(&mut week);
        from_known(&mut week);
        let sit_out = build.sit_out(&week, &known);
        let digest = digest(&week);
        let Build { skipped, fallen_out, .. } = build;
        Ok(StoredWeek { week, known, fallen_out, skipped, sit_out, digest })
    }
}

/// Everything that an answer depends on, in short.
fn digest(week: &Week) -> String {
    let Week {
        settings,
        groups,
        places,
        windows,
        water,
        supervisors,
        meets,
        closures,
        busy,
        loads,
        camps,
        known,
        ..
    } = week;
    let all = format!(
        "{settings:?}{groups:?}{places:?}{windows:?}{water:?}{supervisors:?}{meets:?}{closures:?}{busy:?}{loads:?}{camps:?}{known:?}"
    );
    Sha256::digest(all.as_bytes()).iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}

struct Build<'a> {
    desk: &'a Desk,
    squads: Vec<String>,
    skipped: Vec<String>,
    fallen_out: Vec<FallenOut>,
}

/// Days around the week on which something may still matter: loads take free days on both sides.
const AROUND: i64 = 3;
/// First start of a meet when nobody wrote it down: early, so on the careful side.
const FIRST_START: Time = Time::constant(8, 0, 0, 0);
const LAST_END: Time = Time::constant(20, 0, 0, 0);

impl Build<'_> {
    fn span(&mut self, week: &Week, from: DateTime, to: DateTime, what: &str) -> Option<Span> {
        let span = Span::new(&week.zone, from, to);
        if span.is_err() {
            self.skipped.push(format!("{what}, {from}"));
        }
        span.ok()
    }

    fn days(&self, week: &Week) -> Vec<Date> {
        let first = week.first.saturating_sub(AROUND.days());
        (0..7 + 2 * AROUND).map(|step| first.saturating_add(step.days())).collect()
    }

    fn who(&self, squads: &[String]) -> Vec<usize> {
        let is_meant = |squad: &String| squads.is_empty() || squads.contains(squad);
        (0..self.squads.len()).filter(|at| is_meant(&self.squads[*at])).collect()
    }

    fn groups(&self, week: &mut Week) {
        let table = &self.desk.club().timetable;
        for squad in &self.squads {
            let members: Vec<_> =
                self.desk.squad_on(week.first).filter(|person| person.read.swimmer.squad == *squad).collect();
            let is_young = members.iter().any(|person| person.read.history.swimmer.age_on(week.first) < 13);
            let plan = table.plans.iter().find(|kept| kept.fact.squad == *squad).map(|kept| &kept.fact);
            let sessions = plan.map_or(0, |plan| plan.sessions);
            week.groups.push(Group {
                name: squad.clone(),
                size: u32::try_from(members.len()).unwrap_or(u32::MAX).max(1),
                young: is_young || plan.is_some_and(|plan| plan.teaching),
                sessions,
                at_least: plan.and_then(|plan| plan.at_least).unwrap_or(sessions),
                minutes: plan.map_or(35, |plan| i64::from(plan.minutes)),
                needs: Vec::new(),
                wishes: Vec::new(),
            });
        }
    }

    fn place(&self, week: &mut Week, name: &str) -> usize {
        let found = week.places.iter().position(|place| place.name == name);
        found.unwrap_or_else(|| {
            week.places.push(Place { name: name.to_owned(), groups_at_once: 1, people: None });
            week.places.len() - 1
        })
    }

    fn places(&mut self, week: &mut Week) {
        let table = &self.desk.club().timetable;
        for kept in &table.deck {
            let place = self.place(week, &kept.fact.place);
            week.places[place].groups_at_once = u32::from(kept.fact.groups_at_once.max(1));
            week.places[place].people = kept.fact.swimmers.map(u32::from);
            for span in self.weekly(week, &kept.fact.hours, &kept.fact.place) {
                week.windows.push(Window { place, span });
            }
        }
        for kept in &table.supervisors {
            let hours = self.weekly(week, &kept.fact.hours, &kept.fact.name);
            let ratio = kept.fact.ratio.map(|own| {
                let own = u32::from(own);
                [own.min(week.settings.ratio[0]), own]
            });
            week.supervisors.push(Supervisor { name: kept.fact.name.clone(), hours, ratio });
        }
        for kept in &table.closures {
            let fact = &kept.fact;
            let Some(place) = week.places.iter().position(|place| place.name == fact.place) else { continue };
            let mut day = fact.from.max(week.first);
            while day <= fact.to.min(week.last) {
                let (from, to) = fact.between.unwrap_or((Time::midnight(), Time::constant(23, 59, 0, 0)));
                if let Some(span) = self.span(week, day.to_datetime(from), day.to_datetime(to), &fact.place) {
                    week.closures.push(Closure { place: Some(place), span, why: fact.why.clone() });
                }
                day = day.saturating_add(1.day());
            }
        }
    }

    fn weekly(&mut self, week: &Week, hours: &[crate::facts::HoursWord], what: &str) -> Vec<Span> {
        let mut spans = Vec::new();
        for one in hours {
            let day = week.first.saturating_add(i64::from(one.weekday - 1).days());
            spans.extend(self.span(week, day.to_datetime(one.from), day.to_datetime(one.to), what));
        }
        spans
    }

    fn water(&mut self, week: &mut Week) {
        let table = &self.desk.club().timetable;
        for day in self.days(week) {
            for kept in &table.practices {
                let fact = &kept.fact;
                if fact.weekday != day.weekday().to_monday_one_offset() {
                    continue;
                }
                let change = table.changes.iter().map(|kept| &kept.fact).find(|change| {
                    change.date == day
                        && change.was == Some(fact.from)
                        && (change.squad.is_empty() || change.squad == fact.squad)
                });
                let closed = table.closures.iter().map(|kept| &kept.fact).find(|closed| {
                    let hits = closed.between.is_none_or(|(from, to)| fact.from < to && from < fact.to);
                    closed.from <= day
                        && day <= closed.to
                        && !fact.place.is_empty()
                        && closed.place == fact.place
                        && hits
                });
                let holiday = table
                    .holidays
                    .iter()
                    .map(|kept| &kept.fact)
                    .find(|holiday| holiday.from <= day && day <= holiday.to && !holiday.exams);
                let usual = (day.to_datetime(fact.from), day.to_datetime(fact.to));
                let why = match (change, closed, holiday) {
                    (Some(change), _, _) if change.now.is_none() => Some(change.why.clone()),
                    (Some(_), _, _) => {
                        // The moved practice itself is added below, with the extra ones.
                        continue;
                    }
                    (None, Some(closed), _) => Some(closed.why.clone()),
                    (None, None, Some(holiday)) => Some(holiday.name.clone()),
                    (None, None, None) => None,
                };
                match why {
                    Some(why) => {
                        if week.first <= day && day <= week.last {
                            self.fallen_out.push(FallenOut { squad: fact.squad.clone(), at: usual, why });
                        }
                    }
                    None => self.swim(week, &fact.squad, usual),
                }
            }
        }
        let days = self.days(week);
        for kept in &table.changes {
            if let Some(now) = kept.fact.now.as_ref().filter(|now| days.contains(&now.date)) {
                self.swim(
                    week,
                    &kept.fact.squad,
                    (now.date.to_datetime(now.from), now.date.to_datetime(now.to)),
                );
            }
        }
    }

    fn swim(&mut self, week: &mut Week, squad: &str, (from, to): (DateTime, DateTime)) {
        let named: Vec<String> = if squad.is_empty() { Vec::new() } else { vec![squad.to_owned()] };
        let groups = self.who(&named);
        let name = crate::text::Texts::english().say("week-practice", &[("squad", squad.to_owned())]);
        if let Some(span) = self.span(week, from, to, &name) {
            week.water.push(Water { name, groups, span });
        }
    }

    fn others(&mut self, week: &mut Week) {
        let table = &self.desk.club().timetable;
        let days = self.days(week);
        for kept in table.others.iter().filter(|kept| kept.fact.swimmers.is_empty()) {
            let fact = &kept.fact;
            for day in dates(fact, &days) {
                let span = self.span(week, day.to_datetime(fact.from), day.to_datetime(fact.to), &fact.what);
                let Some(span) = span else { continue };
                let (name, groups) = (fact.what.clone(), self.who(&fact.squads));
                if fact.loads_shoulders {
                    week.loads.push(Load { name, groups, span });
                } else {
                    week.busy.push(Busy { name, groups, span });
                }
            }
        }
        for kept in &table.meets {
            let fact = &kept.fact;
            let last = fact.last.unwrap_or(fact.date).max(fact.date);
            let from = fact.date.to_datetime(fact.starts.unwrap_or(FIRST_START));
            let name = fact.name.clone().unwrap_or_else(|| fact.date.to_string());
            let Some(span) = self.span(week, from, last.to_datetime(LAST_END), &name) else { continue };
            let grade = match fact.grade {
                GradeWord::A => Grade::A,
                GradeWord::B => Grade::B,
                GradeWord::C => Grade::C,
            };
            week.meets.push(Meet { name, grade, groups: self.who(&fact.squads), span });
        }
        for period in &self.desk.club().calendar.periods {
            if period.phase == trade::history::Phase::Camp {
                let groups = (0..self.squads.len()).collect();
                week.camps.push(Camp { groups, from: period.from, to: period.to });
            }
        }
    }

    fn sessions(&mut self, week: &mut Week) -> Vec<Kept<DrylandFact>> {
        let table = &self.desk.club().timetable;
        let days = self.days(week);
        let mut known = Vec::new();
        for kept in table.dryland.iter().filter(|kept| !kept.fact.cancelled && days.contains(&kept.fact.date))
        {
            let fact = &kept.fact;
            let Some(group) = self.squads.iter().position(|squad| *squad == fact.squad) else { continue };
            let from = fact.date.to_datetime(fact.from);
            let Some(span) = self.span(week, from, fact.date.to_datetime(fact.to), &fact.squad) else {
                continue;
            };
            if fact.date < week.first || week.last < fact.date {
                let name = crate::text::Texts::english().word("week-own-session");
                week.loads.push(Load { name, groups: vec![group], span });
                continue;
            }
            let place = self.place(week, &fact.place);
            let overruled = fact
                .overruled
                .as_ref()
                .map(|own| Override { by: own.by.clone(), reason: own.reason.clone() });
            week.known.push(Known { group, place, span, overruled });
            known.push(kept.clone());
        }
        known
    }

    /// Single swimmers whose own load stands too near a session of their squad.
    fn sit_out(&self, week: &Week, known: &[Kept<DrylandFact>]) -> Vec<SitOut> {
        let days = self.days(week);
        let mut all = Vec::new();
        for kept in self.desk.club().timetable.others.iter().filter(|kept| kept.fact.loads_shoulders) {
            for swimmer in &kept.fact.swimmers {
                let squad = swimmer.parse().ok().and_then(|subject| self.desk.person(subject).ok());
                let Some(squad) = squad.map(|person| person.read.swimmer.squad.clone()) else { continue };
                for day in dates(&kept.fact, &days) {
                    let near = known.iter().filter(|session| {
                        let apart = schedule::time::days_between(day, session.fact.date).abs();
                        session.fact.squad == squad && apart <= i64::from(week.settings.free_days)
                    });
                    all.extend(near.map(|session| SitOut {
                        swimmer: swimmer.clone(),
                        uid: session.fact.uid.clone(),
                        what: kept.fact.what.clone(),
                    }));
                }
            }
        }
        all
    }
}

/// Days of an entry among some days.
fn dates(fact: &OtherTimeFact, days: &[Date]) -> Vec<Date> {
    days.iter()
        .copied()
        .filter(|day| fact.date == Some(*day) || fact.weekday == Some(day.weekday().to_monday_one_offset()))
        .collect()
}
