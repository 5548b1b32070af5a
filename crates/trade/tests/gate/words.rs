//! Every sentence exists, gets the values it names, and every code stands in the catalogue.

use std::collections::{BTreeMap, BTreeSet};

use trade::due::due;
use trade::gate::Availability;
use trade::history::PainWhen::*;
use trade::history::*;
use trade::protocol::parameter::ParameterSpec;
use trade::protocol::read::shipped;
use trade::rule::catalogue::rule_of;
use trade::rule::gate_rules::RULES;
use trade::side::WorkingSide;
use trade::trace::{Arg, Class, Line};

use crate::build::*;

const GATE: &str = include_str!("../../../app/text/en/gate.ftl");
const DUE: &str = include_str!("../../../app/text/en/due.ftl");

/// Sentences by their name.
fn sentences() -> BTreeMap<&'static str, &'static str> {
    let lines = GATE.lines().chain(DUE.lines()).filter(|line| !line.is_empty() && !line.starts_with('#'));
    let pairs: Vec<_> = lines.map(|line| line.split_once(" = ").expect(line)).collect();
    let count = pairs.len();
    let sentences: BTreeMap<_, _> = pairs.into_iter().collect();
    assert_eq!(sentences.len(), count, "a name stands twice");
    sentences
}

fn placeables(sentence: &str) -> BTreeSet<&str> {
    sentence.split("{ $").skip(1).map(|rest| rest.split(' ').next().unwrap()).collect()
}

/// Records that between them make every rule speak.
fn zoo() -> Vec<History> {
    let mut all = vec![History::new(fit(15, Sex::Female).swimmer)];
    let mut change = |age: i16, alter: &dyn Fn(&mut History)| {
        let mut history = fit(age, Sex::Female);
        alter(&mut history);
        all.push(history);
    };
    change(15, &|history| history.consents[0].granted.clear());
    change(15, &|history| history.consents[0].signed = ago(400));
    change(15, &|history| history.consents[0].signed = ago(340));
    change(15, &|history| history.consents[0].withdrawn = Some(ago(1)));
    change(18, &|history| history.consents[0].relation = "guardian".to_owned());
    change(15, &|history| {
        history.intakes[0].operation = Some(true);
        history.intakes[0].dislocation_or_slipping = Some(true);
        history.intakes[0].shoulder_pain_12_months = Some(true);
        history.intakes[0].signs = vec![Sign::Worry, Sign::UnderEating];
    });
    change(15, &|history| history.intakes[0].signs_asked = false);
    change(15, &|history| {
        history.bans.push(Ban { from: ago(2), until: None, by: "Dr Sample".to_owned() });
        history.bans.push(Ban { from: ago(2), until: Some(ahead(2)), by: "Dr Sample".to_owned() });
        history.illnesses.push(Illness {
            from: ago(3),
            fever: true,
            bed_days: None,
            symptom_free_from: None,
        });
        history.illnesses.push(Illness {
            from: ago(4),
            fever: true,
            bed_days: None,
            symptom_free_from: Some(TODAY),
        });
        let opened = ago(3);
        history.referrals.push(Referral { opened, side: None, urgency: Urgency::SameDay, answered: None });
        let mut unlicensed = limit(ago(5), ahead(5), None);
        unlicensed.clinician.licence_until = ago(6);
        history.limits.push(unlicensed);
        history.absences.push(Absence {
            from: ago(9),
            to: None,
            reason: AbsenceReason::Injury,
            kept_swimming: None,
        });
    });
    for reports in [
        vec![joint(ago(5), Before, 0, 2), joint(ago(4), Before, 1, 0), free(ago(2)), free(ago(1))],
        vec![joint(TODAY, during("RC-3"), 0, 2)],
        vec![joint(TODAY, NextMorning, 0, 2)],
        vec![ache(TODAY, Before, 2, 2)],
        vec![joint(ago(9), during("RC-3"), 0, 4), joint(TODAY, during("RC-3"), 0, 7)],
        vec![sign(TODAY, Sign::ArmSwollenBlueOrCold, Some(LEFT)), sign(TODAY, Sign::SuddenWeakness, None)],
        vec![sign(TODAY, Sign::NightPain, None), sign(TODAY, Sign::Clumsiness, None)],
    ] {
        change(15, &|history| history.pains.clone_from(&reports));
    }
    change(15, &|history| {
        history.pains.push(joint(TODAY, Before, 0, 1));
        history.limits.push(Limit { allows_pain_up_to: Some(pain_of(2)), ..limit(ago(2), ahead(2), None) });
    });
    change(15, &|history| history.sessions.push(session(ago(1), "RC-1", WorkingSide::Right, End::Pain)));
    change(15, &|history| {
        history.screenings[0].findings.push(Finding {
            key: "plank_time".to_owned(),
            side: None,
            outcome: Outcome::NotDonePain,
        });
    });
    change(19, &|history| {
        let values = [("er_force", 105.0, 60.0), ("ir_force", 110.0, 110.0), ("shoulder_ir_rom", 40.0, 55.0)];
        history.screenings = vec![Screening { visible_hollow: vec![RIGHT], ..screening(ago(60), &values) }];
        history.screenings.push(screening(ago(59), &[("horizontal_adduction", 10.0, 30.0)]));
    });
    change(15, &|history| history.screenings = vec![beighton(ago(70), 8.0)]);
    change(12, &|history| {
        history.growth = vec![measure(ago(280), 140.0), measure(ago(130), 140.1)];
        history.swimmer.programme_started = None;
    });
    change(12, &|history| {
        history.growth = vec![measure(ago(150), 130.0), measure(ago(1), 134.0)];
        history.swimmer.programme_started = Some(ago(10));
    });
    change(12, &|history| history.growth = vec![body(ago(2), 154.0, 80.0, 44.0)]);
    change(20, &|history| {
        let conditions = ReturnConditions {
            daily_life_pain_free: Some(false),
            range_gap_deg: Some(20.0),
            strength_share: Some(0.5),
            half_water_weeks: None,
        };
        let injury = Some(InjuryKind::Other);
        history.clearances.push(Clearance { injury, conditions, ..letter(ago(2), None) });
        for (weeks, km) in [(0, 42.0), (1, 31.0), (2, 31.0), (3, 31.0), (4, 31.0)] {
            history.water_weeks.push(WaterWeek::of(ago(9 + 7 * weeks), km));
        }
    });
    all
}

fn lines() -> Vec<Line> {
    let mut lines = Vec::new();
    let mut open_doors = protocol();
    open_doors.parameters.join_without_consent = true;
    for history in zoo() {
        let history = history.in_order();
        let gate = trade::gate::gate(&open_doors, &history, TODAY);
        lines.extend(gate.holds.iter().map(|hold| hold.line.clone()));
        lines.extend(gate.notes.iter().cloned());
        lines.extend(gate.no_up_before.iter().map(|(_, line)| line.clone()));
        lines.extend(gate.proposed_ends.iter().map(|(_, line)| line.clone()));
        lines.extend(gate.left_out.iter().map(|(_, line)| line.clone()));
        let tracks = gate.tracks;
        lines.extend([tracks.youth, tracks.hypermobile, tracks.newcomer].into_iter().flatten());
        lines.extend(tracks.growth.map(|hold| hold.line));
        lines.extend(tracks.reentry.into_iter().flat_map(|way| way.open_conditions));
        lines.extend(due(shipped(), &history, TODAY, None).into_iter().map(|due| due.line));
    }
    lines
}

#[test]
fn every_line_has_its_sentence_its_values_and_its_rule() {
    let sentences = sentences();
    for line in lines() {
        let sentence = sentences.get(line.says).unwrap_or_else(|| panic!("no sentence {}", line.says));
        let given: BTreeSet<&str> = line.args.iter().map(|(name, _)| *name).collect();
        let wanted = placeables(sentence);
        assert!(wanted.is_subset(&given), "{}: wants {wanted:?}, given {given:?}", line.says);
        for (_, arg) in &line.args {
            if let Arg::Word(word) = arg {
                assert!(sentences.contains_key(word.as_str()), "{}: no word {word}", line.says);
            }
        }
        assert!(rule_of(line.rule).is_some(), "{} is not in the catalogue", line.rule);
    }
}

#[test]
fn every_sentence_and_every_rule_is_used() {
    let lines = lines();
    let said: BTreeSet<&str> = lines.iter().map(|line| line.says).collect();
    for name in sentences().into_keys().filter(|name| name.starts_with("gate-") || name.starts_with("due-")) {
        assert!(said.contains(name), "nothing says {name}");
    }
    let spoken: BTreeSet<_> = lines.iter().map(|line| line.rule).collect();
    for rule in RULES {
        assert!(spoken.contains(&rule.code), "no case makes {} speak", rule.code);
    }
}

#[test]
fn every_parameter_that_a_rule_names_exists() {
    for rule in RULES {
        for parameter in rule.parameters {
            assert!(ParameterSpec::of(parameter).is_some(), "{}: {parameter}", rule.code);
        }
    }
}

#[test]
fn every_sign_word_and_urgency_has_its_words() {
    let sentences = sentences();
    let words = Sign::ALL.iter().map(|sign| format!("sign-{}", sign.word()));
    let items = ConsentItem::ALL.iter().map(|item| format!("consent-item-{}", item.word()));
    let urgencies = ["talk", "within-a-week", "same-day", "emergency"];
    let todo = urgencies.iter().flat_map(|word| [format!("urgency-{word}"), format!("urgency-{word}-do")]);
    let availabilities = [
        Availability::Full,
        Availability::Limited,
        Availability::NotYet,
        Availability::OutToday,
        Availability::OutReferred,
    ];
    let states = availabilities.iter().map(|state| format!("availability-{}", state.word()));
    for name in words.chain(items).chain(todo).chain(states) {
        assert!(sentences.contains_key(name.as_str()), "{name}");
    }
}

#[test]
fn what_the_coach_may_read_never_says_why() {
    for line in lines().into_iter().filter(|line| line.class == Class::Availability) {
        assert!(line.args.is_empty(), "{} carries values", line.says);
    }
    let about_health = |line: &Line| !["W4", "G13", "M2"].contains(&line.rule.0);
    for line in lines().into_iter().filter(about_health) {
        assert_eq!(line.class, Class::Health, "{}", line.says);
    }
}
