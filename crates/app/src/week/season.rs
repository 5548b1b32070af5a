//! The year: every week of the season with its phase, its planned sessions, what was done, and the rules behind it.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;
use schedule::week::Grade;
use schedule::year::{Meet, Period, Rule, Season, Stretch, YearWeek, weeks};

use crate::desk::Desk;
use crate::facts::GradeWord;
use crate::text::Texts;

/// Weeks shown after the last thing the calendar knows of.
const TAIL_WEEKS: i64 = 4;
/// Shortest season that is drawn, weeks.
const LEAST_WEEKS: i64 = 12;

/// One week of one squad.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeasonWeek {
    /// The week as it is planned.
    pub week: YearWeek,
    /// Sessions of the squad in the timetable.
    pub set: usize,
    /// Swimmer-sessions done.
    pub done: usize,
    /// Meets in it: name and letter.
    pub meets: Vec<(String, &'static str)>,
}

impl Desk {
    /// The season of one squad; none before a season was recorded.
    pub fn season_of(&self, squad: &str, today: Date) -> Option<Vec<SeasonWeek>> {
        let club = self.club();
        let start = club.calendar.season_start?;
        let table = &club.timetable;
        let own_meets: Vec<_> = table
            .meets
            .iter()
            .filter(|kept| kept.fact.squads.is_empty() || kept.fact.squads.iter().any(|own| own == squad))
            .filter(|kept| start <= kept.fact.date)
            .collect();
        let last = own_meets
            .iter()
            .map(|kept| kept.fact.date)
            .chain(club.calendar.periods.iter().map(|period| period.to))
            .chain(table.holidays.iter().map(|kept| kept.fact.to))
            .chain([today, start.saturating_add((LEAST_WEEKS * 7).days())])
            .max()?;
        let name = |kept: &crate::week::timetable::Kept<crate::facts::MeetFact>| {
            kept.fact.name.clone().unwrap_or_else(|| Texts::english().word("feed-meet"))
        };
        let season = Season {
            start,
            end: last.saturating_add((TAIL_WEEKS * 7).days()),
            sessions: {
                let plan = table.plans.iter().find(|kept| kept.fact.squad == squad);
                let [base, meets, taper] = self.protocol().parameters.sessions_week;
                let base = plan.map_or(base, |plan| plan.fact.sessions.min(base));
                [base, meets.min(base), taper.min(base)]
            },
            deload_every: self.protocol().parameters.deload_every_weeks,
            periods: club
                .calendar
                .periods
                .iter()
                .map(|period| Period {
                    stretch: match period.phase {
                        trade::history::Phase::Deload => Stretch::Deload,
                        trade::history::Phase::Camp => Stretch::Camp,
                        trade::history::Phase::Taper => Stretch::Taper,
                    },
                    from: period.from,
                    to: period.to,
                })
                .chain(table.holidays.iter().map(|kept| Period {
                    stretch: if kept.fact.exams { Stretch::Exams } else { Stretch::Holiday },
                    from: kept.fact.from,
                    to: kept.fact.to,
                }))
                .collect(),
            meets: own_meets
                .iter()
                .map(|kept| Meet {
                    name: name(kept),
                    grade: match kept.fact.grade {
                        GradeWord::A => Grade::A,
                        GradeWord::B => Grade::B,
                        GradeWord::C => Grade::C,
                    },
                    date: kept.fact.date,
                })
                .collect(),
        };
        let done = self.done_by_week(squad);
        let in_week = |day: Date, monday: Date| (0..7).contains(&schedule::time::days_between(monday, day));
        Some(
            weeks(&season)
                .into_iter()
                .map(|week| SeasonWeek {
                    set: table
                        .dryland
                        .iter()
                        .filter(|kept| kept.fact.squad == squad && !kept.fact.cancelled)
                        .filter(|kept| in_week(kept.fact.date, week.monday))
                        .count(),
                    done: done.get(&week.monday).copied().unwrap_or(0),
                    meets: own_meets
                        .iter()
                        .filter(|kept| in_week(kept.fact.date, week.monday))
                        .map(|kept| (name(kept), kept.fact.grade.letter()))
                        .collect(),
                    week,
                })
                .collect(),
        )
    }

    /// Sessions that swimmers of a squad took part in, by Monday.
    fn done_by_week(&self, squad: &str) -> BTreeMap<Date, usize> {
        let mut done = BTreeMap::new();
        for person in self.people().filter(|person| person.read.swimmer.squad == squad) {
            for session in &person.read.history.sessions {
                *done.entry(schedule::year::monday_of(session.date)).or_default() += 1;
            }
        }
        done
    }
}

/// A rule of a week, in words.
pub fn rule_words(rule: &Rule) -> String {
    let texts = Texts::english();
    let about = |says: &str, meet: &str| texts.say(says, &[("meet", meet.to_owned())]);
    match rule {
        Rule::Learning => texts.word("year-learning"),
        Rule::Deload => texts.word("year-deload"),
        Rule::MeetWeek(meet) => about("year-meet-week", meet),
        Rule::TrainThrough(meet) => about("year-train-through", meet),
        Rule::ThreeWeeksBefore(meet) => about("year-three-weeks", meet),
        Rule::TwoWeeksBefore(meet) => about("year-two-weeks", meet),
        Rule::LastWeek(meet) => about("year-last-week", meet),
        Rule::Planned(Stretch::Deload) => texts.word("year-planned-deload"),
        Rule::Planned(Stretch::Camp) => texts.word("year-planned-camp"),
        Rule::Planned(Stretch::Taper) => texts.word("year-planned-taper"),
        Rule::Planned(Stretch::Holiday) => texts.word("year-planned-holiday"),
        Rule::Planned(Stretch::Exams) => texts.word("year-planned-exams"),
    }
}
