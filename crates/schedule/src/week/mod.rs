//! One stretch of days, usually a week: groups that need dryland, water that must not follow too soon, and the deck.
//!
//! - [`Week`] holds what is known; [`requirement`] names what must hold; [`refuse`] says why a slot is no slot.
//! - [`slots`] makes candidates out of deck windows and practices; [`prefer`] weighs them.
//! - [`plan`] asks for the best plan, [`clash`] says why there is none, [`repair`] changes as little as possible,
//!   [`request`] answers one wish; `model` is the integer program behind them, `solver` whatever solves it.
//! - [`audit`] judges any timetable without a solver, so that solver and rules can be held against each other.

pub mod audit;
pub mod clash;
mod model;
pub mod plan;
pub mod prefer;
pub mod refuse;
pub mod repair;
pub mod request;
pub mod requirement;
pub mod slots;
mod solver;

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::settings::Settings;
use crate::time::Span;

/// Most entries of one kind a week may hold. A week with more is a mistake in a file, not a week.
pub const MOST_ENTRIES: usize = 2_000;

/// Everything known about the days to plan.
#[derive(Debug, Clone)]
pub struct Week {
    /// Zone of every civil time.
    pub zone: TimeZone,
    /// First day to plan.
    pub first: Date,
    /// Last day to plan.
    pub last: Date,
    /// Thresholds.
    pub settings: Settings,
    /// Who needs dryland.
    pub groups: Vec<Group>,
    /// Where dryland can be.
    pub places: Vec<Place>,
    /// Hours at which the deck is ours; none described means at any hour.
    pub windows: Vec<Window>,
    /// Candidates: times at places.
    pub slots: Vec<Slot>,
    /// Water practices, also those shortly before and after the days to plan.
    pub water: Vec<Water>,
    /// Who can supervise; none described means that supervision is not part of the question.
    pub supervisors: Vec<Supervisor>,
    /// Meets, also later ones.
    pub meets: Vec<Meet>,
    /// Places that are closed.
    pub closures: Vec<Closure>,
    /// Times at which groups are elsewhere: school, travel, exams.
    pub busy: Vec<Busy>,
    /// Other loads on the same shoulders; each counts as a loaded session.
    pub loads: Vec<Load>,
    /// Days on which a group trains in a camp.
    pub camps: Vec<Camp>,
    /// Kit that groups share.
    pub kit: Vec<Kit>,
    /// Sessions that people already know of.
    pub known: Vec<Known>,
}

/// Swimmers who do dryland together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Name.
    pub name: String,
    /// Swimmers in it.
    pub size: u32,
    /// True when it is under 13 or in teaching, which asks for the closer supervision.
    pub young: bool,
    /// Sessions wanted.
    pub sessions: u8,
    /// Fewest sessions that will do.
    pub at_least: u8,
    /// Minutes of one session.
    pub minutes: i64,
    /// Pieces of kit a session needs: index into the kit, number.
    pub needs: Vec<(usize, u32)>,
    /// What it would rather have.
    pub wishes: Vec<Wish>,
}

/// A wish of a group: it weighs, it does not bind.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// Days of the week, 1 is Monday; empty for every day.
    pub weekdays: Vec<i8>,
    /// Start of the time of day, minutes after midnight.
    pub from: i64,
    /// End of the time of day, minutes after midnight.
    pub to: i64,
    /// Points; negative to avoid.
    pub weight: i32,
}

/// Where dryland can be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Name.
    pub name: String,
    /// Groups that fit in at once.
    pub groups_at_once: u32,
    /// Swimmers that fit in at once.
    pub people: Option<u32>,
}

/// Hours at which a place is ours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
}

/// A time at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
    /// False when no deck window covers it: then it only says what a wider window would buy.
    pub in_window: bool,
    /// True when it may be used only by groups whose session lasts exactly as long.
    pub exact: bool,
}

/// A water practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Water {
    /// What it is called.
    pub name: String,
    /// Groups that swim.
    pub groups: Vec<usize>,
    /// When.
    pub span: Span,
}

/// Somebody who can supervise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supervisor {
    /// Name.
    pub name: String,
    /// When.
    pub hours: Vec<Span>,
    /// Swimmers this person may watch, where the club says so: under 13 or in teaching, and from 13.
    pub ratio: Option<[u32; 2]>,
}

/// How much a meet counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The season is built towards it.
    A,
    /// It counts.
    B,
    /// It is trained through.
    C,
}

impl Grade {
    /// The letter.
    pub const fn letter(self) -> &'static str {
        match self {
            Grade::A => "A",
            Grade::B => "B",
            Grade::C => "C",
        }
    }
}

/// A meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meet {
    /// Name.
    pub name: String,
    /// Importance.
    pub grade: Grade,
    /// Groups that swim it.
    pub groups: Vec<usize>,
    /// From the first start to the last.
    pub span: Span,
}

/// A place that is closed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Closure {
    /// Index of the place; none closes all.
    pub place: Option<usize>,
    /// When.
    pub span: Span,
    /// Why.
    pub why: String,
}

/// A time at which groups are elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Busy {
    /// What it is.
    pub name: String,
    /// Who.
    pub groups: Vec<usize>,
    /// When.
    pub span: Span,
}

/// Another load on the same shoulders.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Load {
    /// What it is.
    pub name: String,
    /// Who.
    pub groups: Vec<usize>,
    /// When.
    pub span: Span,
}

/// Days in a training camp.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Camp {
    /// Who.
    pub groups: Vec<usize>,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
}

/// Kit that groups share.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kit {
    /// What it is.
    pub name: String,
    /// Pieces there are.
    pub pieces: u32,
}

/// A session of one group in one slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Placed {
    /// Index of the group.
    pub group: usize,
    /// Index of the slot.
    pub slot: usize,
}

/// A session that people already know of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// Index of the group.
    pub group: usize,
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
    /// Why it may stand too close before the water, where a practitioner has said so by name.
    pub overruled: Option<Override>,
}

/// A named override: who, and why. Such a session is excluded from progression.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Override {
    /// Who took it.
    pub by: String,
    /// The reason.
    pub reason: String,
}

impl Week {
    /// An empty week.
    pub fn new(zone: TimeZone, first: Date, last: Date) -> Self {
        Self {
            zone,
            first,
            last,
            settings: Settings::default(),
            groups: Vec::new(),
            places: Vec::new(),
            windows: Vec::new(),
            slots: Vec::new(),
            water: Vec::new(),
            supervisors: Vec::new(),
            meets: Vec::new(),
            closures: Vec::new(),
            busy: Vec::new(),
            loads: Vec::new(),
            camps: Vec::new(),
            kit: Vec::new(),
            known: Vec::new(),
        }
    }

    /// Water of one group, by start.
    pub fn water_of(&self, group: usize) -> Vec<(usize, &Water)> {
        let mut water: Vec<(usize, &Water)> =
            self.water.iter().enumerate().filter(|(_, water)| water.groups.contains(&group)).collect();
        water.sort_by_key(|(_, water)| water.span);
        water
    }

    /// True when the deck is ours for the whole stretch.
    pub fn in_window(&self, place: usize, span: Span) -> bool {
        let mut here = self.windows.iter().filter(|window| window.place == place);
        self.windows.is_empty() || here.any(|window| window.span.covers(span))
    }

    /// The slot of a place and a time, if there is one.
    pub fn slot_at(&self, place: usize, span: Span) -> Option<usize> {
        self.slots.iter().position(|slot| slot.place == place && slot.span == span)
    }
}
