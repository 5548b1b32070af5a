//! Reads what was typed, and collects every problem instead of stopping at the first.

use app::desk::{Desk, Person};
use jiff::civil::Date;
use serde::de::DeserializeOwned;

use crate::web::parts::ask::{Ask, field_id};
use crate::web::parts::notice::Problem;
use crate::web::site::sent::Sent;
use crate::web::site::visit::Visit;
use crate::web::words::text;

/// About whom a form is, and who fills it in.
pub struct Setting<'a> {
    /// The desk.
    pub desk: &'a Desk,
    /// About whom.
    pub person: &'a Person,
    /// The request.
    pub visit: &'a Visit,
}

impl Setting<'_> {
    /// Today in the club's zone.
    pub fn today(&self) -> Date {
        self.visit.moment.today
    }
}

/// What was typed, being read.
pub struct Taking<'a> {
    sent: &'a Sent,
    asks: &'a [Ask],
    today: Date,
    /// What is wrong so far.
    pub problems: Vec<Problem>,
}

impl<'a> Taking<'a> {
    /// Begins to read.
    pub fn new(sent: &'a Sent, asks: &'a [Ask], today: Date) -> Self {
        Self { sent, asks, today, problems: Vec::new() }
    }

    /// What was sent.
    pub fn sent(&self) -> &'a Sent {
        self.sent
    }

    /// Notes a problem at a field.
    pub fn wrong(&mut self, name: &str, says: String) {
        let place = self.asks.iter().find(|ask| ask.name == name).map(|ask| ask.label.clone());
        let field = place.is_some().then(|| field_id("", name));
        self.problems.push(Problem { place: place.unwrap_or_default(), says, hint: String::new(), field });
    }

    fn missing<T>(&mut self, name: &str) -> Option<T> {
        self.wrong(name, text("take-needed"));
        None
    }

    /// A day that must be given.
    pub fn day(&mut self, name: &str) -> Option<Date> {
        if self.sent.one(name).is_empty() { self.missing(name) } else { self.day_or_none(name)? }
    }

    /// A day that must be given and has come: what has not happened yet cannot be on record.
    pub fn past_day(&mut self, name: &str) -> Option<Date> {
        let day = self.day(name)?;
        if self.today < day {
            self.wrong(name, text("take-future"));
            return None;
        }
        Some(day)
    }

    /// A day that may stay empty. Outer none: it cannot be read.
    pub fn day_or_none(&mut self, name: &str) -> Option<Option<Date>> {
        let Some(given) = self.sent.some(name) else { return Some(None) };
        match given.parse() {
            Ok(day) => Some(Some(day)),
            Err(_) => {
                self.wrong(name, text("take-not-a-day"));
                None
            }
        }
    }

    /// A number that may stay empty; a decimal comma is read as a point.
    pub fn number_or_none(&mut self, name: &str) -> Option<f64> {
        let given = self.sent.some(name)?;
        match given.replace(',', ".").parse::<f64>() {
            Ok(number) if number.is_finite() => Some(number),
            _ => {
                self.wrong(name, text("take-not-a-number"));
                None
            }
        }
    }

    /// A number that must be given.
    pub fn number(&mut self, name: &str) -> Option<f64> {
        if self.sent.one(name).is_empty() { self.missing(name) } else { self.number_or_none(name) }
    }

    /// A whole number that may stay empty.
    pub fn whole_or_none<T: std::str::FromStr>(&mut self, name: &str) -> Option<T> {
        let given = self.sent.some(name)?;
        let read = given.parse().ok();
        if read.is_none() {
            self.wrong(name, text("take-not-whole"));
        }
        read
    }

    /// Words that must be given.
    pub fn words(&mut self, name: &str) -> Option<String> {
        match self.sent.some(name) {
            Some(words) => Some(words.to_owned()),
            None => self.missing(name),
        }
    }

    /// One word of a list that must be chosen, as the wire shape reads it.
    pub fn word<T: DeserializeOwned>(&mut self, name: &str) -> Option<T> {
        if self.sent.one(name).is_empty() { self.missing(name) } else { self.word_or_none(name) }
    }

    /// One word of a list that may stay empty.
    pub fn word_or_none<T: DeserializeOwned>(&mut self, name: &str) -> Option<T> {
        let given = self.sent.some(name)?;
        let read = word_of(given);
        if read.is_none() {
            self.wrong(name, text("take-not-a-choice"));
        }
        read
    }

    /// Yes, no, or not answered.
    pub fn yes_no(&mut self, name: &str) -> Option<bool> {
        match self.sent.one(name) {
            "yes" => Some(true),
            "no" => Some(false),
            "" => None,
            _ => {
                self.wrong(name, text("take-not-a-choice"));
                None
            }
        }
    }
}

/// A word as the wire shape of its list reads it.
pub fn word_of<T: DeserializeOwned>(word: &str) -> Option<T> {
    serde_json::from_value(serde_json::Value::String(word.to_owned())).ok()
}
