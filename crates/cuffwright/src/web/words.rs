//! The words on the pages, from the one text catalogue.
//!
//! A page never holds a sentence of its own: it names a message, and the catalogue says it. A message that does
//! not exist shows its name in angle brackets, so that a reader sees the gap and a test can find it.

use app::text::Texts;
pub use app::text::Value;

/// Says a message that takes no values.
pub fn text(id: &str) -> String {
    say(id, &[])
}

/// Says a message with its values.
pub fn say(id: &str, values: &[(&str, Value<'_>)]) -> String {
    let texts = Texts::english();
    if texts.has(id) { texts.phrase(id, values) } else { format!("‹{id}›") }
}

#[cfg(test)]
mod tests {
    use super::*;

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
