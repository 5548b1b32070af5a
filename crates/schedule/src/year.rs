//! The season, week by week: what phase it is, how many sessions are planned, and the rule behind each reduction.
//!
//! A planned reduction is never a missed session: adherence is counted against what was planned, not against the base.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use crate::time::days_between;
use crate::week::Grade;

/// Longest season, weeks.
pub const MOST_WEEKS: i64 = 80;

/// What a stretch of the calendar is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stretch {
    /// A lighter week.
    Deload,
    /// A training camp.
    Camp,
    /// A planned reduction before a main meet.
    Taper,
    /// Holidays: nobody is on deck.
    Holiday,
    /// Exams: keep, do not build.
    Exams,
}

/// A dated stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Period {
    /// What.
    pub stretch: Stretch,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
}

/// A meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meet {
    /// Name.
    pub name: String,
    /// Importance.
    pub grade: Grade,
    /// First day.
    pub date: Date,
}

/// The season as it is planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Season {
    /// First day of loaded work.
    pub start: Date,
    /// Last day.
    pub end: Date,
    /// Sessions a week in base, meet and taper phases.
    pub sessions: [u8; 3],
    /// A lighter week every so many weeks; none when off.
    pub deload_every: Option<u8>,
    /// Dated stretches.
    pub periods: Vec<Period>,
    /// Meets.
    pub meets: Vec<Meet>,
}

/// Phase of a week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Phase {
    /// First weeks: everything is taught, nothing is timed to form loss.
    Learning,
    /// Progression.
    Build,
    /// A lighter week.
    Deload,
    /// Keep, do not build: a meet that counts, or exams.
    Keep,
    /// Towards a main meet.
    Taper,
    /// In a camp.
    Camp,
    /// Holidays.
    Holiday,
}

impl Phase {
    /// The word in JSON and in the names of sentences.
    pub const fn word(self) -> &'static str {
        match self {
            Phase::Learning => "learning",
            Phase::Build => "build",
            Phase::Deload => "deload",
            Phase::Keep => "keep",
            Phase::Taper => "taper",
            Phase::Camp => "camp",
            Phase::Holiday => "holiday",
        }
    }
}

/// The rule behind a week that is not the base.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Rule {
    /// Learning block.
    Learning,
    /// Every so many weeks: fewer sets, shorter caps, no steps up.
    Deload,
    /// A B meet: one session less.
    MeetWeek(String),
    /// A C meet: the day before is free.
    TrainThrough(String),
    /// Three weeks before a main meet: two sets, no steps up.
    ThreeWeeksBefore(String),
    /// Two weeks before: one session less.
    TwoWeeksBefore(String),
    /// The last week: one session, one set, early.
    LastWeek(String),
    /// A stretch that the club planned.
    Planned(Stretch),
}

/// One week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct YearWeek {
    /// Number within the season, from 1.
    pub number: u32,
    /// Its Monday.
    pub monday: Date,
    /// Phase.
    pub phase: Phase,
    /// Sessions planned.
    pub sessions: u8,
    /// Rules behind it, strongest first.
    pub rules: Vec<Rule>,
}

/// Weeks at the start in which everything is taught.
const LEARNING_WEEKS: u32 = 2;
/// Most loaded sessions in a camp week.
const CAMP_MOST: u8 = 2;

/// Every week of the season.
pub fn weeks(season: &Season) -> Vec<YearWeek> {
    let mut monday = monday_of(season.start);
    let mut all = Vec::new();
    while monday <= season.end && i64::try_from(all.len()).is_ok_and(|n| n < MOST_WEEKS) {
        let number = u32::try_from(all.len()).unwrap_or(0) + 1;
        all.push(week(season, number, monday));
        monday = monday.saturating_add(7.days());
    }
    all
}

/// The Monday of the week of a day.
pub fn monday_of(day: Date) -> Date {
    let since = day.weekday().since(Weekday::Monday);
    day.saturating_sub(i64::from(since).days())
}

fn week(season: &Season, number: u32, monday: Date) -> YearWeek {
    let sunday = monday.saturating_add(6.days());
    let base = season.sessions[0];
    let mut ways: Vec<(u8, Phase, Rule)> = Vec::new();
    for meet in &season.meets {
        let ahead = days_between(monday, meet.date);
        let in_week = (0..=6).contains(&ahead);
        let name = meet.name.clone();
        match meet.grade {
            // The same windows as the planner's: counted from the Monday.
            Grade::A if (0..=7).contains(&ahead) => {
                ways.push((season.sessions[2].min(1), Phase::Taper, Rule::LastWeek(name)))
            }
            Grade::A if (8..=14).contains(&ahead) => {
                ways.push((base.saturating_sub(1), Phase::Taper, Rule::TwoWeeksBefore(name)));
            }
            Grade::A if (15..=21).contains(&ahead) => {
                ways.push((base, Phase::Taper, Rule::ThreeWeeksBefore(name)))
            }
            Grade::B if in_week => {
                ways.push((
                    base.saturating_sub(1).min(season.sessions[1]),
                    Phase::Keep,
                    Rule::MeetWeek(name),
                ));
            }
            Grade::C if in_week => ways.push((base, Phase::Build, Rule::TrainThrough(name))),
            _ => {}
        }
    }
    let touched = season.periods.iter().filter(|period| period.from <= sunday && monday <= period.to);
    for period in touched {
        let (sessions, phase) = match period.stretch {
            Stretch::Holiday => (0, Phase::Holiday),
            Stretch::Camp => (CAMP_MOST.min(base), Phase::Camp),
            Stretch::Taper => (season.sessions[1].min(base), Phase::Taper),
            Stretch::Exams => (season.sessions[1].min(base), Phase::Keep),
            Stretch::Deload => (base, Phase::Deload),
        };
        ways.push((sessions, phase, Rule::Planned(period.stretch)));
    }
    if season.deload_every.is_some_and(|every| every != 0 && number.is_multiple_of(u32::from(every))) {
        ways.push((base, Phase::Deload, Rule::Deload));
    }
    if number <= LEARNING_WEEKS {
        ways.push((base, Phase::Learning, Rule::Learning));
    }
    ways.sort_by_key(|(sessions, phase, _)| (*sessions, std::cmp::Reverse(*phase)));
    let sessions = ways.iter().map(|(sessions, _, _)| *sessions).min().unwrap_or(base);
    let phase = ways.first().map_or(Phase::Build, |(_, phase, _)| *phase);
    YearWeek { number, monday, phase, sessions, rules: ways.into_iter().map(|(_, _, rule)| rule).collect() }
}

/// Sessions missed in a week: planned less done, never less than none. What was planned away is not missed.
pub fn missed(week: &YearWeek, done: u8) -> u8 {
    week.sessions.saturating_sub(done)
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn season() -> Season {
        Season {
            start: date(2026, 1, 7),
            end: date(2026, 4, 30),
            sessions: [3, 2, 1],
            deload_every: Some(4),
            periods: vec![Period {
                stretch: Stretch::Holiday,
                from: date(2026, 2, 16),
                to: date(2026, 2, 22),
            }],
            meets: vec![
                Meet { name: "Spring".into(), grade: Grade::A, date: date(2026, 4, 11) },
                Meet { name: "Town".into(), grade: Grade::B, date: date(2026, 3, 7) },
            ],
        }
    }

    #[test]
    fn every_reduction_has_its_rule_and_none_is_missed() {
        let weeks = weeks(&season());
        assert_eq!(weeks[0].monday, date(2026, 1, 5), "the season starts with the week of its first day");
        let at = |day: Date| weeks.iter().find(|week| week.monday == day).expect("in the season");
        for (monday, phase, sessions) in [
            (date(2026, 1, 5), Phase::Learning, 3),
            (date(2026, 1, 19), Phase::Build, 3),
            (date(2026, 1, 26), Phase::Deload, 3),
            (date(2026, 2, 16), Phase::Holiday, 0),
            (date(2026, 3, 2), Phase::Keep, 2),
            (date(2026, 3, 23), Phase::Taper, 3),
            (date(2026, 3, 30), Phase::Taper, 2),
            (date(2026, 4, 6), Phase::Taper, 1),
        ] {
            let week = at(monday);
            assert_eq!((week.phase, week.sessions), (phase, sessions), "{monday}: {:?}", week.rules);
            assert_eq!(missed(week, sessions), 0, "{monday}: what is planned away is not missed");
        }
        assert_eq!(missed(at(date(2026, 1, 19)), 2), 1);
    }

    #[test]
    fn a_season_that_never_ends_is_cut_off() {
        let endless = Season { end: date(2126, 1, 1), ..season() };
        assert_eq!(i64::try_from(weeks(&endless).len()), Ok(MOST_WEEKS));
    }
}
