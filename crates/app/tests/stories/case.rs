//! One case file: what is given, in the shape of `cuffwright propose`, and what must come out.

use std::path::{Path, PathBuf};

use app::facts::Units;
use app::text::Texts;
use app::wire::answer::{Answer, ProposalWord};
use app::wire::run::propose;
use serde::Deserialize;
use serde_json::Value;
use trade::protocol::read::shipped;

/// A case file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CaseFile {
    pub(crate) title: String,
    pub(crate) story: String,
    given: toml::Table,
    expect: Expect,
}

/// What must come out. A field that is not written is not looked at.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Expect {
    /// The file is refused, with these words in the reasons.
    refused: Option<Vec<String>>,
    person: Option<String>,
    left: Option<String>,
    right: Option<String>,
    urgency: Option<String>,
    no_up_before: Option<toml::value::Datetime>,
    tracks: Option<Vec<String>>,
    #[serde(default)]
    holds: Vec<String>,
    #[serde(default)]
    not_holds: Vec<String>,
    #[serde(default)]
    notes: Vec<String>,
    #[serde(default)]
    due: Vec<String>,
    #[serde(default)]
    not_due: Vec<String>,
    proposes_end: Option<bool>,
    stops: Option<String>,
    #[serde(default)]
    words: Vec<String>,
    #[serde(default)]
    not_words: Vec<String>,
    #[serde(default)]
    line: Vec<Line>,
}

/// What must come out for one exercise; without a side for each of its lines, and `all` for every exercise.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    exercise: String,
    side: Option<String>,
    action: Option<String>,
    not_action: Option<String>,
    /// No dose is given.
    nothing: Option<bool>,
    level: Option<usize>,
    rung: Option<String>,
    moved: Option<i64>,
    sets: Option<u8>,
    cap_s: Option<f64>,
    rest_s: Option<f64>,
    tempo: Option<String>,
    timed: Option<bool>,
    have: Option<u8>,
    need: Option<u8>,
    alone: Option<bool>,
    #[serde(default)]
    codes: Vec<String>,
    #[serde(default)]
    not_codes: Vec<String>,
    #[serde(default)]
    words: Vec<String>,
}

/// The folder of the case files.
pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../stories")
}

/// Reads one case file.
pub(crate) fn read(file: &str) -> CaseFile {
    let path = folder().join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{file}: {error}"));
    toml::from_str(&text).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// TOML's own dates become the text that JSON has for them.
fn to_json(value: &toml::Value) -> Value {
    match value {
        toml::Value::Datetime(date) => Value::String(date.to_string()),
        toml::Value::Array(items) => items.iter().map(to_json).collect(),
        toml::Value::Table(fields) => {
            fields.iter().map(|(key, value)| (key.clone(), to_json(value))).collect()
        }
        toml::Value::String(text) => Value::String(text.clone()),
        toml::Value::Integer(number) => Value::from(*number),
        toml::Value::Float(number) => Value::from(*number),
        toml::Value::Boolean(flag) => Value::Bool(*flag),
    }
}

impl CaseFile {
    /// What is given, as the text of a history file. The shape's name is the same for all and is left out of the
    /// case files.
    pub(crate) fn history(&self) -> String {
        let mut given = to_json(&toml::Value::Table(self.given.clone()));
        given["shape"] = Value::from(app::wire::propose::SHAPE);
        serde_json::to_string_pretty(&given).expect("JSON can be written")
    }

    /// Everything that is not as expected, in words; empty when all is well.
    pub(crate) fn differences(&self) -> Vec<String> {
        let mut found = Vec::new();
        match (propose(shipped(), &self.history(), Units::Metric), &self.expect.refused) {
            (Ok(answer), None) => self.expect.compare(&answer, &mut found),
            (Ok(_), Some(_)) => found.push("was answered, but should be refused".to_owned()),
            (Err(problems), refused) => {
                let said: Vec<String> = problems
                    .iter()
                    .map(|problem| {
                        format!("{}: {}", problem.path, Texts::english().say(problem.says, &problem.args))
                    })
                    .collect();
                let said = said.join("\n");
                match refused {
                    None => found.push(format!("was refused: {said}")),
                    Some(words) => has_words("the refusal", &said, words, &mut found),
                }
            }
        }
        found
    }
}

fn same<T: PartialEq + std::fmt::Debug>(what: &str, got: &T, wanted: Option<&T>, found: &mut Vec<String>) {
    if let Some(wanted) = wanted
        && wanted != got
    {
        found.push(format!("{what}: {got:?}, expected {wanted:?}"));
    }
}

fn has_words(where_: &str, text: &str, words: &[String], found: &mut Vec<String>) {
    let text = text.to_lowercase();
    for word in words.iter().filter(|word| !text.contains(&word.to_lowercase())) {
        found.push(format!("{where_} does not say {word:?}; it says: {text}"));
    }
}

fn has_all(what: &str, got: &[String], wanted: &[String], found: &mut Vec<String>) {
    for one in wanted.iter().filter(|one| !got.contains(one)) {
        found.push(format!("{what}: no {one:?} among {got:?}"));
    }
}

fn has_none(what: &str, got: &[String], unwanted: &[String], found: &mut Vec<String>) {
    for one in unwanted.iter().filter(|one| got.contains(one)) {
        found.push(format!("{what}: {one:?} should not be there"));
    }
}

impl Expect {
    fn compare(&self, answer: &Answer, found: &mut Vec<String>) {
        let text = |word: &str| word.to_owned();
        same("person", &text(answer.availability.person), self.person.as_ref(), found);
        same("left", &text(answer.availability.left), self.left.as_ref(), found);
        same("right", &text(answer.availability.right), self.right.as_ref(), found);
        let urgency = answer.urgency.unwrap_or("none").to_owned();
        same("urgency", &urgency, self.urgency.as_ref(), found);
        if let Some(day) = &self.no_up_before {
            same("no_up_before", &answer.no_up_before, Some(&Some(day.to_string())), found);
        }
        let tracks: Vec<String> = answer.tracks.iter().map(|track| text(track.track)).collect();
        same("tracks", &tracks, self.tracks.as_ref(), found);
        let holds: Vec<String> = answer.holds.iter().map(|hold| hold.reason.code.clone()).collect();
        has_all("holds", &holds, &self.holds, found);
        has_none("holds", &holds, &self.not_holds, found);
        let notes: Vec<String> = answer.notes.iter().map(|note| note.code.clone()).collect();
        has_all("notes", &notes, &self.notes, found);
        let due: Vec<String> = answer.due.iter().map(|due| text(due.kind)).collect();
        has_all("due", &due, &self.due, found);
        has_none("due", &due, &self.not_due, found);
        same("proposes_end", &!answer.proposed_ends.is_empty(), self.proposes_end.as_ref(), found);
        let stop = &answer.stop_today;
        let stops = match (stop.session, stop.all_shoulder, stop.exercises.as_slice()) {
            (true, ..) => text("session"),
            (_, true, _) => text("all shoulder exercises"),
            (_, _, []) => text("nothing"),
            (_, _, exercises) => exercises.join(", "),
        };
        same("stops", &stops, self.stops.as_ref(), found);
        let whole = serde_json::to_string(answer).expect("an answer can be written");
        has_words("the answer", &whole, &self.words, found);
        for word in self.not_words.iter().filter(|word| whole.contains(word.as_str())) {
            found.push(format!("the answer says {word:?}"));
        }
        for proposal in &answer.proposals {
            explains_itself(proposal, found);
        }
        for line in &self.line {
            line.compare(answer, found);
        }
    }
}

/// Rule 17: every proposal carries its reasons, in words.
fn explains_itself(proposal: &ProposalWord, found: &mut Vec<String>) {
    let name = format!("{} {}", proposal.exercise, proposal.side);
    if proposal.reasons.is_empty() {
        found.push(format!("{name}: no reason"));
    }
    for reason in proposal.reasons.iter().chain(&proposal.confirm_alone) {
        let is_whole = !reason.words.contains(['[', '{']) && !reason.ground.is_empty();
        if !is_whole {
            found.push(format!("{name}: {} is not in words: {:?}", reason.code, reason.words));
        }
    }
}

impl Line {
    fn compare(&self, answer: &Answer, found: &mut Vec<String>) {
        let mut seen = false;
        for proposal in answer.proposals.iter().filter(|proposal| {
            (self.exercise == "all" || proposal.exercise == self.exercise)
                && self.side.as_ref().is_none_or(|side| side == proposal.side)
        }) {
            seen = true;
            self.compare_one(proposal, found);
        }
        if !seen {
            found.push(format!("nothing is said of {} {:?}", self.exercise, self.side));
        }
    }

    fn compare_one(&self, proposal: &ProposalWord, found: &mut Vec<String>) {
        let mut own = Vec::new();
        let text = |word: &str| word.to_owned();
        same("action", &text(proposal.action), self.action.as_ref(), &mut own);
        if self.not_action.as_deref() == Some(proposal.action) {
            own.push(format!("action is {:?}", proposal.action));
        }
        same("nothing given", &proposal.dose.is_none(), self.nothing.as_ref(), &mut own);
        same("rungs moved", &proposal.rungs_moved, self.moved.as_ref(), &mut own);
        same("have", &proposal.qualifying_have, self.have.as_ref(), &mut own);
        same("need", &proposal.qualifying_need, self.need.as_ref(), &mut own);
        same("alone", &!proposal.confirm_alone.is_empty(), self.alone.as_ref(), &mut own);
        if let Some(dose) = &proposal.dose {
            let rung = dose.rung.as_ref();
            let level = rung.and_then(|rung| rung.level).unwrap_or(0);
            same("level", &level, self.level.as_ref(), &mut own);
            let name = rung.map(|rung| rung.rung.clone()).unwrap_or_default();
            same("rung", &name, self.rung.as_ref(), &mut own);
            same("sets", &dose.sets, self.sets.as_ref(), &mut own);
            same("cap", &dose.cap_s, self.cap_s.as_ref(), &mut own);
            same("rest", &dose.rest_s, self.rest_s.as_ref(), &mut own);
            same("tempo", &dose.tempo, self.tempo.as_ref(), &mut own);
            same("timed", &dose.timed, self.timed.as_ref(), &mut own);
        } else if self.level.is_some() || self.sets.is_some() || self.cap_s.is_some() {
            own.push("no dose is given".to_owned());
        }
        has_all("codes", &proposal.codes, &self.codes, &mut own);
        has_none("codes", &proposal.codes, &self.not_codes, &mut own);
        let said = serde_json::to_string(proposal).expect("a proposal can be written");
        has_words("it", &said, &self.words, &mut own);
        let name = format!("{} {}", proposal.exercise, proposal.side);
        found.extend(own.into_iter().map(|difference| format!("{name}: {difference}")));
    }
}
