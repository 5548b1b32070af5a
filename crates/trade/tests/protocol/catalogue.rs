//! Every message the reader can name stands in the text catalogue, with the values it uses and no others.

use std::collections::{BTreeMap, BTreeSet};

use trade::protocol::parameter::PARAMETERS;
use trade::protocol::read::problem::MESSAGES;

const CATALOGUE: &str = include_str!("../../../app/text/en/protocol.ftl");

/// Message ids with their text, continuation lines joined.
fn catalogue() -> BTreeMap<&'static str, String> {
    let mut messages = BTreeMap::new();
    let mut current = "";
    for line in CATALOGUE.lines().filter(|line| !line.starts_with('#')) {
        match line.split_once(" = ") {
            Some((id, text)) if id.starts_with("protocol-") && !id.contains(' ') => {
                current = id;
                assert!(messages.insert(id, text.to_owned()).is_none(), "{id} stands twice");
            }
            _ if line.is_empty() => {}
            _ => *messages.get_mut(current).expect("a continuation follows a message") += line,
        }
    }
    messages
}

fn values_used(text: &str) -> BTreeSet<&str> {
    text.split('$').skip(1).map(|rest| rest.split([' ', '}']).next().unwrap_or_default()).collect()
}

#[test]
fn every_problem_has_its_words_and_its_hint() {
    let catalogue = catalogue();
    for message in MESSAGES {
        for id in [message.says, message.hint] {
            let text = catalogue.get(id).unwrap_or_else(|| panic!("{id} is not in the catalogue"));
            for value in values_used(text) {
                assert!(message.args.contains(&value), "{id} uses ${value}, which is not given");
            }
        }
    }
}

#[test]
fn the_catalogue_holds_nothing_that_no_code_names() {
    let named: BTreeSet<&str> = MESSAGES
        .iter()
        .flat_map(|message| [message.says, message.hint])
        .chain(PARAMETERS.iter().filter_map(|spec| spec.fixed))
        .collect();
    let held: BTreeSet<&str> = catalogue().into_keys().collect();
    assert_eq!(held, named);
}
