//! `import` and `log add`: the files in `examples/`, twice, with a bad row, and what is no list.

use std::fs;

use super::club::made;
use super::run::{Folder, cuffwright, repository};

/// A day after everything in the examples.
const AFTER: &str = "2026-11-25";
const FILES: [&str; 4] = ["roster.csv", "screening.xlsx", "kit.csv", "sets.csv"];

fn example(name: &str) -> String {
    repository("examples").join(name).to_str().unwrap().to_owned()
}

fn import<'a>(store: &'a str, file: &'a str, extra: &[&'a str]) -> Vec<&'a str> {
    let mut all = vec!["import", file, "--store", store, "--by", "M. Roth", "--today", AFTER];
    all.extend(extra);
    all
}

#[test]
fn the_examples_are_brought_in_once_and_the_second_time_adds_nothing() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    made(&store);
    for name in FILES {
        let file = example(name);
        let dry = cuffwright(&import(&store, &file, &["--dry-run", "--json"]))
            .ends_with(0)
            .json("cuffwright.import/1");
        assert_eq!((&dry["ready"], &dry["stored"]), (&true.into(), &false.into()), "{name}");
        let json = cuffwright(&import(&store, &file, &["--json"])).ends_with(0).json("cuffwright.import/1");
        assert_eq!(json["stored"], true, "{name}");
        assert_eq!(json["counts"], dry["counts"], "a dry run says what will happen: {name}");
        assert!(json["counts"]["added"].as_u64().unwrap() > 0, "{name}");
    }
    let state = || {
        cuffwright(&["log", "verify", "--store", &store, "--json"])
            .ends_with(0)
            .json("cuffwright.log-verify/1")
    };
    let before = state();
    for name in FILES {
        cuffwright(&import(&store, &example(name), &[])).ends_with(0).says(&["0 added, 0 corrected,"]);
    }
    assert_eq!(state(), before);
    cuffwright(&["dose", "--store", &store, "--today", AFTER]).ends_with(0).says(&["Swimmers: 26"]);
    cuffwright(&["log", "replay", "--store", &store, "--orders", "3"]).ends_with(0);
}

#[test]
fn one_bad_row_leaves_the_record_as_it_was() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    made(&store);
    // The first opening turns on the write-ahead log, which is a mark in the file's header.
    cuffwright(&["log", "verify", "--store", &store]).ends_with(0);
    let before = fs::read(&store).unwrap();
    let file = example("broken-roster.csv");
    let dry =
        cuffwright(&import(&store, &file, &["--dry-run", "--json"])).ends_with(1).json("cuffwright.import/1");
    let problems = dry["problems"].as_array().unwrap();
    assert!(problems.iter().any(|problem| {
        problem["weight"] == "blocks"
            && problem["row"].is_u64()
            && problem["column"].is_string()
            && problem["value"].is_string()
            && problem["suggestion"].is_string()
    }));
    cuffwright(&import(&store, &file, &["--accept-unusual"]))
        .ends_with(2)
        .says(&["Problems", "Nothing was stored."]);
    assert!(fs::read(&store).unwrap() == before);
}

#[test]
fn an_edited_row_is_a_correction_that_is_shown() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    made(&store);
    let list = |squad: &str| {
        format!("No,Name,Born,Squad\n7,Ivo Marten,2009-04-02,{squad}\n8,Una Pell,2008-01-30,B\n")
    };
    let first = folder.file("roster.csv", list("A"));
    cuffwright(&import(&store, &first, &["--kind", "roster"])).ends_with(0).says(&["2 added"]);
    let edited = folder.file("roster.csv", list("C"));
    cuffwright(&import(&store, &edited, &["--kind", "roster", "--dry-run"])).ends_with(0).says(&[
        "row 2 swimmer squad: “A” becomes “C”",
        "0 added, 1 corrected, 1 unchanged",
        "Nothing was stored.",
    ]);
    cuffwright(&import(&store, &edited, &["--kind", "roster"]))
        .ends_with(0)
        .says(&["0 added, 1 corrected, 1 unchanged"]);
    cuffwright(&["gate", "ivo", "--store", &store, "--today", AFTER]).ends_with(0).says(&["Ivo Marten (C)"]);
}

#[test]
fn a_session_is_logged_from_a_list() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    made(&store);
    cuffwright(&import(&store, &example("roster.csv"), &[])).ends_with(0);
    let sets = example("sets.csv");
    let add = ["log", "add", &sets, "--store", &store, "--by", "M. Roth", "--today", AFTER];
    cuffwright(&add).ends_with(0).says(&["sets.csv, read as sets."]);
    cuffwright(&add).ends_with(0).says(&["0 added"]);
    // Without a column for it, somebody has to say where the sets were done.
    let list = "No,Date,Exercise,Side,Rung,Set 1,Set 2,Set 3,Seen\n103,2026-11-20,RC-1,left,b16,82 F6,73 F6,64 F6,yes\n";
    let bare = folder.file("bare.csv", list);
    let add = |extra: &[&str]| {
        let mut all = vec!["log", "add", &bare, "--store", &store, "--by", "M. Roth", "--today", AFTER];
        all.extend(extra);
        cuffwright(&all)
    };
    add(&[]).ends_with(2).says(&["after practice, rested or at home", "--context"]);
    add(&["--context", "rested"]).ends_with(0);
}

#[test]
fn what_is_no_list_is_refused() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    made(&store);
    let pdf = folder.file("list.pdf", b"%PDF-1.7\n");
    cuffwright(&import(&store, &pdf, &[])).ends_with(2).says(&["is a PDF", "hint:"]);
    let empty = folder.file("empty.csv", "");
    cuffwright(&import(&store, &empty, &[])).ends_with(2);
    let noise: Vec<u8> =
        (0..40_000_u32).map(|number| (number.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
    cuffwright(&import(&store, &folder.file("noise.xlsx", noise), &[])).ends_with(2);
    let huge = folder.file("huge.csv", vec![b','; (20 << 20) + 1]);
    cuffwright(&import(&store, &huge, &[])).ends_with(2).says(&["larger than 20 MiB"]);
    cuffwright(&import(&store, &folder.path("none.csv"), &[])).ends_with(3);
    // A name is needed to write, and none to look.
    let roster = example("roster.csv");
    cuffwright(&["import", &roster, "--store", &store]).ends_with(2).says(&["--by"]);
    cuffwright(&["import", &roster, "--store", &store, "--dry-run", "--today", AFTER]).ends_with(0);
    cuffwright(&["import", &roster, "--store", &store, "--by", " ", "--today", AFTER]).ends_with(2);
}
