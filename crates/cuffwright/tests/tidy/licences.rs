//! Every crate we build on may be used under a permissive or file-level licence.

use cargo_metadata::MetadataCommand;

/// Licences we accept; an expression passes when one of its alternatives, or every part joined by AND, is here.
const ACCEPTED: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "CDLA-Permissive-2.0",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

fn accepted(expression: &str) -> bool {
    let plain = expression.replace(['(', ')'], "").replace('/', " OR ");
    plain.split(" OR ").any(|way| way.split(" AND ").all(|part| ACCEPTED.contains(&part.trim())))
}

#[test]
fn expressions_are_read_as_written() {
    assert!(accepted("MIT OR Apache-2.0"));
    assert!(accepted("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(!accepted("GPL-3.0-only"));
    assert!(!accepted("MIT AND GPL-3.0-only"));
}

#[test]
fn every_crate_is_licensed_permissively() {
    let metadata = MetadataCommand::new()
        .manifest_path(super::sources::top().join("Cargo.toml"))
        .exec()
        .expect("cargo describes the workspace and what it builds on");
    for package in &metadata.packages {
        let licence = package.license.as_deref().unwrap_or("none stated");
        assert!(accepted(licence), "{} {} is licensed {licence}", package.name, package.version);
    }
}
