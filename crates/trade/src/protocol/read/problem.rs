//! What can be wrong with a protocol file. The sentences stand in the text catalogue; here are their names.

use std::collections::BTreeSet;
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
    /// Message that says what to do, or why the limit stands.
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
    NOT_TEXT = "protocol-not-text", [];
    SYNTAX = "protocol-syntax", ["detail"];
    UNKNOWN_KEY = "protocol-unknown-key", ["key", "within", "near", "allowed"];
    MISSING_KEY = "protocol-missing-key", ["key", "within"];
    MISSING_SOURCE = "protocol-missing-source", ["within"];
    NEEDLESS_SOURCE = "protocol-needless-source", ["mark", "within"];
    WRONG_TYPE = "protocol-wrong-type", ["key", "wanted", "found"];
    EMPTY = "protocol-empty", ["key", "within"];
    NOT_FINITE = "protocol-not-finite", ["key"];
    NOT_WHOLE = "protocol-not-whole", ["key", "value"];
    WRONG_COUNT = "protocol-wrong-count", ["key", "wanted", "found"];
    OUT_OF_RANGE = "protocol-out-of-range", ["key", "value", "allowed"];
    FIXED_LIMIT = "protocol-fixed-limit", ["key", "value", "allowed"];
    NOT_ASCENDING = "protocol-not-ascending", ["key"];
    DISAGREE = "protocol-disagree", ["key", "value", "other", "limit"];
    UNKNOWN_WORD = "protocol-unknown-word", ["key", "word", "near", "allowed"];
    UNKNOWN_NAME = "protocol-unknown-name", ["kind", "name", "near"];
    DUPLICATE = "protocol-duplicate", ["kind", "name", "first"];
    BAD_ID = "protocol-bad-id", ["name"];
    BAD_TEMPO = "protocol-bad-tempo", ["value"];
    TEMPO_LIMIT = "protocol-tempo-limit", ["where", "value", "allowed"];
    LADDER_EMPTY = "protocol-ladder-empty", ["exercise"];
    LADDER_ON_PLAIN = "protocol-ladder-on-plain", ["exercise"];
    RUNG_LOAD = "protocol-rung-load", ["where", "found"];
    LOAD_ORDER = "protocol-load-order", ["where", "before"];
    HEAVIER = "protocol-heavier", ["where"];
    LOAD_TAG = "protocol-load-tag", ["where", "tag"];
    SCAPTION = "protocol-scaption", ["where", "kg", "lb", "limit-kg", "limit-lb"];
    PRONE = "protocol-prone", ["where", "kg", "limit-kg"];
    NINETY = "protocol-ninety", ["where"];
    CLOSED_CHAIN = "protocol-closed-chain", ["exercise"];
    LOADED_NO_SHOULDER = "protocol-loaded-no-shoulder", ["where"];
    LOADS_CONTRADICT = "protocol-loads-contradict", ["exercise", "arms", "loads"];
    STRETCH_ON_TRACK = "protocol-stretch-on-track", ["exercise"];
    TRACK_ORDER = "protocol-track-order", ["exercise", "start", "top"];
    OWN_CAP = "protocol-own-cap", ["exercise", "value", "limit"];
    PAIN_AS_FAULT = "protocol-pain-as-fault", ["exercise"];
    START_MISSING = "protocol-start-missing", ["group"];
    FIGURE_CONTACT = "protocol-figure-contact", ["words"];
    FIGURE_NEEDS = "protocol-figure-needs", ["where", "key"];
    START_PLAIN = "protocol-start-plain", ["exercise"];
}

/// Collects problems and turns places in the text into lines.
pub(super) struct Report<'t> {
    text: &'t str,
    /// Where each line begins.
    lines: Vec<usize>,
    problems: Vec<(usize, Problem)>,
    /// Lines that are not TOML: what else seems wrong there only follows from that.
    broken: BTreeSet<usize>,
}

impl<'t> Report<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        let lines =
            std::iter::once(0).chain(text.match_indices('\n').map(|(newline, _)| newline + 1)).collect();
        Report { text, lines, problems: Vec::new(), broken: BTreeSet::new() }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.problems.is_empty()
    }

    /// Line and character of a byte, both counted from one.
    pub(super) fn place(&self, at: usize) -> (usize, usize) {
        let mut at = at.min(self.text.len());
        while !self.text.is_char_boundary(at) {
            at -= 1;
        }
        let line = self.lines.partition_point(|begin| *begin <= at);
        let begin = self.lines[line - 1];
        (line, self.text[begin..at].chars().count() + 1)
    }

    /// Adds a problem; the values stand in the order of the message's names.
    pub(super) fn add<const N: usize>(
        &mut self,
        message: &'static Message,
        at: Range<usize>,
        values: [String; N],
    ) {
        self.add_because(message, message.hint, at, values);
    }

    /// Adds a problem whose hint is a reason of its own.
    pub(super) fn add_because<const N: usize>(
        &mut self,
        message: &'static Message,
        hint: &'static str,
        at: Range<usize>,
        values: [String; N],
    ) {
        debug_assert_eq!(message.args.len(), N, "{}", message.says);
        let (line, column) = self.place(at.start);
        let args = message.args.iter().copied().zip(values).collect();
        self.problems.push((at.start, Problem { line, column, says: message.says, hint, args }));
    }

    /// Adds a syntax error; one a line, since the rest of a line usually follows from the first.
    pub(super) fn syntax(&mut self, at: Range<usize>, detail: &str) {
        let (line, _) = self.place(at.start);
        if self.broken.insert(line) {
            self.add(&SYNTAX, at, [detail.to_owned()]);
        }
    }

    /// All problems in the order of the file. Beside a syntax error nothing is called missing, since what seems
    /// missing may stand in the line that could not be read.
    pub(super) fn into_problems(mut self) -> Vec<Problem> {
        let missing = [MISSING_KEY.says, MISSING_SOURCE.says, START_MISSING.says];
        let broken = &self.broken;
        self.problems.retain(|(_, problem)| {
            problem.says == SYNTAX.says
                || broken.is_empty()
                || (!broken.contains(&problem.line) && !missing.contains(&problem.says))
        });
        self.problems.sort_by_key(|(at, _)| *at);
        self.problems.into_iter().map(|(_, problem)| problem).collect()
    }
}

/// The known name nearest to a mistyped one, or `none`.
pub(super) fn nearest<'n>(word: &str, known: impl IntoIterator<Item = &'n str>) -> String {
    known
        .into_iter()
        .map(|candidate| {
            (strsim::damerau_levenshtein(&word.to_lowercase(), &candidate.to_lowercase()), candidate)
        })
        .filter(|(distance, candidate)| *distance <= 1.max(candidate.chars().count() / 3))
        .min()
        .map_or_else(|| "none".to_owned(), |(_, candidate)| candidate.to_owned())
}
