//! Which passwords are taken: long enough and not easily guessed. No rules about kinds of characters, which make
//! passwords worse (NIST SP 800-63B, 3.1.1.2).

use std::collections::BTreeSet;
use std::fmt;

/// Fewest characters.
pub const FEWEST: usize = 10;
/// Most bytes: longer ones would only slow the check down.
pub const MOST_BYTES: usize = 256;

/// Words and runs that many people use, one a line; our own short list.
const COMMON: &str = include_str!("../words/common.txt");

/// A password that the policy has taken. Only such a one is ever hashed.
#[derive(Clone, PartialEq, Eq)]
pub struct Accepted(String);

impl fmt::Debug for Accepted {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Accepted(…)")
    }
}

impl Accepted {
    pub(crate) fn as_bytes(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

/// Why a password is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weakness {
    /// Fewer than [`FEWEST`] characters.
    Short,
    /// More than [`MOST_BYTES`] bytes.
    Long,
    /// A common word or run, perhaps with digits around it or letters swapped for signs.
    Common,
    /// The person's or the club's own name.
    Personal,
    /// One short piece over and over, or few different characters.
    Repeats,
}

/// Takes a password or says why not. `names` are words that anybody would try for this person: their name and login,
/// the club's name.
pub fn accept(password: &str, names: &[&str]) -> Result<Accepted, Weakness> {
    if password.chars().count() < FEWEST {
        return Err(Weakness::Short);
    }
    if MOST_BYTES < password.len() {
        return Err(Weakness::Long);
    }
    let plain = unmasked(password);
    let distinct: BTreeSet<char> = plain.chars().collect();
    if distinct.len() < 5 || is_repeated(&plain) {
        return Err(Weakness::Repeats);
    }
    let core: String = plain.chars().filter(|letter| letter.is_alphabetic()).collect();
    if names.iter().flat_map(|name| name.split_whitespace()).any(|name| is_mostly(&core, &unmasked(name))) {
        return Err(Weakness::Personal);
    }
    let is_common = COMMON.lines().map(str::trim).filter(|line| !line.is_empty()).any(|word| {
        is_mostly(&core, word) || plain.contains(word) && plain.chars().count() < word.chars().count() + 4
    });
    if is_common {
        return Err(Weakness::Common);
    }
    Ok(Accepted(password.to_owned()))
}

/// In lower case, with the usual signs put back into the letters they stand for.
fn unmasked(text: &str) -> String {
    text.chars()
        .flat_map(char::to_lowercase)
        .map(|letter| match letter {
            '@' | '4' => 'a',
            '3' => 'e',
            '0' => 'o',
            '$' | '5' => 's',
            '1' | '!' => 'i',
            '7' => 't',
            letter => letter,
        })
        .collect()
}

/// All but at most three letters of a text are one word, once or twice.
fn is_mostly(core: &str, word: &str) -> bool {
    if word.chars().count() < 3 {
        return false;
    }
    let rest = core.replace(word, "");
    rest.len() < core.len() && rest.chars().count() <= 3
}

/// One piece of at most five characters over and over.
fn is_repeated(text: &str) -> bool {
    let letters: Vec<char> = text.chars().collect();
    (1..=5).any(|length| letters.iter().zip(letters.iter().skip(length)).all(|(one, other)| one == other))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_and_odd_is_taken_whatever_its_characters() {
        for password in
            ["nine slow turtles", "wall-line rope cap", "Grünspecht im Regen", "qpeorituwyal", "8302945716"]
        {
            assert!(accept(password, &["Ana Example"]).is_ok(), "{password}");
        }
    }

    #[test]
    fn weak_ones_are_named() {
        for (password, weakness) in [
            ("", Weakness::Short),
            ("short9chr", Weakness::Short),
            ("passwordpassword", Weakness::Common),
            ("P@ssw0rd2026", Weakness::Common),
            ("1234567890", Weakness::Common),
            ("qwertyuiop", Weakness::Common),
            ("swimming2026!", Weakness::Common),
            ("cuffwright1", Weakness::Common),
            ("aaaaaaaaaaaa", Weakness::Repeats),
            ("abcabcabcabc", Weakness::Repeats),
            ("ab12ab12ab12", Weakness::Repeats),
            ("example2026!", Weakness::Personal),
            ("harbourclub1", Weakness::Personal),
        ] {
            let found = accept(password, &["Ana Example", "Harbourclub"]);
            assert_eq!(found.map(drop), Err(weakness), "{password}");
        }
        assert_eq!(accept(&"ab c".repeat(100), &[]).map(drop), Err(Weakness::Long));
    }

    #[test]
    fn the_list_is_written_as_it_is_compared() {
        for word in COMMON.lines() {
            assert_eq!(word, unmasked(word), "{word} is masked");
        }
    }
}
