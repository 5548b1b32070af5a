//! Short codes that a person reads from one screen and types into another.
//!
//! - *Pairing*: shown on the laptop, typed on a phone; five minutes, five tries, once.
//! - *Invitation*: handed to somebody who gets an account and sets a password with it; three days, five tries, once.
//! - *Recovery*: made only on the laptop's own command line for an owner who forgot the password; 15 minutes.
//!
//! Thirty letters and digits that look and sound apart; ten of them for codes that last longer.

use subtle::ConstantTimeEq;

use crate::stamp::{Span, Stamp};
use crate::token::labelled;

/// No 0 and O, no 1, I and L, no U and V beside each other in sound: what is left is read aloud without spelling.
const ALPHABET: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";

/// What a code is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Purpose {
    /// Pairs a deck device.
    Pairing,
    /// Lets somebody set the first password of an account.
    Invitation,
    /// Lets somebody set a new password.
    Recovery,
}

impl Purpose {
    /// The word in records.
    pub const fn word(self) -> &'static str {
        match self {
            Purpose::Pairing => "pairing",
            Purpose::Invitation => "invitation",
            Purpose::Recovery => "recovery",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Purpose> {
        [Purpose::Pairing, Purpose::Invitation, Purpose::Recovery]
            .into_iter()
            .find(|purpose| purpose.word() == word)
    }

    /// Characters. Eight give 6 × 10¹¹ codes: five tries in five minutes find one in a hundred thousand million.
    pub const fn length(self) -> usize {
        match self {
            Purpose::Pairing => 8,
            Purpose::Invitation | Purpose::Recovery => 12,
        }
    }

    /// How long it holds.
    pub const fn lifetime(self) -> Span {
        match self {
            Purpose::Pairing => Span::minutes(5),
            Purpose::Invitation => Span::days(3),
            Purpose::Recovery => Span::minutes(15),
        }
    }
}

/// Wrong tries that end a code.
pub const MOST_TRIES: u8 = 5;

/// A code, to be shown once.
#[derive(Clone, PartialEq, Eq)]
pub struct Code(String);

/// What is kept of a code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CodeHash(pub [u8; 32]);

impl std::fmt::Debug for Code {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str("Code(…)")
    }
}

impl Code {
    /// A code from random bytes. A byte beyond the last whole multiple of the alphabet would favour some letters and
    /// is passed over; none when so many had to be that too few are left, which then asks for new bytes.
    pub fn from_random(purpose: Purpose, bytes: &[u8; 32]) -> Option<Self> {
        let most = 256 - 256 % ALPHABET.len();
        let letters = bytes.iter().map(|byte| usize::from(*byte)).filter(|byte| *byte < most);
        let text: String =
            letters.take(purpose.length()).map(|byte| char::from(ALPHABET[byte % ALPHABET.len()])).collect();
        (text.len() == purpose.length()).then_some(Self(text))
    }

    /// In groups of four, for reading aloud.
    pub fn shown(&self) -> String {
        let groups: Vec<String> =
            self.0.as_bytes().chunks(4).map(|group| String::from_utf8_lossy(group).into_owned()).collect();
        groups.join("-")
    }

    /// What is kept of it. The id of its row salts it.
    pub fn hash(&self, salt: &[u8; 16]) -> CodeHash {
        hash_of(&self.0, salt)
    }
}

fn hash_of(letters: &str, salt: &[u8; 16]) -> CodeHash {
    let mut bytes = salt.to_vec();
    bytes.extend_from_slice(letters.as_bytes());
    CodeHash(labelled(b"cuffwright code", &bytes))
}

/// What a person typed, without spaces and dashes and in capitals; letters that a code never has are read as the
/// digits or letters they are mistaken for.
fn read(typed: &str) -> String {
    typed
        .chars()
        .filter(|letter| !letter.is_whitespace() && !matches!(letter, '-' | '–' | '_' | '.'))
        .take(64)
        .flat_map(char::to_uppercase)
        .map(|letter| match letter {
            'U' => 'V',
            letter => letter,
        })
        .collect()
}

/// A code as it is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// Salt.
    pub salt: [u8; 16],
    /// Hash.
    pub hash: CodeHash,
    /// Last instant but one: from here on it no longer holds.
    pub ends: Stamp,
    /// Wrong tries so far.
    pub wrong: u8,
}

/// What comes of typing a code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Right: it is used up now.
    Right,
    /// Wrong; so many tries are left.
    Wrong {
        /// Tries left.
        left: u8,
    },
    /// It no longer holds, right or not.
    Ended,
}

impl Kept {
    /// Still open for tries.
    pub fn is_open(&self, now: Stamp) -> bool {
        now < self.ends && self.wrong < MOST_TRIES
    }

    /// Judges what somebody typed.
    pub fn judge(&self, typed: &str, now: Stamp) -> Verdict {
        let right: bool = hash_of(&read(typed), &self.salt).0.ct_eq(&self.hash.0).into();
        match (self.is_open(now), right) {
            (false, _) => Verdict::Ended,
            (true, true) => Verdict::Right,
            (true, false) => Verdict::Wrong { left: MOST_TRIES - 1 - self.wrong },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn kept(code: &Code, wrong: u8) -> Kept {
        Kept { salt: [3; 16], hash: code.hash(&[3; 16]), ends: Stamp(100), wrong }
    }

    fn code() -> Code {
        Code::from_random(Purpose::Pairing, &[25; 32]).unwrap()
    }

    #[test]
    fn codes_have_their_length_and_no_letters_that_look_alike() {
        let bytes: [u8; 32] = std::array::from_fn(|index| u8::try_from(index * 7).unwrap());
        for purpose in [Purpose::Pairing, Purpose::Invitation, Purpose::Recovery] {
            let code = Code::from_random(purpose, &bytes).unwrap();
            assert_eq!(code.0.len(), purpose.length());
            assert!(code.0.bytes().all(|letter| ALPHABET.contains(&letter)));
            assert_eq!(Purpose::from_word(purpose.word()), Some(purpose));
        }
        assert!(ALPHABET.iter().all(|letter| !b"01ILOU".contains(letter)));
        assert_eq!(Code::from_random(Purpose::Pairing, &[250; 32]), None, "no byte is usable");
    }

    #[test]
    fn every_letter_is_as_likely_as_every_other() {
        let mut counts = [0; 30];
        for byte in 0..=255_u8 {
            if let Some(code) = Code::from_random(Purpose::Pairing, &[byte; 32]) {
                counts[ALPHABET.iter().position(|letter| *letter == code.0.as_bytes()[0]).unwrap()] += 1;
            }
        }
        assert_eq!(counts, [8; 30]);
    }

    #[test]
    fn it_is_typed_as_people_type() {
        let shown = code().shown();
        assert_eq!(shown.len(), 9);
        for typed in [shown.clone(), shown.to_lowercase(), format!(" {} ", shown.replace('-', " "))] {
            assert_eq!(kept(&code(), 0).judge(&typed, Stamp(0)), Verdict::Right, "{typed}");
        }
    }

    #[test]
    fn a_right_code_is_no_good_when_it_is_late_or_tried_too_often() {
        let shown = code().shown();
        assert_eq!(kept(&code(), 0).judge(&shown, Stamp(99)), Verdict::Right);
        assert_eq!(kept(&code(), 0).judge(&shown, Stamp(100)), Verdict::Ended);
        assert_eq!(kept(&code(), 4).judge(&shown, Stamp(0)), Verdict::Right);
        assert_eq!(kept(&code(), 5).judge(&shown, Stamp(0)), Verdict::Ended);
        assert_eq!(kept(&code(), 3).judge("2222-2222", Stamp(0)), Verdict::Wrong { left: 1 });
    }

    proptest! {
        /// Whoever guesses gets five tries at one code, and hits only by typing the very code.
        #[test]
        fn a_guesser_has_five_tries(guesses in prop::collection::vec("[2-9A-HJKMNP-TV-Z]{8}", 1..20)) {
            let mut row = kept(&code(), 0);
            let mut judged = 0;
            for guess in &guesses {
                match row.judge(guess, Stamp(0)) {
                    Verdict::Right => prop_assert_eq!(guess, &code().0),
                    Verdict::Wrong { .. } => { row.wrong += 1; judged += 1; }
                    Verdict::Ended => prop_assert_eq!(row.wrong, MOST_TRIES),
                }
            }
            prop_assert!(judged <= usize::from(MOST_TRIES));
        }
    }
}
