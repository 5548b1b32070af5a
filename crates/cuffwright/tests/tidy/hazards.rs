//! Every hazard in the table names a mitigation and a test that is really there.

use super::sources::{File, files, top};

/// A row of the hazard table: number, hazard, mitigation, tests.
fn rows(text: &str) -> Vec<Vec<String>> {
    text.lines()
        .filter(|line| line.starts_with("| H"))
        .map(|line| line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect())
        .collect()
}

fn has_test(sources: &[File], name: &str) -> bool {
    let (file, function) = name.split_once("::").unwrap_or(("", name));
    sources
        .iter()
        .filter(|source| file.is_empty() || source.path.contains(file))
        .any(|source| source.text.contains(&format!("fn {function}(")) || source.path.ends_with(function))
}

#[test]
fn every_hazard_has_a_test_that_exists() {
    let text = std::fs::read_to_string(top().join("docs/hazards.md")).expect("docs/hazards.md is there");
    let rows = rows(&text);
    assert!(12 <= rows.len(), "the hazard table is missing or has lost rows: {}", rows.len());
    let mut sources = files("crates", &[".rs"]);
    sources.extend(files("stories", &[".toml"]));
    let mut numbers: Vec<&String> = Vec::new();
    for row in &rows {
        assert_eq!(row.len(), 4, "{row:?} has not four cells");
        assert!(row.iter().all(|cell| !cell.is_empty()), "{row:?} has an empty cell");
        assert!(!numbers.contains(&&row[0]), "{} stands twice", row[0]);
        numbers.push(&row[0]);
        let tests: Vec<&str> = row[3].split('`').skip(1).step_by(2).collect();
        assert!(!tests.is_empty(), "{} names no test", row[0]);
        for test in tests {
            assert!(has_test(&sources, test), "{}: the test `{test}` is gone", row[0]);
        }
    }
}
