//! Facts in one SQLite file: append-only, acknowledged only after commit, one owner.
//!
//! The store knows nothing of the trade: a kind is a word, a payload is JSON. It reads no clock; times are the
//! caller's. It draws random bits for salts and fresh ids, so it belongs to the edge of the program.
//!
//! What holds, whatever the order in which facts arrive, and however often:
//!
//! - a stored fact never changes; a correction names the one fact it replaces, and a retraction is a correction
//!   without a value;
//! - state is a function of the *set* of facts ([`Store::digest_of_state`] is its witness);
//! - the file is refused, and left as it is, if it is damaged, another program's or a newer version's;
//! - erasing a person ([`Store::erase_subject`]) leaves tombstones, and the audit chain still verifies.
//!
//! Two limits: of two contents under one id, the first to arrive is kept, and the other waits for a person
//! ([`Store::open_refusals`]); and backups or exports made before an erasure still hold what was erased.
//!
//! Start at [`Store::open`], [`Store::append`] and [`Store::live_facts`].

mod append;
mod backup;
mod chain;
mod content;
mod document;
mod door;
mod erase;
mod error;
mod fact;
mod file;
mod id;
mod import;
mod lock;
mod open;
mod payload;
mod read;
mod record;
mod refusal;
mod resolve;
mod row;
mod schema;
#[cfg(test)]
mod testing;

use rusqlite::Connection;

pub use append::{Batch, OnRefusal, Outcome, Receipt};
pub use chain::{ChainFault, ChainHead, ChainVerdict};
pub use content::{content_hash, deterministic_id, import_id};
pub use door::{
    AccountRow, AuditRow, AuditVerdict, BindingRow, CodeRow, DeviceRow, DoorGate, NewAudit, SessionRow, Via,
};
pub use erase::{Erasure, ErasureReport};
pub use error::Error;
pub use fact::{Correction, Fact, LiveFact, NewFact, Problem, Tombstone};
pub use id::{Digest, FactId, NotAnId, SubjectId};
pub use import::ImportStep;
pub use open::Open;
pub use payload::{NotAPayload, Payload};
pub use read::Counts;
pub use record::{Record, replay};
pub use refusal::{Closing, Refusal};
pub use resolve::Conflict;

/// One open store. Reading needs `&self`, writing `&mut self`; it can be moved between threads, not shared.
#[derive(Debug)]
pub struct Store {
    // Closed before the lock is let go: fields are dropped in this order.
    connection: Connection,
    revision: u64,
    _lock: Option<lock::Lock>,
}
