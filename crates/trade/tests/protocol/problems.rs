//! One file with many mistakes: each is named, at its line, and none besides.

use trade::protocol::read::{SHIPPED_TEXT, read, read_bytes};

/// A change of the shipped file, and the problem it makes on the changed line.
#[rustfmt::skip]
const MISTAKES: &[(&str, &str, &str)] = &[
    ("rest_s = { value = 30", "rets_s = { value = 30", "protocol-unknown-key rets_s near rest_s"),
    ("sets = { value = 3,", "sets = { value = 2.5,", "protocol-not-whole"),
    ("max_exercises = { value = 5, mark = \"published\", source = \"tavares2022\" }", "max_exercises = { value = 5, mark = \"published\" }", "protocol-missing-source"),
    ("newcomer_days = { value = 42", "newcomer_days = { value = nan", "protocol-not-finite"),
    ("plateau_sessions = { value = 6", "plateau_sessions = { value = \"six\"", "protocol-wrong-type"),
    ("teaching_s = { value = [20, 30]", "teaching_s = { value = [30, 20]", "protocol-not-ascending"),
    ("sessions_week = { value = [3, 2, 1]", "sessions_week = { value = [3, 2]", "protocol-wrong-count"),
    ("code = \"F13\"", "code = \"F12\"", "protocol-duplicate"),
    ("faults = [\"F06\", \"F07\", \"F02\", \"F01\", \"F03\", \"F09\", \"F05\"]", "faults = [\"F66\"]", "protocol-unknown-name fault F66"),
    ("source = \"ha2013\"", "source = \"ha2014\"", "protocol-unknown-name source ha2014 near ha2013"),
    ("{ id = \"b16\", name = \"16 N at double length\", band_n = 16 }", "{ id = \"b16\", name = \"16 N at double length\", band_n = 12 }", "protocol-load-order"),
    ("group = \"balance\"", "group = \"balence\"", "protocol-unknown-word balence near balance"),
    ("tempo = \"circles 15\"", "tempo = \"circling\"", "protocol-bad-tempo"),
    ("RC-4 = \"c-ball60\"", "RC-4 = \"c-ball61\"", "protocol-unknown-name rung near c-ball60"),
    ("group = \"masters\"\nsets = 2", "group = \"masters\"\nsets = 9", "protocol-out-of-range"),
];

#[test]
fn every_mistake_is_named_at_its_line_and_nothing_besides() {
    let mut text = SHIPPED_TEXT.to_owned();
    for (from, to, _) in MISTAKES {
        let at = text.find(from).unwrap_or_else(|| panic!("the file has no {from}"));
        text.replace_range(at..at + from.len(), to);
    }
    // Changes keep the number of lines, so that each stands where the shipped text stood. Two mistakes have
    // consequences elsewhere: the misspelt key leaves its own key missing, reported where the table begins, and
    // with F13 gone the two exercises that name it point at nothing.
    let line_of = |text: &str, piece: &str| {
        let at = text.find(piece).unwrap_or_else(|| panic!("no {piece}"));
        text[..at].matches('\n').count() + 1
    };
    let mut wanted: Vec<(usize, &str)> = MISTAKES
        .iter()
        .map(|(_, to, says)| {
            let piece = if to.starts_with("group = \"masters\"") { "sets = 9" } else { to };
            let line = if to.starts_with("code") {
                line_of(SHIPPED_TEXT, "code = \"F13\"")
            } else {
                line_of(&text, piece)
            };
            (line, says.split(' ').next().unwrap_or_default())
        })
        .collect();
    wanted.push((line_of(&text, "[parameters]"), "protocol-missing-key"));
    for (index, line) in text.lines().enumerate() {
        if line.starts_with("faults = ") && line.contains("\"F13\"") {
            wanted.push((index + 1, "protocol-unknown-name"));
        }
    }
    wanted.sort_unstable();

    let problems = read(&text).expect_err("there are mistakes");
    let mut found: Vec<(usize, &str)> = problems.iter().map(|problem| (problem.line, problem.says)).collect();
    assert!(found.is_sorted_by_key(|(line, _)| *line), "problems stand in the order of the file");
    found.sort_unstable();
    assert_eq!(found, wanted, "{problems:#?}");

    // What is meant is suggested.
    for (_, _, says) in MISTAKES {
        if let Some((_, near)) = says.split_once(" near ") {
            let suggested = |problem: &trade::protocol::Problem| {
                problem.args.iter().any(|(name, value)| *name == "near" && value == near)
            };
            assert!(problems.iter().any(suggested), "{near} is suggested");
        }
    }
}

/// A small file: what is wrong with it, as `line:column message`.
fn listed(text: &str) -> Vec<String> {
    let problems = read(text).err().unwrap_or_default();
    problems.iter().map(|problem| format!("{}:{} {}", problem.line, problem.column, problem.says)).collect()
}

#[test]
fn an_empty_file_lacks_every_part() {
    assert_eq!(listed(""), vec!["1:1 protocol-missing-key"; 6]);
}

#[test]
fn syntax_errors_are_all_listed_and_hide_what_only_follows_from_them() {
    let text = "[protocol]\nname = \nrevision = \"1\ntitle = \"t\"\nother = 1\n";
    assert_eq!(
        listed(text),
        ["2:8 protocol-syntax", "3:14 protocol-syntax", "5:1 protocol-unknown-key"],
        "what seems missing may stand in the broken lines"
    );
}

#[test]
fn a_doubled_key_is_an_error_of_its_own_line() {
    let text = SHIPPED_TEXT.replace("revision = \"2026.1\"", "revision = \"2026.1\"\nname = \"again\"");
    let problems = listed(&text);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].ends_with("protocol-syntax"), "{problems:?}");
}

#[test]
fn columns_count_characters_not_bytes() {
    let line = "cap_s = { value = 120, \"ä\" = 1, mark = 2 }";
    let text =
        SHIPPED_TEXT.replace("\ncap_s = { value = 120, mark = \"core practice\" }", &format!("\n{line}"));
    let columns: Vec<String> = listed(&text)
        .iter()
        .filter_map(|line| line.split_once(':').map(|(_, rest)| rest.to_owned()))
        .collect();
    // The key is the 24th character of the line, the number two the 40th (and the 41st byte).
    assert_eq!(columns, ["24 protocol-unknown-key", "40 protocol-wrong-type"]);
}

#[test]
fn a_mark_of_practice_may_not_borrow_a_source() {
    let text = SHIPPED_TEXT.replace(
        "cue_grace_s = { value = 5, mark = \"common practice\" }",
        "cue_grace_s = { value = 5, mark = \"common practice\", source = \"feijen2021\" }",
    );
    let problems = listed(&text);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].ends_with("protocol-needless-source"));
}

#[test]
fn numbers_that_do_not_go_together_are_named() {
    for (from, to) in [
        ("n_qualify = { value = 1", "n_qualify = { value = 3"),
        ("side_diff_strength_adapt_pct = { value = 15", "side_diff_strength_adapt_pct = { value = 25"),
        ("deload_cap_s = { value = 60", "deload_cap_s = { value = 90"),
    ] {
        let text = SHIPPED_TEXT.replace(from, to).replace("cap_s = { value = 120", "cap_s = { value = 100");
        let text = if from.starts_with("deload") {
            text.replace("\ncap_s = { value = 100", "\ncap_s = { value = 80")
                .replace("growth_cap_s = { value = 90", "growth_cap_s = { value = 80")
        } else {
            text
        };
        let problems = listed(&text);
        assert_eq!(problems.len(), 1, "{to}: {problems:?}");
        assert!(problems[0].ends_with("protocol-disagree"), "{to}: {problems:?}");
    }
}

#[test]
fn a_start_table_must_have_a_row_for_everybody() {
    let begin = SHIPPED_TEXT.find("# From 40 years.").expect("the masters' row");
    let end = SHIPPED_TEXT[begin..].find("# ----").expect("the references follow") + begin;
    let text = format!("{}{}", &SHIPPED_TEXT[..begin], &SHIPPED_TEXT[end..]);
    let problems = listed(&text);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].ends_with("protocol-start-missing"));
}

#[test]
fn ladders_are_neither_empty_nor_useless_and_a_rung_says_once_what_resists() {
    let cases = [
        (
            "{ id = \"p9\", name = \"floor, one foot lifted\", load = \"position\" }",
            "{ id = \"p9\", name = \"floor\" }",
            "protocol-rung-load",
        ),
        ("band_n = 55 }", "band_n = 55, weight_kg = 1 }", "protocol-rung-load"),
        ("{ id = \"p9\"", "{ id = \"p8\"", "protocol-duplicate"),
        ("{ id = \"p9\"", "{ id = \"p 9\"", "protocol-bad-id"),
        (
            "hypermobile = { start = \"p2\", top = \"p5\"",
            "hypermobile = { start = \"p5\", top = \"p2\"",
            "protocol-track-order",
        ),
        (
            "plain_dose = \"30 s, 3 times, 3 to 5 times a week\"",
            "ladder = [{ id = \"a\", name = \"a\", load = \"position\" }]\nplain_dose = \"30 s\"",
            "protocol-ladder-on-plain",
        ),
        (
            "weight_kg = 2.2, not_heavier = true, tempo = \"3/0/3\"",
            "weight_kg = 2.2, not_heavier = false, tempo = \"3/0/3\"",
            "protocol-load-order",
        ),
        (
            "weight_kg = 1.0, not_heavier = true, tempo = \"2/3/2\"",
            "weight_kg = 1.5, from_age = 15, not_heavier = true, tempo = \"2/3/2\"",
            "protocol-heavier",
        ),
        ("rungs = { RC-1 = \"b10\"", "rungs = { FL-1 = \"b10\", RC-1 = \"b10\"", "protocol-start-plain"),
        ("\"elbows on wall sliding\"", "\"elbows at wall\"", "protocol-figure-contact"),
        ("wall_m = 0.37\n", "", "protocol-figure-needs"),
        ("view = [128, 12]", "view = [128, 12, 3]", "protocol-wrong-count"),
        ("working-arm = { rotation = 35 }", "working-arm = { rotation = 235 }", "protocol-out-of-range"),
        ("working-arm = { rotation = 35 }", "working-arm = { knee = 35 }", "protocol-unknown-key"),
        ("rungs = [\"p1\", \"p2\"]", "rungs = [\"p1\", \"p0\"]", "protocol-unknown-name"),
        ("purpose = \"The back of the shoulder.\"", "purpose = \" \"", "protocol-empty"),
        (
            "loads = \"no-shoulder\"\ntags = [\"overhead\"]",
            "loads = \"no-shoulder\"\ntags = [\"overhead\"]\nplain_dose = 3",
            "protocol-wrong-type",
        ),
        (
            "name = \"one leg\", load = \"position\"",
            "name = \"one leg\", weight_kg = 0.5, tags = [\"weight\"]",
            "protocol-loaded-no-shoulder",
        ),
    ];
    for (from, to, says) in cases {
        assert!(SHIPPED_TEXT.contains(from), "the file has no {from}");
        let problems = listed(&SHIPPED_TEXT.replacen(from, to, 1));
        assert_eq!(problems.len(), 1, "{to}: {problems:?}");
        assert!(problems[0].ends_with(says), "{to}: {problems:?}");
    }
}

#[test]
fn a_timed_exercise_without_rungs_is_named_and_so_is_what_pointed_at_them() {
    let begin = SHIPPED_TEXT.find("  { id = \"p1\"").expect("the first rung of the push-up");
    let end = SHIPPED_TEXT[begin..].find("\n]\n").expect("the end of the ladder") + begin;
    let text = format!("{}{}", &SHIPPED_TEXT[..begin], &SHIPPED_TEXT[end + 1..]);
    let problems = listed(&text);
    let count = |says: &str| problems.iter().filter(|problem| problem.ends_with(says)).count();
    assert_eq!(count("protocol-ladder-empty"), 1);
    assert_eq!(
        count("protocol-unknown-name"),
        3 + 8 + 6,
        "start and top of the lax track, top of the growth hold, eight rows, and six rungs drawn by themselves"
    );
    assert_eq!(problems.len(), 18, "{problems:?}");
}

#[test]
fn bytes_that_are_no_text_are_refused_where_they_begin() {
    let problems = read_bytes(b"[protocol]\nname = \"\xff\"").expect_err("not UTF-8");
    assert_eq!((problems[0].line, problems[0].column, problems[0].says), (2, 9, "protocol-not-text"));
    assert!(read_bytes(SHIPPED_TEXT.as_bytes()).is_ok());
}
