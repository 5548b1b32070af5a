//! What people did since the last import is respected.

use app::facts::Kind;
use app::import::{Change, Existing, HandWritten, OnRecord, natural_key};
use serde_json::json;
use store::{FactId, SubjectId};
use uuid::Uuid;

use crate::world::{World, only, said};

const LIST: &str = "Mark;Kind;Force (N)\nB16;band;16\n";

fn world_with(on_record: OnRecord) -> World {
    let mut world = World::default();
    world.facts.insert((Kind::KitPiece, "kit-piece/b16".to_owned()), on_record);
    world
}

fn piece(force: f64) -> serde_json::Value {
    json!({ "mark": "B16", "kind": "band", "force_at_double_n": force, "pieces": 1, "as_entered": format!("{force} N") })
}

#[test]
fn a_correction_by_hand_stands_while_the_file_says_what_it_said_before() {
    let by_hand = |imported| {
        OnRecord::Live(Existing {
            fact: FactId::from_uuid(Uuid::from_u128(9)),
            payload: piece(15.0),
            imported,
        })
    };
    let again = world_with(by_hand(Some(piece(16.0)))).read(LIST);
    assert!(matches!(again.facts[0].change, Change::Unchanged(_)));
    assert_eq!(again.facts[0].payload["force_at_double_n"], 15.0);
    assert!(again.problems.iter().any(|problem| problem.says == "import-note-corrected-by-hand"));
    let news = world_with(by_hand(Some(piece(14.0)))).read(LIST);
    assert!(matches!(news.facts[0].change, Change::Corrects { .. }));
}

#[test]
fn what_was_taken_back_stays_so_and_a_contest_is_for_a_person() {
    let left = world_with(OnRecord::LeftAlone).read(LIST);
    assert!(left.is_ready() && left.facts.is_empty());
    let contested = world_with(OnRecord::Contested).read(LIST);
    assert_eq!(only(&contested).says, "import-contested");
}

#[test]
fn whole_and_decimal_numbers_and_absent_fields_are_the_same_content() {
    let payload = json!({ "mark": "B16", "kind": "band", "force_at_double_n": 16, "pieces": 1, "latex": null, "as_entered": "16 N" });
    let existing = Existing { fact: FactId::from_uuid(Uuid::from_u128(9)), payload, imported: None };
    let preview = world_with(OnRecord::Live(existing)).read(LIST);
    assert_eq!(said(&preview), []);
    assert_eq!(preview.counts.unchanged, 1);
}

#[test]
fn facts_written_by_hand_are_found_under_the_key_a_file_would_give_them() {
    let subject = SubjectId::from_uuid(Uuid::from_u128(5));
    let growth = json!({ "date": "2026-09-08", "height_cm": 158 });
    let (one, two) = (FactId::from_uuid(Uuid::from_u128(1)), FactId::from_uuid(Uuid::from_u128(2)));
    let key = natural_key(Kind::Growth, subject, &growth).unwrap();
    for order in [[one, two], [two, one]] {
        let mut index = HandWritten::default();
        for fact in order {
            index.add(fact, Kind::Growth, subject, growth.clone());
        }
        assert_eq!(index.find(&key).unwrap().fact, one);
    }
    assert_eq!(natural_key(Kind::Pain, subject, &json!({ "date": "2026-09-08", "when": "before" })), None);
}
