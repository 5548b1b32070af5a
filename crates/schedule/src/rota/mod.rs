//! Rota: groups over stations, everyone at one place at a time, done as early as possible.
//!
//! This is the open-shop problem: each group visits each of its stations once, in any order; a station takes one group
//! at a time, a group stands at one station at a time. Where every stay is equally long a formula gives the answer;
//! elsewhere a constraint solver does, with a proof or with the gap that is left.
//!
//! - [`Rota`] is what is asked, [`Timetable`] what is answered.
//! - `formula`: equal stays; `list`: a good rota quickly; `solver`: the proof.

mod formula;
mod list;
mod solver;

use std::fmt;

/// Most visits one rota may have: beyond this neither a deck nor a solver is the place for it.
pub const MOST_VISITS: usize = 1_000;
/// Longest horizon in units of time: keeps every sum well inside the solver's whole numbers.
const LONGEST: u64 = 10_000_000;

/// What several stations share, for instance anchors or balls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SharedKit {
    /// What it is.
    pub name: String,
    /// How many pieces there are.
    pub pieces: u32,
    /// How many pieces a group needs at each station.
    pub needs: Vec<u32>,
}

/// What is asked: who visits what for how long. The unit of time is the caller's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rota {
    /// Units at each station, group by group; zero when the group does not visit the station.
    pub stays: Vec<Vec<u32>>,
    /// Units between two stays, for the group that moves and for the station that is set up.
    pub change: u32,
    /// What stations share.
    pub kit: Vec<SharedKit>,
}

/// One group at one station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Visit {
    /// Which group.
    pub group: usize,
    /// Which station.
    pub station: usize,
    /// First unit.
    pub start: u32,
    /// First unit after it.
    pub end: u32,
}

/// How the answer was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Equal stays: each group moves one station on.
    Formula,
    /// By a list rule whose rota is as short as any can be.
    List,
    /// By the constraint solver.
    Solver,
}

/// What is answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timetable {
    /// Every visit, by start, then by group.
    pub visits: Vec<Visit>,
    /// Units from the first start to the last end.
    pub length: u32,
    /// No rota is shorter than this.
    pub at_least: u32,
    /// How it was found.
    pub method: Method,
}

impl Timetable {
    /// True when no shorter rota exists.
    pub fn is_proven(&self) -> bool {
        self.length == self.at_least
    }

    /// What might still be saved, as a share of the length; zero when proven.
    pub fn gap(&self) -> f64 {
        if self.length == 0 { 0.0 } else { f64::from(self.length - self.at_least) / f64::from(self.length) }
    }
}

/// Why a rota cannot be asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RotaFault {
    /// A row has more or fewer stations than the first.
    Ragged {
        /// Which group.
        group: usize,
    },
    /// Too many visits, or too long.
    TooLarge,
    /// One station alone needs more pieces than there are.
    KitShort {
        /// Index into the kit.
        kit: usize,
        /// Which station.
        station: usize,
    },
}

impl fmt::Display for RotaFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RotaFault::Ragged { group } => write!(out, "group {group} has another number of stations"),
            RotaFault::TooLarge => write!(out, "more visits or a longer time than a rota may have"),
            RotaFault::KitShort { kit, station } => {
                write!(out, "station {station} needs more of kit {kit} than there is")
            }
        }
    }
}

impl std::error::Error for RotaFault {}

impl Rota {
    /// Number of stations.
    pub fn n_stations(&self) -> usize {
        self.stays.first().map_or(0, Vec::len)
    }

    /// Checks that the question makes sense.
    pub fn check(&self) -> Result<(), RotaFault> {
        let stations = self.n_stations();
        if let Some(group) = self.stays.iter().position(|row| row.len() != stations) {
            return Err(RotaFault::Ragged { group });
        }
        let visits = self.visits().count();
        let total: u64 = self.visits().map(|(_, _, stay)| u64::from(stay) + u64::from(self.change)).sum();
        if MOST_VISITS < visits || LONGEST < total {
            return Err(RotaFault::TooLarge);
        }
        for (kit, shared) in self.kit.iter().enumerate() {
            let short = (0..stations).find(|station| {
                shared.pieces < need(shared, *station) && self.stays.iter().any(|row| row[*station] != 0)
            });
            if let Some(station) = short {
                return Err(RotaFault::KitShort { kit, station });
            }
        }
        Ok(())
    }

    /// Every visit: group, station, units.
    fn visits(&self) -> impl Iterator<Item = (usize, usize, u32)> + '_ {
        self.stays.iter().enumerate().flat_map(|(group, row)| {
            row.iter()
                .enumerate()
                .filter(|(_, stay)| **stay != 0)
                .map(move |(station, stay)| (group, station, *stay))
        })
    }

    /// No rota can be shorter: the busiest group, the busiest station, the busiest kit.
    pub fn at_least(&self) -> u32 {
        let busy = |stays: &mut dyn Iterator<Item = u32>| {
            let (count, sum) =
                stays.filter(|stay| *stay != 0).fold((0u32, 0u32), |(n, sum), stay| (n + 1, sum + stay));
            sum + count.saturating_sub(1) * self.change
        };
        let groups = self.stays.iter().map(|row| busy(&mut row.iter().copied())).max().unwrap_or(0);
        let stations = (0..self.n_stations())
            .map(|station| busy(&mut self.stays.iter().map(|row| row[station])))
            .max()
            .unwrap_or(0);
        let kit = self.kit.iter().filter(|shared| shared.pieces != 0).map(|shared| {
            let used: u64 = self
                .visits()
                .map(|(_, station, stay)| u64::from(need(shared, station)) * u64::from(stay))
                .sum();
            u32::try_from(used.div_ceil(u64::from(shared.pieces))).unwrap_or(u32::MAX)
        });
        groups.max(stations).max(kit.max().unwrap_or(0))
    }
}

/// Pieces of a kit that one station needs.
fn need(kit: &SharedKit, station: usize) -> u32 {
    kit.needs.get(station).copied().unwrap_or(0)
}

/// The shortest rota, or the best found when `stop` says that time is up.
///
/// The answer is the same on every run as long as `stop` does not intervene: nothing here is drawn by lot.
pub fn shortest(rota: &Rota, stop: &mut dyn FnMut() -> bool) -> Result<Timetable, RotaFault> {
    rota.check()?;
    if let Some(done) = formula::equal_stays(rota) {
        return Ok(done);
    }
    let at_least = rota.at_least();
    let mut best = list::best(rota, at_least);
    if best.length != at_least {
        solver::improve(rota, &mut best, at_least, stop);
    }
    best.visits.sort_by_key(|visit| (visit.start, visit.group, visit.station));
    Ok(best)
}

/// What a rota breaks; empty when it is sound. Kept apart from the solvers, so that it can judge them.
pub fn faults(rota: &Rota, table: &Timetable) -> Vec<String> {
    let mut faults = Vec::new();
    let mut wanted: Vec<(usize, usize)> = rota.visits().map(|(group, station, _)| (group, station)).collect();
    let mut given: Vec<(usize, usize)> =
        table.visits.iter().map(|visit| (visit.group, visit.station)).collect();
    wanted.sort_unstable();
    given.sort_unstable();
    if wanted != given {
        faults.push("other visits than were asked for".to_owned());
    }
    for (at, one) in table.visits.iter().enumerate() {
        if one.end - one.start != rota.stays[one.group][one.station] || table.length < one.end {
            faults.push(format!("group {} stays wrongly at {}", one.group, one.station));
        }
        for other in &table.visits[at + 1..] {
            let shares = one.group == other.group || one.station == other.station;
            let apart = one.end + rota.change <= other.start || other.end + rota.change <= one.start;
            if shares && !apart {
                faults.push(format!("{one:?} and {other:?} are in each other's way"));
            }
        }
    }
    for shared in &rota.kit {
        for visit in &table.visits {
            let used: u32 = table
                .visits
                .iter()
                .filter(|other| other.start <= visit.start && visit.start < other.end)
                .map(|other| need(shared, other.station))
                .sum();
            if shared.pieces < used {
                faults.push(format!("{} pieces of {} at {}", used, shared.name, visit.start));
            }
        }
    }
    faults
}
