//! Walking a table: each value is asked for by key, and what nobody may ask for is reported.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::problem::{
    BAD_ID, EMPTY, MISSING_KEY, NOT_FINITE, NOT_WHOLE, OUT_OF_RANGE, Report, UNKNOWN_KEY, UNKNOWN_WORD,
    WRONG_TYPE, nearest,
};

/// A table of the file, with what a person calls it.
pub(super) struct Table<'a> {
    table: &'a DeTable<'a>,
    /// Where it begins.
    pub(super) at: Range<usize>,
    /// What it is, for instance `RC-1` or `cap_s`.
    pub(super) within: String,
}

/// A text with its place.
pub(super) type Placed<T> = (T, Range<usize>);

impl<'a> Table<'a> {
    pub(super) fn root(table: &'a DeTable<'a>, allowed: &[&str], report: &mut Report<'_>) -> Self {
        let root = Table { table, at: 0..0, within: "protocol".to_owned() };
        root.refuse_unknown(allowed, report);
        root
    }

    /// Takes a value as a table. `name_key` names the key whose text names the table, where there is one.
    pub(super) fn open(
        value: &'a Spanned<DeValue<'a>>,
        key: &str,
        name_key: Option<&str>,
        allowed: &[&str],
        report: &mut Report<'_>,
    ) -> Option<Self> {
        let Some(table) = value.get_ref().as_table() else {
            wrong_type(key, "table", value, report);
            return None;
        };
        let name = name_key.and_then(|key| table.get(key)).and_then(|name| name.get_ref().as_str());
        let opened = Table { table, at: value.span(), within: name.unwrap_or(key).to_owned() };
        opened.refuse_unknown(allowed, report);
        Some(opened)
    }

    /// The same table under another name, where its own says too little.
    pub(super) fn called(self, within: String) -> Self {
        Table { within, ..self }
    }

    fn refuse_unknown(&self, allowed: &[&str], report: &mut Report<'_>) {
        for (key, _) in self.table {
            let name = key.get_ref().as_ref();
            if !allowed.contains(&name) {
                let near = nearest(name, allowed.iter().copied());
                let values = [name.to_owned(), self.within.clone(), near, allowed.join(", ")];
                report.add(&UNKNOWN_KEY, key.span(), values);
            }
        }
    }

    /// A value that may be left out.
    pub(super) fn find(&self, key: &str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.table.get(key)
    }

    /// A value that must stand there.
    pub(super) fn need(&self, key: &str, report: &mut Report<'_>) -> Option<&'a Spanned<DeValue<'a>>> {
        let value = self.table.get(key);
        if value.is_none() {
            report.add(&MISSING_KEY, self.at.clone(), [key.to_owned(), self.within.clone()]);
        }
        value
    }

    /// A table that must stand there.
    pub(super) fn table(&self, key: &str, allowed: &[&str], report: &mut Report<'_>) -> Option<Table<'a>> {
        let value = self.need(key, report)?;
        Table::open(value, key, None, allowed, report)
    }

    /// A list of tables that must stand there and not be empty.
    pub(super) fn tables(
        &self,
        key: &str,
        name_key: &str,
        allowed: &[&str],
        report: &mut Report<'_>,
    ) -> Vec<Table<'a>> {
        let Some(value) = self.need(key, report) else { return Vec::new() };
        let Some(list) = value.get_ref().as_array() else {
            wrong_type(key, "tables", value, report);
            return Vec::new();
        };
        if list.is_empty() {
            report.add(&EMPTY, value.span(), [key.to_owned(), self.within.clone()]);
        }
        list.iter().filter_map(|item| Table::open(item, key, Some(name_key), allowed, report)).collect()
    }

    /// A text that must stand there; empty where it is wrong, which is then reported.
    pub(super) fn text(&self, key: &str, report: &mut Report<'_>) -> String {
        self.need(key, report).and_then(|value| text(key, value, &self.within, report)).unwrap_or_default().0
    }

    /// A text that may be left out.
    pub(super) fn optional_text(&self, key: &str, report: &mut Report<'_>) -> Option<Placed<String>> {
        text(key, self.find(key)?, &self.within, report)
    }

    /// A name that must stand there: letters, digits, hyphens and underscores only, since it goes into addresses and records.
    pub(super) fn id(&self, key: &str, report: &mut Report<'_>) -> Placed<String> {
        let value = self.need(key, report).and_then(|value| text(key, value, &self.within, report));
        let (name, at) = value.unwrap_or_else(|| (String::new(), self.at.clone()));
        if !name.chars().all(|letter| letter.is_ascii_alphanumeric() || "-_".contains(letter)) {
            report.add(&BAD_ID, at.clone(), [name.clone()]);
        }
        (name, at)
    }

    /// Texts of a list; a missing list is empty unless it is needed.
    pub(super) fn texts(&self, key: &str, needed: bool, report: &mut Report<'_>) -> Vec<Placed<String>> {
        let value = if needed { self.need(key, report) } else { self.find(key) };
        let Some(value) = value else { return Vec::new() };
        let Some(list) = value.get_ref().as_array() else {
            wrong_type(key, "texts", value, report);
            return Vec::new();
        };
        if needed && list.is_empty() {
            report.add(&EMPTY, value.span(), [key.to_owned(), self.within.clone()]);
        }
        list.iter().filter_map(|item| text(key, item, &self.within, report)).collect()
    }

    /// One word out of a few; nothing where it is missing or wrong, which is then reported.
    pub(super) fn word<T: Copy>(
        &self,
        key: &str,
        all: &[T],
        name: fn(T) -> &'static str,
        report: &mut Report<'_>,
    ) -> Option<T> {
        let (word, at) = text(key, self.need(key, report)?, &self.within, report)?;
        one_of(key, &word, at, all, name, report)
    }

    /// A whole number within limits that may be left out.
    pub(super) fn whole(&self, key: &str, within: (u8, u8), report: &mut Report<'_>) -> Option<u8> {
        let value = self.find(key)?;
        whole(key, value, within, report)
    }

    /// A yes or no that may be left out.
    pub(super) fn flag(&self, key: &str, report: &mut Report<'_>) -> Option<bool> {
        let value = self.find(key)?;
        let flag = value.get_ref().as_bool();
        if flag.is_none() {
            wrong_type(key, "flag", value, report);
        }
        flag
    }
}

/// Reports a value of the wrong kind. The wanted kind is a word the text catalogue knows.
pub(super) fn wrong_type(key: &str, wanted: &str, value: &Spanned<DeValue<'_>>, report: &mut Report<'_>) {
    let found = value.get_ref().type_str();
    report.add(&WRONG_TYPE, value.span(), [key.to_owned(), wanted.to_owned(), found.to_owned()]);
}

/// Takes a value as a text that says something.
pub(super) fn text(
    key: &str,
    value: &Spanned<DeValue<'_>>,
    within: &str,
    report: &mut Report<'_>,
) -> Option<Placed<String>> {
    let Some(text) = value.get_ref().as_str() else {
        wrong_type(key, "text", value, report);
        return None;
    };
    if text.trim().is_empty() {
        report.add(&EMPTY, value.span(), [key.to_owned(), within.to_owned()]);
        return None;
    }
    Some((text.to_owned(), value.span()))
}

/// Takes a word as one of a few.
pub(super) fn one_of<T: Copy>(
    key: &str,
    word: &str,
    at: Range<usize>,
    all: &[T],
    name: fn(T) -> &'static str,
    report: &mut Report<'_>,
) -> Option<T> {
    let found = all.iter().copied().find(|value| name(*value) == word);
    if found.is_none() {
        let names: Vec<&str> = all.iter().map(|value| name(*value)).collect();
        let near = nearest(word, names.iter().copied());
        report.add(&UNKNOWN_WORD, at, [key.to_owned(), word.to_owned(), near, names.join(", ")]);
    }
    found
}

/// Takes a value as a finite number.
pub(super) fn number(key: &str, value: &Spanned<DeValue<'_>>, report: &mut Report<'_>) -> Option<f64> {
    let number = match value.get_ref() {
        DeValue::Integer(digits) => {
            // A whole number too long for 64 bits is past every limit; infinity says so to the next check.
            i64::from_str_radix(digits.as_str(), digits.radix()).map_or(f64::INFINITY, |whole| whole as f64)
        }
        DeValue::Float(digits) => digits.as_str().parse().unwrap_or(f64::NAN),
        _ => {
            wrong_type(key, "number", value, report);
            return None;
        }
    };
    if !number.is_finite() {
        report.add(&NOT_FINITE, value.span(), [key.to_owned()]);
        return None;
    }
    Some(number)
}

/// Takes a value as a number within limits, both included.
pub(super) fn number_within(
    key: &str,
    value: &Spanned<DeValue<'_>>,
    (low, high): (f64, f64),
    report: &mut Report<'_>,
) -> Option<f64> {
    let number = number(key, value, report)?;
    if number < low || high < number {
        let values = [key.to_owned(), number.to_string(), format!("{low} to {high}")];
        report.add(&OUT_OF_RANGE, value.span(), values);
        return None;
    }
    Some(number)
}

/// Takes a value as a whole number within limits, both included.
pub(super) fn whole(
    key: &str,
    value: &Spanned<DeValue<'_>>,
    (low, high): (u8, u8),
    report: &mut Report<'_>,
) -> Option<u8> {
    let number = number_within(key, value, (f64::from(low), f64::from(high)), report)?;
    if number.fract() != 0.0 {
        report.add(&NOT_WHOLE, value.span(), [key.to_owned(), number.to_string()]);
        return None;
    }
    // The limits are those of a u8, so the conversion is exact.
    Some(number as u8)
}
