//! The example files at a desk with a real store.

use app::desk::{Author, Desk, Draft, payload_of};
use app::facts::{ClubFact, KitPieceFact, KitWord, Units};
use app::import::record::{namespace_of, preview_at, record_at};
use app::import::{Options, Preview};
use app::moment::Moment;
use jiff::tz::TimeZone;
use store::{Batch, Erasure, NewFact, OnRefusal, Store, SubjectId};

use crate::world::said;

fn moment() -> Moment {
    Moment::of("2026-11-25T17:00:00Z".parse().expect("an instant"), &TimeZone::UTC)
}

fn author() -> Author {
    Author { name: "L. Vane".to_owned(), device: "test".to_owned() }
}

fn desk() -> Desk {
    let store = Store::in_memory().expect("a store in memory");
    let mut desk = Desk::new(store, trade::protocol::read::shipped().clone()).expect("a desk");
    let club = ClubFact {
        name: "Driftwood Bay".to_owned(),
        zone: "Europe/London".to_owned(),
        units: Units::Metric,
        practitioner: "L. Vane".to_owned(),
        practitioner_phone: String::new(),
    };
    desk.record(&moment(), &author(), SubjectId::CLUB, &[Draft::new(&club)]).expect("the club is recorded");
    desk
}

fn preview(desk: &Desk, name: &str, bytes: &[u8]) -> Preview {
    let options = Options::new(moment().today, namespace_of(desk.store()).expect("a namespace"));
    preview_at(desk, bytes, name, None, &options).expect("the store answers").expect("a list")
}

fn file(name: &str) -> Vec<u8> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    std::fs::read(path).expect("an example file")
}

const GOOD: [&str; 4] = ["roster.csv", "screening.xlsx", "kit.csv", "sets.csv"];

#[test]
fn the_examples_go_in_once_and_a_second_time_adds_nothing() {
    let mut desk = desk();
    assert!(!namespace_of(desk.store()).expect("a namespace").is_nil());
    for name in GOOD {
        let preview = preview(&desk, name, &file(name));
        assert_eq!(said(&preview), [], "{name}");
        let stored = record_at(&mut desk, &moment(), &author(), name, &preview).expect("it is recorded");
        assert_eq!(stored, preview.counts.added, "{name}");
    }
    assert_eq!(desk.people().count(), 26);
    assert!(desk.people().all(|person| person.read.unreadable.is_empty()));
    let (digest, count) = (desk.store().digest_of_state().unwrap(), desk.store().counts().unwrap());
    for name in GOOD {
        let again = preview(&desk, name, &file(name));
        assert_eq!((again.counts.added, again.counts.corrected), (0, 0), "{name}");
        assert_eq!(record_at(&mut desk, &moment(), &author(), name, &again).unwrap(), 0);
    }
    assert_eq!((desk.store().digest_of_state().unwrap(), desk.store().counts().unwrap()), (digest, count));
}

#[test]
fn one_bad_row_leaves_the_store_as_it_was() {
    let mut desk = desk();
    let before = desk.store().digest_of_state().unwrap();
    let broken = preview(&desk, "broken-roster.csv", &file("broken-roster.csv"));
    assert!(!broken.facts.is_empty(), "some rows are good");
    assert!(record_at(&mut desk, &moment(), &author(), "broken-roster.csv", &broken).is_err());
    assert_eq!(desk.store().digest_of_state().unwrap(), before);
}

#[test]
fn an_edited_row_corrects_and_going_back_corrects_again() {
    let mut desk = desk();
    let list = |force: &str| format!("Mark;Kind;Force (N)\nB16;band;{force}\n");
    for (force, wanted) in [("16", (1, 0)), ("15", (0, 1)), ("16", (0, 1)), ("15", (0, 1)), ("15", (0, 0))] {
        let preview = preview(&desk, "kit.csv", list(force).as_bytes());
        assert_eq!((preview.counts.added, preview.counts.corrected), wanted, "{force}");
        record_at(&mut desk, &moment(), &author(), "kit.csv", &preview).expect("it is recorded");
    }
    assert_eq!(desk.club().kit.len(), 1);
    assert_eq!(desk.club().kit[0].force_at_double_n, Some(15.0));
}

#[test]
fn what_a_person_wrote_or_corrected_is_met_and_not_doubled() {
    let mut desk = desk();
    let piece = |force| KitPieceFact {
        mark: "B16".to_owned(),
        kind: KitWord::Band,
        force_at_double_n: Some(force),
        rest_length_m: None,
        mass_kg: None,
        pieces: 1,
        in_service: None,
        latex: None,
        withdrawn: None,
        as_entered: Some(format!("{force} N")),
    };
    desk.record(&moment(), &author(), SubjectId::CLUB, &[Draft::new(&piece(16.0))]).unwrap();
    let list = "Mark;Kind;Force (N)\nb16;band;15\n";
    let met = preview(&desk, "kit.csv", list.as_bytes());
    assert_eq!((met.counts.added, met.counts.corrected), (0, 1));
    record_at(&mut desk, &moment(), &author(), "kit.csv", &met).unwrap();
    assert_eq!(desk.club().kit.len(), 1);
    let head = desk.store().latest_by_natural_key("kit-piece", "kit-piece/b16").unwrap().unwrap();
    let by_hand = Draft::new(&piece(14.0)).correcting(head.told.id, "measured again");
    desk.record(&moment(), &author(), SubjectId::CLUB, &[by_hand]).unwrap();
    let again = preview(&desk, "kit.csv", list.as_bytes());
    assert_eq!((again.counts.added, again.counts.corrected, again.counts.unchanged), (0, 0, 1));
    assert!(again.problems.iter().any(|problem| problem.says == "import-note-corrected-by-hand"));
}

#[test]
fn an_erased_swimmer_does_not_come_back_with_the_next_import() {
    let list = b"Name;Birth date;Club number\nA B;2012-01-13;7\n";
    let protocol = trade::protocol::read::shipped();
    let mut store = Store::in_memory().expect("a store in memory");
    let planned = {
        let empty = Desk::new(Store::in_memory().expect("a store"), protocol.clone()).expect("a desk");
        preview(&empty, "roster.csv", list).facts.remove(0)
    };
    let subject = planned.subject.id().expect("a swimmer");
    let fact = NewFact {
        id: store::deterministic_id(planned.kind.word(), &planned.natural_key),
        kind: planned.kind.word().to_owned(),
        version: 1,
        subject,
        payload: Some(payload_of(&planned.payload.to_string()).expect("a payload")),
        author: author().name,
        device: author().device,
        device_seq: 0,
        device_time: moment().stamp,
        correction: None,
        natural_key: Some(planned.natural_key),
    };
    let batch = Batch {
        received: moment().stamp,
        facts: vec![fact],
        documents: Vec::new(),
        on_refusal: OnRefusal::RollBack,
    };
    store.append(&batch).expect("it is stored");
    let act = Erasure {
        subject,
        author: "L. Vane".to_owned(),
        at: moment().stamp,
        ground: "asked for by the guardian".to_owned(),
    };
    store.erase_subject(&act).expect("it is erased");
    let desk = Desk::new(store, protocol.clone()).expect("a desk");
    let again = preview(&desk, "roster.csv", list);
    assert!(again.is_ready() && again.facts.is_empty(), "{:?}", again.facts);
    assert!(again.problems.iter().any(|problem| problem.says == "import-note-left-alone"));
}
