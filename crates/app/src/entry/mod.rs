//! The door at the desk: accounts, signing in, devices, and who saw and changed what.
//!
//! The rules are in the crate `door`, the rows in the store; here both meet the record. Everything slow (a password's
//! hash) and everything random (ids, tokens, codes) is made by the caller and handed in, so that no lock is held
//! while a password is hashed: `Desk::begin_sign_in`, then [`TryIn::check`] beside the lock, then
//! `Desk::finish_sign_in`.
//!
//! - [`account`]: making, changing and closing accounts.
//! - [`sign_in`]: name and password; [`session`]: what comes after, and the way out.
//! - [`code`]: invitation, recovery, pairing a deck device.
//! - [`permit`]: may this person do that; recording in somebody's name.
//! - [`audit`]: who saw and changed what.
//! - [`install`]: the steps on a phone.
//! - [`problem`]: why not, as sentences.

pub mod account;
pub mod audit;
pub mod code;
pub mod install;
pub mod permit;
pub mod problem;
pub mod session;
pub mod sign_in;

pub use account::{Account, NewAccount};
pub use audit::Seen;
pub use code::{Device, NewCode};
pub use session::Known;
pub use sign_in::{Begun, Checked, SignedIn, TryIn};

use door::Stamp;
use door::principal::{Principal, Subject, Via};
use store::SubjectId;

use crate::desk::Author;
use crate::moment::Moment;

/// The instant as the door counts it.
pub(crate) fn stamp(moment: &Moment) -> Stamp {
    Stamp(moment.unix_millis)
}

/// A swimmer as the door names one.
pub fn subject_of(subject: SubjectId) -> Subject {
    Subject(subject.uuid())
}

/// Who writes, for the record.
pub fn author_of(who: &Principal) -> Author {
    let device = match who.via {
        Via::Account(_) => "browser".to_owned(),
        Via::Device(id) => format!("deck {}", id.0),
        Via::Laptop => "laptop".to_owned(),
    };
    Author { name: who.name.clone(), device }
}

pub(crate) fn via_row(via: Via) -> store::Via {
    match via {
        Via::Account(id) => store::Via::Account(id.0),
        Via::Device(id) => store::Via::Device(id.0),
        Via::Laptop => store::Via::Laptop,
    }
}
