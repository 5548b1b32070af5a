//! Kit lists.

use app::facts::Kind;
use serde_json::json;

use crate::world::{World, in_words, only, payloads, said};

#[test]
fn a_piece_is_known_by_its_mark_and_its_measured_force() {
    let mut world = World::default();
    let list = "Mark;Kind;Force at double length;Rest length (cm);Mass;Pieces;In service;Latex\n\
                B16;band;3,6 lbf;120;;8;2026-09-01;no\n\
                W050;hand weight;;;500 g;12;;\n";
    let preview = world.read(list);
    assert_eq!(said(&preview), []);
    let band = payloads(&preview, Kind::KitPiece)[0];
    assert!((band["force_at_double_n"].as_f64().unwrap() - 16.013_597_814_937_8).abs() < 1e-9);
    assert!((band["rest_length_m"].as_f64().unwrap() - 1.2).abs() < 1e-12);
    assert_eq!((&band["pieces"], &band["latex"]), (&json!(8), &json!(false)));
    assert_eq!(band["as_entered"], "3,6 lbf; 120 cm");
    let weight = payloads(&preview, Kind::KitPiece)[1];
    assert_eq!(weight["mass_kg"], 0.5);
    assert_eq!(weight.get("latex"), None, "nobody said");
    world.record(&preview);
    let again = world.read(list);
    assert_eq!((again.counts.added, again.counts.unchanged), (0, 2));
    let worn = world.read("Mark;Kind;Force at double length\nb16;band;15 N\n");
    assert_eq!((worn.counts.added, worn.counts.corrected), (0, 1));
    assert_eq!(payloads(&worn, Kind::KitPiece)[0]["pieces"], 8);
}

#[test]
fn what_is_missing_or_impossible_is_named() {
    let cases = [
        (";band;16 N;;", "import-mark-missing"),
        ("B16;;16 N;;", "import-kit-kind-missing"),
        ("B16;rope;16 N;;", "import-word-unknown"),
        ("B16;band;16 kg cm;;", "import-unit-unknown"),
        ("B16;band;5000 N;;", "import-value-impossible"),
        ("B16;band;500 N;;", "import-value-unusual"),
        ("W1;weight;;;", "import-weight-without-mass"),
        ("W1;weight;;1 kg;1,5", "import-not-a-whole-number"),
        ("W1;weight;;-1 kg;", "import-value-impossible"),
    ];
    for (row, wanted) in cases {
        let preview = World::default().read(&format!("Mark;Kind;Force;Mass;Pieces\n{row}\n"));
        assert_eq!(only(&preview).says, wanted, "{row}");
        in_words(only(&preview));
    }
}
