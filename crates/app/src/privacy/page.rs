//! The archive's page for reading: plain HTML that needs nothing beside it.

use std::fmt::Write as _;

use door::Stamp;
use jiff::Timestamp;
use serde_json::Value;
use store::Fact;
use trade::rule::catalogue;

use super::archive::{Holds, Whole, payload};
use crate::desk::Desk;
use crate::facts::Kind;
use crate::text::Texts;

/// An instant as text.
pub(super) fn instant(at: Stamp) -> String {
    let millis = i64::try_from(at.0).ok();
    millis
        .and_then(|millis| Timestamp::from_millisecond(millis).ok())
        .map_or_else(String::new, |at| at.to_string())
}

/// Everything, in order of arrival.
pub(super) fn record(desk: &Desk, whole: &Whole) -> String {
    let texts = desk.texts();
    let word = |name: &str| escaped(&texts.word(name));
    let mut out = String::new();
    let title = escaped(&texts.say("archive-title", &[("name", whole.name.clone())]));
    // Writing into a String cannot fail, here and below.
    let _ = write!(
        out,
        "<!doctype html>\n<html lang=\"en-GB\">\n<head><meta charset=\"utf-8\"><title>{title}</title></head>\n<body>\n\
         <h1>{title}</h1>\n<p>{}</p>\n",
        word("archive-order")
    );
    for (fact, holds) in &whole.facts {
        entry(texts, fact, word(stands(*holds)).as_str(), &mut out);
    }
    for fact in &whole.waiting {
        entry(texts, fact, &word("archive-waiting"), &mut out);
    }
    let _ = write!(out, "<h2>{}</h2>\n<ul>\n", word("archive-seen"));
    for row in &whole.seen {
        let thing =
            row.thing.map_or_else(String::new, |thing| texts.word(&format!("thing-{}", thing.word())));
        let act = texts.word(&format!("act-{}", row.act));
        let line = format!("{} · {} · {act} · {thing}", instant(row.at), row.name);
        let _ = writeln!(out, "<li>{}</li>", escaped(&line));
    }
    out.push_str("</ul>\n</body>\n</html>\n");
    out
}

const fn stands(holds: Holds) -> &'static str {
    match holds {
        Holds::Yes => "archive-holds",
        Holds::Contested => "archive-contested",
        Holds::Replaced => "archive-replaced",
        Holds::TakesBack => "archive-takes-back",
    }
}

fn entry(texts: &Texts, fact: &Fact, stands: &str, out: &mut String) {
    let told = &fact.told;
    let kind = match Kind::from_word(&told.kind) {
        Some(kind) => texts.word(&format!("archive-kind-{}", kind.word())),
        None => told.kind.clone(),
    };
    let _ = writeln!(
        out,
        "<h2 id=\"f{}\">{} · {}</h2>\n<p>{stands}. {}</p>",
        told.id,
        escaped(&kind),
        escaped(&told.device_time),
        escaped(
            &texts.say("archive-by", &[("author", told.author.clone()), ("device", told.device.clone())])
        )
    );
    if let Some(correction) = &told.correction {
        let says = texts.say("archive-corrects", &[("reason", correction.reason.clone())]);
        let _ = writeln!(out, "<p><a href=\"#f{}\">{}</a></p>", correction.of, escaped(&says));
    }
    let value = payload(fact).unwrap_or(Value::Null);
    list(&value, out);
    // A decision names its rules by code; here they stand in words, as far as this version knows them.
    let codes = value["codes"].as_array().map_or(&[][..], Vec::as_slice);
    for rule in codes.iter().filter_map(Value::as_str).filter_map(rule_of) {
        let _ = writeln!(out, "<p>{}: {}</p>", escaped(rule.code.0), escaped(rule.name));
    }
}

fn rule_of(code: &str) -> Option<&'static trade::rule::Rule> {
    catalogue::all().find(|rule| rule.code.0 == code)
}

/// A payload as nested lists.
fn list(value: &Value, out: &mut String) {
    match value {
        Value::Null => {}
        Value::Object(fields) => {
            out.push_str("<ul>\n");
            for (name, value) in fields {
                let _ = write!(out, "<li>{}: ", escaped(&name.replace('_', " ")));
                list(value, out);
                out.push_str("</li>\n");
            }
            out.push_str("</ul>\n");
        }
        Value::Array(items) => {
            out.push_str("<ol>\n");
            for item in items {
                out.push_str("<li>");
                list(item, out);
                out.push_str("</li>\n");
            }
            out.push_str("</ol>\n");
        }
        Value::String(text) => out.push_str(&escaped(text)),
        other => out.push_str(&escaped(&other.to_string())),
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
