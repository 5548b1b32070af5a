//! Walking a table of the file: keys in several spellings, values of several kinds, everything with its place.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::problem::{MISSING, OUT_OF_RANGE, Report, TWICE, UNKNOWN_KEY, WRONG_TYPE, nearest};

/// A key: its name, then other spellings people use.
pub(super) type Key = &'static [&'static str];

/// A table with what a person calls it.
#[derive(Clone)]
pub(super) struct Table<'a> {
    table: &'a DeTable<'a>,
    /// Where it begins.
    pub(super) at: Range<usize>,
    /// What it is, for instance `practices`.
    pub(super) within: String,
}

/// A value with its place.
pub(super) type Value<'a> = &'a Spanned<DeValue<'a>>;

/// A text as keys are compared: lower case, without spaces, hyphens and underscores.
pub(super) fn plain(text: &str) -> String {
    text.chars().filter(|letter| !matches!(letter, ' ' | '-' | '_')).flat_map(char::to_lowercase).collect()
}

impl<'a> Table<'a> {
    pub(super) fn new(table: &'a DeTable<'a>, at: Range<usize>, within: &str) -> Self {
        Self { table, at, within: within.to_owned() }
    }

    /// Reports every key that is none of these.
    pub(super) fn only(&self, keys: &[Key], report: &mut Report<'_>) {
        for (key, _) in self.table {
            let name = key.get_ref().as_ref();
            let is_known = keys.iter().any(|key| key.iter().any(|spelling| plain(spelling) == plain(name)));
            if !is_known {
                let near = nearest(name, keys.iter().flat_map(|key| key.iter().copied()));
                let names: Vec<&str> = keys.iter().map(|key| key[0]).collect();
                report.add(
                    &UNKNOWN_KEY,
                    key.span(),
                    [name.to_owned(), self.within.clone(), near, names.join(", ")],
                );
            }
        }
    }

    /// A value under any spelling of its key; two spellings at once are reported.
    pub(super) fn find(&self, key: Key, report: &mut Report<'_>) -> Option<Value<'a>> {
        let mut found = self
            .table
            .iter()
            .filter(|(name, _)| key.iter().any(|spelling| plain(spelling) == plain(name.get_ref().as_ref())));
        let (name, value) = found.next()?;
        if let Some((other, _)) = found.next() {
            let names = [name.get_ref().to_string(), other.get_ref().to_string()];
            report.add(&TWICE, other.span(), names);
        }
        Some(value)
    }

    /// A value that must stand there.
    pub(super) fn need(&self, key: Key, report: &mut Report<'_>) -> Option<Value<'a>> {
        let value = self.find(key, report);
        if value.is_none() {
            report.add(&MISSING, self.at.clone(), [key[0].to_owned(), self.within.clone()]);
        }
        value
    }

    /// A list of tables; one table alone counts as a list of one.
    pub(super) fn tables(&self, key: Key, report: &mut Report<'_>) -> Vec<Table<'a>> {
        let Some(value) = self.find(key, report) else { return Vec::new() };
        let items: Vec<Value<'a>> = match value.get_ref() {
            DeValue::Array(items) => items.iter().collect(),
            _ => vec![value],
        };
        items.into_iter().filter_map(|item| open(item, key[0], report)).collect()
    }

    /// A table that may be left out.
    pub(super) fn table(&self, key: Key, report: &mut Report<'_>) -> Option<Table<'a>> {
        open(self.find(key, report)?, key[0], report)
    }

    /// A text that may be left out.
    pub(super) fn text(&self, key: Key, report: &mut Report<'_>) -> Option<(String, Range<usize>)> {
        let value = self.find(key, report)?;
        text(value, key[0], report).map(|text| (text, value.span()))
    }

    /// Texts: one alone or a list.
    pub(super) fn texts(&self, key: Key, report: &mut Report<'_>) -> Option<Vec<(String, Range<usize>)>> {
        let value = self.find(key, report)?;
        let items: Vec<Value<'a>> = match value.get_ref() {
            DeValue::Array(items) => items.iter().collect(),
            _ => vec![value],
        };
        Some(
            items
                .into_iter()
                .filter_map(|item| text(item, key[0], report).map(|text| (text, item.span())))
                .collect(),
        )
    }

    /// A number within limits that may be left out.
    pub(super) fn number(&self, key: Key, limits: (f64, f64), report: &mut Report<'_>) -> Option<f64> {
        let value = self.find(key, report)?;
        let number = match value.get_ref() {
            DeValue::Integer(digits) => {
                i64::from_str_radix(digits.as_str(), digits.radix()).ok().map(|it| it as f64)
            }
            DeValue::Float(digits) => digits.as_str().parse().ok(),
            _ => {
                wrong(value, key[0], "number", report);
                return None;
            }
        };
        let number = number.filter(|number: &f64| limits.0 <= *number && *number <= limits.1);
        if number.is_none() {
            let allowed = format!("{} to {}", limits.0, limits.1);
            report.add(&OUT_OF_RANGE, value.span(), [key[0].to_owned(), shown(value), allowed]);
        }
        number
    }

    /// A whole number within limits that may be left out.
    pub(super) fn whole(&self, key: Key, limits: (u32, u32), report: &mut Report<'_>) -> Option<u32> {
        let number = self.number(key, (f64::from(limits.0), f64::from(limits.1)), report)?;
        if number.fract() != 0.0 {
            let at = self.find(key, report).map_or(self.at.clone(), |value| value.span());
            let allowed = format!("{} to {}", limits.0, limits.1);
            report.add(&OUT_OF_RANGE, at, [key[0].to_owned(), number.to_string(), allowed]);
            return None;
        }
        // Within limits of a u32 and whole, so the conversion is exact.
        Some(number as u32)
    }

    /// Yes or no that may be left out.
    pub(super) fn flag(&self, key: Key, report: &mut Report<'_>) -> Option<bool> {
        let value = self.find(key, report)?;
        let flag = value.get_ref().as_bool();
        if flag.is_none() {
            wrong(value, key[0], "flag", report);
        }
        flag
    }

    /// Every key with its value.
    pub(super) fn entries(&self) -> impl Iterator<Item = (String, Value<'a>)> + 'a {
        self.table.iter().map(|(key, value)| (key.get_ref().to_string(), value))
    }
}

fn open<'a>(value: Value<'a>, key: &str, report: &mut Report<'_>) -> Option<Table<'a>> {
    match value.get_ref().as_table() {
        Some(table) => Some(Table::new(table, value.span(), key)),
        None => {
            wrong(value, key, "table", report);
            None
        }
    }
}

/// A value as text; dates and times count as the text they were written as.
pub(super) fn text(value: Value<'_>, key: &str, report: &mut Report<'_>) -> Option<String> {
    match value.get_ref() {
        DeValue::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
        DeValue::Datetime(moment) => Some(moment.to_string()),
        _ => {
            wrong(value, key, "text", report);
            None
        }
    }
}

/// A value as it is shown in a message.
pub(super) fn shown(value: Value<'_>) -> String {
    match value.get_ref() {
        DeValue::String(text) => text.to_string(),
        DeValue::Integer(digits) => digits.as_str().to_owned(),
        DeValue::Float(digits) => digits.as_str().to_owned(),
        DeValue::Datetime(moment) => moment.to_string(),
        other => other.type_str().to_owned(),
    }
}

pub(super) fn wrong(value: Value<'_>, key: &str, wanted: &str, report: &mut Report<'_>) {
    let found = value.get_ref().type_str();
    report.add(&WRONG_TYPE, value.span(), [key.to_owned(), wanted.to_owned(), found.to_owned()]);
}
