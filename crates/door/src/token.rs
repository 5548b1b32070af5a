//! What a browser or a device carries: a random token, kept here only as its hash.
//!
//! A token is 256 random bits, so a plain SHA-256 is enough to keep it by: there is nothing to guess. Whoever steals
//! the file holds no token.

use std::fmt;

use sha2::{Digest, Sha256};
use subtle::ConstantTimeEq;

/// A token, for its bearer only. It prints as nothing.
#[derive(Clone, PartialEq, Eq)]
pub struct Token([u8; 32]);

/// What is kept of a token.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TokenHash(pub [u8; 32]);

impl fmt::Debug for Token {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Token(…)")
    }
}

impl Token {
    /// A token of random bytes, from [`crate::fresh::bytes`].
    pub const fn from_random(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// As a cookie carries it.
    pub fn reveal(&self) -> String {
        hex(&self.0)
    }

    /// Reads what a cookie carries; none for anything that was never handed out.
    pub fn read(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        if digits.len() != 64 || !digits.iter().all(|digit| matches!(digit, b'0'..=b'9' | b'a'..=b'f')) {
            return None;
        }
        let mut bytes = [0; 32];
        for (byte, pair) in bytes.iter_mut().zip(text.as_bytes().chunks_exact(2)) {
            let pair = std::str::from_utf8(pair).ok()?;
            *byte = u8::from_str_radix(pair, 16).ok()?;
        }
        Some(Self(bytes))
    }

    /// What is kept of it.
    pub fn hash(&self) -> TokenHash {
        TokenHash(labelled(b"cuffwright token", &self.0))
    }

    /// The word that forms of this session carry, so that a page elsewhere cannot send one in its name. It follows
    /// from the token and gives nothing of it away, so it needs no place of its own and ends with the session.
    pub fn form_word(&self) -> String {
        hex(&labelled(b"cuffwright form", &self.0))
    }

    /// Whether a form carries this session's word. Takes the same time wherever the first difference lies.
    pub fn is_form_word(&self, given: &str) -> bool {
        self.form_word().as_bytes().ct_eq(given.as_bytes()).into()
    }
}

/// A hash of bytes under a label, so that a hash made for one purpose never serves another.
pub(crate) fn labelled(label: &[u8], bytes: &[u8]) -> [u8; 32] {
    let mut hash = Sha256::new();
    hash.update((label.len() as u64).to_be_bytes());
    hash.update(label);
    hash.update(bytes);
    hash.finalize().into()
}

/// Lower-case hexadecimal.
pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn token(byte: u8) -> Token {
        Token::from_random([byte; 32])
    }

    #[test]
    fn a_token_is_read_back_and_nothing_else_is() {
        assert_eq!(Token::read(&token(7).reveal()), Some(token(7)));
        let upper = token(0xab).reveal().to_uppercase();
        let long = format!("{}0", token(7).reveal());
        for text in ["", "07", "../../etc/passwd", &upper, &long, &"é".repeat(32), &"+1".repeat(32)] {
            assert_eq!(Token::read(text), None, "{text}");
        }
    }

    #[test]
    fn what_is_kept_and_what_forms_carry_is_not_the_token() {
        let token = token(7);
        assert_ne!(hex(&token.hash().0), token.reveal());
        assert_ne!(token.form_word(), token.reveal());
        assert_ne!(token.form_word(), hex(&token.hash().0));
        assert_eq!(format!("{token:?}"), "Token(…)");
    }

    #[test]
    fn a_form_word_belongs_to_one_session() {
        assert!(token(1).is_form_word(&token(1).form_word()));
        assert!(!token(1).is_form_word(&token(2).form_word()));
        assert!(!token(1).is_form_word(""));
        assert!(!token(1).is_form_word(&token(1).reveal()));
    }
}
