//! Growth, screening, kilometres. What is possible but unusual is asked about once more before it is kept.

use app::desk::Draft;
use app::facts::{FindingFact, GrowthFact, ScreeningFact, SideWord, WaterWeekFact, WithoutValue};
use quantity::{Judgement, Range};

use super::Sheet;
use super::take::{Setting, Taking};
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::words::{Value, say, text};

/// Height, sitting height, mass.
pub const GROWTH: Sheet = Sheet {
    word: "growth",
    title: "record-growth",
    lede: "record-growth-lede",
    asks: |_| {
        vec![
            Ask::new("date", "ask-date", Control::Day).needed(),
            Ask::new("height_cm", "ask-height", Control::Number).needed(),
            Ask::new("sitting_height_cm", "ask-sitting-height", Control::Number),
            Ask::new("mass_kg", "ask-mass", Control::Number),
            unusual(),
        ]
    },
    take: |_, taking| {
        let date = taking.past_day("date");
        let height_cm = taking.number("height_cm");
        let sitting_height_cm = taking.number_or_none("sitting_height_cm");
        let mass_kg = taking.number_or_none("mass_kg");
        ask_again(taking, "height_cm", "height", height_cm.map(|value| value / 100.0));
        ask_again(
            taking,
            "sitting_height_cm",
            "sitting_height",
            sitting_height_cm.map(|value| value / 100.0),
        );
        ask_again(taking, "mass_kg", "body_mass", mass_kg);
        Some(vec![Draft::new(&GrowthFact { date: date?, height_cm: height_cm?, sitting_height_cm, mass_kg })])
    },
};

fn unusual() -> Ask {
    Ask::new("unusual", "ask-unusual", Control::Tick).hint("ask-unusual-hint")
}

fn ask_again(taking: &mut Taking<'_>, name: &str, key: &str, value: Option<f64>) {
    let Some((range, value)) = Range::of(key).zip(value) else { return };
    if range.judge(value) == Judgement::Ask && !taking.sent().has("unusual", "yes") {
        taking.wrong(name, plausible(range));
    }
}

fn plausible(range: &Range) -> String {
    let (low, high) = range.plausible;
    let (low, high) = (low.to_string(), high.to_string());
    say(
        "take-unusual",
        &[
            ("what", Value::Words(range.label)),
            ("low", Value::Words(&low)),
            ("high", Value::Words(&high)),
            ("unit", Value::Words(range.unit)),
        ],
    )
}

/// One measured value of the screening sheet: key of its range, and the name of its field for each side.
struct Measure {
    key: &'static str,
    fields: &'static [(&'static str, Option<SideWord>)],
}

macro_rules! sided {
    ($key:literal) => {
        Measure {
            key: $key,
            fields: &[
                (concat!($key, "_left"), Some(SideWord::Left)),
                (concat!($key, "_right"), Some(SideWord::Right)),
            ],
        }
    };
}

macro_rules! whole {
    ($key:literal) => {
        Measure { key: $key, fields: &[($key, None)] }
    };
}

const MEASURES: &[Measure] = &[
    sided!("shoulder_er_rom"),
    sided!("shoulder_ir_rom"),
    sided!("shoulder_flexion_rom"),
    sided!("horizontal_adduction"),
    sided!("er_force"),
    sided!("ir_force"),
    sided!("posterior_endurance_time"),
    whole!("beighton"),
    whole!("plank_time"),
    sided!("side_bridge_time"),
];

/// A screening, as measured.
pub const SCREENING: Sheet = Sheet {
    word: "screening",
    title: "record-screening",
    lede: "record-screening-lede",
    asks: |_| {
        let mut asks = vec![
            Ask::new("date", "ask-date", Control::Day).needed(),
            Ask::new("tester", "ask-tester", Control::Line).needed(),
        ];
        for measure in MEASURES {
            let Some(range) = Range::of(measure.key) else { continue };
            for (field, side) in measure.fields {
                let mut ask = Ask::new(field, "ask-measure", Control::Line);
                let side = side.map_or_else(String::new, |side| {
                    text(if side == SideWord::Left { "side-left" } else { "side-right" })
                });
                let values = [
                    ("what", Value::Words(range.label)),
                    ("side", Value::Words(&side)),
                    ("unit", Value::Words(range.unit)),
                ];
                ask.label = say(if side.is_empty() { "ask-measure-whole" } else { "ask-measure" }, &values);
                asks.push(ask);
            }
        }
        let hollow = vec![Group {
            heading: String::new(),
            then: String::new(),
            word: "hollow",
            options: vec![("left".to_owned(), text("side-left")), ("right".to_owned(), text("side-right"))],
        }];
        asks.push(Ask::new("visible_hollow", "ask-hollow", Control::Several(hollow)));
        asks.push(unusual());
        asks
    },
    take: screening,
};

fn screening(_: &Setting<'_>, taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (date, tester) = (taking.past_day("date"), taking.words("tester"));
    let mut findings = Vec::new();
    for measure in MEASURES {
        let Some(range) = Range::of(measure.key) else { continue };
        for (field, side) in measure.fields {
            let Some(given) = taking.sent().some(field) else { continue };
            let mut finding = FindingFact {
                key: measure.key.to_owned(),
                side: *side,
                as_entered: Some(format!("{given} {}", range.unit)),
                ..FindingFact::default()
            };
            match given.replace(',', ".").parse::<f64>() {
                Ok(value) if range.judge(value) == Judgement::Refuse => {
                    let problem = app::facts::person::out_of_range("value", range, value);
                    taking.wrong(field, app::text::Texts::english().say(problem.says, &problem.args));
                    continue;
                }
                Ok(value) => {
                    ask_again(taking, field, measure.key, Some(value));
                    finding.value = Some(value);
                }
                // Words instead of a number say why there is none.
                Err(_) => {
                    finding.as_entered = None;
                    finding.without_value = Some(match given.to_lowercase().as_str() {
                        "pain" => WithoutValue::Pain,
                        "refused" => WithoutValue::Refused,
                        _ => WithoutValue::NotTested(given.to_owned()),
                    });
                }
            }
            findings.push(finding);
        }
    }
    if findings.is_empty() && taking.problems.is_empty() {
        taking.wrong("tester", text("take-nothing-measured"));
    }
    let visible_hollow = taking.sent().all("visible_hollow").filter_map(super::take::word_of).collect();
    Some(vec![Draft::new(&ScreeningFact {
        findings,
        visible_hollow,
        ..ScreeningFact::of(date?, &tester?)
    })])
}

/// The Monday of the week in which a day lies.
pub fn monday_before(day: jiff::civil::Date) -> jiff::civil::Date {
    use jiff::ToSpan;
    day.saturating_sub(i32::from(day.weekday().to_monday_zero_offset()).days())
}

/// Kilometres in a week.
pub const WATER_WEEK: Sheet = Sheet {
    word: "water-week",
    title: "record-water-week",
    lede: "record-water-week-lede",
    asks: |_| {
        vec![
            Ask::new("from", "ask-monday", Control::Day).needed(),
            Ask::new("km", "ask-km", Control::Number).needed(),
            unusual(),
        ]
    },
    take: |_, taking| {
        let (from, km) = (taking.past_day("from"), taking.number("km"));
        ask_again(taking, "km", "swim_week", km);
        let from = from?;
        if from.weekday() != jiff::civil::Weekday::Monday {
            taking.wrong("from", text("take-not-monday"));
        }
        Some(vec![Draft::new(&WaterWeekFact::of(from, km?))])
    },
};
