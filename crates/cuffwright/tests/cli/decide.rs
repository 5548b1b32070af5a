//! `confirm` and `override`: what a person decides, and what nobody may.

use std::fs;

use super::club::{asking, club};
use super::run::{Folder, cuffwright};

const CONFIRM: [&str; 6] = ["confirm", "Mara Lind", "RC-1", "left", "up", "b20"];

#[test]
fn a_proposal_is_confirmed_as_it_was_read_and_only_once() {
    let folder = Folder::new();
    let store = club(&folder);
    let arguments = asking(&store, &[&CONFIRM[..], &["--by", "M. Roth"]].concat());
    cuffwright(&arguments).ends_with(0).says(&[
        "Recorded for Mara Lind: RC-1 (left), One rung up b20, from 2026-03-04. Confirmed by M. Roth.",
    ]);
    let json = cuffwright(&asking(&store, &["review", "--json"])).json("cuffwright.review/1");
    let waiting = json["waiting"].as_array().unwrap();
    assert!(waiting.iter().all(|item| item["side"] != "left" || item["name"] != "Mara Lind"), "{json}");
    // The same words again: the record has moved on.
    cuffwright(&arguments).ends_with(4).says(&["The proposal has changed since it was read"]);
}

#[test]
fn what_was_not_read_is_not_confirmed() {
    let folder = Folder::new();
    let store = club(&folder);
    let before = fs::read(&store).unwrap();
    for (arguments, code) in [
        (vec!["confirm", "Mara Lind", "RC-1", "left", "up", "b25", "--by", "M. Roth"], 4),
        (vec!["confirm", "Mara Lind", "RC-1", "left", "stay", "b20", "--by", "M. Roth"], 4),
        (vec!["confirm", "Mara Lind", "RC-1", "left", "up", "b99", "--by", "M. Roth"], 3),
        (vec!["confirm", "Mara Lind", "RC-1", "both", "up", "b20", "--by", "M. Roth"], 3),
        (vec!["confirm", "Mara Lind", "XX-9", "left", "up", "b20", "--by", "M. Roth"], 3),
        (vec!["confirm", "Mara Lind", "RC-1", "left", "upwards", "b20", "--by", "M. Roth"], 2),
        (vec!["confirm", "Mara Lind", "RC-1", "left", "up", "b20", "--by", " "], 2),
        (vec!["confirm", "Mara Lind", "RC-1", "left", "up", "b20"], 2),
        (vec!["confirm", "--by", "M. Roth"], 2),
        (vec!["confirm", "--together", "0000000000", "--by", "M. Roth"], 4),
    ] {
        cuffwright(&asking(&store, &arguments)).ends_with(code);
    }
    assert!(fs::read(&store).unwrap() == before, "a refused decision leaves the record as it was");
}

#[test]
fn what_goes_together_is_confirmed_by_its_mark_until_the_queue_changes() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&asking(&store, &["review", "--json"])).json("cuffwright.review/1");
    let mark = json["mark"].as_str().unwrap();
    let yes = asking(&store, &["confirm", "--together", mark, "--by", "M. Roth", "--json"]);
    let json = cuffwright(&yes).ends_with(0).json("cuffwright.recorded/1");
    assert_eq!((&json["verdict"], &json["by"]), (&"confirmed".into(), &"M. Roth".into()));
    assert_eq!(json["lines"].as_array().unwrap().len(), 2);
    let failure = cuffwright(&yes).ends_with(3).json("cuffwright.failure/1");
    assert_eq!(failure["kind"], "not-found");
    cuffwright(&asking(&store, &["log", "verify"])).ends_with(0);
}

#[test]
fn an_override_needs_a_reason_and_never_reaches_past_a_hold() {
    let folder = Folder::new();
    let store = club(&folder);
    let mara = ["override", "Mara Lind", "RC-1", "left"];
    let by = ["--by", "M. Roth"];
    let run = |extra: &[&str]| cuffwright(&asking(&store, &[&mara[..], extra, &by].concat()));
    run(&["--rung", "b16", "--reason", "  "]).ends_with(2).says(&["An override needs a reason in words."]);
    run(&["--rung", "b16"]).ends_with(2);
    run(&["--reason", "why not"]).ends_with(2);
    run(&["--rung", "b16", "--nothing", "--reason", "both"]).ends_with(2);
    run(&["--rung", "b16", "--sets", "9", "--reason", "more"]).ends_with(4);
    run(&["--rung", "b16", "--cap", "nan", "--reason", "odd"]).ends_with(2);
    run(&["--rung", "b16", "--cap", "0", "--reason", "odd"]).ends_with(2);
    run(&["--rung", "b16", "--sets", "2", "--reason", "meet on Friday"]).ends_with(0).says(&[
        "Recorded for Mara Lind: RC-1 (left), given instead b16, from 2026-03-04. Decided otherwise by M. Roth.",
    ]);
    let jon =
        ["override", "Jon Ask", "RC-1", "left", "--rung", "b10", "--reason", "feels fine", "--by", "M. Roth"];
    cuffwright(&asking(&store, &jon)).ends_with(4).says(&[
        "RC-1 cannot be given",
        "hint: A hold ends by the fact that it names, never by an override.",
    ]);
    let nothing =
        ["override", "Jon Ask", "RC-1", "right", "--nothing", "--reason", "rest", "--by", "M. Roth"];
    cuffwright(&asking(&store, &nothing)).ends_with(0);
}
