//! A fact's content: JSON in one canonical form, so that equal content has equal bytes and one hash.
//!
//! Keys are sorted, white space is dropped, and a whole number is written without a fraction (`2.0` becomes
//! `2`), since a phone and a spreadsheet write the same number differently. A key that stands twice in one
//! object is refused: choosing one of the two would be a silent repair.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

/// Canonical JSON; never `null`, which is how a retraction says "no value".
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Payload(String);

/// Why a text is no payload.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotAPayload {
    /// It is not JSON, or a key stands twice in one object.
    NotJson {
        /// What the reader says, with line and column.
        detail: String,
    },
    /// It is `null`.
    Null,
}

impl fmt::Display for NotAPayload {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotJson { detail } => write!(out, "payload is not JSON: {detail}"),
            Self::Null => write!(out, "payload is null"),
        }
    }
}

impl std::error::Error for NotAPayload {}

impl Payload {
    /// Reads JSON and puts it into the canonical form.
    pub fn from_text(text: &str) -> Result<Self, NotAPayload> {
        let value: Strict =
            serde_json::from_str(text).map_err(|error| NotAPayload::NotJson { detail: error.to_string() })?;
        if value.0.is_null() {
            return Err(NotAPayload::Null);
        }
        let mut canonical = String::with_capacity(text.len());
        write_value(&value.0, &mut canonical);
        Ok(Self(canonical))
    }

    /// Takes anything that serde can write as JSON.
    pub fn of(value: &impl serde::Serialize) -> Result<Self, NotAPayload> {
        let text = serde_json::to_string(value)
            .map_err(|error| NotAPayload::NotJson { detail: error.to_string() })?;
        Self::from_text(&text)
    }

    /// The canonical text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Text that this crate wrote itself.
    pub(crate) fn from_stored(text: String) -> Self {
        Self(text)
    }
}

impl fmt::Display for Payload {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// Writes one value in the canonical form.
fn write_value(value: &Value, out: &mut String) {
    match value {
        Value::Null | Value::Bool(_) | Value::String(_) => out.push_str(&value.to_string()),
        Value::Number(number) => out.push_str(&canonical_number(number)),
        Value::Array(items) => {
            out.push('[');
            for (index, item) in items.iter().enumerate() {
                if index > 0 {
                    out.push(',');
                }
                write_value(item, out);
            }
            out.push(']');
        }
        Value::Object(map) => write_object(map, out),
    }
}

fn write_object(map: &Map<String, Value>, out: &mut String) {
    // Sorted here and not by the map, whose order depends on a feature that any crate may switch on.
    let mut entries: Vec<_> = map.iter().collect();
    entries.sort_unstable_by_key(|(key, _)| *key);
    out.push('{');
    for (index, (key, item)) in entries.into_iter().enumerate() {
        if index > 0 {
            out.push(',');
        }
        out.push_str(&Value::String(key.clone()).to_string());
        out.push(':');
        write_value(item, out);
    }
    out.push('}');
}

fn canonical_number(number: &Number) -> String {
    /// Up to here every whole number has a double of its own.
    const EXACT: f64 = 9_007_199_254_740_992.0;
    match number.as_f64() {
        Some(value) if number.is_f64() && value.trunc() == value && value.abs() < EXACT => {
            format!("{}", value as i64)
        }
        _ => number.to_string(),
    }
}

/// JSON in which no object has a key twice.
struct Strict(Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(StrictVisitor).map(Self)
    }
}

struct StrictVisitor;

impl<'de> Visitor<'de> for StrictVisitor {
    type Value = Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("JSON")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Strict(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some((key, Strict(item))) = entries.next_entry::<String, Strict>()? {
            if map.contains_key(&key) {
                return Err(de::Error::custom(format_args!("key {key:?} stands twice")));
            }
            map.insert(key, item);
        }
        Ok(Value::Object(map))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn equal_content_has_one_text() {
        let cases = [
            (r#" {"b": 1.0, "a": [true, null]} "#, r#"{"a":[true,null],"b":1}"#),
            (r#"{"seconds":1e2}"#, r#"{"seconds":100}"#),
            (r#"-0.0"#, "0"),
            (r#"0.1"#, "0.1"),
            (r#""\u00e4\n""#, "\"ä\\n\""),
            (r#"{"a":{"d":1,"c":18446744073709551615}}"#, r#"{"a":{"c":18446744073709551615,"d":1}}"#),
        ];
        for (given, expected) in cases {
            assert_eq!(Payload::from_text(given).unwrap().as_str(), expected);
        }
    }

    #[test]
    fn what_is_no_payload_is_refused() {
        assert_eq!(Payload::from_text(" null "), Err(NotAPayload::Null));
        let deep = format!("{}1{}", "[".repeat(5000), "]".repeat(5000));
        for text in ["", "{", r#"{"pain":2,"pain":0}"#, "{} {}", "NaN", "1e999", deep.as_str()] {
            assert!(matches!(Payload::from_text(text), Err(NotAPayload::NotJson { .. })), "{text:.20}");
        }
    }

    proptest! {
        #[test]
        fn the_canonical_form_is_its_own_canonical_form(number: f64, text: String, whole: i64) {
            prop_assume!(number.is_finite());
            let once = Payload::of(&(number, &text, whole)).unwrap();
            prop_assert_eq!(&Payload::from_text(once.as_str()).unwrap(), &once);
            let (back, said, counted): (f64, String, i64) = serde_json::from_str(once.as_str()).unwrap();
            prop_assert_eq!((back, said, counted), (number, text, whole));
        }
    }
}
