//! What a command says when it did what was asked.

use serde::Serialize;

use super::exit::Exit;
use super::failure::Failure;
use super::page::Page;

/// The whole answer, as it goes to standard output.
#[derive(Debug)]
pub(crate) struct Answer {
    /// How the command ends.
    pub(crate) exit: Exit,
    /// What it says.
    pub(crate) text: String,
    /// What standard error says beside it, where the answer is a refusal with all its reasons.
    pub(crate) refusal: Option<Failure>,
}

impl Answer {
    /// An answer for people.
    pub(crate) fn page(exit: Exit, page: Page) -> Self {
        Self { exit, text: page.into_text(), refusal: None }
    }

    /// Nothing more to say.
    pub(crate) fn nothing() -> Self {
        Self { exit: Exit::Well, text: String::new(), refusal: None }
    }

    /// An answer for other programs. The value carries its own `shape`.
    pub(crate) fn json(exit: Exit, value: &impl Serialize) -> Self {
        Self { exit, text: json_text(value), refusal: None }
    }
}

/// Indented JSON with a line end.
pub(crate) fn json_text(value: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(value)
        .expect("answers hold texts, numbers and lists, which all have a JSON form");
    text.push('\n');
    text
}
