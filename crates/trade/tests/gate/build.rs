//! A swimmer whom nothing holds back, and the facts that cases add.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use quantity::{HoldTime, Length, Mass, Pain};
use trade::gate::{Gate, gate};
use trade::history::*;
use trade::name::{ExerciseId, RungId};
use trade::protocol::Protocol;
use trade::protocol::read::shipped;
use trade::side::{Side, WorkingSide};

/// The day most cases ask about: a Wednesday.
pub const TODAY: Date = date(2026, 3, 18);

pub const LEFT: Side = Side::Left;
pub const RIGHT: Side = Side::Right;

pub fn protocol() -> Protocol {
    shipped().clone()
}

/// So many days before the day asked about.
pub fn ago(days: i64) -> Date {
    TODAY.checked_sub(days.days()).unwrap()
}

/// So many days after the day asked about.
pub fn ahead(days: i64) -> Date {
    TODAY.checked_add(days.days()).unwrap()
}

/// Somebody of this age today, a season into the programme, with every paper in order and nothing found.
pub fn fit(age: i16, sex: Sex) -> History {
    let born = date(TODAY.year() - age, 1, 10);
    let mut history = History::new(Swimmer {
        born,
        sex,
        experience: Experience::Trained,
        programme_started: Some(ago(200)),
    });
    let relation = if age < 18 { "guardian" } else { "self" };
    history.consents.push(consent(ago(60), relation));
    history.intakes.push(intake(ago(60)));
    history.screenings.push(screening(ago(50), &[("er_force", 90.0, 92.0), ("ir_force", 100.0, 101.0)]));
    history
}

pub fn consent(signed: Date, relation: &str) -> Consent {
    Consent {
        signed,
        granted: ConsentItem::ALL.to_vec(),
        signer: "A. Example".to_owned(),
        relation: relation.to_owned(),
        text_version: "1".to_owned(),
        withdrawn: None,
    }
}

pub fn intake(date: Date) -> Intake {
    Intake {
        date,
        shoulder_pain_12_months: Some(false),
        dislocation_or_slipping: Some(false),
        operation: Some(false),
        signs: Vec::new(),
        signs_asked: true,
    }
}

/// A screening with values for left and right.
pub fn screening(date: Date, values: &[(&str, f64, f64)]) -> Screening {
    let measured = |key: &str, side, value| Finding {
        key: key.to_owned(),
        side: Some(side),
        outcome: Outcome::Measured(value),
    };
    Screening {
        date,
        tester: "T. Tester".to_owned(),
        findings: values
            .iter()
            .flat_map(|(key, left, right)| [measured(key, LEFT, *left), measured(key, RIGHT, *right)])
            .collect(),
        visible_hollow: Vec::new(),
    }
}

pub fn beighton(date: Date, score: f64) -> Screening {
    let mut screening = screening(date, &[]);
    screening.findings.push(Finding {
        key: "beighton".to_owned(),
        side: None,
        outcome: Outcome::Measured(score),
    });
    screening
}

pub fn pain_of(number: i64) -> Pain {
    Pain::new(number).unwrap()
}

/// Left and right as spoken; below zero means not answered.
pub fn report(date: Date, when: PainWhen, kind: PainKind, left: i64, right: i64) -> PainReport {
    let number = |spoken: i64| (0 <= spoken).then(|| pain_of(spoken));
    PainReport {
        date,
        when,
        left: number(left),
        right: number(right),
        kind,
        signs: BTreeSet::new(),
        sign_side: None,
    }
}

pub fn joint(date: Date, when: PainWhen, left: i64, right: i64) -> PainReport {
    report(date, when, PainKind::JointOrOneSided, left, right)
}

pub fn ache(date: Date, when: PainWhen, left: i64, right: i64) -> PainReport {
    report(date, when, PainKind::Ache, left, right)
}

pub fn free(date: Date) -> PainReport {
    joint(date, PainWhen::FollowUp, 0, 0)
}

pub fn sign(date: Date, sign: Sign, side: Option<Side>) -> PainReport {
    let mut told = joint(date, PainWhen::Other, 0, 0);
    told.signs.insert(sign);
    told.sign_side = side;
    told
}

pub fn during(exercise: &str) -> PainWhen {
    PainWhen::During(Some(ExerciseId::new(exercise)))
}

pub fn clinician() -> Clinician {
    Clinician {
        name: "Dr Vera Sample".to_owned(),
        licence: "PT-1001".to_owned(),
        licence_until: date(2026, 12, 31),
    }
}

pub fn letter(date: Date, side: Option<Side>) -> Clearance {
    Clearance { date, side, clinician: clinician(), injury: None, conditions: ReturnConditions::default() }
}

pub fn reopening(date: Date, side: Option<Side>) -> Reopening {
    Reopening { date, side, by: "P. Practitioner".to_owned() }
}

pub fn limit(signed: Date, until: Date, side: Option<Side>) -> Limit {
    Limit {
        signed,
        until,
        side,
        clinician: clinician(),
        locked_tags: BTreeSet::new(),
        locked_exercises: BTreeSet::new(),
        sets: None,
        cap: None,
        allows_pain_up_to: None,
        note: String::new(),
    }
}

pub fn measure(date: Date, height_cm: f64) -> GrowthMeasure {
    GrowthMeasure { date, height: Length::from_centimetres(height_cm), sitting: None, mass: None }
}

/// The same with sitting height and mass.
pub fn body(date: Date, height_cm: f64, sitting_cm: f64, mass_kg: f64) -> GrowthMeasure {
    GrowthMeasure {
        sitting: Some(Length::from_centimetres(sitting_cm)),
        mass: Some(Mass::from_kilograms(mass_kg)),
        ..measure(date, height_cm)
    }
}

/// A session with one set that ended like this.
pub fn session(date: Date, exercise: &str, side: WorkingSide, end: End) -> Session {
    let set = Set {
        number: 1,
        time: HoldTime::from_seconds(40.0),
        cap: HoldTime::from_seconds(120.0),
        rest_before: None,
        end,
        watched: Watched::Seen,
        clock: Clock::Device,
        fault_left: None,
    };
    let rung = RungId::new("any");
    Session {
        date,
        number: 1,
        context: Context::AfterPractice,
        excluded: None,
        blocks: vec![Block {
            exercise: ExerciseId::new(exercise),
            side,
            planned: rung.clone(),
            used: rung,
            prescribed_sets: 3,
            sets: vec![set],
        }],
    }
}

/// The gate today.
pub fn today(history: &History) -> Gate {
    on(history, TODAY)
}

/// The gate on some day.
pub fn on(history: &History, day: Date) -> Gate {
    gate(shipped(), &history.clone().in_order(), day)
}

/// Codes of everything that holds back, in the gate's own order.
pub fn codes(gate: &Gate) -> Vec<&'static str> {
    gate.holds.iter().map(|hold| hold.line.rule.0).collect()
}

/// Codes of the notes, sorted.
pub fn notes(gate: &Gate) -> Vec<&'static str> {
    let mut codes: Vec<_> = gate.notes.iter().map(|line| line.rule.0).collect();
    codes.sort_unstable();
    codes
}
