//! The permission table: what each role sees and does, one row a kind of thing.
//!
//! Who sees what follows the trade's own list (trade handbook, A.4); what goes beyond it is common practice. The page
//! `docs/who-sees-what.md` is generated from here, and so are the tests that look for what must not be seen.

use Reach::{Agreed, All, Nothing, Own};

/// How far a role reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reach {
    /// Not at all.
    Nothing,
    /// Records that the account is bound to; a guardian's reach ends when the swimmer comes of age.
    Own,
    /// As `Own`; and a guardian of a teenager only where the teenager has agreed.
    Agreed,
    /// Everybody's.
    All,
}

macro_rules! things {
    ($($(#[$doc:meta])* $variant:ident => $word:literal),* $(,)?) => {
        /// A kind of thing that can be seen or done.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Thing {
            $($(#[$doc])* $variant,)*
        }

        impl Thing {
            /// Every kind, in the order of the table.
            pub const ALL: &'static [Thing] = &[$(Thing::$variant),*];

            /// The word in audit rows, and in the name of its sentence.
            pub const fn word(self) -> &'static str {
                match self { $(Thing::$variant => $word),* }
            }

            /// Reads the word.
            pub fn from_word(word: &str) -> Option<Thing> {
                Thing::ALL.iter().copied().find(|thing| thing.word() == word)
            }
        }
    };
}

things! {
    /// Name and squad.
    Roster => "roster",
    /// Date of birth, contacts, number in the club's list.
    Personal => "personal",
    /// The word of availability and how much of the dryland it leaves.
    Availability => "availability",
    /// What a person decided about the water.
    WaterAdvice => "water-advice",
    /// Sessions attended.
    Attendance => "attendance",
    /// Card: doses, rungs, set times, faults.
    Card => "card",
    /// May start today, what stops today.
    Today => "today",
    /// Allergy and emergency line, whom to ring.
    Emergency => "emergency",
    /// Pain numbers and signs.
    Pain => "pain",
    /// Why something is held back.
    Health => "health",
    /// Values of screenings and re-tests.
    Screening => "screening",
    /// Intake answers, illnesses, growth, laxity.
    History => "history",
    /// Referrals, clearances, signed limits.
    Letters => "letters",
    /// Free-text notes and reasons of overrides.
    Notes => "notes",
    /// Which consents were signed, by whom, until when.
    Consent => "consent",
    /// Practices, meets, periods.
    Calendar => "calendar",
    /// Kit and its inspections.
    Kit => "kit",
    /// The protocol with its sources.
    Protocol => "protocol",
    /// Counts of the season without names.
    Counts => "counts",
    /// Accounts and paired devices.
    Accounts => "accounts",
    /// Who saw and changed one record.
    AuditOfRecord => "audit-of-record",
    /// Everything that anybody saw and changed.
    Audit => "audit",
    /// Record sets, faults, who was there.
    RecordSession => "record-session",
    /// Report pain, a sign, or an answer before the session.
    ReportPain => "report-pain",
    /// Confirm or override a proposal.
    Decide => "decide",
    /// Confirm the end of "out today", write water advice, close what is due.
    Settle => "settle",
    /// Sign a clearance or a limit in one's own name.
    SignLetter => "sign-letter",
    /// File a letter that somebody licensed has signed.
    FileLetter => "file-letter",
    /// Record screening, intake, growth.
    Examine => "examine",
    /// Change the roster.
    EditRoster => "edit-roster",
    /// Record a consent.
    RecordConsent => "record-consent",
    /// Withdraw a consent.
    WithdrawConsent => "withdraw-consent",
    /// Change practices, meets, periods.
    EditCalendar => "edit-calendar",
    /// Change kit, record an inspection.
    EditKit => "edit-kit",
    /// Import files.
    Import => "import",
    /// Change the protocol.
    EditProtocol => "edit-protocol",
    /// Make, invite, close accounts.
    ManageAccounts => "manage-accounts",
    /// Pair a deck device.
    PairDevice => "pair-device",
    /// End the pairing of a deck device.
    EndDevice => "end-device",
    /// Make a backup into the club's folder.
    Backup => "backup",
    /// Hand out one person's whole record.
    Archive => "archive",
    /// Erase one person.
    Erase => "erase",
    /// Set for how long records are kept.
    SetRetention => "set-retention",
}

/// One row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// What.
    pub thing: Thing,
    /// Owner, practitioner, supervisor, head coach, administrator, swimmer, guardian: the order of [`crate::role::Role::ALL`].
    pub reach: [Reach; 7],
    /// Takes a licence that is valid on the day.
    pub licence: bool,
}

const fn row(thing: Thing, reach: [Reach; 7]) -> Row {
    Row { thing, reach, licence: false }
}

/// The table. Columns: owner, practitioner, supervisor, head coach, administrator, swimmer, guardian.
#[rustfmt::skip]
pub const TABLE: &[Row] = &[
    row(Thing::Roster,          [All, All, All,     All,     All,     Own,     Own]),
    row(Thing::Personal,        [All, All, Nothing, Nothing, All,     Own,     Own]),
    row(Thing::Availability,    [All, All, All,     All,     Nothing, Own,     Own]),
    row(Thing::WaterAdvice,     [All, All, All,     All,     Nothing, Own,     Own]),
    row(Thing::Attendance,      [All, All, All,     All,     Nothing, Own,     Own]),
    row(Thing::Card,            [All, All, All,     Nothing, Nothing, Own,     Own]),
    row(Thing::Today,           [All, All, All,     Nothing, Nothing, Own,     Own]),
    row(Thing::Emergency,       [All, All, All,     Nothing, Nothing, Own,     Own]),
    row(Thing::Pain,            [All, All, Nothing, Nothing, Nothing, Own,     Own]),
    row(Thing::Health,          [All, All, Nothing, Nothing, Nothing, Own,     Own]),
    row(Thing::Screening,       [All, All, Nothing, Nothing, Nothing, Own,     Own]),
    row(Thing::History,         [All, All, Nothing, Nothing, Nothing, Own,     Agreed]),
    row(Thing::Letters,         [All, All, Nothing, Nothing, Nothing, Own,     Own]),
    row(Thing::Notes,           [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::Consent,         [All, All, Nothing, Nothing, All,     Own,     Own]),
    row(Thing::Calendar,        [All, All, All,     All,     All,     All,     All]),
    row(Thing::Kit,             [All, All, All,     All,     All,     Nothing, Nothing]),
    row(Thing::Protocol,        [All, All, All,     All,     All,     All,     All]),
    row(Thing::Counts,          [All, All, Nothing, All,     All,     Nothing, Nothing]),
    row(Thing::Accounts,        [All, Nothing, Nothing, Nothing, All, Nothing, Nothing]),
    row(Thing::AuditOfRecord,   [All, All, Nothing, Nothing, Nothing, Own,     Own]),
    row(Thing::Audit,           [All, Nothing, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::RecordSession,   [All, All, All,     Nothing, Nothing, Nothing, Nothing]),
    row(Thing::ReportPain,      [All, All, All,     Nothing, Nothing, Own,     Own]),
    row(Thing::Decide,          [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::Settle,          [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    Row { thing: Thing::SignLetter, licence: true,
          reach: [All, All, Nothing, Nothing, Nothing, Nothing, Nothing] },
    row(Thing::FileLetter,      [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::Examine,         [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::EditRoster,      [All, All, Nothing, Nothing, All,     Nothing, Nothing]),
    row(Thing::RecordConsent,   [All, All, Nothing, Nothing, All,     Nothing, Nothing]),
    row(Thing::WithdrawConsent, [All, All, Nothing, Nothing, All,     Own,     Own]),
    row(Thing::EditCalendar,    [All, All, Nothing, Nothing, All,     Nothing, Nothing]),
    row(Thing::EditKit,         [All, All, All,     Nothing, Nothing, Nothing, Nothing]),
    row(Thing::Import,          [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::EditProtocol,    [All, Nothing, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::ManageAccounts,  [All, Nothing, Nothing, Nothing, All, Nothing, Nothing]),
    row(Thing::PairDevice,      [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::EndDevice,       [All, All, Nothing, Nothing, All,     Nothing, Nothing]),
    row(Thing::Backup,          [All, Nothing, Nothing, Nothing, All, Nothing, Nothing]),
    row(Thing::Archive,         [All, All, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::Erase,           [All, Nothing, Nothing, Nothing, Nothing, Nothing, Nothing]),
    row(Thing::SetRetention,    [All, Nothing, Nothing, Nothing, Nothing, Nothing, Nothing]),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_has_one_row_and_its_own_word() {
        assert_eq!(TABLE.iter().map(|row| row.thing).collect::<Vec<_>>(), Thing::ALL);
        for thing in Thing::ALL {
            assert_eq!(Thing::from_word(thing.word()), Some(*thing));
        }
    }

    /// The trade's own list, row by row, typed in from the handbook (A.4) and not from the table: practitioner,
    /// assistant, coach, guardian, swimmer.
    #[test]
    fn the_table_says_what_the_trade_says() {
        let says = [
            (&[Thing::Availability, Thing::Attendance][..], [All, All, All, Own, Own]),
            (&[Thing::Card], [All, All, Nothing, Own, Own]),
            (&[Thing::Pain], [All, Nothing, Nothing, Own, Own]),
            (&[Thing::Today], [All, All, Nothing, Own, Own]),
            (&[Thing::History], [All, Nothing, Nothing, Agreed, Own]),
            (&[Thing::Emergency], [All, All, Nothing, Own, Own]),
            (&[Thing::Letters], [All, Nothing, Nothing, Own, Own]),
            (&[Thing::Notes], [All, Nothing, Nothing, Nothing, Nothing]),
        ];
        for (things, [practitioner, assistant, coach, guardian, swimmer]) in says {
            for thing in things {
                let row = TABLE.iter().find(|row| row.thing == *thing).unwrap();
                let [owner, second, supervisor, head_coach, administrator, own, ward] = row.reach;
                assert_eq!([owner, second], [practitioner; 2], "{thing:?}");
                assert_eq!([supervisor, head_coach], [assistant, coach], "{thing:?}");
                assert_eq!([ward, own], [guardian, swimmer], "{thing:?}");
                assert_eq!(administrator, Nothing, "{thing:?}: no clinical content for the administrator");
            }
        }
    }
}
