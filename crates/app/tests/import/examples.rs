//! The files of the invented club in `examples/`, as a newcomer imports them.

use std::collections::BTreeSet;

use app::facts::Kind as Fact;
use app::import::{Kind, Outcome, Preview, Weight};
use jiff::civil::date;

use crate::world::{World, in_words, options, payloads, said, today};

fn file(name: &str) -> Vec<u8> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    std::fs::read(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn read(world: &World, name: &str) -> Preview {
    world.try_read(&file(name), None, &options()).unwrap_or_else(|problem| panic!("{name}: {problem:?}"))
}

/// Imports all good files in the order a club would.
fn imported() -> World {
    let mut world = World::default();
    for (name, kind) in ALL {
        let preview = read(&world, name);
        assert_eq!(preview.kind, kind, "{name}");
        assert_eq!(said(&preview), [], "{name}");
        world.record(&preview);
    }
    world
}

const ALL: [(&str, Kind); 4] = [
    ("roster.csv", Kind::Roster),
    ("screening.xlsx", Kind::Screening),
    ("kit.csv", Kind::Kit),
    ("sets.csv", Kind::Sets),
];

#[test]
fn the_club_has_26_swimmers_from_11_to_19_and_two_of_one_name() {
    let world = imported();
    assert_eq!(world.swimmers.len(), 26);
    let ages: BTreeSet<i16> =
        world.swimmers.iter().map(|swimmer| today().year() - swimmer.born.year()).collect();
    assert_eq!((ages.first(), ages.last()), (Some(&11), Some(&19)));
    let names: BTreeSet<&str> = world.swimmers.iter().map(|swimmer| swimmer.name.as_str()).collect();
    assert_eq!(names.len(), 25);
    assert!(world.swimmers.iter().any(|swimmer| swimmer.born == date(2009, 2, 28)));
}

#[test]
fn a_second_import_of_every_file_adds_nothing() {
    let world = imported();
    for (name, _) in ALL {
        let again = read(&world, name);
        assert_eq!(said(&again), [], "{name}");
        assert_eq!((again.counts.added, again.counts.corrected), (0, 0), "{name}");
        assert!(0 < again.counts.unchanged, "{name}");
    }
}

#[test]
fn awkward_cases_of_the_files_come_through() {
    let mut world = World::default();
    let roster = read(&world, "roster.csv");
    assert_eq!(payloads(&roster, Fact::Consent).len(), 25, "one swimmer has not signed");
    assert_eq!(payloads(&roster, Fact::Intake).len(), 25, "one was not asked");
    world.record(&roster);
    let screening = read(&world, "screening.xlsx");
    assert_eq!(payloads(&screening, Fact::Screening).len(), 25);
    world.record(&screening);
    let sets = read(&world, "sets.csv");
    assert!(payloads(&sets, Fact::Set).iter().any(|set| set["end"] == "pain"));
    assert!(payloads(&sets, Fact::Set).iter().any(|set| set["end"] == "cap" && set["seen"] == false));
    assert!(payloads(&sets, Fact::Pain).iter().any(|pain| pain["right"] == 2));
}

#[test]
fn every_payload_is_one_the_facts_accept() {
    let world = imported();
    let protocol = trade::protocol::read::shipped();
    for ((kind, key), on_record) in &world.facts {
        let app::import::OnRecord::Live(existing) = on_record else { panic!("{key}") };
        let checked = app::history::check(protocol, *kind, &existing.payload.to_string());
        assert!(checked.is_ok(), "{key}: {checked:?}");
    }
}

#[test]
fn the_broken_roster_names_all_its_problems_at_once_in_words() {
    let preview = read(&World::default(), "broken-roster.csv");
    let found: Vec<(u32, &str)> = preview
        .problems
        .iter()
        .filter(|problem| problem.weight != Weight::Note)
        .filter_map(|problem| problem.row.map(|row| (row, problem.says)))
        .collect();
    assert_eq!(
        found,
        [
            (2, "import-date-impossible"),
            (3, "import-date-short-year"),
            (4, "import-number-ambiguous"),
            (4, "import-word-unknown"),
            (5, "import-value-impossible"),
            (6, "import-name-missing"),
            (7, "import-value-unusual"),
            (8, "import-consent-item-unknown"),
            (8, "import-unit-unknown"),
            (9, "import-measured-when"),
            (9, "import-not-yes-or-no"),
            (10, "import-date-to-come"),
            (12, "import-rows-contradict"),
            (13, "import-row-too-long"),
        ]
    );
    assert!(!preview.is_ready());
    assert!(preview.rows.iter().filter(|row| row.outcome == Outcome::Blocked).count() >= 10);
    for problem in &preview.problems {
        let words = in_words(problem);
        assert!(words.ends_with(['.', '?']), "{words}");
    }
}
