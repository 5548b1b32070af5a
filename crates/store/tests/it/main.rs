//! What the store promises, through its public surface and through the file itself.

#![expect(clippy::unwrap_used, reason = "a test ends at the first surprise, helpers included")]

mod backup;
mod build;
mod chain;
mod corrections;
mod crash;
mod door;
mod erasure;
mod full;
mod gate;
mod import;
mod migrations;
mod orders;
mod refused_files;

/// A file that is not in the list above would never run.
#[test]
fn every_file_here_is_part_of_the_suite() {
    let listed = include_str!("main.rs");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/it");
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let module = name.strip_suffix(".rs").unwrap();
        assert!(module == "main" || listed.contains(&format!("mod {module};")), "{name} is not listed");
    }
}
