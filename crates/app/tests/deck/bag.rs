//! A bag: complete, judged beforehand, and never milder than the desk.

use std::time::Instant;

use app::demo;
use jiff::civil::Date;
use trade::gate::Availability;
use trade::side::Side;
use trade::trace::Class;

use super::stage::{session, whole};

#[test]
fn nobody_who_may_not_has_a_line_and_more_pain_never_gives_more() {
    let desk = whole();
    let began = Instant::now();
    let bag = desk.deck_bag(&session(&desk), "d", ("now", 0));
    println!("bag of {} swimmers in {:?}", bag.swimmers.len(), began.elapsed());
    assert_eq!(bag.swimmers.len(), 26);
    for swimmer in &bag.swimmers {
        let person = desk.person(swimmer.id.parse().unwrap()).unwrap();
        let gate = &desk.assess(person, demo::DAY).gate;
        for line in &swimmer.lines["clear"] {
            let sides: &[Side] = match line.side {
                "left" => &[Side::Left],
                "right" => &[Side::Right],
                _ => &Side::BOTH,
            };
            for side in sides {
                assert!(!blocks(gate.shoulder(*side)), "{} {}", swimmer.name, line.exercise);
            }
        }
        let count = |word: &str| swimmer.lines[word].len();
        assert!(count("left") <= count("clear") && count("right") <= count("clear"), "{}", swimmer.name);
        assert!(count("both") <= count("left").max(count("right")), "{}", swimmer.name);
        assert_eq!(count("stop"), 0, "{}", swimmer.name);
        assert_eq!(count("out"), 0, "all three exercises load shoulders: {}", swimmer.name);
        assert_eq!(count("clear") == 0, !swimmer.why_not.is_empty(), "{}", swimmer.name);
    }
}

fn blocks(availability: Availability) -> bool {
    matches!(availability, Availability::OutToday | Availability::OutReferred)
}

/// A reason that is health stays at the desk.
#[test]
fn a_bag_holds_no_health_reason() {
    let desk = whole();
    let bag = desk.deck_bag(&session(&desk), "d", ("now", 0));
    let text = serde_json::to_string(&bag).unwrap();
    let mut looked = 0;
    for person in desk.squad_on(demo::DAY) {
        let gate = &desk.assess(person, demo::DAY).gate;
        let lines = gate.holds.iter().map(|hold| &hold.line).chain(&gate.notes);
        for line in lines.filter(|line| line.class == Class::Health) {
            let words = desk.texts().line(line, desk.reader());
            assert!(!text.contains(&words), "{}: {words}", person.read.swimmer.name);
            looked += 1;
        }
    }
    assert!(0 < looked, "the demo club has health reasons to keep");
}

#[test]
fn every_sentence_has_its_values_in_braces_and_the_emergency_signs_are_there() {
    let desk = whole();
    let bag = desk.deck_bag(&session(&desk), "d", ("now", 0));
    assert_eq!(bag.words["held-these"], "These {n} held");
    assert!(bag.words.values().all(|words| !words.contains('$') && !words.contains("deckui-")));
    assert!(bag.signs.iter().any(|sign| sign.sign == "chest-pain" && !sign.words.starts_with('[')));
    assert_eq!(session(&desk).date, Date::constant(2026, 11, 25));
}

#[test]
fn kit_that_nobody_looked_at_for_long_is_due_and_withdrawn_kit_is_not_laid_out() {
    let desk = whole();
    let bag = desk.deck_bag(&session(&desk), "d", ("now", 0));
    let piece = |mark: &str| bag.kit.iter().find(|piece| piece.mark == mark);
    assert!(piece("B-25").unwrap().due && !piece("B-16").unwrap().due);
    assert!(piece("B-42").is_none());
}
