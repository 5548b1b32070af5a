//! Writes facts down as the club would, and keeps the record that the rules read in step with them.
//!
//! Reading every fact again before each session would be slow; instead each shape is told to the record as it is
//! written. A test proves that the desk, reading the stored facts, arrives at the very same record.

use jiff::civil::Date;
use store::{Correction, FactId, NewFact, SubjectId};
use trade::history::{Block, Context, Excluded, History, Session};
use trade::name::{ExerciseId, RungId};
use trade::protocol::Protocol;
use uuid::Builder;

use super::days::instant;
use super::random::Random;
use crate::desk::payload_of;
use crate::facts::{self, Payload, SetFact};

/// Who writes something down, and on what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hand {
    /// The physiotherapist.
    Practitioner,
    /// Whoever runs the session.
    Deck,
    /// The club's office.
    Office,
}

impl Hand {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Hand::Practitioner => super::PRACTITIONER,
            Hand::Deck => "Eero Castell-Vanamo",
            Hand::Office => "Birgitta Holmqvarn",
        }
    }

    const fn device(self) -> &'static str {
        match self {
            Hand::Practitioner => "practitioner laptop",
            Hand::Deck => "deck tablet",
            Hand::Office => "office computer",
        }
    }
}

/// One swimmer's facts, or the club's, as they come to be.
pub(super) struct Diary<'a> {
    pub(super) protocol: &'a Protocol,
    pub(super) subject: SubjectId,
    pub(super) random: Random,
    /// The record up to the last time it was settled.
    pub(super) history: History,
    /// Told since.
    fresh: History,
    facts: Vec<NewFact>,
    /// Second of the day on the wall clock.
    clock: u32,
    day: Date,
}

impl<'a> Diary<'a> {
    pub(super) fn new(protocol: &'a Protocol, subject: SubjectId, random: Random, history: History) -> Self {
        let fresh = History::new(history.swimmer.clone());
        Self { protocol, subject, random, history, fresh, facts: Vec::new(), clock: 0, day: Date::MIN }
    }

    /// Moves the wall clock.
    pub(super) const fn at(&mut self, day: Date, minute: u32) {
        self.day = day;
        self.clock = minute * 60;
    }

    /// Lets time pass.
    pub(super) const fn wait(&mut self, seconds: u32) {
        self.clock += seconds;
    }

    /// Writes one fact down.
    pub(super) fn write<T: Told>(&mut self, hand: Hand, fact: &T) -> FactId {
        fact.tell(self.protocol, &mut self.fresh);
        self.note(hand, fact, None)
    }

    /// Writes one fact down that somebody first wrote wrong: both stay, and the second replaces the first.
    pub(super) fn write_corrected<T: Told>(&mut self, hand: Hand, wrong: &T, right: &T, reason: &str) {
        let of = self.note(hand, wrong, None);
        self.wait(300);
        right.tell(self.protocol, &mut self.fresh);
        self.note(hand, right, Some(Correction { of, reason: reason.to_owned() }));
    }

    fn note<T: Payload>(&mut self, hand: Hand, fact: &T, correction: Option<Correction>) -> FactId {
        let now = instant(self.day, self.clock);
        let millis = u64::try_from(now.as_millisecond()).expect("the demo plays after 1970");
        let id = Builder::from_unix_timestamp_millis(millis, &self.random.ten_bytes()).into_uuid();
        let id = FactId::from_uuid(id);
        let text = serde_json::to_string(fact).expect("a wire shape can always be written as JSON");
        self.facts.push(NewFact {
            id,
            kind: T::KIND.word().to_owned(),
            version: T::VERSION,
            subject: self.subject,
            payload: Some(payload_of(&text).expect("a wire shape is a JSON object of modest size")),
            author: hand.name().to_owned(),
            device: hand.device().to_owned(),
            device_seq: 0,
            device_time: now.to_string(),
            correction,
            natural_key: None,
        });
        self.wait(1);
        id
    }

    /// What was told so far becomes the record that the rules read.
    pub(super) fn settle(&mut self) {
        let empty = History::new(self.history.swimmer.clone());
        let mut fresh = std::mem::replace(&mut self.fresh, empty).in_order();
        macro_rules! take_over {
            ($($list:ident)*) => { $(self.history.$list.append(&mut fresh.$list);)* };
        }
        take_over! {
            consents intakes screenings growth pains illnesses absences bans referrals clearances limits
            reopenings water_advice guardian_told taught sign_offs sessions placements water_weeks water_sessions
            weekly_checks
        }
    }

    pub(super) fn into_facts(self) -> Vec<NewFact> {
        self.facts
    }
}

/// A shape that can be told to the record.
pub(super) trait Told: Payload {
    /// Puts the fact where reading it from the store would put it.
    fn tell(&self, protocol: &Protocol, history: &mut History);
}

const READABLE: &str = "the demo writes only what can be read";

macro_rules! told {
    (plain: $($plain:ident => $plain_list:ident),*; checked: $($checked:ident => $checked_list:ident),*;
     aside: $($aside:ident),*) => {
        $(impl Told for facts::$plain {
            fn tell(&self, _: &Protocol, history: &mut History) {
                history.$plain_list.push(self.to_trade());
            }
        })*
        $(impl Told for facts::$checked {
            fn tell(&self, _: &Protocol, history: &mut History) {
                history.$checked_list.push(self.to_trade().expect(READABLE));
            }
        })*
        $(impl Told for facts::$aside {
            fn tell(&self, _: &Protocol, _: &mut History) {}
        })*
    };
}

told! {
    plain: ConsentFact => consents, IllnessFact => illnesses, ReferralFact => referrals,
        ReopeningFact => reopenings, WaterAdviceFact => water_advice, GuardianToldFact => guardian_told,
        TaughtFact => taught, SignOffFact => sign_offs;
    checked: IntakeFact => intakes, ScreeningFact => screenings, GrowthFact => growth, PainFact => pains,
        AbsenceFact => absences, LimitFact => limits, WaterWeekFact => water_weeks,
        WaterSessionFact => water_sessions, WeeklyCheckFact => weekly_checks;
    aside: SwimmerFact, TalkFact, ClubFact, PracticeFact, SeasonFact, PeriodFact, MeetFact, KitPieceFact,
        InspectionFact, CalibrationFact, ArmLengthsFact, TrialFact, SquadPlanFact, DeckHoursFact, SupervisorFact, OtherTimeFact, ClosureFact, HolidayFact,
        PracticeChangeFact, DrylandFact
}

impl Told for facts::DecisionFact {
    fn tell(&self, _: &Protocol, history: &mut History) {
        history.placements.extend(self.to_trade());
    }
}

impl Told for facts::SessionFact {
    fn tell(&self, _: &Protocol, history: &mut History) {
        history.sessions.push(Session {
            date: self.date,
            number: self.number,
            context: Context::from(self.context),
            excluded: self.before_water_override.clone().map(Excluded::BeforeWaterOverride),
            blocks: Vec::new(),
        });
    }
}

/// Sets follow the fact of their session, one line after the other.
impl Told for SetFact {
    fn tell(&self, protocol: &Protocol, history: &mut History) {
        let id = ExerciseId::new(&self.exercise);
        let cap =
            protocol.exercise(&id).map_or(protocol.parameters.cap, |found| found.cap(&protocol.parameters));
        let set = self.set.to_trade(self.number, cap).expect(READABLE);
        let session = history.sessions.last_mut().expect("the session is written before its sets");
        let side = self.side.into();
        match session.blocks.iter_mut().find(|block| block.exercise == id && block.side == side) {
            Some(block) => block.sets.push(set),
            None => session.blocks.push(Block {
                exercise: id,
                side,
                planned: RungId::new(&self.planned),
                used: RungId::new(&self.used),
                prescribed_sets: self.prescribed_sets,
                sets: vec![set],
            }),
        }
    }
}
