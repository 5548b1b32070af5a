//! Whatever a club hands in, the reader answers; it never panics.

use proptest::prelude::*;
use trade::protocol::Problem;
use trade::protocol::read::{SHIPPED_TEXT, read, read_bytes};

/// What is listed can be shown: a line of the file, a message, values.
fn sound(text: &str, problems: &[Problem]) -> bool {
    let lines = text.matches('\n').count() + 1;
    !problems.is_empty()
        && problems.iter().all(|problem| (1..=lines).contains(&problem.line) && problem.column >= 1)
        && problems.is_sorted_by_key(|problem| problem.line)
}

/// Pieces that strain a reader: numbers at the edge, wrong types, broken syntax.
const PIECES: &[&str] = &[
    "1e308",
    "-1e308",
    "1e999",
    "inf",
    "-inf",
    "nan",
    "-0.0",
    "9223372036854775807",
    "99999999999999999999",
    "0xFFFF_FFFF_FFFF_FFFF",
    "\"\"",
    "\"",
    "'''",
    "[",
    "]",
    "{",
    "}",
    "[[",
    "]]",
    "=",
    ".",
    ",",
    "#",
    "\n",
    "\r\n",
    "\u{feff}",
    "\0",
    "ä",
    "true",
    "1979-05-27T07:32:00Z",
    "{ value = 1 }",
    "[[[[[[[[[[",
    "a.b.c = 1",
    "\\",
    "weight_lb = 1e308",
    "band_lbf = 1e308",
    "tempo = \"1e308/1e308/1e308\"",
    "tempo = \"circles NaN\"",
    "from_age = 300",
    "[[exercise]]",
    "[exercise]",
    "[parameters]",
];

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn arbitrary_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let problems = read_bytes(&bytes).expect_err("no random file is a protocol");
        prop_assert!(sound(&String::from_utf8_lossy(&bytes), &problems));
    }

    #[test]
    fn a_mutated_protocol(
        cuts in proptest::collection::vec((any::<prop::sample::Index>(), 0_usize..40, 0..PIECES.len()), 1..6),
    ) {
        let mut text = SHIPPED_TEXT.to_owned();
        for (index, length, piece) in cuts {
            let begin = text.floor_char_boundary(index.index(text.len()));
            let end = text.floor_char_boundary((begin + length).min(text.len()));
            text.replace_range(begin..end, PIECES[piece]);
        }
        if let Err(problems) = read(&text) {
            prop_assert!(sound(&text, &problems));
        }
    }

    #[test]
    fn a_number_in_any_place(value in any::<f64>(), index in any::<prop::sample::Index>()) {
        let places: Vec<usize> = SHIPPED_TEXT.match_indices(" = ").map(|(at, _)| at + 3).collect();
        let begin = places[index.index(places.len())];
        let end = begin + SHIPPED_TEXT[begin..].find([',', '\n', '}']).expect("a value ends");
        let text = format!("{}{value:?}{}", &SHIPPED_TEXT[..begin], &SHIPPED_TEXT[end..]);
        if let Err(problems) = read(&text) {
            prop_assert!(sound(&text, &problems));
        }
    }
}

#[test]
fn deep_nesting_is_refused_and_does_not_exhaust_the_stack() {
    let text = format!("a = {}", "[".repeat(100_000));
    assert!(read(&text).is_err());
}
