//! One swimmer's history as a file: the input of `cuffwright propose`.
//!
//! The lists are the same shapes as the facts of the store. A few shorthands keep a hand-written story short; each
//! says something definite, and nothing is assumed where a file is silent.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use trade::history::{
    self, Calendar, Consent, ConsentItem, Context, Excluded, History, Intake, Placement, Screening, Session,
    SignOff,
};
use trade::name::ExerciseId;
use trade::protocol::Protocol;

use super::reading::{Named, Reading};
use crate::facts::{self, Problem, SetWord, WorkingSideWord};

/// Name and version of the input shape.
pub const SHAPE: &str = "cuffwright.history/1";

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HistoryFile {
    /// [`SHAPE`].
    pub shape: String,
    /// The day the doses are for.
    pub on: Date,
    /// Who.
    pub swimmer: facts::SwimmerFact,
    /// Protocol parameters that this story changes, by key.
    #[serde(default, skip_serializing_if = "serde_json::Map::is_empty")]
    pub settings: serde_json::Map<String, Value>,
    /// Shorthand `"in-order"`: consent, intake and screening are complete and show nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub papers: Option<String>,
    /// Shorthand: `"all"`, or the exercises that are taught and signed off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed_off: Option<Value>,
    /// Only these exercises are answered; without it, those on record, or all where none is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exercises: Option<Vec<String>>,
    /// Consents.
    #[serde(default)]
    pub consents: Vec<facts::ConsentFact>,
    /// Intake answers.
    #[serde(default)]
    pub intakes: Vec<facts::IntakeFact>,
    /// Screenings.
    #[serde(default)]
    pub screenings: Vec<facts::ScreeningFact>,
    /// Growth.
    #[serde(default)]
    pub growth: Vec<facts::GrowthFact>,
    /// Pain and signs.
    #[serde(default)]
    pub pains: Vec<facts::PainFact>,
    /// Illnesses.
    #[serde(default)]
    pub illnesses: Vec<facts::IllnessFact>,
    /// Absences.
    #[serde(default)]
    pub absences: Vec<facts::AbsenceFact>,
    /// "Do not train" from outside.
    #[serde(default)]
    pub bans: Vec<facts::BanFact>,
    /// Referrals.
    #[serde(default)]
    pub referrals: Vec<facts::ReferralFact>,
    /// Clearances.
    #[serde(default)]
    pub clearances: Vec<facts::ClearanceFact>,
    /// Signed limits.
    #[serde(default)]
    pub limits: Vec<facts::LimitFact>,
    /// "Out today" ended by a person.
    #[serde(default)]
    pub reopenings: Vec<facts::ReopeningFact>,
    /// Water advice.
    #[serde(default)]
    pub water_advice: Vec<facts::WaterAdviceFact>,
    /// Guardians told.
    #[serde(default)]
    pub guardian_told: Vec<facts::GuardianToldFact>,
    /// Exercises taught.
    #[serde(default)]
    pub taught: Vec<facts::TaughtFact>,
    /// Exercises signed off.
    #[serde(default)]
    pub sign_offs: Vec<facts::SignOffFact>,
    /// Kilometres by week.
    #[serde(default)]
    pub water_weeks: Vec<facts::WaterWeekFact>,
    /// Sessions.
    #[serde(default)]
    pub sessions: Vec<SessionWord>,
    /// Rungs that a person confirmed.
    #[serde(default)]
    pub placements: Vec<PlacementWord>,
    /// Season, periods, meets.
    #[serde(default)]
    pub calendar: CalendarWord,
    /// Start of the next water practice, for the due list.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next_practice: Option<Date>,
}

/// One session with its sets.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionWord {
    /// Civil day.
    pub date: Date,
    /// Which session of the day.
    #[serde(default = "one")]
    pub number: u8,
    /// Context.
    pub context: facts::ContextWord,
    /// Shorthand `0`: both shoulders were asked before and after, and both answers were 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pain: Option<i64>,
    /// Reason of an override that put it right before the water.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before_water_override: Option<String>,
    /// Sets, by exercise and side.
    pub blocks: Vec<BlockWord>,
}

fn one() -> u8 {
    1
}

/// The sets of one exercise on one side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BlockWord {
    /// Exercise.
    pub exercise: String,
    /// Side; may be absent where the exercise has only one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<WorkingSideWord>,
    /// Rung prescribed, by name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rung: Option<String>,
    /// Rung prescribed, by its level counted from one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<usize>,
    /// Rung, by the weight in each hand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight_kg: Option<f64>,
    /// Rung, by the band's measured force at double length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band_n: Option<f64>,
    /// Rung really used, where it differs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub used: Option<String>,
    /// Sets prescribed; the protocol's number when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prescribed_sets: Option<u8>,
    /// Whether somebody looked near the end, for every set that does not say so itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<bool>,
    /// Sets in the order they were done.
    pub sets: Vec<SetWord>,
}

/// A confirmed rung.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlacementWord {
    /// First day it holds.
    pub date: Date,
    /// Exercise.
    pub exercise: String,
    /// Side; may be absent where the exercise has only one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<WorkingSideWord>,
    /// Rung, by name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rung: Option<String>,
    /// Rung, by its level counted from one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<usize>,
    /// Rung, by the weight in each hand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight_kg: Option<f64>,
    /// Rung, by the band's measured force at double length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band_n: Option<f64>,
    /// Why.
    pub because: facts::MoveWord,
}

/// Season, periods and meets.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalendarWord {
    /// First Monday of loaded work; deload weeks are counted from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub season_start: Option<Date>,
    /// Planned stretches.
    #[serde(default)]
    pub periods: Vec<facts::PeriodFact>,
    /// Meets.
    #[serde(default)]
    pub meets: Vec<facts::MeetFact>,
}

impl BlockWord {
    pub(super) fn named(&self) -> Named<'_> {
        Named {
            rung: self.rung.as_deref(),
            level: self.level,
            weight_kg: self.weight_kg,
            band_n: self.band_n,
        }
    }
}

impl PlacementWord {
    fn named(&self) -> Named<'_> {
        Named {
            rung: self.rung.as_deref(),
            level: self.level,
            weight_kg: self.weight_kg,
            band_n: self.band_n,
        }
    }
}

impl HistoryFile {
    /// The record as the trade sees it, or every problem with its place in the file.
    pub fn to_history(&self, protocol: &Protocol) -> Result<History, Vec<Problem>> {
        let mut reading = Reading { protocol, problems: Vec::new() };
        if self.shape != SHAPE {
            let problem =
                Problem::at("shape", "fact-version").with("found", &self.shape).with("wanted", SHAPE);
            return Err(vec![problem]);
        }
        let mut history = History::new(self.swimmer.to_trade());
        history.consents = self.consents.iter().map(facts::ConsentFact::to_trade).collect();
        history.intakes = reading.list("intakes", &self.intakes, facts::IntakeFact::to_trade);
        history.screenings = reading.list("screenings", &self.screenings, facts::ScreeningFact::to_trade);
        history.growth = reading.list("growth", &self.growth, facts::GrowthFact::to_trade);
        history.pains = reading.list("pains", &self.pains, facts::PainFact::to_trade);
        history.illnesses = self.illnesses.iter().map(facts::IllnessFact::to_trade).collect();
        history.absences = reading.list("absences", &self.absences, facts::AbsenceFact::to_trade);
        history.bans = reading.list("bans", &self.bans, facts::BanFact::to_trade);
        history.referrals = self.referrals.iter().map(facts::ReferralFact::to_trade).collect();
        history.clearances = reading.list("clearances", &self.clearances, facts::ClearanceFact::to_trade);
        history.limits = reading.list("limits", &self.limits, facts::LimitFact::to_trade);
        history.reopenings = self.reopenings.iter().map(facts::ReopeningFact::to_trade).collect();
        history.water_advice = self.water_advice.iter().map(facts::WaterAdviceFact::to_trade).collect();
        history.guardian_told = self.guardian_told.iter().map(facts::GuardianToldFact::to_trade).collect();
        history.taught = self.taught.iter().map(facts::TaughtFact::to_trade).collect();
        history.sign_offs = self.sign_offs.iter().map(facts::SignOffFact::to_trade).collect();
        history.water_weeks = reading.list("water_weeks", &self.water_weeks, facts::WaterWeekFact::to_trade);
        history.sessions = self.sessions(&mut reading, &mut history.pains);
        history.placements = self.placements(&mut reading);
        history.calendar = Calendar {
            season_start: self.calendar.season_start,
            periods: reading.list("calendar.periods", &self.calendar.periods, facts::PeriodFact::to_trade),
            meets: self.calendar.meets.iter().map(facts::MeetFact::to_trade).collect(),
        };
        if self.on < self.swimmer.born {
            let problem = Problem::at("swimmer.born", "contract-born-later").with("born", self.swimmer.born);
            reading.problems.push(problem.with("on", self.on));
        }
        for (index, pain) in self.pains.iter().enumerate() {
            if let Some(id) = &pain.exercise {
                reading.exercise(&format!("pains[{index}].exercise"), id);
            }
        }
        for (index, limit) in self.limits.iter().enumerate() {
            for id in &limit.locked_exercises {
                reading.exercise(&format!("limits[{index}].locked_exercises"), id);
            }
        }
        for (index, taught) in self.taught.iter().enumerate() {
            reading.exercise(&format!("taught[{index}].exercise"), &taught.exercise);
        }
        for (index, sign) in self.sign_offs.iter().enumerate() {
            reading.exercise(&format!("sign_offs[{index}].exercise"), &sign.exercise);
        }
        for (index, id) in self.exercises.iter().flatten().enumerate() {
            reading.exercise(&format!("exercises[{index}]"), id);
        }
        self.papers(&mut reading, &mut history);
        self.signed_off(&mut reading, &mut history);
        if reading.problems.is_empty() { Ok(history.in_order()) } else { Err(reading.problems) }
    }

    /// The earliest day on record, from which the shorthands hold.
    fn first_day(&self) -> Date {
        let sessions = self.sessions.iter().map(|session| session.date);
        let placements = self.placements.iter().map(|placement| placement.date);
        sessions
            .chain(placements)
            .chain(self.swimmer.programme_started)
            .chain([self.on])
            .min()
            .unwrap_or(self.on)
    }

    fn papers(&self, reading: &mut Reading<'_>, history: &mut History) {
        let Some(word) = &self.papers else { return };
        if word != "in-order" {
            reading.problems.push(Problem::at("papers", "fact-papers-word").with("word", word));
            return;
        }
        // Recent enough that nothing runs out: a consent holds for months, a re-test comes due after weeks.
        let recently = self.on.saturating_sub(28.days()).max(self.swimmer.born);
        let adult = history.swimmer.age_on(self.on) >= 18;
        history.consents.push(Consent {
            signed: if adult { recently.max(eighteenth(self.swimmer.born)) } else { recently },
            granted: ConsentItem::ALL.to_vec(),
            signer: String::new(),
            relation: if adult { "self" } else { "guardian" }.to_owned(),
            text_version: String::new(),
            withdrawn: None,
        });
        history.intakes.push(Intake {
            date: recently,
            shoulder_pain_12_months: Some(false),
            dislocation_or_slipping: Some(false),
            operation: Some(false),
            signs: Vec::new(),
            signs_asked: true,
        });
        history.screenings.push(Screening {
            date: recently,
            tester: String::new(),
            findings: Vec::new(),
            visible_hollow: Vec::new(),
        });
    }

    fn signed_off(&self, reading: &mut Reading<'_>, history: &mut History) {
        let ids: Vec<ExerciseId> = match &self.signed_off {
            None => return,
            Some(Value::String(word)) if word == "all" => {
                reading.protocol.exercises.iter().map(|exercise| exercise.id.clone()).collect()
            }
            Some(Value::Array(list)) if list.iter().all(Value::is_string) => list
                .iter()
                .filter_map(Value::as_str)
                .filter_map(|id| reading.exercise("signed_off", id).map(|exercise| exercise.id.clone()))
                .collect(),
            Some(other) => {
                reading.problems.push(Problem::at("signed_off", "fact-signed-off-word").with("word", other));
                return;
            }
        };
        let date = self.first_day();
        history.sign_offs.extend(ids.into_iter().map(|exercise| SignOff {
            date,
            exercise,
            by: String::new(),
        }));
    }

    fn sessions(&self, reading: &mut Reading<'_>, pains: &mut Vec<history::PainReport>) -> Vec<Session> {
        let mut sessions = Vec::new();
        for (index, word) in self.sessions.iter().enumerate() {
            let path = format!("sessions[{index}]");
            match word.pain {
                None => {}
                Some(0) => pains.extend(no_pain(word.date)),
                Some(_) => reading.problems.push(Problem::at(format!("{path}.pain"), "fact-pain-shorthand")),
            }
            let blocks = word
                .blocks
                .iter()
                .enumerate()
                .filter_map(|(number, block)| reading.block(&format!("{path}.blocks[{number}]"), block))
                .collect();
            let mut lines = std::collections::BTreeSet::new();
            let blocks: Vec<history::Block> = blocks;
            for (number, block) in blocks.iter().enumerate() {
                if !lines.insert((block.exercise.clone(), block.side)) {
                    reading.problems.push(
                        Problem::at(format!("{path}.blocks[{number}]"), "contract-line-twice")
                            .with("exercise", &block.exercise)
                            .with("side", block.side.word()),
                    );
                }
            }
            let context: Context = word.context.into();
            let excluded = word.before_water_override.clone().map(Excluded::BeforeWaterOverride);
            sessions.push(Session { date: word.date, number: word.number, context, excluded, blocks });
        }
        sessions
    }

    fn placements(&self, reading: &mut Reading<'_>) -> Vec<Placement> {
        let mut placements = Vec::new();
        for (index, word) in self.placements.iter().enumerate() {
            let path = format!("placements[{index}]");
            let Some(exercise) = reading.exercise(&path, &word.exercise) else { continue };
            let side = reading.side(&path, exercise, word.side);
            let rung = reading.rung(&path, exercise, word.named());
            if let (Some(side), Some(rung)) = (side, rung) {
                placements.push(Placement {
                    date: word.date,
                    exercise: exercise.id.clone(),
                    side,
                    rung,
                    because: word.because.into(),
                });
            }
        }
        placements
    }
}

fn eighteenth(born: Date) -> Date {
    born.saturating_add(18.years())
}

/// What the shorthand `"pain": 0` stands for: asked before and after, both shoulders, both zero.
fn no_pain(date: Date) -> [history::PainReport; 2] {
    [history::PainWhen::Before, history::PainWhen::After].map(|when| history::PainReport {
        date,
        when,
        left: Some(quantity::Pain::NONE),
        right: Some(quantity::Pain::NONE),
        kind: history::PainKind::Unstated,
        signs: std::collections::BTreeSet::new(),
        sign_side: None,
    })
}
