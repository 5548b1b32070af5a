//! Preparing a session, and where it is held.

use jiff::civil::Date;
use store::SubjectId;

use crate::desk::{Author, Desk, Draft};
use crate::error::AppError;
use crate::facts::{
    ContextWord, DeckPlaceFact, DeckSessionFact, Kind, PatternWord, PlannedExercise, read_json,
};
use crate::moment::Moment;

/// What a person asks for when preparing a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// Context.
    pub context: ContextWord,
    /// Squads; empty for everybody.
    pub squads: Vec<String>,
    /// How the group works.
    pub pattern: PatternWord,
    /// Minutes of work there are.
    pub minutes: u16,
    /// Exercises in order.
    pub exercises: Vec<PlannedExercise>,
    /// Reason of a named override that puts it right before the water.
    pub before_water_override: Option<String>,
}

impl Desk {
    /// Prepares a session of today and gives the name that its devices share.
    pub fn prepare_deck(
        &mut self,
        moment: &Moment,
        author: &Author,
        session: &str,
        wish: Wish,
    ) -> Result<(), AppError> {
        let fact = DeckSessionFact {
            session: session.to_owned(),
            date: moment.today,
            number: self.next_deck_number(moment.today),
            context: wish.context,
            squads: wish.squads,
            pattern: wish.pattern,
            minutes: wish.minutes,
            exercises: wish.exercises,
            by: author.name.clone(),
            before_water_override: wish.before_water_override,
        };
        self.record(moment, author, SubjectId::CLUB, &[Draft::new(&fact)]).map(drop)
    }

    /// A number that no session of the day has yet, prepared or written by hand.
    fn next_deck_number(&self, date: Date) -> u8 {
        let by_hand = self
            .people()
            .flat_map(|person| &person.read.history.sessions)
            .filter(|session| session.date == date)
            .map(|session| session.number);
        let prepared = self.deck_sessions().into_iter().filter(|session| session.date == date);
        by_hand.chain(prepared.map(|session| session.number)).max().unwrap_or(0).saturating_add(1)
    }

    /// Where sessions are held, as last written down.
    pub fn deck_place(&self) -> DeckPlaceFact {
        let found = self.store().live_facts_of_kind(Kind::DeckPlace.word()).unwrap_or_default();
        found
            .iter()
            .max_by_key(|live| live.fact.told.id)
            .and_then(|live| read_json(live.payload()).ok())
            .unwrap_or_default()
    }

    /// Writes down where sessions are held.
    pub fn record_deck_place(
        &mut self,
        moment: &Moment,
        author: &Author,
        place: &DeckPlaceFact,
    ) -> Result<(), AppError> {
        self.record(moment, author, SubjectId::CLUB, &[Draft::new(place)]).map(drop)
    }
}
