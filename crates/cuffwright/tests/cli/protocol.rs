//! `protocol check`, `show` and `hash`.

use trade::protocol::read::{SHIPPED_TEXT, shipped};

use super::run::{Folder, cuffwright, cuffwright_reading};

#[test]
fn the_shipped_protocol_is_sound() {
    let folder = Folder::new();
    let file = folder.file("shipped.toml", SHIPPED_TEXT);
    cuffwright(&["protocol", "check", &file]).ends_with(0).says(&["is sound:", &shipped().hash]);
    let json =
        cuffwright(&["protocol", "check", &file, "--json"]).ends_with(0).json("cuffwright.protocol-check/1");
    assert_eq!((&json["sound"], &json["protocol"]["hash"]), (&true.into(), &shipped().hash.as_str().into()));
    assert_eq!(cuffwright(&["protocol", "hash"]).ends_with(0).out.trim(), shipped().hash);
    let own =
        cuffwright(&["protocol", "hash", "--protocol", &file, "--json"]).json("cuffwright.protocol-hash/1");
    assert_eq!(own["hash"], shipped().hash.as_str());
}

#[test]
fn every_problem_stands_in_its_line_with_a_hint() {
    let bad = SHIPPED_TEXT
        .replace("scaption_limit_kg = { value = 2.2", "scaption_limit_kg = { value = 2.5")
        .replace("cap_s = { value = 120", "cap_s = { value = 600");
    let line = |of: &str| 1 + bad.lines().position(|line| line.starts_with(of)).unwrap();
    let said = cuffwright_reading(&["protocol", "check", "-"], bad.as_bytes()).ends_with(1);
    for (key, value) in [("cap_s", "600"), ("scaption_limit_kg", "2.5")] {
        let place = format!("standard input:{}:", line(key));
        let problem = said.out.lines().position(|line| line.starts_with(&place) && line.contains(value));
        let problem = problem.unwrap_or_else(|| panic!("{key} in {said:?}"));
        assert!(said.out.lines().nth(problem + 1).unwrap().starts_with("  hint: "), "{said:?}");
    }
    let json = cuffwright_reading(&["protocol", "check", "-", "--json"], bad.as_bytes())
        .ends_with(1)
        .json("cuffwright.protocol-check/1");
    assert_eq!((&json["sound"], &json["protocol"]), (&false.into(), &serde_json::Value::Null));
    assert!(json["problems"].as_array().unwrap().iter().any(|problem| problem["line"] == line("cap_s")));
}

#[test]
fn a_file_that_is_no_protocol_is_refused() {
    let folder = Folder::new();
    let not_text = folder.file("binary.toml", b"[protocol]\nname = \"\xff\"");
    cuffwright(&["protocol", "check", &not_text])
        .ends_with(1)
        .says(&["binary.toml:2:9: The file is not text"]);
    cuffwright(&["protocol", "check", &folder.file("empty.toml", "")]).ends_with(1);
    cuffwright(&["protocol", "check", &folder.path("none.toml")]).ends_with(3);
    let huge = folder.file("huge.toml", vec![b'#'; (8 << 20) + 1]);
    cuffwright(&["protocol", "check", &huge]).ends_with(2).says(&["larger than 8 MiB"]);
    cuffwright(&["protocol", "hash", "--protocol", &not_text]).ends_with(2);
}

#[test]
fn what_is_in_force_is_shown() {
    cuffwright(&["protocol", "show"]).ends_with(0).says(&["cap_s 120 s core practice", "RC-1", "F06"]);
    let json = cuffwright(&["protocol", "show", "--json"]).ends_with(0).json("cuffwright.protocol/1");
    assert_eq!(json["exercises"].as_array().unwrap().len(), shipped().exercises.len());
    assert_eq!(json["parameters"].as_array().unwrap().len(), shipped().parameters.listed.len());
}
