//! Every module opens with a line that says what it is for; nothing unfinished, nothing oversized.

use super::sources::files;

/// Longest file without a sentence in its header that says why it is longer.
const LONGEST: usize = 500;
/// What such a sentence begins with.
const EXCUSE: &str = "//! Long because";

#[test]
fn every_module_says_what_it_is_for() {
    for file in files("crates", &[".rs"]) {
        assert!(file.text.starts_with("//! "), "{} opens without a header", file.path);
    }
}

#[test]
fn no_file_grows_past_reading_in_one_go() {
    for file in files("crates", &[".rs", ".css", ".js"]) {
        let lines = file.text.lines().count();
        assert!(lines <= LONGEST || file.text.contains(EXCUSE), "{} has {lines} lines", file.path);
    }
}

#[test]
fn nothing_is_left_unfinished() {
    // Written in pieces, so that this file does not find itself.
    let marks = [
        ["to", "do!("].concat(),
        ["unimpl", "emented!("].concat(),
        ["FIX", "ME"].concat(),
        ["#[ig", "nore"].concat(),
    ];
    for file in files("crates", &[".rs", ".css", ".js", ".ftl", ".toml"]) {
        for mark in &marks {
            assert!(!file.text.contains(mark.as_str()), "{} holds {mark}", file.path);
        }
    }
}
