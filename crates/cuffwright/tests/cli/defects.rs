//! The command line itself: usage, help, a reader that goes away, a disk that is full.

use std::process::Command;

use super::club::{asking, club};
use super::run::{Folder, cuffwright, nothing_starts, start};

#[test]
fn usage_is_explained_and_ends_with_two() {
    cuffwright(&["gate"]).ends_with(2).says(&["--store <FILE>"]);
    cuffwright(&["gaet"]).ends_with(2).says(&["gate"]);
    cuffwright(&[] as &[&str]).ends_with(2).says(&["Usage: cuffwright"]);
    cuffwright(&["log"]).ends_with(2).says(&["verify", "replay"]);
    cuffwright(&["gate", "--store", "x", "--on", "4.3.2026"])
        .ends_with(2)
        .says(&["write a day as 2026-03-09"]);
    cuffwright(&["gate", "--store", "x", "--on", "2026-02-30"]).ends_with(2);
    cuffwright(&["confirm", "M", "RC-1", "up", "left", "--by", "X", "--store", "x"])
        .ends_with(2)
        .says(&["write left, right, both or midline"]);
    let failure = cuffwright(&["gaet", "--json"]).ends_with(2).json("cuffwright.failure/1");
    assert_eq!(failure["kind"], "input");
}

#[test]
fn help_and_version_are_answers() {
    let help = cuffwright(&["--help"]).ends_with(0);
    assert!(help.err.is_empty() && help.out.contains("Exit codes"));
    assert!(!help.out.contains("--today"), "the option for tests is not shown");
    assert!(cuffwright(&["--version"]).ends_with(0).out.starts_with("cuffwright "));
    cuffwright(&["dose", "--help"]).ends_with(0).says(&["cuffwright.dose/1"]);
}

#[test]
fn no_colour_and_no_escape_stands_in_any_output() {
    let folder = Folder::new();
    let store = club(&folder);
    for arguments in [asking(&store, &["gate"]), asking(&store, &["dose"]), vec!["gaet"], vec!["--help"]] {
        let said = cuffwright(&arguments);
        assert!(!said.out.contains('\u{1b}') && !said.err.contains('\u{1b}'), "{said:?}");
    }
}

#[test]
fn what_a_name_holds_cannot_act_on_the_terminal() {
    let folder = Folder::new();
    let store = folder.path("club.cuff");
    let name = "A\u{1b}[31mB\u{202e}C";
    let said =
        cuffwright(&["init", "--store", &store, "--club", name, "--zone", "UTC", "--practitioner", "P"]);
    assert!(said.ends_with(0).out.contains("A\u{fffd}[31mB\u{fffd}C"));
    let said = cuffwright(&["gate", name, "--store", &store]).ends_with(3);
    assert!(!said.err.contains('\u{1b}') && !said.err.contains('\u{202e}'), "{said:?}");
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let guard = nothing_starts();
    let mut child = start(&["protocol", "show", "--json"]);
    drop(guard);
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert!(output.stderr.is_empty(), "{:?}", String::from_utf8_lossy(&output.stderr));
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_written_is_a_failure_of_storage() {
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let guard = nothing_starts();
    let output = Command::new(env!("CARGO_BIN_EXE_cuffwright"))
        .args(["protocol", "hash"])
        .stdout(full)
        .output()
        .unwrap();
    drop(guard);
    assert_eq!(output.status.code(), Some(5));
    assert!(String::from_utf8_lossy(&output.stderr).contains("The answer could not be written"));
}

#[cfg(unix)]
#[test]
fn arguments_that_are_not_text_are_refused_politely() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    let odd = OsStr::from_bytes(b"M\xfcller");
    let arguments = [OsStr::new("gate"), odd, OsStr::new("--store"), OsStr::new("x")];
    cuffwright(&arguments).ends_with(2);
    let store = [OsStr::new("gate"), OsStr::new("--store"), odd];
    cuffwright(&store).ends_with(3);
}
