//! The words on the pages, read once from the text catalogue.
//!
//! A page never holds a sentence of its own: it names a message, and the catalogue says it. A message that does
//! not exist shows its name in angle brackets, so that a reader sees the gap and a test can find it.

use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

const SOURCE: &str = include_str!("../../../app/text/en/web.ftl");

type Bundle = FluentBundle<FluentResource>;

/// Says a message that takes no values.
pub fn text(id: &str) -> String {
    say(id, &[])
}

/// Says a message with its values.
pub fn say(id: &str, values: &[(&str, Value<'_>)]) -> String {
    let Some(pattern) = catalogue().get_message(id).and_then(|message| message.value()) else {
        return format!("‹{id}›");
    };
    let args: FluentArgs<'_> = values.iter().map(|(name, value)| (*name, value.fluent())).collect();
    let mut problems = Vec::new();
    catalogue().format_pattern(pattern, Some(&args), &mut problems).into_owned()
}

/// One value in a message.
#[derive(Debug, Clone, Copy)]
pub enum Value<'a> {
    /// Words, exactly as given.
    Words(&'a str),
    /// A whole number, which also chooses between singular and plural.
    Count(i64),
}

impl<'a> Value<'a> {
    fn fluent(self) -> FluentValue<'a> {
        match self {
            Value::Words(words) => FluentValue::from(words),
            Value::Count(count) => FluentValue::from(count),
        }
    }
}

fn catalogue() -> &'static Bundle {
    static CATALOGUE: OnceLock<Bundle> = OnceLock::new();
    CATALOGUE.get_or_init(|| {
        let mut bundle = Bundle::new_concurrent(vec![english()]);
        // The marks that fence off mixed scripts would end up in copied text; every value here reads left to right.
        bundle.set_use_isolating(false);
        // A test reads the file without problems; should one slip through, the messages that parsed still speak.
        let resource = FluentResource::try_new(SOURCE.to_owned()).unwrap_or_else(|(partly, _)| partly);
        bundle.add_resource_overriding(resource);
        bundle
    })
}

fn english() -> LanguageIdentifier {
    "en-GB".parse().expect("en-GB is a well-formed language tag")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_catalogue_reads_without_a_problem_and_names_nothing_twice() {
        let resource = FluentResource::try_new(SOURCE.to_owned()).expect("web.ftl parses");
        let mut bundle = Bundle::new_concurrent(vec![english()]);
        assert!(bundle.add_resource(resource).is_ok(), "a message name stands twice");
    }

    #[test]
    fn numbers_choose_singular_and_plural() {
        assert_eq!(say("list-people", &[("n", Value::Count(1))]), "1 person");
        assert_eq!(say("list-people", &[("n", Value::Count(26))]), "26 people");
    }

    #[test]
    fn a_missing_message_shows_its_name() {
        assert_eq!(text("no-such-message"), "‹no-such-message›");
    }

    #[test]
    fn a_name_with_markup_comes_back_as_it_was_written() {
        let said = say("why-rule-link", &[("code", Value::Words("<b>{P4}"))]);
        assert!(said.contains("<b>{P4}"), "{said}");
    }
}
