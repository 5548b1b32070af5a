//! What a file says and would change, as JSON and for a terminal.

use app::import::{Change, Outcome, PlannedFact, Preview, Problem, Weight};
use serde::Serialize;
use serde_json::Value;

use crate::cli::page::Page;
use crate::cli::words::{say, word};

/// An import, done or not.
#[derive(Debug, Serialize)]
pub(super) struct Shape {
    shape: &'static str,
    file: String,
    kind: &'static str,
    dry_run: bool,
    ready: bool,
    stored: bool,
    counts: Counts,
    problems: Vec<ProblemWord>,
    corrections: Vec<Correction>,
    rows: Vec<RowWord>,
}

#[derive(Debug, Serialize)]
struct Counts {
    rows: usize,
    added: usize,
    unchanged: usize,
    corrected: usize,
    blocking: usize,
    to_confirm: usize,
    notes: usize,
}

#[derive(Debug, Serialize)]
struct ProblemWord {
    row: Option<u32>,
    column: Option<String>,
    value: Option<String>,
    weight: &'static str,
    code: &'static str,
    says: String,
    suggestion: Option<String>,
}

#[derive(Debug, Serialize)]
struct Correction {
    rows: Vec<u32>,
    kind: &'static str,
    fields: Vec<Field>,
}

/// One field of a fact that another value replaces.
#[derive(Debug, Serialize)]
struct Field {
    field: String,
    before: Value,
    after: Value,
}

#[derive(Debug, Serialize)]
struct RowWord {
    row: u32,
    about: String,
    outcome: &'static str,
}

impl Shape {
    /// As the preview stands.
    pub(super) fn of(file: &str, preview: &Preview, dry_run: bool, stored: bool) -> Self {
        let counts = &preview.counts;
        Self {
            shape: "cuffwright.import/1",
            file: file.to_owned(),
            kind: preview.kind.word(),
            dry_run,
            ready: preview.is_ready(),
            stored,
            counts: Counts {
                rows: counts.rows,
                added: counts.added,
                unchanged: counts.unchanged,
                corrected: counts.corrected,
                blocking: counts.blocking,
                to_confirm: counts.to_confirm,
                notes: counts.notes,
            },
            problems: preview.problems.iter().map(ProblemWord::of).collect(),
            corrections: preview.facts.iter().filter_map(Correction::of).collect(),
            rows: preview
                .rows
                .iter()
                .map(|row| RowWord {
                    row: row.row,
                    about: row.about.clone(),
                    outcome: outcome_word(row.outcome),
                })
                .collect(),
        }
    }

    /// For a terminal: what blocks first, then what would be corrected, then notes, then the counts.
    pub(super) fn page(&self) -> Page {
        let mut page = Page::default();
        let values = [
            ("file", self.file.clone()),
            ("kind", self.kind.to_owned()),
            ("rows", self.counts.rows.to_string()),
        ];
        page.line(&say("cli-import-read", &values));
        let (notes, problems): (Vec<_>, Vec<_>) =
            self.problems.iter().partition(|problem| problem.weight == "note");
        listed(&mut page, "cli-import-problems", &problems);
        if !self.corrections.is_empty() {
            page.heading(&word("cli-import-corrections"));
            for correction in &self.corrections {
                correction.print(&mut page);
            }
        }
        listed(&mut page, "cli-import-notes", &notes);
        page.gap();
        let counts = [
            ("added", self.counts.added.to_string()),
            ("corrected", self.counts.corrected.to_string()),
            ("unchanged", self.counts.unchanged.to_string()),
            ("blocking", self.counts.blocking.to_string()),
            ("unusual", self.counts.to_confirm.to_string()),
        ];
        match (self.stored, self.ready) {
            (true, _) => page.paragraph("", &say("cli-import-done", &counts)),
            (false, true) => page.paragraph("", &say("cli-import-would", &counts)),
            (false, false) => page.paragraph("", &say("cli-import-blocked", &counts)),
        }
        page
    }
}

/// Row, column, value, problem and suggestion of each.
fn listed(page: &mut Page, title: &str, problems: &[&ProblemWord]) {
    if problems.is_empty() {
        return;
    }
    page.heading(&word(title));
    let mut rows = Vec::new();
    for problem in problems {
        let place = problem.row.map_or_else(
            || word("cli-import-of-file"),
            |row| say("cli-import-place", &[("row", row.to_string())]),
        );
        let value = problem
            .value
            .as_ref()
            .map_or_else(String::new, |value| say("cli-import-showing", &[("value", shortened(value))]));
        let mut words = problem.says.clone();
        if problem.weight == "ask" {
            words = say("cli-import-ask", &[("words", words)]);
        }
        if let Some(suggestion) = &problem.suggestion {
            words.push(' ');
            words.push_str(&say("cli-import-suggestion", &[("suggestion", suggestion.clone())]));
        }
        rows.push(vec![place, shortened(problem.column.as_deref().unwrap_or_default()), value, words]);
    }
    page.table(2, &rows);
}

/// A cell of a club's file may be long; its beginning says which one it is.
fn shortened(text: &str) -> String {
    const MOST: usize = 24;
    let plain: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    if plain.chars().count() <= MOST {
        return plain;
    }
    let mut start: String = plain.chars().take(MOST - 1).collect();
    start.push('…');
    start
}

impl ProblemWord {
    fn of(problem: &Problem) -> Self {
        Self {
            row: problem.row,
            column: problem.column.clone(),
            value: problem.value.clone(),
            weight: match problem.weight {
                Weight::Blocks => "blocks",
                Weight::Ask => "ask",
                Weight::Note => "note",
            },
            code: problem.says,
            says: say(problem.says, &problem.args),
            suggestion: problem.suggestion.as_ref().map(|said| say(said.id, &said.args)),
        }
    }
}

impl Correction {
    fn of(planned: &PlannedFact) -> Option<Self> {
        let Change::Corrects { before, .. } = &planned.change else { return None };
        let mut fields: Vec<Field> = Vec::new();
        let names =
            [before, &planned.payload].into_iter().filter_map(Value::as_object).flat_map(|all| all.keys());
        for name in names {
            let value = |of: &Value| of.get(name).cloned().unwrap_or(Value::Null);
            let (before, after) = (value(before), value(&planned.payload));
            if before != after && fields.iter().all(|known| known.field != *name) {
                fields.push(Field { field: name.clone(), before, after });
            }
        }
        Some(Self { rows: planned.rows.clone(), kind: planned.kind.word(), fields })
    }

    fn print(&self, page: &mut Page) {
        let rows: Vec<String> = self.rows.iter().map(ToString::to_string).collect();
        let place = say("cli-import-place", &[("row", rows.join(", "))]);
        for field in &self.fields {
            let values = [
                ("field", field.field.clone()),
                ("before", plain(&field.before)),
                ("after", plain(&field.after)),
            ];
            page.paragraph(&format!("  {place:<8}  {:<12} ", self.kind), &say("cli-import-changed", &values));
        }
    }
}

/// A value as a person reads it.
fn plain(value: &Value) -> String {
    match value {
        Value::Null => word("cli-blank-value"),
        Value::String(text) => format!("“{text}”"),
        other => other.to_string(),
    }
}

const fn outcome_word(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Blocked => "blocked",
        Outcome::Corrects => "corrects",
        Outcome::Adds => "adds",
        Outcome::Unchanged => "unchanged",
        Outcome::Nothing => "nothing",
    }
}
