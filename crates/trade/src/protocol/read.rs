//! From TOML text to a protocol, or to *every* problem with its line and a hint.
//!
//! - [`problem`]: what can be wrong, as message ids for the text catalogue.
//! - `table`: walking a table, so that nothing in the file goes unread.
//! - `parameters`, `lists`, `exercise`, `rung`, `figure`, `start`: the parts of the file.
//! - `safety`: the limits no club may loosen.

mod exercise;
mod figure;
mod lists;
mod parameters;
pub mod problem;
mod rung;
mod safety;
mod start;
mod table;

use std::sync::{Arc, OnceLock};

use sha2::{Digest, Sha256};
use toml::de::DeTable;

use self::problem::Report;
use self::table::Table;
use super::Protocol;

pub use problem::{Message, Problem};

/// The protocol built into the program.
pub const SHIPPED_TEXT: &str = include_str!("../../protocol/default.toml");

/// The protocol built into the program, read once.
pub fn shipped() -> &'static Protocol {
    static SHIPPED: OnceLock<Protocol> = OnceLock::new();
    SHIPPED.get_or_init(|| {
        read(SHIPPED_TEXT).expect("a test proves that the shipped protocol reads without a problem")
    })
}

/// Reads a protocol file's bytes, as a club hands them in.
pub fn read_bytes(bytes: &[u8]) -> Result<Protocol, Vec<Problem>> {
    match std::str::from_utf8(bytes) {
        Ok(text) => read(text),
        Err(error) => {
            let valid = String::from_utf8_lossy(&bytes[..error.valid_up_to()]);
            let mut report = Report::new(&valid);
            report.add(&problem::NOT_TEXT, valid.len()..valid.len(), []);
            Err(report.into_problems())
        }
    }
}

/// Reads a protocol. What is returned has passed every check; otherwise every problem found is listed, in the
/// order of the file.
pub fn read(text: &str) -> Result<Protocol, Vec<Problem>> {
    let mut report = Report::new(text);
    let (root, errors) = DeTable::parse_recoverable(text);
    for error in errors {
        report.syntax(error.span().unwrap_or(0..0), error.message());
    }
    let protocol = walk(root.get_ref(), text, &mut report);
    match protocol {
        Some(protocol) if report.is_empty() => Ok(protocol),
        _ => Err(report.into_problems()),
    }
}

/// The parts of a file, in the order in which they are written.
const PARTS: &[&str] = &["protocol", "parameters", "fault", "source", "exercise", "start"];

fn walk(root: &DeTable<'_>, text: &str, report: &mut Report<'_>) -> Option<Protocol> {
    let root = Table::root(root, PARTS, report);
    let head = root.table("protocol", &["name", "title", "revision"], report);
    let name = head.as_ref().map(|head| head.text("name", report));
    let title = head.as_ref().map(|head| head.text("title", report));
    let revision = head.as_ref().map(|head| head.text("revision", report));
    let sources = lists::sources(&root, report);
    let known = lists::Known::new(&sources);
    let parameters = parameters::read(&root, &known, report);
    let faults = lists::faults(&root, report);
    let exercises = exercise::read(&root, &known, &faults, parameters.as_ref(), report);
    let starts = start::read(&root, &known, &exercises, report);
    Some(Protocol {
        name: name?,
        title: title?,
        revision: revision?,
        hash: hash_of(text),
        text: Arc::from(text),
        parameters: parameters?,
        faults,
        exercises,
        starts,
        sources,
    })
}

/// SHA-256 of a protocol's bytes, lower-case hexadecimal.
pub fn hash_of(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}
