//! Rosters: who, body size, consent, intake.

use app::facts::Kind;
use app::import::{Change, DateOrder, Outcome};
use serde_json::json;

use crate::world::{World, in_words, only, options, payloads, said, three};

const FULL: &str = "Name;Birth date;Sex;Squad;Club number;Seasons;Programme start (DD.MM.YYYY);Guardian;Phone;Relation;Allergies;\
    Height (cm);Sitting height (cm);Mass (lb);Measured on;Consent signed;Consent items;Intake date;\
    Shoulder pain 12 months;Slipped or dislocated;Operation;Red flags asked;Red flags\n";

#[test]
fn a_full_row_gives_every_fact_of_it() {
    let preview = World::default().read(&format!(
        "{FULL}Nia Thistlewick;24.12.2012;F;Otters;0117;1,5;07.09.2026;Bram;01632 960100;father;latex;\
         159,6;82,9;104,7;13.09.2026;20.08.2026;all but photo;31.08.2026;no;;yes;yes;night-pain, swelling\n"
    ));
    assert_eq!(said(&preview), []);
    assert_eq!(
        payloads(&preview, Kind::Swimmer)[0],
        &json!({
            "name": "Nia Thistlewick", "born": "2012-12-24", "sex": "female", "squad": "Otters",
            "experience": "trained", "programme_started": "2026-09-07", "emergency_note": "latex",
            "club_number": "0117",
            "contacts": [{"name": "Bram", "relation": "father", "phone": "01632 960100"}],
        })
    );
    let growth = payloads(&preview, Kind::Growth)[0];
    assert_eq!(growth["height_cm"], 159.6);
    // 104.7 lb = 47.4911… kg, the pound being 0.45359237 kg exactly.
    assert_eq!(growth["mass_kg"], 47.49);
    let consent = payloads(&preview, Kind::Consent)[0];
    assert_eq!(consent["granted"].as_array().unwrap().len(), 8);
    assert!(!consent["granted"].as_array().unwrap().contains(&json!("photo")));
    assert_eq!((&consent["signer"], &consent["relation"]), (&json!("Bram"), &json!("father")));
    assert_eq!(
        payloads(&preview, Kind::Intake)[0],
        &json!({
            "date": "2026-08-31", "shoulder_pain_12_months": false, "dislocation_or_slipping": null,
            "operation": true, "signs": ["night-pain", "swelling"], "signs_asked": true,
        })
    );
}

#[test]
fn a_blank_is_never_a_no_and_never_a_consent() {
    let preview = World::default().read(
        "Name;Birth date;Consent signed;Consent items;Intake date;Operation;Red flags asked;Red flags\n\
         A B;2012-01-13;2026-08-20;;2026-08-31;;yes;\n",
    );
    assert_eq!(said(&preview), []);
    assert!(payloads(&preview, Kind::Consent).is_empty());
    let intake = payloads(&preview, Kind::Intake)[0];
    assert_eq!((&intake["operation"], &intake["signs_asked"]), (&json!(null), &json!(false)));
    let notes: Vec<_> = preview.problems.iter().map(|problem| problem.says).collect();
    assert!(notes.contains(&"import-note-consent-items") && notes.contains(&"import-note-signs-open"));
}

#[test]
fn an_adult_signs_for_themselves_and_a_minor_does_not() {
    let adult = World::default()
        .read("Name;Birth date;Consent signed;Consent items\nA B;2007-01-13;2026-08-20;all\n");
    let consent = payloads(&adult, Kind::Consent)[0].clone();
    assert_eq!((&consent["signer"], &consent["relation"]), (&json!("A B"), &json!("self")));
    let minor = World::default()
        .read("Name;Birth date;Consent signed;Consent items\nA B;2012-01-13;2026-08-20;all\n");
    assert_eq!(only(&minor).says, "import-consent-by-whom");
}

#[test]
fn each_bad_cell_has_its_problem() {
    let cases = [
        ("Birth date", "14.05.12", "import-date-short-year"),
        ("Birth date", "31.04.2012", "import-date-impossible"),
        ("Birth date", "41234", "import-date-serial"),
        ("Birth date", "soon", "import-date-unreadable"),
        ("Birth date", "", "import-birth-date-missing"),
        ("Birth date", "2030-01-01", "import-date-to-come"),
        ("Birth date", "1899-01-01", "import-age-impossible"),
        ("Birth date", "2023-01-01", "import-age-unusual"),
        ("Name", "", "import-name-missing"),
        ("Sex", "q", "import-word-unknown"),
        ("Seasons", "some", "import-seasons-unreadable"),
        ("Height (cm)", "1,585", "import-number-ambiguous"),
        ("Height (cm)", "tall", "import-not-a-number"),
        ("Height (cm)", "17,2", "import-value-impossible"),
        ("Height (cm)", "118", "import-value-unusual"),
        ("Height (cm)", "158 kg", "import-unit-wrong-kind"),
        ("Mass (kg)", "12 stone", "import-unit-unknown"),
        ("Mass (kg)", "NaN", "import-not-a-number"),
        ("Measured on", "", "import-measured-when"),
        ("Consent items", "tea", "import-consent-item-unknown"),
        ("Consent items", "all but tea", "import-consent-item-unknown"),
        ("Consent signed", "", "import-consent-when"),
        ("Operation", "perhaps", "import-not-yes-or-no"),
        ("Operation", "x", "import-not-yes-or-no"),
        ("Intake date", "", "import-intake-when"),
        ("Red flags", "hiccups", "import-sign-unknown"),
    ];
    let good = [
        ("Name", "A B"),
        ("Birth date", "2012-01-13"),
        ("Sex", "f"),
        ("Seasons", "1"),
        ("Guardian", "C B"),
        ("Height (cm)", "158"),
        ("Mass (kg)", "50"),
        ("Measured on", "2026-09-08"),
        ("Consent signed", "2026-08-20"),
        ("Consent items", "all"),
        ("Operation", "no"),
        ("Red flags", "none"),
        ("Intake date", "2026-08-31"),
    ];
    let list = |column: &str, value: &str| {
        let headers: Vec<&str> = good.iter().map(|(header, _)| *header).collect();
        let cells: Vec<&str> =
            good.iter().map(|(header, cell)| if *header == column { value } else { cell }).collect();
        format!("{}\n{}\n", headers.join(";"), cells.join(";"))
    };
    assert_eq!(said(&World::default().read(&list("none", ""))), []);
    for (column, value, wanted) in cases {
        let mut options = options();
        options.dates = Some(DateOrder::DayFirst);
        let preview = World::default().read_with(&list(column, value), &options);
        let problem = only(&preview);
        assert_eq!((problem.says, problem.row), (wanted, Some(2)), "{column}: {value}");
        assert_eq!(problem.column.as_deref(), Some(column), "{value}");
        assert!(!preview.is_ready());
        in_words(problem);
    }
}

#[test]
fn limits_are_shown_in_the_unit_that_was_written() {
    let preview =
        World::default().read("Name;Birth date;Height;Measured on\nA B;2012-01-13;9'10\";2026-09-08\n");
    let words = in_words(only(&preview));
    // 2.4 m / 0.3048 m = 7.87 ft.
    assert!(words.contains("7.87 ft"), "{words}");
}

#[test]
fn an_order_of_day_and_month_is_shown_by_the_column_or_asked_for() {
    let list = |days: &[&str]| {
        let rows: Vec<String> = days.iter().enumerate().map(|(i, day)| format!("P{i} Q;{day}")).collect();
        format!("Name;Birth date\n{}\n", rows.join("\n"))
    };
    let shown = World::default().read(&list(&["05/04/2012", "12/31/2012"]));
    assert!(shown.is_ready());
    assert_eq!(payloads(&shown, Kind::Swimmer).iter().filter(|p| p["born"] == "2012-05-04").count(), 1);
    let doubtful = World::default().read(&list(&["05.04.2012", "06.07.2012"]));
    assert_eq!(only(&doubtful).says, "import-dates-ambiguous");
    assert_eq!(doubtful.counts.added, 0);
    let torn = World::default().read(&list(&["05.04.2012", "31.07.2012", "07.31.2012"]));
    assert_eq!(only(&torn).says, "import-dates-contradict");
    let mut decided = options();
    decided.dates = Some(DateOrder::DayFirst);
    let preview = World::default().read_with(&list(&["05.04.2012", "06.07.2012"]), &decided);
    assert!(preview.is_ready());
    let header = World::default().read("Name;Birth date (MM/DD/YYYY)\nA B;05/04/2012\n");
    assert_eq!(payloads(&header, Kind::Swimmer)[0]["born"], "2012-05-04");
}

#[test]
fn the_decimal_mark_of_a_column_is_shown_by_its_other_values() {
    let preview = World::default().read(
        "Name;Birth date;Mass (kg);Measured on\nA B;2012-01-13;52,125;2026-09-08\nC D;2012-01-14;48,5;2026-09-08\n",
    );
    // Mass alone needs a height; both rows say so, and neither finds its number doubtful.
    assert_eq!(said(&preview), [(Some(2), "import-height-missing"), (Some(3), "import-height-missing")]);
}

#[test]
fn a_second_import_adds_nothing_and_an_edited_row_corrects() {
    let mut world = World::default();
    let list = "Name;Birth date;Squad;Club number\nA B;2012-01-13;Otters;1\nC D;2013-01-14;Otters;2\n";
    let first = world.read(list);
    assert_eq!((first.counts.added, first.counts.unchanged), (2, 0));
    world.record(&first);
    let second = world.read(list);
    assert_eq!((second.counts.added, second.counts.unchanged, second.counts.corrected), (0, 2, 0));
    assert!(second.rows.iter().all(|row| row.outcome == Outcome::Unchanged));
    let edited = world.read(&list.replace("2012-01-13;Otters", "2012-01-13;Herons"));
    assert_eq!((edited.counts.unchanged, edited.counts.corrected), (1, 1));
    let corrected = edited.changes().next().unwrap();
    assert!(
        matches!(&corrected.change, Change::Corrects { before, .. } if before["squad"] == "Otters"),
        "{corrected:?}"
    );
    assert_eq!(corrected.payload["squad"], "Herons");
}

#[test]
fn a_column_that_is_missing_or_blank_erases_nothing() {
    let mut world = World::default();
    let first = world.read("Name;Birth date;Squad;Sex;Seasons;Guardian\nA B;2012-01-13;Otters;f;2;C B\n");
    world.record(&first);
    let shorter = world.read("Name;Birth date;Squad\nA B;2012-01-13;\n");
    assert_eq!((shorter.counts.unchanged, shorter.counts.corrected), (1, 0));
}

#[test]
fn a_swimmer_is_known_by_number_or_by_name_and_birth_date() {
    let world = three();
    let cases: [(&str, &[&str]); 7] = [
        ("Fenwick-Moss, ADA;2012-04-17;", &[]),
        ("Ada Fenwick-Moss;2012-04-17;0101", &[]),
        ("Ada Fenwick-Mosse;2012-04-17;101", &[]),
        ("Ada Fenwick-Moss;2012-04-18;101", &[]),
        ("Somebody Else;2012-04-18;101", &["import-number-taken"]),
        ("Ada Fenwick-Moss;2012-04-17;999", &["import-number-changed"]),
        ("Pip Quillfeather;2009-02-28;103", &[]),
    ];
    for (row, wanted) in cases {
        let preview = world.read(&format!("Name;Birth date;Club number\n{row}\n"));
        let says: Vec<_> = said(&preview).into_iter().map(|(_, says)| says).collect();
        assert_eq!(says, wanted, "{row}");
        for fact in &preview.facts {
            let known = world.swimmers.iter().any(|swimmer| Some(swimmer.subject) == fact.subject.id());
            assert!(known, "{row} is about somebody on record");
        }
    }
    let stranger = world.read("Name;Birth date\nAda Fenwick-Moss;2013-04-17\n");
    assert!(!world.swimmers.iter().any(|swimmer| Some(swimmer.subject) == stranger.facts[0].subject.id()));
}

#[test]
fn two_rows_of_one_swimmer_agree_or_are_named() {
    let same = World::default().read("Name;Birth date;Squad\nA B;2012-01-13;Otters\nB, A;2012-01-13;\n");
    // The second row writes the name differently, which is a difference.
    assert_eq!(said(&same), [(Some(3), "import-rows-contradict")]);
    let twice =
        World::default().read("Name;Birth date;Squad\nA B;2012-01-13;Otters\nA B;2012-01-13;Otters\n");
    assert!(twice.is_ready());
    assert_eq!(twice.counts.added, 1);
    assert!(
        twice.problems.iter().any(|problem| problem.says == "import-note-repeated" && problem.row == Some(3))
    );
    let torn = World::default().read("Name;Birth date;Squad\nA B;2012-01-13;Otters\nA B;2012-01-13;Herons\n");
    let problem = only(&torn);
    assert_eq!((problem.says, problem.row), ("import-rows-contradict", Some(3)));
    let number_once =
        World::default().read("Name;Birth date;Club number\nA B;2012-01-13;\nA B;2012-01-13;7\n");
    assert!(number_once.is_ready(), "{:?}", said(&number_once));
    assert_eq!(number_once.counts.added, 1);
    let two_numbers =
        World::default().read("Name;Birth date;Club number\nA B;2012-01-13;8\nA B;2012-01-13;7\n");
    assert_eq!(
        said(&two_numbers),
        [(Some(2), "import-swimmer-two-numbers"), (Some(3), "import-swimmer-two-numbers")]
    );
}

#[test]
fn what_is_unusual_waits_for_a_word() {
    let list = "Name;Birth date;Height (cm);Measured on\nA B;2012-01-13;118;2026-09-08\n";
    let asked = World::default().read(list);
    assert!(!asked.is_ready());
    let mut options = options();
    options.accept_unusual = true;
    let accepted = World::default().read_with(list, &options);
    assert!(accepted.is_ready());
    assert_eq!(payloads(&accepted, Kind::Growth)[0]["height_cm"], 118.0);
}

#[test]
fn an_intake_yes_is_not_taken_back_unasked() {
    let mut world = World::default();
    world.record(&world.read("Name;Birth date;Intake date;Operation\nA B;2012-01-13;2026-08-31;yes\n"));
    let softer = world.read("Name;Birth date;Intake date;Operation\nA B;2012-01-13;2026-08-31;no\n");
    assert_eq!(only(&softer).says, "import-takes-warning-back");
    assert!(!softer.is_ready());
    let blank =
        world.read("Name;Birth date;Intake date;Operation;Dislocated\nA B;2012-01-13;2026-08-31;;no\n");
    assert!(blank.is_ready());
    assert_eq!(payloads(&blank, Kind::Intake)[0]["operation"], true);
}

#[test]
fn title_rows_above_and_any_order_of_columns_do_not_matter() {
    let plain = World::default().read("Name;Birth date;Squad\nA B;2012-01-13;Otters\n");
    let dressed = World::default()
        .read("Our club\nSeason 2026/27;;;\n;;;\nlane;SQUAD;Geb.;Swimmer\n4;Otters;13.01.2012;A B\n");
    assert_eq!(plain.facts[0].payload, dressed.facts[0].payload);
    assert_eq!(dressed.rows[0].row, 5);
}
