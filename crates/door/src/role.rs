//! Roles, and the licence that is not one.

use jiff::civil::Date;

/// What somebody is to the club. One account has one role: whoever coaches and is a parent too has two accounts, so
/// that what is seen as the one never leaks into the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The practitioner who answers for the squad, and for the accounts.
    Owner,
    /// Works clinically under or beside the owner; no accounts.
    Practitioner,
    /// Runs the dryland session on deck.
    Supervisor,
    /// Plans the water.
    HeadCoach,
    /// Keeps roster, accounts and backups.
    Administrator,
    /// Swims.
    Swimmer,
    /// Answers for a swimmer under age.
    Guardian,
}

impl Role {
    /// Every role, in the order of the permission table.
    pub const ALL: [Role; 7] = [
        Role::Owner,
        Role::Practitioner,
        Role::Supervisor,
        Role::HeadCoach,
        Role::Administrator,
        Role::Swimmer,
        Role::Guardian,
    ];

    /// The word in records and forms; it never changes.
    pub const fn word(self) -> &'static str {
        match self {
            Role::Owner => "owner",
            Role::Practitioner => "practitioner",
            Role::Supervisor => "supervisor",
            Role::HeadCoach => "head-coach",
            Role::Administrator => "administrator",
            Role::Swimmer => "swimmer",
            Role::Guardian => "guardian",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Role> {
        Role::ALL.into_iter().find(|role| role.word() == word)
    }

    /// Sees only the record of swimmers that the account is bound to.
    pub const fn is_bound(self) -> bool {
        matches!(self, Role::Swimmer | Role::Guardian)
    }
}

/// A licence: a dated attribute of a person, not a role. What only a licensed clinician does asks for it on the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Licence {
    /// Number as the register has it.
    pub number: String,
    /// Last day it is valid.
    pub until: Date,
}

impl Licence {
    /// Valid on a day, the last day included.
    pub fn is_valid_on(&self, day: Date) -> bool {
        !self.number.trim().is_empty() && day <= self.until
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_licence_holds_to_its_last_day_and_needs_a_number() {
        let licence = Licence { number: "PT 4711".into(), until: date(2026, 3, 31) };
        assert!(licence.is_valid_on(date(2026, 3, 31)));
        assert!(!licence.is_valid_on(date(2026, 4, 1)));
        assert!(!Licence { number: " ".into(), ..licence }.is_valid_on(date(2026, 3, 1)));
    }

    #[test]
    fn every_role_is_read_back_from_its_word() {
        for role in Role::ALL {
            assert_eq!(Role::from_word(role.word()), Some(role));
        }
        assert_eq!(Role::from_word("Owner"), None);
    }
}
