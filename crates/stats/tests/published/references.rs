//! Reads `references/`: expected values by id, and data tables by column.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../references")
}

/// The folders that hold checks or data of this crate.
pub(crate) const FOLDERS: &[&str] = &[
    "bates-2015",
    "bland-altman-1986",
    "boice-monson-1977",
    "freireich-1963",
    "garwood-1936",
    "hopkins-2000",
    "lucas-crosier-1982",
    "lucas-saccucci-1990",
    "montgomery-cusum",
    "newcombe-1998",
    "printed-detectable-change",
    "shrout-fleiss-1979",
    "tobin-1958",
    "worked-change",
    "worked-charts",
    "worked-form-loss",
    "worked-rates",
];

struct Expected {
    values: Vec<Option<f64>>,
    relative: f64,
    absolute: f64,
}

fn expected() -> BTreeMap<String, Expected> {
    let mut all = BTreeMap::new();
    for folder in FOLDERS {
        let Ok(text) = fs::read_to_string(top().join(folder).join("checks.json")) else { continue };
        let rows: Vec<serde_json::Value> = serde_json::from_str(&text).expect("checks.json is a list");
        for row in rows {
            let number = |name: &str| row[name].as_f64().unwrap_or_else(|| panic!("{row} has no {name}"));
            let values = row["values"].as_array().expect("values are a list");
            let expected = Expected {
                values: values.iter().map(serde_json::Value::as_f64).collect(),
                relative: number("relative"),
                absolute: number("absolute"),
            };
            let id = row["id"].as_str().expect("an id is a string").to_owned();
            assert!(all.insert(id.clone(), expected).is_none(), "{id} stands twice");
        }
    }
    all
}

/// Compares computed values with the expected ones, at the tolerance that stands beside them.
pub(crate) fn check(id: &str, computed: &[f64]) {
    check_optional(id, &computed.iter().copied().map(Some).collect::<Vec<_>>());
}

/// The expected values themselves, for a comparison whose error is not the file's (simulations).
pub(crate) fn wanted(id: &str) -> Vec<f64> {
    let all = expected();
    let expected = all.get(id).unwrap_or_else(|| panic!("{id} is in no folder of references"));
    expected.values.iter().map(|value| value.expect("a number")).collect()
}

/// The same where "there is none" is a possible answer.
pub(crate) fn check_optional(id: &str, computed: &[Option<f64>]) {
    let all = expected();
    let expected = all.get(id).unwrap_or_else(|| panic!("{id} is in no folder of references"));
    assert_eq!(expected.values.len(), computed.len(), "{id}: as many values as expected");
    for (place, (want, got)) in expected.values.iter().zip(computed).enumerate() {
        match (want, got) {
            (None, None) => {}
            (Some(want), Some(got)) => {
                let allowed = (expected.relative * want.abs()).max(expected.absolute);
                assert!((want - got).abs() <= allowed, "{id}[{place}]: expected {want}, computed {got}");
            }
            _ => panic!("{id}[{place}]: expected {want:?}, computed {got:?}"),
        }
    }
}

/// A data table of a source: column names to cells, row by row.
pub(crate) fn table(folder: &str, file: &str) -> Vec<BTreeMap<String, String>> {
    let path = top().join(folder).join(file);
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let mut lines = text.lines();
    let names: Vec<&str> = lines.next().expect("a table has a head").split(',').collect();
    lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            assert_eq!(cells.len(), names.len(), "{folder}/{file}: {line}");
            names.iter().zip(cells).map(|(name, cell)| ((*name).to_owned(), cell.to_owned())).collect()
        })
        .collect()
}

/// One cell as a number.
pub(crate) fn number(row: &BTreeMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?} is no number"))
}

#[test]
fn every_expected_value_is_compared_by_some_test() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut tests = String::new();
    for entry in fs::read_dir(folder).expect("the tests are there").flatten() {
        tests.push_str(&fs::read_to_string(entry.path()).expect("a test is text"));
    }
    for id in expected().keys() {
        assert!(tests.contains(&format!("\"{id}\"")), "{id} is compared by no test");
    }
}

#[test]
fn the_list_of_what_was_checked_counts_rightly() {
    let page = fs::read_to_string(top().join("../docs/validation.md")).expect("the page is there");
    for folder in FOLDERS {
        let path = top().join(folder).join("checks.json");
        let Ok(text) = fs::read_to_string(path) else { continue };
        let rows: Vec<serde_json::Value> = serde_json::from_str(&text).expect("checks.json is a list");
        let n_values: usize = rows.iter().map(|row| row["values"].as_array().map_or(0, Vec::len)).sum();
        let line = format!("| `{folder}` | {} | {n_values} |", rows.len());
        assert!(page.contains(&line), "docs/validation.md does not say: {line}");
    }
}

#[test]
fn every_folder_says_what_it_is() {
    for folder in FOLDERS {
        let readme = fs::read_to_string(top().join(folder).join("README.md")).unwrap_or_default();
        for word in ["Source:", "Transcribed:", "Standing:", "Tolerance:"] {
            assert!(readme.contains(word), "references/{folder}/README.md does not say {word}");
        }
    }
}
