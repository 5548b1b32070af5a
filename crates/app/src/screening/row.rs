//! One swimmer at one station: from what stands in the boxes to facts, with every problem at its box.

use jiff::civil::Date;
use trade::screening::measure::{Measure, Station};
use trade::side::Side;

use super::cell::{self, Typed};
use crate::facts::{
    ClinicianFact, FindingFact, GrowthFact, PainFact, PainKindWord, Problem, ScreeningFact, SideWord, Units,
    WhenWord, WithoutValue,
};

/// What holds for a whole station on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// Which station.
    pub station: Station,
    /// Measures offered, in their order.
    pub measures: Vec<&'static Measure>,
    /// Day.
    pub date: Date,
    /// Who tests.
    pub tester: String,
    /// Device and way.
    pub device: Option<String>,
    /// Hours since the squad last swam.
    pub hours_since_swim: Option<f64>,
    /// Who does the tests that take a licence.
    pub clinician: Option<ClinicianFact>,
    /// Units of the club.
    pub units: Units,
}

/// Measures that a station offers where nobody chose; the others are one tick away.
pub fn usual(station: Station) -> Vec<&'static Measure> {
    const EXTRA: [&str; 5] = [
        "shoulder_flexion_rom",
        "horizontal_adduction",
        "pec_minor_length",
        "posterior_endurance_reps",
        "stability_touches",
    ];
    station.measures().filter(|measure| !EXTRA.contains(&measure.key)).collect()
}

impl Setting {
    /// The station may be worked: nothing takes a licence here, or a valid one is named.
    pub fn is_open(&self) -> bool {
        !self.station.is_licensed()
            || self.clinician.as_ref().is_some_and(|clinician| clinician.to_trade(self.date).is_ok())
    }
}

/// What one place of a row holds: a trial, or why there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Measure.
    pub measure: &'static Measure,
    /// Side.
    pub side: Option<Side>,
}

impl Place {
    /// Name of one of its boxes: `er_force.left.1`, or `er_force.left.why`.
    pub fn name(&self, part: &str) -> String {
        let side = self.side.map_or("whole", Side::word);
        format!("{}.{side}.{part}", self.measure.key)
    }
}

/// The places of a row in the order in which a hand moves on.
pub fn places(measures: &[&'static Measure]) -> Vec<Place> {
    measures
        .iter()
        .flat_map(|measure| {
            let sides = if measure.sided { vec![Some(Side::Left), Some(Side::Right)] } else { vec![None] };
            sides.into_iter().map(|side| Place { measure, side })
        })
        .collect()
}

/// A row as read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Row {
    /// Findings, for a screening fact.
    pub findings: Vec<FindingFact>,
    /// Body sizes, for a growth fact.
    pub growth: Option<GrowthFact>,
    /// Pain as spoken, for a pain fact.
    pub pain: Option<PainFact>,
    /// Shoulders behind which a hollow was seen.
    pub visible_hollow: Vec<SideWord>,
    /// Both shoulders were looked at from behind.
    pub looked_behind: bool,
    /// Boxes with what is wrong, by their name.
    pub wrong: Vec<(String, Problem)>,
    /// Boxes that are only unusual: they pass when a person says that they are meant.
    pub unusual: Vec<(String, Problem)>,
    /// Something was typed.
    pub begun: bool,
    /// Every place offered has a value or a reason.
    pub complete: bool,
}

/// Reads one row. `given` answers with what stands in a box; `meant` when a person has said that unusual values of
/// this row are meant.
pub fn read<'a>(setting: &Setting, given: impl Fn(&str) -> &'a str, meant: bool) -> Row {
    let mut row = Row { complete: true, ..Row::default() };
    if setting.station == Station::CheckIn {
        check_in(setting, &given, &mut row);
        return row;
    }
    let mut sizes: Vec<(&'static str, f64)> = Vec::new();
    for place in places(&setting.measures) {
        let finding = one(setting, place, &given, meant, &mut row);
        match finding {
            None => row.complete = false,
            Some(finding) if place.measure.is_body_size => {
                if let Some(value) = finding.value {
                    sizes.push((place.measure.key, value));
                }
            }
            Some(finding) => row.findings.push(finding),
        }
    }
    if setting.station == Station::Looking {
        row.looked_behind = true;
        for side in Side::BOTH {
            match given(&format!("hollow.{}", side.word())) {
                "yes" => {
                    row.visible_hollow.push(side.into());
                    row.begun = true;
                }
                "no" => row.begun = true,
                _ => row.looked_behind = false,
            }
        }
        row.complete &= row.looked_behind;
    }
    growth(setting, &sizes, &mut row);
    spoken_pain(setting, &given, &mut row);
    if row.begun && !setting.is_open() {
        let date = setting.date;
        let first = places(&setting.measures).first().map(|place| place.name("1")).unwrap_or_default();
        row.wrong.push((first, Problem::at("", "screening-needs-licence").with("date", date)));
    }
    row
}

/// One measure on one side: its trials, or the reason for none. Nothing where nothing was typed.
fn one<'a>(
    setting: &Setting,
    place: Place,
    given: &impl Fn(&str) -> &'a str,
    meant: bool,
    row: &mut Row,
) -> Option<FindingFact> {
    let mut finding = FindingFact {
        key: place.measure.key.to_owned(),
        side: place.side.map(Into::into),
        ..FindingFact::default()
    };
    let mut entered = Vec::new();
    let mut reason = match given(&place.name("why")) {
        "pain" => Some(WithoutValue::Pain),
        "refused" => Some(WithoutValue::Refused),
        "not-tested" => Some(WithoutValue::NotTested("not said".to_owned())),
        _ => None,
    };
    let mut any_wrong = false;
    for trial in 1..=place.measure.trials {
        let name = place.name(&trial.to_string());
        match cell::read(given(&name), place.measure, setting.units) {
            Ok(Typed::Nothing) => {}
            Ok(Typed::Value { value, entered: written, unusual }) => {
                row.begun = true;
                if unusual {
                    finding.meant = true;
                    row.unusual.push((name, cell::unusual(place.measure, setting.units)));
                }
                finding.trials.push(value);
                entered.push(written);
            }
            Ok(Typed::Without(why, number)) => {
                row.begun = true;
                if why == WithoutValue::Pain {
                    note_pain(setting.date, place.side, number, row);
                }
                reason = Some(harder(reason.take(), why));
            }
            Err(problem) => {
                row.begun = true;
                any_wrong = true;
                row.wrong.push((name, problem));
            }
        }
    }
    if any_wrong {
        return None;
    }
    row.begun |= reason.is_some();
    // A trial that hurt ends the test, whatever the trials before it were: pain goes before a value. Nothing else does.
    if let Some(reason) = reason
        && (reason == WithoutValue::Pain || finding.trials.is_empty())
    {
        finding.trials.clear();
        finding.meant = false;
        finding.without_value = Some(reason);
        return Some(finding);
    }
    finding.value = place.measure.value(&finding.trials).map(|value| (value * 1e4).round() / 1e4);
    finding.value?;
    finding.meant &= meant;
    finding.as_entered = Some(entered.join(", "));
    if finding.trials.len() < 2 {
        finding.trials.clear();
    }
    Some(finding)
}

/// Pain goes before a refusal, a refusal before "not tested".
fn harder(one: Option<WithoutValue>, other: WithoutValue) -> WithoutValue {
    let weight = |why: &WithoutValue| match why {
        WithoutValue::Pain => 2,
        WithoutValue::Refused => 1,
        WithoutValue::NotTested(_) => 0,
    };
    match one {
        Some(one) if weight(&other) < weight(&one) => one,
        _ => other,
    }
}

fn blank_pain(date: Date) -> PainFact {
    PainFact {
        date,
        when: WhenWord::Other,
        exercise: None,
        left: None,
        right: None,
        kind: PainKindWord::Joint,
        signs: Vec::new(),
        sign_side: None,
        asked: Some("screening".to_owned()),
    }
}

/// A number spoken when a test hurt; the higher of several.
fn note_pain(date: Date, side: Option<Side>, number: Option<i64>, row: &mut Row) {
    let (Some(side), Some(number)) = (side, number) else { return };
    let pain = row.pain.get_or_insert_with(|| blank_pain(date));
    let slot = match side {
        Side::Left => &mut pain.left,
        Side::Right => &mut pain.right,
    };
    *slot = (*slot).max(Some(number));
}

/// How much a test hurt, asked beside it: one number for the row and side.
fn spoken_pain<'a>(setting: &Setting, given: &impl Fn(&str) -> &'a str, row: &mut Row) {
    for side in Side::BOTH {
        let name = format!("pain.{}", side.word());
        let text = given(&name);
        if text.is_empty() {
            continue;
        }
        row.begun = true;
        match text.parse::<i64>() {
            Ok(number) if (0..=10).contains(&number) => {
                note_pain(setting.date, Some(side), Some(number), row);
            }
            _ => row.wrong.push((name, Problem::at("", "screening-pain-scale"))),
        }
    }
}

/// Whether anything hurts now, both shoulders.
fn check_in<'a>(setting: &Setting, given: &impl Fn(&str) -> &'a str, row: &mut Row) {
    spoken_pain(setting, given, row);
    row.complete = row.pain.as_ref().is_some_and(|pain| pain.left.is_some() && pain.right.is_some());
    if let Some(pain) = &mut row.pain {
        // Said before anything was tested, of no particular kind.
        pain.kind = PainKindWord::Unstated;
    }
}

fn growth(setting: &Setting, sizes: &[(&'static str, f64)], row: &mut Row) {
    if sizes.is_empty() {
        return;
    }
    let size = |key: &str| sizes.iter().find(|(known, _)| *known == key).map(|(_, value)| *value);
    let tenths = |value: f64| (value * 10.0).round() / 10.0;
    let Some(height) = size("height") else {
        row.wrong.push(("height.whole.1".to_owned(), Problem::at("", "screening-needs-height")));
        return;
    };
    if size("sitting_height").is_some_and(|sitting| height <= sitting) {
        let problem = Problem::at("", "screening-sitting-taller");
        row.wrong.push(("sitting_height.whole.1".to_owned(), problem));
        return;
    }
    row.growth = Some(GrowthFact {
        date: setting.date,
        height_cm: tenths(height * 100.0),
        sitting_height_cm: size("sitting_height").map(|sitting| tenths(sitting * 100.0)),
        mass_kg: size("body_mass").map(tenths),
    });
}

impl Row {
    /// The screening fact of this row; none when it holds no finding.
    pub fn screening(&self, setting: &Setting) -> Option<ScreeningFact> {
        if self.findings.is_empty() && self.visible_hollow.is_empty() && !self.looked_behind {
            return None;
        }
        Some(ScreeningFact {
            findings: self.findings.clone(),
            visible_hollow: self.visible_hollow.clone(),
            looked_behind: self.looked_behind,
            station: Some(setting.station.word().to_owned()),
            device: setting.device.clone(),
            hours_since_swim: setting.hours_since_swim,
            clinician: setting.clinician.clone().filter(|_| setting.station.is_licensed()),
            ..ScreeningFact::of(setting.date, &setting.tester)
        })
    }
}

/// What stands in the boxes of one place for a finding on record.
pub fn boxes(place: Place, finding: &FindingFact, units: Units) -> Vec<(String, String)> {
    match (&finding.without_value, finding.value) {
        (Some(why), _) => {
            let word = match why {
                WithoutValue::Pain => "pain".to_owned(),
                WithoutValue::Refused => "refused".to_owned(),
                WithoutValue::NotTested(reason) if reason == "not said" => "not-tested".to_owned(),
                WithoutValue::NotTested(reason) => {
                    return vec![(place.name("1"), format!("not tested: {reason}"))];
                }
            };
            vec![(place.name("why"), word)]
        }
        (None, Some(value)) => {
            let trials = if finding.trials.is_empty() { vec![value] } else { finding.trials.clone() };
            trials
                .iter()
                .zip(1_u8..)
                .map(|(trial, number)| {
                    (place.name(&number.to_string()), cell::shown(place.measure, *trial, units))
                })
                .collect()
        }
        (None, None) => Vec::new(),
    }
}
