//! Code and text catalogue agree: every sentence that code names is there, and none is left over.

use std::collections::BTreeSet;

use fluent_bundle::FluentResource;

use super::sources::files;

/// Sentences whose names are put together at run time, by what they begin with.
const BUILT_NAMES: &[&str] = &[
    "act-",
    "see-as-name-",
    "seen-lede-",
    "erase-ground-",
    "cli-account-",
    "archive-kind-",
    // The live console's own: its modules are checked against the catalogue where they are embedded.
    "deckui-",
    "role-",
    "thing-",
    "action-",
    "availability-",
    "cli-part-",
    "column-",
    "due-kind-",
    "ends-by-",
    "kind-",
    "lack-",
    "owner-",
    "phase-",
    "sex-",
    "side-",
    "sign-",
    "requirement-",
    "prefer-",
    "offer-",
    "year-phase-",
    "weekday-",
    "week-grade-",
    "week-import-",
    "tag-",
    "urgency-",
    "end-",
    "context-",
    "consent-item-",
    "import-kind-",
    "ground-",
    "intake-question-",
    "measure-",
    "outcome-",
    "return-condition-",
    "rope-end-",
    "rope-mark-",
    "ask-",
    "change-",
    "flag-",
    "station-",
    "values-hollow-",
    "why-none-",
];

fn messages() -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for file in files("crates/app/text", &[".ftl"]) {
        let resource = FluentResource::try_new(file.text.clone())
            .unwrap_or_else(|(_, errors)| panic!("{} does not parse: {errors:?}", file.path));
        drop(resource);
        for line in file.text.lines() {
            if let Some((name, _)) = line.split_once(" =")
                && !name.starts_with(['#', ' ', '-', '['])
            {
                assert!(names.insert(name.to_owned()), "{}: {name} stands twice", file.path);
            }
        }
    }
    names
}

/// Every string literal in the code that looks like the name of a sentence.
fn literals() -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for file in files("crates", &[".rs"]) {
        if file.path.contains("/tests/") {
            continue;
        }
        for piece in file.text.split('"').skip(1) {
            let is_name = !piece.is_empty()
                && piece
                    .chars()
                    .all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-');
            if is_name {
                found.insert(piece.to_owned());
            }
        }
    }
    found
}

#[test]
fn no_sentence_is_left_over() {
    let literals = literals();
    let is_built = |name: &str| BUILT_NAMES.iter().any(|prefix| name.starts_with(prefix));
    // A hint is named after the problem it belongs to.
    let is_hint = |name: &str| name.strip_suffix("-hint").is_some_and(|problem| literals.contains(problem));
    let left_over: Vec<String> = messages()
        .into_iter()
        .filter(|name| !literals.contains(name) && !is_built(name) && !is_hint(name))
        .collect();
    assert!(left_over.is_empty(), "nothing says {left_over:?}");
}

#[test]
fn every_sentence_of_a_reason_is_there() {
    let messages = messages();
    for file in files("crates", &[".rs"]) {
        for call in ["Line::new(", "Problem::at(", "AppError::new("] {
            for piece in file.text.split(call).skip(1) {
                let until = piece.find(';').unwrap_or(piece.len()).min(400);
                let named = piece.get(..until).unwrap_or(piece).split('"').skip(1).step_by(2);
                let sentence = named.into_iter().find(|text| {
                    text.contains('-')
                        && text.starts_with(|letter: char| letter.is_ascii_lowercase())
                        && text.chars().all(|letter| {
                            letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-'
                        })
                });
                if let Some(sentence) = sentence
                    && !file.path.contains("/tests/")
                {
                    assert!(
                        messages.contains(sentence),
                        "{} says {sentence}, which is in no catalogue",
                        file.path
                    );
                }
            }
        }
    }
}
