//! The door's rows: accounts, sessions, devices, codes, tries and the audit.
//!
//! The store gives them no meaning: a role or a purpose is a word, a password is a string that somebody else made, a
//! time is the caller's. Nothing of it enters the log of facts or moves [`Store::revision`] on. What belongs
//! together is written together: [`Store::at_door`] is one transaction.

mod audit;
mod read;
mod write;

use uuid::Uuid;

use crate::Store;

pub use audit::{AuditRow, AuditVerdict, NewAudit, Via};
pub use write::DoorGate;

/// An account.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AccountRow {
    /// Id.
    pub id: Uuid,
    /// Role, as a word.
    pub role: String,
    /// When it was made, in milliseconds since the epoch.
    pub created: u64,
    /// Login name as it is compared; none once closed.
    pub login: Option<String>,
    /// Name; blank once its person is erased.
    pub name: String,
    /// What is kept of the password; none until an invitation has been taken up, and once closed.
    pub password: Option<String>,
    /// Licence number and its last day.
    pub licence: Option<(String, String)>,
    /// Whoever may has confirmed it.
    pub confirmed: bool,
    /// When it was closed.
    pub closed: Option<u64>,
}

/// A session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SessionRow {
    /// Hash of its token.
    pub token: [u8; 32],
    /// Whose.
    pub account: Uuid,
    /// Began.
    pub began: u64,
    /// Last use that was noted.
    pub seen: u64,
}

/// A paired device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceRow {
    /// Id.
    pub id: Uuid,
    /// Hash of its token; none once ended.
    pub token: Option<[u8; 32]>,
    /// What people call it.
    pub label: String,
    /// Who paired it; none for the laptop's own command line.
    pub paired_by: Option<Uuid>,
    /// Paired.
    pub began: u64,
    /// Last use that was noted.
    pub seen: u64,
    /// Ended.
    pub ended: Option<u64>,
}

/// An open one-time code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CodeRow {
    /// Id; it salts the hash.
    pub id: Uuid,
    /// What it is for, as a word.
    pub purpose: String,
    /// For which account; none for a pairing.
    pub account: Option<Uuid>,
    /// Who made it; none for the laptop's own command line.
    pub made_by: Option<Uuid>,
    /// Hash.
    pub hash: [u8; 32],
    /// Holds until before this instant.
    pub ends: u64,
    /// Wrong tries.
    pub wrong: u8,
}

/// A swimmer that an account is bound to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BindingRow {
    /// Who.
    pub subject: crate::SubjectId,
    /// The swimmer agreed that the history is seen too.
    pub history: bool,
}
