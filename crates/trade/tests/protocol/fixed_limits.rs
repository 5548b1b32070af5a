//! Each fixed safety limit is refused when loosened, at its line and with its reason; its own value is accepted.

use trade::protocol::Problem;
use trade::protocol::read::{SHIPPED_TEXT, read};

/// Replaces one piece of the shipped file and returns the problems with the line that was changed.
#[track_caller]
fn changed(from: &str, to: &str) -> (usize, Vec<Problem>) {
    let at = SHIPPED_TEXT.find(from).unwrap_or_else(|| panic!("the shipped file has no {from}"));
    let line = SHIPPED_TEXT[..at].matches('\n').count() + 1;
    let text = format!("{}{to}{}", &SHIPPED_TEXT[..at], &SHIPPED_TEXT[at + from.len()..]);
    (line, read(&text).err().unwrap_or_default())
}

/// The one problem a change makes: its message and its hint.
#[track_caller]
fn refused(from: &str, to: &str) -> (&'static str, &'static str) {
    let (line, problems) = changed(from, to);
    let [problem] = problems.as_slice() else { panic!("wanted one problem: {problems:#?}") };
    assert_eq!(problem.line, line, "{problem:?}");
    (problem.says, problem.hint)
}

#[test]
fn numbers_with_a_fixed_limit_are_refused_with_its_reason() {
    let cases = [
        ("cap_s = { value = 120", "cap_s = { value = 121", "protocol-why-cap"),
        (
            "prone_limit_under_15_kg = { value = 1.0",
            "prone_limit_under_15_kg = { value = 1.25",
            "protocol-why-prone",
        ),
        ("pre_water_gap_h = { value = 4", "pre_water_gap_h = { value = 2.5", "protocol-why-water"),
        ("value = [7, 14, 28, 56]", "value = [7, 14, 28, 57]", "protocol-why-gap"),
        ("beighton_cut_girls = { value = 6", "beighton_cut_girls = { value = 8", "protocol-why-beighton"),
        ("beighton_cut_woman = { value = 5", "beighton_cut_woman = { value = 6", "protocol-why-beighton"),
        ("beighton_cut_man = { value = 4", "beighton_cut_man = { value = 5", "protocol-why-beighton"),
        ("growth_velocity_cm_y = { value = 7", "growth_velocity_cm_y = { value = 9.5", "protocol-why-growth"),
        (
            "growth_end_velocity_cm_y = { value = 6",
            "growth_end_velocity_cm_y = { value = 6.5",
            "protocol-why-growth",
        ),
        ("growth_min_days = { value = 85", "growth_min_days = { value = 59", "protocol-why-growth"),
        ("maturity_window_y = { value = 0.5", "maturity_window_y = { value = 0.4", "protocol-why-growth"),
        ("growth_cap_s = { value = 90", "growth_cap_s = { value = 120", "protocol-why-growth"),
        ("growth_no_up_weeks = { value = 4", "growth_no_up_weeks = { value = 3", "protocol-why-growth"),
        ("pain_pre_out = { value = 3", "pain_pre_out = { value = 5", "protocol-why-pain"),
        ("pain_during_stop_joint = { value = 1", "pain_during_stop_joint = { value = 3", "protocol-why-pain"),
        (
            "no_up_after_pain_days = { value = 14",
            "no_up_after_pain_days = { value = 6",
            "protocol-why-pain-window",
        ),
        (
            "repeat_event_window_days = { value = 14",
            "repeat_event_window_days = { value = 6",
            "protocol-why-pain-window",
        ),
        ("pain_free_days = { value = 2", "pain_free_days = { value = 1", "protocol-why-pain-window"),
        (
            "supervise_ratio = { value = [8, 15]",
            "supervise_ratio = { value = [8, 21]",
            "protocol-why-supervise",
        ),
        (
            "min_group_for_report = { value = 5",
            "min_group_for_report = { value = 4",
            "protocol-why-small-group",
        ),
        ("teaching_sessions = { value = 2", "teaching_sessions = { value = 1", "protocol-why-teaching"),
    ];
    for (from, to, why) in cases {
        assert_eq!(refused(from, to), ("protocol-fixed-limit", why), "{to}");
    }
}

#[test]
fn every_fixed_parameter_is_tried_at_both_ends() {
    use trade::protocol::parameter::{PARAMETERS, Shape};
    for spec in PARAMETERS.iter().filter(|spec| spec.within.len() == 1 && spec.shape != Shape::Flag) {
        let (low, high) = spec.within[0];
        let begin = SHIPPED_TEXT.find(&format!("\n{} = {{ value = ", spec.key)).expect("every key is there");
        let from = SHIPPED_TEXT[begin + 1..].split(',').next().expect("a value ends with a comma");
        for value in [low - 1.0, high + 1.0] {
            let (line, problems) = changed(from, &format!("{} = {{ value = {value:?}", spec.key));
            assert!(problems.iter().any(|problem| problem.line == line), "{} {value}", spec.key);
        }
    }
}

#[test]
fn scaption_ends_at_two_point_two_kilograms_inclusive() {
    // 5 lb is 2.268 kg: refused, by the exact definition of the pound.
    for over in ["weight_kg = 2.2001", "weight_kg = 2.25", "weight_kg = 2.268", "weight_lb = 5"] {
        let from = "id = \"w220\", name = \"2.2 kg in each hand, the limit\", weight_kg = 2.2";
        let to = from.replace("weight_kg = 2.2", over);
        assert_eq!(refused(from, &to), ("protocol-scaption", "protocol-scaption-hint"), "{over}");
    }
    for key in ["2.3", "2.2001"] {
        let to = format!("scaption_limit_kg = {{ value = {key}");
        assert_eq!(refused("scaption_limit_kg = { value = 2.2", &to).0, "protocol-scaption");
    }
    let in_pounds = SHIPPED_TEXT.replace("weight_kg = 2.2,", "weight_lb = 4.85,");
    assert!(in_pounds.contains("weight_lb") && read(&in_pounds).is_ok(), "4.85 lb is 2.19992 kg");
}

#[test]
fn the_scaption_limit_is_told_in_kilograms_and_pounds() {
    let (_, problems) = changed("weight_kg = 2.2,", "weight_lb = 5,");
    let args = &problems[0].args;
    let value = |name: &str| args.iter().find(|(key, _)| *key == name).map(|(_, value)| value.as_str());
    assert_eq!(
        (value("lb"), value("limit-kg"), value("limit-lb")),
        (Some("5.00"), Some("2.2"), Some("4.85"))
    );
}

#[test]
fn a_club_may_lower_the_scaption_limit_and_then_its_ladder_ends_there() {
    let (_, problems) = changed("scaption_limit_kg = { value = 2.2", "scaption_limit_kg = { value = 2.0");
    assert!(problems.iter().all(|problem| problem.says == "protocol-scaption"));
    assert_eq!(problems.len(), 4, "w220 and the three rungs at its weight");
}

#[test]
fn renaming_the_exercise_does_not_lift_its_limit() {
    let text =
        SHIPPED_TEXT.replace("RC-3", "MY-RAISE").replace("weight_kg = 2.2, tags", "weight_kg = 3, tags");
    let problems = read(&text).expect_err("3 kg is too much under any name");
    assert!(problems.iter().any(|problem| problem.says == "protocol-scaption"), "{problems:#?}");
}

#[test]
fn other_limits_of_the_exercise_list() {
    let cases = [
        // More than 1 kg prone under 15.
        (
            "{ id = \"t100\", name = \"1 kg in each hand\", weight_kg = 1.0",
            "{ id = \"t100\", name = \"1.25 kg\", weight_kg = 1.25",
            "protocol-prone",
        ),
        // Prone Y as well as prone T.
        (
            "{ id = \"y100\", name = \"1 kg in each hand\", weight_kg = 1.0",
            "{ id = \"y100\", name = \"1.25 kg\", weight_kg = 1.25",
            "protocol-prone",
        ),
        // Hands that bear the body but load no shoulder.
        (
            "loads = \"both-shoulders\"\ntags = [\"closed-chain\"]",
            "loads = \"no-shoulder\"\ntags = [\"closed-chain\"]",
            "protocol-closed-chain",
        ),
        // Two working arms that load one shoulder.
        (
            "arms = \"both\"\nloads = \"both-shoulders\"",
            "arms = \"both\"\nloads = \"working-shoulder\"",
            "protocol-loads-contradict",
        ),
        // Ninety degrees for the very young.
        (
            "tags = [\"ninety-ninety\"], from_age = 15",
            "tags = [\"ninety-ninety\"], from_age = 14",
            "protocol-ninety",
        ),
        ("tags = [\"ninety-ninety\"], from_age = 15", "tags = [\"ninety-ninety\"]", "protocol-ninety"),
        // A trunk hold longer than the fixed cap.
        ("own_cap_s = 60", "own_cap_s = 121", "protocol-out-of-range"),
        // Scaption swung, a band whipped, circles that never turn, a plus that is not held.
        (
            "tempo = \"2/0/2\"\nfaults = [\"F03\", \"F07\", \"F13\"",
            "tempo = \"1/0/1\"\nfaults = [\"F03\", \"F07\", \"F13\"",
            "protocol-tempo-limit",
        ),
        ("tempo = \"1/0/1\"", "tempo = \"0.5/0/0.5\"", "protocol-tempo-limit"),
        ("circles 15\"", "circles 60\"", "protocol-tempo-limit"),
        (
            "tempo = \"2/2/2\"\nfaults = [\"F08\"",
            "tempo = \"2/0/2\"\nfaults = [\"F08\"",
            "protocol-tempo-limit",
        ),
        // A band that the pain rule could not lock.
        (
            "tags = [\"band\", \"anchor\"]\ntempo = \"1/1/1\"",
            "tags = [\"anchor\"]\ntempo = \"1/1/1\"",
            "protocol-load-tag",
        ),
        // Pain as a fault of form.
        ("faults = [\"F05\", \"F07\"", "faults = [\"F20\", \"F07\"", "protocol-pain-as-fault"),
    ];
    for (from, to, says) in cases {
        let (_, problems) = changed(from, to);
        assert!(problems.iter().any(|problem| problem.says == says), "{to}: {problems:#?}");
        assert!(problems.iter().all(|problem| problem.says == says), "{to}: {problems:#?}");
    }
}

#[test]
fn heavier_prone_lifts_are_for_fifteen_and_older() {
    let (_, problems) = changed(
        "weight_kg = 1.0, tags = [\"weight\"] },\n  { id = \"t-hold3\"",
        "weight_kg = 1.25, from_age = 15, tags = [\"weight\"] },\n  { id = \"t-hold3\"",
    );
    assert_eq!(problems, []);
}

#[test]
fn a_stretch_stays_out_of_the_hypermobile_track() {
    let (_, problems) = changed("hypermobile = { left_out = true, note", "hypermobile = { note");
    assert_eq!(problems.len(), 1, "{problems:#?}");
    assert_eq!(problems[0].says, "protocol-stretch-on-track");
}
