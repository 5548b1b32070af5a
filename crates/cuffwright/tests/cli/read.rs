//! `gate`, `dose`, `due` and `review`: what is read from a store, and how a swimmer is named.

use super::club::{TODAY, asking, club};
use super::run::{Folder, cuffwright};

#[test]
fn the_gate_lists_the_squad_and_explains_one_swimmer() {
    let folder = Folder::new();
    let store = club(&folder);
    cuffwright(&asking(&store, &["gate"])).ends_with(0).says(&[
        "Swimmers: 3",
        "Jon Ask out today full",
        "Mara Lind full full",
        "Mara Lindqvist not yet not yet",
    ]);
    cuffwright(&asking(&store, &["gate", "jon"])).ends_with(0).says(&[
        "Left shoulder out today, right shoulder full",
        "E1 left, out today: Pain 2 in the left shoulder",
        "Ends by the practitioner's confirmation",
    ]);
    let json = cuffwright(&asking(&store, &["gate", "jon", "--json"])).ends_with(0).json("cuffwright.gate/1");
    assert_eq!(json["on"], TODAY);
    let jon = &json["swimmers"][0];
    assert_eq!((&jon["name"], &jon["squad"]), (&"Jon Ask".into(), &"A".into()));
    assert_eq!(jon["availability"]["left"], "out-today");
    assert_eq!(jon["holds"][0]["code"], "E1");
    assert_eq!((&jon["unreadable"], &jon["contested"]), (&0.into(), &0.into()));
}

#[test]
fn a_day_before_the_pain_knows_nothing_of_it() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&["gate", "jon", "--store", &store, "--on", "2026-03-03", "--json"])
        .ends_with(0)
        .json("cuffwright.gate/1");
    assert_eq!(json["swimmers"][0]["availability"]["left"], "full");
}

#[test]
fn doses_come_with_their_reasons_and_held_shoulders_get_none() {
    let folder = Folder::new();
    let store = club(&folder);
    cuffwright(&asking(&store, &["dose", "Mara Lind"])).ends_with(0).says(&[
        "RC-1 left One rung up: 20 N at double length (b20), 3 sets, each to form loss or 120 s",
        "From 16 N at double length to 20 N at double length: one rung, no more.",
        "pain stops the set",
    ]);
    cuffwright(&asking(&store, &["dose"])).ends_with(0).says(&["Jon Ask", "Lines not given:"]);
    let json = cuffwright(&asking(&store, &["dose", "jon", "--exercise", "rc-1", "--json"]))
        .ends_with(0)
        .json("cuffwright.dose/1");
    let proposals = json["swimmers"][0]["proposals"].as_array().unwrap();
    let left = proposals.iter().find(|proposal| proposal["side"] == "left").unwrap();
    assert_eq!((&left["action"], &left["dose"]), (&"out".into(), &serde_json::Value::Null));
    assert!(proposals.iter().all(|proposal| proposal["exercise"] == "RC-1"));
}

#[test]
fn what_is_due_stands_in_order_of_its_day() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&asking(&store, &["due", "--json"])).ends_with(0).json("cuffwright.due/1");
    let due = json["due"].as_array().unwrap();
    let days: Vec<&str> = due.iter().map(|item| item["by"].as_str().unwrap()).collect();
    assert!(days.is_sorted() && !days.is_empty());
    assert!(due.iter().any(|item| item["name"] == "Mara Lindqvist" && item["kind"] == "consent"));
    cuffwright(&asking(&store, &["due", "lindq"])).ends_with(0).says(&["Get the consent signed."]);
}

#[test]
fn the_queue_says_how_to_confirm_and_gives_one_mark_for_what_goes_together() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&asking(&store, &["review", "--json"])).ends_with(0).json("cuffwright.review/1");
    assert_eq!(json["together"], 2);
    let mark = json["mark"].as_str().unwrap();
    cuffwright(&asking(&store, &["review"]))
        .ends_with(0)
        .says(&["Yes: confirm \"Mara Lind\" RC-1 left up b20", &format!("confirm --together {mark}")]);
    cuffwright(&asking(&store, &["review", "jon"])).ends_with(0).says(&["Nothing waits for a decision."]);
}

#[test]
fn a_swimmer_is_named_by_the_beginning_of_a_name_and_nobody_is_guessed() {
    let folder = Folder::new();
    let store = club(&folder);
    // The whole name of one is the beginning of another's.
    cuffwright(&asking(&store, &["gate", "mara lind"])).ends_with(0).says(&["Mara Lind (A)"]);
    cuffwright(&asking(&store, &["gate", "LINDQ"])).ends_with(0).says(&["Mara Lindqvist (B)"]);
    cuffwright(&asking(&store, &["gate", "mar"])).ends_with(3).says(&[
        "“mar” fits 2 swimmers.",
        "Mara Lind, born 1 May 2004, A",
        "Mara Lindqvist, born 9 January 2010, B",
        "hint: Write more of the name",
    ]);
    cuffwright(&asking(&store, &["gate", "Zoe"])).ends_with(3).says(&["No swimmer on record fits “Zoe”."]);
    cuffwright(&asking(&store, &["gate", ""])).ends_with(3);
    let id = cuffwright(&asking(&store, &["gate", "jon", "--json"])).json("cuffwright.gate/1");
    let id = id["swimmers"][0]["id"].as_str().unwrap();
    cuffwright(&asking(&store, &["gate", id])).ends_with(0).says(&["Jon Ask"]);
}
