//! `propose`: the contract for outside checks, from a file or standard input.

use super::run::{Folder, cuffwright, cuffwright_reading};

const STORY: &str = r#"{
  "shape": "cuffwright.history/1",
  "on": "2026-03-04",
  "swimmer": { "name": "Invented", "born": "2004-05-01", "sex": "female", "experience": "trained",
               "programme_started": "2025-09-01" },
  "papers": "in-order",
  "signed_off": "all",
  "pains": [{ "date": "2026-03-04", "when": "before", "left": 0, "right": 0 }],
  "placements": [{ "date": "2026-02-23", "exercise": "SC-1", "level": 2, "because": "start" }],
  "sessions": [{ "date": "2026-03-02", "context": "rested", "pain": 0, "blocks": [
    { "exercise": "SC-1", "level": 2, "seen": true, "sets": [
      { "seconds": 120, "end": "cap" }, { "seconds": 120, "end": "cap" }, { "seconds": 120, "end": "cap" }] }] }]
}"#;

#[test]
fn a_story_is_answered_from_a_file_and_from_standard_input() {
    let folder = Folder::new();
    let file = folder.file("story.json", STORY);
    let from_file = cuffwright(&["propose", &file, "--json"]).ends_with(0);
    let json = from_file.json("cuffwright.answer/1");
    let proposal = &json["proposals"][0];
    assert_eq!((&proposal["exercise"], &proposal["action"]), (&"SC-1".into(), &"up".into()));
    assert_eq!(proposal["rungs_moved"], 1);
    assert!(!proposal["codes"].as_array().unwrap().is_empty());
    assert!(!proposal["reasons"][0]["words"].as_str().unwrap().is_empty());
    let from_input = cuffwright_reading(&["propose", "-", "--json"], STORY.as_bytes()).ends_with(0);
    assert_eq!(from_input.out, from_file.out);
    cuffwright(&["propose", &file]).ends_with(0).says(&[
        "May take part",
        "Next session",
        "SC-1",
        "One rung up",
    ]);
    let with_mark = cuffwright_reading(&["propose", "-", "--json"], format!("\u{feff}{STORY}").as_bytes());
    assert_eq!(with_mark.out, from_file.out);
}

#[test]
fn every_problem_of_a_story_is_named_with_its_place() {
    let bad = STORY
        .replace("\"SC-1\", \"level\": 2, \"seen\"", "\"SC-9\", \"level\": 2, \"seen\"")
        .replace("\"left\": 0, \"right\": 0", "\"left\": 11, \"right\": 0");
    cuffwright_reading(&["propose", "-"], bad.as_bytes()).ends_with(2).says(&[
        "standard input cannot be answered. Number of problems: 2.",
        "pains[0].left: 11 is outside the pain scale",
        "sessions[0].blocks[0].exercise: The protocol has no exercise “SC-9”.",
    ]);
    let said = cuffwright_reading(&["propose", "-", "--json"], bad.as_bytes()).ends_with(2);
    let failure = said.json("cuffwright.failure/1");
    assert_eq!((&failure["kind"], &failure["exit"]), (&"input".into(), &2.into()));
    assert_eq!(failure["problems"].as_array().unwrap().len(), 2);
    assert!(said.err.is_empty());
}

#[test]
fn what_is_no_story_is_refused_and_never_a_panic() {
    let deep = "[".repeat(200_000);
    for input in ["", "{", "null", "[]", "42", "\"text\"", "{\"shape\":\"other/9\"}", deep.as_str()] {
        cuffwright_reading(&["propose", "-"], input.as_bytes()).ends_with(2);
    }
    let folder = Folder::new();
    let not_text = folder.file("latin.json", b"{\n\"swimmer\": \"M\xfcller\"}");
    cuffwright(&["propose", &not_text]).ends_with(2).says(&["is not text in UTF-8 from line 2 on"]);
    cuffwright(&["propose", &folder.path("none.json")]).ends_with(3).says(&["There is no file"]);
    cuffwright(&["propose", &folder.path("")]).ends_with(5).says(&["could not be read"]);
    let huge = folder.file("huge.json", vec![b' '; (16 << 20) + 1]);
    cuffwright(&["propose", &huge]).ends_with(2).says(&["is larger than 16 MiB"]);
}

#[test]
fn units_and_protocol_can_be_chosen() {
    let imperial =
        cuffwright_reading(&["propose", "-", "--units", "imperial"], STORY.as_bytes()).ends_with(0);
    assert!(imperial.out.contains(" lb"), "{imperial:?}");
    let folder = Folder::new();
    let broken = folder.file("club.toml", "[protocol]\nname = 1\n");
    cuffwright_reading(&["propose", "-", "--protocol", &broken], STORY.as_bytes()).ends_with(2).says(&[
        "cannot be the protocol in force",
        "club.toml:2:8:",
        "cuffwright protocol check",
    ]);
}
