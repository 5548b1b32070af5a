//! Past set times.

use app::facts::{ContextWord, Kind};
use app::import::Options;
use serde_json::{Value, json};

use crate::world::{World, in_words, only, options, payloads, said, three};

fn rested() -> Options {
    Options { context: Some(ContextWord::Rested), ..options() }
}

fn read(header: &str, row: &str) -> app::import::Preview {
    three().read_with(&format!("Club number;Date;Exercise;{header}\n101;2026-11-09;{row}\n"), &rested())
}

#[test]
fn a_wide_row_gives_its_sets_its_session_and_its_pain() {
    let preview = three().read(
        "Club number;Date;Exercise;Side;Rung;Set 1;Set 2;Set 3;Seen;Context;Pain before;Pain after\n\
         101;2026-11-09;RC-1;left;b16;120 cap;85 F6;40 pain;yes;after practice;0;L2 R0\n\
         101;2026-11-09;rc1;right;16 N;120 cap;101 stop;-;;after practice;;\n",
    );
    assert_eq!(said(&preview), []);
    let sets = payloads(&preview, Kind::Set);
    assert_eq!(sets.len(), 5);
    assert_eq!(
        sets[0],
        &json!({
            "date": "2026-11-09", "session": 1, "exercise": "RC-1", "side": "left", "planned": "b16",
            "used": "b16", "prescribed_sets": 3, "number": 1, "seconds": 120.0, "end": "cap", "seen": true,
            "clock": "hand",
        })
    );
    assert_eq!((&sets[1]["end"], &sets[1]["fault"]), (&json!("form"), &json!("F06")));
    assert_eq!(sets[2]["end"], "pain");
    assert_eq!((&sets[3]["side"], &sets[3]["seen"]), (&json!("right"), &json!(false)));
    assert_eq!(sets[4]["end"], "chose-to-stop");
    let unseen: Vec<_> =
        preview.problems.iter().filter(|problem| problem.says == "import-note-cap-unseen").collect();
    assert_eq!(unseen.len(), 1);
    assert_eq!(unseen[0].row, Some(3));
    assert_eq!(
        payloads(&preview, Kind::Session),
        [&json!({
            "date": "2026-11-09", "number": 1, "context": "after-practice",
        })]
    );
    let pains = payloads(&preview, Kind::Pain);
    assert_eq!(pains.len(), 2);
    assert_eq!(
        (&pains[0]["when"], &pains[0]["left"], &pains[0]["right"]),
        (&json!("after"), &json!(2), &json!(0))
    );
    assert_eq!(
        (&pains[1]["when"], &pains[1]["left"], &pains[1]["right"]),
        (&json!("before"), &json!(0), &json!(0))
    );
}

#[test]
fn one_set_a_row_reads_the_same_as_all_sets_in_one() {
    let wide = three().read_with(
        "Club number;Date;Exercise;Side;Rung;Set 1;Set 2\n101;2026-11-09;RC-1;left;b16;120 cap;85 F6\n",
        &rested(),
    );
    let long = three().read_with(
        "Club number;Date;Exercise;Side;Rung;Set number;Time;End;Fault;Seen\n\
         101;2026-11-09;RC-1;left;b16;2;85;form;F06;\n\
         101;2026-11-09;RC-1;left;b16;1;2:00;cap;;no\n",
        &rested(),
    );
    let sides = three().read_with(
        "Club number;Date;Exercise;Rung;Set 1 L;Set 2 left\n101;2026-11-09;RC-1;b16;120 cap unseen;85 form F6\n",
        &rested(),
    );
    for other in [&long, &sides] {
        assert_eq!(said(other), []);
        assert_eq!(payloads(&wide, Kind::Set), payloads(other, Kind::Set));
    }
}

#[test]
fn a_rung_is_named_in_many_ways() {
    let cases = [
        ("RC-1", "Rung", "b16", "b16"),
        ("RC-1", "Rung", "16 N at double length", "b16"),
        ("RC-1", "Rung", "16 N", "b16"),
        ("RC-1", "Rung", "3,6 lbf", "b16"),
        ("RC-1", "Rung", "level 3", "b16"),
        ("RC-1", "Level", "3", "b16"),
        ("RC-1", "Band force (N)", "16", "b16"),
        ("RC-1", "Band force (lbf)", "3.6", "b16"),
        ("RC-1", "Band force (kgf)", "1.6", "b16"),
        ("RC-3", "Rung", "bare hands", "w000"),
        ("RC-3", "Rung", "0.5 kg", "w050"),
        ("RC-3", "Hand weight (kg)", "0,25", "w025"),
        ("RC-3", "Hand weight (lb)", "1.1", "w050"),
        ("RC-3", "Hand weight (kg)", "2.2", "w220"),
        ("RC-3", "Rung", "4.85 lb", "w220"),
        ("Front plank", "Rung", "floor", "floor"),
    ];
    for (exercise, header, value, wanted) in cases {
        let preview = three().read_with(
            &format!(
                "Club number;Date;Exercise;Side;{header};Set 1\n101;2026-11-09;{exercise};{};{value};40 F7\n",
                if exercise == "RC-1" { "left" } else { "" }
            ),
            &rested(),
        );
        assert_eq!(said(&preview), [], "{exercise} {header} {value}");
        assert_eq!(payloads(&preview, Kind::Set)[0]["used"], wanted, "{exercise} {header} {value}");
    }
}

#[test]
fn a_scaption_weight_above_the_limit_is_refused_in_the_unit_of_the_list() {
    // 5 lb = 2.268 kg; the limit of 2.2 kg is 4.85 lb.
    for (header, value) in
        [("Rung", "5 lb"), ("Hand weight (lb)", "5"), ("Hand weight", "2,21 kg"), ("Rung", "3 kg")]
    {
        let preview = three().read_with(
            &format!("Club number;Date;Exercise;{header};Set 1\n101;2026-11-09;RC-3;{value};40 F3\n"),
            &rested(),
        );
        let problem = only(&preview);
        assert_eq!(problem.says, "import-scaption-too-heavy", "{value}");
        let words = in_words(problem);
        assert!(words.contains(if value.contains("kg") { "2.2 kg" } else { "4.85 lb" }), "{words}");
        assert!(preview.facts.iter().all(|fact| fact.kind != Kind::Set));
    }
    let in_range = three().read_with(
        "Club number;Date;Exercise;Hand weight (kg);Set 1\n101;2026-11-09;RC-3;2,2;40 F3\n",
        &rested(),
    );
    assert!(in_range.is_ready(), "the limit itself is allowed");
}

#[test]
fn each_bad_cell_has_its_problem() {
    let cases = [
        ("Side;Rung;Set 1", "RC-9;left;b16;85 F6", "import-exercise-unknown"),
        ("Side;Rung;Set 1", ";left;b16;85 F6", "import-exercise-missing"),
        ("Side;Rung;Set 1", "FL-1;left;b16;85 F6", "import-exercise-not-timed"),
        ("Side;Rung;Set 1", "RC-1;;b16;85 F6", "import-side-missing"),
        ("Side;Rung;Set 1", "RC-1;both;b16;85 F6", "import-side-does-not-fit"),
        ("Side;Rung;Set 1", "CO-1;left;floor;45 F8", "import-side-does-not-fit"),
        ("Side;Rung;Set 1", "RC-1;left;;85 F6", "import-rung-missing"),
        ("Side;Rung;Set 1", "RC-1;left;b17;85 F6", "import-rung-unknown"),
        ("Side;Rung;Set 1", "RC-1;left;18 N;85 F6", "import-rung-unknown"),
        ("Side;Rung;Set 1", "RC-1;left;3;85 F6", "import-rung-bare-number"),
        ("Side;Level;Set 1", "RC-1;left;30;85 F6", "import-level-not-there"),
        ("Side;Rung;Level;Set 1", "RC-1;left;b16;1;85 F6", "import-rungs-contradict"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85", "import-set-no-end"),
        ("Side;Rung;Set 1", "RC-1;left;b16;120", "import-set-no-end"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85 form", "import-form-without-fault"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85 F44", "import-fault-unknown"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85 cap", "import-cap-contradicts-time"),
        ("Side;Rung;Set 1", "RC-1;left;b16;150 F6", "import-set-beyond-cap"),
        ("Side;Rung;Set 1", "RC-1;left;b16;700 F6", "import-value-impossible"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85 fine", "import-set-word"),
        ("Side;Rung;Set 1", "RC-1;left;b16;85 pain F6", "import-set-two-ends"),
        ("Side;Rung;Set 1", "RC-1;left;b16;F6", "import-set-unreadable"),
        ("Side;Rung;Time;End", "RC-1;left;b16;85 stop;pain", "import-set-two-ends"),
        ("Side;Rung;Set number;Time", "RC-1;left;b16;;85 F6", "import-set-number-missing"),
        ("Side;Rung;Time;Fault", "RC-1;left;b16;85;elbow leaves its plaice", "import-fault-unknown"),
        ("Side;Rung;Set 1;Pain before", "RC-1;left;b16;85 F6;3", "import-pain-which-side"),
        ("Side;Rung;Set 1;Pain before", "RC-1;left;b16;85 F6;L12", "import-pain-off-scale"),
        ("Side;Rung;Set 1;Pain after", "RC-1;left;b16;85 F6;sore", "import-pain-unreadable"),
        ("Side;Rung;Set 1;Pain after L", "RC-1;left;b16;85 F6;2,5", "import-pain-unreadable"),
        ("Side;Rung;Set 1;Session", "RC-1;left;b16;85 F6;0", "import-not-a-whole-number"),
    ];
    for (header, row, wanted) in cases {
        let preview = read(header, row);
        let problem = only(&preview);
        assert_eq!((problem.says, problem.row), (wanted, Some(2)), "{row}");
        assert!(!preview.is_ready());
        in_words(problem);
    }
}

#[test]
fn a_fault_may_be_named_in_words_and_pain_is_no_fault() {
    let named = read("Side;Rung;Time;Fault", "RC-1;left;b16;85;elbow leaves its place");
    assert_eq!(payloads(&named, Kind::Set)[0]["fault"], "F06");
    let pain = read("Side;Rung;Set 1", "RC-1;left;b16;85 F20");
    assert_eq!(
        (&payloads(&pain, Kind::Set)[0]["end"], payloads(&pain, Kind::Set)[0].get("fault")),
        (&json!("pain"), None)
    );
    let left_over = read("Side;Rung;Set 1", "RC-1;left;b16;120 cap F6 seen");
    let set = payloads(&left_over, Kind::Set)[0];
    assert_eq!((&set["end"], &set["fault_left"], &set["seen"]), (&json!("cap"), &json!("F06"), &json!(true)));
}

#[test]
fn a_shorter_cap_is_a_cap_where_the_file_says_so() {
    let preview = read("Side;Rung;Set 1;Cap", "RC-1;left;b16;60 cap;60");
    assert_eq!(said(&preview), []);
    assert_eq!(payloads(&preview, Kind::Set)[0]["cap_s"], 60.0);
    let trunk = read("Rung;Set 1", "CO-1;floor;60 cap");
    assert_eq!(said(&trunk), [], "the trunk has a cap of its own");
}

#[test]
fn the_context_is_never_assumed() {
    let silent = three().read("Club number;Date;Exercise;Rung;Set 1\n101;2026-11-09;SC-1;b16;85 F7\n");
    assert_eq!(said(&silent), [(None, "import-context-missing")]);
    let blank =
        three().read("Club number;Date;Exercise;Rung;Set 1;Context\n101;2026-11-09;SC-1;b16;85 F7;\n");
    assert_eq!(only(&blank).says, "import-context-blank");
}

#[test]
fn prescribed_sets_that_nobody_wrote_are_never_fewer_than_usual() {
    let two = read("Rung;Set 1;Set 2", "SC-1;b16;85 F7;80 F7");
    assert!(payloads(&two, Kind::Set).iter().all(|set| set["prescribed_sets"] == 3));
    let four = three().read_with(
        "Club number;Date;Exercise;Rung;Set number;Time\n101;2026-11-09;SC-1;b16;1;85 F7\n101;2026-11-09;SC-1;b16;4;80 F7\n",
        &rested(),
    );
    assert!(payloads(&four, Kind::Set).iter().all(|set| set["prescribed_sets"] == 4));
    let written = read("Rung;Set 1;Prescribed sets", "SC-1;b16;85 F7;2");
    assert_eq!(payloads(&written, Kind::Set)[0]["prescribed_sets"], 2);
}

#[test]
fn a_corrected_set_replaces_the_whole_observation() {
    let mut world = three();
    let list = |set: &str| {
        format!("Club number;Date;Exercise;Rung;Set 1;Context\n101;2026-11-09;SC-1;b16;{set};home\n")
    };
    world.record(&world.read(&list("85 F7")));
    let corrected = world.read(&list("85 stop"));
    assert_eq!((corrected.counts.corrected, corrected.counts.unchanged), (1, 1));
    let set: Vec<&Value> = payloads(&corrected, Kind::Set);
    assert_eq!((&set[0]["end"], set[0].get("fault")), (&json!("chose-to-stop"), None));
}

#[test]
fn two_rows_about_one_set_may_not_differ() {
    let preview = three().read_with(
        "Club number;Date;Exercise;Rung;Set 1\n101;2026-11-09;SC-1;b16;85 F7\n101;2026-11-09;SC-1;b16;86 F7\n",
        &rested(),
    );
    assert_eq!(said(&preview), [(Some(3), "import-rows-contradict")]);
    let contexts = three().read(
        "Club number;Date;Exercise;Rung;Set 1;Context\n101;2026-11-09;SC-1;b16;85 F7;home\n101;2026-11-09;RC-3;w000;85 F3;rested\n",
    );
    assert_eq!(said(&contexts), [(Some(3), "import-rows-contradict")]);
}

#[test]
fn recorded_pain_is_not_lowered_unasked() {
    let mut world = three();
    let list = |pain: &str| {
        format!(
            "Club number;Date;Exercise;Rung;Set 1;Context;Pain before\n101;2026-11-09;SC-1;b16;85 F7;home;{pain}\n"
        )
    };
    world.record(&world.read(&list("L4 R0")));
    assert_eq!(only(&world.read(&list("L1 R0"))).says, "import-takes-warning-back");
    assert!(world.read(&list("L5 R0")).is_ready());
    let blank = world.read(&list(""));
    assert!(blank.is_ready() && blank.counts.corrected == 0);
}

#[test]
fn a_time_that_a_spreadsheet_took_for_hours_is_explained() {
    use rust_xlsxwriter::{Format, Workbook};
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, header) in (0_u16..).zip(["Club number", "Date", "Exercise", "Rung", "Time", "End"]) {
        sheet.write(0, column, header).unwrap();
    }
    for (column, cell) in (0_u16..).zip(["101", "2026-11-09", "SC-1", "b16"]) {
        sheet.write(1, column, cell).unwrap();
    }
    // 1:30 typed into a spreadsheet is stored as an hour and a half: 90/1440 of a day.
    sheet.write_with_format(1, 4, 90.0 / 1440.0, &Format::new().set_num_format("h:mm")).unwrap();
    sheet.write(1, 5, "stop").unwrap();
    let preview = three().try_read(&book.save_to_buffer().unwrap(), None, &rested()).unwrap();
    let problem = only(&preview);
    assert_eq!(problem.says, "import-value-impossible");
    assert_eq!(problem.suggestion.as_ref().map(|said| said.id), Some("import-try-seconds"));
}

#[test]
fn nothing_is_known_of_a_swimmer_who_is_not_on_the_roster() {
    let preview = World::default()
        .read_with("Club number;Date;Exercise;Rung;Set 1\n101;2026-11-09;SC-1;b16;85 F7\n", &rested());
    assert_eq!(only(&preview).says, "import-swimmer-unknown-number");
    assert!(preview.facts.is_empty());
}
