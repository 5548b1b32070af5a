//! Arrows between crates point only downward, and the pure crates know nothing of the edge.

use std::collections::{BTreeMap, BTreeSet};

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand};

/// What each crate may use of the project itself.
const ALLOWED: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("mechanics", &["quantity"]),
    ("picture", &["quantity", "mechanics"]),
    ("stats", &[]),
    ("cutting", &[]),
    ("trade", &["quantity"]),
    ("schedule", &[]),
    ("store", &[]),
    // The door decides over values and the store keeps rows; neither knows the other, and `app` brings them together.
    ("door", &[]),
    ("app", &["quantity", "mechanics", "cutting", "stats", "trade", "schedule", "store", "door"]),
    (
        "cuffwright",
        &["quantity", "mechanics", "picture", "stats", "trade", "schedule", "store", "door", "app"],
    ),
];

/// What each pure crate may use from outside. Adding a name here is a decision: no clock, file, socket, database or
/// randomness belongs below the edge.
const PURE: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("mechanics", &["nalgebra", "statrs"]),
    ("picture", &["maud"]),
    ("stats", &["libm", "nalgebra", "statrs"]),
    // The solver measures its own time limit; nothing else in there knows a clock.
    ("cutting", &["good_lp"]),
    ("trade", &["jiff", "toml", "sha2", "strsim"]),
    // Two solvers: integer programs for the week, constraints for the rota. Both are handed their time limit.
    (
        "schedule",
        &[
            "good_lp",
            "jiff",
            "pumpkin-conflict-resolvers",
            "pumpkin-constraints",
            "pumpkin-core",
            "pumpkin-propagators",
            "strsim",
            "toml",
        ],
    ),
];

fn metadata() -> Metadata {
    MetadataCommand::new()
        .manifest_path(super::sources::top().join("Cargo.toml"))
        .no_deps()
        .exec()
        .expect("cargo describes the workspace")
}

fn uses(metadata: &Metadata) -> BTreeMap<String, BTreeSet<String>> {
    metadata
        .packages
        .iter()
        .map(|package| {
            let names = package
                .dependencies
                .iter()
                .filter(|dependency| dependency.kind == DependencyKind::Normal)
                .map(|dependency| dependency.name.clone())
                .collect();
            (package.name.to_string(), names)
        })
        .collect()
}

#[test]
fn every_arrow_points_downward() {
    let uses = uses(&metadata());
    let ours: BTreeSet<&String> = uses.keys().collect();
    let listed: BTreeSet<String> = ALLOWED.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(ours.into_iter().cloned().collect::<BTreeSet<_>>(), listed, "a crate has no place in ALLOWED");
    for (name, allowed) in ALLOWED {
        for used in &uses[*name] {
            let is_ours = listed.contains(used);
            assert!(!is_ours || allowed.contains(&used.as_str()), "{name} may not use {used}");
        }
    }
}

#[test]
fn pure_crates_use_only_what_is_listed() {
    let uses = uses(&metadata());
    for (name, outside) in PURE {
        let ours = ALLOWED.iter().find(|(listed, _)| listed == name).map_or(&[][..], |(_, ours)| *ours);
        for used in &uses[*name] {
            assert!(
                outside.contains(&used.as_str()) || ours.contains(&used.as_str()),
                "{name} is pure and may not use {used}"
            );
        }
    }
}
