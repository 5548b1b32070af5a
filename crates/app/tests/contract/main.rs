//! The contract page is true: its fields, words and codes are those of the program, and its examples are run.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use app::facts::{self, Units, read_json};
use app::text::Texts;
use app::wire::answer::{Answer, ProposalWord};
use app::wire::{propose, run, shape};
use serde::de::DeserializeOwned;
use serde_json::Value;
use trade::dosing::Action;
use trade::history::Sign;
use trade::protocol::{Tag, read::shipped};
use trade::rule::catalogue;

fn docs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs")
}

fn page() -> String {
    std::fs::read_to_string(docs().join("propose.md")).expect("the contract page is there")
}

fn example(name: &str) -> String {
    let path = docs().join("examples/propose").join(name);
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn answer(name: &str) -> Answer {
    run::propose(shipped(), &example(name), Units::Metric)
        .unwrap_or_else(|problems| panic!("{name}: {problems:?}"))
}

/// The names a shape or a word list has, as its own reader tells them.
fn known<T: DeserializeOwned + std::fmt::Debug>(wrong: &str) -> Vec<String> {
    let problem = read_json::<T>(wrong).expect_err("a name nobody has");
    let detail = problem.args.iter().find(|(name, _)| *name == "detail").expect("a detail").1.clone();
    let names: Vec<String> = detail.split('`').skip(1).step_by(2).skip(1).map(str::to_owned).collect();
    assert!(!names.is_empty(), "{detail}");
    names
}

#[test]
fn every_field_and_word_of_the_file_is_on_the_page() {
    let page = page();
    let field = r#"{"no-such-field":1}"#;
    let word = r#""no-such-word""#;
    let mut names: Vec<String> = Vec::new();
    names.extend(known::<propose::HistoryFile>(field));
    names.extend(known::<propose::SessionWord>(field));
    names.extend(known::<propose::BlockWord>(field));
    names.extend(known::<propose::PlacementWord>(field));
    names.extend(known::<propose::CalendarWord>(field));
    names.extend(known::<facts::SetWord>(field));
    names.extend(known::<facts::SwimmerFact>(field));
    names.extend(known::<facts::ConsentFact>(field));
    names.extend(known::<facts::IntakeFact>(field));
    names.extend(known::<facts::ScreeningFact>(field));
    names.extend(known::<facts::FindingFact>(field));
    names.extend(known::<facts::GrowthFact>(field));
    names.extend(known::<facts::PainFact>(field));
    names.extend(known::<facts::IllnessFact>(field));
    names.extend(known::<facts::AbsenceFact>(field));
    names.extend(known::<facts::BanFact>(field));
    names.extend(known::<facts::ReferralFact>(field));
    names.extend(known::<facts::ClearanceFact>(field));
    names.extend(known::<facts::ClinicianFact>(field));
    names.extend(known::<facts::LimitFact>(field));
    names.extend(known::<facts::ReopeningFact>(field));
    names.extend(known::<facts::WaterAdviceFact>(field));
    names.extend(known::<facts::GuardianToldFact>(field));
    names.extend(known::<facts::TaughtFact>(field));
    names.extend(known::<facts::SignOffFact>(field));
    names.extend(known::<facts::WaterWeekFact>(field));
    names.extend(known::<facts::PeriodFact>(field));
    names.extend(known::<facts::MeetFact>(field));
    names.extend(known::<facts::SexWord>(word));
    names.extend(known::<facts::ExperienceWord>(word));
    names.extend(known::<facts::ConsentWord>(word));
    names.extend(known::<facts::WithoutValue>(word));
    names.extend(known::<facts::WhenWord>(word));
    names.extend(known::<facts::PainKindWord>(word));
    names.extend(known::<facts::AbsenceWord>(word));
    names.extend(known::<facts::UrgencyWord>(word));
    names.extend(known::<facts::InjuryWord>(word));
    names.extend(known::<facts::ContextWord>(word));
    names.extend(known::<facts::WorkingSideWord>(word));
    names.extend(known::<facts::EndWord>(word));
    names.extend(known::<facts::ClockWord>(word));
    names.extend(known::<facts::MoveWord>(word));
    names.extend(Sign::ALL.iter().map(|sign| sign.word().to_owned()));
    names.extend(Tag::ALL.iter().map(|tag| tag.word().to_owned()));
    let untold: BTreeSet<&String> = names
        .iter()
        // What is written as a value with its fields stands in the page as `{ "not-tested": "why" }`.
        .filter(|name| !page.contains(&format!("`{name}`")) && !page.contains(&format!("\"{name}\"")))
        .collect();
    assert!(untold.is_empty(), "the page does not name {untold:?}");
}

#[test]
fn every_action_and_rule_code_is_on_the_page() {
    let page = page();
    for action in Action::ALL {
        assert!(page.contains(&format!("| `{}` |", action.word())), "{action:?}");
    }
    for rule in catalogue::all() {
        assert!(
            page.contains(&format!("| `{}` | {} |", rule.code, rule.name)),
            "{} {}",
            rule.code,
            rule.name
        );
    }
}

fn keys(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                found.insert(key.clone());
                keys(value, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| keys(item, found)),
        _ => {}
    }
}

#[test]
fn every_field_of_an_answer_is_on_the_page() {
    let page = page();
    let mut found = BTreeSet::new();
    for entry in std::fs::read_dir(docs().join("examples/propose")).expect("the examples are there") {
        let name = entry.expect("an entry").file_name().to_string_lossy().into_owned();
        if !name.ends_with(".answer.json") {
            keys(&serde_json::to_value(answer(&name)).expect("an answer can be written"), &mut found);
        }
    }
    for key in found {
        assert!(page.contains(&format!("`{key}`")), "the page does not name {key}");
    }
}

/// The rows of the table of examples.
fn rows(page: &str) -> Vec<Vec<String>> {
    let part = page.split("## Examples").nth(1).and_then(|rest| rest.split("## The answer").next());
    part.expect("a part about examples")
        .lines()
        .filter(|line| line.starts_with("| `"))
        .map(|line| line.trim_matches('|').split('|').map(|cell| cell.trim().replace('`', "")).collect())
        .collect()
}

#[test]
fn every_example_says_what_the_page_says() {
    let page = page();
    let rows = rows(&page);
    let told: BTreeSet<&String> = rows.iter().map(|row| &row[0]).collect();
    for entry in std::fs::read_dir(docs().join("examples/propose")).expect("the examples are there") {
        let name = entry.expect("an entry").file_name().to_string_lossy().into_owned();
        assert!(name.ends_with(".answer.json") || told.contains(&name), "the page says nothing of {name}");
    }
    for row in &rows {
        let [file, line, action, level, sets, cap, need, codes] = row.as_slice() else {
            panic!("a row of eight cells: {row:?}")
        };
        let answer = answer(file);
        let proposal: &ProposalWord = answer
            .proposals
            .iter()
            .find(|proposal| format!("{} {}", proposal.exercise, proposal.side) == *line)
            .unwrap_or_else(|| panic!("{file} says nothing of {line}"));
        assert_eq!(proposal.action, action, "{file} {line}");
        let dose = proposal.dose.as_ref();
        let cell = |value: Option<String>| value.unwrap_or_default();
        assert_eq!(
            cell(dose.and_then(|dose| dose.rung.as_ref()?.level).map(|level| level.to_string())),
            *level,
            "{file} {line}"
        );
        assert_eq!(cell(dose.map(|dose| dose.sets.to_string())), *sets, "{file} {line}");
        assert_eq!(cell(dose.map(|dose| dose.cap_s.to_string())), *cap, "{file} {line}");
        assert_eq!(cell(dose.map(|_| proposal.qualifying_need.to_string())), *need, "{file} {line}");
        for code in codes.split_whitespace() {
            assert!(proposal.codes.iter().any(|known| known == code), "{file} {line}: {:?}", proposal.codes);
        }
    }
}

#[test]
fn the_whole_answer_on_the_page_is_the_whole_answer() {
    let mut wanted: Value = serde_json::from_str(&example("standard.answer.json")).expect("JSON");
    let mut got = serde_json::to_value(answer("standard.json")).expect("an answer can be written");
    // These change with every edit of the protocol or the program.
    for value in [&mut wanted, &mut got] {
        value["engine"] = Value::Null;
        value["inputs"] = Value::Null;
        value["protocol"]["hash"] = Value::Null;
    }
    assert!(
        wanted == got,
        "standard.answer.json should read:\n{}",
        serde_json::to_string_pretty(&got).expect("JSON")
    );
}

fn said(text: &str) -> Vec<(String, String)> {
    run::propose(shipped(), text, Units::Metric)
        .expect_err("refused")
        .iter()
        .map(|problem| (problem.path.clone(), Texts::english().say(problem.says, &problem.args)))
        .collect()
}

#[test]
fn every_unknown_field_is_named_with_its_place_and_the_nearest_known_name() {
    let text = r#"{ "shape": "cuffwright.history/1", "on": "2026-03-09", "swimmer": { "born": "2010-01-01", "gender": "f" },
        "sesions": [], "pains": [ { "date": "2026-03-09", "when": "before", "lft": 1 } ] }"#;
    let said = said(text);
    let all: Vec<String> = said.iter().map(|(path, words)| format!("{path}: {words}")).collect();
    assert_eq!(said.len(), 3, "{all:#?}");
    for wanted in ["swimmer.gender", "“sex”", "sesions", "“sessions”", "pains[0].lft", "“left”"] {
        assert!(all.iter().any(|one| one.contains(wanted)), "{wanted} in {all:#?}");
    }
}

#[test]
fn what_is_missing_or_no_json_is_said_with_its_place() {
    let missing = said(r#"{ "shape": "cuffwright.history/1", "on": "2026-03-09", "swimmer": {} }"#);
    assert!(missing[0].0.contains("swimmer") && missing[0].1.contains("born"), "{missing:?}");
    let broken = said("{ \"shape\": ");
    assert!(broken[0].1.contains("line 1"), "{broken:?}");
    let version = said(
        r#"{ "shape": "cuffwright.history/9", "on": "2026-03-09", "swimmer": { "born": "2010-01-01" } }"#,
    );
    assert!(version[0].1.contains("cuffwright.history/1"), "{version:?}");
    let setting = r#"{ "shape": "cuffwright.history/1", "on": "2026-03-09", "swimmer": { "born": "2010-01-01" }, "settings": { "n_qualifiy": 2 } }"#;
    assert!(self::said(setting)[0].1.contains("n_qualify"), "{:?}", self::said(setting));
}

#[test]
fn near_words_are_hints_and_far_ones_are_not() {
    assert_eq!(shape::nearest("WILL", &["cap", "chose-to-stop"]), Some("chose-to-stop"));
    assert_eq!(shape::nearest("OUT", &["cap", "left"]), Some("left"));
    assert_eq!(shape::nearest("secnds", &["seconds", "end"]), Some("seconds"));
    assert_eq!(shape::nearest("colour", &["seconds", "end"]), None);
}

#[test]
fn nonsense_is_refused_and_never_breaks_anything() {
    for text in [
        "",
        "null",
        "[]",
        "7",
        "\"x\"",
        "{}",
        "{\"shape\":1}",
        "{\"on\":[{}]}",
        "\u{0}",
        "{\"swimmer\":{\"born\":\"2026-02-30\"}}",
    ] {
        assert!(run::propose(shipped(), text, Units::Metric).is_err(), "{text:?}");
    }
}
