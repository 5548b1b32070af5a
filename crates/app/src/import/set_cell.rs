//! One set in one cell: "85 F6", "120 cap", "85 stop", "40 pain", "1:25 F3", "120 cap seen".

use quantity::reading::{self, DecimalMark, Dimension, Unit};

use super::choices;
use super::problem::{Problem, Said};
use super::words::squashed;
use crate::facts::EndWord;

/// What a cell says about a set; what it leaves open, other columns may say.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct SetCell {
    pub(super) seconds: f64,
    pub(super) end: Option<EndWord>,
    pub(super) fault: Option<String>,
    pub(super) seen: Option<bool>,
}

/// Reads a cell.
pub(super) fn parse(text: &str) -> Result<SetCell, Problem> {
    let wrong = || Problem::new("import-set-unreadable").suggest(Said::new("import-try-set-cell"));
    let lowered = text.trim().to_lowercase();
    let time_ends = lowered
        .char_indices()
        .find(|(_, c)| !(c.is_ascii_digit() || matches!(c, '.' | ',' | ':')))
        .map_or(lowered.len(), |(place, _)| place);
    let (time, mut rest) = lowered.split_at(time_ends);
    let time = time.trim_end_matches([',', '.', ':']);
    if time.is_empty() {
        return Err(wrong());
    }
    rest = rest.trim_start();
    for unit in ["seconds", "sec.", "secs", "sec", "s.", "s"] {
        if let Some(after) = rest.strip_prefix(unit)
            && !after.starts_with(char::is_alphabetic)
        {
            rest = after;
            break;
        }
    }
    let mark = if time.contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    let read =
        reading::quantity(time, Dimension::Time, Some(Unit::Second), Some(mark)).map_err(|_| wrong())?;
    let mut cell = SetCell { seconds: read.value, ..SetCell::default() };
    let words: Vec<&str> = rest.split([' ', '\u{a0}', ',', ';', '/', '(', ')', '-', '+']).collect();
    for word in words.into_iter().filter(|word| !word.is_empty()) {
        let twice = || Err(Problem::new("import-set-two-ends").suggest(Said::new("import-try-set-cell")));
        let plain = squashed(word);
        if let Some(code) = fault_code(word) {
            if cell.fault.replace(code).is_some() {
                return twice();
            }
        } else if plain == "seen" || plain == "watched" {
            cell.seen = Some(true);
        } else if plain == "unseen" {
            cell.seen = Some(false);
        } else if let Some((_, end)) = choices::END.iter().find(|(known, _)| *known == plain) {
            if cell.end.replace(*end).is_some_and(|before| before != *end) {
                return twice();
            }
        } else {
            return Err(Problem::new("import-set-word")
                .with("word", word)
                .suggest(Said::new("import-try-set-cell")));
        }
    }
    Ok(cell)
}

/// A fault code as written, "F6", "f06", as the protocol writes it, "F06".
pub(super) fn fault_code(word: &str) -> Option<String> {
    let digits = word.trim().strip_prefix(['f', 'F'])?.trim_start_matches('-');
    let number: u16 = digits.parse().ok().filter(|_| digits.len() <= 3)?;
    Some(format!("F{number:02}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn cells_as_people_write_them() {
        let cell = |seconds, end, fault: Option<&str>, seen| SetCell {
            seconds,
            end,
            fault: fault.map(str::to_owned),
            seen,
        };
        let cases = [
            ("85 F6", cell(85.0, None, Some("F06"), None)),
            ("85f06", cell(85.0, None, Some("F06"), None)),
            ("85 s F06", cell(85.0, None, Some("F06"), None)),
            ("85 form F6", cell(85.0, Some(EndWord::Form), Some("F06"), None)),
            ("120 cap", cell(120.0, Some(EndWord::Cap), None, None)),
            ("120cap", cell(120.0, Some(EndWord::Cap), None, None)),
            ("120 CAP seen", cell(120.0, Some(EndWord::Cap), None, Some(true))),
            ("120 cap (unseen)", cell(120.0, Some(EndWord::Cap), None, Some(false))),
            ("120 cap F3", cell(120.0, Some(EndWord::Cap), Some("F03"), None)),
            ("85 stop", cell(85.0, Some(EndWord::ChoseToStop), None, None)),
            ("40 pain", cell(40.0, Some(EndWord::Pain), None, None)),
            ("1:25 F3", cell(85.0, None, Some("F03"), None)),
            ("62,5 kit", cell(62.5, Some(EndWord::Kit), None, None)),
            ("30 out", cell(30.0, Some(EndWord::Left), None, None)),
            ("85", cell(85.0, None, None, None)),
        ];
        for (text, wanted) in cases {
            assert_eq!(parse(text), Ok(wanted), "{text}");
        }
        for text in ["", "cap", "F6", "85 fine", "85 cap stop", "85 F6 F7", "-5 F1", "85 left", "abc", "8 5"]
        {
            assert!(parse(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_panics(text in any::<String>(), near in "[0-9.,: a-zF]{0,12}") {
            let _ = (parse(&text), parse(&near));
        }
    }
}
