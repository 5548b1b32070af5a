//! How passwords are kept: Argon2id, with its parameters in each stored string.

use std::sync::LazyLock;

use argon2::password_hash::phc::PasswordHash as Phc;
use argon2::{Algorithm, Argon2, Params, PasswordHasher, PasswordVerifier, Version};

use crate::policy::Accepted;

/// Memory in KiB, passes and lanes: the second recommended option of RFC 9106, section 4 ("much less memory"), which
/// lies above every row that the OWASP password storage cheat sheet asks for. Measured: 0.2 s a check on two busy
/// cores, known and unknown name alike (`cargo bench -p door`).
pub const MEMORY_KIB: u32 = 64 * 1024;
/// Passes.
pub const PASSES: u32 = 3;
/// Lanes.
pub const LANES: u32 = 4;
/// Length of the result in bytes.
const OUTPUT: usize = 32;

/// What is kept of a password: a string that carries algorithm, version, parameters, salt and result.
#[derive(Clone, PartialEq, Eq)]
pub struct PasswordHash(String);

impl std::fmt::Debug for PasswordHash {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str("PasswordHash(…)")
    }
}

fn hasher() -> Argon2<'static> {
    let params = Params::new(MEMORY_KIB, PASSES, LANES, Some(OUTPUT)).expect("the parameters are in range");
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
}

impl PasswordHash {
    /// Hashes an accepted password. Slow on purpose: call it where nothing waits for a lock.
    pub fn of(password: &Accepted, salt: &[u8; 16]) -> Self {
        let hash = hasher()
            .hash_password_with_salt(password.as_bytes(), salt)
            .expect("a salt of sixteen bytes and a password of at most 256 are always hashed");
        Self(hash.to_string())
    }

    /// As it was kept.
    pub fn from_kept(text: String) -> Self {
        Self(text)
    }

    /// To be kept.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Made with other parameters than today's: hash anew at the next right password.
    pub fn is_outdated(&self) -> bool {
        let Ok(phc) = Phc::new(&self.0) else { return true };
        let Ok(params) = Params::try_from(&phc) else { return true };
        phc.algorithm.as_str() != "argon2id"
            || (params.m_cost(), params.t_cost(), params.p_cost()) != (MEMORY_KIB, PASSES, LANES)
    }
}

/// Stands in where no account has a name, so that the same work is done. Nobody knows a password for it, and it is
/// never right even for the one it was made from.
static NOBODY: LazyLock<PasswordHash> = LazyLock::new(|| {
    let salt = *b"nobody lives her";
    let hash = hasher().hash_password_with_salt(b"nobody", &salt);
    PasswordHash(hash.expect("constants are always hashed").to_string())
});

/// Whether a password is right. Does the same work whether there is such an account or not, so that the time says
/// nothing about who has one.
pub fn is_right(kept: Option<&PasswordHash>, typed: &str) -> bool {
    // Longer than any password that was ever taken: cut, so that the work stays the same.
    let typed = &typed.as_bytes()[..typed.len().min(crate::policy::MOST_BYTES + 1)];
    let against = kept.unwrap_or(&NOBODY);
    let right = Phc::new(&against.0).is_ok_and(|phc| hasher().verify_password(typed, &phc).is_ok());
    right && kept.is_some()
}

/// Makes the stand-in now, so that the first unknown name does not take longer than the others.
pub fn prepare() {
    LazyLock::force(&NOBODY);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::policy::accept;

    #[test]
    fn a_password_is_right_or_not_and_the_salt_matters() {
        let accepted = accept("nine slow turtles", &[]).unwrap();
        let kept = PasswordHash::of(&accepted, &[1; 16]);
        assert!(kept.as_str().starts_with("$argon2id$v=19$m=65536,t=3,p=4$"));
        assert!(is_right(Some(&kept), "nine slow turtles"));
        assert!(!is_right(Some(&kept), "nine slow turtle"));
        assert!(!is_right(Some(&kept), ""));
        assert_ne!(kept, PasswordHash::of(&accepted, &[2; 16]));
        assert!(!format!("{kept:?}").contains("argon2"));
        assert!(!kept.is_outdated());
    }

    #[test]
    fn an_unknown_name_costs_the_same_work_and_is_never_right() {
        // The same parameters are the same work; time itself is no unit test.
        assert!(!NOBODY.is_outdated());
        assert!(!is_right(None, "nobody"));
    }

    #[test]
    fn hashes_of_other_parameters_are_renewed_and_rubbish_is_never_right() {
        let weaker = Argon2::new(Algorithm::Argon2id, Version::V0x13, Params::new(64, 1, 1, None).unwrap());
        let text = weaker.hash_password_with_salt(b"nine slow turtles", &[1; 16]).unwrap().to_string();
        let kept = PasswordHash::from_kept(text);
        assert!(kept.is_outdated() && is_right(Some(&kept), "nine slow turtles"));
        for rubbish in ["", "nine slow turtles", "$argon2id$v=19$m=8,t=1,p=1$$"] {
            let kept = PasswordHash::from_kept(rubbish.to_owned());
            assert!(kept.is_outdated() && !is_right(Some(&kept), "nine slow turtles"), "{rubbish}");
        }
    }

    /// RFC 9106, section 5.3: the test vector of Argon2id, so that a changed crate is noticed.
    #[test]
    fn argon2id_is_the_published_function() {
        let params = argon2::ParamsBuilder::new()
            .m_cost(32)
            .t_cost(3)
            .p_cost(4)
            .data(argon2::AssociatedData::new(&[4; 12]).unwrap())
            .output_len(32)
            .build()
            .unwrap();
        let argon2 = Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).unwrap();
        let mut tag = [0; 32];
        argon2.hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
        let expected = "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659";
        assert_eq!(crate::token::hex(&tag), expected);
    }
}
