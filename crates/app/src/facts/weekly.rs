//! What a swimmer answers and does in a week: weekly check, water week, single practice; and the club's own trial of
//! a test.

use jiff::civil::Date;
use quantity::{Judgement, Range};
use serde::{Deserialize, Serialize};
use trade::history;
use trade::weekly::Answers;

use super::Problem;
use super::person::out_of_range;

/// Answers about one shoulder, by their place from 0, the best, to 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnswersFact {
    /// Could you take part.
    pub taking_part: u8,
    /// How much less did you train.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub less_training: Option<u8>,
    /// How much did it cost your swimming.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub performance: Option<u8>,
    /// How much did the shoulder trouble you.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub symptoms: Option<u8>,
}

impl AnswersFact {
    fn to_trade(self, path: &str) -> Result<Answers, Problem> {
        let answers = Answers {
            taking_part: self.taking_part,
            less_training: self.less_training,
            performance: self.performance,
            symptoms: self.symptoms,
        };
        if !answers.is_sound() {
            return Err(Problem::at(path, "fact-weekly-answer"));
        }
        if !answers.is_complete() {
            return Err(Problem::at(path, "fact-weekly-incomplete"));
        }
        Ok(answers)
    }
}

/// A weekly check. A shoulder that was not answered is absent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeeklyCheckFact {
    /// Day it was answered.
    pub date: Date,
    /// Left shoulder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<AnswersFact>,
    /// Right shoulder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<AnswersFact>,
    /// From paper, rather than by the swimmer.
    #[serde(default)]
    pub from_paper: bool,
}

impl WeeklyCheckFact {
    /// As the trade sees it.
    pub fn to_trade(&self) -> Result<history::WeeklyCheck, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut read = |path: &str, answers: Option<AnswersFact>| match answers?.to_trade(path) {
            Ok(answers) => Some(answers),
            Err(problem) => {
                problems.push(problem);
                None
            }
        };
        let (left, right) = (read("left", self.left), read("right", self.right));
        if left.is_none() && right.is_none() && problems.is_empty() {
            problems.push(Problem::at("", "fact-weekly-nothing"));
        }
        if problems.is_empty() {
            Ok(history::WeeklyCheck { date: self.date, left, right })
        } else {
            Err(problems)
        }
    }
}

/// The water of a week.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaterWeekFact {
    /// Monday of the week.
    pub from: Date,
    /// Kilometres.
    pub km: f64,
    /// Practices.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sessions: Option<u16>,
    /// Minutes in the water.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<f64>,
    /// Usual effort of its practices, 0 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effort: Option<f64>,
}

impl WaterWeekFact {
    /// A week of which only the kilometres are known.
    pub const fn of(from: Date, km: f64) -> Self {
        Self { from, km, sessions: None, minutes: None, effort: None }
    }

    /// The week as the trade sees it.
    pub fn to_trade(&self) -> Result<history::WaterWeek, Vec<Problem>> {
        let values = [
            ("km", "swim_week", Some(self.km)),
            ("minutes", "week_minutes", self.minutes),
            ("effort", "session_effort", self.effort),
        ];
        let problems = refused(&values);
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::WaterWeek {
            from: self.from,
            km: self.km,
            sessions: self.sessions,
            minutes: self.minutes,
            effort: self.effort,
        })
    }
}

/// One water practice of one swimmer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaterSessionFact {
    /// Day.
    pub date: Date,
    /// Metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub metres: Option<f64>,
    /// Minutes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<f64>,
    /// Effort, 0 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effort: Option<f64>,
}

impl WaterSessionFact {
    /// The practice as the trade sees it.
    pub fn to_trade(&self) -> Result<history::WaterSession, Vec<Problem>> {
        let values = [
            ("metres", "swim_session", self.metres),
            ("minutes", "session_minutes", self.minutes),
            ("effort", "session_effort", self.effort),
        ];
        let mut problems = refused(&values);
        if values.iter().all(|(_, _, value)| value.is_none()) {
            problems.push(Problem::at("", "fact-practice-nothing"));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(history::WaterSession {
            date: self.date,
            metres: self.metres,
            minutes: self.minutes,
            effort: self.effort,
        })
    }
}

fn refused(values: &[(&str, &str, Option<f64>)]) -> Vec<Problem> {
    values
        .iter()
        .filter_map(|(path, key, value)| {
            let range = Range::of(key).expect("what a week holds stands in the range table");
            let value = (*value)?;
            (range.judge(value) == Judgement::Refuse).then(|| out_of_range(path, range, value))
        })
        .collect()
}

/// The club's own trial of a test: the same people, tested again, nobody named.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TrialFact {
    /// Day on which it was finished.
    pub date: Date,
    /// Key of the measure in the range table.
    pub measure: String,
    /// One row a person (or arm), one number a trial, in the unit of the range.
    pub rows: Vec<Vec<f64>>,
    /// Who tested, and how far apart.
    #[serde(default)]
    pub how: String,
}

impl TrialFact {
    /// Refuses what is no table of at least two people with the same number of trials, at least two.
    pub fn check(&self) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        if trade::screening::measure::Measure::of(&self.measure).is_none() {
            problems.push(Problem::at("measure", "fact-unknown-value").with("key", &self.measure));
        }
        let wide = self.rows.first().map_or(0, Vec::len);
        if self.rows.len() < 2 || wide < 2 {
            problems.push(Problem::at("rows", "fact-trial-small"));
        }
        for (index, row) in self.rows.iter().enumerate() {
            if row.len() != wide {
                problems.push(Problem::at(format!("rows[{index}]"), "fact-trial-ragged"));
            }
            for (place, value) in row.iter().enumerate() {
                match Range::of(&self.measure) {
                    Some(range) if range.judge(*value) == Judgement::Refuse => {
                        problems.push(out_of_range(&format!("rows[{index}][{place}]"), range, *value));
                    }
                    _ => {}
                }
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
