//! Short ways to write down a record.

use std::sync::OnceLock;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use quantity::{HoldTime, Pain};
use trade::dosing::{Plan, Proposal, plan};
use trade::gate::{Gate, gate};
use trade::history::*;
use trade::name::{ExerciseId, FaultCode, RungId};
use trade::protocol::{Exercise, Loads, Protocol, read};
use trade::side::{Side, WorkingSide};

/// The day every record is asked about.
pub(crate) const ON: Date = date(2026, 3, 9);

/// The exercises that records are made of: one arm, both arms, hand weights, a support arm, and no shoulder at all.
pub(crate) const EXERCISES: [&str; 5] = ["RC-1", "RC-3", "SC-1", "CO-2", "CO-5"];

/// The shipped protocol. Up to five exercises may step up together here, so that no line waits for another and each
/// can be compared by itself; that at most two do as shipped has a proof of its own.
pub(crate) fn protocol() -> &'static Protocol {
    static PROTOCOL: OnceLock<Protocol> = OnceLock::new();
    PROTOCOL.get_or_init(|| {
        let text = read::shipped()
            .text
            .replace("max_ups_per_session = { value = 2", "max_ups_per_session = { value = 5");
        read::read(&text).expect("five is allowed")
    })
}

pub(crate) fn ago(days: i64) -> Date {
    ON.saturating_sub(days.days())
}

pub(crate) fn pain(value: i64) -> Option<Pain> {
    Pain::new(value).ok()
}

pub(crate) fn seconds(value: f64) -> HoldTime {
    HoldTime::from_seconds(value)
}

/// A trained swimmer with every paper, signed off and taught in everything, a year in the programme.
pub(crate) fn swimmer(born: Date) -> History {
    let mut history = History::new(Swimmer {
        born,
        sex: Sex::Female,
        experience: Experience::Trained,
        programme_started: Some(ago(300)),
    });
    let relation = if history.swimmer.age_on(ON) < 18 { "guardian" } else { "self" };
    history.consents.push(Consent {
        signed: ago(30),
        granted: ConsentItem::ALL.to_vec(),
        signer: "Somebody".to_owned(),
        relation: relation.to_owned(),
        text_version: String::new(),
        withdrawn: None,
    });
    history.intakes.push(Intake {
        date: ago(30),
        shoulder_pain_12_months: Some(false),
        dislocation_or_slipping: Some(false),
        operation: Some(false),
        signs: Vec::new(),
        signs_asked: true,
    });
    history.screenings.push(Screening {
        date: ago(30),
        tester: String::new(),
        findings: Vec::new(),
        visible_hollow: Vec::new(),
    });
    for exercise in &protocol().exercises {
        history.sign_offs.push(SignOff { date: ago(200), exercise: exercise.id.clone(), by: "P".to_owned() });
        for days in [203, 201] {
            history.taught.push(Taught { date: ago(days), exercise: exercise.id.clone() });
        }
    }
    history
}

pub(crate) fn set(number: u8, time: f64, end: End) -> Set {
    Set {
        number,
        time: seconds(time),
        cap: seconds(120.0),
        rest_before: None,
        end,
        watched: Watched::Seen,
        clock: Clock::Device,
        fault_left: None,
    }
}

pub(crate) fn form(code: &str) -> End {
    End::Form(FaultCode::new(code))
}

/// Three sets on one rung, both arms where the exercise has two lines.
pub(crate) fn session(date: Date, exercise: &str, rung: &str, sets: &[Set]) -> Session {
    let block = |side| Block {
        exercise: ExerciseId::new(exercise),
        side,
        planned: RungId::new(rung),
        used: RungId::new(rung),
        prescribed_sets: 3,
        sets: sets.to_vec(),
    };
    let known = protocol().exercise(&ExerciseId::new(exercise)).expect("a known exercise");
    Session {
        date,
        number: 1,
        context: Context::AfterPractice,
        excluded: None,
        blocks: trade::dosing::start::sides_of(known).iter().map(|side| block(*side)).collect(),
    }
}

pub(crate) fn report(date: Date, when: PainWhen, left: Option<Pain>, right: Option<Pain>) -> PainReport {
    PainReport {
        date,
        when,
        left,
        right,
        kind: PainKind::Unstated,
        signs: std::collections::BTreeSet::new(),
        sign_side: None,
    }
}

pub(crate) fn no_pain(date: Date) -> PainReport {
    report(date, PainWhen::Before, pain(0), pain(0))
}

pub(crate) fn clinician() -> Clinician {
    Clinician { name: "Dr Sample".to_owned(), licence: "1".to_owned(), licence_until: date(2027, 12, 31) }
}

/// Gate and plan of one record.
pub(crate) fn judged(protocol: &Protocol, history: &History) -> (Gate, Plan) {
    let history = history.clone().in_order();
    let gate = gate(protocol, &history, ON);
    let plan = plan(protocol, &history, &gate);
    (gate, plan)
}

/// The proposal for one line.
pub(crate) fn line(plan: &Plan, exercise: &str, side: WorkingSide) -> Proposal {
    plan.proposals
        .iter()
        .find(|proposal| proposal.exercise.as_str() == exercise && proposal.side == side)
        .cloned()
        .expect("every line is proposed")
}

/// The shoulders a line loads, told again here so that the engine's own answer is not taken for granted.
pub(crate) fn loaded(exercise: &Exercise, side: WorkingSide) -> Vec<Side> {
    match exercise.loads {
        Loads::NoShoulder => Vec::new(),
        Loads::BothShoulders => Side::BOTH.to_vec(),
        Loads::WorkingShoulder => {
            side.shoulder().map_or_else(|| Side::BOTH.to_vec(), |shoulder| vec![shoulder])
        }
    }
}
