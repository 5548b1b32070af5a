//! `screening` and `ask`: the arithmetic of a day, a trial from a table, what a re-test may say.

use std::fs;

use app::desk::{Author, Desk, Draft};
use app::facts::Kind;
use app::moment::Moment;
use serde_json::{Value, json};
use store::{Open, Store};
use trade::protocol::shipped;

use super::club::{TODAY, asking, club};
use super::run::{Folder, cuffwright};

// Source: trade handbook A4, throughput: 30 swimmers at six stations of 6 minutes need 210 minutes, at five of 7 min
// 238, at four of 8 min 264; two people doing everything need 570.
#[test]
fn the_plan_of_a_day_is_the_handbooks_and_names_the_slowest() {
    for (station, count, minutes) in [("6", 6, 210.0), ("7", 5, 238.0), ("8", 4, 264.0)] {
        let stations: Vec<String> = (1..=count).map(|number| format!("S{number}={station}")).collect();
        let mut arguments = vec!["screening", "plan", "--swimmers", "30", "--json"];
        for station in &stations {
            arguments.extend(["--station", station]);
        }
        let json = cuffwright(&arguments).ends_with(0).json("cuffwright.screening-plan/1");
        assert_eq!((&json["minutes"], &json["whistle_minutes"]), (&minutes.into(), &minutes.into()));
    }
    let json = cuffwright(&["screening", "plan", "--swimmers", "30", "--station", "all=38x2", "--json"])
        .ends_with(0)
        .json("cuffwright.screening-plan/1");
    assert_eq!(json["minutes"], 570.0);
    cuffwright(&["screening", "plan", "--swimmers", "30"]).ends_with(0).says(&[
        "30 swimmers: 241 min",
        "“Strength” holds the day up",
        "38 min for the first, then 29 × 7 min for the others = 241 min",
    ]);
    for bad in [["--swimmers", "0"], ["--swimmers", "501"], ["--station", "Range"], ["--station", "Range=0"]]
    {
        let mut arguments = vec!["screening", "plan", bad[0], bad[1]];
        if bad[0] == "--station" {
            arguments.extend(["--swimmers", "30"]);
        }
        cuffwright(&arguments).ends_with(2);
    }
}

fn tested(store: &str, date: &str, left: f64) {
    let mut desk = Desk::new(Store::open(store, Open { create: false }).unwrap(), shipped().clone()).unwrap();
    let jon = desk.people().find(|person| person.read.swimmer.name == "Jon Ask").unwrap().subject;
    let payload = json!({ "date": date, "tester": "M. Roth", "findings": [
        { "key": "shoulder_er_rom", "side": "left", "value": left },
        { "key": "shoulder_ir_rom", "side": "left", "value": 55.0 } ] });
    let moment = Moment {
        unix_millis: 1_772_000_000_000,
        stamp: format!("{TODAY}T08:00:00Z"),
        today: TODAY.parse().unwrap(),
        time: jiff::civil::Time::constant(8, 0, 0, 0),
    };
    let author = Author { name: "M. Roth".to_owned(), device: "test".to_owned() };
    let draft = Draft { kind: Kind::Screening, payload: payload.to_string(), corrects: None };
    desk.record(&moment, &author, jon, &[draft]).unwrap();
}

#[test]
fn a_retest_uses_the_clubs_own_trial_once_there_is_one() {
    let folder = Folder::new();
    let store = club(&folder);
    tested(&store, "2026-01-14", 98.0);
    tested(&store, "2026-03-02", 106.0);
    let of = |key: &str| -> Value {
        let json = cuffwright(&asking(&store, &["screening", "retest", "jon", "--json"]))
            .ends_with(0)
            .json("cuffwright.screening-retest/1");
        let changes = json["swimmers"][0]["changes"].as_array().unwrap();
        changes.iter().find(|change| change["key"] == key).unwrap().clone()
    };
    let printed = of("shoulder_er_rom");
    assert_eq!((&printed["word"], &printed["error"]["from"]), (&"cannot-tell".into(), &"published".into()));
    assert!((printed["smallest"].as_f64().unwrap() - 10.57).abs() < 0.02, "Yoma 2021");

    let table = folder.path("again.csv");
    fs::write(&table, "person;Test;Re-test\na;96;98\nb;104;103\nc;91;92\nd;110;108\ne;98;98,5\n").unwrap();
    let bring = |more: &[&str]| {
        let mut arguments = vec![
            "screening",
            "trial",
            table.as_str(),
            "--measure",
            "External rotation range",
            "--by",
            "M. Roth",
            "--json",
        ];
        arguments.extend_from_slice(more);
        cuffwright(&asking(&store, &arguments)).ends_with(0).json("cuffwright.screening-trial/1")
    };
    let dry = bring(&["--dry-run"]);
    assert_eq!((&dry["recorded"], &dry["people"], &dry["used"]), (&false.into(), &5.into(), &true.into()));
    assert_eq!(of("shoulder_er_rom")["error"]["from"], "published", "a dry run stores nothing");
    assert_eq!(bring(&[])["recorded"], true);
    let own = of("shoulder_er_rom");
    assert_eq!((&own["word"], &own["error"]["from"]), (&"up".into(), &"own".into()));
    assert_eq!(of("shoulder_ir_rom")["error"]["from"], "published", "a trial speaks of its own measure only");
}

#[test]
fn values_name_their_rules_and_what_is_missing() {
    let folder = Folder::new();
    let store = club(&folder);
    tested(&store, "2026-03-02", 106.0);
    let json = cuffwright(&asking(&store, &["screening", "values", "jon", "--json"]))
        .ends_with(0)
        .json("cuffwright.screening-values/1");
    let derived = json["swimmers"][0]["derived"].as_array().unwrap();
    let arc = derived.iter().find(|one| one["name"] == "derived-arc" && one["side"] == "left").unwrap();
    assert_eq!((&arc["value"], &arc["reasons"][0]["code"]), (&161.0.into(), &"V1".into()));
    let gap = derived.iter().find(|one| one["name"] == "derived-er-difference").unwrap();
    assert_eq!(gap["missing"], json!(["shoulder_er_rom/right"]));
    cuffwright(&asking(&store, &["screening", "values"]))
        .ends_with(0)
        .says(&["there is no score behind the order"]);
}

#[test]
fn a_table_that_is_none_and_a_measure_that_is_none_say_so() {
    let folder = Folder::new();
    let store = club(&folder);
    let table = folder.path("bad.csv");
    fs::write(&table, "person,force\na,90\n").unwrap();
    let with = |measure: &str| {
        asking(&store, &["screening", "trial", &table, "--measure", measure, "--by", "M. Roth"])
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<String>>()
    };
    cuffwright(&with("er_force"))
        .ends_with(2)
        .says(&["No two columns are named as trials. Found: person, force"]);
    cuffwright(&with("biceps")).ends_with(3).says(&["“biceps” is no measure", "er_force"]);
}

#[test]
fn nobody_to_ask_is_said_and_the_list_counts() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&asking(&store, &["ask", "--json"])).ends_with(0).json("cuffwright.ask/1");
    assert_eq!((&json["squad"], &json["above"], &json["below"]), (&3.into(), &0.into(), &0.into()));
    cuffwright(&asking(&store, &["ask"])).ends_with(0).says(&["0 of 3", "nobody is scored"]);
}
