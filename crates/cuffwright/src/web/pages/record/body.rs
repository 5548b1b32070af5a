//! Growth and screening. What is possible but unusual is asked about once more before it is kept.

use app::desk::Draft;
use app::facts::{ClinicianFact, FindingFact, GrowthFact, ScreeningFact, SideWord, WithoutValue};
use quantity::{Judgement, Range};

use super::Sheet;
use super::take::{Setting, Taking};
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::words::{Value, say, text};

/// Height, sitting height, mass.
pub const GROWTH: Sheet = Sheet {
    word: "growth",
    kind: app::facts::Kind::Growth,
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

pub(super) fn unusual() -> Ask {
    Ask::new("unusual", "ask-unusual", Control::Tick).hint("ask-unusual-hint")
}

pub(super) fn ask_again(taking: &mut Taking<'_>, name: &str, key: &str, value: Option<f64>) {
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
    kind: app::facts::Kind::Screening,
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
        asks.push(Ask::new("clinician", "ask-clinician", Control::Line).hint("ask-clinician-screening"));
        asks.push(Ask::new("licence", "ask-licence", Control::Line));
        asks.push(Ask::new("licence_until", "ask-licence-until", Control::Day));
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
    let visible_hollow: Vec<SideWord> =
        taking.sent().all("visible_hollow").filter_map(super::take::word_of).collect();
    let takes_licence = !visible_hollow.is_empty() || findings.iter().any(takes_a_licence);
    let clinician = if takes_licence { licensed(taking, date) } else { None };
    Some(vec![Draft::new(&ScreeningFact {
        findings,
        visible_hollow,
        clinician,
        ..ScreeningFact::of(date?, &tester?)
    })])
}

/// Laxity and what is seen from behind are a licensed clinician's to judge.
fn takes_a_licence(finding: &FindingFact) -> bool {
    trade::screening::measure::Measure::of(&finding.key).is_some_and(|measure| measure.station.is_licensed())
}

/// The clinician with a licence that is valid on the day, or what is missing.
fn licensed(taking: &mut Taking<'_>, date: Option<jiff::civil::Date>) -> Option<ClinicianFact> {
    let name = taking.words("clinician");
    let licence = taking.words("licence");
    let until = taking.day("licence_until");
    let clinician = ClinicianFact { name: name?, licence: licence?, licence_until: until? };
    if clinician.to_trade(date?).is_err() {
        taking.wrong("licence_until", text("take-licence-over"));
        return None;
    }
    Some(clinician)
}
