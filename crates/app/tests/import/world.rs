//! A small record to import into: swimmers, and facts under their natural keys.

use std::collections::BTreeMap;

use app::facts;
use app::import::{
    Change, Exercises, Existing, FileProblem, Kind, Known, KnownSwimmer, OnRecord, Options, Preview, Problem,
    Weight, preview, read_table,
};
use app::text::Texts;
use jiff::civil::{Date, date};
use store::{FactId, SubjectId};
use uuid::Uuid;

/// What is on record.
#[derive(Default, Clone)]
pub(crate) struct World {
    pub(crate) swimmers: Vec<KnownSwimmer>,
    pub(crate) facts: BTreeMap<(facts::Kind, String), OnRecord>,
}

/// The day on which all tests stand.
pub(crate) fn today() -> Date {
    date(2026, 11, 25)
}

/// Nothing decided.
pub(crate) fn options() -> Options {
    Options::new(today(), Uuid::from_u128(7))
}

/// Three swimmers, two of one name.
pub(crate) fn three() -> World {
    let mut world = World::default();
    world.add("Ada Fenwick-Moss", date(2012, 4, 17), Some("101"));
    world.add("Ada Fenwick-Moss", date(2014, 11, 2), Some("102"));
    world.add("Pip Quillfeather", date(2009, 2, 28), None);
    world
}

impl World {
    pub(crate) fn add(&mut self, name: &str, born: Date, number: Option<&str>) {
        let subject = SubjectId::from_uuid(Uuid::from_u128(1000 + self.swimmers.len() as u128));
        self.swimmers.push(KnownSwimmer {
            subject,
            name: name.to_owned(),
            born,
            club_number: number.map(str::to_owned),
        });
    }

    pub(crate) fn try_read(
        &self,
        bytes: &[u8],
        kind: Option<Kind>,
        options: &Options,
    ) -> Result<Preview, FileProblem> {
        let table = read_table(bytes, "list")?;
        let kind = match kind {
            Some(kind) => kind,
            None => app::import::detect(&table)?,
        };
        let on_record = |kind: facts::Kind, key: &str| {
            self.facts.get(&(kind, key.to_owned())).cloned().unwrap_or(OnRecord::Nothing)
        };
        let known = Known {
            swimmers: &self.swimmers,
            exercises: Exercises::of(trade::protocol::read::shipped()),
            on_record: &on_record,
        };
        preview(&table, kind, &known, options)
    }

    pub(crate) fn read(&self, text: &str) -> Preview {
        self.read_with(text, &options())
    }

    pub(crate) fn read_with(&self, text: &str, options: &Options) -> Preview {
        self.try_read(text.as_bytes(), None, options).unwrap_or_else(|problem| panic!("{problem:?}"))
    }

    /// Records a preview as the store would: everything or nothing.
    pub(crate) fn record(&mut self, preview: &Preview) {
        assert!(preview.is_ready(), "{:#?}", serious(preview));
        for fact in &preview.facts {
            let id = match fact.change {
                Change::Unchanged(id) => id,
                _ => FactId::from_uuid(Uuid::new_v5(&Uuid::nil(), fact.payload.to_string().as_bytes())),
            };
            let existing = Existing { fact: id, payload: fact.payload.clone(), imported: None };
            self.facts.insert((fact.kind, fact.natural_key.clone()), OnRecord::Live(existing));
        }
        for swimmer in preview.swimmers() {
            self.swimmers.retain(|known| known.subject != swimmer.subject);
            self.swimmers.push(swimmer);
        }
    }
}

/// Problems other than notes.
pub(crate) fn serious(preview: &Preview) -> Vec<&Problem> {
    preview.problems.iter().filter(|problem| problem.weight != Weight::Note).collect()
}

/// Message names of all problems other than notes, with their rows.
pub(crate) fn said(preview: &Preview) -> Vec<(Option<u32>, &'static str)> {
    serious(preview).into_iter().map(|problem| (problem.row, problem.says)).collect()
}

/// The only problem other than notes.
pub(crate) fn only(preview: &Preview) -> &Problem {
    match serious(preview).as_slice() {
        [problem] => problem,
        several => panic!("{several:#?}"),
    }
}

/// Payloads of one kind.
pub(crate) fn payloads(preview: &Preview, kind: facts::Kind) -> Vec<&serde_json::Value> {
    preview.facts.iter().filter(|fact| fact.kind == kind).map(|fact| &fact.payload).collect()
}

/// A problem in words; fails where the catalogue lacks a sentence or a value.
pub(crate) fn in_words(problem: &Problem) -> String {
    let texts = Texts::english();
    let mut words = say(texts, problem.says, &problem.args);
    if let Some(said) = &problem.suggestion {
        words.push(' ');
        words.push_str(&say(texts, said.id, &said.args));
    }
    words
}

fn say(texts: &Texts, id: &str, args: &[(&'static str, String)]) -> String {
    let words = texts.say(id, args);
    assert!(texts.has(id), "{id} is in no catalogue");
    assert!(!words.contains("{$") && !words.contains("{ $"), "{id} lacks a value: {words}");
    words
}
