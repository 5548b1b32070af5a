//! What a command says when it did not do what was asked: message, hints, exit code.

use std::path::Path;

use app::error::AppError;
use app::facts::Problem;
use serde::Serialize;
use store::Error as StoreError;

use super::answer::json_text;
use super::exit::Exit;
use super::page::harmless;
use super::words::say;

/// A command that did not happen. Nothing was half-written.
#[derive(Debug)]
pub(crate) struct Failure {
    /// How the command ends.
    pub(crate) exit: Exit,
    /// What is wrong, in one sentence.
    message: String,
    /// What to do about it.
    hints: Vec<String>,
    /// Every single problem, where there are several.
    problems: Vec<Trouble>,
}

/// One problem at one place.
#[derive(Debug, Serialize)]
pub(crate) struct Trouble {
    /// Where.
    pub(crate) path: String,
    /// What.
    pub(crate) says: String,
}

/// The shape of a failure in JSON.
#[derive(Serialize)]
struct Shape<'a> {
    shape: &'static str,
    kind: &'static str,
    exit: u8,
    message: &'a str,
    hints: &'a [String],
    problems: &'a [Trouble],
}

impl Failure {
    /// A failure by its sentence in the text catalogue.
    pub(crate) fn new(exit: Exit, says: &str, values: &[(&str, String)]) -> Self {
        Self { exit, message: say(says, values), hints: Vec::new(), problems: Vec::new() }
    }

    /// Adds a hint without values.
    pub(crate) fn hint(self, says: &str) -> Self {
        self.hint_with(says, &[])
    }

    /// Adds a hint.
    pub(crate) fn hint_with(mut self, says: &str, values: &[(&str, String)]) -> Self {
        self.hints.push(say(says, values));
        self
    }

    /// Lists problems.
    pub(crate) fn list(mut self, problems: Vec<Trouble>) -> Self {
        self.problems = problems;
        self
    }

    /// What the parser of the command line has to say.
    pub(crate) fn usage(said: &clap::Error) -> Self {
        let text = said.to_string();
        let text = text.strip_prefix("error: ").unwrap_or(&text).trim_end();
        Self { exit: Exit::Input, message: text.to_owned(), hints: Vec::new(), problems: Vec::new() }
    }

    /// A store that cannot be opened or used; the sentence names the file.
    pub(crate) fn store(path: &Path, error: StoreError) -> Self {
        let file = path.display().to_string();
        let about = |exit, says, hint| Self::new(exit, says, &[("file", file.clone())]).hint(hint);
        match error {
            StoreError::Missing { .. } => {
                about(Exit::NotFound, "cli-store-missing", "cli-store-missing-hint")
            }
            StoreError::NotADatabase { .. } => {
                about(Exit::Storage, "cli-store-not-ours", "cli-store-not-ours-hint")
            }
            StoreError::OtherProgram { .. } => {
                about(Exit::Storage, "cli-store-other-program", "cli-store-other-program-hint")
            }
            StoreError::NewerSchema { .. } => about(Exit::Storage, "cli-store-newer", "cli-store-newer-hint"),
            StoreError::Corrupt { detail } => {
                // The engine may list many pages; the first line says enough for a person.
                let detail = detail.lines().next().unwrap_or_default().to_owned();
                Self::new(Exit::Storage, "cli-store-damaged", &[("file", file), ("detail", detail)])
                    .hint("cli-store-damaged-hint")
            }
            StoreError::InUse { pid, .. } => {
                let process = pid.map_or_else(|| say("cli-another-process", &[]), |pid| pid.to_string());
                Self::new(Exit::Storage, "cli-store-in-use", &[("file", file), ("process", process)])
                    .hint("cli-store-in-use-hint")
            }
            StoreError::AlreadyThere { path } => {
                let there = path.display().to_string();
                Self::new(Exit::Refused, "cli-already-there", &[("file", there)])
                    .hint("cli-already-there-hint")
            }
            StoreError::Io { path, source } => Self::file(&path, &source),
            other => {
                Self::new(Exit::Storage, "cli-store-failed", &[("file", file), ("detail", other.to_string())])
                    .hint("error-storage-hint")
            }
        }
    }

    /// A file that cannot be read or written.
    pub(crate) fn file(path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        let file = ("file", path.display().to_string());
        match error.kind() {
            ErrorKind::NotFound => {
                Self::new(Exit::NotFound, "cli-file-missing", &[file]).hint("cli-file-missing-hint")
            }
            _ => Self::new(Exit::Storage, "cli-file-failed", &[file, ("detail", error.to_string())])
                .hint("cli-file-failed-hint"),
        }
    }

    /// The message alone, for a place that has room for one line.
    pub(crate) fn in_one_line(&self) -> String {
        self.message.trim_end_matches('.').to_owned()
    }

    /// For a terminal.
    pub(crate) fn to_text(&self) -> String {
        let mut text = format!("cuffwright: {}\n", self.message);
        for Trouble { path, says } in &self.problems {
            let line = if path.is_empty() { format!("  {says}\n") } else { format!("  {path}: {says}\n") };
            text.push_str(&line);
        }
        for hint in &self.hints {
            text.push_str(&format!("hint: {hint}\n"));
        }
        harmless(&text)
    }

    /// For another program.
    pub(crate) fn to_json(&self) -> String {
        json_text(&Shape {
            shape: "cuffwright.failure/1",
            kind: self.exit.word(),
            exit: self.exit.code(),
            message: &self.message,
            hints: &self.hints,
            problems: &self.problems,
        })
    }
}

/// Problems of a payload or a file, in words.
pub(crate) fn troubles(problems: &[Problem]) -> Vec<Trouble> {
    problems
        .iter()
        .map(|problem| Trouble { path: problem.path.clone(), says: say(problem.says, &problem.args) })
        .collect()
}

impl From<AppError> for Failure {
    fn from(error: AppError) -> Self {
        let failure = Self::new(error.kind.into(), error.says, &error.args).list(troubles(&error.problems));
        match error.hint {
            Some(hint) => failure.hint_with(hint, &error.args),
            None => failure,
        }
    }
}
