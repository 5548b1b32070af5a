//! What can be wrong with a described week. The sentences stand in the text catalogue; here are their names.

use std::ops::Range;

/// One problem, with its place in the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Line, counted from one.
    pub line: usize,
    /// Character in that line, counted from one.
    pub column: usize,
    /// Message that says what is wrong.
    pub says: &'static str,
    /// Message that says what to do.
    pub hint: &'static str,
    /// Values for both messages.
    pub args: Vec<(&'static str, String)>,
}

/// One kind of problem: its message, its hint and the values both may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Message {
    /// Message that says what is wrong.
    pub says: &'static str,
    /// Message that says what to do.
    pub hint: &'static str,
    /// Names of the values.
    pub args: &'static [&'static str],
}

macro_rules! messages {
    ($($name:ident = $says:literal, [$($arg:literal),*];)+) => {
        $(pub(super) static $name: Message =
            Message { says: $says, hint: concat!($says, "-hint"), args: &[$($arg),*] };)+

        /// Every kind of problem, so that a test can compare them with the text catalogue.
        pub static MESSAGES: &[&Message] = &[$(&$name),+];
    };
}

messages! {
    SYNTAX = "described-syntax", ["detail"];
    UNKNOWN_KEY = "described-unknown-key", ["key", "within", "near", "allowed"];
    TWICE = "described-twice", ["key", "other"];
    MISSING = "described-missing", ["key", "within"];
    WRONG_TYPE = "described-wrong-type", ["key", "wanted", "found"];
    OUT_OF_RANGE = "described-out-of-range", ["key", "value", "allowed"];
    UNKNOWN_ZONE = "described-unknown-zone", ["zone", "near"];
    BAD_DAY = "described-bad-day", ["value"];
    DAY_OUTSIDE = "described-day-outside", ["value", "first", "last"];
    BAD_DATE = "described-bad-date", ["value"];
    BAD_TIME = "described-bad-time", ["value"];
    SKIPPED_TIME = "described-skipped-time", ["value"];
    BACKWARDS = "described-backwards", ["from", "to"];
    NO_END = "described-no-end", ["within"];
    TOO_LONG = "described-too-long", ["first", "last"];
    UNKNOWN_NAME = "described-unknown-name", ["kind", "name", "near", "known"];
    DUPLICATE = "described-duplicate", ["kind", "name"];
    OVERLAP = "described-overlap", ["group", "one", "other"];
    TOO_MANY = "described-too-many", ["kind", "count", "most"];
    BAD_GRADE = "described-bad-grade", ["value"];
    NO_GROUPS = "described-no-groups", [];
    AT_LEAST = "described-at-least", ["group", "at-least", "sessions"];
    BLANK_REASON = "described-blank-reason", [];
}

/// Most problems listed: a file with more is read again after these are mended.
const MOST: usize = 50;

/// Collects problems and turns places in the text into lines.
pub(super) struct Report<'t> {
    text: &'t str,
    lines: Vec<usize>,
    problems: Vec<(usize, Problem)>,
}

impl<'t> Report<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        let lines =
            std::iter::once(0).chain(text.match_indices('\n').map(|(newline, _)| newline + 1)).collect();
        Report { text, lines, problems: Vec::new() }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.problems.is_empty()
    }

    /// Adds a problem; the values stand in the order of the message's names.
    pub(super) fn add<const N: usize>(
        &mut self,
        message: &'static Message,
        at: Range<usize>,
        values: [String; N],
    ) {
        debug_assert_eq!(message.args.len(), N, "{}", message.says);
        let mut byte = at.start.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        let line = self.lines.partition_point(|begin| *begin <= byte);
        let begin = self.lines[line - 1];
        let column = self.text[begin..byte].chars().count() + 1;
        let args = message.args.iter().copied().zip(values).collect();
        self.problems.push((byte, Problem { line, column, says: message.says, hint: message.hint, args }));
    }

    /// Problems in the order of the file, each once.
    pub(super) fn into_problems(mut self) -> Vec<Problem> {
        self.problems.sort_by_key(|(at, _)| *at);
        let mut problems: Vec<Problem> = self.problems.into_iter().map(|(_, problem)| problem).collect();
        problems.dedup();
        problems.truncate(MOST);
        problems
    }
}

/// The known name nearest to a mistyped one, or `none`.
pub(super) fn nearest<'n>(word: &str, known: impl IntoIterator<Item = &'n str>) -> String {
    let word = word.to_lowercase();
    known
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(&word, &candidate.to_lowercase()), candidate))
        .filter(|(distance, candidate)| *distance <= 1.max(candidate.chars().count() / 3))
        .min()
        .map_or_else(|| "none".to_owned(), |(_, candidate)| candidate.to_owned())
}
