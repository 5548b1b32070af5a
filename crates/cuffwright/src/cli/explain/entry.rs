//! An explanation, whatever it is of: parts in words, numbers with their ground, evidence with its mark.

use serde::Serialize;
use trade::protocol::{EvidenceNote, Protocol};

use crate::cli::page::Page;
use crate::cli::protocol::{ParameterWord, citation, parameters};
use crate::cli::words::{say, word};

/// One explanation.
#[derive(Debug, Serialize)]
pub(super) struct Entry {
    shape: &'static str,
    kind: &'static str,
    code: String,
    name: String,
    parts: Vec<Part>,
    parameters: Vec<ParameterWord>,
    evidence: Vec<Ground>,
}

/// One part, for instance why a rule matters.
#[derive(Debug, Serialize)]
struct Part {
    part: &'static str,
    words: String,
}

/// One sentence of evidence with its mark.
#[derive(Debug, Serialize)]
struct Ground {
    words: String,
    mark: &'static str,
    source: Option<String>,
}

impl Entry {
    /// An explanation without parts yet.
    pub(super) fn new(kind: &'static str, code: &str, name: &str) -> Self {
        Self {
            shape: "cuffwright.explain/1",
            kind,
            code: code.to_owned(),
            name: name.to_owned(),
            parts: Vec::new(),
            parameters: Vec::new(),
            evidence: Vec::new(),
        }
    }

    /// Adds a part; a blank one is left out.
    pub(super) fn part(mut self, part: &'static str, words: impl Into<String>) -> Self {
        let words = words.into();
        if !words.trim().is_empty() {
            self.parts.push(Part { part, words });
        }
        self
    }

    /// Adds a part that is there only sometimes.
    pub(super) fn part_if(self, part: &'static str, words: Option<String>) -> Self {
        match words {
            Some(words) => self.part(part, words),
            None => self,
        }
    }

    /// Adds the parameters with these names, by key or by field.
    pub(super) fn numbers(mut self, protocol: &Protocol, names: &[&str]) -> Self {
        let keys: Vec<&str> = names
            .iter()
            .filter_map(|name| protocol.parameters.listed_of(name))
            .map(|listed| listed.key)
            .collect();
        self.parameters = parameters(protocol).into_iter().filter(|row| keys.contains(&row.key)).collect();
        self
    }

    /// Adds what is known about it.
    pub(super) fn known(mut self, protocol: &Protocol, notes: &[EvidenceNote]) -> Self {
        self.evidence = notes
            .iter()
            .map(|note| Ground {
                words: note.text.clone(),
                mark: note.evidence.mark(),
                source: citation(protocol, &note.evidence),
            })
            .collect();
        self
    }

    /// For a terminal.
    pub(super) fn page(&self) -> Page {
        let mut page = Page::default();
        page.paragraph(&format!("{}  ", self.code), &self.name);
        page.gap();
        for Part { part, words } in &self.parts {
            page.paragraph(&format!("  {:<15} ", word(&format!("cli-part-{part}"))), words);
        }
        if !self.parameters.is_empty() {
            page.heading(&format!("  {}", word("cli-title-numbers")));
            for row in &self.parameters {
                let values = [
                    ("value", row.value.clone()),
                    ("allowed", row.allowed.clone()),
                    ("label", row.label.to_owned()),
                    ("mark", with_source(row.mark, row.source.as_deref())),
                ];
                page.paragraph(&format!("    {:<24} ", row.key), &say("cli-number", &values));
            }
        }
        if !self.evidence.is_empty() {
            page.heading(&format!("  {}", word("cli-title-evidence")));
            for ground in &self.evidence {
                let mark = with_source(ground.mark, ground.source.as_deref());
                page.paragraph("    - ", &format!("{} [{mark}]", ground.words));
            }
        }
        page
    }
}

fn with_source(mark: &str, source: Option<&str>) -> String {
    match source {
        Some(source) => format!("{mark}: {source}"),
        None => mark.to_owned(),
    }
}
