//! `explain`: every code of every family has an explanation with its ground.

use trade::history::Sign;
use trade::protocol::read::shipped;
use trade::rule::catalogue;

use super::run::cuffwright;

#[test]
fn each_family_is_explained() {
    for (code, kind, parts) in [
        ("p4", "rule", &["Checks", "Matters because", "Does not apply", "Example", "Source", "cap_s"][..]),
        ("F06", "fault", &["Seen as", "Say once"]),
        ("rc-1", "exercise", &["Movement", "Ladder", "[published:"]),
        ("RC-1/b16", "rung", &["Level 3 of 11", "16 N (3.6 lbf)"]),
        ("cap_s", "parameter", &["120 s", "Fixed because", "Read by rules P1, P4", "core practice"]),
        ("beighton_cut_u18", "parameter", &["published", "Source"]),
        ("night-pain", "sign", &["within a week", "U4"]),
        ("williams2024", "source", &["Seen of it"]),
    ] {
        cuffwright(&["explain", code]).ends_with(0).says(parts);
        let json = cuffwright(&["explain", code, "--json"]).ends_with(0).json("cuffwright.explain/1");
        assert_eq!(json["kind"], kind, "{code}");
        assert!(!json["parts"].as_array().unwrap().is_empty(), "{code}");
    }
}

#[test]
fn every_code_is_listed() {
    let json = cuffwright(&["explain", "--json"]).ends_with(0).json("cuffwright.codes/1");
    let codes: Vec<&str> =
        json["codes"].as_array().unwrap().iter().map(|code| code["code"].as_str().unwrap()).collect();
    assert!(catalogue::all().all(|rule| codes.contains(&rule.code.0)));
    assert!(Sign::ALL.iter().all(|sign| codes.contains(&sign.word())));
    for exercise in &shipped().exercises {
        assert!(
            exercise
                .ladder
                .iter()
                .all(|rung| codes.contains(&format!("{}/{}", exercise.id, rung.id).as_str()))
        );
    }
    let mut once = codes.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), codes.len(), "no code has two meanings");
    cuffwright(&["explain"]).ends_with(0).says(&["Rules", "Form faults", "Warning signs"]);
}

#[test]
fn an_unknown_code_brings_the_nearest() {
    cuffwright(&["explain", "cap"]).ends_with(0);
    cuffwright(&["explain", "night-pian"]).ends_with(3).says(&["“night-pian” is not a code", "night-pain"]);
    cuffwright(&["explain", "RC-1/b17"]).ends_with(3).says(&["Did you mean"]);
    cuffwright(&["explain", "nothing like it at all"]).ends_with(3).says(&["lists all of them"]);
}
