//! How long ten thousand proposals take on one core: `cargo bench -p trade --bench propose`.
//!
//! One answer is everything the engine says of one swimmer on one day: the gate, and a proposal for each line of each
//! exercise of the shipped protocol (27 lines). The records are a season long: three sessions a week, five exercises.

use jiff::ToSpan;
use jiff::civil::{Date, date};
use quantity::{HoldTime, Pain};
use trade::dosing::plan;
use trade::gate::gate;
use trade::history::*;
use trade::name::{ExerciseId, FaultCode, RungId};
use trade::protocol::read::shipped;
use trade::side::WorkingSide;

const ON: Date = date(2026, 3, 9);

fn main() {
    divan::main();
}

fn day(ago: i64) -> Date {
    ON.saturating_sub(ago.days())
}

/// A swimmer with so many weeks of sessions behind them.
fn record(weeks: i64, salt: i64) -> History {
    let mut history = History::new(Swimmer {
        born: date(2010, 5, 1),
        sex: Sex::Female,
        experience: Experience::Trained,
        programme_started: Some(day(400)),
    });
    history.consents.push(Consent {
        signed: day(30),
        granted: ConsentItem::ALL.to_vec(),
        signer: String::new(),
        relation: "guardian".to_owned(),
        text_version: String::new(),
        withdrawn: None,
    });
    history.intakes.push(Intake {
        date: day(30),
        shoulder_pain_12_months: Some(false),
        dislocation_or_slipping: Some(false),
        operation: Some(false),
        signs: Vec::new(),
        signs_asked: true,
    });
    history.screenings.push(Screening {
        date: day(30),
        tester: String::new(),
        findings: Vec::new(),
        visible_hollow: Vec::new(),
    });
    for exercise in &shipped().exercises {
        history.sign_offs.push(SignOff { date: day(390), exercise: exercise.id.clone(), by: String::new() });
    }
    let lines: [(&str, &str, &[WorkingSide]); 5] = [
        ("RC-1", "b16", &[WorkingSide::Left, WorkingSide::Right]),
        ("RC-3", "w050", &[WorkingSide::Both]),
        ("SC-1", "b20", &[WorkingSide::Both]),
        ("SC-2", "p5", &[WorkingSide::Both]),
        ("CO-2", "staggered", &[WorkingSide::Left, WorkingSide::Right]),
    ];
    for number in 0..weeks * 3 {
        let date = day(number * 7 / 3 + 1);
        let set = |set: u8| {
            let time = 60 + (number * 37 + i64::from(set) * 11 + salt) % 61;
            let (time, end) =
                if time == 120 { (120, End::Cap) } else { (time, End::Form(FaultCode::new("F03"))) };
            Set {
                number: set,
                time: HoldTime::from_seconds(f64::from(i32::try_from(time).unwrap_or(0))),
                cap: HoldTime::from_seconds(120.0),
                rest_before: None,
                end,
                watched: Watched::Seen,
                clock: Clock::Device,
                fault_left: None,
            }
        };
        let blocks = lines
            .iter()
            .flat_map(|(exercise, rung, sides)| {
                sides.iter().map(|side| Block {
                    exercise: ExerciseId::new(exercise),
                    side: *side,
                    planned: RungId::new(rung),
                    used: RungId::new(rung),
                    prescribed_sets: 3,
                    sets: (1..=3).map(set).collect(),
                })
            })
            .collect();
        history.sessions.push(Session {
            date,
            number: 1,
            context: Context::AfterPractice,
            excluded: None,
            blocks,
        });
        for when in [PainWhen::Before, PainWhen::After] {
            history.pains.push(PainReport {
                date,
                when,
                left: Some(Pain::NONE),
                right: Some(Pain::NONE),
                kind: PainKind::Unstated,
                signs: std::collections::BTreeSet::new(),
                sign_side: None,
            });
        }
    }
    history.calendar.season_start = Some(day(weeks * 7));
    history.in_order()
}

/// Ten thousand proposals, one a line of sets, from as many swimmers as that takes.
#[divan::bench(args = [10, 44], sample_count = 20)]
fn ten_thousand_proposals(bencher: divan::Bencher<'_, '_>, weeks: i64) {
    let records: Vec<History> = (0..30).map(|salt| record(weeks, salt)).collect();
    bencher.bench_local(|| {
        let mut proposals = 0;
        for history in records.iter().cycle() {
            let gate = gate(shipped(), history, ON);
            proposals += divan::black_box(plan(shipped(), history, &gate)).proposals.len();
            if 10_000 <= proposals {
                break;
            }
        }
        proposals
    });
}

/// Everything that is said of one swimmer.
#[divan::bench(args = [10, 44])]
fn one_swimmer(bencher: divan::Bencher<'_, '_>, weeks: i64) {
    let history = record(weeks, 7);
    bencher.bench_local(|| {
        let gate = gate(shipped(), &history, ON);
        plan(shipped(), &history, &gate)
    });
}
