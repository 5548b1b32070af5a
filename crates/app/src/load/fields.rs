//! A described thing: keys with their unit at the end (`rest_m`, `rest_cm`, `mass_lb`), read out one by one.
//!
//! What nobody asked for is reported with the nearest known key, so that a slip never passes silently.

use std::cell::RefCell;
use std::collections::BTreeSet;

use quantity::reading::Unit;
use quantity::{Angle, Force, Length, Mass, Share};
use toml::{Table, Value};

use crate::facts::Problem;

/// Problems and the keys that have been looked for, shared by all parts of one file.
#[derive(Debug, Default)]
pub(super) struct Found {
    problems: RefCell<Vec<Problem>>,
}

impl Found {
    pub(super) fn add(&self, problem: Problem) {
        self.problems.borrow_mut().push(problem);
    }

    pub(super) fn into_problems(self) -> Vec<Problem> {
        self.problems.into_inner()
    }
}

/// One table of the file.
pub(super) struct Fields<'a> {
    table: &'a Table,
    within: String,
    found: &'a Found,
    asked: RefCell<BTreeSet<String>>,
}

/// Keys in small letters with underscores, however they were written.
fn plain(key: &str) -> String {
    key.trim().to_lowercase().replace(['-', ' '], "_")
}

const LENGTHS: &[(&str, Unit)] = &[
    ("_m", Unit::Metre),
    ("_metres", Unit::Metre),
    ("_cm", Unit::Centimetre),
    ("_mm", Unit::Millimetre),
    ("_in", Unit::Inch),
    ("_inch", Unit::Inch),
    ("_inches", Unit::Inch),
    ("_ft", Unit::Foot),
];
const FORCES: &[(&str, Unit)] = &[
    ("_n", Unit::Newton),
    ("_newtons", Unit::Newton),
    ("_kgf", Unit::KilogramForce),
    ("_kg", Unit::KilogramForce),
    ("_lbf", Unit::PoundForce),
    ("_lb", Unit::PoundForce),
];
const MASSES: &[(&str, Unit)] = &[
    ("_kg", Unit::Kilogram),
    ("_g", Unit::Gram),
    ("_lb", Unit::Pound),
    ("_lbs", Unit::Pound),
    ("_oz", Unit::Ounce),
];

impl<'a> Fields<'a> {
    pub(super) fn of(table: &'a Table, within: &str, found: &'a Found) -> Self {
        Self { table, within: within.to_owned(), found, asked: RefCell::default() }
    }

    fn at(&self, key: &str) -> String {
        if self.within.is_empty() { key.to_owned() } else { format!("{}.{key}", self.within) }
    }

    /// A value under its key, however the key is written.
    fn find(&self, key: &str) -> Option<&'a Value> {
        self.asked.borrow_mut().insert(key.to_owned());
        self.table.iter().find(|(written, _)| plain(written) == key).map(|(_, value)| value)
    }

    /// Whether anything stands under one of these keys, whatever its unit.
    pub(super) fn has(&self, begins: &[&str]) -> bool {
        self.table.keys().any(|key| {
            let key = plain(key);
            begins.iter().any(|begin| key == *begin || key.starts_with(&format!("{begin}_")))
        })
    }

    /// Reports a missing key.
    pub(super) fn missing(&self, key: &str, hint: &'static str) {
        self.found
            .add(Problem::at(self.at(key), "load-missing").with("key", key.to_owned()).with("why", hint));
    }

    pub(super) fn problem(&self, key: &str, says: &'static str) -> Problem {
        Problem::at(self.at(key), says)
    }

    pub(super) fn report(&self, problem: Problem) {
        self.found.add(problem);
    }

    fn number_of(&self, key: &str, value: &Value) -> Option<f64> {
        let number = match value {
            Value::Integer(whole) => Some(*whole as f64),
            Value::Float(number) => Some(*number),
            _ => None,
        };
        let number = number.filter(|number| number.is_finite());
        if number.is_none() {
            self.found.add(self.problem(key, "load-not-a-number").with("key", key.to_owned()));
        }
        number
    }

    /// A bare number.
    pub(super) fn number(&self, names: &[&str]) -> Option<f64> {
        let mut read = None;
        for name in names {
            if let Some(value) = self.find(name) {
                read = read.or(self.number_of(name, value));
            }
        }
        read
    }

    /// A number whose key ends in a unit; several keys for one thing are mixed units.
    fn with_unit(&self, names: &[&str], units: &[(&str, Unit)], bare: Option<Unit>) -> Option<f64> {
        let mut read: Option<(String, f64)> = None;
        for name in names {
            let endings = units.iter().copied().chain(bare.map(|unit| ("", unit)));
            for (ending, unit) in endings {
                let key = format!("{name}{ending}");
                let Some(value) = self.find(&key) else { continue };
                if let Some((other, _)) = &read {
                    let mixed = self.problem(&key, "load-two-units");
                    self.found.add(mixed.with("one", other.clone()).with("other", key));
                    continue;
                }
                if let Some(number) = self.number_of(&key, value) {
                    read = Some((key, unit.to_canonical(number)));
                }
            }
        }
        read.map(|(_, value)| value)
    }

    pub(super) fn length(&self, names: &[&str]) -> Option<Length> {
        self.with_unit(names, LENGTHS, None).map(Length::from_metres)
    }

    pub(super) fn force(&self, names: &[&str]) -> Option<Force> {
        self.with_unit(names, FORCES, None).map(Force::from_newtons)
    }

    pub(super) fn mass(&self, names: &[&str]) -> Option<Mass> {
        self.with_unit(names, MASSES, None).map(Mass::from_kilograms)
    }

    /// An angle in degrees or radians; a bare key means degrees.
    pub(super) fn angle(&self, names: &[&str]) -> Option<Angle> {
        let degrees = [("_deg", Unit::Degree), ("_degrees", Unit::Degree)];
        let read = self.with_unit(names, &degrees, Some(Unit::Degree)).map(Angle::from_degrees);
        let radians: Vec<String> = names.iter().map(|name| format!("{name}_rad")).collect();
        let radians: Vec<&str> = radians.iter().map(String::as_str).collect();
        read.or_else(|| self.number(&radians).map(Angle::from_radians))
    }

    /// A part of a whole: `_pct`, or bare and `_share` as a fraction.
    pub(super) fn share(&self, names: &[&str]) -> Option<Share> {
        for name in names {
            if let Some(value) = self.number(&[&format!("{name}_pct"), &format!("{name}_percent")]) {
                return Some(Share::from_percent(value));
            }
            if let Some(value) = self.number(&[&format!("{name}_share"), &format!("{name}_fraction"), name]) {
                return Some(Share::from_fraction(value));
            }
        }
        None
    }

    /// A word in small letters with hyphens.
    pub(super) fn word(&self, names: &[&str]) -> Option<String> {
        self.text(names).map(|word| word.trim().to_lowercase().replace(['_', ' '], "-"))
    }

    /// A text as it stands.
    pub(super) fn text(&self, names: &[&str]) -> Option<String> {
        for name in names {
            if let Some(value) = self.find(name) {
                if let Some(text) = value.as_str() {
                    return Some(text.to_owned());
                }
                self.found.add(self.problem(name, "load-not-a-text").with("key", (*name).to_owned()));
            }
        }
        None
    }

    /// A yes or no.
    pub(super) fn flag(&self, names: &[&str]) -> Option<bool> {
        for name in names {
            if let Some(value) = self.find(name) {
                let flag = value.as_bool();
                if flag.is_none() {
                    self.found.add(self.problem(name, "load-not-a-flag").with("key", (*name).to_owned()));
                }
                return flag;
            }
        }
        None
    }

    /// Numbers of a list.
    pub(super) fn numbers(&self, names: &[&str]) -> Option<Vec<f64>> {
        for name in names {
            if let Some(value) = self.find(name) {
                return match value {
                    Value::Array(items) => items.iter().map(|item| self.number_of(name, item)).collect(),
                    one => self.number_of(name, one).map(|one| vec![one]),
                };
            }
        }
        None
    }

    /// Lengths of a list whose key ends in a unit.
    pub(super) fn lengths(&self, names: &[&str]) -> Option<Vec<Length>> {
        for name in names {
            for (ending, unit) in LENGTHS {
                let key = format!("{name}{ending}");
                if let Some(numbers) = self.numbers(&[&key]) {
                    let metres = numbers.into_iter().map(|number| unit.to_canonical(number));
                    return Some(metres.map(Length::from_metres).collect());
                }
            }
        }
        None
    }

    /// A table inside.
    pub(super) fn inside(&self, names: &[&str]) -> Option<Fields<'a>> {
        for name in names {
            if let Some(value) = self.find(name) {
                if let Some(table) = value.as_table() {
                    return Some(Fields::of(table, &self.at(name), self.found));
                }
                self.found.add(self.problem(name, "load-not-a-table").with("key", (*name).to_owned()));
            }
        }
        None
    }

    /// Tables of a list inside.
    pub(super) fn list(&self, names: &[&str]) -> Vec<Fields<'a>> {
        for name in names {
            let Some(value) = self.find(name) else { continue };
            let Some(items) = value.as_array() else {
                self.found.add(self.problem(name, "load-not-a-table").with("key", (*name).to_owned()));
                continue;
            };
            return items
                .iter()
                .enumerate()
                .filter_map(|(index, item)| {
                    let within = format!("{}[{}]", self.at(name), index + 1);
                    let table = item.as_table();
                    if table.is_none() {
                        self.found.add(
                            Problem::at(within.clone(), "load-not-a-table").with("key", (*name).to_owned()),
                        );
                    }
                    table.map(|table| Fields::of(table, &within, self.found))
                })
                .collect();
        }
        Vec::new()
    }

    /// Texts of a list, or one text alone.
    pub(super) fn texts(&self, names: &[&str]) -> Option<Vec<String>> {
        for name in names {
            let Some(value) = self.find(name) else { continue };
            let items: Vec<&Value> =
                value.as_array().map_or_else(|| vec![value], |items| items.iter().collect());
            let texts: Option<Vec<String>> =
                items.iter().map(|item| item.as_str().map(str::to_owned)).collect();
            if texts.is_none() {
                self.found.add(self.problem(name, "load-not-a-text").with("key", (*name).to_owned()));
            }
            return texts;
        }
        None
    }

    /// The keys that nobody has asked for yet, as a table of their own; they count as asked for now.
    pub(super) fn rest_of_table(&self) -> Table {
        let mut asked = self.asked.borrow_mut();
        let rest: Table = self
            .table
            .iter()
            .filter(|(key, _)| !asked.contains(&plain(key)))
            .map(|(key, value)| (key.clone(), value.clone()))
            .collect();
        asked.extend(rest.keys().map(|key| plain(key)));
        rest
    }

    /// Reads something for its keys alone: whatever is wrong has been reported elsewhere.
    pub(super) fn silently<T>(&self, read: impl FnOnce() -> T) -> T {
        let before = self.found.problems.borrow().len();
        let read = read();
        self.found.problems.borrow_mut().truncate(before);
        read
    }

    /// Reports every key that nobody asked for.
    pub(super) fn done(&self) {
        let asked = self.asked.borrow();
        for key in self.table.keys() {
            let written = plain(key);
            if asked.contains(&written) {
                continue;
            }
            let near = asked
                .iter()
                .map(|known| (strsim::damerau_levenshtein(&written, known), known))
                .filter(|(distance, known)| *distance <= 1.max(known.len() / 3))
                .min()
                .map_or_else(|| "none".to_owned(), |(_, known)| known.clone());
            self.found.add(self.problem(key, "load-unknown-key").with("key", key.clone()).with("near", near));
        }
    }
}
