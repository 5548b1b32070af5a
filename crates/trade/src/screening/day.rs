//! One swimmer's findings of one day, put together from however many stations wrote something down.

use jiff::civil::Date;

use crate::history::{Finding, History, Outcome, Screening};
use crate::side::Side;

/// What one day says of one test on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<'a> {
    /// The finding that is used.
    pub finding: &'a Finding,
    /// Who tested.
    pub tester: &'a str,
    /// Another live record of the same day says something else; until a person settles it, the more careful is used.
    pub contested: bool,
}

/// The findings of one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day<'a> {
    /// Which day.
    pub date: Date,
    /// One a test and side, in the order of the range table's keys.
    pub entries: Vec<Entry<'a>>,
    /// Shoulders behind which a hollow was seen.
    pub visible_hollow: Vec<Side>,
}

impl Day<'_> {
    /// The measured value of one test on one side.
    pub fn measured(&self, key: &str, side: Option<Side>) -> Option<f64> {
        match self.entry(key, side)?.finding.outcome {
            Outcome::Measured(value) => Some(value),
            _ => None,
        }
    }

    /// What the day says of one test on one side.
    pub fn entry(&self, key: &str, side: Option<Side>) -> Option<&Entry<'_>> {
        self.entries.iter().find(|entry| entry.finding.key == key && entry.finding.side == side)
    }
}

/// Every day on which something was said of a test, oldest first, up to and with a day.
pub fn days(history: &History, on: Date) -> Vec<Day<'_>> {
    let mut dates: Vec<Date> =
        history.screenings.iter().map(|screening| screening.date).filter(|date| *date <= on).collect();
    dates.sort_unstable();
    dates.dedup();
    let is_something = |day: &Day<'_>| !day.entries.is_empty() || !day.visible_hollow.is_empty();
    dates.into_iter().map(|date| day(history, date)).filter(is_something).collect()
}

/// The findings of one day; empty when nothing was measured.
pub fn day(history: &History, date: Date) -> Day<'_> {
    let of_day: Vec<&Screening> =
        history.screenings.iter().filter(|screening| screening.date == date).collect();
    let mut entries: Vec<Entry<'_>> = Vec::new();
    for screening in &of_day {
        for finding in &screening.findings {
            let next = Entry { finding, tester: &screening.tester, contested: false };
            let is_same = |entry: &&mut Entry<'_>| {
                entry.finding.key == finding.key && entry.finding.side == finding.side
            };
            match entries.iter_mut().find(is_same) {
                None => entries.push(next),
                Some(kept) => {
                    let differ = kept.finding.outcome != finding.outcome
                        && is_said(&kept.finding.outcome)
                        && is_said(&finding.outcome);
                    if care(&kept.finding.key, &kept.finding.outcome) < care(&finding.key, &finding.outcome) {
                        *kept = next;
                    }
                    kept.contested |= differ;
                }
            }
        }
    }
    entries.sort_by(|one, other| {
        (&one.finding.key, one.finding.side).cmp(&(&other.finding.key, other.finding.side))
    });
    let mut visible_hollow: Vec<Side> =
        of_day.iter().flat_map(|screening| screening.visible_hollow.iter().copied()).collect();
    visible_hollow.sort_unstable();
    visible_hollow.dedup();
    Day { date, entries, visible_hollow }
}

/// "Not tested" at one station does not contradict a value from another.
const fn is_said(outcome: &Outcome) -> bool {
    !matches!(outcome, Outcome::NotTested(_))
}

/// How careful it is to use this of two outcomes: pain before anything, a refusal before silence, the weaker value
/// before the stronger one; of laxity the looser.
fn care(key: &str, outcome: &Outcome) -> (u8, i64) {
    let micro = |value: f64| {
        let signed = if key == "beighton" { value } else { -value };
        (signed * 1e6).round().clamp(-9e15, 9e15) as i64
    };
    match outcome {
        Outcome::NotDonePain => (3, 0),
        Outcome::Measured(value) => (2, micro(*value)),
        Outcome::Refused => (1, 0),
        Outcome::NotTested(_) => (0, 0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::{Experience, Sex, Swimmer};
    use jiff::civil::date;

    const DAY: Date = date(2026, 9, 12);

    fn history(stations: &[&[(&str, Option<Side>, Outcome)]]) -> History {
        let mut history = History::new(Swimmer {
            born: date(2010, 1, 1),
            sex: Sex::Female,
            experience: Experience::Trained,
            programme_started: None,
        });
        for findings in stations {
            history.screenings.push(Screening {
                date: DAY,
                tester: "T".to_owned(),
                findings: findings
                    .iter()
                    .map(|(key, side, outcome)| Finding {
                        key: (*key).to_owned(),
                        side: *side,
                        outcome: outcome.clone(),
                    })
                    .collect(),
                visible_hollow: Vec::new(),
            });
        }
        history.in_order()
    }

    #[test]
    fn stations_of_one_day_are_one_day_and_the_more_careful_of_two_records_is_used() {
        let force = |outcome| ("er_force", Some(Side::Left), outcome);
        let blank = || Outcome::NotTested("blank".to_owned());
        let cases = [
            (Outcome::Measured(90.0), Outcome::Measured(80.0), Outcome::Measured(80.0), true),
            (Outcome::Measured(90.0), Outcome::NotDonePain, Outcome::NotDonePain, true),
            (Outcome::Measured(90.0), blank(), Outcome::Measured(90.0), false),
            (Outcome::Refused, blank(), Outcome::Refused, false),
            (Outcome::Measured(90.0), Outcome::Measured(90.0), Outcome::Measured(90.0), false),
        ];
        for (one, other, used, contested) in cases {
            for pair in [[&one, &other], [&other, &one]] {
                let history = history(&[&[force(pair[0].clone())], &[force(pair[1].clone())]]);
                let day = day(&history, DAY);
                let entry = day.entry("er_force", Some(Side::Left)).expect("it was measured");
                assert_eq!((&entry.finding.outcome, entry.contested), (&used, contested));
            }
        }
        let lax = [Outcome::Measured(3.0), Outcome::Measured(6.0)].map(|outcome| ("beighton", None, outcome));
        let history = history(&[&lax[..1], &lax[1..]]);
        assert_eq!(day(&history, DAY).measured("beighton", None), Some(6.0), "of laxity the looser");
    }
}
