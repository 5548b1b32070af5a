//! A screening row: one swimmer on one day, a value or the reason for none in every column of a test.

use serde_json::{Value, json};
use trade::side::Side;

use super::cells::Line;
use super::columns::Col;
use super::gather::{Draft, Given};
use super::grid::Column;
use super::people::{self, People, Whom};
use super::plan::Subject;
use super::problem::{Problem, Said};
use super::roster::name_of;
use super::words::squashed;
use crate::facts::{FindingFact, Kind, SideWord, WithoutValue};

/// The reason that stands where the file has nothing; it gives way to any other finding.
const BLANK: &str = "blank in file";

/// Reads a screening row.
pub(super) fn read(line: &mut Line<'_>, people: &People<'_>) -> Given {
    let (about, swimmer) = whom(line, people);
    let date = line.past_day(Col::Date);
    if date.is_none() && !line.is_blocked() {
        line.push_in(Col::Date, Problem::new("import-date-missing"));
    }
    let tester = line.text(Col::Tester);
    let findings = findings(line);
    let hollow = hollow(line);
    let nothing = findings.iter().all(is_blank) && hollow.is_empty();
    if nothing && !line.is_blocked() {
        line.push(Problem::note("import-note-nothing-measured"));
    }
    let (Some(subject), Some(date), false) = (swimmer, date, nothing) else {
        return Given { about, drafts: Vec::new() };
    };
    let mut payload = json!({ "date": date, "findings": findings });
    if let (Some(tester), Some(fields)) = (tester, payload.as_object_mut()) {
        fields.insert("tester".to_owned(), json!(tester));
    }
    if let (false, Some(fields)) = (hollow.is_empty(), payload.as_object_mut()) {
        fields.insert("visible_hollow".to_owned(), json!(hollow));
    }
    let key =
        super::key::natural_key(Kind::Screening, subject.id().unwrap_or(store::SubjectId::CLUB), &payload)
            .unwrap_or_default();
    Given { about, drafts: vec![Draft { key, subject, kind: Kind::Screening, payload }] }
}

/// Who the row is about: as written, and on record.
pub(super) fn whom(line: &mut Line<'_>, people: &People<'_>) -> (String, Option<Subject>) {
    let whom = Whom { number: line.text(Col::ClubNumber), name: name_of(line), born: line.day(Col::Born) };
    let about = whom.name.clone().or_else(|| whom.number.clone()).unwrap_or_default();
    if line.is_blocked() {
        // A broken cell among number, name and birth date would let the row be taken for somebody else's.
        return (about, None);
    }
    match people::find(people, &whom) {
        Ok(swimmer) => (about, Some(Subject::Existing(swimmer.subject))),
        Err(problem) => {
            let col = if whom.number.is_some() {
                Col::ClubNumber
            } else if line.has(Col::Name) {
                Col::Name
            } else {
                Col::LastName
            };
            line.push_in(col, problem);
            (about, None)
        }
    }
}

fn side_word(column: &Column) -> Option<SideWord> {
    column.heading.side.map(SideWord::from)
}

/// One finding a column; ordered by test and side, so that the order of columns does not matter.
fn findings(line: &mut Line<'_>) -> Vec<FindingFact> {
    let mut findings = Vec::new();
    for column in line.columns() {
        let Col::Finding(key) = column.heading.spec.col else { continue };
        let mut finding =
            FindingFact { key: key.to_owned(), side: side_word(column), ..FindingFact::default() };
        let reason = line.cell(column).map(|cell| without_value(&cell.shown()));
        match reason {
            None => finding.without_value = Some(WithoutValue::NotTested(BLANK.to_owned())),
            Some(Some(reason)) => finding.without_value = Some(reason),
            Some(None) => match line.measured_at(column, key) {
                Some(measured) => {
                    finding.value = Some(measured.value);
                    finding.as_entered = Some(measured.entered);
                }
                None => finding.without_value = Some(WithoutValue::NotTested(BLANK.to_owned())),
            },
        }
        findings.push(finding);
    }
    findings.sort_by(|a, b| (&a.key, a.side).cmp(&(&b.key, b.side)));
    findings
}

/// Why there is no value, where the cell says so.
fn without_value(shown: &str) -> Option<WithoutValue> {
    let (word, reason) = match shown.split_once([':', '(']) {
        Some((word, reason)) => (word, reason.trim().trim_end_matches(')').trim()),
        None => (shown, ""),
    };
    match squashed(word).as_str() {
        "nottested" | "notdone" | "nt" | "na" => {
            Some(WithoutValue::NotTested(if reason.is_empty() { "not said" } else { reason }.to_owned()))
        }
        "" => Some(WithoutValue::NotTested(BLANK.to_owned())),
        "refused" | "declined" => Some(WithoutValue::Refused),
        "pain" | "painful" | "stoppedpain" | "notdonepain" | "schmerz" => Some(WithoutValue::Pain),
        _ => None,
    }
}

fn is_blank(finding: &FindingFact) -> bool {
    finding.without_value == Some(WithoutValue::NotTested(BLANK.to_owned()))
}

/// Shoulders behind which a hollow was seen: a yes under a side, or the side named in the cell.
fn hollow(line: &mut Line<'_>) -> Vec<SideWord> {
    let mut seen = Vec::new();
    for column in line.columns() {
        if column.heading.spec.col != Col::Hollow {
            continue;
        }
        if let Some(side) = side_word(column) {
            if line.yes_no_at(column) == Some(true) {
                seen.push(side);
            }
            continue;
        }
        let Some(cell) = line.cell(column) else { continue };
        match squashed(&cell.shown()).as_str() {
            "left" | "l" | "links" => seen.push(SideWord::from(Side::Left)),
            "right" | "r" | "rechts" => seen.push(SideWord::from(Side::Right)),
            "both" | "lr" | "beide" => seen.extend(Side::BOTH.map(SideWord::from)),
            "" | "none" | "no" | "nein" | "neither" => {}
            _ => {
                let words = Said::new("import-try-one-of").with("words", "left, right, both, none");
                line.push_at(column, Problem::new("import-word-unknown").suggest(words));
            }
        }
    }
    seen.sort();
    seen.dedup();
    seen
}

/// Puts a draft over a screening on record, test by test: a blank leaves what is there, and tests that the file
/// does not have stay.
pub(super) fn completed(before: &Value, draft: Value) -> Value {
    let Value::Object(draft) = draft else { return draft };
    let Value::Object(mut whole) = before.clone() else { return Value::Object(draft) };
    let list = |value: Option<&Value>| value.and_then(Value::as_array).cloned().unwrap_or_default();
    let test = |finding: &Value| {
        let text = |name: &str| finding.get(name).and_then(Value::as_str).unwrap_or_default().to_owned();
        (text("key"), text("side"))
    };
    let blank = |finding: &Value| {
        let reason = finding.pointer("/without_value/not-tested").and_then(Value::as_str);
        reason == Some(BLANK)
    };
    let mut findings = list(whole.get("findings"));
    for finding in list(draft.get("findings")) {
        match findings.iter_mut().find(|old| test(old) == test(&finding)) {
            Some(old) if !blank(&finding) => *old = finding,
            Some(_) => {}
            None => findings.push(finding),
        }
    }
    findings.sort_by_key(test);
    whole.extend(draft.into_iter().filter(|(name, value)| name != "findings" && !value.is_null()));
    whole.insert("findings".to_owned(), Value::Array(findings));
    Value::Object(whole)
}
