//! From facts to the record that the trade reads.
//!
//! The result is a function of the set of facts. What cannot be read is reported, never repaired and never dropped
//! in silence; where two live facts contradict each other the more cautious one is used until a person settles it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::HoldTime;
use trade::history::{Block, Calendar, Context, End, Excluded, History, Session, Set, Watched};
use trade::name::{ExerciseId, RungId};
use trade::protocol::Protocol;
use trade::side::WorkingSide;

use crate::facts::{self, Kind, Payload, Problem, SetFact, read_json};

/// One live fact as it comes out of the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiveFact {
    /// Its id, so that a problem can name it.
    pub id: String,
    /// Its kind.
    pub kind: Kind,
    /// Payload as JSON.
    pub payload: String,
}

/// A stored fact that cannot be read: kept, shown, never repaired by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// The fact.
    pub id: String,
    /// Its kind.
    pub kind: Kind,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
}

/// A swimmer as read from facts.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// The newest description of the swimmer.
    pub swimmer: facts::SwimmerFact,
    /// The record, in order.
    pub history: History,
    /// Talks that took place, by the rule that asked for them.
    pub talks: Vec<facts::TalkFact>,
    /// Decisions, oldest first.
    pub decisions: Vec<facts::DecisionFact>,
    /// Lengths of the arm by tape, oldest first.
    pub arms: Vec<facts::ArmLengthsFact>,
    /// What could not be read.
    pub unreadable: Vec<Unreadable>,
}

/// Builds the record of one swimmer. `calendar` is the club's. None when no swimmer fact can be read.
pub fn read(protocol: &Protocol, facts: &[LiveFact], calendar: &Calendar) -> Option<Read> {
    let mut builder = Builder::default();
    let mut swimmer: Option<facts::SwimmerFact> = None;
    let mut unreadable = Vec::new();
    for fact in facts {
        let result = if fact.kind == Kind::Swimmer {
            parse::<facts::SwimmerFact>(fact).map(|read| {
                // Two live descriptions are a conflict; the one that reads the more careful way is used.
                swimmer = Some(match swimmer.take() {
                    Some(other) => more_careful(other, read),
                    None => read,
                });
            })
        } else {
            builder.add(protocol, fact)
        };
        if let Err(problems) = result {
            unreadable.push(Unreadable { id: fact.id.clone(), kind: fact.kind, problems });
        }
    }
    let swimmer = swimmer?;
    let mut arms = std::mem::take(&mut builder.arms);
    arms.sort_by_cached_key(|arms| (arms.date, format!("{arms:?}")));
    let mut history = builder.finish(History::new(swimmer.to_trade()));
    history.calendar = calendar.clone();
    let mut decisions = builder.decisions;
    decisions.sort_by_cached_key(|decision| (decision.date, format!("{decision:?}")));
    let mut talks = builder.talks;
    talks.sort_by_cached_key(|talk| (talk.date, format!("{talk:?}")));
    Some(Read { swimmer, history: history.in_order(), talks, decisions, arms, unreadable })
}

/// The younger of two descriptions: youth only ever makes a dose more careful. Ties go by content.
fn more_careful(one: facts::SwimmerFact, other: facts::SwimmerFact) -> facts::SwimmerFact {
    let key = |fact: &facts::SwimmerFact| (fact.born, format!("{fact:?}"));
    if key(&one) < key(&other) { other } else { one }
}

fn parse<T: Payload>(fact: &LiveFact) -> Result<T, Vec<Problem>> {
    read_json(&fact.payload).map_err(|problem| vec![problem])
}

type BlockKey = (Date, u8, ExerciseId, WorkingSide);

#[derive(Default)]
struct Builder {
    lists: Lists,
    sessions: BTreeMap<(Date, u8), (Context, Option<Excluded>)>,
    sets: BTreeMap<BlockKey, Vec<(SetFact, Set)>>,
    talks: Vec<facts::TalkFact>,
    decisions: Vec<facts::DecisionFact>,
    arms: Vec<facts::ArmLengthsFact>,
}

/// One addition to a history that is not there yet.
type Addition = Box<dyn FnOnce(&mut History)>;

/// The plain lists of a history, before there is a swimmer to hang them on.
#[derive(Default)]
struct Lists(Vec<Addition>);

impl Builder {
    fn push(&mut self, add: impl FnOnce(&mut History) + 'static) {
        self.lists.0.push(Box::new(add));
    }

    fn add(&mut self, protocol: &Protocol, fact: &LiveFact) -> Result<(), Vec<Problem>> {
        macro_rules! plain {
            ($shape:ident, $list:ident) => {{
                let value = parse::<facts::$shape>(fact)?.to_trade();
                self.push(move |history| history.$list.push(value));
            }};
        }
        macro_rules! checked {
            ($shape:ident, $list:ident) => {{
                let value = parse::<facts::$shape>(fact)?.to_trade()?;
                self.push(move |history| history.$list.push(value));
            }};
        }
        match fact.kind {
            Kind::Consent => plain!(ConsentFact, consents),
            Kind::Intake => checked!(IntakeFact, intakes),
            Kind::Screening => checked!(ScreeningFact, screenings),
            Kind::Growth => checked!(GrowthFact, growth),
            Kind::Pain => checked!(PainFact, pains),
            Kind::Illness => plain!(IllnessFact, illnesses),
            Kind::Absence => checked!(AbsenceFact, absences),
            Kind::Ban => checked!(BanFact, bans),
            Kind::Referral => plain!(ReferralFact, referrals),
            Kind::Clearance => checked!(ClearanceFact, clearances),
            Kind::Limit => checked!(LimitFact, limits),
            Kind::Reopening => plain!(ReopeningFact, reopenings),
            Kind::WaterAdvice => plain!(WaterAdviceFact, water_advice),
            Kind::GuardianTold => plain!(GuardianToldFact, guardian_told),
            Kind::Taught => plain!(TaughtFact, taught),
            Kind::SignOff => plain!(SignOffFact, sign_offs),
            Kind::WaterWeek => checked!(WaterWeekFact, water_weeks),
            Kind::WaterSession => checked!(WaterSessionFact, water_sessions),
            Kind::WeeklyCheck => checked!(WeeklyCheckFact, weekly_checks),
            Kind::Talk => self.talks.push(parse(fact)?),
            Kind::Decision => {
                let decision: facts::DecisionFact = parse(fact)?;
                if let Some(placement) = decision.to_trade() {
                    self.push(move |history| history.placements.push(placement));
                }
                self.decisions.push(decision);
            }
            Kind::Session => {
                let session: facts::SessionFact = parse(fact)?;
                let excluded = session.before_water_override.clone().map(Excluded::BeforeWaterOverride);
                self.add_session(session.date, session.number, session.context.into(), excluded);
            }
            Kind::ArmLengths => {
                let arms: facts::ArmLengthsFact = parse(fact)?;
                arms.check()?;
                self.arms.push(arms);
            }
            Kind::Set => {
                let fact: SetFact = parse(fact)?;
                self.add_set(protocol, fact)?;
            }
            Kind::Swimmer
            | Kind::Club
            | Kind::Practice
            | Kind::Season
            | Kind::Period
            | Kind::Meet
            | Kind::KitPiece
            | Kind::Inspection
            | Kind::SquadPlan
            | Kind::DeckHours
            | Kind::Supervisor
            | Kind::OtherTime
            | Kind::Closure
            | Kind::Holiday
            | Kind::PracticeChange
            | Kind::Dryland
            | Kind::Calibration
            | Kind::DeckSession
            | Kind::DeckEntry
            | Kind::DeckPlace
            | Kind::Incident
            | Kind::HomeSheet
            | Kind::Trial => {}
        }
        Ok(())
    }

    /// Two live records of one session: the one that counts less is used.
    fn add_session(&mut self, date: Date, number: u8, context: Context, excluded: Option<Excluded>) {
        let entry = self.sessions.entry((date, number)).or_insert_with(|| (context, excluded.clone()));
        entry.0 = entry.0.max(context);
        if entry.1.is_none() {
            entry.1 = excluded;
        }
    }

    fn add_set(&mut self, protocol: &Protocol, fact: SetFact) -> Result<(), Vec<Problem>> {
        let exercise = ExerciseId::new(&fact.exercise);
        let usual_cap = protocol
            .exercise(&exercise)
            .map_or(protocol.parameters.cap, |exercise| exercise.cap(&protocol.parameters));
        let set = fact.set.to_trade(fact.number, usual_cap)?;
        let key = (fact.date, fact.session, exercise, fact.side.into());
        self.sets.entry(key).or_default().push((fact, set));
        Ok(())
    }

    fn finish(&mut self, mut history: History) -> History {
        for add in std::mem::take(&mut self.lists).0 {
            add(&mut history);
        }
        let mut sessions: BTreeMap<(Date, u8), Session> = BTreeMap::new();
        for ((date, number), (context, excluded)) in &self.sessions {
            sessions.insert(
                (*date, *number),
                Session {
                    date: *date,
                    number: *number,
                    context: *context,
                    excluded: excluded.clone(),
                    blocks: Vec::new(),
                },
            );
        }
        for ((date, number, exercise, side), sets) in std::mem::take(&mut self.sets) {
            // A set without its session is a set all the same; where it was held is then not known, and the
            // reading that counts least, at home, is used.
            let session = sessions.entry((date, number)).or_insert_with(|| Session {
                date,
                number,
                context: Context::Home,
                excluded: None,
                blocks: Vec::new(),
            });
            session.blocks.push(block_from(exercise, side, sets));
        }
        history.sessions = sessions.into_values().collect();
        history
    }
}

fn block_from(exercise: ExerciseId, side: WorkingSide, mut sets: Vec<(SetFact, Set)>) -> Block {
    sets.sort_by_cached_key(|(fact, set)| (set.number, caution(set), format!("{fact:?}")));
    // The first of each number is now the most cautious of those that contradict each other.
    sets.dedup_by_key(|(_, set)| set.number);
    let planned = sets.first().map_or_else(String::new, |(fact, _)| fact.planned.clone());
    let used =
        sets.iter().map(|(fact, _)| &fact.used).find(|used| **used != planned).unwrap_or(&planned).clone();
    let prescribed_sets = sets.iter().map(|(fact, _)| fact.prescribed_sets).max().unwrap_or(0);
    Block {
        exercise,
        side,
        planned: RungId::new(&planned),
        used: RungId::new(&used),
        prescribed_sets,
        sets: sets.into_iter().map(|(_, set)| set).collect(),
    }
}

/// Order of two records of one set, the more cautious first: worse end, then shorter time.
fn caution(set: &Set) -> (u8, u64) {
    let end = match (&set.end, set.watched) {
        (End::Pain, _) => 0,
        (End::Form(_), _) => 1,
        (End::ChoseToStop, _) => 2,
        (End::Kit | End::Left, _) => 3,
        (End::Cap, Watched::Unseen) => 4,
        (End::Cap, Watched::Seen) => 5,
    };
    (end, HoldTime::seconds(set.time).to_bits())
}

/// The club's calendar from its facts; what cannot be read is reported.
pub fn read_calendar(facts: &[LiveFact]) -> (Calendar, Vec<Unreadable>) {
    let mut calendar = Calendar::default();
    let mut unreadable = Vec::new();
    for fact in facts {
        let result = match fact.kind {
            Kind::Season => parse::<facts::SeasonFact>(fact).map(|season| {
                calendar.season_start = calendar.season_start.max(Some(season.start));
            }),
            Kind::Period => parse::<facts::PeriodFact>(fact)
                .and_then(|period| period.to_trade())
                .map(|period| calendar.periods.push(period)),
            Kind::Meet => parse::<facts::MeetFact>(fact).map(|meet| calendar.meets.push(meet.to_trade())),
            _ => Ok(()),
        };
        if let Err(problems) = result {
            unreadable.push(Unreadable { id: fact.id.clone(), kind: fact.kind, problems });
        }
    }
    calendar.in_order();
    (calendar, unreadable)
}

/// Reads one payload as the trade would, and says what is wrong with it: the check before anything is stored.
pub fn check(protocol: &Protocol, kind: Kind, payload: &str) -> Result<(), Vec<Problem>> {
    let fact = LiveFact { id: String::new(), kind, payload: payload.to_owned() };
    match kind {
        Kind::Swimmer => parse::<facts::SwimmerFact>(&fact).map(drop),
        Kind::Club => parse::<facts::ClubFact>(&fact).map(drop),
        Kind::Practice => parse::<facts::PracticeFact>(&fact).map(drop),
        Kind::SquadPlan
        | Kind::DeckHours
        | Kind::Supervisor
        | Kind::OtherTime
        | Kind::Closure
        | Kind::Holiday
        | Kind::PracticeChange
        | Kind::Dryland => facts::check_week(kind, payload),
        Kind::KitPiece => parse::<facts::KitPieceFact>(&fact).map(drop),
        Kind::Inspection => parse::<facts::InspectionFact>(&fact).map(drop),
        Kind::Trial => parse::<facts::TrialFact>(&fact).and_then(|trial| trial.check()),
        // A calibration that gives no law is refused: nothing of it is stored.
        Kind::Calibration => parse::<facts::CalibrationFact>(&fact).and_then(|read| read.fit().map(drop)),
        Kind::DeckSession => parse::<facts::DeckSessionFact>(&fact).and_then(|session| session.check()),
        Kind::DeckPlace => parse::<facts::DeckPlaceFact>(&fact).map(drop),
        Kind::Incident => parse::<facts::IncidentFact>(&fact).map(drop),
        Kind::HomeSheet => parse::<facts::HomeSheetFact>(&fact).map(drop),
        Kind::Season | Kind::Period | Kind::Meet => {
            let (_, unreadable) = read_calendar(std::slice::from_ref(&fact));
            unreadable.into_iter().next().map_or(Ok(()), |unreadable| Err(unreadable.problems))
        }
        _ => Builder::default().add(protocol, &fact),
    }
}
