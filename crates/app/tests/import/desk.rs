//! The example files at a desk with a real store.

use app::bring_in::Incoming;
use app::desk::{Author, Desk, Draft};
use app::facts::{ClubFact, KitPieceFact, KitWord, Units};
use app::import::Preview;
use app::moment::Moment;
use jiff::tz::TimeZone;
use store::{Erasure, Store, SubjectId};

use crate::world::said;

fn moment() -> Moment {
    Moment::of("2026-11-25T17:00:00Z".parse().expect("an instant"), &TimeZone::UTC)
}

fn author() -> Author {
    Author { name: "L. Vane".to_owned(), device: "test".to_owned() }
}

fn desk() -> Desk {
    sit_down(Store::in_memory().expect("a store in memory"))
}

/// A desk at a store that knows which club it is.
fn sit_down(store: Store) -> Desk {
    let mut desk = Desk::new(store, trade::protocol::read::shipped().clone()).expect("a desk");
    let club = ClubFact {
        name: "Driftwood Bay".to_owned(),
        zone: "Europe/London".to_owned(),
        units: Units::Metric,
        practitioner: "L. Vane".to_owned(),
        practitioner_phone: String::new(),
        daily_practices: false,
    };
    desk.record(&moment(), &author(), SubjectId::CLUB, &[Draft::new(&club)]).expect("the club is recorded");
    desk
}

fn preview(desk: &Desk, name: &str, bytes: &[u8]) -> Preview {
    let file = Incoming { bytes, name, kind: None, dates: None, context: None, accept_unusual: false };
    desk.preview_import(moment().today, &file).expect("a list")
}

fn file(name: &str) -> Vec<u8> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    std::fs::read(path).expect("an example file")
}

const GOOD: [&str; 4] = ["roster.csv", "screening.xlsx", "kit.csv", "sets.csv"];

#[test]
fn the_examples_go_in_once_and_a_second_time_adds_nothing() {
    let mut desk = desk();
    for name in GOOD {
        let preview = preview(&desk, name, &file(name));
        assert_eq!(said(&preview), [], "{name}");
        let done = desk.import(&moment(), &author(), &preview, name).expect("it is recorded");
        assert_eq!((done.added, done.corrected), (preview.counts.added, 0), "{name}");
        assert!(0 < done.added, "{name}");
    }
    assert_eq!(desk.people().count(), 26);
    assert!(desk.people().all(|person| person.read.unreadable.is_empty()));
    let (digest, count) = (desk.store().digest_of_state().unwrap(), desk.store().counts().unwrap());
    for name in GOOD {
        let again = preview(&desk, name, &file(name));
        assert_eq!((again.counts.added, again.counts.corrected), (0, 0), "{name}");
        let done = desk.import(&moment(), &author(), &again, name).unwrap();
        assert_eq!((done.added, done.corrected), (0, 0), "{name}");
    }
    assert_eq!((desk.store().digest_of_state().unwrap(), desk.store().counts().unwrap()), (digest, count));
}

#[test]
fn one_bad_row_leaves_the_store_as_it_was() {
    let mut desk = desk();
    let before = desk.store().digest_of_state().unwrap();
    let broken = preview(&desk, "broken-roster.csv", &file("broken-roster.csv"));
    assert!(!broken.facts.is_empty(), "some rows are good");
    let refused = desk.import(&moment(), &author(), &broken, "broken-roster.csv").expect_err("it is refused");
    assert_eq!(refused.says, "error-import-not-ready");
    assert_eq!(desk.store().digest_of_state().unwrap(), before);
}

#[test]
fn an_edited_row_corrects_and_going_back_corrects_again() {
    let mut desk = desk();
    let list = |force: &str| format!("Mark;Kind;Force (N)\nB16;band;{force}\n");
    for (force, wanted) in [("16", (1, 0)), ("15", (0, 1)), ("16", (0, 1)), ("15", (0, 1)), ("15", (0, 0))] {
        let preview = preview(&desk, "kit.csv", list(force).as_bytes());
        assert_eq!((preview.counts.added, preview.counts.corrected), wanted, "{force}");
        desk.import(&moment(), &author(), &preview, "kit.csv").expect("it is recorded");
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
    desk.import(&moment(), &author(), &met, "kit.csv").unwrap();
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
    let folder = std::env::temp_dir().join(format!("cuffwright-erased-{}", std::process::id()));
    let path = folder.with_extension("sqlite");
    let store = Store::open(&path, store::Open { create: true }).expect("a store");
    let mut first = sit_down(store);
    let added = preview(&first, "roster.csv", list);
    first.import(&moment(), &author(), &added, "roster.csv").expect("it is recorded");
    let subject = first.people().next().expect("a swimmer").subject;
    drop(first);

    let mut store = Store::open(&path, store::Open { create: false }).expect("the same store");
    let act = Erasure {
        subject,
        author: "L. Vane".to_owned(),
        at: moment().stamp,
        ground: "asked for by the guardian".to_owned(),
    };
    store.erase_subject(&act).expect("it is erased");
    let desk = Desk::new(store, trade::protocol::shipped().clone()).expect("a desk");
    let again = preview(&desk, "roster.csv", list);
    drop(desk);
    for ending in ["sqlite", "sqlite-wal", "sqlite-shm", "sqlite.lock"] {
        let _ = std::fs::remove_file(folder.with_extension(ending));
    }
    assert!(again.is_ready() && again.facts.is_empty(), "{:?}", again.facts);
    assert!(again.problems.iter().any(|problem| problem.says == "import-note-left-alone"));
}
