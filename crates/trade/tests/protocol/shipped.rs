//! The shipped protocol holds what the trade practice table and its exercise set hold.

use std::collections::BTreeSet;

use trade::name::{ExerciseId, RungId};
use trade::protocol::parameter::{PARAMETERS, ParameterSpec};
use trade::protocol::read::{SHIPPED_TEXT, read};
use trade::protocol::{
    Arms, Counting, Evidence, Exercise, Load, Loads, Protocol, StartGroup, Tag, Tempo, shipped,
};

fn exercise(id: &str) -> &'static Exercise {
    shipped().exercise(&ExerciseId::new(id)).unwrap_or_else(|| panic!("{id} is missing"))
}

#[test]
fn it_reads_without_a_problem() {
    match read(SHIPPED_TEXT) {
        Ok(protocol) => assert_eq!(protocol.name, "cuffwright-default"),
        Err(problems) => panic!("{problems:#?}"),
    }
}

#[test]
fn its_hash_is_that_of_its_bytes() {
    // Source: FIPS 180-4 example, SHA-256 of "abc".
    assert_eq!(
        trade::protocol::read::hash_of("abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    assert_eq!(shipped().hash, trade::protocol::read::hash_of(SHIPPED_TEXT));
    assert_eq!(&*shipped().text, SHIPPED_TEXT);
}

/// Defaults and allowed ranges of the trade practice table (its section H), as they are written there; a range is
/// left out where that table gives none.
#[rustfmt::skip]
const TRADE_TABLE: &[(&str, &str, Option<&str>)] = &[
    ("cap_s", "120 s", Some("30 to 120 s")),
    ("sets", "3", Some("1 to 3")),
    ("rest_s", "30 s", Some("20 to 90 s")),
    ("n_qualify", "1", Some("1 to 3")),
    ("n_qualify_careful", "2", Some("1 to 3")),
    ("tolerance_s", "0 s", Some("0 to 2 s")),
    ("cue_grace_s", "5 s", Some("2 to 10 s")),
    ("scaption_limit_kg", "2.2 kg", Some("0 to 2.2 kg")),
    ("pre_water_gap_h", "4 h", Some("3 to 8 h")),
    ("free_days_between_loaded", "1 days", Some("0 to 2 days")),
    ("min_hours_between_loaded", "24 h", Some("20 to 48 h")),
    ("meet_gap_ab_h", "48 h", Some("24 to 72 h")),
    ("meet_gap_c_h", "24 h", Some("24 to 72 h")),
    ("sessions_week", "3 / 2 / 1", Some("each 0 to 4")),
    ("max_exercises", "5", Some("3 to 8")),
    ("max_ups_per_session", "2", Some("1 to 5")),
    ("deload_every_weeks", "4 weeks", Some("3 to 6 weeks, or off")),
    ("gap_days", "7 / 14 / 28 / 56 days", None),
    ("level_step_target_pct", "20 / 30 %", Some("each 15 to 40 %")),
    ("step_too_big_s", "20 s", Some("15 to 45 s")),
    ("held_up_valid_weeks", "6 weeks", Some("2 to 12 weeks")),
    ("slot_overhead_min", "19 min", Some("8 to 25 min")),
    ("side_diff_time_pct", "25 %", None),
    ("side_diff_time_s", "30 s", None),
    ("side_diff_time_sessions", "2", None),
    ("side_diff_strength_adapt_pct", "15 %", Some("10 to 30 %")),
    ("side_diff_strength_refer_pct", "25 %", Some("10 to 30 %")),
    ("ratio_flag", "0.75", Some("0.6 to 0.95")),
    ("beighton_cut_u18", "6 of 9", None),
    ("beighton_cut_woman", "5 of 9", None),
    ("beighton_cut_man", "4 of 9", None),
    ("growth_velocity_cm_y", "7 cm/year", Some("6 to 9 cm/year")),
    ("growth_min_days", "85 days", Some("60 to 180 days")),
    ("pain_pre_out", "3 of 10", Some("1 to 4 of 10")),
    ("pain_during_stop_joint", "1 of 10", Some("1 to 2 of 10")),
    ("no_up_after_pain_days", "14 days", Some("7 to 28 days")),
    ("repeat_event_window_days", "14 days", Some("7 to 28 days")),
    ("load_jump_pct", "130 %", Some("120 to 150 %")),
    ("consent_valid_months", "12 months", Some("6 to 24 months")),
    ("supervise_ratio", "8 / 15", Some("each 5 to 20")),
    ("min_group_for_report", "5", Some("5 to 10")),
    ("band_replace_months", "6 months", Some("3 to 12 months")),
    ("band_drift_pct", "15 %", Some("10 to 25 %")),
    ("spare_factor", "1.2 times", Some("1 to 1.5 times")),
    ("retest_weeks", "8 / 12 weeks", Some("each 6 to 16 weeks")),
];

#[test]
fn every_number_of_the_trade_practice_table_stands_with_its_default_and_range() {
    for (key, value, allowed) in TRADE_TABLE {
        let listed = shipped().parameters.listed_of(key);
        let listed = listed.unwrap_or_else(|| panic!("{key} is not listed"));
        assert_eq!(listed.value, *value, "{key}");
        if let Some(allowed) = allowed {
            assert_eq!(listed.allowed, *allowed, "{key}");
        }
    }
}

#[test]
fn tempo_and_change_of_direction_are_those_of_the_trade_practice_table() {
    // Source: trade practice table: scaption 2/0/2, bands 1/0/1, circles reversed every 15 s, plus held 2 s.
    let beat = |out, hold, back| Tempo::Beat { out, hold, back };
    let cases = [
        ("RC-1", beat(1.0, 0.0, 1.0)),
        ("RC-2", beat(1.0, 0.0, 1.0)),
        ("RC-3", beat(2.0, 0.0, 2.0)),
        ("RC-4", Tempo::Circles { reverse_every: quantity::HoldTime::from_seconds(15.0) }),
        ("SC-1", beat(1.0, 0.0, 1.0)),
        ("SC-2", beat(2.0, 2.0, 2.0)),
    ];
    for (id, tempo) in cases {
        assert_eq!(exercise(id).tempo, tempo, "{id}");
    }
}

#[test]
fn every_parameter_is_listed_once_in_file_order() {
    let listed: Vec<&str> = shipped().parameters.listed.iter().map(|listed| listed.key).collect();
    let known: BTreeSet<&str> = PARAMETERS.iter().map(|spec| spec.key).collect();
    assert_eq!(listed.len(), PARAMETERS.len());
    assert_eq!(listed.iter().copied().collect::<BTreeSet<_>>(), known);
    let places: Vec<_> = listed.iter().map(|key| SHIPPED_TEXT.find(&format!("\n{key} = "))).collect();
    assert!(places.is_sorted(), "{places:?}");
    // Rules name a parameter by its field; people by its key.
    assert_eq!(
        shipped().parameters.listed_of("cap").map(|listed| listed.key),
        ParameterSpec::of("cap").map(|spec| spec.key)
    );
}

#[test]
fn values_reach_their_fields_in_the_fields_own_unit() {
    let parameters = &shipped().parameters;
    assert_eq!(parameters.cap.seconds(), 120.0);
    assert_eq!(parameters.scaption_limit.in_kilograms(), 2.2);
    assert_eq!(parameters.level_step_target, [0.20, 0.30]);
    assert_eq!(parameters.fall_share, 0.25);
    assert_eq!((parameters.side_diff_strength_adapt, parameters.side_diff_strength_refer), (0.15, 0.25));
    assert_eq!(parameters.side_diff_time_share, 0.25);
    assert_eq!(parameters.load_jump_pct, 130.0);
    assert_eq!(parameters.deload_every_weeks, Some(4));
    assert_eq!(parameters.gap_days, [7, 14, 28, 56]);
    assert_eq!(parameters.pain_pre_out.get(), 3);
    assert!(parameters.rc2_needs_ratio && !parameters.home_counts && !parameters.join_without_consent);
}

#[test]
fn a_deload_can_be_switched_off() {
    let text =
        SHIPPED_TEXT.replace("deload_every_weeks = { value = 4,", "deload_every_weeks = { value = \"off\",");
    let protocol = read(&text).expect("off is allowed");
    assert_eq!(protocol.parameters.deload_every_weeks, None);
}

const EXERCISES: &[&str] = &[
    "RC-1", "RC-2", "RC-3", "RC-4", "SC-1", "SC-2", "SC-3", "SC-4", "SC-5", "SC-6", "CO-1", "CO-2", "CO-3",
    "CO-4", "CO-5", "BA-1", "FL-1", "FL-2", "FL-3", "FL-4",
];

#[test]
fn every_exercise_of_the_trade_is_there() {
    let ids: Vec<&str> = shipped().exercises.iter().map(|exercise| exercise.id.as_str()).collect();
    assert_eq!(ids, EXERCISES);
}

#[test]
fn every_fault_of_the_trade_is_there_with_a_cue_of_one_breath() {
    let codes: Vec<String> = shipped().faults.iter().map(|fault| fault.code.to_string()).collect();
    let wanted: Vec<String> = (1..=13).chain([20]).map(|number| format!("F{number:02}")).collect();
    assert_eq!(codes, wanted);
    for fault in &shipped().faults {
        assert!(fault.cue.split(' ').count() <= 6, "{}: {}", fault.code, fault.cue);
    }
}

#[test]
fn rung_names_are_the_stable_ones() {
    let rungs =
        |id: &str| exercise(id).ladder.iter().map(|rung| rung.id.to_string()).collect::<Vec<_>>().join(" ");
    let bands = "b10 b13 b16 b20 b25 b32 b42 b55";
    for id in ["RC-1", "RC-2", "SC-1", "SC-5"] {
        assert!(rungs(id).starts_with(bands), "{id}: {}", rungs(id));
    }
    assert_eq!(rungs("RC-3"), "w000 w025 w050 w075 w100 w125 w150 w175 w200 w220 s303 s-one-leg s-hold");
    assert_eq!(rungs("SC-2"), "p1 p2 p3 p4 p5 p6 p7 p8 p9");
    // Source: trade practice, illustrative ladder: level 3 is 16 N.
    assert_eq!(exercise("RC-1").place_of(&RungId::new("b16")), Some(2));
}

#[test]
fn what_an_exercise_loads_includes_the_supporting_arms() {
    for exercise in &shipped().exercises {
        let wanted = match exercise.id.as_str() {
            "CO-4" | "CO-5" => Loads::NoShoulder,
            "RC-1" | "RC-2" | "RC-4" | "FL-1" | "FL-2" | "FL-4" => Loads::WorkingShoulder,
            _ => Loads::BothShoulders,
        };
        assert_eq!(exercise.loads, wanted, "{}", exercise.id);
    }
}

#[test]
fn trunk_and_balance_end_at_sixty_seconds_and_mobility_is_plain() {
    for exercise in &shipped().exercises {
        let family = &exercise.id.as_str()[..2];
        let own = matches!(family, "CO" | "BA").then_some(60.0);
        assert_eq!(exercise.own_cap.map(|cap| cap.seconds()), own, "{}", exercise.id);
        let plain = family == "FL";
        assert_eq!(exercise.counting == Counting::Plain, plain, "{}", exercise.id);
        assert_eq!(exercise.only_with_finding, plain, "{}", exercise.id);
        assert_eq!(exercise.ladder.is_empty(), plain, "{}", exercise.id);
    }
}

#[test]
fn the_hypermobile_track_is_that_of_the_trade() {
    let rule = |id: &str| &exercise(id).hypermobile;
    assert_eq!(rule("SC-2").start, Some(RungId::new("p2")));
    for id in EXERCISES {
        assert_eq!(rule(id).left_out, ["FL-1", "FL-2"].contains(id), "{id}");
    }
    for id in ["RC-1", "RC-3"] {
        assert!(rule(id).note.is_some(), "{id} says how far");
    }
    let slow = Tempo::Beat { out: 2.0, hold: 0.0, back: 2.0 };
    assert_eq!(rule("RC-1").tempo, Some(slow));
}

#[test]
fn positions_at_ninety_degrees_are_for_fifteen_and_older() {
    let ninety: Vec<_> = exercise("RC-1")
        .ladder
        .iter()
        .filter(|rung| rung.tags.contains(&Tag::NinetyNinety))
        .map(|rung| (rung.id.as_str(), rung.from_age, rung.not_heavier))
        .collect();
    assert_eq!(ninety, [("x90", Some(15), true), ("x90-prone", Some(15), true)]);
}

#[test]
fn newcomers_begin_where_the_start_table_says() {
    // Source: trade practice, typical starting levels; the lower end of a range.
    let begins = |group: StartGroup, id: &str| {
        let row = shipped().starts.iter().find(|start| start.group == group).expect("every group has a row");
        row.rungs.iter().find(|(exercise, _)| exercise.as_str() == id).map(|(_, rung)| rung.to_string())
    };
    let cases = [
        (StartGroup::Child, "RC-1 b10, RC-3 w000, SC-1 b10, SC-2 p1, SC-3 t000"),
        (StartGroup::Beginner, "RC-1 b10, RC-3 w000, SC-1 b13, SC-2 p2, SC-3 t000"),
        (StartGroup::Trained, "RC-1 b13, RC-3 w025, SC-1 b16, SC-2 p3, SC-3 t000"),
        (StartGroup::Girl, "RC-1 b13, RC-3 w050, SC-1 b20, SC-2 p5, SC-3 t000"),
        (StartGroup::Boy, "RC-1 b16, RC-3 w075, SC-1 b25, SC-2 p6, SC-3 t025"),
        (StartGroup::Woman, "RC-1 b16, RC-3 w100, SC-1 b25, SC-2 p7, SC-3 t025"),
        (StartGroup::Man, "RC-1 b20, RC-3 w100, SC-1 b32, SC-2 p7, SC-3 t050"),
        (StartGroup::Masters, "RC-1 b13, RC-3 w050, SC-1 b16, SC-2 p3, SC-3 t000"),
    ];
    for (group, line) in cases {
        let found: Vec<String> = ["RC-1", "RC-3", "SC-1", "SC-2", "SC-3"]
            .iter()
            .map(|id| format!("{id} {}", begins(group, id).unwrap_or_default()))
            .collect();
        assert_eq!(found.join(", "), line, "{}", group.word());
    }
}

#[test]
fn every_published_mark_names_a_source_and_every_source_is_cited() {
    let protocol: &Protocol = shipped();
    let notes =
        protocol.exercises.iter().flat_map(|exercise| exercise.evidence.iter().map(|note| &note.evidence));
    let numbers = protocol.parameters.listed.iter().map(|listed| &listed.evidence);
    let mut cited = BTreeSet::new();
    for evidence in notes.chain(numbers) {
        if let Evidence::Published(key) = evidence {
            assert!(protocol.source(key).is_some(), "{key}");
            cited.insert(key.as_str());
        }
    }
    let held: BTreeSet<&str> = protocol.sources.iter().map(|source| source.key.as_str()).collect();
    assert_eq!(cited, held);
}

#[test]
fn core_practice_is_marked_as_such() {
    // Source: trade practice table, numbers marked as core practice.
    for key in ["cap_s", "sets", "rest_s", "n_qualify", "scaption_limit_kg"] {
        let listed = shipped().parameters.listed.iter().find(|listed| listed.key == key);
        assert_eq!(listed.map(|listed| &listed.evidence), Some(&Evidence::CorePractice), "{key}");
    }
    for id in ["RC-1", "RC-2", "RC-3", "RC-4", "SC-1", "SC-2"] {
        let marked = exercise(id).evidence.iter().any(|note| note.evidence == Evidence::CorePractice);
        assert!(marked, "{id} marks its tempo as core practice");
    }
}

#[test]
fn arms_and_loads_of_bands_and_weights_are_sound() {
    for exercise in &shipped().exercises {
        let has_load =
            exercise.ladder.iter().any(|rung| matches!(rung.load, Load::Band(_) | Load::Weight(_)));
        assert!(!has_load || exercise.loads != Loads::NoShoulder, "{}", exercise.id);
    }
    for id in ["RC-1", "RC-2", "RC-4"] {
        assert_eq!(exercise(id).arms, Arms::One, "{id}");
    }
}
