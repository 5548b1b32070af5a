//! The practitioner's desk: one open store, the protocol in force, and every swimmer as read from the facts.
//!
//! What is read is kept, and read again only for those whose facts changed. Everything shown is a function of the
//! facts, the protocol and the day asked about.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use jiff::civil::Date;
use store::{Correction, FactId, NewFact, OnRefusal, Outcome, Payload, Store, SubjectId};
use trade::dosing::{Plan, plan};
use trade::due::{Due, due};
use trade::gate::{Gate, gate};
use trade::history::Calendar;
use trade::protocol::Protocol;

use crate::error::{AppError, ErrorKind};
use crate::facts::{self, ClubFact, Kind, read_json};
use crate::history::{LiveFact, Read, Unreadable, read, read_calendar};
use crate::moment::Moment;
use crate::review::{Waiting, waiting_for};
use crate::set_times::{SetTimes, set_times};
use crate::text::{Reader, Texts};
use crate::week::timetable::Timetable;

/// Who writes, and from where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Author {
    /// Name.
    pub name: String,
    /// Device.
    pub device: String,
}

/// A fact that somebody is about to record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// Kind.
    pub kind: Kind,
    /// Payload as JSON.
    pub payload: String,
    /// The fact it replaces, with the reason.
    pub corrects: Option<(FactId, String)>,
}

impl Draft {
    /// A new fact of one shape.
    pub fn new<T: facts::Payload>(fact: &T) -> Self {
        let payload = serde_json::to_string(fact).expect("a wire shape can always be written as JSON");
        Self { kind: T::KIND, payload, corrects: None }
    }

    /// The same as a correction of another fact.
    pub fn correcting(mut self, of: FactId, reason: &str) -> Self {
        self.corrects = Some((of, reason.to_owned()));
        self
    }
}

/// One swimmer as read from the facts.
#[derive(Debug, Clone)]
pub struct Person {
    /// Random id.
    pub subject: SubjectId,
    /// What is on record.
    pub read: Read,
    /// Facts about which a person must settle something.
    pub contested: usize,
}

/// What the rules say of one swimmer on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// May, and why not.
    pub gate: Gate,
    /// Next session.
    pub plan: Plan,
    /// To close.
    pub due: Vec<Due>,
    /// Proposals that wait for a person.
    pub waiting: Vec<Waiting>,
}

/// The desk.
pub struct Desk {
    store: Store,
    protocol: Arc<Protocol>,
    people: BTreeMap<SubjectId, Person>,
    club: Club,
    assessed: Mutex<BTreeMap<(SubjectId, Date), Arc<Assessment>>>,
    fitted: Mutex<Option<(Date, Arc<SetTimes>)>>,
}

/// The club as read from its facts.
#[derive(Debug, Clone, Default)]
pub struct Club {
    /// Who the club is; none before the first record of it.
    pub about: Option<ClubFact>,
    /// Season, periods, meets.
    pub calendar: Calendar,
    /// Weekly water practices.
    pub practices: Vec<facts::PracticeFact>,
    /// Kit.
    pub kit: Vec<facts::KitPieceFact>,
    /// Inspections.
    pub inspections: Vec<facts::InspectionFact>,
    /// Deck hours, supervisors, closures, dryland sessions.
    pub timetable: Timetable,
    /// The club's own trials of its tests, oldest first.
    pub trials: Vec<facts::TrialFact>,
    /// Calibrations of bands, oldest first.
    pub calibrations: Vec<facts::CalibrationFact>,
    /// Bands in service with a calibration, by what they pull.
    pub measured: Vec<crate::text::MeasuredBand>,
    /// What could not be read.
    pub unreadable: Vec<Unreadable>,
}

impl Desk {
    /// Sits down at an open store.
    pub fn new(store: Store, protocol: Protocol) -> Result<Self, AppError> {
        let mut desk = Self {
            store,
            protocol: Arc::new(protocol),
            people: BTreeMap::new(),
            club: Club::default(),
            assessed: Mutex::new(BTreeMap::new()),
            fitted: Mutex::new(None),
        };
        desk.read_everything()?;
        Ok(desk)
    }

    /// The protocol in force.
    pub fn protocol(&self) -> &Protocol {
        &self.protocol
    }

    /// The club.
    pub fn club(&self) -> &Club {
        &self.club
    }

    /// The store, for reading.
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// The store, for what is written beside the facts: accounts, sessions, the audit, erasure.
    pub(crate) fn store_mut(&mut self) -> &mut Store {
        &mut self.store
    }

    /// Whose eyes sentences are for.
    pub fn reader(&self) -> Reader<'_> {
        let units = self.club.about.as_ref().map_or(facts::Units::Metric, |club| club.units);
        Reader { protocol: &self.protocol, units, measured: &self.club.measured }
    }

    /// The catalogue.
    pub fn texts(&self) -> &'static Texts {
        Texts::english()
    }

    /// Every swimmer, by id.
    pub fn people(&self) -> impl Iterator<Item = &Person> {
        self.people.values()
    }

    /// Swimmers of the squad on a day: those who have not left.
    pub fn squad_on(&self, day: Date) -> impl Iterator<Item = &Person> {
        self.people().filter(move |person| person.read.swimmer.left.is_none_or(|left| day < left))
    }

    /// One swimmer.
    pub fn person(&self, subject: SubjectId) -> Result<&Person, AppError> {
        self.people.get(&subject).ok_or_else(|| {
            AppError::new(ErrorKind::NotFound, "error-no-swimmer").hint("error-no-swimmer-hint")
        })
    }

    /// What the rules say of one swimmer on one day.
    pub fn assess(&self, person: &Person, on: Date) -> Arc<Assessment> {
        let key = (person.subject, on);
        if let Some(known) = self.assessed.lock().unwrap_or_else(PoisonError::into_inner).get(&key) {
            return Arc::clone(known);
        }
        let history = &person.read.history;
        let gate = gate(&self.protocol, history, on);
        let plan = plan(&self.protocol, history, &gate);
        let next_practice = self.next_practice(&person.read.swimmer.squad, on);
        let due = due(&self.protocol, history, on, next_practice);
        let due = due.into_iter().filter(|item| !self.talked_since(person, item)).collect();
        let waiting = waiting_for(person, &plan);
        let assessment = Arc::new(Assessment { gate, plan, due, waiting });
        self.assessed.lock().unwrap_or_else(PoisonError::into_inner).insert(key, Arc::clone(&assessment));
        assessment
    }

    /// The club's set times as one model, looking ahead to a day. Kept until a fact changes: a fit takes a while.
    pub fn set_times(&self, on: Date) -> Arc<SetTimes> {
        if let Some((day, known)) = &*self.fitted.lock().unwrap_or_else(PoisonError::into_inner)
            && *day == on
        {
            return Arc::clone(known);
        }
        let found = Arc::new(set_times(self, on));
        *self.fitted.lock().unwrap_or_else(PoisonError::into_inner) = Some((on, Arc::clone(&found)));
        found
    }

    /// A talk about the same rule within the last week closes "something to ask".
    fn talked_since(&self, person: &Person, due: &Due) -> bool {
        due.kind == trade::due::Kind::Talk
            && person.read.talks.iter().any(|talk| {
                talk.about == due.line.rule.0 && trade::history::days_between(talk.date, due.by).abs() <= 7
            })
    }

    /// The day of the squad's next water practice, on or after a day.
    pub fn next_practice(&self, squad: &str, on: Date) -> Option<Date> {
        use jiff::ToSpan;
        (0..7).map(|days| on.saturating_add(i32::from(days as i8).days())).find(|day| {
            self.club.practices.iter().any(|practice| {
                (practice.squad.is_empty() || practice.squad == squad)
                    && practice.weekday == day.weekday().to_monday_one_offset()
            })
        })
    }

    /// Records facts about one subject: all of them or none. Every payload is read back as the trade would read it
    /// before anything is stored.
    pub fn record(
        &mut self,
        moment: &Moment,
        author: &Author,
        subject: SubjectId,
        drafts: &[Draft],
    ) -> Result<Vec<FactId>, AppError> {
        let drafts: Vec<(SubjectId, Draft)> = drafts.iter().map(|draft| (subject, draft.clone())).collect();
        self.record_many(moment, author, &drafts)
    }

    /// Records facts about several subjects: all of them or none.
    pub fn record_many(
        &mut self,
        moment: &Moment,
        author: &Author,
        drafts: &[(SubjectId, Draft)],
    ) -> Result<Vec<FactId>, AppError> {
        if author.name.trim().is_empty() {
            return Err(AppError::new(ErrorKind::Input, "error-blank-author"));
        }
        let mut problems = Vec::new();
        for (_, draft) in drafts {
            if let Err(found) = crate::history::check(&self.protocol, draft.kind, &draft.payload) {
                problems.extend(found);
            }
        }
        if !problems.is_empty() {
            return Err(AppError::problems(problems));
        }
        let mut batch = Vec::new();
        for (subject, draft) in drafts {
            batch.push(NewFact {
                id: FactId::fresh(moment.unix_millis),
                kind: draft.kind.word().to_owned(),
                version: 1,
                subject: *subject,
                payload: Some(payload_of(&draft.payload)?),
                author: author.name.clone(),
                device: author.device.clone(),
                device_seq: 0,
                device_time: moment.stamp.clone(),
                correction: draft
                    .corrects
                    .as_ref()
                    .map(|(of, reason)| Correction { of: *of, reason: reason.clone() }),
                natural_key: None,
            });
        }
        let ids = batch.iter().map(|fact| fact.id).collect();
        self.append(moment, batch)?;
        Ok(ids)
    }

    /// Stores prepared facts, all or nothing, with the protocol in force kept beside them.
    pub fn append(&mut self, moment: &Moment, facts: Vec<NewFact>) -> Result<Vec<Outcome>, AppError> {
        let mut touched: Vec<SubjectId> = facts.iter().map(|fact| fact.subject).collect();
        touched.sort_unstable();
        touched.dedup();
        let receipts = self.store.append(&store::Batch {
            received: moment.stamp.clone(),
            facts,
            documents: vec![self.protocol.text.to_string()],
            on_refusal: OnRefusal::RollBack,
        })?;
        self.read_again(&touched)?;
        Ok(receipts.into_iter().map(|receipt| receipt.outcome).collect())
    }

    /// Stores what a device sent: what is refused is kept aside for a person, the rest goes in.
    pub(crate) fn keep(
        &mut self,
        moment: &Moment,
        facts: Vec<NewFact>,
    ) -> Result<Vec<(FactId, Outcome)>, AppError> {
        let receipts = self.store.append(&store::Batch {
            received: moment.stamp.clone(),
            facts,
            documents: Vec::new(),
            on_refusal: OnRefusal::Keep,
        })?;
        Ok(receipts.into_iter().map(|receipt| (receipt.id, receipt.outcome)).collect())
    }

    /// Reads everything again from the store, which is never half-written: for whoever holds a desk after a fault.
    pub fn read_anew(&mut self) -> Result<(), AppError> {
        self.read_everything()
    }

    fn read_everything(&mut self) -> Result<(), AppError> {
        *self.fitted.lock().unwrap_or_else(PoisonError::into_inner) = None;
        self.read_club()?;
        let mut by_subject: BTreeMap<SubjectId, (Vec<LiveFact>, usize)> = BTreeMap::new();
        for live in self.store.all_live_facts()? {
            let subject = live.fact.told.subject;
            if subject == SubjectId::CLUB {
                continue;
            }
            let entry = by_subject.entry(subject).or_default();
            entry.1 += usize::from(live.contested);
            entry.0.extend(to_live(&live));
        }
        self.people.clear();
        for (subject, (facts, contested)) in by_subject {
            self.place(subject, &facts, contested);
        }
        self.assessed.lock().unwrap_or_else(PoisonError::into_inner).clear();
        Ok(())
    }

    fn read_again(&mut self, subjects: &[SubjectId]) -> Result<(), AppError> {
        if subjects.contains(&SubjectId::CLUB) {
            return self.read_everything();
        }
        *self.fitted.lock().unwrap_or_else(PoisonError::into_inner) = None;
        for &subject in subjects {
            let live = self.store.live_facts(subject)?;
            let contested = live.iter().filter(|fact| fact.contested).count();
            let facts: Vec<LiveFact> = live.iter().filter_map(to_live).collect();
            self.people.remove(&subject);
            self.place(subject, &facts, contested);
        }
        let mut assessed = self.assessed.lock().unwrap_or_else(PoisonError::into_inner);
        assessed.retain(|(subject, _), _| !subjects.contains(subject));
        Ok(())
    }

    fn place(&mut self, subject: SubjectId, facts: &[LiveFact], contested: usize) {
        if let Some(mut read) = read(&self.protocol, facts, &self.club.calendar) {
            // A meet may count otherwise to one swimmer, or not at all.
            self.club.timetable.own_meets(&mut read.history.calendar, &read.swimmer.squad, subject);
            self.club.timetable.exclude_overruled(&mut read.history.sessions, &read.swimmer.squad);
            self.people.insert(subject, Person { subject, read, contested });
        }
    }

    fn read_club(&mut self) -> Result<(), AppError> {
        let live: Vec<LiveFact> =
            self.store.live_facts(SubjectId::CLUB)?.iter().filter_map(to_live).collect();
        let (calendar, unreadable) = read_calendar(&live);
        let mut club = Club { calendar, unreadable, ..Club::default() };
        for fact in &live {
            let result = match fact.kind {
                Kind::Club => read_json(&fact.payload).map(|about| club.about = Some(about)),
                Kind::Practice => read_json(&fact.payload).map(|practice| club.practices.push(practice)),
                Kind::KitPiece => read_json(&fact.payload).map(|piece| club.kit.push(piece)),
                Kind::Inspection => read_json(&fact.payload).map(|look| club.inspections.push(look)),
                Kind::Trial => read_json(&fact.payload).map(|trial| club.trials.push(trial)),
                Kind::Calibration => read_json(&fact.payload).map(|read| club.calibrations.push(read)),
                _ => Ok(()),
            }
            .and_then(|()| club.timetable.take(fact));
            if let Err(problem) = result {
                let problems = vec![problem];
                club.unreadable.push(Unreadable { id: fact.id.clone(), kind: fact.kind, problems });
            }
        }
        club.practices.sort_by_key(|practice| (practice.weekday, practice.from));
        club.timetable.in_order();
        club.kit.sort_by(|one, other| one.mark.cmp(&other.mark));
        club.inspections.sort_by_key(|look| look.date);
        club.trials.sort_by_cached_key(|trial| (trial.date, format!("{trial:?}")));
        club.calibrations.sort_by(|one, other| (one.date, &one.mark).cmp(&(other.date, &other.mark)));
        club.measured = crate::views::bands::measured(&club);
        self.club = club;
        Ok(())
    }
}

fn to_live(live: &store::LiveFact) -> Option<LiveFact> {
    // A kind this version does not know belongs to a newer one; it stays in the store untouched.
    let kind = Kind::from_word(&live.fact.told.kind)?;
    Some(LiveFact { id: live.fact.told.id.to_string(), kind, payload: live.payload().to_owned() })
}

/// A payload as the store takes it.
pub fn payload_of(text: &str) -> Result<Payload, AppError> {
    Payload::from_text(text).map_err(|error| {
        AppError::new(ErrorKind::Input, "error-payload").with("detail", format!("{error:?}"))
    })
}
