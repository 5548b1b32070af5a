//! The protocol: every exercise, rung, dose and threshold, with its source, in one readable file.
//!
//! - [`types`](self): what a protocol is once it has been read.
//! - [`parameter`]: the master parameters, their allowed ranges and fixed safety limits.
//! - [`mod@read`]: from TOML text to a [`Protocol`], or to *every* problem with its line and a hint.

pub mod figure;
pub mod parameter;
pub mod read;
mod word;

use std::collections::BTreeSet;
use std::sync::Arc;

use quantity::{Force, HoldTime, Mass};

use crate::name::{ExerciseId, FaultCode, RungId, SourceKey};

pub use parameter::Parameters;
pub use read::{Problem, read, shipped};

/// A protocol that has passed every check.
#[derive(Debug, Clone)]
pub struct Protocol {
    /// Its own name, for instance `cuffwright-default`.
    pub name: String,
    /// What a person calls it.
    pub title: String,
    /// Revision as its author counts them, for instance `2026.1`.
    pub revision: String,
    /// SHA-256 of the file's bytes, lower-case hexadecimal: what decisions record.
    pub hash: String,
    /// The file itself, so that every version ever used can be kept whole.
    pub text: Arc<str>,
    /// Master parameters.
    pub parameters: Parameters,
    /// Form faults, by code.
    pub faults: Vec<Fault>,
    /// Exercises, in the order a session runs them by default.
    pub exercises: Vec<Exercise>,
    /// Where a newcomer's calibration set begins, by group.
    pub starts: Vec<Start>,
    /// References.
    pub sources: Vec<Source>,
}

impl Protocol {
    /// Finds an exercise.
    pub fn exercise(&self, id: &ExerciseId) -> Option<&Exercise> {
        self.exercises.iter().find(|exercise| exercise.id == *id)
    }

    /// Finds a reference.
    pub fn source(&self, key: &SourceKey) -> Option<&Source> {
        self.sources.iter().find(|source| source.key == *key)
    }

    /// Finds a fault.
    pub fn fault(&self, code: &FaultCode) -> Option<&Fault> {
        self.faults.iter().find(|fault| fault.code == *code)
    }
}

/// How strong the ground under a number or a sentence is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Evidence {
    /// Seen in a published source, named here; usually its abstract.
    Published(SourceKey),
    /// Published literature recalled from memory and not verified.
    FromMemory,
    /// Core practice of this trade, without a trial behind it.
    CorePractice,
    /// Common practice, without a source.
    CommonPractice,
    /// Computed from published numbers or plain arithmetic.
    Computed,
}

/// A named form fault.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Its code, for instance `F06`.
    pub code: FaultCode,
    /// Short name, for instance "elbow leaves its place".
    pub name: String,
    /// What the supervisor sees.
    pub seen_as: String,
    /// What to say once.
    pub cue: String,
}

/// What part of the body an exercise is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Rotator cuff.
    Cuff,
    /// Shoulder blade.
    Scapula,
    /// Trunk.
    Trunk,
    /// Mobility, only where there is a finding.
    Mobility,
    /// Balance.
    Balance,
}

/// How many lines of sets an exercise has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Arms {
    /// Left and right are dosed, timed and progressed apart; the weaker arm gates.
    One,
    /// Both arms work together.
    Both,
    /// No arm works: trunk or leg exercises held on the midline.
    Midline,
}

/// Which shoulders an exercise loads, support arms included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Loads {
    /// The working arm only.
    WorkingShoulder,
    /// Both shoulders, whichever side works.
    BothShoulders,
    /// Neither shoulder.
    NoShoulder,
}

/// A property on which a limit, a track or the pain rule can lock an exercise or a rung.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tag {
    /// The hand goes above shoulder height.
    Overhead,
    /// Elastic resistance.
    Band,
    /// A hand weight.
    Weight,
    /// The hand bears body weight.
    ClosedChain,
    /// Works at the end of the range.
    EndRange,
    /// A stretch.
    Stretch,
    /// Elbow bent and upper arm raised, each at ninety degrees.
    NinetyNinety,
    /// Needs an anchor.
    Anchor,
}

impl Tag {
    /// Every tag.
    pub const ALL: [Tag; 8] = [
        Tag::Overhead,
        Tag::Band,
        Tag::Weight,
        Tag::ClosedChain,
        Tag::EndRange,
        Tag::Stretch,
        Tag::NinetyNinety,
        Tag::Anchor,
    ];

    /// The word used in protocol files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Tag::Overhead => "overhead",
            Tag::Band => "band",
            Tag::Weight => "weight",
            Tag::ClosedChain => "closed-chain",
            Tag::EndRange => "end-range",
            Tag::Stretch => "stretch",
            Tag::NinetyNinety => "ninety-ninety",
            Tag::Anchor => "anchor",
        }
    }

    /// Reads the word used in protocol files and records.
    pub fn from_word(word: &str) -> Option<Tag> {
        Tag::ALL.into_iter().find(|tag| tag.word() == word)
    }
}

/// The beat of one repetition, or a hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tempo {
    /// Seconds out, held, and back.
    Beat {
        /// Seconds of the outward phase.
        out: f64,
        /// Seconds held at the end of it.
        hold: f64,
        /// Seconds of the way back.
        back: f64,
    },
    /// No repetition: the position is held.
    Hold,
    /// Circles at about one a second, direction reversed at this interval.
    Circles {
        /// How often the direction changes.
        reverse_every: HoldTime,
    },
}

/// What resists on one rung.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// Nothing but the arm.
    Unloaded,
    /// An elastic piece, known by its force at double length.
    Band(Force),
    /// A weight in each working hand.
    Weight(Mass),
    /// A body position or a harder way of doing the same.
    Position,
}

/// One step of a ladder.
#[derive(Debug, Clone, PartialEq)]
pub struct Rung {
    /// Stable name.
    pub id: RungId,
    /// What a person calls it, for instance "16 N at double length".
    pub name: String,
    /// What resists.
    pub load: Load,
    /// True for a step that is harder without being heavier: reaching it is a switch, not a step up.
    pub not_heavier: bool,
    /// Tempo, where it differs from the exercise's.
    pub tempo: Option<Tempo>,
    /// Tags this rung adds to those of the exercise.
    pub tags: BTreeSet<Tag>,
    /// Youngest age in whole years at which this rung is offered.
    pub from_age: Option<u8>,
}

/// How an exercise is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counting {
    /// Timed to form loss or cap, and progressed by rule.
    Timed,
    /// Done to a plain dose; neither timed nor progressed (mobility).
    Plain,
}

/// What the hypermobile track changes in one exercise.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HypermobileRule {
    /// Left out altogether.
    pub left_out: bool,
    /// Lowest rung at which the track starts, where it differs from the start table.
    pub start: Option<RungId>,
    /// Highest rung offered on the track.
    pub top: Option<RungId>,
    /// Tempo on the track, where it differs.
    pub tempo: Option<Tempo>,
    /// How the movement is limited, in words for the sheet.
    pub note: Option<String>,
}

/// One exercise with everything the sheet, the deck and the engine need.
#[derive(Debug, Clone, PartialEq)]
pub struct Exercise {
    /// Stable name, for instance `RC-1`.
    pub id: ExerciseId,
    /// What a person calls it.
    pub name: String,
    /// What it is for.
    pub group: Group,
    /// One arm, both, or none.
    pub arms: Arms,
    /// Shoulders loaded, support arms included.
    pub loads: Loads,
    /// Tags of every rung.
    pub tags: BTreeSet<Tag>,
    /// Tempo.
    pub tempo: Tempo,
    /// Cap of its own (trunk holds), else the protocol's cap.
    pub own_cap: Option<HoldTime>,
    /// Timed and progressed, or a plain dose.
    pub counting: Counting,
    /// Rungs from easiest to hardest; empty for plain exercises.
    pub ladder: Vec<Rung>,
    /// Faults in the order of how often they end a set.
    pub faults: Vec<FaultCode>,
    /// Offered only where screening gave a reason.
    pub only_with_finding: bool,
    /// What the hypermobile track changes.
    pub hypermobile: HypermobileRule,
    /// Highest rung in the first weeks of a growth hold, where there is one.
    pub growth_top: Option<RungId>,
    /// What it is for, in words.
    pub purpose: String,
    /// Kit, in words.
    pub kit: String,
    /// Starting position, in words.
    pub set_up: String,
    /// The movement, in words.
    pub movement: String,
    /// Usual errors, in words.
    pub errors: String,
    /// Cautions that stand wherever the exercise stands.
    pub cautions: Vec<String>,
    /// Dose in words, for plain exercises.
    pub plain_dose: Option<String>,
    /// What is known about it.
    pub evidence: Vec<EvidenceNote>,
    /// How it is drawn; none for an exercise that gets a card of words.
    pub figures: Vec<figure::FigureScript>,
}

impl Exercise {
    /// The place of a rung in the ladder, easiest first, counted from zero.
    pub fn place_of(&self, rung: &RungId) -> Option<usize> {
        self.ladder.iter().position(|candidate| candidate.id == *rung)
    }

    /// Finds a rung.
    pub fn rung(&self, id: &RungId) -> Option<&Rung> {
        self.ladder.iter().find(|rung| rung.id == *id)
    }

    /// The drawing for a rung: one of its own, else the one for all.
    pub fn figure(&self, rung: Option<&RungId>) -> Option<&figure::FigureScript> {
        let own = rung.and_then(|rung| self.figures.iter().find(|script| script.rungs.contains(rung)));
        own.or_else(|| self.figures.iter().find(|script| script.rungs.is_empty())).or(self.figures.first())
    }

    /// The cap that a qualifying set of this exercise must reach.
    pub fn cap(&self, parameters: &Parameters) -> HoldTime {
        self.own_cap.unwrap_or(parameters.cap)
    }
}

/// One sentence of evidence with its strength.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EvidenceNote {
    /// The fact, in our own words.
    pub text: String,
    /// How strong the ground is.
    pub evidence: Evidence,
}

/// Whom a row of the start table is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StartGroup {
    /// 9 to 11 years, first season.
    Child,
    /// 12 to 13 years, first season.
    Beginner,
    /// 12 to 14 years with a season behind them; also beginners of 15 and more.
    Trained,
    /// Girls of 15 to 18.
    Girl,
    /// Boys of 15 to 18.
    Boy,
    /// Women from 19.
    Woman,
    /// Men from 19.
    Man,
    /// From 40 years.
    Masters,
}

impl StartGroup {
    /// Every group, youngest first.
    pub const ALL: [StartGroup; 8] = [
        StartGroup::Child,
        StartGroup::Beginner,
        StartGroup::Trained,
        StartGroup::Girl,
        StartGroup::Boy,
        StartGroup::Woman,
        StartGroup::Man,
        StartGroup::Masters,
    ];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            StartGroup::Child => "child",
            StartGroup::Beginner => "beginner",
            StartGroup::Trained => "trained",
            StartGroup::Girl => "girl",
            StartGroup::Boy => "boy",
            StartGroup::Woman => "woman",
            StartGroup::Man => "man",
            StartGroup::Masters => "masters",
        }
    }
}

/// One row of the start table.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// Whom it is for.
    pub group: StartGroup,
    /// Sets.
    pub sets: u8,
    /// Seconds aimed at, lowest and highest.
    pub seconds: (HoldTime, HoldTime),
    /// Sessions a week, lowest and highest.
    pub sessions_a_week: (u8, u8),
    /// Rung at which each exercise's calibration begins.
    pub rungs: Vec<(ExerciseId, RungId)>,
    /// How strong the ground is.
    pub evidence: Evidence,
}

/// A reference.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Key used in this file.
    pub key: SourceKey,
    /// Author, journal, year, page, identifier.
    pub citation: String,
    /// What of it was seen.
    pub seen: String,
}
