//! One swimmer's screening as a practitioner reads it: what was measured, what follows, and flags with their ground.
//!
//! A flag asks for attention and says what it is for. Flags are not counted, not added up and not turned into a
//! number; a list of several swimmers goes by the heaviest kind of flag and then by name.

use jiff::civil::Date;
use trade::gate::Gate;
use trade::history::{History, days_between};
use trade::rule::{gate_rules, screening_rules};
use trade::screening::day::{Day, day, days};
use trade::screening::derived::{Derived, derived};
use trade::screening::fifth::{PEER_YEARS, Place, place};
use trade::side::Side;
use trade::trace::{Arg, Class, Line};

use crate::desk::{Desk, Person};

/// Days for which a squad's values are compared: one screening and its latecomers.
const SAME_SCREENING_DAYS: i32 = 120;

/// What a flag is for, the heaviest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Somebody licensed looks first.
    Refer,
    /// The dose is adapted.
    Adapt,
    /// Looked after more closely.
    Watch,
    /// Written down, nothing follows.
    Note,
}

impl Level {
    /// Every level, the heaviest first.
    pub const ALL: [Level; 4] = [Level::Refer, Level::Adapt, Level::Watch, Level::Note];

    /// Its word; what it means stands in the catalogue under `flag-` and this word.
    pub const fn word(self) -> &'static str {
        match self {
            Level::Refer => "refer",
            Level::Adapt => "adapt",
            Level::Watch => "watch",
            Level::Note => "note",
        }
    }
}

/// One flag.
#[derive(Debug, Clone, PartialEq)]
pub struct Flag {
    /// What it is for.
    pub level: Level,
    /// Shoulder, where it is one.
    pub side: Option<Side>,
    /// What was found, with its rule.
    pub line: Line,
}

/// One swimmer's screening.
pub struct Sheet<'a> {
    /// The day shown.
    pub day: Day<'a>,
    /// Every day on which something was measured, oldest first.
    pub days: Vec<Date>,
    /// What follows from that day.
    pub derived: Vec<Derived>,
    /// Flags as of the day asked about.
    pub flags: Vec<Flag>,
}

/// The newest screening up to a day, or the one of a certain day; none when nobody has been measured.
pub fn sheet<'a>(desk: &Desk, person: &'a Person, on: Date, wanted: Option<Date>) -> Option<Sheet<'a>> {
    let history = &person.read.history;
    let days: Vec<Date> = days(history, on).iter().map(|day| day.date).collect();
    let shown = wanted.filter(|day| days.contains(day)).or_else(|| days.last().copied())?;
    let day = day(history, shown);
    let derived = derived(desk.protocol(), history, &day);
    Some(Sheet { day, days, derived, flags: flags(desk, person, on) })
}

/// Everything flagged, the heaviest first. What the gate found is said in the gate's own words.
pub fn flags(desk: &Desk, person: &Person, on: Date) -> Vec<Flag> {
    let assessment = desk.assess(person, on);
    let mut flags = of_gate(&assessment.gate);
    flags.extend(lowest_fifth(desk, person, on));
    flags.sort_by_key(|flag| (flag.level, flag.line.rule, flag.side));
    flags
}

fn of_gate(gate: &Gate) -> Vec<Flag> {
    let side_of = |line: &Line| {
        line.args.iter().find_map(|(_, arg)| if let Arg::Shoulder(side) = arg { Some(*side) } else { None })
    };
    let mut flags = Vec::new();
    for hold in &gate.holds {
        let is_finding = matches!(hold.line.rule, gate_rules::C1 | gate_rules::C2 | gate_rules::G6);
        if is_finding {
            flags.push(Flag { level: Level::Refer, side: hold.side, line: hold.line.clone() });
        }
    }
    for note in &gate.notes {
        let level = match note.rule {
            gate_rules::C3 | gate_rules::C4 => Level::Adapt,
            gate_rules::C6 => Level::Watch,
            gate_rules::C5 | gate_rules::C7 => Level::Note,
            _ => continue,
        };
        flags.push(Flag { level, side: side_of(note), line: note.clone() });
    }
    let tracks = &gate.tracks;
    let growth = tracks.growth.as_ref().map(|growth| &growth.line);
    for line in tracks.hypermobile.iter().chain(growth) {
        flags.push(Flag { level: Level::Adapt, side: None, line: line.clone() });
    }
    flags
}

/// The weaker arm's newest value of one endurance test, if fresh.
fn weaker(history: &History, key: &str, on: Date) -> Option<(Date, f64)> {
    days(history, on).iter().rev().filter(|day| days_between(day.date, on) <= SAME_SCREENING_DAYS).find_map(
        |day| {
            let sides = Side::BOTH.map(|side| day.measured(key, Some(side)));
            let lowest = sides.into_iter().flatten().min_by(f64::total_cmp)?;
            Some((day.date, lowest))
        },
    )
}

/// Two tests share a name: each is compared with itself only.
fn lowest_fifth(desk: &Desk, person: &Person, on: Date) -> Option<Flag> {
    ["posterior_endurance_reps", "posterior_endurance_time"].into_iter().find_map(|key| {
        let (date, own) = weaker(&person.read.history, key, on)?;
        let age = person.read.history.swimmer.age_on(date);
        let group: Vec<f64> = desk
            .squad_on(on)
            .filter(|peer| (peer.read.history.swimmer.age_on(date) - age).abs() <= PEER_YEARS)
            .filter_map(|peer| weaker(&peer.read.history, key, on))
            .map(|(_, value)| value)
            .collect();
        let (level, says) = match place(own, &group) {
            Place::Lowest => (Level::Adapt, "flag-endurance-lowest"),
            Place::TooFew(_) => (Level::Note, "flag-endurance-too-few"),
            Place::Above => return None,
        };
        let line = Line::new(screening_rules::C10, says, Class::Health)
            .with("n", Arg::Count(i64::try_from(group.len()).unwrap_or(i64::MAX)))
            .with("age", Arg::Count(age.into()))
            .with("value", Arg::Number(own, 0))
            .with("date", Arg::Date(date))
            .with("measure", Arg::Word(format!("measure-{key}")));
        Some(Flag { level, side: None, line })
    })
}

/// One swimmer of the watch list.
pub struct Watched<'a> {
    /// Who.
    pub person: &'a Person,
    /// Flags, the heaviest first; notes are left out.
    pub flags: Vec<Flag>,
}

/// The squad's list: everybody with a flag that asks for something, by the heaviest kind and then by name.
pub struct WatchList<'a> {
    /// Everybody.
    pub all: Vec<Watched<'a>>,
    /// How many stand above the fold: a quarter of the squad, or nobody is watched.
    pub above: usize,
    /// How many were screened, of how many.
    pub screened: (usize, usize),
}

/// Share of a squad that can be watched at all: common practice.
const WATCHED_SHARE: f64 = 0.25;

/// The squad's list on a day.
pub fn watch_list(desk: &Desk, on: Date) -> WatchList<'_> {
    let squad: Vec<&Person> = desk.squad_on(on).collect();
    let screened = squad.iter().filter(|person| !days(&person.read.history, on).is_empty()).count();
    let mut all: Vec<Watched<'_>> = squad
        .iter()
        .map(|person| {
            let mut flags = flags(desk, person, on);
            flags.retain(|flag| flag.level != Level::Note);
            Watched { person, flags }
        })
        .filter(|watched| !watched.flags.is_empty())
        .collect();
    all.sort_by_cached_key(|watched| {
        let heaviest = watched.flags.first().map(|flag| flag.level);
        (heaviest, crate::views::people::folded(&watched.person.read.swimmer.name), watched.person.subject)
    });
    let above = (squad.len() as f64 * WATCHED_SHARE).ceil() as usize;
    WatchList { all, above, screened: (screened, squad.len()) }
}
