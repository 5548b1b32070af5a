//! What a season showed, and what it cannot show: one page for the board that survives a statistician's questions.
//!
//! Every figure has its range. Where fewer than five people stand behind a figure it is hidden, because it would say
//! something about one of them.
//!
//! - [`counts`]: attendance, exposure, problems and their rates, how many were sore. [`strength`]: tests over the
//!   season. [`rungs`]: steps gained.

pub mod counts;
pub mod rungs;
pub mod strength;

use jiff::ToSpan;
use jiff::civil::Date;
use stats::lack::Lack;
use stats::level::Level;
use stats::rates::count::Rate;
use stats::rates::power::smallest_reduction_shown;
use stats::rates::ratio::RateRatio;
use stats::rates::share::Share;

use crate::desk::Desk;
use counts::{Counted, count};
use rungs::Rungs;
use strength::Strength;

/// Fewest people that a figure may stand for.
pub const FEWEST: usize = 5;

/// A stretch of days, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
}

impl Stretch {
    /// Whether a day lies in it.
    pub fn holds(&self, day: Date) -> bool {
        self.from <= day && day <= self.to
    }

    /// The same stretch a year before.
    pub fn year_before(&self) -> Stretch {
        Stretch { from: self.from.saturating_sub(1.year()), to: self.to.saturating_sub(1.year()) }
    }
}

/// A figure that is shown, hidden, or cannot be told.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure<T> {
    /// The figure.
    Shown(T),
    /// Fewer than five people stand behind it.
    Hidden,
    /// It cannot be told, and why.
    Lacks(Lack),
}

impl<T> Figure<T> {
    /// A figure of so many people.
    pub fn of(people: usize, found: Result<T, Lack>) -> Figure<T> {
        match found {
            _ if people < FEWEST => Figure::Hidden,
            Ok(value) => Figure::Shown(value),
            Err(lack) => Figure::Lacks(lack),
        }
    }

    /// The figure, where it is shown.
    pub fn shown(&self) -> Option<&T> {
        match self {
            Figure::Shown(value) => Some(value),
            _ => None,
        }
    }
}

/// A season.
#[derive(Debug, Clone, PartialEq)]
pub struct Year {
    /// Which days.
    pub stretch: Stretch,
    /// What was counted.
    pub now: Counted,
    /// The same a year before, where anything was recorded then.
    pub before: Option<Counted>,
    /// Sessions attended of those held for the swimmer's squad.
    pub adherence: Figure<Share>,
    /// Shoulder problems per 1000 km in the water.
    pub per_km: Figure<Rate>,
    /// Shoulder problems per 1000 swimmer-sessions on land.
    pub per_session: Figure<Rate>,
    /// Against the year before, per kilometre where both are known, else per session.
    pub ratio: Figure<RateRatio>,
    /// Month by month, how many of those asked said that a shoulder hurt.
    pub sore: Vec<(Date, Figure<Share>)>,
    /// Strength tests over the season.
    pub strength: Vec<Strength>,
    /// Steps gained.
    pub rungs: Figure<Rungs>,
    /// The smallest reduction that two such seasons would show in four of five cases, as a share; nothing where not
    /// even none at all would show.
    pub shows_from: Option<f64>,
}

/// The season that a day lies in: from the recorded start, else from 1 September before it.
pub fn season_of(desk: &Desk, on: Date) -> Stretch {
    let recorded = desk.club().calendar.season_start.filter(|start| *start <= on);
    let autumn = |year: i16| Date::new(year, 9, 1).unwrap_or(on);
    let usual = if autumn(on.year()) <= on { autumn(on.year()) } else { autumn(on.year() - 1) };
    // A start more than a year back belongs to a season that is over.
    let from = recorded.filter(|start| on.saturating_sub(1.year()) < *start).unwrap_or(usual);
    Stretch { from, to: on }
}

/// The figures of a season.
pub fn year(desk: &Desk, stretch: Stretch) -> Year {
    let level = Level::USUAL;
    let now = count(desk, stretch);
    let before = count(desk, stretch.year_before());
    let before = (0 < before.sessions || 0.0 < before.km || 0 < before.problems).then_some(before);
    let rate = |counted: &Counted| {
        Figure::of(counted.people_in_water, Rate::new(counted.problems_in_water, counted.km, 1000.0, level))
    };
    let per_session = Figure::of(now.people, Rate::new(now.problems, now.sessions as f64, 1000.0, level));
    let ratio = match &before {
        None => Figure::Lacks(Lack::TooFew { of: "groups", found: 1, needed: 2 }),
        Some(before) if 0.0 < before.km && 0.0 < now.km => Figure::of(
            now.people_in_water.min(before.people_in_water),
            RateRatio::new((now.problems_in_water, now.km), (before.problems_in_water, before.km), level),
        ),
        Some(before) => Figure::of(
            now.people.min(before.people),
            RateRatio::new(
                (now.problems, now.sessions as f64),
                (before.problems, before.sessions as f64),
                level,
            ),
        ),
    };
    Year {
        stretch,
        adherence: Figure::of(now.people, Share::new(now.attended, now.offered, level)),
        per_km: rate(&now),
        per_session,
        ratio,
        sore: counts::sore(desk, stretch),
        strength: strength::strength(desk, stretch),
        rungs: rungs::rungs(desk, stretch),
        shows_from: smallest_reduction_shown(now.problems as f64, 0.8, level),
        before,
        now,
    }
}
