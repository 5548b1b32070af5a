//! Pain in one cell for both shoulders: "0", "L3 R0", "left 2, right 0", "3 L".

use trade::side::Side;

use super::columns::side_of;
use super::words::tokens;

/// Numbers spoken for each shoulder; a shoulder that is not named was not answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Spoken {
    pub(super) left: Option<i64>,
    pub(super) right: Option<i64>,
}

/// Why a cell does not say what hurts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unclear {
    /// A number above zero without a shoulder.
    WhichSide,
    /// Outside 0-10.
    OffTheScale,
    /// Something else.
    Unreadable,
}

/// Reads a cell of a column without a side. A bare zero is said of both shoulders; any other number needs its side.
pub(super) fn parse(text: &str) -> Result<Spoken, Unclear> {
    if text.contains(['.', '-', '−', '–', '/']) && text.contains(|c: char| c.is_ascii_digit()) {
        return Err(Unclear::Unreadable);
    }
    let words = tokens(text);
    if let [only] = words.as_slice()
        && let Some(number) = whole(only)
    {
        return match number {
            0 => Ok(Spoken { left: Some(0), right: Some(0) }),
            1..=10 => Err(Unclear::WhichSide),
            _ => Err(Unclear::OffTheScale),
        };
    }
    if !words.len().is_multiple_of(2) || words.is_empty() {
        return Err(Unclear::Unreadable);
    }
    let mut spoken = Spoken::default();
    for pair in words.chunks(2) {
        let (side, number) = match (side_of(&pair[0]), whole(&pair[0]), side_of(&pair[1]), whole(&pair[1])) {
            (Some(side), _, _, Some(number)) | (_, Some(number), Some(side), _) => (side, number),
            _ => return Err(Unclear::Unreadable),
        };
        if !(0..=10).contains(&number) {
            return Err(Unclear::OffTheScale);
        }
        let slot = match side {
            Side::Left => &mut spoken.left,
            Side::Right => &mut spoken.right,
        };
        if slot.replace(number).is_some() {
            return Err(Unclear::Unreadable);
        }
    }
    Ok(spoken)
}

/// A whole number of at most four digits.
pub(super) fn whole(word: &str) -> Option<i64> {
    let fits = word.len() <= 4 && !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
    fits.then(|| word.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_needs_its_shoulder_unless_it_is_none() {
        let spoken = |left, right| Ok(Spoken { left, right });
        let cases = [
            ("0", spoken(Some(0), Some(0))),
            ("L3 R0", spoken(Some(3), Some(0))),
            ("left 2, right 1", spoken(Some(2), Some(1))),
            ("3 L", spoken(Some(3), None)),
            ("R 4", spoken(None, Some(4))),
            ("3", Err(Unclear::WhichSide)),
            ("11", Err(Unclear::OffTheScale)),
            ("L12", Err(Unclear::OffTheScale)),
            ("L3 L4", Err(Unclear::Unreadable)),
            ("3/0", Err(Unclear::Unreadable)),
            ("-1", Err(Unclear::Unreadable)),
            ("2.5 L", Err(Unclear::Unreadable)),
            ("a bit", Err(Unclear::Unreadable)),
            ("", Err(Unclear::Unreadable)),
        ];
        for (text, wanted) in cases {
            assert_eq!(parse(text), wanted, "{text}");
        }
    }
}
