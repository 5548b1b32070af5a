//! The desk over a real store in memory: import, decide, import again.

use app::bring_in::Incoming;
use app::desk::{Author, Desk, Draft};
use app::facts::{ClubFact, Units};
use app::moment::Moment;
use jiff::tz::TimeZone;
use store::{Store, SubjectId};

fn moment() -> Moment {
    let instant = "2026-11-25T12:00:00Z".parse().expect("an instant as written");
    Moment::of(instant, &TimeZone::UTC)
}

fn author() -> Author {
    Author { name: "Test Practitioner".to_owned(), device: "test".to_owned() }
}

fn desk() -> Desk {
    let store = Store::in_memory().expect("a store in memory");
    let mut desk = Desk::new(store, trade::protocol::shipped().clone()).expect("an empty desk");
    let club = ClubFact {
        name: "Test Club".to_owned(),
        zone: "Europe/Helsinki".to_owned(),
        units: Units::Metric,
        practitioner: "Test Practitioner".to_owned(),
        practitioner_phone: String::new(),
    };
    desk.record(&moment(), &author(), SubjectId::CLUB, &[Draft::new(&club)]).expect("the club is recorded");
    desk
}

fn example(name: &str) -> Vec<u8> {
    let path = format!("{}/../../examples/{name}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(&path).unwrap_or_else(|error| panic!("{path}: {error}"))
}

fn import(desk: &mut Desk, name: &str) -> app::bring_in::Done {
    let bytes = example(name);
    let file =
        Incoming { bytes: &bytes, name, kind: None, dates: None, context: None, accept_unusual: false };
    let preview =
        desk.preview_import(moment().today, &file).unwrap_or_else(|error| panic!("{name}: {error:?}"));
    let blocking: Vec<_> =
        preview.problems.iter().filter(|problem| problem.weight != app::import::Weight::Note).collect();
    assert!(preview.is_ready(), "{name}: {blocking:#?}");
    desk.import(&moment(), &author(), &preview, name).unwrap_or_else(|error| panic!("{name}: {error}"))
}

#[test]
fn importing_the_examples_twice_adds_nothing_the_second_time() {
    let mut desk = desk();
    let names = ["roster.csv", "screening.xlsx", "kit.csv", "sets.csv"];
    for name in names {
        let done = import(&mut desk, name);
        assert!(0 < done.added, "{name} added nothing");
        assert_eq!(done.corrected, 0, "{name}");
    }
    assert_eq!(desk.people().count(), 26);
    let unreadable: Vec<_> = desk.people().flat_map(|person| &person.read.unreadable).collect();
    assert!(unreadable.is_empty(), "{unreadable:?}");
    let before = desk.store().digest_of_state().expect("a digest");
    for name in names {
        let done = import(&mut desk, name);
        assert_eq!((done.added, done.corrected), (0, 0), "{name}");
        assert!(0 < done.unchanged, "{name}");
    }
    assert_eq!(desk.store().digest_of_state().expect("a digest"), before);
}

#[test]
fn an_import_with_one_bad_row_leaves_the_store_as_it_was() {
    let mut desk = desk();
    let before = desk.store().digest_of_state().expect("a digest");
    let bytes = example("broken-roster.csv");
    let file = Incoming {
        bytes: &bytes,
        name: "broken-roster.csv",
        kind: None,
        dates: None,
        context: None,
        accept_unusual: true,
    };
    let preview = desk.preview_import(moment().today, &file).expect("a preview");
    assert!(!preview.is_ready());
    let refused =
        desk.import(&moment(), &author(), &preview, "broken-roster.csv").expect_err("it is refused");
    assert_eq!(refused.says, "error-import-not-ready");
    assert_eq!(desk.store().digest_of_state().expect("a digest"), before);
    assert_eq!(desk.people().count(), 0);
}
