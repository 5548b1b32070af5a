//! Facts as they are written down: the payload shapes of the store, and of every file the tool reads or writes.
//!
//! These are wire shapes. They own their serialisation and turn into the trade's types through [`Problem`]-reporting
//! conversions; the trade's own types never see JSON. Each kind has one struct, and its name in a fact row is its
//! [`Kind`]. Units stand in the field names; what a person typed, with its unit, is kept beside the stored value.
//!
//! - [`person`]: swimmer, consent, intake, screening, growth.
//! - [`body`]: pain, illness, absence, ban, reopening, water advice, guardian told, talk.
//! - [`licensed`]: referral, clearance, limit.
//! - [`work`]: taught, sign-off, session, set, decision.
//! - [`weekly`]: weekly check, water week, single practice, the club's own trial of a test.
//! - [`club`]: the club itself, practices, season, periods, meets, kit, inspections.
//! - [`week`]: the timetable: squads' plans, deck hours, supervisors, closures, changes, dryland sessions.
//! - [`measured`]: a band's calibration, an arm's lengths.
//! - [`deck`]: a prepared session, its place, an incident.

pub mod body;
pub mod club;
pub mod deck;
pub mod licensed;
pub mod measured;
pub mod person;
pub mod week;
pub mod weekly;
pub mod work;

use serde::de::DeserializeOwned;

pub use body::*;
pub use club::*;
pub use deck::*;
pub use licensed::*;
pub use measured::*;
pub use person::*;
pub use week::*;
pub use weekly::*;
pub use work::*;

/// Why a payload cannot be read as the trade understands it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where in the payload, for instance `sets[2].end`.
    pub path: String,
    /// What is wrong, as a message of the text catalogue.
    pub says: &'static str,
    /// Values in the message.
    pub args: Vec<(&'static str, String)>,
}

impl Problem {
    /// A problem at one place.
    pub fn at(path: impl Into<String>, says: &'static str) -> Self {
        Self { path: path.into(), says, args: Vec::new() }
    }

    /// Adds a value to the message.
    pub fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.args.push((name, value.to_string()));
        self
    }

    /// Puts a step in front of the path.
    pub fn under(mut self, outer: &str) -> Self {
        self.path = if self.path.is_empty() {
            outer.to_owned()
        } else if self.path.starts_with('[') {
            format!("{outer}{}", self.path)
        } else {
            format!("{outer}.{}", self.path)
        };
        self
    }
}

/// Reads JSON into a wire shape; a failure names the place in the document.
pub fn read_json<T: DeserializeOwned>(text: &str) -> Result<T, Problem> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let path = error.path().to_string();
        Problem::at(if path == "." { String::new() } else { path }, "fact-shape")
            .with("detail", error.inner())
    })?;
    reader.end().map_err(|error| Problem::at("", "fact-shape").with("detail", error))?;
    Ok(value)
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $variant:ident => $word:literal),* $(,)?) => {
        /// What a fact is about. The word stands in every fact row and never changes.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind {
            $($(#[$doc])* $variant,)*
        }

        impl Kind {
            /// Every kind.
            pub const ALL: &'static [Kind] = &[$(Kind::$variant),*];

            /// The word in a fact row.
            pub const fn word(self) -> &'static str {
                match self { $(Kind::$variant => $word),* }
            }

            /// Reads the word in a fact row.
            pub fn from_word(word: &str) -> Option<Kind> {
                Kind::ALL.iter().copied().find(|kind| kind.word() == word)
            }
        }
    };
}

kinds! {
    /// Who a swimmer is.
    Swimmer => "swimmer",
    /// A consent, as signed.
    Consent => "consent",
    /// Intake answers.
    Intake => "intake",
    /// A screening, as measured.
    Screening => "screening",
    /// Height, sitting height, mass.
    Growth => "growth",
    /// Pain and signs, as spoken or seen.
    Pain => "pain",
    /// An illness.
    Illness => "illness",
    /// A stretch away.
    Absence => "absence",
    /// A "do not train" from outside.
    Ban => "ban",
    /// A referral.
    Referral => "referral",
    /// A clinician's clearance.
    Clearance => "clearance",
    /// A clinician's signed limit.
    Limit => "limit",
    /// "Out today" ended by a person.
    Reopening => "reopening",
    /// What was decided about the water.
    WaterAdvice => "water-advice",
    /// A guardian was told.
    GuardianTold => "guardian-told",
    /// A talk took place.
    Talk => "talk",
    /// An exercise was taught.
    Taught => "taught",
    /// An exercise was signed off.
    SignOff => "sign-off",
    /// A swimmer took part in a session.
    Session => "session",
    /// One set.
    Set => "set",
    /// A person confirmed or overrode a proposal.
    Decision => "decision",
    /// Kilometres in a week.
    WaterWeek => "water-week",
    /// One water practice.
    WaterSession => "water-session",
    /// A weekly check.
    WeeklyCheck => "weekly-check",
    /// The club's own trial of a test.
    Trial => "trial",
    /// The club.
    Club => "club",
    /// A weekly water practice.
    Practice => "practice",
    /// The season's first day.
    Season => "season",
    /// A planned stretch of the calendar.
    Period => "period",
    /// A meet.
    Meet => "meet",
    /// A piece of kit.
    KitPiece => "kit-piece",
    /// An inspection of a piece of kit.
    Inspection => "inspection",
    /// What a squad wants of dryland.
    SquadPlan => "squad-plan",
    /// Hours at which a place is ours.
    DeckHours => "deck-hours",
    /// Somebody who supervises.
    Supervisor => "supervisor",
    /// School, or another load on the same shoulders.
    OtherTime => "other-time",
    /// A closed place.
    Closure => "closure",
    /// Holidays or exams.
    Holiday => "holiday",
    /// A practice moved, cancelled or extra.
    PracticeChange => "practice-change",
    /// A dryland session of a squad.
    Dryland => "dryland",
    /// A calibration of a band.
    Calibration => "calibration",
    /// Lengths of an arm.
    ArmLengths => "arm-lengths",
    /// A session that was prepared for the deck.
    DeckSession => "deck-session",
    /// What a device on deck wrote down.
    DeckEntry => "deck-entry",
    /// Where sessions are held.
    DeckPlace => "deck-place",
    /// An incident.
    Incident => "incident",
    /// A page for home.
    HomeSheet => "home-sheet",
}

/// A wire shape that is the payload of one kind of fact.
pub trait Payload: serde::Serialize + DeserializeOwned {
    /// Its kind.
    const KIND: Kind;
    /// Version of its shape.
    const VERSION: u32 = 1;
}

macro_rules! payloads {
    ($($shape:ty => $kind:ident),* $(,)?) => {
        $(impl Payload for $shape { const KIND: Kind = Kind::$kind; })*
    };
}

payloads! {
    SwimmerFact => Swimmer,
    ConsentFact => Consent,
    IntakeFact => Intake,
    ScreeningFact => Screening,
    GrowthFact => Growth,
    PainFact => Pain,
    IllnessFact => Illness,
    AbsenceFact => Absence,
    BanFact => Ban,
    ReferralFact => Referral,
    ClearanceFact => Clearance,
    LimitFact => Limit,
    ReopeningFact => Reopening,
    WaterAdviceFact => WaterAdvice,
    GuardianToldFact => GuardianTold,
    TalkFact => Talk,
    TaughtFact => Taught,
    SignOffFact => SignOff,
    SessionFact => Session,
    SetFact => Set,
    DecisionFact => Decision,
    WaterWeekFact => WaterWeek,
    WaterSessionFact => WaterSession,
    WeeklyCheckFact => WeeklyCheck,
    TrialFact => Trial,
    ClubFact => Club,
    PracticeFact => Practice,
    SeasonFact => Season,
    PeriodFact => Period,
    MeetFact => Meet,
    KitPieceFact => KitPiece,
    InspectionFact => Inspection,
    SquadPlanFact => SquadPlan,
    DeckHoursFact => DeckHours,
    SupervisorFact => Supervisor,
    OtherTimeFact => OtherTime,
    ClosureFact => Closure,
    HolidayFact => Holiday,
    PracticeChangeFact => PracticeChange,
    DrylandFact => Dryland,
    CalibrationFact => Calibration,
    ArmLengthsFact => ArmLengths,
    DeckSessionFact => DeckSession,
    DeckPlaceFact => DeckPlace,
    IncidentFact => Incident,
    HomeSheetFact => HomeSheet,
}
