//! `numbers`: the contract for outside checks of the statistics.

use std::fs;

use serde_json::Value;

use super::run::{Folder, Said, cuffwright, cuffwright_reading, repository};

fn asked(kind: &str, options: &[&str], table: &str) -> Said {
    let mut arguments = vec!["numbers", kind, "-", "--json"];
    arguments.extend(options);
    cuffwright_reading(&arguments, table.as_bytes())
}

#[track_caller]
fn near(value: &Value, expected: f64, within: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number, expected {expected}"));
    assert!((found - expected).abs() <= within, "{found}, expected {expected}");
}

fn reference(path: &str) -> String {
    fs::read_to_string(repository(&format!("references/{path}"))).unwrap()
}

#[track_caller]
fn named<'a>(list: &'a Value, key: &str, name: &str) -> &'a Value {
    let found = list.as_array().unwrap().iter().find(|one| one[key] == name);
    found.unwrap_or_else(|| panic!("no {name} in {list}"))
}

#[test]
fn ratings_wide_and_long_give_the_printed_correlations() {
    let wide = reference("shrout-fleiss-1979/ratings.csv");
    let json = asked("icc", &[], &wide).ends_with(0).json("cuffwright.numbers.icc/1");
    for (form, estimate, low, high) in [
        ("ICC(1,1)", 0.165742, -0.132932, 0.72256),
        ("ICC(2,1)", 0.289764, 0.018787, 0.761084),
        ("ICC(3,k)", 0.909316, 0.675675, 0.985892),
    ] {
        let icc = named(&json["icc"], "form", form);
        near(&icc["estimate"], estimate, 1e-5);
        near(&icc["low"], low, 1e-5);
        near(&icc["high"], high, 1e-5);
    }
    // The same as a long table, shuffled, with semicolons, decimal commas and other heads.
    let mut long = "Swimmer ;JUDGE; Rating\n".to_owned();
    let people: Vec<&str> = wide.lines().skip(1).collect();
    for (person, line) in people.into_iter().enumerate().rev() {
        for (judge, cell) in line.split(',').enumerate() {
            long.push_str(&format!("p{person};{judge};{cell},0\n"));
        }
    }
    let again = asked("icc", &[], &long).ends_with(0).json("cuffwright.numbers.icc/1");
    assert_eq!((&again["layout"], &again["icc"]), (&"long".into(), &json["icc"]));
}

#[test]
fn remissions_give_the_printed_curve_and_models() {
    let table = reference("freireich-1963/remission.csv");
    let json =
        asked("survival", &["--limits", "log"], &table).ends_with(0).json("cuffwright.numbers.survival/1");
    let arm = named(&json["groups"], "group", "6-MP");
    near(&arm["median"], 23.0, 0.0);
    near(&arm["curve"][6]["survival"], 0.448179, 1e-6);
    near(&json["log_rank"]["chi_square"], 16.792941, 1e-5);
    let json = asked("censored", &[], &table).ends_with(0).json("cuffwright.numbers.censored/1");
    let control = named(&json["estimates"], "name", "arm=control");
    near(&control["estimate"], -1.346847, 1e-5);
    near(&control["se"], 0.316498, 1e-5);
    near(&json["log_likelihood"], -106.704622, 1e-5);
    assert_eq!((&json["converged"], &json["n"], &json["events"]), (&true.into(), &42.into(), &30.into()));
    let json = asked("censored", &["--family", "weibull"], &table)
        .ends_with(0)
        .json("cuffwright.numbers.censored/1");
    near(&json["log_likelihood"], -106.579492, 1e-5);
}

#[test]
fn capped_sets_with_a_value_for_each_swimmer() {
    let table = reference("worked-form-loss/times.csv");
    let json = asked("censored", &[], &table).ends_with(0).json("cuffwright.numbers.censored/1");
    let week = named(&json["estimates"], "name", "week");
    // The reference counts weeks 0 and 1, this table 0 and 6.
    near(&Value::from(week["estimate"].as_f64().unwrap() * 6.0), 0.241, 0.0005);
    near(&json["group_sd"], 0.422, 0.0005);
    near(&json["scale"], 0.042, 0.0005);
    let without = &json["ignoring_groups"];
    near(&without["log_likelihood"], -79.762752, 1e-4);
    let robust = named(&without["estimates"], "name", "week")["robust_se"].as_f64().unwrap() * 6.0;
    near(&Value::from(robust), 0.04914, 1e-4);
    // Words, other heads, another order: the same answer to the last digit.
    let mut rows: Vec<String> = table.lines().skip(1).map(str::to_owned).collect();
    rows.reverse();
    let other = format!("ATHLETE\tWeek\tTime (s)\tForm Loss\n{}", rows.join("\n").replace(',', "\t"))
        .replace("\t1\n", "\tTRUE\n")
        .replace("\t0\n", "\tno\n");
    let again = asked("censored", &[], &other).ends_with(0).json("cuffwright.numbers.censored/1");
    assert_eq!(again["log_likelihood"], json["log_likelihood"]);
}

#[test]
fn the_sleep_study_by_both_criteria() {
    let table = reference("bates-2015/sleepstudy.csv");
    let json = asked("mixed", &["--slope", "days"], &table).ends_with(0).json("cuffwright.numbers.mixed/1");
    near(&json["criterion"], 1743.628272, 1e-3);
    near(&json["variance"]["slope"], 35.07166, 1e-3);
    near(&named(&json["estimates"], "name", "days")["se"], 1.545789, 1e-5);
    let json = asked("mixed", &["--ml"], &table).ends_with(0).json("cuffwright.numbers.mixed/1");
    near(&json["deviance"], 1794.078643, 1e-3);
    assert_eq!(json["method"], "ml");
}

#[test]
fn rates_and_shares_with_exact_limits() {
    let table = "group,events,exposure\nexposed,41,28010\nunexposed,15,19017\n";
    let json = asked("rate", &[], table).ends_with(0).json("cuffwright.numbers.rate/1");
    near(&json["ratio"]["ratio"], 1.855759, 1e-5);
    near(&json["ratio"]["low"], 1.005684, 1e-5);
    near(&json["ratio"]["high"], 3.6093, 1e-4);
    let turned = "group,events,exposure\nunexposed,15,19017\nexposed,41,28010\n";
    assert_eq!(asked("rate", &[], turned).json("cuffwright.numbers.rate/1"), json);
    let json = asked("rate", &["--per", "1"], "Injuries;Hours\n5;1\n")
        .ends_with(0)
        .json("cuffwright.numbers.rate/1");
    near(&json["low"], 1.6235, 1e-4);
    near(&json["high"], 11.6683, 1e-4);
    let none = asked("rate", &[], "events,exposure,group\n3,900,a\n0,850,b\n")
        .ends_with(0)
        .json("cuffwright.numbers.rate/1");
    let ratio = &none["ratios"][0];
    assert_eq!(
        (&ratio["group"], &ratio["reference"], &ratio["high"]),
        (&"a".into(), &"b".into(), &Value::Null)
    );
    near(&ratio["low"], 0.390274, 1e-5);
    let json = asked("rate", &[], "events,people\n81,263\n").ends_with(0).json("cuffwright.numbers.rate/1");
    near(&json["low"], 0.255289, 1e-6);
    near(&json["high"], 0.36621, 1e-5);
}

#[test]
fn a_line_with_and_without_known_parameters() {
    let table = reference("montgomery-cusum/readings.csv");
    let json = asked("chart", &["--h", "5"], &table).ends_with(0).json("cuffwright.numbers.chart/1");
    near(&json["series"][0]["points"][28]["c_plus"], 2.625125, 1e-5);
    assert_eq!(json["series"][0]["first_signal"], Value::Null);
    let known = asked("chart", &["--h", "5", "--target", "10", "--sigma", "1"], &table).ends_with(0);
    let known = known.json("cuffwright.numbers.chart/1");
    let first = &known["series"][0]["first_signal"];
    assert_eq!(
        (&first["at"], &first["direction"], &first["change_after"]),
        (&29.into(), &"up".into(), &22.into())
    );
    near(&json["false_alarms"]["chance_each"], 0.0947, 0.006);
    asked("chart", &["--target", "10"], &table).ends_with(2);
}

#[test]
fn data_without_an_answer_are_told_so() {
    for (kind, table, reason) in [
        ("censored", "seconds,event\n90,0\n90,0\n", "all-censored"),
        ("censored", "seconds,event\n", "empty"),
        ("censored", "seconds,event\n50,1\n50,1\n50,1\n", "no-spread"),
        ("censored", "seconds,event,load\n30,1,1\n40,1,1\n60,0,1\n", "collinear"),
        ("censored", "seconds,event,squad\n30,1,a\n44,1,a\n51,1,a\n90,0,b\n90,0,b\n", "runs-away"),
        ("icc", "a,b\n1,2\n", "too-few"),
        ("icc", "a,b\n1,1\n2,2\n3,3\n", "perfect-fit"),
        ("icc", "a,b\n4,4\n4,4\n", "no-spread"),
        ("mixed", "value,group\n1,a\n2,a\n3,a\n", "too-few"),
        ("mixed", "value,group\n1,a\n2,b\n4,c\n", "not-separable"),
        ("rate", "events,exposure\n3,0\n", "no-exposure"),
        ("survival", "seconds,event\nNA,1\n", "empty"),
    ] {
        let json = asked(kind, &[], table).ends_with(1).json(&format!("cuffwright.numbers.{kind}/1"));
        assert_eq!((&json["reason"], &json["converged"]), (&reason.into(), &false.into()), "{kind} {table}");
        assert!(!json["says"].as_str().unwrap().is_empty());
    }
    // One swimmer: the model stands without a spread between, and says why.
    let one = "swimmer,seconds,event\nA,30,1\nA,44,1\nA,61,0\n";
    let json = asked("censored", &[], one).ends_with(0).json("cuffwright.numbers.censored/1");
    assert_eq!(json["notes"], serde_json::json!(["too-few"]));
    // A column that only counts rows, as R writes one, or a second name explains nothing.
    let named = "\"\",swimmer,id,seconds,event\n1,A,7,30,1\n2,A,8,44,1\n3,B,9,61,0\n4,B,10,52,1\n";
    let json = asked("censored", &[], named).ends_with(0).json("cuffwright.numbers.censored/1");
    assert_eq!(json["estimates"].as_array().unwrap().len(), 1, "{json}");
    assert_eq!((&json["group_column"], &json["not_used"]), (&"swimmer".into(), &serde_json::json!(["id"])));
    // A number that is none counts as missing; the row is left out, and counted.
    let json = asked("censored", &[], "seconds,event\n30,1\nNaN,1\n44,1\n61,0\n,0\n").ends_with(0);
    assert_eq!(json.json("cuffwright.numbers.censored/1")["left_out"], 2);
}

#[test]
fn tables_that_cannot_be_read_are_refused_with_their_place() {
    for (kind, table, parts) in [
        ("censored", "", &["no table"][..]),
        ("censored", "name\nx\n", &["no column", "seconds"]),
        ("censored", "seconds,event\n0,1\n", &["line 2, seconds", "a time lies above zero"]),
        (
            "censored",
            "seconds,event\ninf,1\nten,0\n",
            &["line 2, seconds", "line 3, seconds", "not a number"],
        ),
        ("censored", "seconds,event\n10,2\n", &["line 2, event"]),
        ("rate", "events,exposure\n1.5,10\n", &["not a count"]),
        ("icc", "subject,rater,value\na,x,1\na,x,2\n", &["rated the same one twice"]),
        ("mixed", "value,group,Value\n1,a,2\n", &["two columns"]),
        ("survival", "seconds,event\n10,1,5\n", &["has 3 cells"]),
    ] {
        let said = cuffwright_reading(&["numbers", kind, "-"], table.as_bytes()).ends_with(2).says(parts);
        assert!(said.err.contains("hint:"), "{said:?}");
    }
    let folder = Folder::new();
    cuffwright(&["numbers", "icc", &folder.path("none.csv")]).ends_with(3);
    cuffwright_reading(&["numbers", "icc", "-"], b"a\0b").ends_with(2);
    cuffwright(&["numbers", "icc", "-", "--level", "1.5%"]).ends_with(2);
}

#[test]
fn every_example_of_the_page_is_answered() {
    let page = fs::read_to_string(repository("examples/numbers/README.md")).unwrap();
    let mut ran = 0;
    for line in page.lines().filter_map(|line| line.trim().strip_prefix("cuffwright ")) {
        let arguments: Vec<String> = line
            .split(' ')
            .map(|part| {
                if part.starts_with("examples/") {
                    repository(part).display().to_string()
                } else {
                    part.to_owned()
                }
            })
            .collect();
        cuffwright(&arguments).ends_with(0);
        ran += 1;
    }
    assert_eq!(ran, 8);
}

// What the page says comes back, comes back.
#[test]
fn the_page_names_every_field() {
    let page = fs::read_to_string(repository("docs/numbers.md")).unwrap();
    let examples = |name: &str| repository(&format!("examples/numbers/{name}")).display().to_string();
    for (kind, file) in [
        ("icc", "reliability.csv"),
        ("survival", "two-squads.csv"),
        ("censored", "set-times.csv"),
        ("mixed", "strength.csv"),
        ("rate", "rates.csv"),
        ("rate", "prevalence.csv"),
        ("chart", "chart.csv"),
    ] {
        let json = cuffwright(&["numbers", kind, &examples(file), "--json"])
            .json(&format!("cuffwright.numbers.{kind}/1"));
        for key in json.as_object().unwrap().keys() {
            let known =
                ["shape", "k", "h", "n"].contains(&key.as_str()) || page.contains(&format!("`{key}`"));
            assert!(known, "docs/numbers.md does not name {key} of {kind}");
        }
    }
}
