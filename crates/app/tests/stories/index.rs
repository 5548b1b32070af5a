//! The index of the stories: every file is listed, every listed file is there, nothing of the trade is left out.

use std::collections::BTreeSet;

use serde::Deserialize;

use crate::case::{folder, read};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Index {
    case: Vec<Case>,
    elsewhere: Vec<Elsewhere>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    file: String,
    /// What of the trade it tells: `S1` a worked story, `S1.a` one of its edges, `R4` a rule of progression,
    /// `absence: 8-14, healthy, kept swimming` a cell of the absence table, and so on.
    covers: Vec<String>,
}

/// Part of a story that this engine does not answer.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Elsewhere {
    covers: Vec<String>,
    belongs_to: String,
    why: String,
}

fn index() -> Index {
    let text = std::fs::read_to_string(folder().join("INDEX.toml")).expect("the index is there");
    toml::from_str(&text).unwrap_or_else(|error| panic!("INDEX.toml: {error}"))
}

#[test]
fn every_story_says_what_it_should() {
    let mut failures = Vec::new();
    let cases = index().case;
    for case in &cases {
        let file = read(&case.file);
        assert!(
            !file.title.trim().is_empty() && !file.story.trim().is_empty(),
            "{} tells nothing",
            case.file
        );
        let found = file.differences();
        if !found.is_empty() {
            failures.push(format!("{} ({})\n  {}", case.file, file.title, found.join("\n  ")));
        }
    }
    assert!(
        failures.is_empty(),
        "{} of {} stories differ:\n{}",
        failures.len(),
        cases.len(),
        failures.join("\n")
    );
}

#[test]
fn every_story_is_listed_once_and_every_listed_story_is_there() {
    let listed: Vec<String> = index().case.into_iter().map(|case| case.file).collect();
    let once: BTreeSet<String> = listed.iter().cloned().collect();
    assert_eq!(once.len(), listed.len(), "a story stands twice in the index");
    let there: BTreeSet<String> = std::fs::read_dir(folder())
        .expect("the folder of stories is there")
        .map(|entry| entry.expect("an entry can be read").file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".toml") && name != "INDEX.toml")
        .collect();
    assert_eq!(once, there);
}

/// What the stories must tell between them.
fn wanted() -> BTreeSet<String> {
    let mut wanted: BTreeSet<String> = BTreeSet::new();
    // Worked stories of the trade and the number of their edges; the numbers between are not known to this project.
    for (story, edges) in [
        (1, 4),
        (2, 4),
        (3, 4),
        (5, 6),
        (7, 2),
        (9, 4),
        (10, 3),
        (11, 3),
        (12, 0),
        (13, 1),
        (14, 0),
        (15, 0),
        (17, 0),
        (18, 0),
    ] {
        wanted.insert(format!("S{story}"));
        wanted.extend((0..edges).map(|edge| format!("S{story}.{}", char::from(b'a' + edge))));
    }
    wanted.extend((1..=18).map(|rule| format!("R{rule}")));
    for days in ["0-7", "8-14", "15-28", "29-56", "57-"] {
        for spent in ["healthy, swam", "healthy, did not swim", "ill", "injured"] {
            wanted.insert(format!("absence: {days}, {spent}"));
        }
    }
    for when in ["before", "during", "next morning"] {
        for pain in ["0", "1-2 ache", "1-2 one side", "3-4", "5 and more"] {
            wanted.insert(format!("pain: {when}, {pain}"));
        }
    }
    for row in [
        "C meet",
        "B meet",
        "A meet: three weeks",
        "A meet: two weeks",
        "A meet: one week",
        "A meet: last days",
        "after an A meet",
        "camp",
        "planned reduced weeks",
    ] {
        wanted.insert(format!("meets: {row}"));
    }
    for name in
        ["growth", "hypermobile", "return from injury", "back from out", "teaching", "calibration", "deload"]
    {
        wanted.insert(name.to_owned());
    }
    wanted
}

#[test]
fn nothing_of_the_trade_is_left_untold() {
    let index = index();
    let told: BTreeSet<String> = index
        .case
        .iter()
        .flat_map(|case| &case.covers)
        .chain(index.elsewhere.iter().flat_map(|part| &part.covers))
        .cloned()
        .collect();
    let untold: Vec<String> = wanted().difference(&told).cloned().collect();
    assert!(untold.is_empty(), "no story tells {untold:#?}");
    for part in &index.elsewhere {
        assert!(!part.belongs_to.trim().is_empty() && !part.why.trim().is_empty(), "{:?}", part.covers);
    }
}
