//! Screening lists.

use app::facts::Kind;
use app::import::Options;
use serde_json::{Value, json};

use crate::world::{World, in_words, only, options, payloads, said, three};

fn finding<'a>(screening: &'a Value, key: &str, side: Option<&str>) -> &'a Value {
    let findings = screening["findings"].as_array().expect("a list of findings");
    findings
        .iter()
        .find(|finding| finding["key"] == key && finding.get("side").and_then(Value::as_str) == side)
        .unwrap_or_else(|| panic!("{key} {side:?}: {findings:?}"))
}

#[test]
fn values_and_reasons_are_kept_as_they_were_written() {
    let preview = three().read(
        "Club number;Date;Tester;ER force L (lb);ER force R (lb);IR force L (N);IR force R (N);ER range L;ER range R;\
         Pec minor L (in);Pec minor R (in);Lever arm;Beighton;Visible hollow\n\
         101;2026-09-08;L. Vane;18;18,5 lbf;pain;refused;95°;;6;not tested: ill;22 cm;4;left\n",
    );
    assert_eq!(said(&preview), []);
    let screening = payloads(&preview, Kind::Screening)[0];
    assert_eq!(screening["tester"], "L. Vane");
    // 18 lbf = 80.067989… N, the pound-force being 4.4482216152605 N exactly.
    let left = finding(screening, "er_force", Some("left"));
    assert!((left["value"].as_f64().unwrap() - 80.067_989_074_689).abs() < 1e-9);
    assert_eq!(left["as_entered"], "18 lbf");
    assert_eq!(finding(screening, "er_force", Some("right"))["as_entered"], "18,5 lbf");
    assert_eq!(finding(screening, "ir_force", Some("left"))["without_value"], "pain");
    assert_eq!(finding(screening, "ir_force", Some("right"))["without_value"], "refused");
    assert_eq!(finding(screening, "shoulder_er_rom", Some("left"))["value"], 95.0);
    assert_eq!(
        finding(screening, "shoulder_er_rom", Some("right"))["without_value"],
        json!({ "not-tested": "blank in file" })
    );
    assert!(
        (finding(screening, "pec_minor_length", Some("left"))["value"].as_f64().unwrap() - 15.24).abs()
            < 1e-9
    );
    assert_eq!(
        finding(screening, "pec_minor_length", Some("right"))["without_value"],
        json!({ "not-tested": "ill" })
    );
    assert!((finding(screening, "lever_arm", None)["value"].as_f64().unwrap() - 0.22).abs() < 1e-12);
    assert_eq!(screening["visible_hollow"], json!(["left"]));
}

#[test]
fn who_a_row_is_about_is_never_guessed() {
    let cases = [
        ("Ada Fenwick-Moss;;", Some("import-swimmer-name-shared")),
        ("Ada Fenwick-Moss;;2014-11-02", None),
        ("fenwick moss, ada;;2012-04-17", None),
        ("Ada Fenwick-Moss;;2013-11-02", Some("import-swimmer-other-birth-date")),
        (";102;", None),
        ("Pip Quillfeather;102;", Some("import-swimmer-number-of-another")),
        (";999;", Some("import-swimmer-unknown-number")),
        ("Pip Quilfeather;;", Some("import-swimmer-unknown")),
        ("PIP QUILLFEATHER;;", None),
        (";;", Some("import-swimmer-not-named")),
    ];
    for (row, wanted) in cases {
        let preview =
            three().read(&format!("Name;Club number;Birth date;Date;Plank (s)\n{row};2026-09-08;60\n"));
        match wanted {
            None => assert_eq!(said(&preview), [], "{row}"),
            Some(wanted) => assert_eq!(only(&preview).says, wanted, "{row}"),
        }
        preview.problems.iter().for_each(|problem| drop(in_words(problem)));
    }
    let shared = three().read("Name;Date;Plank (s)\nAda Fenwick-Moss;2026-09-08;60\n");
    let words = in_words(only(&shared));
    assert!(words.contains("2012") && words.contains("2014") && words.contains("club number"), "{words}");
    let near = three().read("Name;Date;Plank (s)\nPip Quilfeather;2026-09-08;60\n");
    assert!(in_words(only(&near)).contains("Pip Quillfeather"));
}

#[test]
fn a_later_file_of_the_same_day_adds_its_tests_and_a_blank_takes_nothing_away() {
    let mut world = three();
    world.record(&world.read("Club number;Date;ER range L;ER range R\n101;2026-09-08;95;pain\n"));
    let preview = world.read("Club number;Date;ER range L;ER range R;Plank (s)\n101;2026-09-08;;;80\n");
    assert_eq!((preview.counts.added, preview.counts.corrected), (0, 1));
    assert_eq!(said(&preview), []);
    let screening = payloads(&preview, Kind::Screening)[0];
    assert_eq!(finding(screening, "shoulder_er_rom", Some("left"))["value"], 95.0);
    assert_eq!(finding(screening, "shoulder_er_rom", Some("right"))["without_value"], "pain");
    assert_eq!(finding(screening, "plank_time", None)["value"], 80.0);
    let softer = world.read("Club number;Date;ER range L;ER range R\n101;2026-09-08;95;96\n");
    assert_eq!(only(&softer).says, "import-takes-warning-back");
}

#[test]
fn a_row_without_any_value_is_no_screening() {
    let preview = three().read("Club number;Date;ER range L;ER range R\n101;2026-09-08;;\n");
    assert!(preview.is_ready() && preview.facts.is_empty());
    assert!(preview.problems.iter().any(|problem| problem.says == "import-note-nothing-measured"));
}

#[test]
fn numbers_without_a_unit_are_read_in_the_clubs_units_and_said_so() {
    let list = "Club number;Date;ER force L;ER force R\n101;2026-09-08;20;21\n";
    let metric = three().read_with(list, &Options { accept_unusual: true, ..options() });
    let imperial = three().read_with(list, &Options { units: app::facts::Units::Imperial, ..options() });
    let value = |preview: &app::import::Preview| {
        finding(payloads(preview, Kind::Screening)[0], "er_force", Some("left"))["value"].as_f64().unwrap()
    };
    assert_eq!(value(&metric), 20.0);
    assert!((value(&imperial) - 88.964_432_305_21).abs() < 1e-9);
    assert!(imperial.problems.iter().any(|problem| problem.says == "import-note-unit-assumed"));
}

#[test]
fn a_day_to_come_is_no_day_of_a_test() {
    let preview = World::clone(&three()).read("Club number;Date;Plank (s)\n101;2026-11-26;60\n");
    assert_eq!(only(&preview).says, "import-date-to-come");
}
