//! The door at a desk with a real store: who comes in, who sees what, and what a person may ask of their own data.

#![expect(clippy::unwrap_used, reason = "a test ends at the first surprise, helpers included")]

mod accounts;
mod audit;
mod build;
mod canaries;
mod codes;
mod docs;
mod privacy;
mod sign_in;
mod views;

/// A file that is not in the list above would never run.
#[test]
fn every_file_here_is_part_of_the_suite() {
    let listed = include_str!("main.rs");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/door");
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let module = name.strip_suffix(".rs").unwrap();
        assert!(module == "main" || listed.contains(&format!("mod {module};")), "{name} is not listed");
    }
}
